"""The family chart, for a person at a counter."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.family.chart import FamilyChart
from barwright.report.family.tables import (
    ChartTable,
    chart_tables,
    not_offered_lines,
    overview,
)
from barwright.report.family.words import NOT_OFFERED, notes_of
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import Block, Grid, Note, marked, table

__all__ = ["chart_text"]


def chart_text(answer: FamilyChart) -> Page:
    """Show all bars by all wheelbases, then each group of lines, then what is not offered.

    Parameters
    ----------
    answer : FamilyChart
        The answer.

    Returns
    -------
    Page
    """
    return page_of(answer, *_parts(answer))


def _parts(answer: FamilyChart) -> Iterator[Block]:
    first = overview(answer)
    if first is not None:
        yield _grid(first)
    yield from map(_grid, chart_tables(answer))
    yield from map(Note, notes_of(answer))
    if answer.not_offered:
        lines = (marked("-", line) for line in not_offered_lines(answer))
        yield Section(NOT_OFFERED, tuple(lines))


def _grid(found: ChartTable) -> Grid:
    """Lay a table out, the units in its first row."""
    grid = table(*found.columns, title=found.title)
    if any(found.units):
        grid.add_row(*found.units)
    for row in found.rows:
        grid.add_row(*row)
    return grid
