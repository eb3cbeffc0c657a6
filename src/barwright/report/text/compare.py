"""Two setups side by side at a terminal."""

from __future__ import annotations

from rich.console import Group, RenderableType

from barwright.analysis.across.compare import Comparison
from barwright.report.printable import one_line
from barwright.report.text.tables import table
from barwright.units import Quantity, shown

__all__ = ["comparison_text"]


def comparison_text(answer: Comparison) -> RenderableType:
    """Show two setups side by side."""
    rows = table("figure", "one", "other", "change", "percent")
    for row in answer.rows:
        percent = "" if row.percent is None else f"{row.percent:+.1f}"
        name = row.figure.replace("_", " ").replace(".", ": ")
        rows.add_row(name, *map(_any, (row.one, row.other, row.change)), percent)
    return Group(one_line(f"one:   {answer.one}"), one_line(f"other: {answer.other}"), rows)


def _any(value: Quantity | int | None) -> str:
    if value is None or isinstance(value, int):
        return "" if value is None else str(value)
    return shown(value, 2)
