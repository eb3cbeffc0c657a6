"""What a question to columns is: asked of a column of corners, and of the corner of a row."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.analysis.answer import Answer
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.verdicts import Verdicts
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import Kind, Quantity, QuantityArray

__all__ = ["Figures", "Found", "Question"]

Found: TypeAlias = dict[str, Any]
"""Numbers in SI units by the name of their column, or one row of them."""

Figures: TypeAlias = Mapping[str, Quantity | QuantityArray | float | None]
"""Figures of a single answer by the names of their columns; none where it has none."""


@attrs.frozen(kw_only=True, eq=False)
class Question:
    """A question, and the columns of its answer.

    Parameters
    ----------
    kinds : mapping of str to Kind
        What each column of figures holds, by its name; none for a number without a unit.
    of_column : callable
        From a column of corners to the verdicts and the numbers.
    of_row : callable
        From a setup, and the height wanted of it, to the answer.
    figures : callable
        From that answer to its figures.
    takes_height : bool
        Whether it is asked at a wanted height.
    points : mapping of str to int
        How many numbers a row has in a column, by its name; one where it is not named.
    at_a_time : int, optional
        The most rows that are answered together, where one takes much memory.
    """

    kinds: Mapping[str, Kind | None]
    of_column: Callable[[ColumnCorner], tuple[Verdicts, Found]]
    of_row: Callable[[Setup, Wanted | None], Answer]
    figures: Callable[[Any], Figures]
    takes_height: bool = False
    points: Mapping[str, int] = attrs.field(factory=dict)
    at_a_time: int | None = None
