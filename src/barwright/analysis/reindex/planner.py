"""Finds the plans of a corner, the preferred one first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.assembly import lever_span_for_assembly
from barwright.analysis.assembly.unloading import Unloading, swapped
from barwright.analysis.corner.bar.fillets import twist_left_out
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.ride_height import free_angle_for
from barwright.analysis.reindex.clockings import Clockings
from barwright.analysis.reindex.lever_tolerance import LeverTolerance
from barwright.analysis.reindex.plan.end_work import clocked_ends, disturbed_ends
from barwright.analysis.reindex.plan.feasibility import Work
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.plan_costs import with_costs
from barwright.analysis.reindex.plan.plan_figures import Adjustment, MadePlan, PlanFigures
from barwright.analysis.reindex.plan.uncut_trial import UncutTrial, worth_a_trial
from barwright.analysis.reindex.preference import (
    FLATS,
    Candidate,
    SufficientThread,
    ThreadLeft,
    least_flats_left,
    rank,
    unbeaten,
)
from barwright.analysis.tolerance.plan_tolerance import plan_uncertainty
from barwright.computed_once import cached_property
from barwright.mechanics.spline.clocking_search import Choice
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import ANGLE, LENGTH, TURNS, Quantity, quantity

__all__ = ["Planner", "PlannerResult"]

# Rounding of an angle of the lever [rad] that is made of several angles.
_ROUNDING = 1e-9

# Rounding of a height that is found again from a place of the nut [m].
_HEIGHT_ROUNDING = 1e-6

# Most teeth to remove, in words.
_ALLOWED = ("without a cut", "with one tooth removed at most", "with two teeth removed at most")


@attrs.frozen(kw_only=True)
class PlannerResult:
    """Result of a planner: the thread that its plans leave, and fields of the answer."""

    thread_left: ThreadLeft
    verdict: Verdict
    free_angle: Quantity
    free_angle_uncertainty: Quantity
    lever_angle_uncertainty: Quantity
    enough_thread_reserve: Quantity | None
    uncut_height: Quantity | None
    trial: UncutTrial | None
    plans: tuple[Plan, ...]
    rejected: tuple[Plan, ...]
    findings: tuple[Finding, ...]


class Planner:
    """Makes the plans of one corner for one arm angle.

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    angle : float
        Wanted arm angle [rad].
    present : Setup
        The corner as it is now.
    unloading : Unloading
        How the bar that is in comes out.
    wanted : Wanted
        The wish: whether the height stays, the most teeth to remove, the thread to be left.
    """

    def __init__(
        self,
        corner: Corner,
        spring: TorsionalRates,
        *,
        angle: float,
        present: Setup,
        unloading: Unloading,
        wanted: Wanted,
    ) -> None:
        self._corner = corner
        self._spring = spring
        self._wanted = wanted
        self._work = Work(corner, swapped(corner.setup, present=present), unloading)
        self._ends = clocked_ends(corner, present=present)
        self._free = free_angle_for(corner, spring, angle)
        self._uncertainty = plan_uncertainty(corner, height=float(corner.height(angle)))
        self._figures = PlanFigures(
            corner,
            spring,
            self._work,
            self._ends,
            present=present,
            angle=angle,
            uncertainty=self._uncertainty,
        )
        self._clockings = Clockings(
            corner, self._ends, offset=self._free - corner.keyed_angle, wanted=wanted
        )
        # Of a height that stays, keys, blanks, spring and load move neither teeth nor nut.
        self._lever_tolerance = (
            LeverTolerance.of(corner, present=present, wanted=wanted)
            if wanted.same_height
            else None
        )
        self._enough = self._sufficient_thread()

    def planned(self) -> PlannerResult:
        """Make all plans that no other beats, the preferred one first."""
        candidates = list(self._candidates())
        workable = self._unbeaten(c for c in candidates if self._is_workable(c))
        unworkable = [
            candidate
            for candidate in self._unbeaten(c for c in candidates if not self._is_workable(c))
            if not any(c.beats(candidate, enough=self._enough.flats) for c in workable)
        ]
        chosen = [*workable, *unworkable]
        # Only where the first plan cuts is the bar asked for uncut as well.
        if self._cuts_first(chosen):
            self._look_ahead(chosen)
        every = self._made(chosen)
        ordered = self._ordered([one for one in every if not one.plan.verdict.is_refusal])
        plans = tuple(one.plan for one in ordered)
        rejected = tuple(
            one.plan for one in self._ordered([o for o in every if o.plan.verdict.is_refusal])
        )
        # Where no plan can be carried out, one that cuts nothing already names its reason.
        first = next(iter((*plans, *rejected)), None)
        uncut = None if first and not first.cuts else self._uncut_height()
        trial = self._trial() if plans and plans[0].cuts else None
        verdict, findings = self._verdict(ordered, rejected)
        return PlannerResult(
            thread_left=ThreadLeft(
                tuple(one.candidate.flats_left for one in ordered), self._enough.flats
            ),
            verdict=verdict,
            free_angle=quantity(self._free, ANGLE),
            free_angle_uncertainty=quantity(self._uncertainty.free_angle(), ANGLE),
            lever_angle_uncertainty=quantity(self._uncertainty.lever_angle(), ANGLE),
            enough_thread_reserve=self._enough.turns,
            uncut_height=uncut,
            trial=trial,
            plans=with_costs(plans),
            rejected=rejected,
            findings=(*findings, *(() if trial else self._without_a_cut(uncut))),
        )

    # -- Choosing ---------------------------------------------------------------

    def _candidates(self) -> Iterator[Candidate]:
        """Candidates nearest the middle of the thread, and nearest it of those that go in."""
        corner = self._corner
        return self._clockings.found(
            (corner.lever_span, lever_span_for_assembly(corner, self._free))
        )

    def _clocked(self, choice: Choice) -> float:
        """Free angle beyond the lever's [rad]."""
        return self._corner.keyed_angle + choice.clocking_steps * self._corner.step

    def _sufficient_thread(self) -> SufficientThread:
        return self._clockings.enough(lever_uncertainty=self._lever_uncertainty)

    @property
    def _lever_uncertainty(self) -> float:
        """What stands behind the ± of the angle [rad] that the nut must make up."""
        known = self._lever_tolerance
        return known.lever() if known else self._uncertainty.lever_angle()

    def _unbeaten(self, candidates: Iterable[Candidate]) -> list[Candidate]:
        return unbeaten(candidates, enough=self._enough.flats)

    def _is_workable(self, candidate: Candidate) -> bool:
        """Whether the work can be done: nothing is drawn, or the bar comes out and goes in."""
        if not self._work.unloads(disturbed_ends(candidate.choice)):
            return True
        return self._work.can_be_unloaded and self._goes_in(candidate)

    def _goes_in(self, candidate: Candidate) -> bool:
        _, high = lever_span_for_assembly(self._corner, self._free)
        return candidate.lever <= high + _ROUNDING

    def _ordered(self, made: Sequence[MadePlan]) -> list[MadePlan]:
        """Plans in the order of preference."""
        least = self._least_flats([one.candidate for one in made])
        return sorted(
            made,
            key=lambda one: rank(one.candidate, least=least, has_findings=bool(one.plan.findings)),
        )

    def _cuts_first(self, chosen: Sequence[Candidate]) -> bool:
        """Whether the preferred candidate removes teeth, if all can be carried out."""
        least = self._least_flats(chosen)
        ranks = [rank(one, least=least, has_findings=False) for one in chosen]
        return bool(ranks) and chosen[ranks.index(min(ranks))].choice.cuts > 0

    def _least_flats(self, candidates: Sequence[Candidate]) -> int:
        """Flats of thread that a preferred one of some candidates leaves."""
        flats = [one.flats_left for one in candidates]
        return least_flats_left(flats, enough=self._enough.flats)

    # -- What a plan sets -----------------------------------------------------------

    def _look_ahead(self, chosen: Sequence[Candidate]) -> None:
        """Solve at once for plans that cut, and for what will be asked of a bar without a cut.

        Nothing comes back: what was solved is kept, and found again when it is asked for.
        """
        candidates = [*chosen, *self._trials]
        free = [angle for one in candidates for angle in self._free_angles(one)]
        self._figures.heights_at([*free, *self._uncut_free_angles])
        self._uncertainty.look_ahead([self._setting(one) for one in candidates])

    def _setting(self, candidate: Candidate) -> tuple[float, float]:
        """Return the turns, and the free angle beyond the lever's [rad]."""
        turns = self._clockings.flat_at(candidate.lever) / FLATS
        return turns, self._clocked(candidate.choice)

    def _made(self, candidates: Sequence[Candidate]) -> list[MadePlan]:
        """Make the plans of candidates."""
        free = [self._free_angles(candidate) for candidate in candidates]
        heights = iter(self._figures.heights_at([angle for angles in free for angle in angles]))
        adjustments = [
            self._adjustment(candidate, angles, [next(heights) for _ in angles])
            for candidate, angles in zip(candidates, free, strict=True)
        ]
        return self._figures.made(candidates, adjustments)

    def _free_angles(self, candidate: Candidate) -> tuple[float, ...]:
        """Free angles [rad] of the flat that is set, and of the places on both sides of it."""
        corner, (turns, clocked) = self._corner, self._setting(candidate)
        exact = corner.turns_at_lever(candidate.lever)
        places = (turns, *self._places_around(turns, exact))
        return tuple(float(corner.lever_at_turns(place)) + clocked for place in places)

    def _adjustment(
        self, candidate: Candidate, free: Sequence[float], heights: Sequence[float]
    ) -> Adjustment:
        """Set the nut, or the bolt that is itself turned, to a flat."""
        height, *around = heights
        # How far half a flat, or the way to the exact place, changes the height.
        rounding = max(abs(height - other) for other in around) + _HEIGHT_ROUNDING
        fields = self._clockings.nut_fields(candidate) | {
            "height": quantity(height, LENGTH),
            "height_rounding": quantity(rounding, LENGTH),
            "height_per_turn": self._clockings.height_per_turn(
                candidate.lever, height_per_angle=self._figures.height_per_angle
            ),
        }
        turns, clocked = self._setting(candidate)
        return Adjustment(
            free=free[0],
            clocked=clocked,
            turns=turns,
            fields=fields,
            findings=(*self._margin(candidate),),
        )

    def _places_around(self, turns: float, exact: float) -> tuple[float, float]:
        """Return the turns on both sides of a flat, half a flat or the exact place away."""
        spread = max(abs(exact - turns), 0.5 / FLATS)
        low, high = self._corner.turns_span
        return max(turns - spread, low), min(turns + spread, high)

    def _margin(self, candidate: Candidate) -> Iterator[Finding]:
        """Say that little thread is left to correct the height, if it is."""
        if candidate.flats_left < self._enough.flats:
            yield Finding(
                topic=Topic.NUT_MARGIN,
                text="little thread is left to correct the height on the finished vehicle",
                figure=quantity(candidate.flats_left / FLATS, TURNS),
                limit=quantity(self._enough.flats / FLATS, TURNS),
            )

    # -- What must be known -----------------------------------------------------------

    def _verdict(
        self, made: Sequence[MadePlan], rejected: Sequence[Plan]
    ) -> tuple[Verdict, tuple[Finding, ...]]:
        if made:
            return Verdict.REACHED, (
                *made[0].strength_unknown,
                *twist_left_out(self._corner.setup.bar),
                *self._unsure(made[0].plan),
            )
        if rejected:
            return rejected[0].verdict, rejected[0].findings
        return Verdict.OUT_OF_REACH, (self._out_of_reach(),)

    def _unsure(self, first: Plan) -> Iterator[Finding]:
        """Ask for a measurement first, so that an uncertain height does not cost a tooth."""
        if not self._enough.is_cut_short or not self._lever_uncertainty:
            return
        when = "before you cut" if first.cuts else "before you turn the nut"
        yield Finding(
            topic=Topic.UNCERTAINTY,
            text=f"measure {when}: the height is more uncertain than the thread "
            f"can correct; most of it comes from {self._widest_figure()}",
            figure=quantity(self._enough.asked, TURNS),
            limit=quantity(self._enough.most, TURNS),
        )

    def _widest_figure(self) -> str:
        """Name the figure that is worth measuring, in words."""
        name = (self._lever_tolerance or self._uncertainty).widest_figure()
        return f"the {name.replace('_', ' ').replace('.', ' ')}"

    def _out_of_reach(self) -> Finding:
        text = "no clocking brings the wanted height within the adjuster's thread"
        if self._wanted.cuts is not None:
            allowed = _ALLOWED[self._wanted.cuts]
            text = f"{allowed}, the adjuster's thread does not reach the wanted height"
        low, high = self._corner.lever_span
        return Finding(
            topic=Topic.THREAD,
            text=text,
            figure=quantity(self._corner.step, ANGLE),
            limit=quantity(high - low, ANGLE),
        )

    def _uncut_height(self) -> Quantity | None:
        """Height nearest the wanted one for which no tooth is removed."""
        wanted = float(self._figures.wanted_height)
        heights = self._figures.heights_at(self._uncut_free_angles)
        if not heights:
            return None
        return quantity(min(heights, key=lambda height: abs(height - wanted)), LENGTH)

    @cached_property
    def _uncut_free_angles(self) -> list[float]:
        """Free angles [rad], nearest the wanted one, of the clockings that remove no tooth."""
        low, high = self._corner.lever_span
        clockings = map(self._clocked, self._uncut)
        return [min(max(self._free - clocked, low), high) + clocked for clocked in clockings]

    @cached_property
    def _uncut(self) -> list[Choice]:
        """Clockings over a whole turn that remove no tooth."""
        return [
            choice
            for choice in self._clockings.over_a_turn()
            if choice.cuts == 0 and self._can_be_clocked(choice)
        ]

    @cached_property
    def _trials(self) -> list[Candidate]:
        """What leaves the bar uncut on its own teeth."""
        # Whoever states the thread to be left has decided already how much is enough.
        if self._wanted.thread_reserve is not None:
            return []
        own = (choice for choice in self._uncut if not choice.disturbed)
        return list(map(self._clockings.nearest, own))

    def _trial(self) -> UncutTrial | None:
        """Leave the bar uncut on its own teeth, if that may bring the wanted height after all."""
        found = (one.plan for one in self._made(self._trials))
        open_by = self._lever_uncertainty * abs(self._figures.height_per_angle)
        wanted = self._figures.wanted_height
        trials = (worth_a_trial(plan, wanted_height=wanted, open_by=open_by) for plan in found)
        return next((trial for trial in trials if trial), None)

    def _can_be_clocked(self, choice: Choice) -> bool:
        """Whether a clocking is there now, or the bar comes out and goes in at it."""
        if not self._work.unloads(disturbed_ends(choice)):
            return True
        slackest = self._corner.lever_span[1] + self._clocked(choice)
        return self._work.can_be_unloaded and slackest >= self._corner.stops[0]

    def _without_a_cut(self, height: Quantity | None) -> Iterator[Finding]:
        if height is not None:
            text = "nearest height with no tooth removed"
            yield Finding(topic=Topic.CUTS, text=text, figure=height)
