"""How far the tolerances of the parts' figures leave the free angle open (first order)."""

from __future__ import annotations

import math

from barwright.analysis.fit import LengthFit
from barwright.analysis.model import CornerModel, metres
from barwright.analysis.ride import Springing
from barwright.mechanics.corner import STANDARD_GRAVITY
from barwright.parts.source import Record
from barwright.units import ANGLE, LENGTH, MASS, SHEAR_MODULUS, Kind, si

__all__ = ["free_angle_tolerance"]


def free_angle_tolerance(
    model: CornerModel, spring: Springing, *, twist: float, slope: float, fit: LengthFit
) -> float:
    r"""Half width of the interval that the wanted free angle lies in, as far as is known.

    .. math:: u^2 = \left(\theta \frac{u_k}{k}\right)^2 + \left(\frac{z'}{k} u_F\right)^2
              + u_{\kappa,\mathrm{arm}}^2 + u_{\kappa,\mathrm{anchor}}^2 + u_\delta^2

    Parameters
    ----------
    model : CornerModel
        The corner.
    spring : Springing
        Its rates.
    twist : float
        Twist at ride [rad].
    slope : float
        Change of the load point's height with arm angle at ride [m/rad].
    fit : LengthFit
        How the bar lies.

    Returns
    -------
    float [rad]
        0 if no figure has a tolerance.

    References
    ----------
    JCGM 100:2008 (GUM), first-order propagation; half widths are combined as if
    they were standard uncertainties.
    """
    setup = model.setup
    load = _spread(setup.load, "mass", MASS) * STANDARD_GRAVITY
    return math.hypot(
        twist * _rate_share(model, spring, fit),
        slope * load / spring.system,
        _spread(setup.arm.socket, "key_angle", ANGLE),
        _spread(setup.tube.socket, "key_angle", ANGLE),
        _spread(setup.bar, "blank_angle", ANGLE),
    )


def _rate_share(model: CornerModel, spring: Springing, fit: LengthFit) -> float:
    """Relative tolerance of the rate of bar and tube in series."""
    bar, tube = model.setup.bar, model.setup.tube
    active = metres(fit.active_length)
    in_bar = math.hypot(
        _section(metres(bar.diameter), metres(bar.bore), _spread(bar, "diameter", LENGTH)),
        _modulus(bar.material),
        _spread(bar, "length", LENGTH) / active,
    )
    in_tube = math.hypot(
        _section(
            metres(tube.outside_diameter),
            metres(tube.bore),
            _spread(tube, "outside_diameter", LENGTH),
        ),
        _modulus(tube.material),
    )
    return math.hypot(in_bar * spring.system / spring.bar, in_tube * spring.system / spring.tube)


def _section(diameter: float, bore: float, spread: float) -> float:
    """Relative change of the polar second moment with the diameter's tolerance."""
    return 4.0 * diameter**3 * spread / (diameter**4 - bore**4)


def _modulus(material: Record) -> float:
    known = material.about["shear_modulus"]
    return _spread(material, "shear_modulus", SHEAR_MODULUS) / si(known.value, SHEAR_MODULUS)


def _spread(record: Record, field: str, kind: Kind) -> float:
    """Tolerance of a field in SI units; 0 where none is given."""
    known = record.about.get(field)
    return si(known.tolerance, kind) if known and known.tolerance is not None else 0.0
