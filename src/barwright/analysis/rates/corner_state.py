"""State of a corner at an arm angle: solved in SI floats, and described in quantities."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.mechanics.bar import torsion
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.corner import statics
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    ANGLE,
    FORCE,
    LENGTH,
    STRESS,
    TORQUE,
    WHEEL_RATE,
    Quantity,
    quantity,
)

__all__ = [
    "CornerState",
    "SolvedState",
    "SolvedStates",
    "described",
    "solved_state",
    "solved_states",
]


@attrs.frozen(kw_only=True)
class SolvedState:
    """A corner at one arm angle, SI floats.

    Parameters
    ----------
    angle, twist : float
        Of the arm above the horizontal, and of bar and tube together [rad].
    height : float
        Hub to arch [m].
    torque : float
        Of the bar [N·m].
    shear_stress : float
        At the surface of the bar's body [Pa].
    wheel_load, wheel_rate : float
        Vertical, at the wheel [N, N/m].
    damper_length : float
        Between its mounts [m].
    """

    angle: float
    height: float
    twist: float
    torque: float
    shear_stress: float
    wheel_load: float
    wheel_rate: float
    damper_length: float


@attrs.frozen(kw_only=True)
class SolvedStates:
    """A corner at full droop, at rest and at full bump, SI floats.

    Parameters
    ----------
    droop, ride, bump : SolvedState
        The corner there.
    system_rate : float
        Of bar and tube together [N·m/rad].
    """

    droop: SolvedState
    ride: SolvedState
    bump: SolvedState
    system_rate: float


@attrs.frozen(kw_only=True, repr=False)
class CornerState(Summarised):
    """A corner at one arm angle.

    Parameters
    ----------
    arm_angle : Quantity
        Above the horizontal.
    height : Quantity
        Hub to arch.
    twist : Quantity
        Of bar and tube together; negative below the free angle, where the bar is
        slack unless a fixed socket holds it.
    torque : Quantity
        Of the bar; none where it is slack, since the adjuster cannot push; negative
        where the bar pulls the arm up.
    shear_stress : Quantity
        At the surface of the bar's body.
    wheel_load : Quantity
        Vertical load that the corner carries there.
    wheel_rate : Quantity
        Vertical rate at the wheel.
    damper_length : Quantity
        Between its mounts.
    stroke_to_closed, stroke_to_open : Quantity
        What is left of the damper's stroke.
    """

    arm_angle: Quantity
    height: Quantity
    twist: Quantity
    torque: Quantity
    shear_stress: Quantity
    wheel_load: Quantity
    wheel_rate: Quantity
    damper_length: Quantity
    stroke_to_closed: Quantity
    stroke_to_open: Quantity


def solved_state(
    corner: Corner, spring: TorsionalRates, *, angle: float, free_angle: float
) -> SolvedState:
    """Solve a corner at an arm angle [rad] for a free angle [rad]."""
    motion = corner.motion(angle)
    twist = angle - free_angle
    torque, rate = (plain(x) for x in corner.hold(twist, rate=spring.system))
    load = statics.wheel_load(motion, torque=torque, springs=corner.springs)
    wheel_rate = statics.wheel_rate(motion, rate=rate, load=load, springs=corner.springs)
    sizes = {"diameter": metres(corner.setup.bar.diameter), "bore": metres(corner.setup.bar.bore)}
    return SolvedState(
        angle=angle,
        height=plain(corner.arch_height - motion.hub.height),
        twist=twist,
        torque=torque,
        shear_stress=plain(torsion.shear_stress(torque, **sizes)),
        wheel_load=plain(load),
        wheel_rate=plain(wheel_rate),
        damper_length=plain(motion.damper_length),
    )


def solved_states(
    corner: Corner, spring: TorsionalRates, *, ride: float, free_angle: float
) -> SolvedStates:
    """Solve a corner at its stops and at a ride angle [rad] for a free angle [rad]."""
    low, high = corner.travel
    droop, at_ride, bump = (
        solved_state(corner, spring, angle=angle, free_angle=free_angle)
        for angle in (low, ride, high)
    )
    return SolvedStates(droop=droop, ride=at_ride, bump=bump, system_rate=spring.system)


@once_a_corner(of_either_side)
def described(corner: Corner, solved: SolvedState) -> CornerState:
    """Describe a corner as it is solved."""
    damper, length = corner.setup.damper, solved.damper_length
    return CornerState(
        arm_angle=quantity(solved.angle, ANGLE),
        height=quantity(solved.height, LENGTH),
        twist=quantity(solved.twist, ANGLE),
        torque=quantity(solved.torque, TORQUE),
        shear_stress=quantity(solved.shear_stress, STRESS),
        wheel_load=quantity(solved.wheel_load, FORCE),
        wheel_rate=quantity(solved.wheel_rate, WHEEL_RATE),
        damper_length=quantity(length, LENGTH),
        stroke_to_closed=quantity(length - metres(damper.closed_length), LENGTH),
        stroke_to_open=quantity(metres(damper.open_length) - length, LENGTH),
    )
