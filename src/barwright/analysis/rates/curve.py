"""Load, rate and wheel of a corner over its travel."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.linkage.alignment import Alignment
from barwright.mechanics.linkage.arm_and_strut import Motion
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    ANGLE,
    FORCE,
    LENGTH,
    TORQUE,
    WHEEL_RATE,
    Kind,
    QuantityArray,
    quantity,
    same,
)

__all__ = ["POINTS", "RateCurve", "loads_and_rates", "rate_curve"]

POINTS = 41
"""Places of a curve, from full droop to full bump."""


def _same_if_known(value: QuantityArray | None) -> tuple[str, bytes] | None:
    """Key by which two arrays that may be missing are equal."""
    return None if value is None else same(value)


@attrs.frozen(kw_only=True, repr=False)
class RateCurve(Summarised):
    """Load, rate and wheel over the travel, from full droop to full bump.

    Figures are read-only arrays of one length.

    Parameters
    ----------
    arm_angle, height, torque, wheel_load, wheel_rate : QuantityArray
        As in a :class:`~barwright.analysis.rates.corner_state.CornerState`.
    camber_change : QuantityArray
        Lean of the wheel against the body since rest, of a wheel that is upright and
        straight ahead there; positive if its top leans outward.
    track_change : QuantityArray
        Shift outward of the tyre contact since rest.
    motion_ratio : tuple of float
        Shortening of the damper for a unit of vertical travel where the load acts.
    wheelbase_change : QuantityArray, optional
        Shift forward of the tyre contact since rest, as a bar that lies across the vehicle or
        is inclined gives it; none in an answer of an older version.
    """

    arm_angle: QuantityArray = attrs.field(eq=same)
    height: QuantityArray = attrs.field(eq=same)
    torque: QuantityArray = attrs.field(eq=same)
    wheel_load: QuantityArray = attrs.field(eq=same)
    wheel_rate: QuantityArray = attrs.field(eq=same)
    camber_change: QuantityArray = attrs.field(eq=same)
    track_change: QuantityArray = attrs.field(eq=same)
    motion_ratio: tuple[float, ...]
    wheelbase_change: QuantityArray | None = attrs.field(default=None, eq=_same_if_known)


def rate_curve(corner: Corner, spring: TorsionalRates, free: float, *, rest: float) -> RateCurve:
    """Follow a corner over its travel, for a free angle and an arm angle at rest [rad]."""
    motion, common = _followed(corner, spring, free=free)
    shift = _contact_shift(corner, motion, rest=rest)
    track_change = corner.plane.track_change(**shift, wheel_side=corner.wheel_side)
    return RateCurve(
        **common,
        camber_change=_array(_camber_change(corner, motion, rest=rest), ANGLE),
        track_change=_array(track_change, LENGTH),
        wheelbase_change=_array(corner.plane.wheelbase_change(**shift), LENGTH),
    )


@once_a_corner(of_either_side)
def _followed(
    corner: Corner, spring: TorsionalRates, *, free: float
) -> tuple[Motion, dict[str, Any]]:
    """Follow a corner over its travel: its suspension, and fields that both sides share."""
    angle = np.linspace(*corner.travel, POINTS)
    motion = corner.motion(angle)
    torque, load, wheel_rate = loads_and_rates(corner, spring, free, motion)
    return motion, {
        "arm_angle": _array(angle, ANGLE),
        "height": _array(corner.arch_height - motion.hub.height, LENGTH),
        "torque": _array(torque, TORQUE),
        "wheel_load": _array(load, FORCE),
        "wheel_rate": _array(wheel_rate, WHEEL_RATE),
        "motion_ratio": tuple(np.asarray(motion.motion_ratio).tolist()),
    }


def loads_and_rates(
    corner: Corner, spring: TorsionalRates, free: float, motion: Motion
) -> tuple[Real, Real, Real]:
    """Find the bar's torque [N·m], load and rate at the wheel [N, N/m] along a motion.

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    free : float
        Arm angle without torque [rad].
    motion : Motion
        Its suspension at some arm angles.

    Returns
    -------
    (array, array, array)
    """
    torque, rate = corner.hold(motion.angle - free, rate=spring.system)
    load = statics.wheel_load(motion, torque=torque, springs=corner.springs)
    wheel_rate = statics.wheel_rate(motion, rate=rate, load=load, springs=corner.springs)
    return torque, load, wheel_rate


def _array(numbers: Real, kind: Kind) -> QuantityArray:
    return quantity(np.asarray(numbers), kind)


def _camber_change(corner: Corner, motion: Motion, *, rest: float) -> Real:
    """Lean of the wheel since rest [rad]."""
    tilt = motion.tilt - corner.motion(rest).tilt
    return Alignment().tilted(tilt, plane=corner.plane, wheel_side=corner.wheel_side).camber


def _contact_shift(corner: Corner, motion: Motion, *, rest: float) -> dict[str, Real]:
    """Shift of the tyre contact in the plane since rest, outboard and in height [m].

    Where the load acts at the hub the contact stays straight under it, so that in both
    cases it shifts as the load point does.
    """
    now, then = motion.load, corner.motion(rest).load
    return {
        "outboard": now.outboard - then.outboard,
        "height": (now.height - then.height) / corner.plane.vertical_share,
    }
