"""Which figures change an answer, found by asking again with figures moved.

All figures of a source are moved at once, since one that changes an answer is enough; only
where no part can be made so are they moved by halves.  A slight move of most sources shows
in the quickest answer.  What only decides between two ways, like a stop that another stop
hides, shows in a wide move alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Generic, TypeVar

import attrs
import numpy as np

from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    HeldFigure,
    TolerancedFigure,
    read_places,
)
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.source import SourceKind
from barwright.units import (
    ANGLE,
    UNKNOWN,
    is_quantity,
    is_unknown,
    quantity_of_unit,
    unit_spelling,
)

__all__ = ["NominalAnswers", "distinct"]

A = TypeVar("A")
T = TypeVar("T")

# Shares of its value by which each figure of a source is moved, by turns: some up and some
# down, and then the other way.  They differ, so that no two moves make up for each other.
_SLIGHT = (1e-4, -1.1e-4, 0.9e-4)
_WIDE = ((0.9, -0.8, 0.7), (-0.9, 0.8, -0.7))

# Where no part can be made so, like a curve that must rise, all are made larger or smaller.
_SCALED = ((0.9,), (-0.9,))

# Angle [deg] that stands for a whole value of an angle; no multiple of a spline's step.
_WHOLE_ANGLE = 58.7

# How often a wide move is halved that no part could make.
_HALVINGS = 6

# Differences of two figures that are rounding: as a share of them, and in their unit.
_LEAST = 1e-6
_ROUNDING = 1e-9


class NominalAnswers(Generic[A]):
    """Answers for setups as they are, to compare those for shifted setups with."""

    def __init__(
        self,
        setups: Sequence[attrs.AttrsInstance],
        as_it_is: A,
        at: Callable[..., A],
        questions: Sequence[Callable[[A], Any]],
    ) -> None:
        self._setups = setups
        self._nominal = as_it_is
        self._at = at
        self._questions = questions
        self._known: dict[int, dict[str, Any]] = {}

    @cached_property
    def _shifters(self) -> dict[int, FigureShifter[Any]]:
        """What moves the figures of each setup, by the setup's identity."""
        return {id(one): FigureShifter(one, read_places(one)) for one in distinct(self._setups)}

    def are_moved_by(self, figures: Sequence[HeldFigure]) -> bool:
        """Answer whether any of some figures changes any of the answers."""
        return bool(self._changed(figures, _SLIGHT, most=1)) or self._any(figures)

    def _any(self, figures: Sequence[HeldFigure]) -> bool:
        """Move figures widely; a single one no further than a part can be made."""
        if len(figures) == 1:
            return self._one(figures[0])
        for moves in (_WIDE, _SCALED):
            reported = {self._changed(figures, move) for move in moves}
            if True in reported or None not in reported:
                return True in reported
        middle = len(figures) // 2
        return any(map(self._any, (figures[:middle], figures[middle:])))

    def _one(self, figure: HeldFigure) -> bool:
        """Move a figure as far as it can be moved; one that cannot be moved at all counts."""
        reported = [self._at_furthest(figure, *shares) for shares in _SCALED]
        return True in reported or reported == [None, None]

    def _at_furthest(self, figure: HeldFigure, share: float) -> bool | None:
        for halvings in range(_HALVINGS):
            reported = self._changed([figure], (share / 2.0**halvings,))
            if reported is not None:
                return reported
        return None

    def _changed(
        self, figures: Sequence[HeldFigure], move: Sequence[float], *, most: int | None = None
    ) -> bool | None:
        """Tell whether a move of all figures changes an answer; none if it cannot be asked.

        Of the questions, no more than ``most`` are put.
        """
        shares = {_toleranced(one): move[index % len(move)] for index, one in enumerate(figures)}
        try:
            setups = {one: shifter.moved(shares) for one, shifter in self._shifters.items()}
            elsewhere = self._at(*(setups[id(setup)] for setup in self._setups))
            return any(
                _differs(self._as_it_is(number), dict(_results(question(elsewhere), "")))
                for number, question in enumerate(self._questions[:most])
            )
        except BarwrightError:
            return None

    def _as_it_is(self, number: int) -> dict[str, Any]:
        if number not in self._known:
            self._known[number] = dict(_results(self._questions[number](self._nominal), ""))
        return self._known[number]


def _toleranced(held: HeldFigure) -> TolerancedFigure:
    """Take a figure with what it can be moved by."""
    half_width = quantity_of_unit(_furthest(held), unit_spelling(held.value))
    return TolerancedFigure(figure=held.path, value=held.value, half_width=half_width, key=held.key)


def _furthest(held: HeldFigure) -> float:
    """How far a figure may lie elsewhere: an estimated one by its range, others by all of it."""
    value, known = held.value, held.known
    if known and known.tolerance is not None and known.source_kind is SourceKind.ESTIMATED:
        return float(known.tolerance.m_as(value.units))
    kind, _ = figure_fields(type(held.holder))[held.field]
    if kind is ANGLE:
        return float(quantity_of_unit(_WHOLE_ANGLE, "deg").m_as(value.units))
    return abs(float(value.magnitude)) or 1.0


def _results(value: Any, name: str) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - any answer
    """Walk an answer for everything in it, by the fields and places that lead to it."""
    if is_unknown(value):
        yield name, UNKNOWN
    elif is_quantity(value):
        yield f"{name} [{unit_spelling(value)}]", np.asarray(value.magnitude, dtype=np.float64)
    elif isinstance(value, tuple):
        yield f"{name}.count", len(value)
        for index, item in enumerate(value):
            yield from _results(item, f"{name}.{index}")
    elif isinstance(value, Mapping):
        for key, item in value.items():
            yield from _results(item, f"{name}.{key}")
    elif attrs.has(type(value)):
        for field in attrs.fields(type(value)):
            yield from _results(getattr(value, field.name), f"{name}.{field.name}")
    elif isinstance(value, float):
        yield name, np.asarray(value)
    else:
        yield name, value


def _differs(before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    return before.keys() != after.keys() or any(
        not _is_same(value, after[name]) for name, value in before.items()
    )


def _is_same(one: Any, other: Any) -> bool:  # noqa: ANN401 - anything that an answer holds
    if not isinstance(one, np.ndarray) or not isinstance(other, np.ndarray):
        return bool(one == other)
    return one.shape == other.shape and np.allclose(
        one, other, rtol=_LEAST, atol=_ROUNDING, equal_nan=True
    )


def distinct(setups: Iterable[T]) -> list[T]:
    """List setups, each once."""
    return list({id(setup): setup for setup in setups}.values())
