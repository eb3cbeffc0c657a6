"""How options are compared: by what the rates tell, and by what a plan adds."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import TypeAlias

import attrs

from barwright.analysis.finding import Topic
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.selection.against import decisive_stress
from barwright.analysis.selection.search import Candidate, Search
from barwright.analysis.selection.selection import Sieve
from barwright.parts.wanted import Extreme, Goal
from barwright.units import LENGTH, STRESS, TURNS, si

__all__ = ["Comparison", "Planned", "unbeaten"]

Key: TypeAlias = tuple[float, ...]

# Nearer to the goal than this, bars are told apart by the work that they ask for [share].
_ON_GOAL = 0.03
# Differences below these count as none where options are compared.
_SHARE, _FACTOR = 0.005, 0.05
_STRESS, _DIAMETER, _TRAVEL = 5e6, 1e-4, 5e-3  # Pa, m, m
# Of a bar without stress, the factor that it counts with.
_MOST_FACTOR = 1e6
_PLAN_WITHOUT_FAULT: Key = (0.0, 0.0, 0.0)
_SWAPS = frozenset({Topic.SWAPPED_ARM, Topic.SWAPPED_ANCHOR})


@attrs.frozen(eq=False)
class Planned:
    """A candidate with one of its plans.

    Parameters
    ----------
    candidate : Candidate
        The candidate.
    plan : Plan
        One way to clock it.
    key : tuple of float
        What it is compared on, the less the better.
    is_tried : bool
        Whether its plan is what is tried before a tooth is removed.
    """

    candidate: Candidate
    plan: Plan
    key: Key
    is_tried: bool


@attrs.frozen(eq=False)
class Comparison:
    """What options of a search are compared on.

    Parameters
    ----------
    goal : Goal
        The goal.
    search : Search
        The search.
    """

    goal: Goal
    search: Search

    def planned(self, candidates: Iterable[Candidate]) -> list[Planned]:
        """Plan the clocking of all candidates that a plan can still make worth taking.

        Where a bar goes on its blanks with enough thread left, at the height, those that it
        beats in all the rest are beaten whatever their plans are.
        """
        asked, beaten = [], []
        best: list[Key] = []
        for one in sorted(candidates, key=self._by_promise):
            key = self._rated(one)
            if any(_beats(it, key) for it in best):
                beaten.append(one)
                continue
            answer = self.search.plan(one)
            asked.append((one, answer))
            if any(_planned(plan, answer) == _PLAN_WITHOUT_FAULT for plan in answer.plans):
                best.append(key)
        if beaten:
            self.search.sieves.append(
                Sieve(
                    requirement="an advantage over the rest",
                    removed=len(beaten),
                    kept=len(asked),
                )
            )
        return self._with_plans(asked)

    def _with_plans(self, asked: list[tuple[Candidate, Reindex]]) -> list[Planned]:
        answers = {id(one): answer for one, answer in asked}
        kept = self.search.sieved(
            "a safe plan for the height",
            [one for one, _ in asked],
            lambda one: self.search.against_plan(one, answers[id(one)]),
        )
        return [planned for one in kept for planned in self._each_plan(one, answers[id(one)])]

    def _each_plan(self, candidate: Candidate, answer: Reindex) -> Iterator[Planned]:
        """Give each plan of a candidate; of those that compare alike, the first."""
        of_rates = self._rated(candidate)
        by_key = {_planned(plan, answer): plan for plan in reversed(answer.plans)}
        for key, plan in by_key.items():
            is_tried = answer.trial is not None and not (plan.cuts or plan.disturbed)
            yield Planned(candidate, plan, of_rates + key, is_tried)

    def _by_promise(self, candidate: Candidate) -> Key:
        """Put first what probably beats others: few other parts, near the goal."""
        return self.changed(candidate), self.distance(candidate)

    def distance(self, candidate: Candidate) -> float:
        """How far a candidate lies from the goal, or from the extreme."""
        if self.goal.extreme is Extreme.LOWEST_STRESS:
            return abs(si(candidate.strength.bump.stress, STRESS))
        if self.goal.extreme is Extreme.LARGEST_BAR:
            return -si(candidate.setup.bar.diameter, LENGTH)
        return abs(candidate.miss)

    def changed(self, candidate: Candidate) -> int:
        """Count the other parts and the changes that a candidate needs."""
        changes = sum(one.topic not in _SWAPS for one in candidate.fit.changes)
        return self.search.count_swapped(candidate.setup) + changes

    def order(self, planned: Planned) -> Key:
        """Order of what to prefer: on the goal, with enough thread, then the least work.

        A bar that is tried as it is comes before one that loses a tooth for a turn of the nut.
        """
        candidate = planned.candidate
        distance, changed = self.distance(candidate), self.changed(candidate)
        *_, cuts, lacking, off = planned.key
        lacks = lacking > 0.0 and not planned.is_tried
        if self.goal.extreme is None:
            return (distance > _ON_GOAL, lacks, off, cuts, changed, distance, lacking)
        return (distance, lacks, off, cuts, changed, lacking)

    def _rated(self, candidate: Candidate) -> Key:
        """Return what is compared of a candidate before it has a plan."""
        steps = {Extreme.LOWEST_STRESS: _STRESS, Extreme.LARGEST_BAR: _DIAMETER}
        step = _SHARE if self.goal.extreme is None else steps[self.goal.extreme]
        factor = decisive_stress(candidate.strength).factor
        rates = candidate.rated.answer
        bump_left = si(rates.ride.height, LENGTH) - si(rates.bump.height, LENGTH)
        return (
            _in_steps(self.distance(candidate), step),
            -_in_steps(_MOST_FACTOR if factor is None else min(factor, _MOST_FACTOR), _FACTOR),
            float(self.changed(candidate)),
            -_in_steps(bump_left, _TRAVEL),
        )


def _planned(plan: Plan, answer: Reindex) -> Key:
    """Return what is compared of a plan: teeth to remove, turns that lack, height that is missed.

    With a fixed socket no turns lack, and the clocking may miss the height.
    """
    left, enough = plan.thread_reserve, answer.enough_thread_reserve
    lacking = 0.0
    if left is not None and enough is not None:
        lacking = max(0.0, si(enough, TURNS) - si(left, TURNS)) / math.tau
    missed = _in_steps(si(plan.height_rounding, LENGTH), _TRAVEL)
    return (float(plan.cuts), float(math.ceil(lacking - 1e-9)), missed)


def unbeaten(planned: Iterable[Planned]) -> list[Planned]:
    """Keep what no other beats.

    Parameters
    ----------
    planned : iterable of Planned
        Candidates with their plans.

    Returns
    -------
    list of Planned
        Another beats one if it is no worse in anything, and better in something.
    """
    found = list(planned)
    keys = {one.key for one in found}
    return [one for one in found if not any(_beats(other, one.key) for other in keys)]


def _beats(other: Key, key: Key) -> bool:
    return other != key and all(mine <= its for mine, its in zip(other, key, strict=True))


def _in_steps(figure: float, step: float) -> float:
    return float(round(figure / step))
