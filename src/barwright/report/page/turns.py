"""The table of a printed sheet that says what each turn of the adjuster gives."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import attrs

from barwright.analysis.adjusting.nut_rows import NutRow
from barwright.analysis.corner.anchorage import TurnedPart
from barwright.mechanics.spline.clocking import TurningSense
from barwright.report.sheet.corner_names import names_of
from barwright.report.sheet.sheet import BenchSheet
from barwright.report.sheet.steps.adjustment import words_of
from barwright.report.sheet.steps.step import side_by_side
from barwright.report.sheet.turn_notes import turn_notes
from barwright.units import Quantity, shown

__all__ = ["PageTurn", "PageTurns", "page_turns"]


@attrs.frozen(kw_only=True)
class PageTurn:
    """A turn of the adjuster.

    Parameters
    ----------
    turns : str
        Turns from where the plan sets it, those that raise the vehicle positive; with a
        mark where a note below the table is about it.
    is_set : bool
        Whether the plan sets it here.
    values : tuple of tuple of str
        For each quantity its number on each corner; empty where a thread has ended.
    """

    turns: str
    is_set: bool
    values: tuple[tuple[str, ...], ...]


@attrs.frozen(kw_only=True)
class PageTurns:
    """What each turn of the adjuster gives, five to either side or over the whole thread.

    Parameters
    ----------
    title : str
        Heading.
    quantities : tuple of str
        Headings of the quantities, with their units.
    corners : tuple of str
        Headings of the columns of each quantity; none where all corners are alike.
    rows : tuple of PageTurn
        In order.
    notes : tuple of str
        How a turn is counted, and what must be known of some.
    """

    title: str
    quantities: tuple[str, ...]
    corners: tuple[str, ...]
    rows: tuple[PageTurn, ...]
    notes: tuple[str, ...]


@attrs.frozen(kw_only=True)
class _Turned:
    """A corner whose adjuster can be turned.

    Parameters
    ----------
    corner : str
        Axle and side.
    part : TurnedPart
        What is turned.
    sense : TurningSense
        Sense that raises the vehicle.
    rows : dict of int to NutRow
        By the turns from where the plan sets it.
    """

    corner: str
    part: TurnedPart
    sense: TurningSense
    rows: dict[int, NutRow]


def page_turns(sheet: BenchSheet, *, whole_thread: bool = False) -> PageTurns | None:
    """Put the tables of a sheet's corners into one.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    whole_thread : bool
        Whether all turns of the thread are in it, rather than five to either side.

    Returns
    -------
    PageTurns, optional
        None where nothing can be turned.
    """
    turned = list(_turned(sheet, whole_thread=whole_thread))
    if not turned:
        return None
    first = turned[0]
    counts = sorted({count for corner in turned for count in corner.rows})
    alike = len({tuple(map(_numbers, corner.rows.values())) for corner in turned}) == 1
    columns = [corner.rows for corner in (turned[:1] if alike else turned)]
    return PageTurns(
        title=(
            f"Every turn of the {first.part.value}"
            if whole_thread
            else f"What each turn of the {first.part.value} gives"
        ),
        quantities=tuple(_headings(first)),
        corners=() if alike else tuple(_short([corner.corner for corner in turned])),
        rows=tuple(_row(count, columns) for count in counts),
        notes=(_counted(turned), *_notes(turned)),
    )


def _turned(sheet: BenchSheet, *, whole_thread: bool) -> Iterator[_Turned]:
    for corner in sheet.corners:
        table = corner.nut_table
        if table and table.turned_part and table.raising_sense:
            rows = table.table_rows if whole_thread else table.rows_near()
            yield _Turned(
                corner=corner.corner,
                part=table.turned_part,
                sense=table.raising_sense,
                rows={row.raising_turns: row for row in rows},
            )


def _short(corners: Sequence[str]) -> Iterator[str]:
    """Name corners by their side where there is one axle."""
    one_axle = len({corner.split()[0] for corner in corners}) == 1
    yield from (corner.split()[-1] if one_axle else corner for corner in corners)


def _quantities(row: NutRow) -> tuple[tuple[Quantity, int], ...]:
    """List what stands in a row, with the digits that it is shown with."""
    return (
        (row.pin_distance, 1),
        (row.height, 0),
        (row.droop_left, 0),
        (abs(row.bolt_at_ride), 0),
    )


def _headings(turned: _Turned) -> Iterator[str]:
    names = (f"{turned.part.value} at", "hub to arch", "droop to spare", "bolt load")
    for name, (value, digits) in zip(names, _quantities(turned.rows[0]), strict=True):
        yield f"{name} [{shown(value, digits).partition(' ')[2]}]"


def _row(count: int, corners: Sequence[Mapping[int, NutRow]]) -> PageTurn:
    found = [rows.get(count) for rows in corners]
    columns = [_numbers(row) if row else ("",) * _COUNT for row in found]
    is_noted = any(row and any(turn_notes(row)) for row in found)
    return PageTurn(
        turns=f"{_name(count)} !" if is_noted else _name(count),
        is_set=count == 0,
        values=tuple(zip(*columns, strict=True)),
    )


_COUNT = 4


def _numbers(row: NutRow) -> tuple[str, ...]:
    return tuple(shown(value, digits).partition(" ")[0] for value, digits in _quantities(row))


def _counted(turned: Sequence[_Turned]) -> str:
    senses = {
        each.corner: f"{each.sense.value}, seen from {words_of(each.part).seen_from}"
        for each in turned
    }
    return f"+1: one turn {side_by_side(senses)}. It raises the vehicle."


def _notes(turned: Sequence[_Turned]) -> Iterator[str]:
    """Say once what must be known, and of which turns of which corners."""
    found: dict[tuple[str, str], list[str]] = {}
    for each in turned:
        counts: dict[str, list[str]] = {}
        for count, row in each.rows.items():
            for note in turn_notes(row):
                counts.setdefault(note, []).append(_name(count))
        for note, names in counts.items():
            found.setdefault((note, ", ".join(names)), []).append(each.corner)
    for (note, which), corners in found.items():
        where = "" if len(corners) == len(turned) else f"{names_of(corners)}, "
        yield f"! {where}{which}: {note}."


def _name(count: int) -> str:
    return f"{count:+d}" if count else "set"
