"""The bench sheet for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import count

from barwright.report.sheet.alternatives import ALTERNATIVES, alternatives
from barwright.report.sheet.rows import SheetRow
from barwright.report.sheet.sheet import BenchSheet
from barwright.report.sheet.steps.step import SheetStage, side_by_side
from barwright.report.text.layout.tables import Block, Grid, Shown, heading, marked, stacked, table

__all__ = ["sheet_text"]

_BLANK_LINE = ""
_ROOM_TO_WRITE = "_____"


def sheet_text(sheet: BenchSheet) -> Shown:
    """Show a bench sheet."""
    return stacked(
        *map(heading, sheet.headlines),
        f"{sheet.title}: {sheet.vehicle_with_packs}",
        *sheet.order.whose,
        *(marked("*", note) for note in (*sheet.order.noted, *sheet.notes)),
        *(marked("!", caution) for caution in sheet.cautions),
        *_parts(sheet),
        *_apart(_figures(sheet)),
        *_stages(sheet.stages),
        *_apart(_measurements(sheet)),
        *_alternatives(sheet),
        *_sources(sheet.sources),
    )


def _apart(shown: Grid | None) -> Iterator[Block | str]:
    """Show a table, if there is one, after a blank line."""
    if shown is not None:
        yield _BLANK_LINE
        yield shown


def _parts(sheet: BenchSheet) -> Iterator[Block | str]:
    """Show the parts in a paragraph: most of them are where they are."""
    names = [corner.corner for corner in sheet.corners]
    parts = "; ".join(_beside(row, names) for row in sheet.parts)
    yield f"Parts: {parts}"


def _beside(row: SheetRow, names: Sequence[str]) -> str:
    return side_by_side(dict(zip(names, row.values, strict=True)))


def _figures(sheet: BenchSheet) -> Grid | None:
    if not sheet.figures:
        return None
    rows = table("Figures", *sheet.planned)
    for row in sheet.figures:
        rows.add_row(row.what, *row.values)
    return rows


def _stages(stages: Sequence[SheetStage]) -> Iterator[Block | str]:
    """Show all steps, numbered through."""
    number = count(1)
    for stage in stages:
        yield _BLANK_LINE
        yield heading(stage.title)
        for step in stage.steps:
            yield marked(f"{next(number)}.", step.line)
            for letter, action in zip(_LETTERS, step.branch, strict=False):
                yield marked(f"{letter})", action)


_LETTERS = "abcdefghijklmnopqrstuvwxyz"


def _measurements(sheet: BenchSheet) -> Grid | None:
    if not sheet.measurements:
        return None
    rows = table("Measure and note", *sheet.planned)
    for row in sheet.measurements:
        rooms = (
            f"{_ROOM_TO_WRITE} ({value})" if value else _ROOM_TO_WRITE for value in row.expected
        )
        rows.add_row(f"{row.what}: {row.where}", *rooms)
    return rows


def _alternatives(sheet: BenchSheet) -> Iterator[Block | str]:
    """Show in a line each what could be done instead."""
    others = [marked("-", line) for line in alternatives(sheet)]
    if others:
        yield _BLANK_LINE
        yield heading(ALTERNATIVES)
    yield from others


def _sources(sources: Sequence[str]) -> Iterator[Block | str]:
    if sources:
        yield f"Sources: {', '.join(sources)}"
