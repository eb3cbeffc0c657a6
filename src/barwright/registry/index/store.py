"""Records of packs in an index, made on request."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, TypeVar

import attrs

from barwright.errors import FileError
from barwright.first_use import FIRST_USE
from barwright.parts.claim import Claim
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.registry.files.snapshot import HEADER
from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.index.file import IndexFile, PackRow, open_index
from barwright.registry.packs.build import RecordBuilder
from barwright.registry.packs.claims import claim_of
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import PackHeader, PackInfo
from barwright.registry.packs.load import load_pack, standards
from barwright.registry.packs.search_terms import Condition, compact
from barwright.registry.packs.store import MemoryStore, Store
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["IndexStore", "IndexedPack", "SafeStore"]

T = TypeVar("T")


@attrs.frozen
class IndexedPack:
    """A pack that an index holds, and where it lies.

    Parameters
    ----------
    row : PackRow
        What the index says of it.
    folder : Path
        Where it was read from.
    origin : str
        Distribution and version, or the folder given.
    distribution_version : str
        Of the distribution; empty for a folder.
    hidden_versions : tuple of str
        Other versions of the distribution that are installed too and do not count.
    """

    row: PackRow
    folder: Path
    origin: str
    distribution_version: str
    hidden_versions: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """The pack's id."""
        return self.row.id

    @property
    def digest(self) -> str:
        """SHA-256 of its files."""
        return self.row.digest


class IndexStore:
    """Records of packs that stand in an index.

    Parameters
    ----------
    file : IndexFile
        The index, which may hold other packs too.
    packs : sequence of IndexedPack
        The standards, and then every pack that is kept, each with an id of its own.
    """

    def __init__(self, file: IndexFile, packs: Sequence[IndexedPack]) -> None:
        self._file = file
        self._order = packs
        self._packs = {pack.id: pack for pack in packs}
        self._id_of = {pack.row.number: pack.id for pack in packs}
        self._header = functools.cache(self._made_header)
        self._maker = RecordBuilder(entry=self.entry, sources=self._sources, version=self.version)
        self.part = self._maker.part

    @property
    def packs(self) -> tuple[PackInfo, ...]:
        """The packs, standards left out, in the order in which they were given."""
        return tuple(map(self._info, self._order[1:]))

    def header(self, pack: str) -> PackHeader | None:
        """Return what a pack says of itself, by its id; none if there is none."""
        return self._header(pack) if pack in self._packs else None

    def version(self, pack: str) -> str:
        """Return the version of a pack, by its id; empty if it has none."""
        own = self._packs.get(pack)
        return self._info(own).version if own else ""

    def numbered(self, number: str) -> Sequence[str]:
        """Return the full ids of all records with a part number, sorted."""
        return self._full(self._file.numbered(compact(number)))

    def numbers(self) -> Iterator[tuple[str, str, str]]:
        """List number system, compact number and full id of all records with numbers."""
        ids = self._id_of
        for system, number, pack, short in self._file.numbers():
            if pack in ids:
                yield system, number, f"{ids[pack]}:{short}"

    def entry(self, full_id: str) -> Entry | None:
        """Return a record as it stands in its file; none if there is none."""
        pack, _, short = full_id.partition(":")
        found = (
            self._file.entry(self._packs[pack].row.number, short) if pack in self._packs else None
        )
        if found is None:
            return None
        file, key, table, replaced_by = found
        return Entry(
            id=full_id,
            kind=short.partition("/")[0],
            file=file,
            key=key,
            table=table,
            replaced_by=tuple(replaced_by),
        )

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""
        return self._full(self._file.shorts(kind))

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""
        return self._full((pack, short) for pack in self._file.packs_with(short))

    def having(self, conditions: Sequence[Condition]) -> Sequence[str]:
        """Return the full ids of all vehicles that meet all conditions, sorted."""
        return self._full(self._file.having(conditions))

    def knows(self, condition: Condition) -> bool:
        """Tell whether any vehicle meets a condition."""
        some = self._file.having([condition], most=1)
        return bool(self._full(some)) or (bool(some) and bool(self.having([condition])))

    def words(self, attribute: str = "") -> Sequence[str]:
        """Return every word that a vehicle has, or has as one attribute, sorted."""
        return sorted(self._file.words(attribute, self._id_of.__contains__))

    def claims(self) -> Sequence[Claim]:
        """Return what all packs say their parts fit, by the packs' ids."""
        return [
            claim_of(row, pack=pack)
            for pack in sorted(self._packs)
            for row in self._file.claims(self._packs[pack].row.number)
        ]

    def _full(self, found: Iterable[tuple[int, str]]) -> list[str]:
        """Full ids of records of packs that are kept, by the packs' numbers and short ids."""
        ids = self._id_of
        return sorted(f"{ids[pack]}:{short}" for pack, short in found if pack in ids)

    def _info(self, pack: IndexedPack) -> PackInfo:
        return PackInfo(
            header=self._header(pack.id),
            folder=pack.folder,
            origin=pack.origin,
            distribution_version=pack.distribution_version,
            hidden_versions=pack.hidden_versions,
            digest=pack.digest,
            counts=self._file.counts(pack.row.number),
        )

    def _made_header(self, pack: str) -> PackHeader:
        table = self._file.header(self._packs[pack].row.number)
        return Structurer(file=HEADER).structure(table, PackHeader)

    def _sources(self, pack: str) -> Sequence[Source]:
        return self._header(pack).source


class SafeStore:
    """Records of packs that stand in an index, or in their folders if the index is damaged.

    Parameters
    ----------
    path : Path
        Where the index lies.
    digest : str
        SHA-256 of its bytes.
    packs : sequence of IndexedPack
        The standards, and then every pack that is kept.
    file : IndexFile, optional
        The index, if it is open.
    """

    def __init__(
        self,
        path: Path,
        digest: str,
        packs: Sequence[IndexedPack],
        file: IndexFile | None = None,
    ) -> None:
        self._made_of = path, digest, packs
        file = file or open_index(path, digest)
        self._store: Store = IndexStore(file, packs) if file else _from_folders(packs)

    def __reduce__(self) -> tuple[type[SafeStore], tuple[Any, ...]]:
        """Survive pickling: the index is opened again."""
        return SafeStore, self._made_of

    @property
    def packs(self) -> tuple[PackInfo, ...]:
        """The packs, standards left out, in the order in which they were given."""
        return self._ask(lambda store: store.packs)

    def header(self, pack: str) -> PackHeader | None:
        """Return what a pack says of itself, by its id; none if there is none."""
        return self._ask(lambda store: store.header(pack))

    def version(self, pack: str) -> str:
        """Return the version of a pack, by its id; empty if it has none."""
        return self._ask(lambda store: store.version(pack))

    def numbered(self, number: str) -> Sequence[str]:
        """Return the full ids of all records with a part number, sorted."""
        return self._ask(lambda store: store.numbered(number))

    def numbers(self) -> Iterator[tuple[str, str, str]]:
        """List number system, compact number and full id of all records with numbers."""
        return iter(self._ask(lambda store: list(store.numbers())))

    def entry(self, full_id: str) -> Entry | None:
        """Return a record as it stands in its file; none if there is none."""
        return self._ask(lambda store: store.entry(full_id))

    def part(self, full_id: str) -> Part | None:
        """Return a record by its full id; none if there is none."""
        return self._ask(lambda store: store.part(full_id))

    def ids(self, kind: str | None = None) -> Sequence[str]:
        """Return the full ids of all records, or of one kind, sorted."""
        return self._ask(lambda store: store.ids(kind))

    def full_ids(self, short: str) -> Sequence[str]:
        """Return the full ids of all records with one short id, sorted."""
        return self._ask(lambda store: store.full_ids(short))

    def having(self, conditions: Sequence[Condition]) -> Sequence[str]:
        """Return the full ids of all vehicles that meet all conditions, sorted."""
        return self._ask(lambda store: store.having(conditions))

    def knows(self, condition: Condition) -> bool:
        """Tell whether any vehicle meets a condition."""
        return self._ask(lambda store: store.knows(condition))

    def words(self, attribute: str = "") -> Sequence[str]:
        """Return every word that a vehicle has, or has as one attribute, sorted."""
        return self._ask(lambda store: store.words(attribute))

    def claims(self) -> Sequence[Claim]:
        """Return what all packs say their parts fit, by the packs' ids."""
        return self._ask(lambda store: store.claims())

    def _ask(self, question: Callable[[Store], T]) -> T:
        """Put a question to the index and, if that cannot be read any more, to the packs."""
        try:
            return question(self._store)
        except DamagedIndexError:
            with FIRST_USE:
                if isinstance(self._store, IndexStore):
                    self._store = _from_folders(self._made_of[2])
            return question(self._store)


def _from_folders(packs: Sequence[IndexedPack]) -> MemoryStore:
    """Load packs whole, each as it was when the index was written."""
    loaded = [
        load_pack(p.folder, origin=p.origin, version=p.distribution_version) for p in packs[1:]
    ]
    for pack, indexed in zip((standards(), *loaded), packs, strict=True):
        if pack.digest != indexed.digest:
            raise FileError(
                "F101",
                value="an index that was damaged after the pack changed",
                expected="the pack as it was when the registry was opened",
                remedy="open the registry again",
                file=indexed.origin,
            )
    return MemoryStore(standards(), loaded)
