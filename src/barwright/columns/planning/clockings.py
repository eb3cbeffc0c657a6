"""Clockings of a column of corners that can give wanted free angles."""

from __future__ import annotations

import abc
from typing import Any, cast

import attrs
import numpy as np

from barwright.analysis.reindex.preference import FLATS, LARGEST_SHARE, LEAST_SHARE
from barwright.columns.column_corner import ColumnCorner, Flags
from barwright.columns.planning.candidates import Candidates
from barwright.columns.planning.choice_table import ChoiceTable, choice_table
from barwright.columns.planning.ends import ColumnEnds
from barwright.columns.planning.fitting import Fitting
from barwright.computed_once import cached_property
from barwright.mechanics.spline.clocking_search import ClockedEnd

__all__ = ["ColumnClockings", "FixedClockings", "ThreadClockings"]

# Rounding of a rotation in steps, and of turns, that are made of several angles.
_ROUNDING = 1e-9

# A tape reads to a millimetre, to the nearer one of which a height is as wanted [m].
_TAPE = 1e-3


@attrs.frozen(kw_only=True, eq=False, slots=False)
class ColumnClockings(abc.ABC):
    """What the clockings of a column of corners give, by tooth counts, lever and thread.

    Parameters
    ----------
    ends : ColumnEnds
        The corners, at both ends of every tolerance.
    clocked_ends : (ClockedEnd, ClockedEnd)
        The ends of their bars as they are now.
    free : array of float
        Wanted free angles [rad].
    height_per_angle : array of float
        Fall of the vehicle with the free angle [m/rad].
    """

    ends: ColumnEnds
    clocked_ends: tuple[ClockedEnd, ClockedEnd]
    free: Any
    height_per_angle: Any

    @property
    def corner(self) -> ColumnCorner:
        """The corners."""
        return self.ends.corner

    @abc.abstractmethod
    def found(self) -> Candidates:
        """List the candidates of all corners."""

    @abc.abstractmethod
    def placed(self, table: ChoiceTable) -> Candidates:
        """Set choices as near to the free angles as the thread allows."""

    @property
    @abc.abstractmethod
    def enough(self) -> Any:  # noqa: ANN401 - one number or a column
        """Flats of thread that count as enough."""

    @abc.abstractmethod
    def goes_in(self, candidates: Candidates) -> Flags:
        """Tell which bars go in with the damper off."""

    @abc.abstractmethod
    def turns(self, candidates: Candidates) -> Any:  # noqa: ANN401 - as above
        """Find the turns from the middle of the thread, on a flat."""

    @abc.abstractmethod
    def set_figures(self, candidates: Candidates, *, wanted_height: Any) -> dict[str, Any]:  # noqa: ANN401
        """Return what is set, and the heights that result, by the names of a plan's fields."""

    def over_a_turn(self) -> Candidates:
        """List the candidates nearest the middle of the thread, wherever that leaves the lever."""
        # A whole turn further on, a clocking is the same one.
        half_turn, middle = np.pi / self.corner.step, self._steps(self.corner.lever_middle)
        return self.placed(self._choices(low=middle - half_turn, high=middle + half_turn, room=0.0))

    def clocked(self, candidates: Candidates) -> Any:  # noqa: ANN401 - as above
        """Free angles beyond the lever's [rad]."""
        return self.corner.keyed_angle + candidates.steps * self.corner.step

    def set_free(self, candidates: Candidates) -> Any:  # noqa: ANN401 - as above
        """Free angles that are set [rad]."""
        return self.corner.lever_at_turns(self.turns(candidates)) + self.clocked(candidates)

    def heights(self, free: Any) -> Any:  # noqa: ANN401 - as above
        """Heights at rest [m] for free angles [rad]."""
        corner = self.corner
        angles = [corner.rests(each) for each in np.atleast_2d(free)]
        return corner.height(cast("float", np.array(angles)))

    def _choices(self, *, low: Any, high: Any, room: Any) -> ChoiceTable:  # noqa: ANN401 - as above
        return choice_table(
            *self.clocked_ends,
            wanted_steps=self._steps(self.corner.lever_middle) + self._of_each,
            low=low,
            high=high,
            room=room,
        )

    def _steps(self, lever: Any) -> Any:  # noqa: ANN401 - as above
        """Rotations in steps, not rounded, that levers [rad] need."""
        return (self._offset - lever) / self.corner.step

    @cached_property
    def _offset(self) -> Any:  # noqa: ANN401 - as above
        """Wanted free angles from where they are with both blanks on their keys [rad]."""
        return self.free - self.corner.keyed_angle

    @property
    def _of_each(self) -> Any:  # noqa: ANN401 - a column
        """Nothing, once for each corner."""
        return np.zeros(self.corner.of_rows.numbers.size)


class ThreadClockings(ColumnClockings):
    """Clockings beside an adjuster, whose thread makes up for what they miss."""

    def found(self) -> Candidates:
        """List the candidates that leave the lever within its span, or let the bar go in."""
        low, high = self.corner.lever_span
        highest = [high]
        if np.any(self._highest_that_goes_in < high):
            highest.append(self._highest_that_goes_in)
        return Candidates.joined([self.placed(self._between(low, end)) for end in highest])

    @cached_property
    def enough(self) -> Any:  # noqa: ANN401 - one number or a column
        """Flats of thread that count as enough."""
        return np.ceil(self.enough_turns * FLATS - _ROUNDING)

    @cached_property
    def enough_turns(self) -> Any:  # noqa: ANN401 - as above
        """The same in turns, not rounded up."""
        low, high = self.corner.turns_span
        thread = np.subtract(high, low)
        asked = self.ends.lever_angle.by / self._per_turn + 1.0
        return np.minimum(np.maximum(asked, thread * LEAST_SHARE), thread * LARGEST_SHARE)

    def goes_in(self, candidates: Candidates) -> Flags:
        """Tell which bars go in with the damper off."""
        return np.asarray(candidates.lever <= self._highest_that_goes_in + _ROUNDING)

    def turns(self, candidates: Candidates) -> Any:  # noqa: ANN401 - as above
        """Find the turns from the middle of the thread, on a flat."""
        return self._flats(candidates.lever) / FLATS

    def set_figures(self, candidates: Candidates, *, wanted_height: Any) -> dict[str, Any]:  # noqa: ANN401, ARG002
        """Return what is set, and the heights that result, by the names of a plan's fields."""
        corner, turns = self.corner, self.turns(candidates)
        low, high = corner.turns_span
        spread = np.maximum(np.abs(self._turns_at(candidates.lever) - turns), 0.5 / FLATS)
        around = (np.maximum(turns - spread, low), np.minimum(turns + spread, high))
        clocked = self.clocked(candidates)
        height, less, more = (
            self.heights(corner.lever_at_turns(place) + clocked) for place in (turns, *around)
        )
        missed = np.maximum(np.abs(height - less), np.abs(height - more))
        slope = corner.anchorage.slope(cast("float", candidates.lever))
        return {
            "nut_turns": turns,
            "pin_distance": corner.setting_at_turns(turns),
            "turns_left_clockwise": np.abs(high - turns),
            "turns_left_counter_clockwise": np.abs(low - turns),
            "thread_reserve": candidates.flats_left / FLATS,
            "height": height,
            "height_rounding": missed + _HEIGHT_ROUNDING,
            "height_per_turn": np.abs(self.height_per_angle * corner.setting_per_turn / slope),
        }

    def _between(self, lowest: Any, highest: Any) -> ChoiceTable:  # noqa: ANN401 - as above
        """Choices with levers between two angles [rad], with those on the same flat."""
        low, high = self._steps(highest), self._steps(lowest)
        room = 2.0 * self._per_turn / FLATS / self.corner.step
        return self._choices(low=low - _ROUNDING, high=high + _ROUNDING, room=room)

    def placed(self, table: ChoiceTable) -> Candidates:
        """Set choices as near to the free angles as the thread allows."""
        corner = self.corner
        low, high = corner.lever_span
        exact = self._offset - table.clocking_steps * corner.step
        lever = np.minimum(np.maximum(exact, low), high)
        flat = self._flats(lever)
        left = [np.abs(end * FLATS - flat) for end in corner.turns_span]
        return Candidates.of(
            table,
            lever=lever,
            distance=np.abs(flat),
            flats_left=np.floor(np.minimum(*left) + _ROUNDING),
        )

    def _flats(self, lever: Any) -> Any:  # noqa: ANN401 - as above
        """Nearest flats of the nut, from the middle, that the thread still holds."""
        low, high = (end * FLATS for end in self.corner.turns_span)
        nearest = np.rint(self._turns_at(lever) * FLATS)
        held = np.minimum(np.maximum(nearest, np.ceil(low - _ROUNDING)), np.floor(high + _ROUNDING))
        return held + 0.0  # no negative zero

    def _turns_at(self, lever: Any) -> Any:  # noqa: ANN401 - as above
        corner = self.corner
        return (corner.anchorage.setting(lever) - corner.setting_middle) / corner.setting_per_turn

    @cached_property
    def _per_turn(self) -> Any:  # noqa: ANN401 - as above
        """Turn of the lever [rad] with a turn of the nut, in the middle of the thread."""
        corner = self.corner
        return np.abs(corner.setting_per_turn / corner.anchorage.slope(corner.lever_middle))

    @cached_property
    def _highest_that_goes_in(self) -> Any:  # noqa: ANN401 - as above
        """Highest lever [rad] of a plan that can be assembled with the damper off."""
        _, high = self.corner.lever_span
        return np.minimum(high, high + self.free - self.corner.stops[0])


class FixedClockings(ColumnClockings):
    """Clockings in a fixed socket, of which one must bring the height."""

    def found(self) -> Candidates:
        """List the candidates that reach the height."""
        open_by = self.ends.lever_angle.by
        room = np.maximum(_TAPE / 2.0 / np.abs(self.height_per_angle), open_by) / self.corner.step
        middle = self._steps(self.corner.lever_middle)
        table = self._choices(low=middle - room, high=middle + room, room=2.0 * room)
        missed = np.abs(self._heights_of(table) - self.ends.height)
        return attrs.evolve(self.placed(table), distance=np.rint(missed / _TAPE).astype(np.int64))

    def placed(self, table: ChoiceTable) -> Candidates:
        """Set nothing."""
        return Candidates.of(table, lever=self.corner.lever_middle, distance=0, flats_left=0)

    @property
    def enough(self) -> Any:  # noqa: ANN401 - one number
        """No flats: there is no thread."""
        return 0

    def goes_in(self, candidates: Candidates) -> Flags:
        """Tell which bars go in."""
        return Fitting(self.ends, self.clocked(candidates)).slides

    def turns(self, candidates: Candidates) -> Any:  # noqa: ANN401, ARG002 - one number
        """Turn nothing."""
        return 0.0

    def set_figures(self, candidates: Candidates, *, wanted_height: Any) -> dict[str, Any]:  # noqa: ANN401
        """Return the heights that result, and by how much they miss the wish."""
        height = self.heights(self.set_free(candidates))
        missed = np.abs(height - wanted_height)
        return {"height": height, "height_rounding": missed + _ROUNDING}

    def _heights_of(self, table: ChoiceTable) -> Any:  # noqa: ANN401 - a table
        """Heights at rest [m], found once for each rotation of a corner."""
        corner, steps = self.corner, table.clocking_steps
        lowest = np.where(table.is_there, steps, np.iinfo(np.int64).max).min(axis=0)
        lowest = np.where(table.is_there.any(axis=0), lowest, 0)
        above = np.where(table.is_there, steps - lowest, 0)
        each = lowest + np.arange(int(above.max(initial=0)) + 1)[:, np.newaxis]
        heights = self.heights(corner.lever_middle + corner.keyed_angle + each * corner.step)
        return np.take_along_axis(heights, above, axis=0)


# Rounding of a height that is found again from a place of the nut [m].
_HEIGHT_ROUNDING = 1e-6
