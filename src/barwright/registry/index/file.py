"""An index in a file: the records of many packs, of which any one is read alone.

An index is written once and never changed.  Its name is the digest of its bytes, so
that one in which anything was changed is not taken for one.
"""

from __future__ import annotations

import datetime as dt
import json
import os
import sqlite3
import threading
import time
import weakref
import zlib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import attrs

from barwright.registry.files.cache_files import digest_of_file, opened
from barwright.registry.files.snapshot import TICK
from barwright.registry.files.user_cache import DamagedIndexError
from barwright.registry.index.queries import counting, searching
from barwright.registry.packs.search_terms import Condition

__all__ = [
    "FORMAT",
    "TABLES",
    "IndexFile",
    "PackRow",
    "open_index",
    "packed",
    "unpacked",
]

FORMAT = 5
"""Version of the tables."""

TABLES = """
CREATE TABLE pack (
    number INTEGER PRIMARY KEY, digest TEXT NOT NULL UNIQUE, id TEXT NOT NULL,
    header BLOB NOT NULL, counts BLOB NOT NULL, claims BLOB NOT NULL, problems BLOB NOT NULL
);
CREATE TABLE record (
    number INTEGER PRIMARY KEY, pack INTEGER NOT NULL, short TEXT NOT NULL
);
CREATE UNIQUE INDEX record_by_short ON record (short, pack);
CREATE TABLE body (record INTEGER PRIMARY KEY, entry BLOB NOT NULL);
CREATE TABLE number (
    text TEXT NOT NULL, record INTEGER NOT NULL, system TEXT NOT NULL,
    PRIMARY KEY (text, record, system)
) WITHOUT ROWID;
CREATE TABLE built (record INTEGER PRIMARY KEY, first INTEGER NOT NULL, last INTEGER NOT NULL);
CREATE TABLE word (number INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE);
CREATE TABLE attribute (number INTEGER PRIMARY KEY, text TEXT NOT NULL UNIQUE);
CREATE TABLE term (
    word INTEGER NOT NULL, record INTEGER NOT NULL, attribute INTEGER NOT NULL,
    PRIMARY KEY (word, record, attribute)
) WITHOUT ROWID;
"""
"""Each chassis has its words in ``term``, under the attributes that hold them; each record its
part numbers in ``number``, as :func:`~barwright.registry.packs.search_terms.compact` has them."""

# A process that forks while another of its threads holds a lock leaves it held in the child
# for ever, SQLite's own too: so nobody reads while it forks.
_READING = threading.Lock()
_at_fork = getattr(os, "register_at_fork", dict)  # where no process forks, nothing is called
_at_fork(
    before=_READING.acquire,
    after_in_parent=_READING.release,
    after_in_child=_READING.release,
)

_STATEMENTS = {text.strip() for text in TABLES.split(";") if text.strip()}
_ENOUGH = 10_000
_ALL = -1


@attrs.frozen
class PackRow:
    """What an index holds of a pack, beside its records.

    Parameters
    ----------
    digest : str
        SHA-256 of the pack's files.
    number : int
        Of the pack within the index.
    id : str
        The pack's id; empty if the pack is broken.
    problems : tuple of dict
        Why it is broken.
    """

    digest: str
    number: int
    id: str
    problems: tuple[dict[str, Any], ...] = ()


class IndexFile:
    """An index that is open for reading, by any number of threads, until nothing needs it.

    What the file system said of it when it was opened is ``seen``; that is empty where a later
    change might not show.  It may be removed meanwhile.  Written to it must not be: then it is
    damaged, and no answer of it is given any more.

    Parameters
    ----------
    path : Path
        The file; its digest was looked at before.

    Raises
    ------
    sqlite3.Error
        If it cannot be opened.
    """

    def __init__(self, path: Path) -> None:
        with opened(path) as file:
            self._connection = sqlite3.connect(
                f"{path.as_uri()}?mode=ro&immutable=1", uri=True, check_same_thread=False
            )
            self._handle = os.dup(file.fileno())
        self.close = weakref.finalize(self, _close, self._connection, self._handle)
        self._written = self._when_written()
        self.seen = _seen(self._handle)

    def has_its_tables(self) -> bool:
        """Whether it is made of the tables of an index, and of nothing that runs."""
        rows = self._rows("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL")
        return {text for (text,) in rows} == _STATEMENTS

    def packs(self) -> dict[str, PackRow]:
        """Every pack by its digest."""
        rows = self._rows("SELECT digest, number, id FROM pack")
        return {
            digest: PackRow(digest, number, name, () if name else self._problems(number))
            for digest, number, name in rows
        }

    def _problems(self, pack: int) -> tuple[dict[str, Any], ...]:
        return tuple(self._value("SELECT problems FROM pack WHERE number = ?", pack))

    def header(self, pack: int) -> dict[str, Any]:
        """Table of a pack's ``pack.toml``."""
        return dict(self._value("SELECT header FROM pack WHERE number = ?", pack))

    def counts(self, pack: int) -> dict[str, int]:
        """Count of a pack's records by kind."""
        return dict(self._value("SELECT counts FROM pack WHERE number = ?", pack))

    def claims(self, pack: int) -> list[Any]:
        """Rows of what a pack says its parts fit."""
        return list(self._value("SELECT claims FROM pack WHERE number = ?", pack))

    def entry(self, pack: int, short: str) -> tuple[str, str, dict[str, Any], list[str]] | None:
        """File, key and table of a record, and what supersedes it; none if there is none."""
        text = (
            "SELECT body.entry FROM record LEFT JOIN body ON body.record = record.number"
            " WHERE record.short = ? AND record.pack = ?"
        )
        rows = self._rows(text, short, pack)
        if not rows:
            return None
        file, key, table, replaced_by = _unpacked(rows)
        return file, key, table, replaced_by

    def shorts(self, kind: str | None) -> list[tuple[int, str]]:
        """Pack and short id of every record, or of every record of one kind."""
        if kind is None:
            return self._rows("SELECT pack, short FROM record")
        return self._rows(
            "SELECT pack, short FROM record WHERE short >= ? AND short < ?",
            f"{kind}/",
            f"{kind}0",  # the character after the slash
        )

    def packs_with(self, short: str) -> list[int]:
        """Packs that have a record of a short id."""
        return [pack for (pack,) in self._rows("SELECT pack FROM record WHERE short = ?", short)]

    def numbered(self, number: str) -> list[tuple[int, str]]:
        """Pack and short id of every record with a part number."""
        return self._rows(
            "SELECT DISTINCT record.pack, record.short FROM number"
            " JOIN record ON record.number = number.record WHERE number.text = ?",
            number,
        )

    def numbers(self) -> list[tuple[str, str, int, str]]:
        """System and number of every part number, pack and short id of its record."""
        return self._rows(
            "SELECT number.system, number.text, record.pack, record.short FROM number"
            " JOIN record ON record.number = number.record"
        )

    def words(self, attribute: str, packs: Callable[[int], bool]) -> set[str]:
        """Every word of vehicles of some packs, of one attribute or, if it is empty, of all."""
        rows = self._rows(
            "SELECT DISTINCT word.text, record.pack FROM term"
            " JOIN word ON word.number = term.word JOIN record ON record.number = term.record"
            " JOIN attribute ON attribute.number = term.attribute"
            " WHERE ? IN ('', attribute.text)",
            attribute,
        )
        return {word for word, pack in rows if packs(pack)}

    def having(self, conditions: Sequence[Condition], *, most: int = _ALL) -> set[tuple[int, str]]:
        """Pack and short id of vehicles that meet all conditions, at most so many."""
        if not conditions:
            return set(self.shorts("chassis"))
        # The rarest word has the fewest vehicles, for each of which the others are looked up.
        rarest_first = sorted(conditions, key=self._count) if conditions[1:] else conditions
        query = searching(rarest_first, most=most)
        return set(self._rows(query.text, *query.values))

    def _count(self, condition: Condition) -> int:
        if condition.months is not None:
            return _ENOUGH
        query = counting(condition, most=_ENOUGH)
        return int(self._rows(query.text, *query.values)[0][0])

    def _value(self, text: str, *values: object) -> Any:  # noqa: ANN401 - whatever was packed
        """Return the content of the one expected cell."""
        return _unpacked(self._rows(text, *values))

    def _rows(self, text: str, *values: object) -> list[Any]:
        try:
            with _READING:
                rows = self._connection.execute(text, values).fetchall()
            if self._when_written() != self._written:
                raise DamagedIndexError
        except UnicodeEncodeError:  # half a character, which no id holds
            return []
        except (OSError, sqlite3.Error):
            raise DamagedIndexError from None
        return rows

    def _when_written(self) -> tuple[int, int]:
        """Size of the file, and when anything was last written to it."""
        found = os.fstat(self._handle)
        return found.st_size, found.st_mtime_ns


def _unpacked(rows: Sequence[Any]) -> Any:  # noqa: ANN401 - whatever was packed
    """Return the content of the first cell of some rows, which must be there."""
    try:
        return unpacked(rows[0][0])
    except (IndexError, TypeError, ValueError, RecursionError, zlib.error):
        raise DamagedIndexError from None


def _seen(handle: int) -> tuple[int, ...]:
    found = os.fstat(handle)
    is_settled = time.time_ns() - max(found.st_mtime_ns, found.st_ctime_ns) > TICK
    seen = (found.st_size, found.st_mtime_ns, found.st_ctime_ns, found.st_ino)
    return seen if is_settled else ()


def _close(connection: sqlite3.Connection, handle: int) -> None:
    connection.close()
    os.close(handle)


def open_index(path: Path, digest: str, *, seen: Sequence[int] = ()) -> IndexFile | None:
    """Open an index if it is what it was when it was written.

    Parameters
    ----------
    path : Path
        The file.
    digest : str
        SHA-256 of its bytes.
    seen : sequence of int
        What ``seen`` of an :class:`IndexFile` was when this digest was last looked at; if it
        still is, the digest is not looked at again.

    Returns
    -------
    IndexFile or None
        None if it is not there whole.
    """
    try:
        file = IndexFile(path)
        if not (seen and file.seen == tuple(seen)) and digest_of_file(path) != digest:
            return None
        return file if file.has_its_tables() else None
    except (OSError, sqlite3.Error, DamagedIndexError):
        return None


def packed(value: object) -> bytes:
    """Write what TOML can hold as JSON, with a checksum.

    Parameters
    ----------
    value : object
        Tables, lists, text, numbers, truths, dates and times.

    Returns
    -------
    bytes
    """
    # To compress it would save two fifths of an index, and take a fifteenth of its building.
    return zlib.compress(_encoded(value).encode("ascii"), level=0)


def unpacked(data: bytes) -> Any:  # noqa: ANN401 - whatever was packed
    """Read what :func:`packed` has written; raises ValueError or zlib.error if it is damaged."""
    text = zlib.decompress(data)
    # Few tables hold a moment, and to look for one in each costs as much as reading it.
    return json.loads(text, object_hook=_moment) if _MARK_IN_JSON in text else json.loads(text)


_MOMENTS = {cls.__name__: cls for cls in (dt.datetime, dt.date, dt.time)}

# Half a character, which no key of a file can hold.
_MARK = "\udc00"
_MARK_IN_JSON = json.dumps(_MARK).strip('"').encode("ascii")


def _plain_moment(value: dt.datetime | dt.date | dt.time) -> dict[str, str]:
    return {_MARK + type(value).__name__: value.isoformat()}


_encoded = json.JSONEncoder(separators=(",", ":"), default=_plain_moment).encode


def _moment(table: dict[str, Any]) -> Any:  # noqa: ANN401 - a table, a date or a time
    for key, value in table.items():
        if key.startswith(_MARK):
            return _MOMENTS[key.removeprefix(_MARK)].fromisoformat(value)
    return table
