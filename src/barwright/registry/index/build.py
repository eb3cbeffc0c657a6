"""Writing an index, pack by pack."""

from __future__ import annotations

import functools
import os
import sqlite3
from collections.abc import Collection, Iterable, Iterator, Mapping
from pathlib import Path

from barwright.errors import PackError
from barwright.parts.chassis import Chassis
from barwright.parts.common.record import Part
from barwright.registry.files.cache_files import APPLICATION, digest_of_file
from barwright.registry.index.file import TABLES, packed
from barwright.registry.packs.claims import row_of
from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.format.pack import Pack
from barwright.registry.packs.problems import tables_of
from barwright.registry.packs.search_terms import compact, months, terms

__all__ = ["IndexBuilder"]

# Pages enough to sort the words of 100,000 vehicles in memory; a file that is not whole
# is thrown away, so that nothing need be undone.
_PRAGMAS = (
    "cache_size = -16384",
    "journal_mode = OFF",
    "synchronous = OFF",
    "temp_store = MEMORY",
)

_COLUMNS = {"record": 3, "body": 2, "number": 3, "term": 3, "built": 3}


class IndexBuilder:
    """An index that is being written.

    Any method raises ``sqlite3.Error`` or ``OSError`` if the file cannot be written.

    Parameters
    ----------
    path : Path
        The file: empty, or an index to go on from.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        is_new = not path.stat().st_size
        self._connection = sqlite3.connect(path, isolation_level=None)
        for pragma in _PRAGMAS:
            self._connection.execute(f"PRAGMA {pragma}")
        if is_new:
            # Written at once, so that even a file that is not finished bears the mark.
            self._connection.executescript(f"PRAGMA application_id = {APPLICATION}; {TABLES}")
        self._connection.execute("BEGIN")
        self._number = functools.lru_cache(maxsize=10_000)(self._numbered)

    def digests(self) -> set[str]:
        """Packs that it holds, by their digests."""
        return {digest for (digest,) in self._connection.execute("SELECT digest FROM pack")}

    def drop(self, digests: Collection[str]) -> None:
        """Take packs out."""
        if not digests:
            return
        run = self._connection.execute
        run("CREATE TEMP TABLE gone_pack (number INTEGER PRIMARY KEY)")
        for digest in sorted(digests):
            run("INSERT INTO gone_pack SELECT number FROM pack WHERE digest = ?", (digest,))
        run(
            "CREATE TEMP TABLE gone AS SELECT number FROM record"
            " WHERE pack IN (SELECT number FROM gone_pack)"
        )
        for table in ("term", "number", "built", "body"):
            run(f"DELETE FROM {table} WHERE record IN (SELECT number FROM gone)")  # noqa: S608
        run("DELETE FROM record WHERE number IN (SELECT number FROM gone)")
        run("DELETE FROM pack WHERE number IN (SELECT number FROM gone_pack)")

    def add(self, digest: str, pack: Pack | PackError) -> None:
        """Put a pack in, or the problems for which it is left out.

        Parameters
        ----------
        digest : str
            Of the pack's files.
        pack : Pack or PackError
            What became of it.
        """
        if isinstance(pack, PackError):
            self._add_pack(digest, "", {}, {}, [], tables_of(pack))
            return
        claims = list(map(row_of, pack.claims))
        number = self._add_pack(digest, pack.id, pack.table, dict(pack.info.counts), claims, [])
        first = self._next_record()
        ids = dict(enumerate(sorted(pack.entries), start=first))
        entries = {record: pack.entries[full] for record, full in ids.items()}
        self._insert_all("record", ((r, number, one.short) for r, one in entries.items()))
        self._insert_all("body", ((r, _packed(one)) for r, one in entries.items()))
        parts = {record: pack.parts[full] for record, full in ids.items()}
        self._insert_all("number", sorted(_number_rows(parts)))
        vehicles = {r: part for r, part in parts.items() if isinstance(part, Chassis)}
        self._insert_all("term", sorted(self._term_rows(vehicles)))
        self._insert_all("built", _built_rows(vehicles))

    def finish(self) -> str:
        """Close the file and see it written; return the SHA-256 of its bytes."""
        self._connection.execute("COMMIT")
        self._connection.close()
        with self._path.open("rb+") as file:
            os.fsync(file.fileno())
        return digest_of_file(self._path)

    def close(self) -> None:
        """Close the file in any case."""
        self._connection.close()

    def _add_pack(self, digest: str, name: str, *held: object) -> int:
        """Put in a pack's header, counts, claims and problems."""
        return self._insert("pack", digest, name, *map(packed, held))

    def _next_record(self) -> int:
        """Return the least number above those of all records."""
        text = "SELECT COALESCE(MAX(number), 0) + 1 FROM record"
        return int(self._connection.execute(text).fetchone()[0])

    def _term_rows(self, vehicles: Mapping[int, Chassis]) -> Iterator[tuple[int, int, int]]:
        """Word, record and attribute of all that vehicles are found by."""
        for record, chassis in vehicles.items():
            for attribute, word in sorted(set(terms(chassis))):
                yield self._number("word", word), record, self._number("attribute", attribute)

    def _numbered(self, table: str, word: str) -> int:
        """Return the number of a word or an attribute, new or not."""
        found = self._connection.execute(
            f"SELECT number FROM {table} WHERE text = ?",  # noqa: S608 - one of two tables
            (word,),
        ).fetchone()
        return int(found[0]) if found else self._insert(table, word)

    def _insert(self, table: str, *values: object) -> int:
        marks = ", ?" * len(values)
        row = self._connection.execute(
            f"INSERT INTO {table} VALUES (NULL{marks})",  # noqa: S608 - a table of ours
            values,
        ).lastrowid
        return row or 0

    def _insert_all(self, table: str, rows: Iterable[tuple[object, ...]]) -> None:
        marks = ", ".join("?" * _COLUMNS[table])
        self._connection.executemany(
            f"INSERT INTO {table} VALUES ({marks})",  # noqa: S608 - a table of ours
            rows,
        )


def _number_rows(parts: Mapping[int, Part]) -> set[tuple[str, int, str]]:
    """Compact number, record and system of all part numbers."""
    return {
        (compact(one.number), record, one.number_system)
        for record, part in parts.items()
        for one in part.numbers
    }


def _built_rows(vehicles: Mapping[int, Chassis]) -> Iterator[tuple[int, int, int]]:
    """Record, first and last month of all vehicles that say when they were built."""
    for record, chassis in vehicles.items():
        built = months(chassis)
        if built is not None:
            yield record, *built


def _packed(entry: Entry) -> bytes:
    return packed([entry.file, entry.key, entry.table, entry.replaced_by])
