"""A row of a table put into the templates of a map."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Iterator, Mapping
from typing import Any

import attrs

from barwright.computed_once import cached_property
from barwright.errors import BarwrightError, SchemaError
from barwright.registry.importing.cell import BARE_NUMBER, with_unit
from barwright.registry.importing.fields import Leaf, fields_of, table_class
from barwright.registry.importing.table import Row, Table
from barwright.registry.importing.table_map import NAMED, TableMap
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.gaps import may_be_left_out
from barwright.units import UNKNOWN

__all__ = ["Filled", "Filler"]

_NONE = "none"

# However it is escaped, and whatever the map writes around it, it stays a text of a pack.
_LONGEST_CELL = 500

_WHOLE = re.compile(r"[+-]?[0-9]{1,18}")
_DECIMAL = re.compile(r"(?<=[0-9]),(?=[0-9])")
_TRUTHS = {"true": True, "false": False}

# What a spreadsheet shows of a formula: itself, or its failure.
_FORMULA = re.compile(r"[=@].*|#(?:REF!|N/A|DIV/0!|VALUE!|NAME\?|NUM!|NULL!)", re.DOTALL)


@attrs.frozen
class Filled:
    """A record of a row.

    Parameters
    ----------
    kind : str
        Name of its table.
    table : dict
        What it holds.
    is_known : bool
        Whether each required figure is known.
    is_constant : bool
        Whether it is the same for every row, because its template names no column.
    """

    kind: str
    table: dict[str, Any]
    is_known: bool
    is_constant: bool


class _LeftOut(Exception):  # noqa: N818 - no error
    """A field, or the table around it, that a row leaves out."""


class Filler:
    """Puts rows of one table into the templates of one map.

    Parameters
    ----------
    table : Table
        The table.
    mapping : TableMap
        The map, whose columns it has.
    """

    def __init__(self, table: Table, mapping: TableMap) -> None:
        self._map = mapping
        self._columns = table.columns

    def records(self, row: Row) -> Iterator[Filled]:
        """Make the records that a row gives.

        Parameters
        ----------
        row : Row
            The row.

        Yields
        ------
        Filled
            In the order of the map.

        Raises
        ------
        SchemaError
            S203 for a row with too many or too few cells, and for a formula.
        """
        cells = self._cells(row)
        for kind, template in self._map.records:
            one = _RowFiller(cells, self._units, self._map)
            with contextlib.suppress(_LeftOut):
                table = one.table(template, KINDS[kind])
                yield Filled(kind, table, is_known=one.is_known, is_constant=not one.has_cells)

    @cached_property
    def _units(self) -> Mapping[str, str]:
        return {column.name: column.unit for column in self._columns}

    def _cells(self, row: Row) -> Mapping[str, str]:
        if len(row.cells) != len(self._columns):
            raise _refused(
                f"{len(row.cells)} cells",
                f"{len(self._columns)}, one for each heading",
                "put a text with a separator in it into quotes",
            )
        names = (column.name for column in self._columns)
        cells = {n: c for n, c in zip(names, row.cells, strict=True) if n in self._map.columns}
        for name, cell in cells.items():
            if len(cell) > _LONGEST_CELL:
                remedy = "shorten it"
                raise _refused(cell, f"at most {_LONGEST_CELL} characters", remedy, key=name)
            if _FORMULA.fullmatch(cell):
                remedy = "save the table with values in the place of formulas"
                raise _refused(cell, "a value", remedy, key=name)
        return cells


class _RowFiller:
    """Fills templates with the cells of one row."""

    def __init__(
        self, cells: Mapping[str, str], units: Mapping[str, str], mapping: TableMap
    ) -> None:
        self._row = cells
        self._units = units
        self._map = mapping
        self.is_known = True
        self.has_cells = False

    def table(self, template: Mapping[str, Any], cls: Any) -> dict[str, Any]:  # noqa: ANN401 - a class, or none
        """Fill a table in; without what the row leaves out."""
        fields = fields_of(cls) if cls is not None else {}
        # Where there is none of what a table cannot do without, there is no such table.
        needed = {"id"} | (may_be_left_out(cls) if cls else set())
        filled = {}
        for key, value in template.items():
            leaf, hint = fields.get(key, (Leaf.TEXT, str))
            try:
                filled[key] = self._value(value, leaf, hint)
            except _LeftOut:
                if key in needed:
                    raise
        if not needed - {"id"} <= filled.keys():
            self.is_known = False
        return filled

    def _value(self, template: Any, leaf: Leaf, hint: Any) -> Any:  # noqa: ANN401 - as in TOML
        if isinstance(template, dict):
            if "is" in template or leaf in (Leaf.FIGURE, Leaf.COUNT):
                return self._figure_table(template, leaf)
            return self.table(template, table_class(hint, template))
        if isinstance(template, list):
            return list(self._items(template, leaf, hint))
        return self._text(template, leaf) if isinstance(template, str) else template

    def _items(self, template: list[Any], leaf: Leaf, hint: Any) -> Iterator[Any]:  # noqa: ANN401
        for item in template:
            try:
                yield self._value(item, leaf, hint)
            except _LeftOut:
                continue

    def _figure_table(self, template: Mapping[str, Any], leaf: Leaf) -> dict[str, Any]:
        """Fill in a figure that has a source of its own, or that differs left and right."""
        leaves = dict.fromkeys(("is", "left", "right"), leaf)
        return {
            key: self._value(value, leaves.get(key, Leaf.TEXT), str)
            for key, value in template.items()
        }

    def _text(self, template: str, leaf: Leaf) -> Any:  # noqa: ANN401 - text, number or truth
        names = NAMED.findall(template)
        cells = [self._row[name] for name in names]
        self.has_cells = self.has_cells or bool(names)
        if leaf is not Leaf.TEXT and _NONE in cells:
            raise _LeftOut
        is_empty = "" in cells
        if leaf in (Leaf.FIGURE, Leaf.COUNT) and (
            UNKNOWN in cells or (is_empty and self._map.empty == UNKNOWN)
        ):
            self.is_known = False
            return UNKNOWN
        if is_empty:
            raise _LeftOut
        text = NAMED.sub(lambda found: self._cell(found[1], leaf), template)
        return _read_as(text, leaf) if names else text

    def _cell(self, name: str, leaf: Leaf) -> str:
        cell = self._row[name]
        if leaf is Leaf.ID:
            return _as_id(cell)
        if leaf is Leaf.TEXT:
            return cell
        if self._map.decimal == ",":
            cell = _DECIMAL.sub(".", cell)
        return with_unit(cell, self._units[name]) if leaf is Leaf.FIGURE else cell


def _as_id(cell: str) -> str:
    """Spell a cell as a piece of an id."""
    return re.sub(r"[^a-z0-9.]+", "-", cell.lower()).strip("-.")


def _read_as(text: str, leaf: Leaf) -> Any:  # noqa: ANN401 - text, number or truth
    """Read a text as what the field holds; what cannot be read so is left to the loader."""
    if leaf in (Leaf.COUNT, Leaf.WHOLE) and _WHOLE.fullmatch(text):
        return int(text)
    if leaf is Leaf.NUMBER and BARE_NUMBER.fullmatch(text) and "," not in text:
        return float(text)
    if leaf is Leaf.TRUTH:
        return _TRUTHS.get(text.lower(), text)
    return text


def _refused(value: str, expected: str, remedy: str, key: str = "") -> BarwrightError:
    return SchemaError("S203", value=value, expected=expected, remedy=remedy, key=key)
