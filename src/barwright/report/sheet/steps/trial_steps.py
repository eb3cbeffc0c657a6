"""The steps that try a bar uncut before a tooth is removed: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from barwright.analysis.reindex.uncut_trial import UncutTrial
from barwright.parts.setup import Setup
from barwright.report.sheet.steps.adjustment import PlannedAdjustment, adjusted, datum
from barwright.report.sheet.steps.step import CornerStep, only_if
from barwright.units import shown

__all__ = ["trial_of_another_bar", "trial_of_the_bar_in"]


def trial_of_the_bar_in(trial: UncutTrial, setup: Setup) -> Iterator[CornerStep]:
    """Try the bar that is in: all that it takes is a turn of the adjuster.

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
    yield CornerStep("Lift the body until both wheels hang, and set it on stands.")
    yield CornerStep("Set the {what}, bar uncut: {place}.", **_set(trial, setup))
    yield from _measured(trial)


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
    yield from _measured(trial)
    yield only_if("it does not", "take it apart again, and go on here.")


def _set(trial: UncutTrial, setup: Setup) -> dict[str, str]:
    # A fixed socket has no trial.
    at = cast("PlannedAdjustment", adjusted(trial.plan))
    place = f"{shown(at.distance, 1)} from the {datum(setup)} to the {at.words.point}"
    return {"what": at.words.what, "place": place}


def _measured(trial: UncutTrial) -> Iterator[CornerStep]:
    yield CornerStep(
        "Set it down, roll it and measure: about {height}.",
        height=shown(trial.plan.height, 0),
    )
    yield only_if(
        "every height comes within {target}, the {what} turned as need be",
        'cut nothing; go to "Back on its wheels".',
        what=cast("PlannedAdjustment", adjusted(trial.plan)).words.what,
        target=trial.target,
    )
