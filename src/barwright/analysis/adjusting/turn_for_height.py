"""Which turn of the nut takes a vehicle from its measured height to the wanted one."""

from __future__ import annotations

import math

import attrs
import numpy as np

from barwright.analysis.adjusting.thread import thread_states
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, Span
from barwright.analysis.corner.raising import raising_sense, slack_end
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.reindex.preference import FLATS
from barwright.mechanics.common import solve
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.clocking import TurningSense
from barwright.parts.common.in_short import Summarised
from barwright.units import LENGTH, TURNS, Quantity, quantity

__all__ = ["NutCorrection", "ThreadHeights"]


@attrs.frozen(kw_only=True, repr=False)
class NutCorrection(Summarised):
    """A turn of the nut that gives the wanted height.

    Parameters
    ----------
    measured_height : Quantity
        Hub to arch at the present nut position; as computed, if not measured.
    wanted_height : Quantity
        Wanted height, hub to arch.
    height_offset : Quantity
        Measured height minus computed height.
    correcting_turns : Quantity
        Turns to make from the present nut position, to a flat, clockwise positive.
    correcting_sense : TurningSense, optional
        Sense of these turns; none if no turn is needed.
    nut_turns : Quantity
        Position of the nut afterwards, from mid-thread.
    pin_distance : Quantity
        The same, measured.
    height : Quantity
        Resulting height, hub to arch.
    """

    measured_height: Quantity
    wanted_height: Quantity
    height_offset: Quantity
    correcting_turns: Quantity
    correcting_sense: TurningSense | None
    nut_turns: Quantity
    pin_distance: Quantity
    height: Quantity


class ThreadHeights:
    """Heights over the thread of a corner.

    Parameters
    ----------
    corner : Corner
        The corner at the present nut position, known by its reading if it was measured.
    spring : TorsionalRates
        Its rates.
    offset : float
        Measured height minus computed height [m]; 0 if it was not measured.
    """

    def __init__(self, corner: Corner, spring: TorsionalRates, *, offset: float) -> None:
        self._corner = corner
        self.spring = spring
        self._set_at = corner.turns_now
        self._offset = offset

    def corrected(self, wanted: float) -> NutCorrection | None:
        """Return the turn that gives a height; none if the thread does not reach it.

        Parameters
        ----------
        wanted : float
            Hub to arch [m].

        Returns
        -------
        NutCorrection, optional
        """
        low, high = self._reached
        if not low - _HEIGHT_ROUNDING <= wanted <= high + _HEIGHT_ROUNDING:
            return None
        flats = self._flats_to(wanted)
        turns = self._set_at + flats / FLATS
        sense = TurningSense.CLOCKWISE if flats > 0 else TurningSense.COUNTER_CLOCKWISE
        return NutCorrection(
            measured_height=quantity(self._height(self._set_at), LENGTH),
            wanted_height=quantity(wanted, LENGTH),
            height_offset=quantity(self._offset, LENGTH),
            correcting_turns=quantity(flats / FLATS, TURNS),
            correcting_sense=sense if flats else None,
            nut_turns=quantity(turns, TURNS),
            pin_distance=quantity(float(self._corner.setting_at_turns(turns)), LENGTH),
            height=quantity(self._height(turns), LENGTH),
        )

    def out_of_reach(self, wanted: float) -> Finding:
        """Say that no turn gives a height [m], and which heights the thread covers."""
        low, high = self._reached
        return Finding(
            topic=Topic.THREAD,
            text="the thread, or the travel, ends before the wanted height, hub to arch",
            figure=quantity(wanted, LENGTH),
            limit=quantity(low, LENGTH),
            upper=quantity(high, LENGTH),
        )

    @property
    def _reached(self) -> Span:
        """Heights at both ends of the thread [m]."""
        one, other = (self._height(end) for end in self._corner.turns_span)
        return min(one, other), max(one, other)

    def _flats_to(self, wanted: float) -> int:
        """Flats to turn, clockwise positive, to come nearest a height [m] on the thread."""
        low, high = ((end - self._set_at) * FLATS for end in self._corner.turns_span)
        nearest = round((self._turns_at(wanted) - self._set_at) * FLATS)
        return min(max(nearest, math.ceil(low - _ROUNDING)), math.floor(high + _ROUNDING))

    def _turns_at(self, wanted: float) -> float:
        """Place of the nut at a height [m], in turns from the middle."""
        corner, slack = self._corner, slack_end(self._corner)
        raising = 1.0 if raising_sense(corner) is TurningSense.CLOCKWISE else -1.0
        low, high = corner.turns_span

        def above(raised: Real) -> tuple[Real, Real]:
            states = thread_states(corner, self.spring, np.asarray(slack + raising * raised))
            return states.height - wanted, states.rise

        return slack + raising * float(solve.rising_root(above, low=0.0, high=high - low))

    def _height(self, turns: float) -> float:
        """Hub to arch [m] at a place of the nut."""
        states = thread_states(self._corner, self.spring, np.array([turns]))
        return float(states.height[0])


# Rounding of a height that is found again from its own place [m].
_HEIGHT_ROUNDING = 1e-9

# Rounding of turns that are a whole number of flats.
_ROUNDING = 1e-6
