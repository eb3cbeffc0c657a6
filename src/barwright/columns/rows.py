"""Chunks of rows that fit the processor's cache, and single rows where a chunk fails."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.columns.asked.question import Question
from barwright.columns.column_corner import ColumnCorner, CornerRows
from barwright.columns.given import WANTED_HEIGHT, Column, in_one_piece
from barwright.columns.possible import possible
from barwright.columns.stack import row_of, stacked
from barwright.columns.verdicts import places_of, spelled
from barwright.errors import BarwrightError
from barwright.mechanics.common.types import Real
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Kind, Quantity, is_quantity, si
from barwright.units.kinds import UNITS

__all__ = ["Corners", "Rows", "answered_rows", "is_for_one_corner"]

# Numbers of a column at a time: what a question holds of them stays in the cache, and what a
# chunk costs apart from its rows is a tenth of the whole.  Of curves so many rows at least.
_CHUNK = 32_768
_LEAST_ROWS = 1024

# Figures that a fillet's twist depends on.
_FILLET = re.compile(r"bar\.(diameter|bore|\w+\.(root_diameter|fillet_radius))$")

# So few rows are asked about one by one: in halves they would be single rows as well.
_FEW = 2

_CODE_LENGTH = 4
"""Characters of an error's code."""


@attrs.frozen(eq=False)
class Corners:
    """The corners of some rows, kept while one question after the other is put to them.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : sequence of Column
        Figures that differ from row to row.
    """

    setup: Setup
    columns: Sequence[Column]
    kept: dict[bytes, tuple[ColumnCorner, NDArray[np.bool_]]] = attrs.field(
        init=False, factory=dict
    )

    def of(self, rows: NDArray[np.intp]) -> tuple[ColumnCorner, NDArray[np.bool_]]:
        """Return the corners of rows, and which of them can be."""
        key = rows.tobytes()
        if key not in self.kept:
            corner = self._corner(rows)
            self.kept[key] = corner, possible(corner.setup, self.columns, rows)
        return self.kept[key]

    def _corner(self, rows: NDArray[np.intp]) -> ColumnCorner:
        return ColumnCorner(
            stacked(self.setup, self.columns, rows),
            self._heights(rows),
            CornerRows(
                setup=self.setup,
                columns=self.columns,
                numbers=rows,
                setup_at=lambda index: row_of(self.setup, self.columns, int(rows[index])),
                part_at=lambda indices: self._corner(rows[indices]),
            ),
        )

    def is_sound(self, rows: NDArray[np.intp]) -> NDArray[np.bool_]:
        """Tell of which rows the geometry can be computed: what is asked most often fails there.

        To look for them in this way takes a fraction of what it takes to answer.
        """
        try:
            with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
                self._corner(rows).compute_geometry()
        except BarwrightError:
            if rows.size == 1:
                return np.array([False])
            half = rows.size // 2
            return np.concatenate([self.is_sound(rows[:half]), self.is_sound(rows[half:])])
        return np.ones(rows.size, dtype=bool)

    @property
    def height_column(self) -> Column | None:
        """Column of wanted heights."""
        return next((c for c in self.columns if c.path == WANTED_HEIGHT), None)

    def _heights(self, rows: NDArray[np.intp]) -> Real | None:
        column = self.height_column
        return None if column is None else si(cast("Quantity", column.figures(rows)), LENGTH)


def answered_rows(
    setup: Setup, columns: Sequence[Column], questions: Sequence[Question]
) -> tuple[Rows, ...]:
    """Answer questions about all rows, from the same corners.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : sequence of Column
        Figures that differ from row to row.
    questions : sequence of Question
        What is asked.

    Returns
    -------
    tuple of Rows
        One for each question.
    """
    corners = Corners(setup, columns)
    found = tuple(Rows(setup, columns, question, corners) for question in questions)
    _keep_freed_memory()
    everything = np.arange(columns[0].numbers.size)
    paths = [column.path for column in columns]
    at_a_time = 1 if is_for_one_corner(setup, paths) else _rows_at_a_time(questions)
    for first in range(0, everything.size, at_a_time):
        for rows in found:
            rows.chunk(everything[first : first + at_a_time])
        corners.kept.clear()
    return found


def _keep_freed_memory() -> None:
    """Let what one chunk frees be kept for the next.

    The C library of Linux keeps it once a large array has been freed.  To get each page anew
    costs as much as to compute.
    """
    np.empty(_FREED_FIRST)


_FREED_FIRST = 4_000_000


def _rows_at_a_time(questions: Sequence[Question]) -> int:
    """Count the rows of a chunk: the fewer, the more numbers a row has in a column."""
    most = max((points for question in questions for points in question.points.values()), default=1)
    limits = (question.at_a_time for question in questions if question.at_a_time)
    return min((max(_LEAST_ROWS, _CHUNK // most), *limits))


def is_for_one_corner(setup: Setup, paths: Iterable[str]) -> bool:
    """Tell whether a part of the arithmetic takes one corner at a time.

    Four parts do:

    - what a reading of the setup shows;
    - the curve of a bump rubber;
    - the twist of a fillet, because the model may cover the fillets of some rows only;
    - which of two wishbones lies above.

    Parameters
    ----------
    setup : Setup
        The corner.
    paths : iterable of str
        Fields that lead to the figures that differ from row to row.

    Returns
    -------
    bool
    """
    ends = (setup.bar.arm_end, setup.bar.anchor_end)
    has_fillet = any(end.fillet_radius is not None for end in ends)
    return bool(setup.readings) or any(
        path.endswith("upper_up") or ".curve." in path or (has_fillet and _FILLET.match(path))
        for path in paths
    )


@attrs.frozen(eq=False)
class Rows:
    """Answers of a question, row by row, in the trade's units.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : sequence of Column
        Figures that differ from row to row.
    question : Question
        What is asked.
    corners : Corners
        The corners of rows, which other questions share.
    """

    setup: Setup
    columns: Sequence[Column]
    question: Question
    corners: Corners
    verdict_places: NDArray[np.uint8] = attrs.field(init=False)
    codes: NDArray[np.str_] = attrs.field(init=False)
    reasons: dict[int, str] = attrs.field(init=False, factory=dict)
    numbers: dict[str, NDArray[np.float64]] = attrs.field(init=False)

    @verdict_places.default
    def _no_verdicts(self) -> NDArray[np.uint8]:
        # A byte a row; spelled out, they would take as much memory as twenty columns of figures.
        return np.zeros(self.count, dtype=np.uint8)

    @codes.default
    def _no_codes(self) -> NDArray[np.str_]:
        return np.zeros(self.count, dtype=f"<U{_CODE_LENGTH}")

    @numbers.default
    def _no_numbers(self) -> dict[str, NDArray[np.float64]]:
        points = self.question.points
        return {
            name: np.empty((self.count, *([points[name]] if name in points else ())))
            for name in self.question.kinds
        }

    @property
    def count(self) -> int:
        """How many rows there are."""
        return int(self.columns[0].numbers.size)

    @property
    def verdicts(self) -> NDArray[np.str_]:
        """Verdict of each row; empty where the row is an error."""
        return spelled(self.verdict_places)

    def chunk(self, rows: NDArray[np.intp]) -> None:
        """Answer some rows at once; where that fails, in two halves, and in the end singly."""
        if rows.size <= _FEW:
            self._singly(rows)
            return
        try:
            self._together(rows)
        except BarwrightError:
            is_sound = self.corners.is_sound(rows)
            if is_sound.all():
                half = rows.size // 2
                self.chunk(rows[:half])
                self.chunk(rows[half:])
            else:
                self._singly(rows[~is_sound])
                self.chunk(rows[is_sound])

    def _together(self, rows: NDArray[np.intp]) -> None:
        corner, can_be = self.corners.of(rows)
        if not can_be.all():
            self._singly(rows[~can_be])
            self.chunk(rows[can_be])
            return
        with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
            verdicts, found = self.question.of_column(corner)
        there = in_one_piece(rows)
        self.verdict_places[there] = places_of(verdicts)
        for name, kind in self.question.kinds.items():
            numbers = self.numbers[name][there]
            np.divide(found.get(name, np.nan), _trade_unit(kind), out=numbers)
            # Rows in one piece are a view of all rows, any others a copy.
            if not isinstance(there, slice):
                self.numbers[name][there] = numbers
        self._singly(rows[np.broadcast_to(verdicts == "", rows.shape)])

    def _singly(self, rows: NDArray[np.intp]) -> None:
        for row in rows.tolist():
            self.single(row)

    def single(self, row: int) -> None:
        """Answer a row by itself."""
        for numbers in self.numbers.values():
            numbers[row] = np.nan
        try:
            setup = row_of(self.setup, self.columns, row)
            answer = self.question.of_row(setup, self._wanted(row))
        except BarwrightError as error:
            self.codes[row], self.reasons[row] = error.code, str(error)
            return
        self.verdict_places[row] = places_of(np.asarray(answer.verdict.value))
        for name, figure in self.question.figures(answer).items():
            self.numbers[name][row] = _number(figure, self.question.kinds[name])

    def _wanted(self, row: int) -> Wanted | None:
        column = self.corners.height_column if self.question.takes_height else None
        if column is None:
            return None
        height = column.figure(row)
        try:
            return Wanted(height=height)
        except BarwrightError as error:
            raise error.within(key="wanted") from None


def _trade_unit(kind: Kind | None) -> float:
    """Size of the unit in which a figure is given; that of a ratio is 1."""
    return 1.0 if kind is None else UNITS[kind.units[0]].factor


def _number(figure: object, kind: Kind | None) -> Any:  # noqa: ANN401 - one or many
    """Return the number of a figure of an answer; not a number where there is none."""
    if is_quantity(figure) and kind is not None:
        return si(figure, kind) / _trade_unit(kind)
    return np.nan if figure is None else figure
