"""Unmeasured sources that affect an answer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Generic, TypeAlias, TypeVar, cast

import attrs
import numpy as np

from barwright.analysis.tolerance.figures import (
    FigureShifter,
    HeldFigure,
    TolerancedFigure,
    figure_places,
    held_figures,
)
from barwright.errors import BarwrightError
from barwright.first_use import cached_property
from barwright.parts.arguments import checks_arguments
from barwright.parts.fields import figure_fields
from barwright.parts.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.parts.source import CALLER, SourceKind
from barwright.units import (
    ANGLE,
    UNKNOWN,
    Quantity,
    is_quantity,
    is_unknown,
    quantity_of_unit,
    unit_spelling,
)

__all__ = [
    "ESTIMATED",
    "INVENTED",
    "UNSOURCED",
    "EstimatedFigure",
    "Question",
    "UnmeasuredSource",
    "is_left_out",
    "is_of_part",
    "rests_on",
    "sources_moving",
    "unmeasured_among",
]

A = TypeVar("A")
T = TypeVar("T")

Question: TypeAlias = Callable[..., Any]
"""From one or more setups to an answer."""

INVENTED = SourceKind.INVENTED.value
"""Kind of source that forbids work: no vehicle has such a figure."""

UNSOURCED = "unsourced"
"""Kind of source of a figure that a part has without any source."""

ESTIMATED = SourceKind.ESTIMATED.value
"""Kind of source whose figures are known within ranges, which every ± carries."""

_DOUBTED = (SourceKind.INVENTED, SourceKind.ESTIMATED, SourceKind.RECALLED)

# What only other corners and the vehicle as a whole hold.
_OTHERS = ("chassis.", "axle.left.", "axle.right.")


@attrs.frozen(kw_only=True, repr=False)
class EstimatedFigure(Summarised):
    """A figure known only within a range.

    Parameters
    ----------
    figure : str
        Its name, by the fields of the setup that lead to it.
    value : Quantity
        Middle of the range.
    tolerance : Quantity
        Half of its width.
    """

    figure: str
    value: Quantity
    tolerance: Quantity


@attrs.frozen(kw_only=True, repr=False)
class UnmeasuredSource(Summarised):
    """A source of an answer that is neither measured nor published.

    Parameters
    ----------
    kind : str
        ``invented``, ``estimated``, ``recalled`` or ``unsourced``.
    source : str
        ``pack:source``; where there is none, the figure.
    figures : tuple of EstimatedFigure
        Of an estimated source, its figures, or those that move the answer; of others none.
    """

    kind: str
    source: str
    figures: tuple[EstimatedFigure, ...] = attrs.field(default=(), hash=False)


@checks_arguments
def rests_on(*setups: Setup, questions: Sequence[Question] = ()) -> tuple[UnmeasuredSource, ...]:
    """List the sources that are neither measured nor published.

    Parameters
    ----------
    *setups : Setup
        The corner, or several that one answer is about.
    questions : sequence of callable
        From the setups to an answer, the quickest first.  An invented source then counts only
        if its figures move one of the answers: a little, or as far as they can lie elsewhere,
        since an invented figure may lie anywhere.  So does an estimated one, within the
        ranges of its figures.  All others count always.

    Returns
    -------
    tuple of UnmeasuredSource
        Invented ones first, then estimated ones, recalled ones, and figures without any
        source.

    Raises
    ------
    BarwrightError
        Whatever a question raises for the setups as they are.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> rests_on(setup)
    (<UnmeasuredSource: kind invented, source fells:drawing-board>,)
    >>> rests_on(setup, questions=[lambda corner: corner.bar.material])
    ()
    """
    put = [lambda moved, question=question: question(*moved) for question in questions]
    return sources_moving(setups, setups, at=lambda *moved: moved, questions=put)


def sources_moving(
    setups: Sequence[attrs.AttrsInstance],
    as_it_is: A,
    *,
    at: Callable[..., A],
    questions: Sequence[Callable[[A], Any]],
) -> tuple[UnmeasuredSource, ...]:
    """List the sources as :func:`rests_on` does, for questions about what setups come to.

    Parameters
    ----------
    setups : sequence of Setup or other holder of records
        The corner, or several; or parts of none.
    as_it_is : object
        What they come to as they are.
    at : callable
        What they come to with figures elsewhere, from the setups: made once for all questions.
    questions : sequence of callable
        From that to an answer, the quickest first.

    Returns
    -------
    tuple of UnmeasuredSource
    """
    held = {one.key: one for setup in _distinct(setups) for one in _own(held_figures(setup))}
    found = unmeasured_among(held.values())
    if not questions:
        return found
    answers = _Answers(setups, as_it_is, at, questions)
    return tuple(filter(None, (_as_moving(one, held.values(), answers) for one in found)))


def _as_moving(
    one: UnmeasuredSource, held: Iterable[HeldFigure], answers: _Answers[Any]
) -> UnmeasuredSource | None:
    """Return a source with those of its figures that count; none if no figure does."""
    figures = _figures_of(one.source, held)
    if one.kind == INVENTED:
        return one if answers.are_moved_by(figures) else None
    if one.kind != ESTIMATED:
        return one
    moving = [figure for figure in figures if answers.are_moved_by([figure])]
    return attrs.evolve(one, figures=tuple(map(_estimated, moving))) if moving else None


def _distinct(setups: Iterable[T]) -> list[T]:
    """Drop a setup that has come before."""
    return list({id(setup): setup for setup in setups}.values())


def unmeasured_among(held: Iterable[HeldFigure]) -> tuple[UnmeasuredSource, ...]:
    """List the unmeasured sources of some figures.

    Parameters
    ----------
    held : iterable of HeldFigure
        The figures; those that only other corners hold are passed over.

    Returns
    -------
    tuple of UnmeasuredSource
        In the order of :func:`rests_on`.
    """
    own = _own(held)
    known = sorted((one.known for one in own if one.known), key=lambda figure: figure.source)
    named = {
        (kind.value, figure.source): None
        for kind in _DOUBTED
        for figure in known
        if figure.source_kind is kind
    }
    unsourced = {(UNSOURCED, one.path): None for one in own if _is_unsourced(one)}
    return tuple(
        UnmeasuredSource(
            kind=kind,
            source=name,
            figures=tuple(map(_estimated, _figures_of(name, own))) if kind == ESTIMATED else (),
        )
        for kind, name in (named | unsourced)
    )


def _estimated(held: HeldFigure) -> EstimatedFigure:
    # An estimated figure has a tolerance, or it would not have been read.
    half_width = cast("Quantity", held.tolerance)
    return EstimatedFigure(figure=held.path, value=held.value, tolerance=half_width)


def _own(held: Iterable[HeldFigure]) -> list[HeldFigure]:
    """Keep what is the corner's own."""
    return [one for one in held if not one.path.startswith(_OTHERS)]


def is_left_out(held: HeldFigure) -> bool:
    """Answer whether a figure counts because its record leaves it out."""
    known = held.known
    field = attrs.fields_dict(type(held.holder))[held.field]
    if (known is not None and known.key) or field.default in (attrs.NOTHING, None):
        return False
    convert: Any = field.converter
    return bool(convert(field.default) == held.value)


def is_of_part(held: HeldFigure) -> bool:
    """Answer whether a figure is of a part, and not of the setup itself."""
    return ":" in str(held.key[0])


def _is_unsourced(held: HeldFigure) -> bool:
    """Answer whether a part states a figure without a source."""
    known = held.known
    is_of_nobody = known is not None and known.source == CALLER
    return is_of_nobody and is_of_part(held) and not is_left_out(held)


def _figures_of(source: str, held: Iterable[HeldFigure]) -> list[HeldFigure]:
    """Keep the figures of a source."""
    return [one for one in held if one.known and one.known.source == source]


# -- Which figures move an answer ----------------------------------------------------
#
# All figures of a source are moved at once, since one that moves an answer is enough; only
# where no part can be made so are they moved by halves.  A slight move of most sources shows
# in the quickest answer.  What only decides between two ways, like a stop that another stop
# hides, shows in a wide move alone.

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


class _Answers(Generic[A]):
    """Answers for setups as they are, to compare others with."""

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
        return {id(one): FigureShifter(one, figure_places(one)) for one in _distinct(self._setups)}

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
