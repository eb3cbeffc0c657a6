"""Two setups side by side at a terminal."""

from __future__ import annotations

import attrs

from barwright.analysis.across.compare import Comparison, ComparisonRow
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Note, table
from barwright.units import Quantity, shown

__all__ = ["comparison_text"]


def comparison_text(answer: Comparison, *, whole: bool = False) -> Page:
    """Show two setups side by side.

    Parameters
    ----------
    answer : Comparison
        The answer.
    whole : bool
        Whether figures that are the same in both are shown too.

    Returns
    -------
    Page
    """
    rows = table("figure", "first", "second", "change", "percent")
    told = answer.rows if whole else [row for row in answer.rows if _differs(row)]
    for row in told:
        percent = "" if row.percent is None else f"{row.percent:+.1f}"
        name = row.figure.replace("_", " ").replace(".", ": ")
        rows.add_row(name, *map(_any, (row.one, row.other, row.change)), percent)
    compared = (Note(f"first: {answer.one}"), Note(f"second: {answer.other}"))
    same = len(answer.rows) - len(told)
    notes = (Note(f"The same in both: {same} more (--all shows them)."),) if same else ()
    return attrs.evolve(page_of(answer, *([rows] if told else []), *notes), place=compared)


def _differs(row: ComparisonRow) -> bool:
    """Whether a figure changes by as much as is shown, or is not known on one side."""
    return _any(row.one) != _any(row.other)


def _any(value: Quantity | int | None) -> str:
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    return shown(value, 2)
