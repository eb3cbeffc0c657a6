"""Two setups side by side at a terminal."""

from __future__ import annotations

import attrs

from barwright.analysis.across.compare import Comparison
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Note, table
from barwright.units import Quantity, shown

__all__ = ["comparison_text"]


def comparison_text(answer: Comparison) -> Page:
    """Show two setups side by side."""
    rows = table("figure", "first", "second", "change", "percent")
    for row in answer.rows:
        percent = "" if row.percent is None else f"{row.percent:+.1f}"
        name = row.figure.replace("_", " ").replace(".", ": ")
        rows.add_row(name, *map(_any, (row.one, row.other, row.change)), percent)
    compared = (Note(f"first: {answer.one}"), Note(f"second: {answer.other}"))
    return attrs.evolve(page_of(answer, rows), place=compared)


def _any(value: Quantity | int | None) -> str:
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    return shown(value, 2)
