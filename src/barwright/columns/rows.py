"""Chunks of rows that fit the processor's cache, and single rows where a chunk fails."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.columns.column_corner import ColumnCorner
from barwright.columns.given import WANTED_HEIGHT, Column
from barwright.columns.possible import possible
from barwright.columns.questions import Question
from barwright.columns.stack import row_of, stacked
from barwright.errors import BarwrightError
from barwright.mechanics.common.types import Real
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Kind, Quantity, is_quantity, si

__all__ = ["Rows"]

# Rows at a time: what a question holds of them stays in the cache.
_CHUNK = 4096

# Figures that a fillet's twist depends on.
_FILLET = re.compile(r"bar\.(diameter|bore|\w+\.(root_diameter|fillet_radius))$")

# So few are asked about one by one.
_FEW = 2


@attrs.frozen(eq=False)
class Rows:
    """Answers of a question, row by row, in SI units.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : sequence of Column
        Figures that differ from row to row.
    question : Question
        What is asked.
    """

    setup: Setup
    columns: Sequence[Column]
    question: Question
    verdicts: NDArray[np.str_] = attrs.field(init=False)
    codes: NDArray[np.str_] = attrs.field(init=False)
    reasons: dict[int, str] = attrs.field(init=False, factory=dict)
    numbers: dict[str, NDArray[np.float64]] = attrs.field(init=False)

    @verdicts.default
    def _no_verdicts(self) -> NDArray[np.str_]:
        return np.zeros(self.number, dtype="<U32")

    @codes.default
    def _no_codes(self) -> NDArray[np.str_]:
        return np.zeros(self.number, dtype="<U4")

    @numbers.default
    def _no_numbers(self) -> dict[str, NDArray[np.float64]]:
        return {name: np.full(self.number, np.nan) for name in self.question.kinds}

    @property
    def number(self) -> int:
        """How many rows there are."""
        return int(self.columns[0].numbers.size)

    def answer(self) -> None:
        """Answer all rows."""
        everything = np.arange(self.number)
        at_a_time = 1 if self._is_for_one_corner else _CHUNK
        for first in range(0, self.number, at_a_time):
            self._chunk(everything[first : first + at_a_time])

    @property
    def _is_for_one_corner(self) -> bool:
        """Whether a part of the arithmetic takes one corner at a time.

        What a reading shows does, the curve of a bump rubber, and a fillet, since no model may
        cover that of some rows; and which of two wishbones lies above is asked of one.
        """
        return bool(self.setup.readings) or any(
            column.path.endswith("upper_up")
            or ".curve." in column.path
            or (self._has_fillet and _FILLET.match(column.path))
            for column in self.columns
        )

    @property
    def _has_fillet(self) -> bool:
        bar = self.setup.bar
        return any(end.fillet_radius is not None for end in (bar.arm_end, bar.anchor_end))

    def _chunk(self, rows: NDArray[np.intp]) -> None:
        """Answer some rows at once; where that fails, in two halves, and in the end singly."""
        if rows.size <= _FEW:
            for row in rows.tolist():
                self._single(row)
            return
        try:
            self._together(rows)
        except BarwrightError:
            half = rows.size // 2
            self._chunk(rows[:half])
            self._chunk(rows[half:])

    def _together(self, rows: NDArray[np.intp]) -> None:
        corners = stacked(self.setup, self.columns, rows)
        can_be = possible(corners, self.columns, rows)
        if not can_be.all():
            for row in rows[~can_be].tolist():
                self._single(row)
            self._chunk(rows[can_be])
            return
        with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
            verdicts, found = self.question.of_column(ColumnCorner(corners), self._heights(rows))
        self.verdicts[rows] = verdicts
        for name, numbers in found.items():
            self.numbers[name][rows] = numbers

    def _single(self, row: int) -> None:
        try:
            setup = row_of(self.setup, self.columns, row)
            answer = self.question.of_row(setup, self._wanted(row))
        except BarwrightError as error:
            self.codes[row], self.reasons[row] = error.code, str(error)
            return
        self.verdicts[row] = answer.verdict.value
        for name, figure in self.question.figures(answer).items():
            self.numbers[name][row] = _number(figure, self.question.kinds[name])

    @property
    def _height_column(self) -> Column | None:
        return next((c for c in self.columns if c.path == WANTED_HEIGHT), None)

    def _heights(self, rows: NDArray[np.intp]) -> Real | None:
        column = self._height_column
        return None if column is None else si(cast("Quantity", column.figures(rows)), LENGTH)

    def _wanted(self, row: int) -> Wanted | None:
        column = self._height_column
        return None if column is None else Wanted(height=column.figure(row))


def _number(figure: object, kind: Kind | None) -> float:
    """Return the SI number of a figure of an answer; not a number where there is none."""
    if is_quantity(figure) and kind is not None:
        return si(figure, kind)
    return np.nan if figure is None else float(figure)  # type: ignore[arg-type]
