"""Plans of a corner whose anchor is a fixed socket: the clocking alone brings the height."""

from __future__ import annotations

import math
from typing import ClassVar

from barwright.analysis.assembly import both_ways
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.planner import Adjustment, Candidate, Planner
from barwright.mechanics.choices import Choice, choices
from barwright.units import ANGLE, LENGTH, Kind, quantity

__all__ = ["FixedPlanner"]

# A tape reads to a millimetre, to the nearer one of which a height is as wanted [m].
_TAPE = 0.5e-3


class FixedPlanner(Planner):
    """Makes the plans of one corner that has nothing to adjust.

    What is left open is the free angle.  A clocking reaches the height where it misses
    that by no more than the figures' tolerances, or than half a millimetre of height.
    """

    _distance_kind: ClassVar[Kind] = ANGLE

    def _equality(self) -> float:
        """Free angle [rad] within which the wanted height is reached."""
        return max(_TAPE / abs(self._height_per_angle()), self._tolerance)

    @property
    def _wanted(self) -> float:
        """Wanted rotation in steps, not rounded."""
        model = self._model
        return (self._free - model.keyed_angle - model.lever_middle) / model.step

    def _found(self, *, assembled: bool) -> list[Candidate]:
        room = self._equal_within / self._model.step
        found = choices(
            *self._ends(), wanted=self._wanted, low=self._wanted - room, high=self._wanted + room
        )
        candidates = map(self._candidate, found)
        return [c for c in candidates if not assembled or self._assembles(c)]

    def _assembles(self, candidate: Candidate) -> bool:
        ways = both_ways(self._model, self._spring, clocked_angle=candidate.clocked)
        return any(way.slides for way in ways)

    def _candidate(self, choice: Choice) -> Candidate:
        model = self._model
        clocked = model.keyed_angle + choice.steps * model.step
        missed = abs(self._free - model.lever_middle - clocked)
        return Candidate(choice, model.lever_middle, clocked, missed)

    def _adjustment(self, candidate: Candidate) -> Adjustment:
        """Set nothing: say what height there is, and by how much it misses."""
        free = candidate.lever + candidate.clocked
        height = self._height_at(free)
        missed = abs(height - self._height_at(self._free)) + _ROUNDING
        set_by_turning = dict.fromkeys(
            (
                *("nut_turns", "pin_distance", "nut_sense", "raising_sense"),
                *("turns_left_clockwise", "turns_left_counter_clockwise", "height_per_turn"),
            )
        )
        fields = {
            "height": quantity(height, LENGTH),
            "height_tolerance": quantity(missed, LENGTH),
        }
        return Adjustment(free, set_by_turning | fields, ())

    def _out_of_reach(self) -> Finding:
        """Say which heights the clockings next to the wanted one give."""
        model = self._model
        near = (math.floor(self._wanted), math.ceil(self._wanted))
        keyed = model.lever_middle + model.keyed_angle
        low, high = sorted(self._height_at(keyed + steps * model.step) for steps in near)
        return Finding(
            topic=Topic.CLOCKING,
            text="nothing can be adjusted, and no tooth of either end brings the wanted height; "
            "those next to it",
            figure=quantity(float(model.height(self._motion.angle)), LENGTH),
            limit=quantity(low, LENGTH),
            upper=quantity(high, LENGTH),
        )


# Rounding of a height that is found again from its own angle [m].
_ROUNDING = 1e-9
