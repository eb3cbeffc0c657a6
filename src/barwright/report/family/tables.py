"""The tables of a family chart as texts: for a terminal, a page and a notebook."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import attrs

from barwright.family.chart import FamilyChart
from barwright.family.chart_line import ChartGroup, ChartLine
from barwright.report.family.words import (
    FIGURES,
    MARK,
    NO_CELL,
    bars_of,
    cells_of,
    changes_of,
    height_of,
    name_of,
    no_cell_means,
    number_of,
    offered_of,
    strengths_of,
    unit_of,
)

__all__ = ["ChartTable", "chart_tables", "not_offered_lines", "overview"]


@attrs.frozen(kw_only=True)
class ChartTable:
    """A table of texts.

    Parameters
    ----------
    title : str
        Above it; empty for none.
    columns : tuple of str
        Their names.
    units : tuple of str
        Their units, empty where they have none.
    rows : tuple of tuple of str
        Texts of each row.
    """

    title: str
    columns: tuple[str, ...]
    units: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def overview(chart: FamilyChart) -> ChartTable | None:
    """Show the change of the rate for each bar on each wheelbase.

    Parameters
    ----------
    chart : FamilyChart
        The chart.

    Returns
    -------
    ChartTable, optional
        None where there is one wheelbase, or nothing is offered.
    """
    if not (chart.lines and chart.wheelbases[1:]):
        return None
    columns = ("bar", *(wheelbase.called for wheelbase in chart.wheelbases))
    cells = cells_of(chart)
    rows = (
        (title, *(_cell(cells(wheelbase, bar)) for wheelbase in chart.wheelbases))
        for bar, title in bars_of(chart).items()
    )
    means = f"{NO_CELL} {no_cell_means(chart)}; {MARK} with changes"
    return ChartTable(
        title=f"Rate at the wheel against standard ({means})",
        columns=columns,
        units=("",) * len(columns),
        rows=tuple(rows),
    )


def _cell(lines: Sequence[ChartLine]) -> str:
    return ", ".join(map(offered_of, lines)) or NO_CELL


def chart_tables(chart: FamilyChart) -> Iterator[ChartTable]:
    """Show the figures of each group of lines.

    Parameters
    ----------
    chart : FamilyChart
        The chart.

    Yields
    ------
    ChartTable
    """
    for group in chart.groups:
        columns = _columns(chart, group)
        yield ChartTable(
            title=_title(chart, group),
            columns=tuple(columns),
            units=tuple(column.unit for column in columns.values()),
            rows=tuple(
                tuple(column.say(line) for column in columns.values()) for line in group.lines
            ),
        )


def not_offered_lines(chart: FamilyChart) -> Iterator[str]:
    """Say what is not offered, a line for each reason and place."""
    for one in chart.not_offered:
        yield f"{one.reason} ({', '.join(one.places)}): {'; '.join(one.bars)}"


def _title(chart: FamilyChart, group: ChartGroup) -> str:
    if chart.grouped_by != "wheelbase":
        return group.title
    heights = dict.fromkeys(height_of(line.pair) for line in group.lines)
    at = ", ".join(filter(None, heights))
    return f"{group.title}, at {at} hub to arch" if at else group.title


@attrs.frozen
class _Column:
    """What a column holds, and its unit."""

    say: Callable[[ChartLine], str]
    unit: str = ""


def _columns(chart: FamilyChart, group: ChartGroup) -> dict[str, _Column]:
    """List the columns of a group; a line is named by what the group does not say."""
    found = _names(chart)
    if any(line.side for line in group.lines):
        found["side"] = _Column(lambda line: line.side or "both")
    for figure, (name, _) in FIGURES.items():
        found[name] = _figure(chart, figure)
    found["verdict"] = _Column(_verdicts(chart))
    if chart.grouped_by != "wheelbase":
        found["at"] = _Column(lambda line: height_of(line.pair))
    return found


def _names(chart: FamilyChart) -> dict[str, _Column]:
    called = {wheelbase.key: wheelbase.called for wheelbase in chart.wheelbases}

    def marked(line: ChartLine) -> str:
        return called[line.key] + (" (standard)" if line.pair.is_standard else "")

    if chart.grouped_by == "bar":
        return {"on": _Column(marked)}
    bar = {"bar": _Column(lambda line: name_of(line.pair))}
    return (
        bar
        if chart.grouped_by == "wheelbase"
        else bar | {"on": _Column(lambda line: called[line.key])}
    )


def _figure(chart: FamilyChart, figure: str) -> _Column:
    return _Column(lambda line: number_of(line.pair, figure), unit_of(chart, figure))


def _verdicts(chart: FamilyChart) -> Callable[[ChartLine], str]:
    """Say whether a line fits or needs a change and, where these differ, its strength."""
    numbers, differ = changes_of(chart), len(strengths_of(chart)) > 1

    def verdict(line: ChartLine) -> str:
        pair = line.pair
        fits = f"change {numbers[pair.changes]}" if pair.changes else "fits"
        lives = pair.strength.value.partition(";")[0] if differ and pair.strength else ""
        return ", ".join(filter(None, (fits, lives)))

    return verdict
