"""What the work on a corner rests on: figures that move what is cut, set or declared safe."""

from __future__ import annotations

from typing import Any

from barwright.analysis.corner.model import CornerModel
from barwright.analysis.fit.length_fit import length_fit
from barwright.analysis.rates.ride_height import (
    free_angle_for,
    reachable,
    springing,
    wanted_angle,
    wanted_height,
)
from barwright.analysis.reindex.plan import Plan
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.strength.overstress import checked_at_yield, checked_permissible
from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, rests_on
from barwright.parts.bar import Bar
from barwright.parts.setup import Setup, Wanted
from barwright.registry.jobs.job import JobCorner

__all__ = ["work_rests_on"]


def work_rests_on(corner: JobCorner) -> tuple[UnmeasuredSource, ...]:
    """List what nobody has measured or published and what moves the work on a corner.

    The work is what :func:`~barwright.analysis.reindex.reindex.reindex` plans: which teeth are cut,
    what is set, which stop holds the arm, whether the bar is declared loose, and whether its
    strength is called enough.  An invented figure that moves none of these, like a tyre's
    rate, is no footing of it.

    Parameters
    ----------
    corner : JobCorner
        The corner as it is now and as it is to be.

    Returns
    -------
    tuple of UnmeasuredSource

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> van = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> work_rests_on(JobCorner(setup=van, present=van, wanted=Wanted()))
    (UnmeasuredSource(kind='invented', source='fells:drawing-board'),)
    """
    wanted = corner.wanted

    def in_short(to_be: Setup, _: Setup) -> Any:  # noqa: ANN401 - whatever decides
        return _in_short(to_be, wanted)

    def decided(to_be: Setup, now: Setup) -> tuple[Any, ...]:
        found = reindex(to_be, wanted=wanted, present=now)
        return (*_of_corner(found), *(_of_plan(plan, to_be.bar) for plan in found.plans))

    return rests_on(corner.setup, corner.present, questions=[in_short, decided])


def _in_short(setup: Setup, wanted: Wanted) -> Any:  # noqa: ANN401 - whatever decides
    """Arm angle without torque that the wanted height needs, which all settings come from.

    Where there is none, what says so: how the bar lies, or which heights can be reached.
    """
    model = CornerModel(setup)
    fit = length_fit(setup)
    spring = springing(setup, fit)
    if spring is None:
        return fit
    angle = wanted_angle(model, wanted)
    if angle is None:
        return wanted_height(model, wanted), reachable(model)
    return free_angle_for(model, spring, angle)


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
    )


def _of_plan(plan: Plan, bar: Bar) -> tuple[Any, ...]:
    """List what a plan has cut and set, how the bar goes in, and whether it holds."""
    return (
        plan.verdict,
        plan.ends,
        (plan.nut_turns, plan.pin_distance, plan.nut_sense, plan.raising_sense),
        (plan.turns_left_clockwise, plan.turns_left_counter_clockwise),
        (plan.height, plan.height_tolerance, plan.height_per_turn),
        plan.fitting,
        _factors(plan, bar),
    )


def _factors(plan: Plan, bar: Bar) -> tuple[float | None, ...]:
    """How often the stress at either stop goes into each limit that is known of the bar.

    They decide whether the strength is called enough, however large they are: an invented
    limit may lie anywhere.
    """
    return tuple(
        check(bar, state.shear_stress, StrengthLimits()).factor
        for state in (plan.droop, plan.bump)
        for check in (checked_permissible, checked_at_yield)
    )
