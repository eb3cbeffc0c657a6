"""Columns as callers give them, read into figures with units."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.tolerance.figures import figure_places
from barwright.errors import QuantityError, SchemaError
from barwright.parts.common.fields import figure_fields
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.importing.heading import heading_of
from barwright.registry.nearest_name import nearest
from barwright.units import (
    LENGTH,
    Kind,
    Quantity,
    QuantityArray,
    Range,
    is_quantity,
    listed,
    quantity_of_unit,
    unit_spelling,
)
from barwright.units.kept import taken_over

__all__ = [
    "WANTED_HEIGHT",
    "Column",
    "Kinds",
    "Table",
    "check_unit",
    "columns_of",
    "in_one_piece",
    "kind_of",
    "kinds_of",
]

Table: TypeAlias = Mapping[str, Any]
"""Columns by name: arrays with units, or numbers under a name with its unit in brackets."""

Kinds: TypeAlias = Mapping[str, tuple[Kind, Range]]
"""Kind and range of figures, by their names."""

WANTED_HEIGHT = "wanted.height"
"""Column of heights, hub to arch, at which the corners are asked about."""


@attrs.frozen(eq=False)
class Column:
    """A figure of a setup, for each of many rows.

    Parameters
    ----------
    path : str
        Fields of the setup that lead to it, such as ``bar.diameter``.
    kind : Kind
        What it is.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.
    numbers : array of float, shape (rows,)
        The numbers, in the unit as given; not a number where there is none.
    unit : str
        Spelling of that unit.
    """

    path: str
    kind: Kind
    allowed: Range
    numbers: NDArray[np.float64]
    unit: str

    def figures(self, rows: NDArray[np.intp]) -> QuantityArray:
        """Return the figures of some rows."""
        return cast("QuantityArray", taken_over(self.numbers[in_one_piece(rows)], self.unit))

    def figure(self, row: int) -> Quantity:
        """Return the figure of a row; Q301 where there is none."""
        number = float(self.numbers[row])
        if math.isnan(number):
            raise QuantityError(
                "Q301",
                value="no number",
                expected="a finite number",
                remedy="measure it, or leave the row out",
                key=self.path,
            )
        return quantity_of_unit(number, self.unit)


def in_one_piece(rows: NDArray[np.intp]) -> NDArray[np.intp] | slice:
    """Return rows, if they lie one after another, as a slice: nothing of it is copied.

    Parameters
    ----------
    rows : array of int
        Numbers of rows, rising; at least one.

    Returns
    -------
    array of int, or slice
    """
    first, last = int(rows[0]), int(rows[-1])
    return slice(first, last + 1) if last - first + 1 == rows.size else rows


def columns_of(setup: Setup, table: Table) -> tuple[Column, ...]:
    """Read the columns of a table.

    Parameters
    ----------
    setup : Setup
        The corner whose figures they take the place of.
    table : mapping
        Columns by name.

    Returns
    -------
    tuple of Column

    Raises
    ------
    SchemaError
        S201 for a name that no figure has; S203 for columns of different lengths, or for none.
    QuantityError
        Q104 for what is no number, Q105 without a unit, Q201 for a unit that is not on the
        list, Q202 for that of another kind.
    """
    kinds = kinds_of(setup)
    columns = tuple(_column(name, values, kinds) for name, values in table.items())
    lengths = {column.numbers.size for column in columns}
    if len(lengths) != 1 or len({column.path for column in columns}) < len(columns):
        raise SchemaError(
            "S203",
            value=", ".join(f"{c.numbers.size} row(s) of {c.path}" for c in columns) or "no column",
            expected="columns with as many rows as each other, each figure once",
            remedy="give each figure a number in every row",
            key="table",
        )
    return columns


# What is no number, by the kinds of NumPy.
_KINDS_OF_CELLS = {
    "U": "texts",
    "S": "texts",
    "b": "truth values",
    "c": "complex numbers",
    "M": "times",
    "m": "times",
}


def kinds_of(setup: Setup) -> Kinds:
    """List the figures that columns can take the place of.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    mapping of str to (Kind, Range)
        Kind and range of every figure, by the fields that lead to it.
    """
    found = {
        place.path: figure_fields(type(place.holder))[place.field] for place in figure_places(setup)
    }
    return found | {WANTED_HEIGHT: (LENGTH, figure_fields(Wanted)["height"][1])}


def _column(name: str, values: object, kinds: Kinds) -> Column:
    heading = heading_of(name)
    path, unit = heading.name, heading.unit
    kind, allowed = kind_of(path, kinds)
    if is_quantity(values):
        unit = unit_spelling(values)
        numbers = np.atleast_1d(np.asarray(values.magnitude, dtype=np.float64))
    else:
        numbers = _numbers(values, path)
    check_unit(unit, kind, path=path)
    return Column(path, kind, allowed, numbers, unit)


def kind_of(path: str, kinds: Kinds) -> tuple[Kind, Range]:
    """Return the kind and range of a figure.

    Parameters
    ----------
    path : str
        Its name.
    kinds : mapping
        Those of the setup.

    Returns
    -------
    Kind, Range

    Raises
    ------
    SchemaError
        S201 if there is none of that name.
    """
    if path not in kinds:
        raise SchemaError(
            "S201",
            value=path,
            expected="the name of a figure of the setup, such as bar.diameter",
            remedy=nearest(path, kinds),
            key=path,
        )
    return kinds[path]


def check_unit(unit: str, kind: Kind, *, path: str) -> None:
    """Refuse a column whose unit is not one of its kind.

    Parameters
    ----------
    unit : str
        Its spelling; empty for none.
    kind : Kind
        What the column holds.
    path : str
        Name of the figure.

    Raises
    ------
    QuantityError
        Q105 without a unit, Q202 for that of another kind.
    """
    if unit not in kind.units:
        raise QuantityError(
            "Q202" if unit else "Q105",
            value=unit or "numbers without a unit",
            expected=f"numbers in {listed(kind)}",
            remedy=f"name the column like '{path} [{kind.units[0]}]', or give an array with units",
            key=path,
        )


def _numbers(values: object, path: str) -> NDArray[np.float64]:
    """Numbers of a column; none is not a number."""
    if isinstance(values, Sequence) and not isinstance(values, str):
        values = [np.nan if value is None else value for value in values]
    try:
        found = np.asarray(values)
    except ValueError:  # lists of different lengths
        found = np.asarray(None)
    if found.dtype.kind not in "iuf" or found.ndim != 1:
        raise QuantityError(
            "Q104",
            value=_words(found) or type(values).__name__,
            expected="a column of numbers",
            remedy="write them without units and quotes, the unit in the name of the column",
            key=path,
        )
    return found.astype(np.float64)


def _words(found: NDArray[Any]) -> str:
    """Say what an array holds, if there is a word for it."""
    is_one = found.ndim == 0 and found.dtype.kind in "iuf"
    return "one number" if is_one else _KINDS_OF_CELLS.get(found.dtype.kind, "")
