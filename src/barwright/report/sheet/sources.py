"""Where the figures of a bench sheet come from, and which of them are estimated."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.tolerance.unmeasured import EstimatedFigure, UnmeasuredSource
from barwright.parts.common.record import Record
from barwright.parts.common.source import Figure, SourceKind
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import Job
from barwright.units import shown

__all__ = ["estimates", "estimates_noted", "packs_of", "sources_of"]

_MOST = 6


def sources_of(job: Job) -> tuple[str, ...]:
    """Name the sources of the parts' figures, each once.

    Parameters
    ----------
    job : Job
        The job.

    Returns
    -------
    tuple of str
        Each with how it came to its figures.
    """
    return tuple(sorted(f"{source} ({kind.value})" for source, kind in _kinds(job)))


def packs_of(setups: Iterable[Setup]) -> tuple[str, ...]:
    """Name the packs of some vehicles and their parts that have a version, each once.

    Parameters
    ----------
    setups : iterable of Setup
        Their corners.

    Returns
    -------
    tuple of str
        Pack and version, the vehicle's pack first.
    """
    parts = (part for setup in setups for part in (setup.chassis, *setup.parts.values()))
    named = (f"{p.id.partition(':')[0]} {p.pack_version}" for p in parts if p.pack_version)
    return tuple(dict.fromkeys(named))


def _kinds(job: Job) -> set[tuple[str, SourceKind]]:
    """Collect the sources of the parts' figures, old and new, with how each came to them."""
    records: list[Record] = []
    for corner in job.corners:
        records += [corner.setup.axle, *corner.setup.parts.values()]
        records += corner.present.parts.values()
    figures = [figure for record in records for figure in _figures(record)]
    return {(f.source, f.source_kind) for f in figures if f.source_kind}


def _figures(record: Record) -> Iterator[Figure]:
    """All that is known of a record's figures and of those of the records in it."""
    yield from record.about.values()
    for field in attrs.fields(type(record)):
        inner = getattr(record, field.name)
        if isinstance(inner, Record):
            yield from _figures(inner)


def estimates(unmeasured: Iterable[UnmeasuredSource]) -> tuple[str, ...]:
    """Name the estimated figures of some sources, each once, with its range.

    Parameters
    ----------
    unmeasured : iterable of UnmeasuredSource
        Those of all corners.

    Returns
    -------
    tuple of str
        One for each source, which stands behind its figures.
    """
    by_source: dict[str, dict[str, None]] = {}
    for one in unmeasured:
        for figure in one.figures:
            by_source.setdefault(one.source, {})[_in_words(figure)] = None
    return tuple(f"{_some(list(figures))} ({source})" for source, figures in by_source.items())


def _some(figures: Sequence[str]) -> str:
    """List the first figures of a source: an entry of the catalogue never has more."""
    more = len(figures) - _MOST
    return ", ".join(figures[:_MOST]) + (f" and {more} more" if more > 0 else "")


def _in_words(figure: EstimatedFigure) -> str:
    name = figure.figure.replace("_", " ").replace(".", " ")
    return f"{name} {shown(figure.value)} ± {shown(figure.tolerance)}"


def estimates_noted(unmeasured: Iterable[UnmeasuredSource]) -> Iterator[str]:
    """Say which estimated figures the work on all corners rests on, if any.

    Parameters
    ----------
    unmeasured : iterable of UnmeasuredSource
        In the units of the sheet.

    Yields
    ------
    str
    """
    named = estimates(unmeasured)
    if named:
        yield f"Estimated, and included in every ±: {', '.join(named)}"
