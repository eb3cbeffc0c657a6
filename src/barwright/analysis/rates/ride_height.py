"""Height and support of a corner at rest."""

from __future__ import annotations

from typing import cast

import attrs
import numpy as np

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.out_of_range import (
    height_meant,
    refuse_unbearable_load,
)
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.corner_state import SolvedState
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.parts.wanted import Wanted
from barwright.units import (
    ANGLE,
    LENGTH,
    TORQUE,
    TORSIONAL_RATE,
    Quantity,
    quantity,
    si,
)

__all__ = [
    "TIGHTENED_THERE",
    "free_angle_for",
    "no_torque",
    "on_a_stop",
    "out_of_travel",
    "reachable",
    "rest_angle",
    "rest_angles",
    "slackness",
    "standing_height",
    "wanted_angle",
    "wanted_height",
    "with_height",
    "wound_bushings",
]


def on_a_stop(corner: Corner, angle: float) -> tuple[Finding, ...]:
    """Say that a corner rests on a limit of its travel, if it does."""
    stops = {corner.travel[0]: "droop", corner.travel[1]: "bump"}
    if angle not in stops:
        return ()
    text = f"the corner rests on its {stops[angle]} stop, not on its spring"
    return (Finding(topic=Topic.TRAVEL, text=text, figure=quantity(angle, ANGLE)),)


def rest_angle(corner: Corner, spring: TorsionalRates, free_angle: float) -> float:
    """Arm angle [rad] at rest for a free angle [rad]."""
    return float(rest_angles(corner, spring, free_angle))


def rest_angles(corner: Corner, spring: TorsionalRates, free_angles: Real) -> Real:
    """Arm angles [rad] at rest for several free angles [rad], found all at once."""
    low, high = corner.travel
    rest = statics.settle(
        corner.linkage,
        free_angle=free_angles,
        rate=spring.system,
        load=corner.load,
        droop=low,
        bump=high,
        springs=corner.springs,
        holds_both_ways=corner.anchorage.holds_both_ways,
    )
    angles: Real = rest.angle
    return angles


def wanted_angle(corner: Corner, wanted: Wanted) -> float | None:
    """Arm angle [rad] of a wish; none if it lies out of the travel."""
    if wanted.arm_angle is not None:
        angle = si(wanted.arm_angle, ANGLE)
        low, high = corner.travel
        return angle if low <= angle <= high else None
    return _angle_at(corner, metres(wanted_height(corner, wanted)))


@once_a_corner(of_either_side)
def _angle_at(corner: Corner, height: float) -> float | None:
    return corner.angle_at_height(height)


def wanted_height(corner: Corner, wanted: Wanted) -> Quantity:
    """Hub-to-arch height of a wish, the standard one if it says nothing else."""
    if wanted.arm_angle is not None:
        return quantity(float(corner.height(si(wanted.arm_angle, ANGLE))), LENGTH)
    if wanted.same_height:
        return standing_height(corner)
    return wanted.height if wanted.height is not None else corner.setup.axle.standard_height


def standing_height(corner: Corner) -> Quantity:
    """Hub-to-arch height of a corner as it stands: as it was measured, or as its figures say."""
    readings = corner.setup.readings
    if len(readings) == 1 and readings[0].height is not None:
        return readings[0].height
    # Whoever asks has found that the bar lies in both sockets.
    spring = cast("TorsionalRates", corner.torsional_rates)
    return quantity(float(corner.height(rest_angle(corner, spring, corner.free_angle))), LENGTH)


def with_height(wanted: Wanted, *, now: Corner) -> Wanted:
    """Return a wish with the height that is meant, where that is the present one.

    Parameters
    ----------
    wanted : Wanted
        The wish.
    now : Corner
        The corner as it is now.

    Returns
    -------
    Wanted
        The same where the parts of the corner do not go together, so that it has no height.
    """
    if not wanted.same_height or now.torsional_rates is None or not now.lever_closes:
        return wanted
    return attrs.evolve(wanted, same_height=False, height=standing_height(now))


def reachable(corner: Corner) -> tuple[Quantity, Quantity]:
    """Least and greatest hub-to-arch height that the travel allows."""
    low, high = corner.height_span
    return quantity(low, LENGTH), quantity(high, LENGTH)


def out_of_travel(corner: Corner, wanted: Wanted) -> Finding:
    """Say that a wish lies beyond droop or bump, and what can be reached."""
    low, high = reachable(corner)
    return Finding(
        topic=Topic.TRAVEL,
        text="the wanted height is outside the travel, hub to arch"
        + height_meant(corner, wanted, low=low, high=high),
        figure=wanted_height(corner, wanted),
        limit=low,
        upper=high,
    )


def no_torque(angle: float, *, free_angle: float) -> Finding:
    """Report a wish for which the bar would have to pull the arm up."""
    return Finding(
        topic=Topic.LOAD,
        text="gas, rubber or coil carry the load there: the bar would have to pull the arm up",
        figure=quantity(angle - free_angle, ANGLE),
        limit=quantity(0.0, ANGLE),
    )


def slackness(corner: Corner, droop: SolvedState) -> tuple[Finding, ...]:
    """Say that a bar goes slack before full droop, if it does."""
    if not corner.is_slack(droop.twist):
        return ()
    text = "the bar goes slack before full droop: its twist there would be negative"
    twist, limit = quantity(droop.twist, ANGLE), quantity(0.0, ANGLE)
    return (Finding(topic=Topic.SLACK, text=text, figure=twist, limit=limit),)


def wound_bushings(corner: Corner, angle: float) -> tuple[Finding, ...]:
    """Say that rubber bushings are wound up at rest, if they are, and what that costs."""
    bushing, tightened_at = corner.setup.axle.bushing, corner.bushing_angle
    if bushing is None or tightened_at is None:
        return ()
    wound = angle - tightened_at
    if abs(wound) <= TIGHTENED_THERE:
        return ()
    torque = wound * si(bushing.rate, TORSIONAL_RATE)
    text = "the arm's bushings were not tightened at this height: they carry torque at rest"
    return (Finding(topic=Topic.BUSHING, text=text, figure=quantity(torque, TORQUE)),)


# Closer to the angle at rest than half a degree, bushings count as tightened there.
TIGHTENED_THERE = np.radians(0.5)


@once_a_corner(of_either_side)
def free_angle_for(corner: Corner, spring: TorsionalRates, angle: float) -> float:
    """Free angle [rad] that lets a corner rest at an arm angle [rad]."""
    motion = corner.motion(angle)
    torque = float(statics.bar_torque(motion, load=corner.load, springs=corner.springs))
    refuse_unbearable_load(corner, torque)
    return angle - torque / spring.system
