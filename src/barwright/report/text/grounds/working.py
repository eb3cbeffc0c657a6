"""Workings at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.working.working import Working
from barwright.report.equations.content import (
    PageSection,
    WorkingPage,
    working_page,
    working_pages,
)
from barwright.report.text.grounds.trail import rests_on_text
from barwright.report.text.layout.equations import Equation
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import (
    Block,
    Note,
    Shown,
    finding_lines,
    marked,
    stacked,
    table,
)

__all__ = ["working_text", "workings_text"]


def working_text(answer: Working) -> Page:
    """Show a working: figures put in, steps, and where the equations come from."""
    return _page(working_page(answer))


def workings_text(answers: Sequence[Working]) -> Shown:
    """Show the workings of several corners below each other, the same one once."""
    first, *others = map(_page, working_pages(answers))
    return stacked(first, *(one for other in others for one in ("", other)))


def _page(page: WorkingPage) -> Page:
    answer = page.answer
    shown = page_of(
        answer,
        *map(Note, page.notes),
        *(Section(one.title, tuple(_parts(one))) for one in page.sections),
        Section(
            "Where the equations come from",
            tuple(marked(f"{number}", text) for number, text in enumerate(page.sources, start=1)),
        ),
        findings=finding_lines("note", answer.further_findings),
    )
    return shown.of(page.title, rests_on_text(answer.rests_on))


def _parts(section: PageSection) -> Iterator[Block]:
    if section.given:
        rows = table("put in", "value", "what it is", "from")
        for one in section.given:
            rows.add_row(one.symbol, one.value, one.words, one.origin)
        yield rows
    yield from map(Equation, section.lines)
