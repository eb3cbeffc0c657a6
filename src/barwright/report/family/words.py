"""What stands in the cells of a family chart, the same in all its forms."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from barwright.analysis.answer import Verdict
from barwright.family.chart import FamilyChart
from barwright.family.chart_line import ChartLine, ChartWheelbase
from barwright.family.row import FamilyRow
from barwright.units import Quantity, shown

__all__ = [
    "FIGURES",
    "MARK",
    "NOT_OFFERED",
    "NO_CELL",
    "bars_of",
    "cells_of",
    "change_of",
    "changes_of",
    "height_of",
    "name_of",
    "no_cell_means",
    "notes_of",
    "number_of",
    "offered_of",
    "strengths_of",
    "unit_of",
]

FIGURES = {
    "bar_rate": ("alone", 1),
    "system_rate": ("system", 1),
    "wheel_rate": ("wheel", 1),
    "wheel_rate_change": ("change", 1),
    "ride_frequency": ("ride", 2),
    "bump_stress": ("bump", 0),
}
"""Figures of a line, each with its heading and its digits."""

NOT_OFFERED, NO_CELL, MARK = "Not offered", "–", "*"
"""Heading of what is not offered, and what stands in its cell; the mark of what needs changes."""


def bars_of(chart: FamilyChart) -> dict[str, str]:
    """List the bars on a chart: their titles by their ids, by wheelbase, the softest first."""
    order = {wheelbase.key: number for number, wheelbase in enumerate(chart.wheelbases)}
    lines = sorted(
        chart.lines, key=lambda line: (order[line.key], _magnitude(line.pair.wheel_rate))
    )
    return {line.pair.bar_id: line.pair.bar_title for line in lines}


def _magnitude(rate: Quantity | None) -> float:
    return 0.0 if rate is None else float(rate.magnitude)


def cells_of(chart: FamilyChart) -> Callable[[ChartWheelbase, str], Sequence[ChartLine]]:
    """Return what finds the lines of a bar on a wheelbase: one, or one a side, or none."""
    found: dict[tuple[tuple[str, str], str], list[ChartLine]] = {}
    for line in chart.lines:
        found.setdefault((line.key, line.pair.bar_id), []).append(line)
    return lambda wheelbase, bar_id: found.get((wheelbase.key, bar_id), ())


def no_cell_means(chart: FamilyChart) -> str:
    """Say what it means that nothing stands in a cell."""
    return "not offered, or not asked for" if chart.filtered else "not offered"


def offered_of(line: ChartLine) -> str:
    """Say how much a bar changes the rate, whether it needs changes, and on which side."""
    mark = "" if line.is_without_changes else MARK
    change = "standard" if line.pair.is_standard else change_of(line.pair)
    return f"{change}{mark} {line.side}".strip()


def change_of(pair: FamilyRow) -> str:
    """Write the change of the rate at the wheel; where it has none, the rate."""
    change = pair.wheel_rate_change
    if change is not None:
        return f"{change:+.0f} %"
    return "" if pair.wheel_rate is None else shown(pair.wheel_rate, 1)


def number_of(pair: FamilyRow, figure: str) -> str:
    """Write one of :data:`FIGURES` without its unit, which its heading gives."""
    digits = FIGURES[figure][1]
    value = getattr(pair, figure)
    if value is None:
        return ""
    return f"{value:+.{digits}f}" if figure == "wheel_rate_change" else _parted(value, digits)[0]


def unit_of(chart: FamilyChart, figure: str) -> str:
    """Return the unit that one of :data:`FIGURES` has; empty if no line has it."""
    if figure == "wheel_rate_change":
        return "%"
    values = (getattr(line.pair, figure) for line in chart.lines)
    value = next((value for value in values if value is not None), None)
    return "" if value is None else _parted(value, 0)[1]


def _parted(value: Quantity, digits: int) -> tuple[str, str]:
    number, _, unit = shown(value, digits).partition(" ")
    return number, unit


def name_of(pair: FamilyRow) -> str:
    """Name a bar, and say whether it is the standard one."""
    return f"{pair.bar_title} (standard)" if pair.is_standard else pair.bar_title


def height_of(pair: FamilyRow) -> str:
    """Write the height at which a line is rated."""
    return "" if pair.height is None else shown(pair.height, 0)


def changes_of(chart: FamilyChart) -> dict[tuple[str, ...], int]:
    """Give a number to what must be changed for some bars of a chart."""
    found = dict.fromkeys(line.pair.changes for line in chart.lines if line.pair.changes)
    return {changes: number for number, changes in enumerate(found, start=1)}


def strengths_of(chart: FamilyChart) -> tuple[str, ...]:
    """List the verdicts of the strength on a chart, without what they leave open."""
    found = (line.pair.strength for line in chart.lines)
    return tuple(dict.fromkeys(one.value.partition(";")[0] for one in found if one is not None))


def notes_of(chart: FamilyChart) -> Iterator[str]:
    """Say what the cells of a chart mean, and what it leaves out."""
    for changes, number in changes_of(chart).items():
        yield f"Change {number}: {', '.join(changes)}."
    strengths = strengths_of(chart)
    if strengths == (_BELOW_YIELD,):
        yield (
            "All stay below yield. No permissible stress is known, so nothing is said of the "
            "bars' life."
        )
    elif _BELOW_YIELD in strengths:
        yield "Below yield: no permissible stress is known, so nothing is said of the bar's life."
    if chart.lines:
        yield (
            "Alone: the bar; system: bar and tube in series; wheel: rate there; change: of that, "
            "from the standard bar; ride: frequency; bump: stress at full bump."
        )
    if chart.filtered:
        yield f"Not asked for: {chart.filtered} more that could be offered."
    if chart.other_splines:
        have = "bar has" if chart.other_splines == 1 else "bars have"
        yield f"{chart.other_splines} more {have} other splines."


_BELOW_YIELD = Verdict.BELOW_YIELD.value.partition(";")[0]
