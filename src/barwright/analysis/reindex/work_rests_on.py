"""Figures that affect what is cut, set or declared safe on a corner."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.ride_height import (
    free_angle_for,
    reachable,
    wanted_angle,
    wanted_height,
)
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.reindex import CornerTask, Reindex
from barwright.analysis.strength.overstress import checked_at_yield, checked_permissible
from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, sources_moving
from barwright.errors import NeedsError
from barwright.parts.bar import Bar
from barwright.registry.jobs.job import JobCorner
from barwright.units import STRESS, si

__all__ = ["task_rests_on", "work_rests_on"]


def work_rests_on(corner: JobCorner) -> tuple[UnmeasuredSource, ...]:
    """List unmeasured sources that affect the work on a corner.

    The work is what :func:`~barwright.analysis.reindex.reindex.reindex` plans: which teeth are cut,
    what is set, which stop holds the arm, whether the bar is declared loose, and whether its
    strength is called enough.  An invented figure that moves none of these, like a tyre's
    rate, is no source of it.

    Parameters
    ----------
    corner : JobCorner
        The corner as it is now and as it is to be.

    Returns
    -------
    tuple of UnmeasuredSource

    Examples
    --------
    >>> from barwright.parts.wanted import Wanted
    >>> from barwright.registry.registry import Registry
    >>> van = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> work_rests_on(JobCorner(setup=van, present=van, wanted=Wanted()))
    (<UnmeasuredSource: kind invented, source fells:drawing-board>,)
    """
    return task_rests_on(CornerTask.of(corner))


def task_rests_on(
    task: CornerTask, *, known: Collection[UnmeasuredSource] = ()
) -> tuple[UnmeasuredSource, ...]:
    """List what :func:`work_rests_on` lists, of a task.

    Parameters
    ----------
    task : CornerTask
        The corner as it is now and as it is to be.
    known : collection of UnmeasuredSource
        Invented ones that count in any case, so that nothing is asked about them.

    Returns
    -------
    tuple of UnmeasuredSource
    """
    return sources_moving(
        (task.setup, task.present),
        task,
        at=lambda setup, present: CornerTask(setup, present, task.wanted),
        questions=[_summary, _decided],
        known=known,
    )


def _summary(task: CornerTask) -> Any:  # noqa: ANN401 - whatever decides
    """Arm angle without torque that the wanted height needs, which all settings come from.

    Where there is none, what says so: how the bar lies, or which heights can be reached.
    None where that needs more figures: then the clockings alone count.
    """
    try:
        return _needed(task)
    except NeedsError:
        return None


def _needed(task: CornerTask) -> Any:  # noqa: ANN401 - whatever decides
    corner, spring = task.corner, task.corner.torsional_rates
    if spring is None:
        return fit_of(corner)
    wanted = task.wish
    angle = wanted_angle(corner, wanted)
    if angle is None:
        return wanted_height(corner, wanted), reachable(corner)
    return free_angle_for(corner, spring, angle)


def _decided(task: CornerTask) -> tuple[Any, ...]:
    """List all that is decided of a corner and of its plans."""
    found, bar = task.answer, task.setup.bar
    return (*_of_corner(found), *(_of_plan(plan, bar) for plan in found.plans))


def _of_corner(found: Reindex) -> tuple[Any, ...]:
    """List what is decided of a corner beside its plans."""
    fit = found.fit
    return (
        found.verdict,
        fit.verdict,
        tuple(one.topic for one in (*fit.reasons, *fit.changes)),
        found.free_angle,
        found.unloading,
        found.pin_now,
        found.clockings,
    )


def _of_plan(plan: Plan, bar: Bar) -> tuple[Any, ...]:
    """List what a plan has cut and set, how the bar goes in, and whether it holds."""
    return (
        plan.verdict,
        plan.ends,
        (plan.nut_turns, plan.pin_distance, plan.nut_sense, plan.raising_sense),
        (plan.turns_left_clockwise, plan.turns_left_counter_clockwise),
        (plan.height, plan.height_rounding, plan.height_per_turn),
        plan.fitting,
        _factors(plan, bar),
    )


def _factors(plan: Plan, bar: Bar) -> tuple[float | None, ...]:
    """Safety factors of the stress at either stop, against each known limit of the bar.

    They decide whether the strength is called enough, however large they are: an invented
    limit may lie anywhere.
    """
    return tuple(
        check(bar, si(state.shear_stress, STRESS), StrengthLimits()).factor
        for state in (plan.droop, plan.bump)
        for check in (checked_permissible, checked_at_yield)
    )
