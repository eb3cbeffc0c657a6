"""Plans of a whole job: both sides of an axle are planned together."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias, TypeVar

import attrs

from barwright.analysis.finding import Finding, Topic
from barwright.analysis.reindex.plan.plan import EndAction, Plan
from barwright.analysis.reindex.plan.plan_costs import with_costs
from barwright.analysis.reindex.preference import ThreadLeft
from barwright.analysis.reindex.reindex import CornerTask, Reindex
from barwright.errors import SchemaError
from barwright.parts.chassis import BarEndName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import Job

__all__ = ["PlanNumbers", "by_corner", "plans_chosen", "plans_together", "reindex_job"]

T = TypeVar("T")

Kind: TypeAlias = frozenset[tuple[BarEndName, bool]]
"""What is done to a bar: ends that change their tooth, and whether one is removed there."""

PlanNumbers: TypeAlias = int | Mapping[str, int]
"""Number of the plan to follow: for all corners, or by side or corner ("left", "front left")."""


@checks_arguments
def reindex_job(job: Job) -> tuple[Reindex, ...]:
    """Plan how to clock the bars of a job, both sides of an axle together.

    Of all pairs of plans that keep enough thread, the first removes the fewest teeth in sum
    and disturbs the fewest ends; then the same work on both sides comes before two kinds of
    it; then the better reserve of the worse side counts.

    Parameters
    ----------
    job : Job
        The job.

    Returns
    -------
    tuple of Reindex
        In the order of the job's corners, each with the plan that is preferred for the
        axle first.

    References
    ----------
    Checked against an enumeration of all pairs.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> from barwright.registry.jobs.job import JobCorner
    >>> from barwright.parts.wanted import Wanted
    >>> registry = Registry.discover()
    >>> sides = ("front left", "front right")
    >>> van = [registry.setup("fells:chassis/short", corner=side) for side in sides]
    >>> corners = tuple(JobCorner(setup=s, present=s, wanted=Wanted()) for s in van)
    >>> [answer.plans[0].cuts for answer in reindex_job(Job(title="as it was", corners=corners))]
    [0, 0]
    """
    return plans_together([CornerTask.of(corner) for corner in job.corners])


def plans_together(tasks: Sequence[CornerTask]) -> tuple[Reindex, ...]:
    """Answer :func:`reindex_job` of the corners of a job.

    Parameters
    ----------
    tasks : sequence of CornerTask
        The corners.

    Returns
    -------
    tuple of Reindex
        In the order of the corners.
    """
    answers = [task.answer for task in tasks]
    setups = [task.corner.setup for task in tasks]
    for one, other in _axles(setups):
        if answers[one].plans and answers[other].plans:
            sides = [
                _Side(setups[place].side.value, answers[place], tasks[place].thread_left)
                for place in (one, other)
            ]
            answers[one], answers[other] = _together(*sides)
    return tuple(answers)


def plans_chosen(job: Job, answers: Sequence[Reindex], numbers: PlanNumbers = 1) -> tuple[int, ...]:
    """Return the number of the plan to follow at each corner of a job.

    Parameters
    ----------
    job : Job
        The job.
    answers : sequence of Reindex
        Those of its corners.
    numbers : int or mapping of str to int
        One number for all corners, or one by side or corner; a corner that is not named
        follows its first plan.

    Returns
    -------
    tuple of int
        From 1, and there on that corner wherever it has any plan.

    Raises
    ------
    SchemaError
        S203 for a number below 1, S206 for one that a corner with plans does not have, or
        for a corner that the job does not have.
    """
    names = [corner.setup.corner for corner in job.corners]
    by_name = dict.fromkeys(names, numbers) if isinstance(numbers, int) else {**numbers}
    found = by_corner(by_name, names, otherwise=1, key="plan")
    for number, name, answer in zip(found, names, answers, strict=True):
        _refuse_absent(number, name, answer)
    return found


def by_corner(
    given: Mapping[str, T], names: Sequence[str], *, otherwise: T, key: str
) -> tuple[T, ...]:
    """Return a value for each corner of a job, from values by side or corner.

    Parameters
    ----------
    given : mapping of str to object
        By side or corner ("left", "front left").
    names : sequence of str
        Corners of the job.
    otherwise : object
        For a corner that is not named.
    key : str
        Name of the argument, for an error.

    Returns
    -------
    tuple of object
        In the order of the corners.

    Raises
    ------
    SchemaError
        S206 for a corner that the job does not have.
    """
    sides = [name.rpartition(" ")[2] for name in names]
    for name in given:
        if name not in (*names, *sides):
            raise SchemaError(
                "S206",
                value=name,
                expected=f"a corner of the job: {', '.join(names)}",
                remedy="name a corner of the job, or its side alone",
                key=key,
            )
    pairs = zip(names, sides, strict=True)
    return tuple(given.get(name, given.get(side, otherwise)) for name, side in pairs)


def _refuse_absent(number: int, name: str, answer: Reindex) -> None:
    """Refuse the number of a plan that a corner with plans does not have."""
    if number < 1:
        raise SchemaError(
            "S203",
            value=number,
            expected="the number of a plan, from 1",
            remedy="plans are counted from 1, and plan 1 is preferred",
            key="plan",
        )
    most = len(answer.plans)
    if 0 < most < number:
        raise SchemaError(
            "S206",
            value=number,
            expected=f"a plan of the {name}: 1 to {most}"
            if most > 1
            else f"1, the {name}'s only plan",
            remedy=f"choose for each side, like {name.rpartition(' ')[2]}=1",
            key="plan",
        )


def _axles(setups: Sequence[Setup]) -> Iterator[tuple[int, int]]:
    """Places in the job of the two corners of each axle."""
    for (one, here), (other, there) in itertools.combinations(enumerate(setups), 2):
        if here.axle.place is there.axle.place and here.side is not there.side:
            yield one, other


@attrs.frozen(eq=False)
class _Side:
    """One side of an axle, its plans, and the thread that they leave."""

    name: str
    answer: Reindex
    thread_left: ThreadLeft


def _together(one: _Side, other: _Side) -> tuple[Reindex, Reindex]:
    """Put first on each side the plan that is preferred for the axle."""
    pairs = itertools.product(one.thread_left.preferred, other.thread_left.preferred)
    first, second = min(pairs, key=lambda pair: _rank(one, other, *pair))
    chosen = {one.name: one.answer.plans[first], other.name: other.answer.plans[second]}
    why = tuple(_difference((one, other), chosen))
    return _led_by(one.answer, first, why), _led_by(other.answer, second, why)


def _rank(
    one: _Side, other: _Side, first: int, second: int
) -> tuple[int, int, bool, int, int, int]:
    """Order of the pairs: the smallest is preferred."""
    pair = one.answer.plans[first], other.answer.plans[second]
    worse = min(one.thread_left.flats[first], other.thread_left.flats[second])
    return (
        sum(plan.cuts for plan in pair),
        sum(len(plan.disturbed) for plan in pair),
        _kind(pair[0]) != _kind(pair[1]),
        -worse,
        first + second,
        first,
    )


def _kind(plan: Plan) -> Kind:
    return frozenset(
        (work.end, work.action is EndAction.REMOVE_TOOTH)
        for work in plan.ends
        if work.end in plan.disturbed
    )


def _led_by(answer: Reindex, place: int, why: tuple[Finding, ...]) -> Reindex:
    chosen = answer.plans[place]
    plans = (chosen, *(plan for plan in answer.plans if plan is not chosen))
    return attrs.evolve(
        answer,
        plans=with_costs(plans),
        trial=answer.trial if chosen.cuts else None,
        findings=(*answer.findings, *why),
        cautions=chosen.cautions,
    )


# -- Why the sides differ ----------------------------------------------------------------


def _difference(sides: Sequence[_Side], chosen: dict[str, Plan]) -> Iterator[Finding]:
    """Say how and why the two sides differ, if they do."""
    mine, its = chosen.values()
    if _kind(mine) == _kind(its):
        return
    work = ", ".join(f"{side} {_in_words(plan)}" for side, plan in chosen.items())
    why = _spared(chosen) if mine.cuts != its.cuts else _no_one_kind(sides)
    yield Finding(topic=Topic.BOTH_SIDES, text=f"the sides differ: {work}; {why}")


def _spared(chosen: dict[str, Plan]) -> str:
    """Say that one side needs fewer cuts than the other."""
    (spared, _), (other, plan) = sorted(chosen.items(), key=lambda pair: pair[1].cuts)
    fewer = "without a cut" if plan.cuts == 1 else "with fewer cuts"
    return f"the {spared} does not need it; on the {other} no plan {fewer} keeps as much thread"


def _no_one_kind(sides: Sequence[_Side]) -> str:
    """Say why the same work is not done on both sides."""
    kinds = [
        {_kind(side.answer.plans[place]) for place in side.thread_left.preferred} for side in sides
    ]
    if kinds[0] & kinds[1]:
        return "the same work on both sides would move more ends to another tooth"
    return "no plan for both sides alike keeps enough thread on both"


def _in_words(plan: Plan) -> str:
    removed = [w.end.value for w in plan.ends if w.action is EndAction.REMOVE_TOOTH]
    if removed:
        return f"loses a tooth at the {' and the '.join(removed)}"
    if plan.disturbed:
        return f"is re-indexed at the {' and the '.join(end.value for end in plan.disturbed)}"
    return "keeps its teeth"
