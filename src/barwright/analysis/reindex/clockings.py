"""Clockings of a bar that can give a wanted free angle on an adjuster."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Any

from barwright.analysis.corner.corner import Corner, Span
from barwright.analysis.corner.raising import raising_sense
from barwright.analysis.reindex.preference import (
    FLATS,
    Candidate,
    SufficientThread,
    sufficient_thread,
)
from barwright.computed_once import cached_property
from barwright.mechanics.spline.clocking import TurningSense
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd, choices
from barwright.parts.wanted import Wanted
from barwright.units import HEIGHT_PER_TURN, LENGTH, TURNS, Quantity, quantity, si

__all__ = ["Clockings"]

# Rounding of a rotation in steps, and of turns, that are made of several angles.
_ROUNDING = 1e-9


class Clockings:
    """Chooses among the clockings of one corner, by tooth counts, lever and thread alone.

    Parameters
    ----------
    corner : Corner
        The corner; only what holds the bar's anchor end is read of it.
    ends : (ClockedEnd, ClockedEnd)
        The bar's ends as they are now.
    offset : float
        Wanted free angle [rad], from where it is with both blanks on their keys and the
        lever at angle 0.
    wanted : Wanted
        The most teeth to remove, and the thread to be left.
    """

    def __init__(
        self,
        corner: Corner,
        ends: tuple[ClockedEnd, ClockedEnd],
        *,
        offset: float,
        wanted: Wanted,
    ) -> None:
        self._corner = corner
        self._ends = ends
        self._offset = offset
        self._wanted = wanted

    def found(self, spans: Iterable[Span]) -> Iterator[Candidate]:
        """List the candidates that leave the lever within one of several spans [rad].

        Parameters
        ----------
        spans : iterable of (float, float)
            Least and greatest angles of the lever.

        Yields
        ------
        Candidate
            Those nearest the middle of the thread, with no more teeth to remove than are
            allowed.
        """
        within = dict.fromkeys(choice for span in spans for choice in self._between(span))
        yield from map(self.nearest, self._allowed(within))

    def _allowed(self, choices: Iterable[Choice]) -> Iterator[Choice]:
        most = self._wanted.cuts
        return (choice for choice in choices if most is None or choice.cuts <= most)

    def _between(self, levers: Span) -> list[Choice]:
        """Choices with a lever between two angles [rad], with those on the same flat."""
        low, high = (self._steps(lever) for lever in reversed(levers))
        return self._choices(
            low=low - _ROUNDING,
            high=high + _ROUNDING,
            room=2.0 * self.per_turn / FLATS / self._corner.step,
        )

    def over_a_turn(self) -> list[Choice]:
        """List the choices nearest the middle of the thread, wherever that leaves the lever."""
        # A whole turn further on, a clocking is the same one.
        half_turn = math.pi / self._corner.step
        at_middle = self.steps_at_middle
        return self._choices(low=at_middle - half_turn, high=at_middle + half_turn, room=0.0)

    def near_the_middle(self, room: float) -> Iterator[Choice]:
        """List the allowed choices within some room [rad] of the middle, near or far in it."""
        steps, at_middle = room / self._corner.step, self.steps_at_middle
        low, high = at_middle - steps, at_middle + steps
        return self._allowed(self._choices(low=low, high=high, room=2.0 * steps))

    def _choices(self, *, low: float, high: float, room: float) -> list[Choice]:
        return choices(
            *self._ends, wanted_steps=self.steps_at_middle, low=low, high=high, room=room
        )

    @property
    def steps_at_middle(self) -> float:
        """Rotation in steps, not rounded, that leaves the lever in its middle."""
        return self._steps(self._corner.lever_middle)

    def _steps(self, lever: float) -> float:
        """Rotation in steps, not rounded, that a lever angle [rad] needs."""
        return (self._offset - lever) / self._corner.step

    @cached_property
    def per_turn(self) -> float:
        """Turn of the lever [rad] with a turn of the nut, in the middle of the thread."""
        corner = self._corner
        return abs(corner.setting_per_turn / float(corner.anchorage.slope(corner.lever_middle)))

    def nearest(self, choice: Choice) -> Candidate:
        """Set a choice of teeth as near to the free angle as the thread allows."""
        corner = self._corner
        low, high = corner.lever_span
        exact = self._offset - choice.clocking_steps * corner.step
        # One that stands on the thread's last place must not be lost by rounding.
        lever = min(max(exact, low), high)
        flat = self.flat_at(lever)
        left = [abs(end * FLATS - flat) for end in corner.turns_span]
        return Candidate(
            choice,
            lever,
            distance=abs(flat),
            flats_left=math.floor(min(left) + _ROUNDING),
        )

    def flat_at(self, lever: float) -> int:
        """Nearest flat of the nut, from the middle, that the thread still holds."""
        low, high = (end * FLATS for end in self._corner.turns_span)
        nearest = round(self._corner.turns_at_lever(lever) * FLATS)
        return min(max(nearest, math.ceil(low - _ROUNDING)), math.floor(high + _ROUNDING))

    def nut_fields(self, candidate: Candidate) -> dict[str, Any]:
        """Return where a candidate puts the nut, or the bolt that is itself turned: on a flat.

        Parameters
        ----------
        candidate : Candidate
            One of :meth:`found`.

        Returns
        -------
        dict
            Fields of a plan.
        """
        corner = self._corner
        turns = self.flat_at(candidate.lever) / FLATS
        counter_clockwise, clockwise = (abs(float(end) - turns) for end in corner.turns_span)
        return {
            "nut_turns": quantity(turns, TURNS),
            "pin_distance": quantity(float(corner.setting_at_turns(turns)), LENGTH),
            "nut_sense": _nut_sense(turns),
            "turns_left_clockwise": quantity(clockwise, TURNS),
            "turns_left_counter_clockwise": quantity(counter_clockwise, TURNS),
            "thread_reserve": quantity(candidate.flats_left / FLATS, TURNS),
            "raising_sense": raising_sense(corner),
        }

    def height_per_turn(self, lever: float, *, height_per_angle: float) -> Quantity:
        """Return the rise of the car for one turn in the raising sense.

        Parameters
        ----------
        lever : float
            Angle of the lever [rad].
        height_per_angle : float
            Change of the height with the free angle [m/rad].

        Returns
        -------
        Quantity
        """
        corner = self._corner
        slope = float(corner.anchorage.slope(lever))
        rise = abs(height_per_angle * corner.setting_per_turn / slope)
        return quantity(rise, HEIGHT_PER_TURN)

    def enough(self, *, lever_uncertainty: float) -> SufficientThread:
        """Find how much thread is enough to correct the height.

        Parameters
        ----------
        lever_uncertainty : float
            What stands behind the ± of the lever's angle [rad].

        Returns
        -------
        SufficientThread
        """
        low, high = self._corner.turns_span
        wanted = self._wanted.thread_reserve
        return sufficient_thread(
            tolerance=lever_uncertainty / self.per_turn,
            thread=high - low,
            wanted=None if wanted is None else si(wanted, TURNS),
        )


def _nut_sense(turns: float) -> TurningSense | None:
    if turns == 0.0:
        return None
    return TurningSense.CLOCKWISE if turns > 0.0 else TurningSense.COUNTER_CLOCKWISE
