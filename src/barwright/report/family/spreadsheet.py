"""A family chart as CSV, for a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from barwright.family.chart import FamilyChart
from barwright.family.chart_line import ChartLine, NotOffered
from barwright.parts.common.arguments import checks_arguments
from barwright.report.family.words import FIGURES, unit_of
from barwright.report.safe_text import one_line
from barwright.tables.files.table_file import not_calculated
from barwright.units import Quantity, unit_spelling

__all__ = ["family_csv"]

_FIRST = ("offered", "on", "bar", "side", "standard")
_LAST = ("fit", "strength", "changes", "reason", "vehicle_id", "bar_id")


@checks_arguments
def family_csv(chart: FamilyChart) -> str:
    """Write a family chart as CSV: a row for each bar on each wheelbase, offered or not.

    Parameters
    ----------
    chart : FamilyChart
        The chart.

    Returns
    -------
    str
        Units stand in the heading.  No cell is calculated by a spreadsheet.

    Examples
    --------
    >>> from barwright.family.chart import family_chart
    >>> from barwright.registry.registry import Registry
    >>> print(family_csv(family_chart(Registry.demo(), "hodmule")).splitlines()[1][:45])
    yes,short wheelbase,"Standard bar, invented",
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([*_FIRST, *_headings(chart), *_LAST])
    writer.writerows([_safe(cell) for cell in row] for row in _rows(chart))
    return text.getvalue()


def _headings(chart: FamilyChart) -> Iterator[str]:
    yield _heading("height", _height_unit(chart))
    for figure in FIGURES:
        yield _heading(figure, unit_of(chart, figure).replace("·", "*"))


def _heading(name: str, unit: str) -> str:
    return f"{name} [{unit}]" if unit else name


def _height_unit(chart: FamilyChart) -> str:
    heights = (line.pair.height for line in chart.lines)
    return next((unit_spelling(height) for height in heights if height is not None), "")


def _rows(chart: FamilyChart) -> Iterator[list[str | float]]:
    called = {wheelbase.key: wheelbase.called for wheelbase in chart.wheelbases}
    for line in chart.lines:
        yield _offered(line, called[line.key])
    for one in chart.not_offered:
        yield from _not_offered(one)


def _offered(line: ChartLine, on: str) -> list[str | float]:
    pair = line.pair
    return [
        "yes",
        on,
        pair.bar_title,
        line.side or "both",
        "yes" if pair.is_standard else "no",
        *(_number(getattr(pair, figure)) for figure in ("height", *FIGURES)),
        "" if pair.fit is None else pair.fit.value,
        "" if pair.strength is None else pair.strength.value,
        ", ".join(pair.changes),
        "",
        pair.vehicle_id,
        pair.bar_id,
    ]


def _not_offered(one: NotOffered) -> Iterator[list[str | float]]:
    """List each bar that is not offered for a reason, on each place."""
    blanks = [""] * (2 + 1 + len(FIGURES) + 3)
    for on in one.places:
        for bar in one.bars:
            yield ["no", on, bar, *blanks, one.reason, "", ""]


def _number(value: Quantity | float | None) -> str | float:
    if value is None:
        return ""
    return float(value if isinstance(value, float) else value.magnitude)


def _safe(cell: str | float) -> str | float:
    """Put a quotation mark before a text that a spreadsheet would calculate."""
    return not_calculated(one_line(cell)) if isinstance(cell, str) else cell
