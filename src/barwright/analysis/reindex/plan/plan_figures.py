"""Figures of a plan: heights, states, how the bar goes in, and findings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import attrs
import numpy as np

from barwright.analysis.assembly.assembly import Assembly, both_ways
from barwright.analysis.assembly.unloading import choose_fitting
from barwright.analysis.corner.anchorage import bolt_datum
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.bolt_load import bolt_load
from barwright.analysis.rates.corner_state import (
    CornerState,
    SolvedStates,
    described,
    solved_states,
)
from barwright.analysis.rates.ride_height import (
    rest_angle,
    rest_angles,
    slackness,
    wound_bushings,
)
from barwright.analysis.reindex.plan.cautions import cautions_for
from barwright.analysis.reindex.plan.end_work import disturbed_ends, end_work
from barwright.analysis.reindex.plan.feasibility import Work
from barwright.analysis.reindex.plan.plan import Plan, PlannedCorner
from barwright.analysis.reindex.preference import Candidate
from barwright.analysis.strength.overstress import Overstress, overstress_at
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.computed_once import cached_property
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.corner import statics
from barwright.mechanics.linkage.arm_and_strut import Motion
from barwright.mechanics.spline.clocking_search import ClockedEnd
from barwright.parts.setup import Setup
from barwright.units import LENGTH, Quantity, quantity, quantity_of_unit, unit_spelling

__all__ = ["Adjustment", "MadePlan", "PlanFigures", "height_per_angle"]


@attrs.frozen(eq=False)
class Adjustment:
    """What a plan sets.

    Parameters
    ----------
    free : float
        Free angle that results [rad].
    clocked : float
        Free angle beyond the lever's [rad].
    turns : float
        Position of the turned part, from mid-thread; 0 if nothing is turned.
    fields : dict
        Fields of the plan that say what is set, and what height it gives.
    findings : tuple of Finding
        What must be known of it.
    """

    free: float
    clocked: float
    turns: float
    fields: dict[str, Any]
    findings: tuple[Finding, ...]


@attrs.frozen(eq=False)
class MadePlan:
    """A plan with what the planner knows of it besides its figures.

    Parameters
    ----------
    candidate : Candidate
        What it was made of.
    plan : Plan
        The plan.
    strength_unknown : tuple of Finding
        What is not known of the bar's strength with the plan carried out.
    """

    candidate: Candidate
    plan: Plan
    strength_unknown: tuple[Finding, ...]


class PlanFigures:
    """Describes the plans of one corner for one arm angle.

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    work : Work
        The work that the plans are part of.
    ends : (ClockedEnd, ClockedEnd)
        The bar's ends as they are now.
    present : Setup
        The corner as it is now.
    angle : float
        Wanted arm angle [rad].
    uncertainty : PlanUncertainty
        What the tolerances of the figures leave open.
    """

    def __init__(
        self,
        corner: Corner,
        spring: TorsionalRates,
        work: Work,
        ends: tuple[ClockedEnd, ClockedEnd],
        *,
        present: Setup,
        angle: float,
        uncertainty: PlanUncertainty,
    ) -> None:
        self._corner = corner
        self._spring = spring
        self._work = work
        self._ends = ends
        self._present = present
        self._motion = corner.motion(angle)
        self._uncertainty = uncertainty
        self._heights: dict[float, float] = {}

    @property
    def wanted_height(self) -> float:
        """Wanted height [m]."""
        return float(self._corner.height(self._motion.angle))

    def height_at(self, free: float) -> float:
        """Height [m] at rest for a free angle [rad]."""
        return float(self._corner.height(rest_angle(self._corner, self._spring, free)))

    def heights_at(self, free: Sequence[float]) -> list[float]:
        """Heights [m] at rest for several free angles [rad]: many take as long as one."""
        asked = tuple(dict.fromkeys(one for one in free if one not in self._heights))
        if asked:
            found = _heights(self._corner, self._spring, asked)
            self._heights.update(zip(asked, found, strict=True))
        return [self._heights[one] for one in free]

    @cached_property
    def height_per_angle(self) -> float:
        """Fall of the car with the free angle [m/rad]."""
        return height_per_angle(self._corner, self._spring, self._motion)

    def made(
        self, candidates: Sequence[Candidate], adjustments: Sequence[Adjustment]
    ) -> list[MadePlan]:
        """Make the plans of candidates with what each sets.

        Parameters
        ----------
        candidates : sequence of Candidate
            The teeth.
        adjustments : sequence of Adjustment
            What is set.

        Returns
        -------
        list of MadePlan
        """
        if not candidates:
            return []
        # All plans at once take little longer than one.
        open_by = self._uncertainty.heights([(one.turns, one.clocked) for one in adjustments])
        return list(map(self._made, candidates, adjustments, open_by))

    def _made(self, candidate: Candidate, adjustment: Adjustment, open_by: float) -> MadePlan:
        """Make a plan, whose height is uncertain by some length [m]."""
        at_stops = _at_stops(
            self._corner, self._spring, ride=float(self._motion.angle), free=adjustment.free
        )
        fields = {"height_uncertainty": quantity(open_by, LENGTH), **adjustment.fields}
        adjustment = attrs.evolve(adjustment, fields=fields)
        plan = self._plan(candidate, adjustment, at_stops)
        return MadePlan(candidate, plan, at_stops.strength.unknown)

    def _plan(self, candidate: Candidate, adjustment: Adjustment, at_stops: _AtStops) -> Plan:
        """Describe a candidate with what it sets."""
        corner, choice = self._corner, candidate.choice
        disturbed = disturbed_ends(choice)
        fitting = both_ways(corner, self._spring, clocked_angle=adjustment.clocked)
        verdict, reasons = self._work.judged(
            disturbed=disturbed,
            fitting=fitting,
            droop_twist=at_stops.states.droop.twist,
            strength=at_stops.strength,
            bolt=bolt_load(
                corner, at_stops.states.ride, at_stops.states.bump, free_angle=adjustment.free
            ),
        )
        droop, bump = at_stops.droop, at_stops.bump
        height, adjuster = adjustment.fields["height"], corner.setup.adjuster
        return Plan(
            made_for=PlannedCorner.of(corner.setup),
            verdict=verdict,
            ends=end_work(corner, self._ends, choice, present=self._present),
            cuts=choice.cuts,
            disturbed=disturbed,
            arm_tooth=choice.arm_tooth,
            anchor_tooth=choice.anchor_tooth,
            **adjustment.fields,
            droop=droop,
            bump=bump,
            droop_left=_beyond(droop.height, height),
            bump_left=_beyond(height, bump.height),
            fitting=fitting,
            findings=(
                *reasons,
                *at_stops.slackness,
                *adjustment.findings,
                *(self._little_reserve(fitting) if self._work.unloads(disturbed) else ()),
                *wound_bushings(corner, float(self._motion.angle)),
            ),
            bolt_datum=None if adjuster is None else bolt_datum(adjuster),
            cautions=cautions_for(
                corner.setup,
                verdict=verdict,
                cuts=choice.cuts,
                height=height,
                bar_comes_out=self._work.draws_bar(disturbed),
            ),
        )

    @staticmethod
    def _little_reserve(fitting: tuple[Assembly, ...]) -> Iterator[Finding]:
        """Report an unloading reserve that is smaller than its uncertainty."""
        way = choose_fitting(fitting)
        if way.slides and not way.is_sure:
            slack = f", {way.turned.value} slack," if way.turned else ""
            yield Finding(
                topic=Topic.ASSEMBLY,
                text=f"when the bar goes in{slack} the margin of the arm's angle is smaller "
                "than its uncertainty: check that it is loose",
                figure=way.unloading_reserve,
                limit=way.unloading_reserve_uncertainty,
            )


@attrs.frozen(eq=False, kw_only=True)
class _AtStops:
    """What a plan does at the stops of the travel, the same on both sides of an axle."""

    states: SolvedStates
    droop: CornerState
    bump: CornerState
    slackness: tuple[Finding, ...]
    strength: Overstress


@once_a_corner(of_either_side)
def _at_stops(corner: Corner, spring: TorsionalRates, *, ride: float, free: float) -> _AtStops:
    """Find what a free angle [rad] does at the stops, and at an arm angle at rest [rad]."""
    states = solved_states(corner, spring, ride=ride, free_angle=free)
    droop, bump = states.droop, states.bump
    return _AtStops(
        states=states,
        droop=described(corner, droop),
        bump=described(corner, bump),
        slackness=slackness(corner, droop),
        strength=overstress_at(corner.setup.bar, droop=droop.shear_stress, bump=bump.shear_stress),
    )


@once_a_corner(of_either_side)
def _heights(corner: Corner, spring: TorsionalRates, free: tuple[float, ...]) -> list[float]:
    """Heights [m] at rest for free angles [rad]."""
    angles = rest_angles(corner, spring, np.array(free))
    heights: list[float] = np.asarray(corner.height(angles)).tolist()
    return heights


def _beyond(one: Quantity, other: Quantity) -> Quantity:
    """Return by how much one height of an answer is greater than another, in their unit."""
    return quantity_of_unit(one.magnitude - other.magnitude, unit_spelling(one))


def height_per_angle(corner: Corner, spring: TorsionalRates, motion: Motion) -> float:
    """Fall of a car with the free angle of one corner [m/rad].

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    motion : Motion
        Its suspension at rest.

    Returns
    -------
    float
    """
    per_angle = statics.arm_per_free_angle(
        motion, rate=spring.system, load=corner.load, springs=corner.springs
    )
    return plain(motion.hub.slope) * plain(per_angle)
