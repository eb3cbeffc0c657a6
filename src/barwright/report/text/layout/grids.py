"""How a table is laid out in a width: columns that find no room stand beneath their row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import TypeAlias

from barwright.report.text.layout.words import cells, unbroken, wrapped

__all__ = ["GAP", "Line", "grid_lines"]

Line: TypeAlias = tuple[tuple[str, str], ...]
"""Pieces of a line, each with its style."""

GAP = 2
_INDENT = 4
# A column of words that is narrower reads worse than the same words beneath the row; names
# of rows are short, and may be narrower.
_LEAST_OF_WORDS = 30
_LEAST_OF_NAMES = 18
# What holds for all columns and is not longer is repeated in each of them.
_SHORT = 22

_Row: TypeAlias = Sequence[str]


def grid_lines(
    header: _Row,
    rows: Sequence[_Row],
    *,
    width: int,
    together: bool = False,
    whole_names: bool = False,
) -> Iterator[Line]:
    """Lay a table out.

    Parameters
    ----------
    header : sequence of str
        Names of the columns, the most important first; all empty where none is shown.
    rows : sequence of sequence of str
        Texts of each row; where there are two only, the second holds for all columns.
    width : int
        Of the lines.
    together : bool
        Whether the columns after the first stay beside each other, or none does.
    whole_names : bool
        Whether the texts of the first column stay in one line.

    Yields
    ------
    tuple of (str, str)
        Lines, as pieces with their styles.  A line ends at a space; where the columns find no
        room, the last ones stand beneath their row, with their names.
    """
    table = (header, *rows)
    tried = (
        _widths(table, count, width, whole_names=whole_names)
        for count in _choices(len(header), together=together)
    )
    widths = next(filter(None, tried))
    beside = len(widths)
    if any(header[:beside]):
        yield from _beside(header[:beside], widths, styles=["dim"] * beside)
    names = any(header)
    for row in rows:
        styles = ["" if names else "dim", *[""] * beside]
        shared = len(row) < len(header)
        if shared and beside > 1:
            yield from _spread(row, widths, styles, room=width - widths[0] - GAP)
        else:
            yield from _beside(row[:beside], widths, styles=styles)
            yield from _beneath([""] if shared else header[beside:], row[beside:], width)


def _choices(count: int, *, together: bool) -> Iterator[int]:
    """How many columns may stand beside each other, the most first."""
    yield from (count, 1) if together else range(count, 0, -1)


def _widths(table: Sequence[_Row], count: int, width: int, *, whole_names: bool) -> list[int]:
    """Widths of the first columns; none where they find no room, but one column always does."""
    whole = [row for row in table if len(row) == len(table[0])]
    columns = [[row[place] for row in whole] for place in range(count)]
    columns[0] = [row[0] for row in table]
    wide = [max(map(cells, column)) for column in columns]
    shared = [cells(row[1]) for row in table if len(row) < len(table[0])]
    short = max((size for size in shared if size <= _SHORT), default=0)
    wide[1:] = [max(one, short) for one in wide[1:]]
    room = width - GAP * (count - 1)
    least = [_least(column, _LEAST_OF_WORDS) for column in columns]
    in_words = any(one > _LEAST_OF_WORDS for one in wide[1:])
    least_of_names = width if whole_names else max(_LEAST_OF_NAMES, width // 3 * in_words)
    least[0] = _least(columns[0], least_of_names)
    if count == 1:
        return [min(wide[0], max(width, least[0]))]
    if sum(least) > room:
        return []
    while sum(wide) > room:
        widest = max(
            (place for place in range(count) if wide[place] > least[place]),
            key=lambda place: wide[place],
        )
        wide[widest] -= 1
    return wide


def _least(column: Sequence[str], words: int) -> int:
    """Width below which a column would break a word, or would be hard to read."""
    longest = max((cells(part) for text in column for part in unbroken(text)), default=0)
    return max(longest, min(words, max(map(cells, column[1:]), default=0)))


def _spread(
    row: _Row, widths: Sequence[int], styles: Sequence[str], *, room: int
) -> Iterator[Line]:
    """Lines of a row whose text holds for all columns: in each, or across them if it is long."""
    name, text = row
    if cells(text) <= min(widths[1:]):
        yield from _beside((name, *[text] * len(widths[1:])), widths, styles=styles)
    else:
        yield from _beside(row, (widths[0], room), styles=styles)


def _beside(row: _Row, widths: Sequence[int], *, styles: Sequence[str]) -> Iterator[Line]:
    """Lines of a row whose texts stand side by side."""
    columns = [list(wrapped(text, width)) for text, width in zip(row, widths, strict=True)]
    for texts in zip_longest(*columns, fillvalue=""):
        filled = [
            (text + " " * (width - cells(text) + GAP), style)
            for text, width, style in zip(texts, widths, styles, strict=False)
        ]
        last, style = filled[-1]
        yield (*filled[:-1], (last.rstrip(), style))


def _beneath(names: _Row, texts: _Row, width: int) -> Iterator[Line]:
    """Lines below a row: what has no room beside it, each text with its column's name."""
    named = zip(names, texts, strict=True)
    said = "; ".join(f"{name}: {text}" if name else text for name, text in named if text)
    if said:
        for line in wrapped(said, width - _INDENT):
            yield ((" " * _INDENT + line, ""),)
