"""Sources and places of what a document states, as its tables name them."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.source import CALLER, JOB, Source
from barwright.registry.nearest_name import nearest
from barwright.registry.packs.tables.inherited import InheritedTable, Statement, leaving_out
from barwright.registry.packs.tables.refusals import wrong_keys, wrong_type
from barwright.units import UNKNOWN

__all__ = ["Origins", "Stated"]

# Keys of a table that say where its figures and facts come from.
_PLACE = ("source", "at")


@attrs.frozen
class Stated:
    """What a table states of one field, and where that comes from.

    Parameters
    ----------
    raw : object
        As parsed.
    origin : dict
        What :class:`Figure` and :class:`Fact` say of the origin, by their fields.
    is_table : bool
        Whether it is a table of its own.
    """

    raw: object
    origin: Mapping[str, Any]
    is_table: bool = False

    @property
    def has_source(self) -> bool:
        """Whether the document names a source for it."""
        return bool(self.origin["source"] != CALLER)

    @property
    def is_told(self) -> bool:
        """Whether it says where a fact is from, or which source was searched for it in vain."""
        return self.has_source and (self.is_table or self.raw != UNKNOWN)

    @property
    def is_of_a_pack(self) -> bool:
        """Whether a pack or an overlay states it, and no job."""
        return self.has_source and not self.origin["source"].startswith(f"{JOB}:")


class Origins:
    """Sources and places of one document; each table inherits those of the table around it.

    Parameters
    ----------
    file : str
        Name of the document.
    sources : sequence of Source
        Those that it may name; None if it names none.
    pack : str
        Id of the pack that the sources belong to.
    """

    def __init__(self, *, file: str, sources: Sequence[Source] | None, pack: str) -> None:
        self._file = file
        self._sources = None if sources is None else {s.id: s.kind for s in sources}
        self._pack = pack
        # Who states the tables that are open, and single keys of them, innermost last.
        self._stack: list[tuple[Statement, Mapping[str, Statement]]] = []

    @property
    def is_inside(self) -> bool:
        """Whether a table is open."""
        return bool(self._stack)

    @contextlib.contextmanager
    def opened(self, table: Mapping[str, Any], *, is_record: bool) -> Iterator[Mapping[str, Any]]:
        """Open a table; return it without what it says of its own origin."""
        own = table
        by = self._stack[-1][0] if self._stack else Statement("", self._file, "", "")
        if self._sources is not None and is_record:
            source, at = self._place(table, by.source, by.at)
            own, by = leaving_out(table, _PLACE), attrs.evolve(by, source=source, at=at)
        by = attrs.evolve(by, record=str(own.get("id", by.record)))
        self._stack.append((by, table.stated if isinstance(table, InheritedTable) else {}))
        try:
            yield own
        finally:
            self._stack.pop()

    def stated(self, name: str, raw: object) -> Stated:
        """Return what stands under a key of the open table: a value, or a table around it.

        Raises
        ------
        SchemaError
            For a table with other keys than those of a figure, or another source.
        """
        here, elsewhere = self._stack[-1]
        by = elsewhere.get(name, here)
        source, at = by.source, by.at
        is_table = isinstance(raw, dict)
        if isinstance(raw, dict):
            extra = sorted(set(raw) - {"is", *_PLACE})
            if extra or "is" not in raw:
                raise wrong_keys(extra, raw)
            source, at = self._place(raw, source, at)
            raw = raw["is"]
        origin = {
            "source": f"{self._pack}:{source}" if source else CALLER,
            "source_kind": (self._sources or {}).get(source),
            "at": at,
            "file": by.file,
            "key": f"{by.record}.{name}".strip("."),
        }
        return Stated(raw, origin, is_table)

    def _place(self, table: Mapping[str, Any], source: str, at: str) -> tuple[str, str]:
        """Source and place of a table: its own, or those of the record around it.

        A place belongs to its source: a table with another source does not inherit it.
        """
        own = table.get("source", source)
        place = table.get("at", at if own == source else "")
        self._check_place(own, place)
        return own, place

    def _check_place(self, source: object, at: object) -> None:
        """Refuse a source that the pack does not list, or a place that is no text."""
        if not isinstance(at, str):
            raise wrong_type(at, "text in quotes", key="at")
        if not isinstance(source, str):
            raise wrong_type(source, "the id of a source in quotes", key="source")
        if self._sources is not None and source not in self._sources:
            raise SchemaError(
                "S206" if source else "S202",
                value=source or "nothing",
                expected="the id of a [[source]] of the pack",
                remedy=nearest(source, self._sources),
                key="source",
            )
