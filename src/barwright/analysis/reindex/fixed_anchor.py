"""Plans for a fixed socket, where only the clocking sets the height."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from barwright.analysis.assembly.assembly import both_ways
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.plan_figures import Adjustment
from barwright.analysis.reindex.plan.uncut_trial import UncutTrial
from barwright.analysis.reindex.planner import Planner
from barwright.analysis.reindex.preference import Candidate, SufficientThread
from barwright.mechanics.spline.clocking_search import Choice
from barwright.units import ANGLE, LENGTH, quantity

__all__ = ["FixedPlanner"]

# A tape reads to a millimetre, to the nearer one of which a height is as wanted [m].
_TAPE = 1e-3


class FixedPlanner(Planner):
    """Makes the plans of one corner that has nothing to adjust.

    A clocking reaches the height where it misses the free angle by no more than the
    figures' uncertainty, or than half a millimetre of height.
    """

    def _candidates(self) -> Iterator[Candidate]:
        """Candidates that reach the height."""
        open_by = self._uncertainty.lever_angle()
        room = max(_TAPE / 2.0 / abs(self._figures.height_per_angle), open_by)
        return map(self._candidate, self._clockings.near_the_middle(room))

    def _candidate(self, choice: Choice) -> Candidate:
        lever = self._corner.lever_middle
        height = self._figures.height_at(lever + self._clocked(choice))
        missed = abs(height - self._figures.wanted_height)
        return Candidate(choice, lever, distance=round(missed / _TAPE), flats_left=0)

    def _sufficient_thread(self) -> SufficientThread:
        """Ask for no thread: there is none."""
        return SufficientThread(flats=0, asked=0.0, most=0.0)

    def _trial(self) -> UncutTrial | None:
        """Try nothing: an uncut clocking that may bring the height is a plan already."""

    def _goes_in(self, candidate: Candidate) -> bool:
        ways = both_ways(self._corner, self._spring, clocked_angle=self._clocked(candidate.choice))
        return any(way.slides for way in ways)

    def _free_angles(self, candidate: Candidate) -> tuple[float, ...]:
        """Free angle [rad] that the clocking gives."""
        return (candidate.lever + self._clocked(candidate.choice),)

    def _adjustment(
        self, candidate: Candidate, free: Sequence[float], heights: Sequence[float]
    ) -> Adjustment:
        """Set nothing: say what height there is, and by how much it misses."""
        (height,) = heights
        missed = abs(height - self._figures.wanted_height) + _ROUNDING
        set_by_turning = dict.fromkeys(
            (
                *("nut_turns", "pin_distance", "nut_sense", "raising_sense", "thread_reserve"),
                *("turns_left_clockwise", "turns_left_counter_clockwise", "height_per_turn"),
            )
        )
        fields = {
            "height": quantity(height, LENGTH),
            "height_rounding": quantity(missed, LENGTH),
        }
        clocked = self._clocked(candidate.choice)
        return Adjustment(free[0], clocked, 0.0, set_by_turning | fields, ())

    def _unsure(self, first: Plan) -> Iterator[Finding]:
        """Ask for measurements if the figures cannot distinguish two clockings."""
        step, open_by = self._corner.step, self._uncertainty.lever_angle()
        known = self._corner.setup.reading is not None
        if known or not first.disturbed or open_by <= step / 2.0:
            return
        what = "before you cut" if first.cuts else "before you pull the bar out"
        yield Finding(
            topic=Topic.UNCERTAINTY,
            text=f"{what}, measure hub to arch, add it to the job as [measured] and plan again; "
            f"the ± of the free angle, mostly from {self._widest_figure()}, is more than half a "
            "clocking step",
            figure=quantity(open_by, ANGLE),
            limit=quantity(step / 2.0, ANGLE),
        )

    def _out_of_reach(self) -> Finding:
        """Say which heights the clockings next to the wanted one give."""
        corner = self._corner
        wanted = self._clockings.steps_at_middle
        near = (math.floor(wanted), math.ceil(wanted))
        keyed = corner.lever_middle + corner.keyed_angle
        low, high = sorted(self._figures.height_at(keyed + steps * corner.step) for steps in near)
        return Finding(
            topic=Topic.CLOCKING,
            text="there is no adjuster, and no clocking gives the wanted height; "
            "the nearest heights are",
            figure=quantity(self._figures.wanted_height, LENGTH),
            limit=quantity(low, LENGTH),
            upper=quantity(high, LENGTH),
        )


# Rounding of a height that is found again from its own angle [m].
_ROUNDING = 1e-9
