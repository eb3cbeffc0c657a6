"""Pages of several corners as one: what they share once, what differs side by side."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias, TypeVar

import attrs

from barwright.report.text.layout.charts import NutChart
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import Block, Grid, Note

__all__ = ["names_of", "side_by_side"]

T = TypeVar("T")
_Key: TypeAlias = tuple[Hashable, int]

_Row: TypeAlias = Mapping[str, Sequence[str]]

_PAIR = 2
_FEW = 2
_MANY = 6


def side_by_side(pages: Mapping[str, Page]) -> Page:
    """Make one page of those of several corners.

    Parameters
    ----------
    pages : mapping of str to Page
        By corner, such as ``front left``.

    Returns
    -------
    Page
        Pairs have a column a corner, and of a table's rows those that differ stand there for
        each corner.
    """
    headlines = _merged({corner: page.headlines for corner, page in pages.items()}, _text)
    return Page(
        headlines=tuple(_headline(found) for found in headlines),
        findings=_notes({corner: page.findings for corner, page in pages.items()}),
        place=_notes({corner: _placeless(corner, page.place) for corner, page in pages.items()}),
        parts=tuple(_parts({corner: page.parts for corner, page in pages.items()})),
    )


def names_of(corners: Sequence[str]) -> str:
    """Name corners, the axle once if it is the same.

    Parameters
    ----------
    corners : sequence of str
        Axle and side of each.

    Returns
    -------
    str

    Examples
    --------
    >>> names_of(["front left", "front right"]), names_of(["front left", "rear left"])
    ('front left and right', 'front left and rear left')
    """
    short = list(_short(corners).values())
    return " and ".join([corners[0], *short[1:]])


def _short(corners: Iterable[str]) -> dict[str, str]:
    """Name each corner by its side alone, where all are of one axle."""
    parts = {corner: corner.rpartition(" ") for corner in corners}
    of_one_axle = len({axle for axle, _, _ in parts.values()}) == 1
    return {corner: side if of_one_axle else corner for corner, (_, _, side) in parts.items()}


# -- What is the same in which corners ---------------------------------------------------


def _merged(
    items: Mapping[str, Sequence[T]], key: Callable[[T], Hashable]
) -> Iterator[dict[str, T]]:
    """Find what has the same key in several corners, in an order that suits all of them."""
    keyed = {corner: dict(_numbered(found, key)) for corner, found in items.items()}
    for one in _in_order(list(found) for found in keyed.values()):
        yield {corner: found[one] for corner, found in keyed.items() if one in found}


def _numbered(items: Sequence[T], key: Callable[[T], Hashable]) -> Iterator[tuple[_Key, T]]:
    """Give each its key, with a number for those that have the same one."""
    seen: dict[Hashable, int] = {}
    for item in items:
        seen[key(item)] = number = seen.get(key(item), 0) + 1
        yield (key(item), number), item


def _in_order(sequences: Iterable[Sequence[_Key]]) -> list[_Key]:
    order: list[_Key] = []
    for sequence in sequences:
        new: list[_Key] = []
        for key in sequence:
            if key not in order:
                new.append(key)
                continue
            place = order.index(key)
            order[place:place] = new
            new = []
        order += new
    return order


# -- Lines -------------------------------------------------------------------------------


def _text(note: Note) -> Hashable:
    return note.text


def _headline(found: Mapping[str, Note]) -> Note:
    """Name the corners before what is said of them."""
    note = next(iter(found.values()))
    return attrs.evolve(note, text=f"{names_of(list(found)).capitalize()}: {_lowered(note.text)}")


def _lowered(text: str) -> str:
    """Begin a sentence that goes on after a colon with a small letter."""
    return text[:1].lower() + text[1:] if text[1:2].islower() else text


def _notes(items: Mapping[str, Sequence[Note]]) -> tuple[Note, ...]:
    """Name the corners before what is not said of all of them."""
    return tuple(_note(found, len(items)) for found in _merged(items, _text))


def _placeless(corner: str, notes: Iterable[Note]) -> list[Note]:
    """Leave the corner's own name out of what an answer is of."""
    return [attrs.evolve(note, text=note.text.replace(f", {corner}", "")) for note in notes]


def _note(found: Mapping[str, Note], corners: int) -> Note:
    note = next(iter(found.values()))
    if len(found) == corners:
        return note
    return attrs.evolve(note, text=f"{names_of(list(found))}: {note.text.removeprefix('note: ')}")


# -- Tables ------------------------------------------------------------------------------


def _parts(items: Mapping[str, Sequence[Block]]) -> Iterator[Block]:
    for found in _merged(items, _key):
        yield from _part(found, list(items))


def _key(block: Block) -> Hashable:
    """Tell a piece by its title, its columns, or its text."""
    if isinstance(block, Grid):
        return (block.title or block.columns,)
    if isinstance(block, NutChart):
        return block.title, "drawn"
    return block.title if isinstance(block, Section) else block


def _part(found: Mapping[str, Block], corners: Sequence[str]) -> Iterator[Block]:
    grids = {corner: block for corner, block in found.items() if isinstance(block, Grid)}
    if grids:
        yield from _grid(grids, corners)
    charts = {corner: block for corner, block in found.items() if isinstance(block, NutChart)}
    if charts:
        yield from _charts(charts, corners)
    sections = {corner: block for corner, block in found.items() if isinstance(block, Section)}
    if sections:
        inside = {corner: section.parts for corner, section in sections.items()}
        title = next(iter(sections.values())).title
        if len(sections) < len(corners):
            title = f"{title}, {names_of(list(sections))} only"
        yield Section(title, tuple(_parts(inside)))
    notes = {corner: block for corner, block in found.items() if isinstance(block, Note)}
    if notes:
        yield _note(notes, len(corners))


def _charts(found: Mapping[str, NutChart], corners: Sequence[str]) -> Iterator[NutChart]:
    """Draw once what is the same for all corners."""
    first = next(iter(found.values()))
    if len(found) == len(corners) and all(chart == first for chart in found.values()):
        yield first
        return
    for corner, chart in found.items():
        yield attrs.evolve(chart, title=f"{chart.title}, {_short(corners)[corner]}")


def _grid(found: Mapping[str, Grid], corners: Sequence[str]) -> Iterator[Grid]:
    """Put tables side by side that have the same columns, or below each other if all differs."""
    first = next(iter(found.values()))
    if len(found) < len(corners):
        only = names_of(list(found))
        first = attrs.evolve(first, title=f"{first.title}, {only}" if first.title else only)
    if all(grid.rows == first.rows for grid in found.values()):
        yield first
        return
    rows = list(_merged({corner: grid.rows for corner, grid in found.items()}, lambda row: row[0]))
    short = _short(found)
    places = range(1, len(first.columns))
    differing = [place for place in places if not all(_same(row, place) for row in rows)]
    if len(first.columns) == _PAIR:
        yield _pairs(first, rows, short)
    elif len(differing) <= _FEW and all(len(row) == len(found) for row in rows):
        yield _columns(first, rows, short, differing)
    elif len(rows) > _MANY and not any(all(_same(row, place) for place in places) for row in rows):
        for corner, grid in found.items():
            title = f"{first.title}, {short[corner]}" if first.title else short[corner]
            yield attrs.evolve(grid, title=title)
    else:
        yield _rows(first, rows, short)


def _same(row: Mapping[str, Sequence[str]], place: int) -> bool:
    """Whether a row has the same text in a column for all corners."""
    return len({texts[place] for texts in row.values()}) == 1


def _pairs(first: Grid, rows: Iterable[_Row], short: Mapping[str, str]) -> Grid:
    """Give pairs a column a corner; what is the same for all is written once."""
    made = Grid((first.columns[0], *short.values()), title=first.title, together=True)
    for row in rows:
        name, value = next(iter(row.values()))
        if len(row) == len(short) and _same(row, 1):
            made.add_shared(name, value)
        else:
            made.add_row(name, *(row[corner][1] if corner in row else "" for corner in short))
    return made


def _columns(
    first: Grid, rows: Iterable[_Row], short: Mapping[str, str], differing: Sequence[int]
) -> Grid:
    """Give the few columns that differ one for each corner."""
    corners = [
        list(short) if n in differing else list(short)[:1] for n in range(len(first.columns))
    ]
    names = (
        f"{name}, {short[corner]}" if n in differing else name
        for n, name in enumerate(first.columns)
        for corner in corners[n]
    )
    made = attrs.evolve(first, columns=tuple(names), rows=[])
    for row in rows:
        made.add_row(*(row[corner][n] for n in range(len(corners)) for corner in corners[n]))
    return made


def _rows(first: Grid, rows: Iterable[_Row], short: Mapping[str, str]) -> Grid:
    """Write a row for each corner where they differ."""
    made = attrs.evolve(first, rows=[])
    for row in rows:
        name, *texts = next(iter(row.values()))
        if len(row) == len(short) and all(_same(row, n) for n in range(1, len(first.columns))):
            made.add_row(name, *texts)
            continue
        for corner, (_, *own) in row.items():
            made.add_row(f"{name}, {short[corner]}", *own)
    return made
