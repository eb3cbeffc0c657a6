"""Choose a bar for a goal."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import cast

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.unloading import swapped
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.rates import Rates, rates_of
from barwright.analysis.selection.search import Candidate, Planned, Search
from barwright.analysis.selection.selection import BarOption, Selection, Sieve
from barwright.analysis.selection.size import size_for
from barwright.analysis.selection.target import target_of
from barwright.analysis.strength.overstress import StressCheck
from barwright.analysis.strength.strength_limits import StressLimit
from barwright.errors import QuantityError
from barwright.parts.arguments import checks_arguments
from barwright.parts.goal import Extreme, Goal
from barwright.parts.record import Part
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, STRESS, TURNS, WHEEL_RATE, si

__all__ = ["choose", "unbeaten"]

# Nearer to the goal than this, bars are told apart by the work that they ask for [share].
_ON_GOAL = 0.03
# Differences below these count as none where options are compared.
_SHARE, _FACTOR = 0.005, 0.05
_STRESS, _DIAMETER, _TRAVEL = 5e6, 1e-4, 5e-3  # Pa, m, m


@checks_arguments
def choose(
    setup: Setup,
    goal: Goal,
    *,
    parts: Iterable[Part],
    wanted: Wanted | None = None,
    most_miss: float = 10.0,
    with_dampers: bool = False,
) -> Selection:
    """Choose the bars that bring a goal on a corner and survive, with what each asks for.

    Every bar whose splines match is tried: on the corner's own parts, or with the donor arm
    and anchor that make it fit.  Options that another one beats in everything are left out:
    distance from the goal, stress, parts and changes that it needs, teeth to remove, thread
    left up to what is enough, travel left.

    Parameters
    ----------
    setup : Setup
        The corner as it is now.
    goal : Goal
        What the bar is chosen for.
    parts : iterable of Part
        Parts to choose from, such as ``registry.parts()``.
    wanted : Wanted, optional
        The height to hold; the standard height if left out.
    most_miss : float
        How far an option may miss the goal [%].
    with_dampers : bool
        Whether other dampers are tried too.

    Returns
    -------
    Selection

    Raises
    ------
    JobError
        S207 for a ratio of the axles on a vehicle with one axle on bars.
    QuantityError
        Q302 for a share that is none.

    References
    ----------
    Exhaustive over all bars; each option's figures are those of ``length_fit``, ``rates``,
    ``strength`` and ``reindex``.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.demo()
    >>> van = registry.setup("fells:chassis/short", corner="front left")
    >>> answer = choose(van, Goal(rate_change=30.0), parts=registry.parts())
    >>> answer.preferred.bar_id, round(answer.preferred.rate_change)
    ('fells:bar/short-firm', 31)
    """
    if not (math.isfinite(most_miss) and most_miss > 0.0):
        raise QuantityError(
            "Q302",
            value=most_miss,
            expected="a number of per cent above 0",
            remedy="write how far an option may miss the goal, like 10",
            key="most_miss",
        )
    return _Choosing(setup, goal, wanted or Wanted(), most_miss / 100.0).answer(
        list(parts), with_dampers=with_dampers
    )


@attrs.frozen
class _Choosing:
    """A goal on a corner."""

    present: Setup
    goal: Goal
    wanted: Wanted
    most_miss: float

    def answer(self, parts: Sequence[Part], *, with_dampers: bool) -> Selection:
        now = rates_of(Corner(self.present), self.wanted)
        if now.figures is None:
            return self._unknown(now)
        target = target_of(self.goal, self.present, now)
        search = Search(self.present, self.wanted, parts, with_dampers)
        found = search.fitting()
        near = found if target is None else search.near(target, found, most_miss=self.most_miss)
        planned = search.planned(sorted(near, key=self._distance))
        kept = sorted(unbeaten(planned, self._compared), key=self._order)
        first = kept[0].answer.preferred if kept else None
        return Selection(
            verdict=Verdict.CHOSEN if first else Verdict.NOTHING_SUITS,
            findings=first.findings if first else tuple(_why_none(search.sieves)),
            cautions=first.cautions if first else (),
            goal=self.goal,
            target=None if target is None else target.figure,
            present_rate=now.wheel_rate,
            options=tuple(self._option(one, now) for one in kept),
            sieves=tuple(search.sieves),
            size=size_for(target, self.present, self.wanted),
        )

    def _unknown(self, now: Rates) -> Selection:
        """Say why a corner has no rate now, which a goal is counted from."""
        return Selection(
            verdict=now.verdict,
            findings=now.findings,
            goal=self.goal,
            target=None,
            present_rate=None,
            options=(),
            sieves=(),
            size=None,
        )

    def _distance(self, candidate: Candidate) -> float:
        """How far a candidate lies from the goal, or from the extreme."""
        if self.goal.extreme is Extreme.LOWEST_STRESS:
            return abs(si(candidate.strength.bump.stress, STRESS))
        if self.goal.extreme is Extreme.LARGEST_BAR:
            return -si(candidate.setup.bar.diameter, LENGTH)
        return abs(candidate.miss)

    @property
    def _step(self) -> float:
        """Differences of distance below this count as none."""
        steps = {Extreme.LOWEST_STRESS: _STRESS, Extreme.LARGEST_BAR: _DIAMETER}
        return _SHARE if self.goal.extreme is None else steps[self.goal.extreme]

    def _compared(self, planned: Planned) -> tuple[float, ...]:
        """Return what options are compared on, the less the better, in steps that one minds."""
        candidate, plan = planned.candidate, planned.answer.preferred
        return (
            _in_steps(self._distance(candidate), self._step),
            -_in_steps(_stress(candidate).factor or 0.0, _FACTOR),
            self._parts(candidate),
            plan.cuts,
            -_reserve(planned),
            -_in_steps(si(plan.bump_left, LENGTH), _TRAVEL),
        )

    def _order(self, planned: Planned) -> tuple[float, ...]:
        """Order of what to prefer: on the goal, then the least work, then the nearest."""
        candidate, plan = planned.candidate, planned.answer.preferred
        distance = self._distance(candidate)
        is_off = self.goal.extreme is None and distance > _ON_GOAL
        if self.goal.extreme is None:
            return (is_off, plan.cuts, self._parts(candidate), distance)
        return (is_off, distance, plan.cuts, self._parts(candidate))

    def _parts(self, candidate: Candidate) -> int:
        """Count the other parts and the changes that a candidate needs."""
        return len(self._swapped(candidate)) + len(candidate.fit.changes)

    def _swapped(self, candidate: Candidate) -> tuple[str, ...]:
        """Name the parts beside the bar that are not on the corner now."""
        return tuple(k for k in swapped(candidate.setup, present=self.present) if k != "bar")

    def _option(self, planned: Planned, now: Rates) -> BarOption:
        candidate, plan = planned.candidate, planned.answer.preferred
        rates, before = candidate.rated.answer, si(now.wheel_rate, WHEEL_RATE)
        others, check = self._swapped(candidate), _stress(candidate)
        return BarOption(
            bar_id=candidate.setup.bar.id,
            bar_title=candidate.setup.bar.title,
            arm_id=candidate.setup.arm.id,
            anchor_id=candidate.setup.anchor.id,
            damper_id=candidate.setup.damper.id,
            swapped=others,
            swapped_titles=tuple(getattr(candidate.setup, kind).title for kind in others),
            changes=tuple(dict.fromkeys(one.topic.value for one in candidate.fit.changes)),
            wheel_rate=rates.wheel_rate,
            rate_change=100.0 * (si(rates.wheel_rate, WHEEL_RATE) - before) / abs(before),
            ride_frequency=rates.figures.ride_frequency if rates.figures else None,
            miss=100.0 * candidate.miss,
            bump_stress=check.stress,
            # It survives, so that there is a limit.
            limit=cast("StressLimit", check.limit),
            factor=cast("float", check.factor),
            bump_left=plan.bump_left,
            plan=plan,
        )


def unbeaten(
    candidates: Sequence[Planned], compared: Callable[[Planned], tuple[float, ...]]
) -> list[Planned]:
    """Keep the candidates that no other beats.

    Parameters
    ----------
    candidates : sequence of Planned
        The candidates.
    compared : callable
        What they are compared on, the less the better.

    Returns
    -------
    list of Planned
        Another beats one if it is no worse in anything, and better in something.
    """
    keys = [compared(one) for one in candidates]
    return [
        one
        for one, key in zip(candidates, keys, strict=True)
        if not any(_beats(other, key) for other in keys)
    ]


def _beats(other: tuple[float, ...], key: tuple[float, ...]) -> bool:
    return other != key and all(mine <= its for mine, its in zip(other, key, strict=True))


def _in_steps(figure: float, step: float) -> float:
    return float(round(figure / step))


def _reserve(planned: Planned) -> float:
    """Count the turns of thread left, up to what is enough; none with a fixed socket."""
    left, enough = planned.answer.preferred.thread_reserve, planned.answer.enough_thread_reserve
    if left is None or enough is None:
        return 0.0
    return math.floor(min(si(left, TURNS), si(enough, TURNS)) / math.tau)


def _stress(candidate: Candidate) -> StressCheck:
    """Stress at full bump against the permissible one, or against yield if that is all known."""
    strength = candidate.strength
    return strength.bump if strength.bump.limit else strength.at_yield


def _why_none(sieves: Iterable[Sieve]) -> Iterable[Finding]:
    """Say which requirement left nothing, and what came nearest."""
    last = next(sieve for sieve in sieves if sieve.kept == 0)
    nearest = f"; nearest: {last.nearest}" if last.nearest else ""
    yield Finding(topic=Topic.NOTHING_LEFT, text=f"no bar passes: {last.requirement}{nearest}")
