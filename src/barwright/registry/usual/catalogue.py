"""The catalogue of usual ranges, read as strictly as any pack."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import cast

import attrs

from barwright.parts.adjuster import Adjuster
from barwright.parts.chassis import Axle
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import Record
from barwright.parts.common.source import Figure, Source, SourceKind
from barwright.parts.damper import Damper, GasCharge
from barwright.parts.material import Material
from barwright.parts.spline import Socket
from barwright.registry.files.document import read_toml
from barwright.registry.packs.tables.structure import Structurer
from barwright.units import (
    KINDS,
    Kind,
    Quantity,
    WrittenFigure,
    is_unknown,
    quantity_of_unit,
    read_figure,
    si,
    unit_spelling,
)

__all__ = [
    "RANGES",
    "UsualError",
    "UsualRange",
    "is_usual",
    "usual_error_of",
    "usual_errors",
    "usual_ranges",
    "usual_source",
]

RANGES = Path(__file__).parents[2] / "usual" / "ranges.toml"
"""File of the catalogue."""

_SOURCE = "standards:usual/"

_HOLDERS: Mapping[str, type[Record]] = {
    "adjuster": Adjuster,
    "axle": Axle,
    "damper": Damper,
    "gas-charge": GasCharge,
    "material": Material,
    "socket": Socket,
}


@attrs.frozen(kw_only=True)
class _Proportion:
    """Figure of the same record that a range grows with, and its value where that is as written."""

    figure: str
    is_: str


@attrs.frozen(kw_only=True)
class _Range:
    """A range as the file has it."""

    id: str
    of: str
    figure: str
    is_: str
    in_proportion_to: _Proportion | None = None
    note: str


@attrs.frozen(kw_only=True)
class _Tool:
    """A tool as the file has it."""

    id: str
    title: str
    measures: str
    within: str
    note: str


@attrs.frozen(kw_only=True)
class _Catalogue:
    """The file."""

    range: tuple[_Range, ...]
    tool: tuple[_Tool, ...]


@attrs.frozen(kw_only=True, repr=False)
class UsualRange(Summarised):
    """Usual range of a figure.

    Parameters
    ----------
    source : Source
        Which entry of the catalogue it is, and what that rests on.
    holder : type
        Class of record that holds the figure.
    field : str
        Field of it.
    usual : Figure
        Its middle, and half of its width as the tolerance.
    base : str
        Field of the same record that the range grows with; empty if none.
    base_value : Quantity, optional
        Value of that figure at which the range is as given.
    """

    source: Source
    holder: type[Record]
    field: str
    usual: Figure
    base: str = ""
    base_value: Quantity | None = None

    def figure_of(self, record: Record) -> Figure | None:
        """Return the usual figure of a record; none if it does not have what that grows with.

        Parameters
        ----------
        record : Record
            Of the class that holds the figure.

        Returns
        -------
        Figure or None
        """
        times = self._times(record)
        if times is None:
            return None
        half = times * float(cast("Quantity", self.usual.tolerance).magnitude)
        # An estimate has no more digits than its range lets one believe.
        digits = 1 - math.floor(math.log10(half))
        middle, unit = float(self.usual.value.magnitude), unit_spelling(self.usual.value)
        return attrs.evolve(
            self.usual,
            value=quantity_of_unit(round(times * middle, digits), unit),
            tolerance=quantity_of_unit(round(half, digits), unit),
        )

    def _times(self, record: Record) -> float | None:
        if self.base_value is None:
            return 1.0
        kind, _ = figure_fields(self.holder)[self.base]
        value = getattr(record, self.base)
        return None if is_unknown(value) else si(value, kind) / si(self.base_value, kind)


@attrs.frozen(kw_only=True, repr=False)
class UsualError(Summarised):
    """Usual error of a measuring tool.

    Parameters
    ----------
    source : Source
        Which entry of the catalogue it is, and what that rests on.
    title : str
        Name of the tool, and where it is used.
    kind : Kind
        What it measures.
    within : Quantity
        How far a reading may be off, either way.
    """

    source: Source
    title: str
    kind: Kind
    within: Quantity


@functools.cache
def usual_ranges() -> tuple[UsualRange, ...]:
    """List the usual ranges that ship with the library.

    Returns
    -------
    tuple of UsualRange

    Examples
    --------
    >>> tyre = usual_ranges()[1]
    >>> tyre.source.id, f"{tyre.usual.value:~P} ± {tyre.usual.tolerance:~P}"
    ('standards:usual/tyre-rate', '210.0 N/mm ± 90.0 N/mm')
    """
    return tuple(map(_usual_range, _catalogue().range))


def usual_errors() -> tuple[UsualError, ...]:
    """List the usual errors of measuring tools.

    Returns
    -------
    tuple of UsualError

    Examples
    --------
    >>> [f"{one.title}: ± {one.within:~P}" for one in usual_errors()][0]
    'tape measure, on the vehicle: ± 2.0 mm'
    """
    return tuple(map(_usual_error, _catalogue().tool))


def usual_error_of(tool: str) -> UsualError:
    """Return the usual error of a measuring tool.

    Parameters
    ----------
    tool : str
        Its id in the catalogue.

    Returns
    -------
    UsualError

    Examples
    --------
    >>> f"{usual_error_of('calliper').within:~P}"
    '0.05 mm'
    """
    (found,) = (one for one in usual_errors() if one.source.id.endswith(f"/{tool}"))
    return found


def is_usual(source: str) -> bool:
    """Tell whether a figure's source is an entry of the catalogue.

    Parameters
    ----------
    source : str
        As the figure names it.

    Returns
    -------
    bool
    """
    return source.startswith(_SOURCE)


def usual_source(name: str) -> Source | None:
    """Return the entry of the catalogue that a figure names as its source.

    Parameters
    ----------
    name : str
        Like ``standards:usual/tyre-rate``.

    Returns
    -------
    Source or None
        None if there is no such entry.
    """
    if not is_usual(name):
        return None
    return next((source for source in _sources() if source.id == name), None)


def _sources() -> Iterator[Source]:
    """List the entries of the catalogue, each as the source of what is taken from it."""
    read = _catalogue()
    yield from map(_source, read.range)
    yield from map(_source, read.tool)


def _source(entry: _Range | _Tool) -> Source:
    return Source(id=_SOURCE + entry.id, kind=SourceKind.ESTIMATED, note=entry.note)


@functools.cache
def _catalogue() -> _Catalogue:
    return Structurer(file=RANGES.name).structure(read_toml(RANGES), _Catalogue)


def _usual_range(entry: _Range) -> UsualRange:
    holder, source, grows = _HOLDERS[entry.of], _source(entry), entry.in_proportion_to
    read = _read(holder, entry.figure, entry.is_)
    return UsualRange(
        source=source,
        holder=holder,
        field=entry.figure,
        usual=Figure(
            value=read.value,
            tolerance=read.tolerance,
            source=source.id,
            source_kind=source.kind,
        ),
        base=grows.figure if grows else "",
        base_value=_read(holder, grows.figure, grows.is_).value if grows else None,
    )


def _read(holder: type[Record], field: str, text: str) -> WrittenFigure:
    kind, allowed = figure_fields(holder)[field]
    return read_figure(text, kind, key=field, allowed=allowed)


def _usual_error(entry: _Tool) -> UsualError:
    kind = next(kind for kind in KINDS if kind.name == entry.measures)
    within = read_figure(entry.within, kind, key="within", allowed="positive").value
    return UsualError(source=_source(entry), title=entry.title, kind=kind, within=within)
