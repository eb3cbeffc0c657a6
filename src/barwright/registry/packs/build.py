"""Build records lazily, with the records that they refer to."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

import attrs

from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.complete import identified
from barwright.registry.packs.tables.families import Families, Listed
from barwright.registry.packs.tables.part_maker import PartMaker
from barwright.registry.packs.tables.sided import each_side

__all__ = ["RecordBuilder"]

_KEPT = 256

# What is asked for next lies in the same few files.
_KEPT_MAKERS = 32


class RecordBuilder:
    """Makes records of entries that were found good before, and keeps the latest.

    Parameters
    ----------
    entry : callable
        Returns the entry of a full id, or none.
    sources : callable
        Returns the sources that a pack lists, by the pack's id.
    version : callable, optional
        Returns the version of a pack, by its id; empty if it has none.
    finish : callable, optional
        Has the last word on each record.
    """

    def __init__(
        self,
        *,
        entry: Callable[[str], Entry | None],
        sources: Callable[[str], Sequence[Source]],
        version: Callable[[str], str] | None = None,
        finish: Callable[[Part], Part] | None = None,
    ) -> None:
        self._entry = entry
        self._sources = sources
        self._version = version or _none
        self._finish = finish or _as_it_is
        self._maker = functools.lru_cache(maxsize=_KEPT_MAKERS)(self._maker_of)
        self.part = functools.lru_cache(maxsize=_KEPT)(self._made)

    def _maker_of(self, pack: str, file: str) -> PartMaker:
        parts = {cls: _References(self.part, pack, kind) for kind, cls in KINDS.items()}
        return PartMaker(file=file, sources=self._sources(pack), pack=pack, parts=parts)

    def _made(self, full_id: str) -> Part | None:
        entry = self._entry(full_id)
        if entry is None:
            return None
        pack = full_id.partition(":")[0]
        maker = self._maker(pack, entry.file)
        families = Families(pack, _Entries(self._entry, pack))
        table = families.whole(entry.table, kind=entry.kind).table
        part = maker.made(table, KINDS[entry.kind], key=entry.key)
        version = self._version(pack)
        for side in each_side(part):
            identified(side, entry.id, replaced_by=entry.replaced_by, pack_version=version)
        return self._finish(part)


def _none(_: str) -> str:
    return ""


def _as_it_is(part: Part) -> Part:
    return part


@attrs.frozen
class _Entries:
    """Tables of one pack whose records were found good before."""

    entry: Callable[[str], Entry | None]
    pack: str

    def listed(self, kind: str, name: str) -> Listed | None:
        """Return a table; none if there is none."""
        entry = self.entry(f"{self.pack}:{kind}/{name}")
        return Listed(entry.file, entry.table) if entry else None

    def names(self, kind: str) -> Sequence[str]:  # noqa: ARG002 - as the protocol has it
        """No names: an entry that was found good needs no suggestion."""
        return ()


class _References(Mapping[str, Any]):
    """Records of one kind as a record of one pack may name them, made when they are asked for."""

    __slots__ = ("_kind", "_pack", "_part")

    def __init__(self, part: Callable[[str], Part | None], pack: str, kind: str) -> None:
        self._part = part
        self._pack = pack
        self._kind = kind

    def __getitem__(self, name: str) -> Part:
        """Return the record of a full id, or of one without the pack."""
        full_id = name if ":" in name else f"{self._pack}:{name}"
        is_of_kind = full_id.partition(":")[2].startswith(f"{self._kind}/")
        part = self._part(full_id) if is_of_kind else None
        if part is None:
            raise KeyError(name)
        return part

    def __iter__(self) -> Iterator[str]:
        """No names: an entry that was found good names what there is."""
        return iter(())

    def __len__(self) -> int:
        """Count of the names."""
        return 0
