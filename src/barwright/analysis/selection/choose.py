"""Choose a bar for a goal."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import cast

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.unloading import swapped
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.rates import Rates, rates_of
from barwright.analysis.selection.against import decisive_stress
from barwright.analysis.selection.comparison import Comparison, Planned, unbeaten
from barwright.analysis.selection.damper import damper_rate_for
from barwright.analysis.selection.search import Search
from barwright.analysis.selection.selection import BarOption, Selection, Sieve
from barwright.analysis.selection.size import size_for
from barwright.analysis.selection.target import target_of
from barwright.analysis.strength.strength_limits import StressLimit
from barwright.errors import QuantityError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.record import Part
from barwright.parts.setup import Setup
from barwright.parts.wanted import Goal, Wanted
from barwright.units import WHEEL_RATE, si

__all__ = ["choose"]


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

    Every bar is tried on the corner's own parts, and with each other arm and anchor that take
    its ends, whatever their splines.  Options that another one beats in everything are left
    out: distance from the goal, stress, parts and changes that it needs, bump travel left,
    teeth to remove, thread left up to what is enough, and how far the height is missed.

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
    Checked against an enumeration of all bars, arms, anchors, dampers and plans by
    ``length_fit``, ``rates``, ``strength`` and ``reindex``, whose figures each option has.

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
        comparison = Comparison(self.goal, search)
        kept = sorted(unbeaten(comparison.planned(near)), key=comparison.order)
        first = kept[0].plan if kept else None
        return Selection(
            verdict=Verdict.CHOSEN if first else Verdict.NOTHING_SUITS,
            findings=first.findings if first else (_why_none(search.sieves),),
            cautions=first.cautions if first else (),
            goal=self.goal,
            target=None if target is None else target.figure,
            present_rate=now.wheel_rate,
            options=tuple(self._option(one, now) for one in kept),
            sieves=tuple(search.sieves),
            untried=search.untried,
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
            untried=0,
            size=None,
        )

    def _option(self, planned: Planned, now: Rates) -> BarOption:
        candidate, plan = planned.candidate, planned.plan
        rates, before = candidate.rated.answer, si(now.wheel_rate, WHEEL_RATE)
        setup, check = candidate.setup, decisive_stress(candidate.strength)
        others = tuple(k for k in swapped(setup, present=self.present) if k != "bar")
        return BarOption(
            bar_id=setup.bar.id,
            bar_title=setup.bar.title,
            arm_id=setup.arm.id,
            anchor_id=setup.anchor.id,
            damper_id=setup.damper.id,
            swapped=others,
            swapped_titles=tuple(getattr(setup, kind).title for kind in others),
            changes=tuple(dict.fromkeys(one.topic.value for one in candidate.fit.changes)),
            wheel_rate=rates.wheel_rate,
            rate_change=100.0 * (si(rates.wheel_rate, WHEEL_RATE) - before) / abs(before),
            ride_frequency=rates.figures.ride_frequency if rates.figures else None,
            miss=100.0 * candidate.miss,
            bump_stress=check.stress,
            # It survives, so that there is a limit.
            limit=cast("StressLimit", check.limit),
            factor=cast("float", check.factor),
            damper_rate=damper_rate_for(
                candidate.rated, damping_ratio=now.figures.damping_ratio if now.figures else None
            ),
            bump_left=plan.bump_left,
            plan=plan,
        )


def _why_none(sieves: Sequence[Sieve]) -> Finding:
    """Say which requirement left nothing, what came nearest, and what would let it through."""
    last = next(sieve for sieve in sieves if sieve.kept == 0)
    if not last.removed:
        return Finding(topic=Topic.NOTHING_LEFT, text="there is no bar to choose from")
    text = (
        f"of {last.removed} tried, none has {last.requirement}. Nearest: {last.nearest}. "
        f"To let it through, {last.remedy}"
    )
    return Finding(topic=Topic.NOTHING_LEFT, text=text)
