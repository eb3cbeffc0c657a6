"""What a question to columns is: asked of a column of corners, and of the corner of a row."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Answer, Verdict
from barwright.columns.column_corner import ColumnCorner
from barwright.mechanics.common.types import Real
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import Kind, Quantity, QuantityArray

__all__ = ["Figures", "Found", "Question", "Verdicts", "answered", "picked", "where", "words"]

Found: TypeAlias = dict[str, Any]
"""Numbers in SI units by the name of their column, or one row of them."""

Figures: TypeAlias = Mapping[str, Quantity | QuantityArray | float | None]
"""Figures of a single answer by the names of their columns; none where it has none."""

Verdicts: TypeAlias = NDArray[np.str_]
"""Verdict of each row; empty where a row is to be asked about by itself."""


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
    """

    kinds: Mapping[str, Kind | None]
    of_column: Callable[[ColumnCorner], tuple[Verdicts, Found]]
    of_row: Callable[[Setup, Wanted | None], Answer]
    figures: Callable[[Any], Figures]
    takes_height: bool = False
    points: Mapping[str, int] = attrs.field(factory=dict)


def words(*verdicts: Verdict) -> list[str]:
    """Spell verdicts, as columns hold them."""
    return [verdict.value for verdict in verdicts]


def answered(verdicts: Verdicts, flags: Any) -> Verdicts:  # noqa: ANN401 - one flag or a column
    """Keep verdicts where flags are raised; the other rows are to be asked about by themselves."""
    return picked(flags, verdicts, "")


def picked(flags: Any, one: Verdicts | str, other: Verdicts | str) -> Verdicts:  # noqa: ANN401 - as above
    """Take a verdict where flags are raised, and another elsewhere; one for all where it can be."""
    if np.all(flags):
        return np.asarray(one)
    return np.where(flags, one, other) if np.any(flags) else np.asarray(other)


def where(flags: Any, numbers: Real | None) -> Any:  # noqa: ANN401 - a number or a column
    """Keep numbers where flags are raised; elsewhere, and where nothing is known, there is none."""
    if numbers is None:
        return np.nan
    # Mostly they are raised in all rows, and to look is quick.
    return numbers if np.all(flags) else np.where(flags, numbers, np.nan)
