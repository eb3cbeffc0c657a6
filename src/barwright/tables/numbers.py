"""Numbers of a column: as they are, or read from texts cell by cell."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.columns.given import check_unit
from barwright.errors import BarwrightError
from barwright.registry.importing.arrow import Arrow
from barwright.registry.importing.cell import with_unit
from barwright.tables.layout import FigureColumn
from barwright.units import to_kind

__all__ = ["Numbers", "numbers_of"]

# What is read at once; all other texts are read one by one.
_PLAIN = r"^-?[0-9]{1,30}(\.[0-9]{0,30})?([eE][+-]?[0-9]{1,3})?$"


@attrs.frozen(eq=False)
class Numbers:
    """Numbers of a column, all in one unit.

    Parameters
    ----------
    numbers : array of float, shape (rows,)
        The numbers; not a number where there is none.
    unit : str
        Their unit.
    refused : dict of int to BarwrightError
        What is wrong with texts that are no figure, by the row from 0.
    """

    numbers: NDArray[np.float64]
    unit: str
    refused: dict[int, BarwrightError]


def numbers_of(loaded: Arrow, cells: Any, column: FigureColumn) -> Numbers:  # noqa: ANN401 - of Arrow
    """Read the numbers of a column.

    Parameters
    ----------
    loaded : Arrow
        Its modules.
    cells : pyarrow.Array
        The column.
    column : FigureColumn
        What it is.

    Returns
    -------
    Numbers

    Raises
    ------
    QuantityError
        Q105 for bare numbers as texts, without a unit.
    """
    pa = loaded.core
    if pa.types.is_dictionary(cells.type):
        cells = cells.cast(cells.type.value_type)
    if column.is_text:
        return _of_texts(loaded, cells.cast(pa.string()), column)
    return Numbers(_as_floats(pa, cells), column.unit, {})


def _as_floats(pa: Any, cells: Any) -> NDArray[np.float64]:  # noqa: ANN401 - of Arrow
    # Whole numbers beyond what a float holds are rounded: no figure is that fine.
    floats = cells.cast(pa.float64(), safe=False)
    found: NDArray[np.float64] = floats.to_numpy(zero_copy_only=False)
    return found


def _of_texts(loaded: Arrow, cells: Any, column: FigureColumn) -> Numbers:  # noqa: ANN401 - of Arrow
    pa, compute = loaded.core, loaded.compute
    texts = compute.utf8_trim_whitespace(cells)
    is_plain = compute.fill_null(compute.match_substring_regex(texts, _PLAIN), fill_value=False)
    if compute.any(is_plain).as_py():
        check_unit(column.unit, column.kind, path=column.path)
    unit = column.unit or column.kind.units[0]
    numbers = _as_floats(pa, compute.if_else(is_plain, texts, None)).copy()
    refused: dict[int, BarwrightError] = {}
    is_other = compute.and_not(compute.fill_null(compute.not_equal(texts, ""), False), is_plain)
    for row in compute.indices_nonzero(is_other).to_pylist():
        text = texts[row].as_py()
        try:
            figure = to_kind(with_unit(text, column.unit), column.kind, key=column.path)
        except BarwrightError as error:
            refused[row] = error
        else:
            numbers[row] = figure.m_as(unit)
    return Numbers(numbers, unit, refused)
