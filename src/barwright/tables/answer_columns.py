"""Columns of answers: verdict, error code, error, and figures with their units."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.columns.batch import Batch
from barwright.errors import BarwrightError
from barwright.registry.importing.arrow import Arrow
from barwright.tables.unit_of import UNIT
from barwright.units import System, in_system, is_quantity, unit_spelling

__all__ = ["OWN", "Refused", "answer_columns", "figure_column"]

OWN = ("verdict", "error_code", "error")
"""Columns of every answer, before its figures."""

Refused: TypeAlias = Mapping[int, BarwrightError]
"""What is wrong with rows that could not be read, by their places."""


def figure_column(loaded: Arrow, name: str, numbers: NDArray[Any], unit: str) -> tuple[Any, Any]:
    """Make a column of figures, empty where there is no number.

    Parameters
    ----------
    loaded : Arrow
        Its modules.
    name : str
        Name of the column.
    numbers : array, shape (rows,) or (rows, points)
        Its numbers.
    unit : str
        Their unit, for the metadata; empty for none.

    Returns
    -------
    pyarrow.Field, pyarrow.Array
    """
    array = _array(loaded.core, numbers)
    metadata = {UNIT: unit} if unit else None
    return loaded.core.field(name, array.type, metadata=metadata), array


def _array(pa: Any, numbers: NDArray[Any]) -> Any:  # noqa: ANN401 - of Arrow
    """Make an array; of rows of points, one of lists."""
    if numbers.ndim == 1:
        return pa.array(numbers, from_pandas=True)
    points = pa.array(numbers.ravel(), from_pandas=True)
    has_none = pa.array(np.isnan(numbers).all(axis=1))
    return pa.FixedSizeListArray.from_arrays(points, numbers.shape[1], mask=has_none)


def answer_columns(
    loaded: Arrow, found: Batch, refused: Refused, *, system: System
) -> list[tuple[Any, Any]]:
    """Make the columns of answers: verdict, error code, error, and figures.

    Parameters
    ----------
    loaded : Arrow
        Its modules.
    found : Batch
        The answers.
    refused : mapping of int to BarwrightError
        What is wrong with rows that could not even be read.
    system : {"metric", "inch"}
        Units of the figures.

    Returns
    -------
    list of (pyarrow.Field, pyarrow.Array)
    """
    pa = loaded.core
    codes = found.error_codes.astype(object)
    codes[codes == ""] = None
    texts = np.full(len(found), None, dtype=object)
    for row, text in found.error_texts.items():
        texts[row] = text
    for row, error in refused.items():
        codes[row], texts[row] = error.code, str(error)
    own = zip(OWN[1:], (codes, texts), strict=True)
    return [
        (pa.field("verdict", pa.dictionary(pa.int32(), pa.string())), _verdicts(loaded, found)),
        *((pa.field(name, pa.string()), pa.array(cells, pa.string())) for name, cells in own),
        *(_figure(loaded, name, figures, system) for name, figures in found.columns.items()),
    ]


def _verdicts(loaded: Arrow, found: Batch) -> Any:  # noqa: ANN401 - of Arrow
    """Verdicts as numbers of words, the same numbers for every chunk."""
    pa, words = loaded.core, loaded.core.array([verdict.value for verdict in Verdict])
    numbers = loaded.compute.index_in(pa.array(found.verdicts, pa.string()), value_set=words)
    return pa.DictionaryArray.from_arrays(numbers, words)


def _figure(loaded: Arrow, name: str, figures: Any, system: System) -> tuple[Any, Any]:  # noqa: ANN401
    if is_quantity(figures):
        shown = in_system(figures, system)
        return figure_column(loaded, name, np.asarray(shown.magnitude), unit_spelling(shown))
    return figure_column(loaded, name, figures, "")
