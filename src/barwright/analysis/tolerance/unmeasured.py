"""Unmeasured sources that affect an answer."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from typing import Any, TypeAlias, TypeVar, cast

import attrs

from barwright.analysis.tolerance.changed_answers import NominalAnswers, distinct
from barwright.analysis.tolerance.figures import (
    HeldFigure,
    held_figures,
)
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import CALLER, SourceKind
from barwright.parts.setup import Setup
from barwright.units import (
    Quantity,
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
    known: Collection[UnmeasuredSource] = (),
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
    known : collection of UnmeasuredSource
        Invented ones that count in any case, so that nothing is asked about them.

    Returns
    -------
    tuple of UnmeasuredSource
    """
    held = {one.key: one for setup in distinct(setups) for one in _own_figures(setup)}
    found = unmeasured_among(held.values())
    if not questions:
        return found
    answers = NominalAnswers(setups, as_it_is, at, questions)
    counts = {one for one in known if one.kind == INVENTED}
    moving = (one if one in counts else _as_moving(one, held.values(), answers) for one in found)
    return tuple(filter(None, moving))


def _as_moving(
    one: UnmeasuredSource, held: Iterable[HeldFigure], answers: NominalAnswers[Any]
) -> UnmeasuredSource | None:
    """Return a source with those of its figures that count; none if no figure does."""
    figures = _figures_of(one.source, held)
    if one.kind == INVENTED:
        return one if answers.are_moved_by(figures) else None
    if one.kind != ESTIMATED:
        return one
    moving = [figure for figure in figures if answers.are_moved_by([figure])]
    return attrs.evolve(one, figures=tuple(map(_estimated, moving))) if moving else None


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


def _own_figures(setup: attrs.AttrsInstance) -> list[HeldFigure]:
    """List the figures of a setup that are the corner's own."""
    # What a reading holds too is at its first place, which may be another corner's.
    has_reading = getattr(setup, "reading", None) is not None
    return _own(held_figures(setup, where=None if has_reading else _is_not_of_others))


def _is_not_of_others(path: str) -> bool:
    return f"{path}." not in _OTHERS


def _own(held: Iterable[HeldFigure]) -> list[HeldFigure]:
    """Keep what is the corner's own."""
    return [one for one in held if not one.path.startswith(_OTHERS)]


def is_left_out(held: HeldFigure) -> bool:
    """Answer whether a figure counts because its record leaves it out."""
    known = held.known
    field = attrs.fields_dict(type(held.holder))[held.field]
    default: Any = field.default
    if (known is not None and known.key) or default in (attrs.NOTHING, None):
        return False
    if isinstance(default, attrs.Factory):  # type: ignore[arg-type] # it is a class
        default = default.factory(held.holder)
    convert: Any = field.converter
    return bool(convert(default) == held.value)


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
