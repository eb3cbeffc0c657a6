"""Source of a figure, and what is known of it besides its value."""

from __future__ import annotations

import enum
from collections.abc import ItemsView, Iterator, Mapping
from typing import Any, NamedTuple, Self, cast

import attrs

from barwright.errors import QuantityError
from barwright.parts.common.facts import as_stated
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, WrittenFigure, shown

__all__ = ["CALLER", "JOB", "JOB_SOURCES", "About", "Fact", "Figure", "Source", "SourceKind"]

CALLER = "caller"
"""Source of a figure that no pack states: the program that made the record."""


class SourceKind(enum.Enum):
    """How a source obtained its figures.

    What is recalled was published, but is quoted from memory and not read again.  What is
    estimated is known within a range, and each of its figures states that range.
    """

    MEASURED = "measured"
    PUBLISHED = "published"
    MAKER = "maker"
    INVENTED = "invented"
    RECALLED = "recalled"
    ESTIMATED = "estimated"


@attrs.frozen(kw_only=True, repr=False)
class Source(Summarised):
    """A document, a measurement or a stated invention that gives figures.

    Parameters
    ----------
    id : str
        Name within its pack.
    kind : SourceKind
        How the source obtained its figures.
    note : str
        Title, edition and whatever else is needed to find it again.
    """

    id: str
    kind: SourceKind
    note: str


JOB = "job"
"""Stands for the pack in the ids and sources of parts that a job file describes itself."""

JOB_SOURCES = tuple(
    Source(
        id=kind.value,
        kind=kind,
        note="measured on this vehicle" if kind is SourceKind.MEASURED else "stated by the job",
    )
    for kind in SourceKind
)
"""What a job file may name as the source of such a part's figures."""


@attrs.frozen(kw_only=True, repr=False)
class Figure(Summarised):
    """What is known of one figure besides its nominal value.

    Parameters
    ----------
    value : Quantity
        The value that this speaks of.
    tolerance : Quantity, optional
        Half width of the interval it lies in; an estimated figure has one.
    written : str
        What the file says, where value and tolerance do not say the same: limits, a share, or
        a single limit, which leaves the tolerance unknown.
    source : str
        ``pack:source``, or :data:`CALLER`.
    source_kind : SourceKind, optional
        How that source came to its figures.
    at : str
        Place in the source.
    file : str
        File that it was read from.
    key : str
        Record and field within that file.
    replaces : Figure, optional
        What a pack says, where an overlay corrects it.
    why : str
        Why it was corrected.

    Raises
    ------
    QuantityError
        Q304 for an estimated figure without a tolerance.
    """

    value: Quantity
    tolerance: Quantity | None = None
    written: str = ""
    source: str = CALLER
    source_kind: SourceKind | None = None
    at: str = ""
    file: str = ""
    key: str = ""
    replaces: Figure | None = None
    why: str = ""

    def __attrs_post_init__(self) -> None:
        """Refuse an estimate that does not say how far off it may be."""
        if self.source_kind is SourceKind.ESTIMATED and self.tolerance is None:
            raise QuantityError(
                "Q304",
                value=shown(self.value),
                expected="an estimated figure with its range, as a tolerance",
                remedy="write the middle of its range and half its width, like '290 mm ± 10 "
                "mm', or measure it and name that source",
            )


@attrs.frozen(kw_only=True, repr=False)
class Fact(Figure):
    """What is known of a field that is no quantity: a count, a word, a list, a direction.

    Its parameters are those of a :class:`Figure`; it has no tolerance.

    Parameters
    ----------
    value : int, float, str, bool or tuple of these
        What a file says; ``unknown`` where its source was searched in vain.
    """

    value: Any


@attrs.frozen
class Origin:
    """Where the figures and facts of a table of a file come from.

    Parameters
    ----------
    source : str
        ``pack:source``.
    source_kind : SourceKind
        How that source came to its figures.
    at : str
        Place in the source.
    file : str
        File that the table stands in.
    record : str
        Id of its record within its kind.
    """

    source: str
    source_kind: SourceKind
    at: str
    file: str
    record: str


class Told(NamedTuple):
    """What a table tells of a field, of which a figure or a fact is made when it is asked for.

    Parameters
    ----------
    cls : type
        Figure or Fact.
    value : WrittenFigure or object
        The reading, or the fact.
    origin : Origin
        Where it comes from.
    """

    cls: type[Figure]
    value: Any
    origin: Origin


class About(Mapping[str, Figure]):
    """What is known of each figure and fact of a record: immutable, by field name.

    Parameters
    ----------
    figures : mapping of str to Figure
        Copied.
    """

    __slots__ = ("_figures", "_is_made", "_origin")

    def __init__(self, figures: Mapping[str, Figure] | None = None) -> None:
        self._figures: dict[str, Figure | WrittenFigure | Told] = dict(figures or {})
        self._origin: Origin | None = None
        self._is_made = True

    @classmethod
    def told(cls, told: dict[str, Figure | WrittenFigure | Told], origin: Origin) -> Self:
        """Make it of what a table tells; what nobody asks for is never made.

        Parameters
        ----------
        told : dict
            Figures by field, kept; facts and what comes from elsewhere with where that is.
        origin : Origin
            Where all others come from.

        Returns
        -------
        About
        """
        about = cls()
        about._figures = told
        about._origin = origin
        about._is_made = False
        return about

    def __getitem__(self, field: str) -> Figure:
        """Return what is known of one field."""
        held = self._figures[field]
        if isinstance(held, Figure):
            return held
        own = cast("Origin", self._origin)
        told = Told(Figure, held, own) if isinstance(held, WrittenFigure) else held
        self._figures[field] = made = _figure_told(field, told)
        return made

    def __iter__(self) -> Iterator[str]:
        """Field names."""
        return iter(self._figures)

    def __len__(self) -> int:
        """Count of fields."""
        return len(self._figures)

    def items(self) -> ItemsView[str, Figure]:
        """Fields with what is known of them, in the dictionary's own time."""
        if not self._is_made:
            for field in self._figures:
                self[field]
            self._is_made = True
        return cast("dict[str, Figure]", self._figures).items()

    def __repr__(self) -> str:
        """Field names, for debugging."""
        return f"About({', '.join(self)})"


def _figure_told(field: str, told: Told) -> Figure:
    read = WrittenFigure(as_stated(told.value)) if told.cls is Fact else told.value
    origin = told.origin
    return told.cls(
        value=read.value,
        tolerance=read.tolerance,
        written=read.written,
        source=origin.source,
        source_kind=origin.source_kind,
        at=origin.at,
        file=origin.file,
        key=f"{origin.record}.{field}".strip("."),
    )
