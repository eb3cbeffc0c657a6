"""The step that sets the adjuster as a plan has it: common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.reindex.preference import FLATS
from barwright.mechanics.spline.clocking import TurningSense
from barwright.parts.setup import Setup
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import PlannedAdjustment, adjusted, datum
from barwright.report.sheet.steps.step import CornerStep
from barwright.units import shown

__all__ = ["setting_steps"]


def setting_steps(work: CornerWork) -> Iterator[CornerStep]:
    """Set the adjuster, from where it stands then.

    Parameters
    ----------
    work : CornerWork
        The work on its corner.

    Yields
    ------
    CornerStep
        None where there is nothing to turn.
    """
    at = adjusted(work.plan)
    if at is None:
        return
    figures = {
        "what": at.words.what,
        "seen_from": at.words.seen_from,
        "distance": shown(at.distance, 1),
        "datum": datum(work.setup),
        "point": at.words.point,
    }
    thread = _on_thread(work.setup)
    if work.unloads:
        yield _from_slack_end(at, thread=thread, **figures)
    elif work.turns_to_make is not None:
        yield _turned(float(work.turns_to_make.magnitude), thread=thread, **figures)
    else:
        yield _from_anywhere(at, thread=thread, **figures)


def _from_slack_end(at: PlannedAdjustment, **figures: str) -> CornerStep:
    return CornerStep(
        "Set the {what}: {distance} from the {datum} to the {point}, about {turns} turns {sense} "
        "from its slack end, seen from {seen_from}. {thread}",
        turns=f"{float(at.from_slack_end.magnitude):.1f}",
        sense=at.raising_sense.value,
        **figures,
    )


def _turned(turns: float, **figures: str) -> CornerStep:
    """Turn it from where it was measured to be; less than half a flat is left alone."""
    if abs(turns) < _LEFT_ALONE:
        return CornerStep(
            "Leave the {what} where it is: {distance} from the {datum} to the {point}.", **figures
        )
    sense = TurningSense.CLOCKWISE if turns > 0.0 else TurningSense.COUNTER_CLOCKWISE
    return CornerStep(
        "Turn the {what} about {turns} turns {sense}, seen from {seen_from}, until it is "
        "{distance} from the {datum} to the {point}. {thread}",
        turns=f"{abs(turns):.1f}",
        sense=sense.value,
        **figures,
    )


_LEFT_ALONE = 0.5 / FLATS


def _from_anywhere(at: PlannedAdjustment, **figures: str) -> CornerStep:
    turns = f"{abs(float(at.turns.magnitude)):.2f} turns"
    place = f"{turns} {at.sense.value} from mid-thread" if at.sense else "at mid-thread"
    return CornerStep(
        "Turn the {what} until it is {distance} from the {datum} to the {point}: {place}, seen "
        "from {seen_from}. {thread}",
        place=place,
        **figures,
    )


def _on_thread(setup: Setup) -> str:
    """Say that the thread must be engaged, and that a spacer stays."""
    adjuster = setup.adjuster
    if adjuster is None or adjuster.is_screwed:
        return "The bolt's thread must reach all the way through its hole."
    spacer = ", the spacer in its place" if adjuster.spacer.magnitude else ""
    return f"Keep the whole nut on the thread{spacer}."
