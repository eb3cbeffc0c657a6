"""What the bench sheet of a job needs; each corner is built once."""

from __future__ import annotations

from typing import cast

import attrs

from barwright.analysis.adjusting.nut_table import NutTable, nut_table_of
from barwright.analysis.assembly.loose_bar import LooseBar, loose_bar
from barwright.analysis.assembly.unloading import Unloading, swapped
from barwright.analysis.finding import Topic
from barwright.analysis.rates.rates import Rates, rated_corner
from barwright.analysis.reindex.axle import PlanNumbers, plans_chosen, plans_together
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.setup_after import carried_out
from barwright.analysis.reindex.present_bar import unloading_now
from barwright.analysis.reindex.reindex import CornerTask, Reindex
from barwright.analysis.reindex.work_rests_on import task_rests_on
from barwright.analysis.strength.strength import Strength, strength_as_rated
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource
from barwright.errors import NeedsError
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.jobs.job import Job
from barwright.units import TURNS, Quantity, quantity, si

__all__ = ["BenchWork", "TriedCorner", "bench_work"]


@attrs.frozen(kw_only=True)
class TriedCorner:
    """A corner that was tried uncut with its other damper, and how its bar comes out then.

    Parameters
    ----------
    present : Setup
        The corner as the trial leaves it.
    unloading : Unloading
        How the bar is unloaded there.
    loose : LooseBar
        Positions that unload the bar there.
    """

    present: Setup
    unloading: Unloading
    loose: LooseBar


@attrs.frozen(kw_only=True)
class BenchWork:
    """The work on one corner of a job, and its result.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    reindex : Reindex
        All plans, the one preferred for the axle first.
    number : int
        Number of the requested plan.
    plan : Plan, optional
        The plan of that number; none if there is no such plan.
    rates : Rates
        At the wanted height, with that plan carried out.
    strength : Strength
        Of the bar, with that plan carried out.
    loose, loose_now : LooseBar, optional
        Positions that unload the bar after the plan, and the fitted bar now; none without a
        plan.
    nut_table : NutTable, optional
        What each turn of the adjuster changes after the plan; none without a plan.
    turns_to_make : Quantity, optional
        From where the adjuster is now to where the plan has it, clockwise positive; none where
        nobody said where it is, or nothing is turned.
    tried : TriedCorner, optional
        What a trial leaves that fits the other damper and leaves the bar in; none without one.
    cutting_waits : bool
        Whether no tooth may go before a load is checked: that of either side of its axle.
    rests_on : tuple of UnmeasuredSource
        Unmeasured and unpublished sources that the work depends on.
    """

    setup: Setup
    present: Setup
    reindex: Reindex
    number: int
    plan: Plan | None
    rates: Rates
    strength: Strength
    loose: LooseBar | None
    loose_now: LooseBar | None
    nut_table: NutTable | None
    turns_to_make: Quantity | None
    tried: TriedCorner | None
    cutting_waits: bool
    rests_on: tuple[UnmeasuredSource, ...]


def bench_work(job: Job, numbers: PlanNumbers) -> tuple[BenchWork, ...]:
    """Work out every corner of a job.

    Parameters
    ----------
    job : Job
        The job.
    numbers : int or mapping of str to int
        Number of the plan to follow: for all corners, or by side or corner.

    Returns
    -------
    tuple of BenchWork
        In the order of the job's corners.

    Raises
    ------
    SchemaError
        S203 or S206 for the number of a plan that cannot be.
    """
    tasks = [CornerTask.of(corner) for corner in job.corners]
    answers = plans_together(tasks)
    chosen = plans_chosen(job, answers, numbers)
    places = [task.corner.setup.axle.place for task in tasks]
    # Both sides are planned together: a load that is wrong on one moves the teeth of both.
    doubted = {
        place
        for place, answer in zip(places, answers, strict=True)
        if any(finding.topic is Topic.LOAD for finding in answer.findings)
    }
    return tuple(
        _worked_out(task, answer, number, cutting_waits=place in doubted)
        for task, answer, number, place in zip(tasks, answers, chosen, places, strict=True)
    )


def _worked_out(
    task: CornerTask, answer: Reindex, number: int, *, cutting_waits: bool
) -> BenchWork:
    plan = answer.plans[number - 1] if answer.plans else None
    done = carried_out(task.corner, plan) if plan else task.corner
    rated = rated_corner(done, _wish(task))
    return BenchWork(
        setup=task.corner.setup,
        present=task.present,
        reindex=answer,
        number=number,
        plan=plan,
        rates=rated.answer,
        strength=strength_as_rated(rated),
        loose=loose_bar(done) if plan else None,
        loose_now=loose_bar(task.now) if plan else None,
        nut_table=nut_table_of(done, measured=None, wanted=None) if plan else None,
        turns_to_make=_turns_to_make(task, plan) if plan else None,
        tried=_tried(task, answer) if plan and plan.cuts else None,
        cutting_waits=cutting_waits,
        rests_on=task_rests_on(task),
    )


def _turns_to_make(task: CornerTask, plan: Plan) -> Quantity | None:
    """Count turns from where the adjuster is said to be now; a job may just leave it out."""
    now = task.present
    is_said = now.pin_distance is not None or now.nut_turns.magnitude
    if plan.nut_turns is None or not is_said:
        return None
    return quantity(si(plan.nut_turns, TURNS) - task.now.turns_now, TURNS)


def _tried(task: CornerTask, answer: Reindex) -> TriedCorner | None:
    """Try a corner uncut on which nothing but the damper is another: its bar may stay in."""
    if answer.trial is None or swapped(task.setup, present=task.present) != ("damper",):
        return None
    there = carried_out(task.corner, answer.trial.plan)
    # A bar with a plan comes out; what holds it with the new damper on, that damper off does not.
    way = cast("Unloading", unloading_now(there))
    return TriedCorner(present=there.setup, unloading=way, loose=loose_bar(there))


def _wish(task: CornerTask) -> Wanted:
    """Return the height that is meant; as it was said where the present one is not known."""
    try:
        return task.wish
    except NeedsError:
        return task.wanted
