"""Rows and curve of a table over the thread of an adjuster."""

from __future__ import annotations

from collections.abc import Iterator

import attrs
import numpy as np

from barwright.analysis.adjusting.thread import Array, ThreadStates, thread_states
from barwright.analysis.adjusting.unsafe_stretches import UnsafeStretch, unsafe_stretches
from barwright.analysis.assembly.slack_at_droop import only_bar_holds_lever
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.raising import slack_end
from barwright.mechanics.corner.statics import Support
from barwright.parts.common.in_short import Summarised
from barwright.units import (
    FORCE,
    HEIGHT_PER_TURN,
    LENGTH,
    TORQUE,
    TURNS,
    Quantity,
    QuantityArray,
    quantity,
    same,
)

__all__ = ["NutCurve", "NutRow", "nut_curve", "nut_rows"]

_POINTS = 41


@attrs.frozen(kw_only=True, repr=False)
class NutRow(Summarised):
    """A corner at rest with its nut at one position.

    Parameters
    ----------
    raising_turns : int
        Whole turns from the present nut position, positive if they raise the vehicle.
    nut_turns : Quantity
        Turns from mid-thread, clockwise positive.
    from_slack_end : Quantity
        Turns from the slack end of the thread.
    pin_distance : Quantity
        The same position, measured along the bolt to the lever's pin or to the bolt's end.
    height : Quantity
        Hub to arch.
    height_per_turn : Quantity
        Rise of the vehicle for a turn in the raising sense at this position; zero if a stop or
        another spring holds the corner.
    droop_left, bump_left : Quantity
        Hub travel left down to full droop, and up to full bump.
    torque : Quantity
        Of the bar.
    bolt_at_ride, bolt_at_bump : Quantity
        Load of the bolt at this height and at full bump, tension positive.
    support : Support
        What holds the corner: its bar, other springs, or a stop.
    slack_at_droop : bool
        Whether the bar is slack when the wheel hangs.
    lever_unheld : bool
        Whether nothing holds the lever on its bolt at full droop, so that this position is not
        safe.
    bolt_takes_set : bool
        Whether the bolt carries more than its proof load at full bump, if that is known.
    """

    raising_turns: int
    nut_turns: Quantity
    from_slack_end: Quantity
    pin_distance: Quantity
    height: Quantity
    height_per_turn: Quantity
    droop_left: Quantity
    bump_left: Quantity
    torque: Quantity
    bolt_at_ride: Quantity
    bolt_at_bump: Quantity
    support: Support
    slack_at_droop: bool
    lever_unheld: bool
    bolt_takes_set: bool

    @property
    def is_set(self) -> bool:
        """Whether the nut is set here."""
        return self.raising_turns == 0

    @property
    def is_safe(self) -> bool:
        """Whether this position is safe: the lever is held, and the bolt takes no set."""
        return not (self.lever_unheld or self.bolt_takes_set)


@attrs.frozen(kw_only=True, repr=False)
class NutCurve(Summarised):
    """Figures over the thread, from its slack end to its other end.

    Figures are read-only arrays of one length.

    Parameters
    ----------
    nut_turns, from_slack_end, pin_distance, height, droop_left, bump_left : QuantityArray
        As in a :class:`NutRow`.
    torque, bolt_at_ride, bolt_at_bump : QuantityArray
        As in a :class:`NutRow`.
    unsafe_stretches : tuple of UnsafeStretch
        Where the nut must not stand.
    """

    nut_turns: QuantityArray = attrs.field(eq=same)
    from_slack_end: QuantityArray = attrs.field(eq=same)
    pin_distance: QuantityArray = attrs.field(eq=same)
    height: QuantityArray = attrs.field(eq=same)
    droop_left: QuantityArray = attrs.field(eq=same)
    bump_left: QuantityArray = attrs.field(eq=same)
    torque: QuantityArray = attrs.field(eq=same)
    bolt_at_ride: QuantityArray = attrs.field(eq=same)
    bolt_at_bump: QuantityArray = attrs.field(eq=same)
    unsafe_stretches: tuple[UnsafeStretch, ...] = ()


def nut_rows(corner: Corner, spring: TorsionalRates) -> Iterator[NutRow]:
    """Solve a corner at whole turns from where its nut is set, the slack end first.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster.
    spring : TorsionalRates
        Its rates.

    Yields
    ------
    NutRow

    Raises
    ------
    QuantityError
        Q302 for a nut that is set beyond its thread.
    """
    corner.check_nut()
    place, slack = corner.turns_now, slack_end(corner)
    raising = 1 if slack < 0.0 else -1
    low, high = sorted(raising * (end - place) for end in (slack, -slack))
    counts = range(int(np.ceil(low - _ROUNDING)), int(np.floor(high + _ROUNDING)) + 1)
    turns = place + raising * np.array(counts, dtype=np.float64)
    states = thread_states(corner, spring, np.clip(turns, *corner.turns_span))
    unheld = only_bar_holds_lever(corner.setup)
    for at, count in enumerate(counts):
        yield _row(states, at, count=count, slack=slack, unheld=unheld)


def _row(states: ThreadStates, at: int, *, count: int, slack: float, unheld: bool) -> NutRow:
    return NutRow(
        raising_turns=count,
        nut_turns=quantity(float(states.turns[at]), TURNS),
        from_slack_end=quantity(abs(float(states.turns[at]) - slack), TURNS),
        pin_distance=quantity(float(states.distance[at]), LENGTH),
        height=quantity(float(states.height[at]), LENGTH),
        height_per_turn=quantity(float(states.rise[at]), HEIGHT_PER_TURN),
        droop_left=quantity(float(states.droop_left[at]), LENGTH),
        bump_left=quantity(float(states.bump_left[at]), LENGTH),
        torque=quantity(float(states.torque[at]), TORQUE),
        bolt_at_ride=quantity(float(states.bolt_at_ride[at]), FORCE),
        bolt_at_bump=quantity(float(states.bolt_at_bump[at]), FORCE),
        support=states.support[at],
        slack_at_droop=bool(states.slack_at_droop[at]),
        lever_unheld=unheld and bool(states.slack_at_droop[at]),
        bolt_takes_set=bool(states.bolt_takes_set[at]),
    )


def nut_curve(corner: Corner, spring: TorsionalRates) -> NutCurve:
    """Solve a corner over the whole thread of its adjuster, the slack end first.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster.
    spring : TorsionalRates
        Its rates.

    Returns
    -------
    NutCurve
    """
    slack = slack_end(corner)
    turns: Array = np.linspace(slack, -slack, _POINTS)
    states = thread_states(corner, spring, turns)
    return NutCurve(
        nut_turns=quantity(turns, TURNS),
        from_slack_end=quantity(np.abs(turns - slack), TURNS),
        pin_distance=quantity(states.distance, LENGTH),
        height=quantity(states.height, LENGTH),
        droop_left=quantity(states.droop_left, LENGTH),
        bump_left=quantity(states.bump_left, LENGTH),
        torque=quantity(states.torque, TORQUE),
        bolt_at_ride=quantity(states.bolt_at_ride, FORCE),
        bolt_at_bump=quantity(states.bolt_at_bump, FORCE),
        unsafe_stretches=tuple(unsafe_stretches(corner, spring, turns)),
    )


# Rounding of turns that were themselves found from others.
_ROUNDING = 1e-6
