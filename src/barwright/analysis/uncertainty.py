"""How far the tolerances of the parts' figures leave the free angle open (first order)."""

from __future__ import annotations

import math
from typing import Any, cast

import attrs

from barwright.analysis.fit import LengthFit
from barwright.analysis.model import CornerModel, metres, radians
from barwright.analysis.ride import Springing
from barwright.mechanics import corner
from barwright.mechanics.corner import STANDARD_GRAVITY
from barwright.parts.bar import Bar
from barwright.parts.source import Record
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, MASS, SHEAR_MODULUS, Kind, si

__all__ = ["free_angle_tolerance", "reserve_tolerance"]


def free_angle_tolerance(
    model: CornerModel, spring: Springing, *, angle: float, free_angle: float, fit: LengthFit
) -> float:
    r"""Half width of the interval that the lever's angle lies in, as far as is known.

    .. math:: u^2 = \left(\theta \frac{u_k}{k}\right)^2 + \left(\frac{z'}{k} u_F\right)^2
              + \left(\frac{\mathrm{d}\varphi_\mathrm{free}}{\mathrm{d}\varphi}
              u_\varphi\right)^2 + u_{\kappa,\mathrm{arm}}^2
              + u_{\kappa,\mathrm{anchor}}^2 + u_\delta^2 + u_\alpha^2

    Parameters
    ----------
    model : CornerModel
        The corner.
    spring : Springing
        Its rates.
    angle, free_angle : float
        Arm angle at ride, and without torque [rad].
    fit : LengthFit
        How the bar lies.

    Returns
    -------
    float [rad]
        0 if no figure has a tolerance.

    Notes
    -----
    :math:`u_\varphi` comes from the chassis' measured pair of height and arm
    angle, :math:`u_\alpha` from the lengths of the lever and of the bolt's
    mounting.  A wish that is itself an arm angle is charged with it all the same.

    References
    ----------
    JCGM 100:2008 (GUM), first-order propagation; half widths are combined as if
    they were standard uncertainties.
    """
    setup = model.setup
    motion = model.linkage.motion(angle)
    load = _spread(setup.load, "mass", MASS) * STANDARD_GRAVITY
    follows = corner.arm_per_free_angle(
        motion, rate=spring.system, load=model.load, springs=model.springs
    )
    return math.hypot(
        (angle - free_angle) * _rate_share(model, spring, fit),
        float(motion.load.slope) * load / spring.system,
        _arm_angle(model, float(motion.hub.slope)) / float(follows),
        _clocked(model),
    )


def reserve_tolerance(model: CornerModel, *, damper_on: bool) -> float:
    r"""Half width of the interval that the reserve of an unloaded bar lies in.

    .. math:: u^2 = u_{\kappa,\mathrm{arm}}^2 + u_{\kappa,\mathrm{anchor}}^2 + u_\delta^2
              + u_\alpha^2 + u_\mathrm{stop}^2

    Parameters
    ----------
    model : CornerModel
        The corner.
    damper_on : bool
        Whether the damper holds the arm, or only the chassis' own stop.

    Returns
    -------
    float [rad]
        0 if no figure has a tolerance.

    Notes
    -----
    A bar that carries no torque does not ask for a rate or a load.

    References
    ----------
    JCGM 100:2008 (GUM), first-order propagation; half widths are combined as if
    they were standard uncertainties.
    """
    return math.hypot(_clocked(model), _stop(model, damper_on=damper_on))


def _clocked(model: CornerModel) -> float:
    """Tolerance of the free angle at one clocking and one place of the nut [rad]."""
    setup = model.setup
    return math.hypot(
        _spread(setup.arm.socket, "key_angle", ANGLE),
        _spread(setup.tube.socket, "key_angle", ANGLE),
        _spread(setup.bar, "blank_angle", ANGLE),
        _lever(model),
    )


def _stop(model: CornerModel, *, damper_on: bool) -> float:
    """Tolerance of the angle at which an arm hangs [rad]."""
    hanging, stop = model.travel[0], model.stops[0]
    if damper_on and hanging > stop:
        slope = float(model.linkage.motion(hanging).damper_slope)
        return _spread(model.setup.damper, "open_length", LENGTH) / abs(slope)
    return _spread(model.setup.axle, "droop_stop", ANGLE)


def _arm_angle(model: CornerModel, slope: float) -> float:
    """Tolerance of the arm angle at a height, from the chassis' measured pair [rad]."""
    axle = model.setup.axle
    there = model.linkage.motion(radians(axle.measured_angle)).hub.slope
    height = math.hypot(
        _spread(axle, "measured_height", LENGTH),
        _spread(axle, "measured_angle", ANGLE) * float(there),
    )
    return height / slope


def _lever(model: CornerModel) -> float:
    """Tolerance of the lever's angle at one place of the nut, or of a fixed socket [rad]."""
    tube, adjuster = model.setup.tube, model.setup.adjuster
    if adjuster is None:
        return _spread(tube, "anchor_angle", ANGLE)
    mounting = adjuster.mounting
    lengths = {
        "lever_radius": _spread(tube, "lever_radius", LENGTH),
        "face_offset": _spread(tube, "face_offset", LENGTH),
        "pivot_distance": _spread(mounting, "pivot_distance", LENGTH),
        "line_distance": _spread(mounting, "line_distance", LENGTH),
        "foot_position": _spread(mounting, "foot_position", LENGTH),
        "end_radius": _spread(mounting, "end_radius", LENGTH),
    }
    own = {field.name for field in attrs.fields(cast("Any", type(model.anchorage)))}
    return math.hypot(
        *(_moved(model, n, x) for n, x in lengths.items() if n in own),
        _spread(mounting, "pivot_angle", ANGLE),
        _spread(mounting, "foot_angle", ANGLE),
    )


def _moved(model: CornerModel, name: str, spread: float) -> float:
    """Half of what the lever's angle changes between both ends of a length's tolerance."""
    value, usual = getattr(model.anchorage, name), cast("Any", model.anchorage)
    ends = (attrs.evolve(usual, **{name: value + side * spread}) for side in (-1.0, 1.0))
    low, high = (float(bolt.lever_angle(model.setting_middle)) for bolt in ends)
    return abs(high - low) / 2.0


def _rate_share(model: CornerModel, spring: Springing, fit: LengthFit) -> float:
    """Relative tolerance of the rate of bar and tube in series."""
    bar, tube = model.setup.bar, model.setup.tube
    # Each spring's share of the whole's compliance.
    by_bar = spring.system / spring.bar
    in_bar = by_bar * math.hypot(
        _section(bar, "diameter"), _spread(bar, "length", LENGTH) / metres(fit.active_length)
    )
    if spring.tube is None or not isinstance(tube, Tube):
        return math.hypot(in_bar, _modulus(bar.material))
    by_tube = spring.system / spring.tube
    in_tube = by_tube * _section(tube, "outside_diameter")
    moduli = by_bar * _modulus(bar.material), by_tube * _modulus(tube.material)
    # Two parts of one steel err the same way.
    modulus = sum(moduli) if bar.material == tube.material else math.hypot(*moduli)
    return math.hypot(in_bar, in_tube, modulus)


def _section(part: Bar | Tube, outside: str) -> float:
    """Relative change of the polar second moment with the tolerances of a section."""
    diameter, bore = metres(getattr(part, outside)), metres(part.bore)
    spreads = (_spread(part, outside, LENGTH), _spread(part, "bore", LENGTH))
    return (
        4.0 * math.hypot(diameter**3 * spreads[0], bore**3 * spreads[1]) / (diameter**4 - bore**4)
    )


def _modulus(material: Record) -> float:
    known = material.about["shear_modulus"]
    return _spread(material, "shear_modulus", SHEAR_MODULUS) / si(known.value, SHEAR_MODULUS)


def _spread(record: Record, field: str, kind: Kind) -> float:
    """Tolerance of a field in SI units; 0 where none is given."""
    known = record.about.get(field)
    return si(known.tolerance, kind) if known and known.tolerance is not None else 0.0
