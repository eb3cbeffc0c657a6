"""The steps that try a bar uncut before a tooth is removed: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.uncut_trial import UncutTrial
from barwright.parts.setup import Setup
from barwright.report.sheet.steps.adjustment import PlannedAdjustment, adjusted, datum
from barwright.report.sheet.steps.step import CornerStep, only_if
from barwright.units import shown

__all__ = ["beside_a_trial", "trial_of_another_bar", "trial_of_the_bar_in"]


def trial_of_the_bar_in(
    trial: UncutTrial, setup: Setup, *, swap: Sequence[CornerStep], goes_on: bool
) -> Iterator[CornerStep]:
    """Try the bar that is in: all that it takes is a turn of the adjuster, or another damper.

    Parameters
    ----------
    trial : UncutTrial
        The trial.
    setup : Setup
        The corner as it is to be.
    swap : sequence of CornerStep
        Steps that put the other damper on; empty where it stays.
    goes_on : bool
        Whether another corner is taken apart in any case.

    Yields
    ------
    CornerStep
    """
    yield _LIFTED
    yield CornerStep("Set the {what}, bar uncut: {place}.", **_set(trial, setup))
    yield from _with_wheel_off(swap)
    yield from _measured(
        trial,
        'cut nothing, and leave out the steps of this side up to "Back on its wheels".'
        if goes_on
        else _NOTHING_CUT,
    )


def beside_a_trial(own: Sequence[CornerStep], plan: Plan, *, swaps: bool) -> Iterator[CornerStep]:
    """Do the work of a corner whose bar stays in, while another is tried.

    Parameters
    ----------
    own : sequence of CornerStep
        Its steps.
    plan : Plan
        Its plan.
    swaps : bool
        Whether its damper is another.

    Yields
    ------
    CornerStep
    """
    yield _LIFTED
    yield from _with_wheel_off(own) if swaps else own
    yield _set_down(plan)


def _with_wheel_off(steps: Sequence[CornerStep]) -> Iterator[CornerStep]:
    """Take the wheel off for some steps, and what holds the arm beside the damper."""
    if not steps:
        return
    yield CornerStep("Take the wheel off.")
    yield only_if("there is an anti-roll bar", "undo its links; they hold the arms up.")
    yield from steps
    yield CornerStep("Fit what you undid and the wheel. Tighten its bolts to the maker's torque.")


def trial_of_another_bar(trial: UncutTrial, setup: Setup) -> Iterator[CornerStep]:
    """Try a corner whose bar or damper must be fitted first; the bar may come out once more.

    Parameters
    ----------
    trial : UncutTrial
        The trial.
    setup : Setup
        The corner as it is to be.

    Yields
    ------
    CornerStep
    """
    yield CornerStep(
        'First fit the bar uncut, its blanks on the keys, as under "Put together"; set the {what} '
        "{place}.",
        **_set(trial, setup),
    )
    yield from _measured(trial, _NOTHING_CUT)
    yield only_if("it does not", "take it apart again, and go on here.")


def _set(trial: UncutTrial, setup: Setup) -> dict[str, str]:
    # A fixed socket has no trial.
    at = cast("PlannedAdjustment", adjusted(trial.plan))
    place = f"{shown(at.distance, 1)} from the {datum(setup)} to the {at.words.point}"
    return {"what": at.words.what, "place": place}


def _set_down(plan: Plan) -> CornerStep:
    return CornerStep(
        "Set it down, roll it and measure: about {height}.", height=shown(plan.height, 0)
    )


def _measured(trial: UncutTrial, then: str) -> Iterator[CornerStep]:
    yield _set_down(trial.plan)
    yield only_if(
        "every height comes within {target}, the {what} turned as need be",
        then,
        what=cast("PlannedAdjustment", adjusted(trial.plan)).words.what,
        target=trial.target,
    )


_LIFTED = CornerStep("Lift the body until both wheels hang, and set it on stands.")
_NOTHING_CUT = 'cut nothing; go to "Back on its wheels".'
