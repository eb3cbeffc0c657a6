"""A corner at rest at many positions of the nut, all solved at once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.rates.bolt_load import proof_load
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.corner.statics import Support
from barwright.mechanics.linkage.arm_and_strut import Motion

__all__ = ["Array", "ThreadStates", "thread_states"]

Array: TypeAlias = NDArray[np.float64]


@attrs.frozen(kw_only=True, eq=False)
class ThreadStates:
    """A corner at rest at several positions of its nut: arrays of SI floats.

    Parameters
    ----------
    turns : array
        Turns from mid-thread, clockwise positive.
    distance : array
        The same, measured along the bolt [m].
    height, droop_left, bump_left : array
        Hub to arch, and travel of the hub that is left either way [m].
    rise : array
        Rise of the car for a turn in the raising sense [m]; 0 where a stop holds it.
    torque : array
        Of the bar [N·m].
    bolt_at_ride, bolt_at_bump : array
        Load of the bolt, tension positive [N].
    support : sequence of Support
        What holds the corner.
    slack_at_droop : array of bool
        Whether the bar is slack at full droop.
    bolt_takes_set : array of bool
        Whether the bolt carries more than its proof load at full bump, if that is known.
    """

    turns: Array
    distance: Array
    height: Array
    droop_left: Array
    bump_left: Array
    rise: Array
    torque: Array
    bolt_at_ride: Array
    bolt_at_bump: Array
    support: Sequence[Support]
    slack_at_droop: NDArray[np.bool_]
    bolt_takes_set: NDArray[np.bool_]


def thread_states(corner: Corner, spring: TorsionalRates, turns: Array) -> ThreadStates:
    """Solve a corner at given positions of its nut.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster whose lever reaches it.
    spring : TorsionalRates
        Its rates.
    turns : array
        Places on the thread, in turns from its middle.

    Returns
    -------
    ThreadStates

    References
    ----------
    Equilibrium of :func:`barwright.mechanics.corner.statics.settle`.
    """
    low, high = corner.travel
    lever = np.asarray(corner.lever_at_turns(turns))
    free = lever + corner.clocked_angle
    rest = statics.settle(
        corner.linkage,
        free_angle=free,
        rate=spring.system,
        load=corner.load,
        droop=low,
        bump=high,
        springs=corner.springs,
        holds_both_ways=corner.anchorage.holds_both_ways,
    )
    angle = np.asarray(rest.angle)
    torque, stiffness = corner.hold(angle - free, rate=spring.system)
    at_bump, _ = corner.hold(high - free, rate=spring.system)
    _, held_at_droop = corner.hold(low - free, rate=1.0)
    bolt_at_bump = np.asarray(corner.anchorage.effort(at_bump, lever_angle=lever))
    height = np.asarray(corner.height(angle))
    rise = _rise(corner, corner.motion(angle), stiffness=stiffness, lever=lever)
    is_on_stop = (angle <= low) | (angle >= high)
    return ThreadStates(
        turns=turns,
        distance=np.asarray(corner.setting_at_turns(turns)),
        height=height,
        droop_left=float(corner.height(low)) - height,
        bump_left=height - float(corner.height(high)),
        rise=np.where(is_on_stop, 0.0, rise),
        torque=np.asarray(torque),
        bolt_at_ride=np.asarray(corner.anchorage.effort(torque, lever_angle=lever)),
        bolt_at_bump=bolt_at_bump,
        support=list(np.ravel(rest.support)),
        slack_at_droop=np.equal(held_at_droop, 0.0),
        bolt_takes_set=_takes_set(corner, bolt_at_bump),
    )


def _rise(corner: Corner, motion: Motion, *, stiffness: Real, lever: Array) -> Array:
    """Rise of the car [m] for a turn in the raising sense, where no stop holds it."""
    # On a stop the corner may well have no stiffness of its own.
    with np.errstate(divide="ignore", invalid="ignore"):
        follows = statics.arm_per_free_angle(
            motion, rate=stiffness, load=corner.load, springs=corner.springs
        )
        lever_per_turn = corner.setting_per_turn / corner.anchorage.slope(lever)
        rise: Array = np.abs(motion.hub.slope * follows * lever_per_turn)
    return rise


def _takes_set(corner: Corner, bolt_at_bump: Array) -> NDArray[np.bool_]:
    adjuster = corner.setup.adjuster
    proof = None if adjuster is None else proof_load(adjuster)
    most = np.inf if proof is None else proof
    return np.greater(np.abs(bolt_at_bump), most)
