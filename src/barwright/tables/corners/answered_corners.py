"""Corners answered as the rows of a table: those that are alike together, in columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np

from barwright.analysis.answer import Answer
from barwright.analysis.tolerance.figures import figure_places
from barwright.columns.batch import Batch
from barwright.columns.given import WANTED_HEIGHT
from barwright.errors import BarwrightError, DocumentError
from barwright.parts.setup import Setup
from barwright.registry.importing.arrow import arrow
from barwright.tables.answer_columns import answer_columns
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.corners.alike import TakenApart, taken_apart
from barwright.tables.corners.corners import TableCorner
from barwright.units import (
    LENGTH,
    QuantityArray,
    is_quantity,
    quantity_of_units,
    si,
    unit_spelling,
)

__all__ = ["answered_corners"]


def answered_corners(
    corners: Sequence[TableCorner],
    asked: AskedOfRows,
    *,
    labels: Sequence[str],
) -> Any:  # noqa: ANN401 - of Arrow
    """Answer a question for corners of any vehicles.

    Parameters
    ----------
    corners : sequence of TableCorner
        The corners.
    asked : AskedOfRows
        The question.
    labels : sequence of str
        Columns that tell the corners.

    Returns
    -------
    pyarrow.Table
        A row for each, in their order: what tells it, then verdict, error code, error and the
        figures of the answer.
    """
    answers = _Answers(asked, len(corners))
    for places, found in _together(corners, asked):
        answers.put(places, found)
    for place, corner in enumerate(corners):
        if isinstance(corner.asked, BarwrightError):
            answers.refuse(place, corner.asked)
        elif isinstance(corner.asked, Answer):
            answers.put_one(place, corner.asked)
        elif not answers.verdicts[place]:
            # What is wrong with a row is told as of its own corner, not of the first of its kind.
            answers.put([place], asked(corner.asked, _alone(corner, corner.asked)))
    loaded = arrow()
    pa = loaded.core
    columns = [
        (pa.field(name, pa.string()), pa.array([c.labels[place] for c in corners], pa.string()))
        for place, name in enumerate(labels)
    ]
    answer = answer_columns(loaded, answers.batch, {}, system=asked.system)
    fields, arrays = zip(*columns, *answer, strict=True)
    return pa.table(list(arrays), schema=pa.schema(fields))


# -- Corners that are alike -------------------------------------------------------------------


def _together(
    corners: Sequence[TableCorner], asked: AskedOfRows
) -> Iterator[tuple[Sequence[int], Batch]]:
    """Answer corners that differ in figures alone: their places, and the answers."""
    groups: dict[Any, list[tuple[int, TakenApart]]] = {}
    for place, corner in enumerate(corners):
        if not isinstance(corner.asked, Setup) or asked.is_planned:
            continue
        if (apart := taken_apart(corner.asked)) is not None:
            kind = (apart.frame, corner.height is None)
            groups.setdefault(kind, []).append((place, apart))
    for group in groups.values():
        if len(group) > 1:
            places = [place for place, _ in group]
            alike = [corners[place] for place in places]
            first = alike[0].asked
            assert isinstance(first, Setup)  # noqa: S101 - only setups are grouped
            table = _columns([apart for _, apart in group]) | _heights(alike)
            yield places, asked(first, table)


def _columns(alike: Sequence[TakenApart]) -> dict[str, QuantityArray]:
    """Make a column of each figure that differs; where none does, of the first."""
    first = alike[0]
    numbers = {path: np.array([one.figures[path] for one in alike]) for path in first.figures}
    differing = [path for path, column in numbers.items() if np.any(column != column[0])]
    return {
        path: quantity_of_units(numbers[path], first.units[path])
        for path in differing or list(numbers)[:1]
    }


def _heights(alike: Sequence[TableCorner]) -> dict[str, QuantityArray]:
    heights = [corner.height for corner in alike if corner.height is not None]
    metres = np.array([si(height, LENGTH) for height in heights])
    return {WANTED_HEIGHT: quantity_of_units(metres, "m")} if heights else {}


def _alone(corner: TableCorner, setup: Setup) -> dict[str, QuantityArray]:
    """Make columns of one corner: its height, and any figure as it is."""
    place = next(place for place in figure_places(setup) if not place.path.startswith("chassis"))
    number = np.array([float(place.value.magnitude)])
    figure = {place.path: quantity_of_units(number, unit_spelling(place.value))}
    return figure | _heights([corner])


# -- Answers ----------------------------------------------------------------------------------


class _Answers:
    """Answers of rows, filled in as they come."""

    def __init__(self, asked: AskedOfRows, number: int) -> None:
        self._asked = asked
        self._question = asked.question
        self.verdicts = np.zeros(number, dtype="<U64")
        self._codes = np.zeros(number, dtype="<U4")
        self._texts: dict[int, str] = {}
        points = self._question.points
        shapes = {
            name: (number, points[name]) if name in points else (number,)
            for name in self._question.kinds
        }
        self._figures = {name: np.full(shape, np.nan) for name, shape in shapes.items()}

    def put(self, places: Sequence[int], found: Batch) -> None:
        """Put answers in their places, errors too."""
        self.verdicts[places] = found.verdicts
        self._codes[places] = found.error_codes
        for row, place in enumerate(places):
            self._texts.pop(place, None)
            if row in found.error_texts:
                self._texts[place] = found.error_texts[row]
        for name, figures in found.columns.items():
            self._figures[name][places] = figures.magnitude if is_quantity(figures) else figures

    def put_one(self, place: int, answer: Answer) -> None:
        """Put the answer to one corner in its place."""
        self.verdicts[place] = answer.verdict.value
        for name, figure in self._question.figures(answer).items():
            kind = self._question.kinds[name]
            known = figure.m_as(kind.units[0]) if is_quantity(figure) and kind else figure
            self._figures[name][place] = np.nan if known is None else known

    def refuse(self, place: int, error: BarwrightError) -> None:
        """Say why a row has no answer."""
        first = error.problems[0] if isinstance(error, DocumentError) else error
        self._codes[place] = first.code
        self._texts[place] = "; ".join(str(error).splitlines())

    @property
    def batch(self) -> Batch:
        """All of them."""
        return Batch(
            asked=self._asked.name,
            verdicts=self.verdicts,
            error_codes=self._codes,
            error_texts=self._texts,
            columns={
                name: numbers if kind is None else quantity_of_units(numbers, kind.units[0])
                for (name, kind), numbers in zip(
                    self._question.kinds.items(), self._figures.values(), strict=True
                )
            },
        )
