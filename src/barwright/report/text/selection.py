"""Which bars reach a goal, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.selection.selection import BarOption, Selection, Sieve, SizeForGoal
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Block, Note, finding_lines, or_none, table
from barwright.units import Quantity, shown

__all__ = ["selection_row", "selection_text"]

_MOST_OPTIONS = 6


def selection_text(answer: Selection) -> Page:
    """Show the bars to choose from, which size would do, and what took others out.

    Parameters
    ----------
    answer : Selection
        The answer.

    Returns
    -------
    Page
    """
    label = "note" if answer.options else "because"
    return page_of(
        answer,
        *_options(answer),
        *_size(answer.size),
        *_sieves(answer),
        *_cautions(answer),
        findings=finding_lines(label, answer.further_findings),
    )


def selection_row(answer: Selection) -> dict[str, str]:
    """Sum a choice up in a row."""
    if not answer.options:
        return {"verdict": answer.verdict.value, "bar": "none"}
    best = answer.options[0]
    return {
        "verdict": answer.verdict.value,
        "bar": best.named,
        "rate": f"{shown(best.wheel_rate, 1)} ({best.rate_change:+.0f} %)",
        "work": best.plan.work,
    }


def _options(answer: Selection) -> Iterator[Block]:
    if not answer.options:
        return
    columns = ("bar", "rate", "change", "stress", "work", "turns left", "frequency")
    found = table(*columns, title="To choose from, the best first")
    for one in answer.options[:_MOST_OPTIONS]:
        found.add_row(
            one.named,
            shown(one.wheel_rate, 1),
            f"{one.rate_change:+.0f} %",
            _stress(one),
            _work(one),
            or_none(one.plan.thread_reserve, 1).removesuffix(" turn"),
            or_none(one.ride_frequency, 2),
        )
    yield found
    wanted = "" if answer.target is None else f"; wanted {_figure(answer.target)}"
    now = or_none(answer.present_rate, 1)
    damper = answer.options[0].damper_rate
    if damper is not None:
        yield Note(f"With the first, a damper of {shown(damper, 2)} damps as well as now.")
    yield Note(f"Now {now} at the wheel{wanted}. Stress is that at full bump.")


def _figure(value: Quantity) -> str:
    return shown(value, 2 if str(value.units) == "hertz" else 1)


def _stress(option: BarOption) -> str:
    return f"{shown(option.bump_stress, 0)} of {shown(option.limit.stress, 0)}"


def _work(option: BarOption) -> str:
    """Say the work, and what must be changed; swapped parts are named beside the bar."""
    changes = (one for one in option.changes if not one.startswith("swapped"))
    return "; ".join((option.plan.work, *changes))


def _size(size: SizeForGoal | None) -> Iterator[Block]:
    if size is None:
        return
    if size.diameter is not None:
        yield Note(
            f"For this goal a solid bar as long as the present one needs a diameter of "
            f"{shown(size.diameter, 1)}{': too thick' if size.is_too_thick else ''}."
        )
    stopped = "" if size.stopped_by is None else size.stopped_by.text
    if size.largest is None:
        yield Note(f"No solid bar of that length goes in and survives: {stopped}.")
    else:
        beyond = f" What stops a thicker one: {stopped}." if stopped else ""
        yield Note(f"Up to {shown(size.largest, 1)} goes in and survives.{beyond}")


def _sieves(answer: Selection) -> Iterator[Block]:
    """Show what took candidates out: in a table where nothing is left, else in a line."""
    if answer.options:
        yield Note(_search(answer.sieves))
    elif answer.sieves:
        found = table("requirement", "left", "removed", "nearest that fails", title="The search")
        for one in answer.sieves:
            found.add_row(one.requirement, str(one.kept), str(one.removed), one.nearest)
        yield found
    if answer.untried:
        yield Note(f"{answer.untried} combinations with several other parts were not tried.")


def _search(sieves: Sequence[Sieve]) -> str:
    """Sum a search up that found something."""
    bars, combinations = (one.kept + one.removed for one in sieves[:2])
    out = "; ".join(f"{one.requirement} ({one.removed})" for one in sieves if one.removed)
    searched = f"Searched {bars} bars in {combinations} combinations with arms and anchors."
    return f"{searched} Removed, by the requirement that they miss: {out}." if out else searched


def _cautions(answer: Selection) -> Iterator[Block]:
    yield from (Note(f"Caution: {caution.text}") for caution in answer.cautions)
