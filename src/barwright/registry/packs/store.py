"""What a registry stands on: records by id, whichever way they are kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Protocol

import attrs

from barwright.computed_once import cached_property
from barwright.parts.chassis import Chassis
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import Pack, PackHeader, PackInfo
from barwright.registry.packs.search_terms import Condition, Months, compact, months, terms

__all__ = ["MemoryStore", "Store"]


class Store(Protocol):
    """Records of all packs that are kept, standards among them."""

    @property
    def packs(self) -> tuple[PackInfo, ...]:
        """The packs, standards left out, in the order in which they were given."""

    def header(self, pack: str) -> PackHeader | None:
        """Return what a pack says of itself, by its id; none if there is none."""

    def version(self, pack: str) -> str:
        """Return the version of a pack, by its id; empty if it has none."""

    def numbered(self, number: str) -> Sequence[str]:
        """Return the full ids of all records with a part number, sorted.

        Spaces, hyphens and capitals make no difference.
        """

    def numbers(self) -> Iterator[tuple[str, str, str]]:
        """List number system, compact number and full id of all records with numbers."""

    def entry(self, full_id: str) -> Entry | None:
        """Return a record as it stands in its file; none if there is none."""

    def part(self, full_id: str) -> Part | None:
        """Return a record by its full id; none if there is none."""

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""

    def having(self, conditions: Sequence[Condition]) -> Sequence[str]:
        """Return the full ids of all vehicles that meet all conditions, sorted."""

    def knows(self, condition: Condition) -> bool:
        """Tell whether any vehicle meets a condition."""

    def words(self, attribute: str = "") -> Sequence[str]:
        """Return every word that a vehicle has, or has as one attribute, sorted."""

    def claims(self) -> Sequence[Claim]:
        """Return what all packs say their parts fit, by the packs' ids."""


class MemoryStore:
    """Records of packs that were loaded whole.

    Parameters
    ----------
    standards : Pack
        The pack that ships with the library.
    packs : iterable of Pack
        The others, each with an id of its own.
    """

    def __init__(self, standards: Pack, packs: Iterable[Pack] = ()) -> None:
        others = tuple(packs)
        self._packs = {pack.id: pack for pack in (standards, *others)}
        self.packs = tuple(pack.info for pack in others)
        records = {full: part for p in self._packs.values() for full, part in p.parts.items()}
        self._parts = dict(sorted(records.items()))
        self._by_kind: dict[str, list[str]] = defaultdict(list)
        self._by_short: dict[str, list[str]] = defaultdict(list)
        for full in self._parts:
            short = full.partition(":")[2]
            self._by_short[short].append(full)
            self._by_kind[short.partition("/")[0]].append(full)

    def header(self, pack: str) -> PackHeader | None:
        """Return what a pack says of itself, by its id; none if there is none."""
        return self._packs[pack].header if pack in self._packs else None

    def version(self, pack: str) -> str:
        """Return the version of a pack, by its id; empty if it has none."""
        return self._packs[pack].version if pack in self._packs else ""

    def numbered(self, number: str) -> Sequence[str]:
        """Return the full ids of all records with a part number, sorted."""
        return sorted(self._by_number.get(compact(number), ()))

    def numbers(self) -> Iterator[tuple[str, str, str]]:
        """List number system, compact number and full id of all records with numbers."""
        for full, part in self._parts.items():
            for one in part.numbers:
                yield one.number_system, compact(one.number), full

    def entry(self, full_id: str) -> Entry | None:
        """Return a record as it stands in its file; none if there is none."""
        pack = self._packs.get(full_id.partition(":")[0])
        return pack.entries.get(full_id) if pack else None

    def part(self, full_id: str) -> Part | None:
        """Return a record by its full id; none if there is none."""
        return self._parts.get(full_id)

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""
        return list(self._parts) if kind is None else self._by_kind.get(kind, [])

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""
        return self._by_short.get(short, [])

    def having(self, conditions: Sequence[Condition]) -> Sequence[str]:
        """Return the full ids of all vehicles that meet all conditions, sorted."""
        return [v.id for v in self._findable if all(map(v.meets, conditions))]

    def knows(self, condition: Condition) -> bool:
        """Tell whether any vehicle meets a condition."""
        return any(vehicle.meets(condition) for vehicle in self._findable)

    def words(self, attribute: str = "") -> Sequence[str]:
        """Return every word that a vehicle has, or has as one attribute, sorted."""
        found = {term for vehicle in self._findable for term in vehicle.terms}
        return sorted({word for holder, word in found if attribute in ("", holder)})

    def claims(self) -> Sequence[Claim]:
        """Return what all packs say their parts fit, by the packs' ids."""
        return [claim for pack in sorted(self._packs) for claim in self._packs[pack].claims]

    @cached_property
    def _by_number(self) -> Mapping[str, set[str]]:
        found: dict[str, set[str]] = defaultdict(set)
        for _, number, full in self.numbers():
            found[number].add(full)
        return found

    @cached_property
    def _findable(self) -> tuple[_Findable, ...]:
        parts = map(self._parts.__getitem__, self._by_kind.get("chassis", []))
        return tuple(_Findable.of(part) for part in parts if isinstance(part, Chassis))


@attrs.frozen
class _Findable:
    """What one vehicle can be found by."""

    id: str
    terms: frozenset[tuple[str, str]]
    words: frozenset[str]
    months: Months | None

    @classmethod
    def of(cls, vehicle: Chassis) -> _Findable:
        """List the words and months of a vehicle."""
        found = frozenset(terms(vehicle))
        return cls(vehicle.id, found, frozenset(word for _, word in found), months(vehicle))

    def meets(self, condition: Condition) -> bool:
        """Tell whether the vehicle meets a condition."""
        return self._has_word(condition) or self._was_built(condition.months)

    def _has_word(self, condition: Condition) -> bool:
        if condition.attribute:
            return (condition.attribute, condition.word) in self.terms
        return condition.word in self.words

    def _was_built(self, wanted: Months | None) -> bool:
        if wanted is None or self.months is None:
            return False
        return self.months[0] <= wanted[1] and wanted[0] <= self.months[1]
