"""Records that a document writes once, under their names, and refers to by these names."""

from __future__ import annotations

import contextlib
import itertools
from collections.abc import Callable, Iterator, Mapping
from contextvars import ContextVar
from typing import Any, TypeAlias

from barwright.parts.chassis import Axle
from barwright.parts.common.record import Part

__all__ = [
    "RecordReader",
    "RecordTables",
    "is_record",
    "named_or_whole",
    "records_read",
    "records_written",
    "whole_or_by_name",
]

Table: TypeAlias = dict[str, Any]


def is_record(cls: object) -> bool:
    """Tell whether a class is one whose records are written once, under their names."""
    return isinstance(cls, type) and issubclass(cls, (Part, Axle))


class RecordTables:
    """The records of a document that is being written, by their names."""

    def __init__(self) -> None:
        self.by_name: dict[str, Table] = {}
        # The record is kept beside its name: the identity of one that is gone may come again.
        self._names: dict[int, tuple[object, str]] = {}

    def name_of(self, record: Part | Axle, write: Callable[[Any], Table]) -> str:
        """Return the name of a record, and write it under that name if it is new."""
        if id(record) not in self._names:
            self._names[id(record)] = record, self._put(_wished(record), write(record))
        return self._names[id(record)][1]

    def _put(self, wish: str, table: Table) -> str:
        """Write a record under a name that no other one has."""
        numbered = (f"{wish} ({number})" for number in itertools.count(2))
        names = itertools.chain([wish], numbered)
        return next(name for name in names if self.by_name.setdefault(name, table) == table)


def _wished(record: Part | Axle) -> str:
    return f"{record.place.value} axle" if isinstance(record, Axle) else record.id


class RecordReader:
    """The records of a document that is being read: each is made once, when it is asked for."""

    def __init__(self, tables: Mapping[str, Any]) -> None:
        self.unread = dict(tables)
        """Those that nothing has asked for."""
        self._read: dict[str, object] = {}

    def named(self, name: str, cls: Any, read: Callable[[Any], object]) -> object:  # noqa: ANN401 - a class, or several
        """Return a record; one that contains itself is not there while it is read."""
        if name not in self._read:
            table = self.unread.pop(name, None)
            if not isinstance(table, dict):
                raise TypeError(name)
            self._read[name] = read(table)
        found = self._read[name]
        if not isinstance(found, cls):
            raise TypeError(name)
        return found


_WRITTEN: ContextVar[RecordTables | None] = ContextVar("_WRITTEN", default=None)
_READ: ContextVar[RecordReader | None] = ContextVar("_READ", default=None)


@contextlib.contextmanager
def records_written() -> Iterator[RecordTables]:
    """Let records be written by their names, and collect them."""
    tables = RecordTables()
    before = _WRITTEN.set(tables)
    try:
        yield tables
    finally:
        _WRITTEN.reset(before)


@contextlib.contextmanager
def records_read(tables: Mapping[str, Any]) -> Iterator[RecordReader]:
    """Let records be read by their names."""
    records = RecordReader(tables)
    before = _READ.set(records)
    try:
        yield records
    finally:
        _READ.reset(before)


def named_or_whole(write: Callable[[Any], Table]) -> Callable[[Any], Table | str]:
    """Make what writes a record by its name, or wholly in a document that names none."""

    def unstructure(record: Any) -> Table | str:  # noqa: ANN401 - any record
        tables = _WRITTEN.get()
        return write(record) if tables is None else tables.name_of(record, write)

    return unstructure


def whole_or_by_name(cls: Any, read: Callable[[Any], object]) -> Callable[[Any, Any], object]:  # noqa: ANN401 - a class, or several
    """Make what reads a record, or several that may stand in one place."""

    def structure(table: Any, _: Any) -> object:  # noqa: ANN401 - whatever the document holds
        records = _READ.get()
        if records is None or not isinstance(table, str):
            return read(table)
        return records.named(table, cls, read)

    return structure
