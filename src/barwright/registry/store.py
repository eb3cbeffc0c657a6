"""What a registry stands on: records by id, whichever way they are kept."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Protocol

from barwright.parts.source import Part
from barwright.registry.pack import Pack

__all__ = ["MemoryStore", "Store"]


class Store(Protocol):
    """Records of all packs that are kept, standards among them."""

    def part(self, full_id: str) -> Part | None:
        """Return a record by its full id; none if there is none."""

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""


class MemoryStore:
    """Records of packs that were loaded whole.

    Parameters
    ----------
    packs : iterable of Pack
        Each with an id of its own.
    """

    def __init__(self, packs: Iterable[Pack]) -> None:
        records = {full: part for pack in packs for full, part in pack.parts.items()}
        self._parts = dict(sorted(records.items()))
        self._by_kind: dict[str, list[str]] = defaultdict(list)
        self._by_short: dict[str, list[str]] = defaultdict(list)
        for full in self._parts:
            short = full.partition(":")[2]
            self._by_short[short].append(full)
            self._by_kind[short.partition("/")[0]].append(full)

    def part(self, full_id: str) -> Part | None:
        """Return a record by its full id; none if there is none."""
        return self._parts.get(full_id)

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""
        return list(self._parts) if kind is None else self._by_kind.get(kind, [])

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""
        return self._by_short.get(short, [])
