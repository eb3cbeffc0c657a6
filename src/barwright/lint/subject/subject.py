"""A pack or an overlay as rules look at it."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterator, Mapping
from typing import Any, TypeAlias, TypeVar

import attrs

from barwright.computed_once import cached_property
from barwright.lint.finding import LintFinding
from barwright.lint.subject.other_packs import NO_OTHERS, OtherPacks
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.stated import (
    StatedCheck,
    StatedCorrection,
    StatedFigure,
    StatedPreference,
    StatedWaiver,
)
from barwright.parts.chassis import Chassis
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import CALLER, Source
from barwright.registry.files.snapshot import HEADER
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import SCHEMA, Pack
from barwright.units import is_unknown

__all__ = ["Progress", "Subject"]

T = TypeVar("T")

_RIGHT = ".right"
"""Follows what is said of the right corners alone."""

Progress: TypeAlias = Callable[[int, int], None]
"""Called with how many are done, and how many there are."""


def _untold(done: int, length: int) -> None:
    """Tell nobody."""


@attrs.frozen(kw_only=True, eq=False, slots=False)
class Subject:
    """A pack or an overlay, read once, for all rules.

    Parameters
    ----------
    pack : Pack
        With the records that are good.
    tables : mapping
        What each file holds, by its name.
    is_whole : bool
        Whether all of it could be loaded.
    written_for : int
        Version of the format that it says it is written for.
    others : OtherPacks
        The packs beside it.
    checks : tuple of StatedCheck
        Those of its files that can be computed.
    unchecked : tuple of pair
        Place of each check that rests on a pack that is not there, and why.
    waivers : tuple of StatedWaiver
        Those of its files.
    corrections : tuple of StatedCorrection
        Those of an overlay that fit their records.
    preferences : tuple of StatedPreference
        Those of an overlay.
    below : container of str
        Ids of the records that an overlay lies on.
    waivable : tuple of str
        Names of the rules whose findings can be waived.
    findings : tuple of LintFinding
        What those rules found, once they were asked.
    progress : callable
        Told how many axles a rule has looked at, and of how many.
    """

    pack: Pack
    tables: Mapping[str, Mapping[str, Any]]
    is_whole: bool
    written_for: int = SCHEMA
    others: OtherPacks = NO_OTHERS
    checks: tuple[StatedCheck, ...] = ()
    unchecked: tuple[tuple[PackPlace, str], ...] = ()
    waivers: tuple[StatedWaiver, ...] = ()
    corrections: tuple[StatedCorrection, ...] = ()
    preferences: tuple[StatedPreference, ...] = ()
    below: Container[str] = frozenset()
    waivable: tuple[str, ...] = ()
    findings: tuple[LintFinding, ...] = ()
    progress: Progress = _untold

    @cached_property
    def sources(self) -> tuple[tuple[PackPlace, Source], ...]:
        """The sources that the pack lists, each with its place."""
        listed = enumerate(self.pack.header.source)
        return tuple((PackPlace(f"source/{s.id}", HEADER, f"source[{i}]"), s) for i, s in listed)

    @cached_property
    def records(self) -> tuple[tuple[PackPlace, Part], ...]:
        """Its records, each with its place."""
        places = (PackPlace(entry.short, entry.file, entry.key) for entry in self._entries)
        parts = (self.pack.parts[entry.id] for entry in self._entries)
        return tuple(zip(places, parts, strict=True))

    @property
    def _entries(self) -> tuple[Entry, ...]:
        return tuple(self.pack.entries.values())

    def records_of(self, cls: type[T]) -> Iterator[tuple[PackPlace, T]]:
        """Its records of one kind."""
        return ((place, part) for place, part in self.records if isinstance(part, cls))

    @cached_property
    def pieces(self) -> tuple[tuple[PackPlace, Record], ...]:
        """Its records and what they are made of: ends, sockets, axles, mountings."""
        return tuple(piece for place, part in self.records for piece in _of_both(place, part))

    @cached_property
    def gaps(self) -> Mapping[str, tuple[str, ...]]:
        """What is not known of each record that has gaps, by its id: fields, counts too."""
        found = ((part.id, tuple(_unknown(place, part))) for place, part in self.records)
        return {part: names for part, names in found if names}

    @cached_property
    def figures(self) -> tuple[StatedFigure, ...]:
        """Every figure that its files state; those that hold if none is stated are left out."""
        return tuple(stated for stated in self._stated if not stated.is_fact)

    @cached_property
    def facts(self) -> tuple[StatedFigure, ...]:
        """Every count, word, list and direction that its files state, with its source."""
        return tuple(stated for stated in self._stated if stated.is_fact)

    @cached_property
    def _stated(self) -> tuple[StatedFigure, ...]:
        own = (
            StatedFigure(place.within(name), record, name, about)
            for place, record in self.pieces
            for name, about in record.about.items()
            if about.source != CALLER
        )
        return (*own, *self.corrections)


def _of_both(place: PackPlace, part: Part) -> Iterator[tuple[PackPlace, Record]]:
    """List the pieces of a record, of a vehicle those of its right corners too."""
    yield from _pieces(place, part)
    if isinstance(part, Chassis) and part.right_side is not None:
        for within, piece in _pieces(place, part.right_side):
            yield attrs.evolve(within, side=_RIGHT), piece


def _pieces(place: PackPlace, record: Record) -> Iterator[tuple[PackPlace, Record]]:
    """List a record and all within it; other records that it refers to stand elsewhere."""
    yield place, record
    for field in attrs.fields(type(record)):
        value = getattr(record, field.name)
        if isinstance(value, Record) and not isinstance(value, Part):
            yield from _pieces(place.within(field.name), value)
        elif isinstance(value, tuple):
            for index, item in enumerate(value):
                if isinstance(item, Record):
                    yield from _pieces(place.within(f"{field.name}[{index}]"), item)


def _unknown(place: PackPlace, part: Part) -> Iterator[str]:
    """List what is not known of a record, by its path within the record."""
    found = [
        within.within(field.name).of.removeprefix(f"{place.of}.")
        for within, piece in _of_both(place, part)
        for field in attrs.fields(type(piece))
        if is_unknown(getattr(piece, field.name))
    ]
    # What is known of neither side is said once.
    yield from (one for one in found if not (one.endswith(_RIGHT) and one[: -len(_RIGHT)] in found))
