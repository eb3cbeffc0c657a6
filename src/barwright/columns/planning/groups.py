"""Rows whose figures have the same tolerances, which follow from what stands beside them.

A figure of a table has no tolerance.  But one that is just what it was before keeps its own, and
one that is just what another figure of the same record is, elsewhere in the setup, is that one.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.tolerance.figures import HeldFigure, read_places
from barwright.columns.column_corner import ColumnCorner, CornerRows, Flags
from barwright.columns.given import Column
from barwright.units import quantity_of_unit, si, unit_spelling

__all__ = ["groups_of"]


def groups_of(corner: ColumnCorner, places: NDArray[np.intp]) -> list[NDArray[np.intp]]:
    """Group rows whose figures have the same tolerances.

    Parameters
    ----------
    corner : ColumnCorner
        The corners.
    places : array of int
        Which of them, by their places among the rows.

    Returns
    -------
    list of array of int
        Those places.
    """
    if not places.size:
        return []
    flags = list(_flags(corner.of_rows, places))
    if not flags:
        return [places]
    _, group = np.unique(np.array(flags), axis=1, return_inverse=True)
    group = group.ravel()
    return [places[group == number] for number in range(int(group.max()) + 1)]


def _flags(rows: CornerRows, places: NDArray[np.intp]) -> Iterator[Flags]:
    """Tell of which rows a figure is the one that was there, or one that stands elsewhere."""
    held = {place.path: place for place in read_places(rows.setup)}
    columns = {column.path: column for column in rows.columns if column.path in held}
    numbers = rows.numbers[places]
    for path, column in columns.items():
        place = held[path]
        if place.tolerance is not None:
            yield _is_nominal(column, place, numbers)
        for other in held.values():
            if other.path != path and other.key[:-1] == place.key[:-1]:
                yield _figures(column, numbers) == _elsewhere(other, columns, numbers)


def _is_nominal(column: Column, place: HeldFigure, rows: NDArray[np.intp]) -> Flags:
    """Tell of which rows a figure is the one that was there."""
    numbers, own = column.numbers[rows], place.value
    if column.unit == unit_spelling(own):
        return np.asarray(numbers == float(own.magnitude))
    # As records compare them; the other way round the rounding would differ.
    return np.array([own == quantity_of_unit(n, column.unit) for n in numbers.tolist()])


def _elsewhere(other: HeldFigure, columns: dict[str, Column], rows: NDArray[np.intp]) -> Any:  # noqa: ANN401
    """Figure that stands at another place: one, or one in each row [SI]."""
    return _figures(columns[other.path], rows) if other.path in columns else other.key[-1]


def _figures(column: Column, rows: NDArray[np.intp]) -> NDArray[np.float64]:
    """Figures of rows, to the same last digit as those of single corners [SI]."""
    found = (quantity_of_unit(n, column.unit) for n in column.numbers[rows].tolist())
    return np.array([si(figure, column.kind) for figure in found])
