"""The first lines of a bench sheet: what to do on which corner, and how the vehicle then stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.report.sheet.corner_names import names_of
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import adjusted, datum
from barwright.report.sheet.steps.step import CornerStep, together
from barwright.units import shown

__all__ = ["planned_lines"]


def planned_lines(works: Sequence[CornerWork]) -> Iterator[str]:
    """Say what the corners that have a plan come to, once where their work is the same.

    Parameters
    ----------
    works : sequence of CornerWork
        The corners that are worked on.

    Yields
    ------
    str
    """
    alike: dict[object, tuple[str, dict[str, CornerStep]]] = {}
    for work in works:
        step = _come_to(work)
        doubt = work.answer.doubt
        if not doubt and work.plan.cuts and work.cutting_waits:
            doubt = "Check the other side's load first. "
        same = (work.setup.axle.place, work.plan.work, step.words, doubt)
        found = alike.setdefault(same, (doubt, {}))
        found[1][work.setup.corner] = step
    for doubt, corners in alike.values():
        text = together(corners).text
        if doubt:
            text = f"{doubt[0].lower()}{doubt[1:]}{text[0].upper()}{text[1:]}"
        yield f"{names_of(corners)}: {text}"


def _come_to(work: CornerWork) -> CornerStep:
    """Say what is done to the bar, where the adjuster goes, and how the vehicle then stands."""
    plan, at = work.plan, adjusted(work.plan)
    figures = {
        "work": plan.work,
        "height": plan.height_in_words,
        "droop": shown(plan.droop_left, 0),
        "bump": shown(plan.bump_left, 0),
    }
    stands = (
        "The corner then stands at {height} hub to arch, with {droop} of droop and {bump} of bump "
        "left."
    )
    if at is None:
        return CornerStep(f"{{work}}. {stands}", **figures)
    figures |= {
        "what": at.words.what,
        "distance": shown(at.distance, 1),
        "datum": datum(work.setup),
    }
    tried = None if work.trial is None else adjusted(work.trial.plan)
    if work.trial is None or tried is None:
        return CornerStep(
            f"{{work}}. Set the {{what}} {{distance}} from the {{datum}}. {stands}", **figures
        )
    return CornerStep(
        "first try it uncut, {what} {tried} from the {datum}. Only if more than {off} off "
        "{wanted}: {work}, set the {what} {distance}. It then stands at {height} hub to arch.",
        tried=shown(tried.distance, 1),
        off=shown(work.trial.close_enough, 0),
        wanted=shown(work.trial.wanted_height, 0),
        **figures,
    )
