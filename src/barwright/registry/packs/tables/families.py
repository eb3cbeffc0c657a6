"""Records that are like another one of their pack: their tables made whole.

A table that says ``like`` gives only what differs.  It is joined with the table of the other
record before a record is made of it, and remembers of each key who states it.
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from typing import Any, Protocol

import attrs

from barwright.errors import SchemaError
from barwright.registry.files.file_limits import MOST_BASES
from barwright.registry.nearest_name import MOST_SUGGESTED, nearest
from barwright.registry.packs.tables.inherited import (
    AXLES,
    LIKE,
    RELATION,
    WITHOUT,
    InheritedTable,
    Statement,
    axles_by_place,
    count_of,
    cut,
    laid_over,
    leaving_out,
    stated_by,
)
from barwright.registry.packs.tables.refusals import wrong_type

__all__ = ["Families", "Family", "Listed", "ListedTables", "Whole"]

_CHASSIS = "chassis"


@attrs.frozen
class Listed:
    """A table as it stands in a file.

    Parameters
    ----------
    file : str
        Name of the file.
    table : mapping
        The table as it was read.
    """

    file: str
    table: Mapping[str, Any]


class Family(Protocol):
    """Tables of one pack by kind and name."""

    def listed(self, kind: str, name: str) -> Listed | None:
        """Return a table; none if there is none."""

    def names(self, kind: str) -> Sequence[str]:
        """Return some names of a kind, to suggest."""


@attrs.frozen
class Whole:
    """A table with what it takes from others.

    Parameters
    ----------
    table : mapping
        The table.
    bases : frozenset of str
        Short ids of the records that it is like, and of those that these are like.
    """

    table: Mapping[str, Any]
    bases: frozenset[str] = frozenset()

    @property
    def count(self) -> int:
        """How many values it holds, if some of them are another record's."""
        return count_of(self.table) if self.bases else 0


class ListedTables:
    """Tables of a pack's files by kind and name, of two with one name the first.

    Parameters
    ----------
    files : mapping
        What each file holds, by its name.
    """

    def __init__(self, files: Mapping[str, Mapping[str, Any]]) -> None:
        self._files = files
        self._named: dict[str, dict[str, Listed]] = {}

    def listed(self, kind: str, name: str) -> Listed | None:
        """Return a table; none if there is none."""
        return self._of(kind).get(name)

    def names(self, kind: str) -> Sequence[str]:
        """Return some names of a kind, to suggest."""
        return list(itertools.islice(self._of(kind), MOST_SUGGESTED))

    def _of(self, kind: str) -> dict[str, Listed]:
        if kind not in self._named:
            self._named[kind] = {}
            for file, tables in self._files.items():
                found = tables.get(kind)
                for table in found if isinstance(found, list) else []:
                    name = table.get("id") if isinstance(table, dict) else None
                    if isinstance(name, str):
                        self._named[kind].setdefault(name, Listed(file, table))
        return self._named[kind]


class _LostError(Exception):
    """A record that is like itself in the end, or too far from what it is like."""

    def __init__(self, circle: Sequence[str] = ()) -> None:
        super().__init__()
        self.circle = circle


class Families:
    """Makes tables of one pack whole.

    Parameters
    ----------
    pack : str
        Id of the pack.
    family : Family
        Its tables.
    """

    def __init__(self, pack: str, family: Family) -> None:
        self._pack = pack
        self._family = family
        self._views: dict[str, tuple[InheritedTable, frozenset[str]]] = {}
        # Records whose tables are being made whole, innermost last.
        self._open: list[str] = []

    def whole(self, table: Any, *, kind: str) -> Whole:  # noqa: ANN401 - whatever the file holds
        """Return a table with what it takes from others.

        Parameters
        ----------
        table : dict
            The table, as parsed.
        kind : str
            Of its record.

        Returns
        -------
        Whole

        Raises
        ------
        SchemaError
            S203, S206 or S207 for what cannot be, with the key.
        """
        if not isinstance(table, dict) or not _is_like_another(table):
            return Whole(table)
        own = f"{kind}/{table.get('id')}"
        self._open = [own]
        try:
            return self._whole(table, kind)
        except _LostError as lost:
            if lost.circle and own not in lost.circle:
                raise self._unknown(lost.circle[0], kind) from None
            raise _too_far(" like ".join((*lost.circle, own)) if lost.circle else own) from None

    def _whole(self, table: Mapping[str, Any], kind: str) -> Whole:
        bases: set[str] = set()
        base = self._cut_base(table, kind, bases)
        own = leaving_out(table, RELATION)
        axles = self._axles(table.get(AXLES), base, bases)
        whole = own if base is None else laid_over(own, base)
        if axles is not None:
            whole[AXLES] = axles
        if len(bases) > MOST_BASES:
            raise _too_far(f"{kind}/{table.get('id')}")
        return Whole(whole, frozenset(bases))

    def _cut_base(
        self, table: Mapping[str, Any], kind: str, bases: set[str]
    ) -> InheritedTable | None:
        """Return what a table takes from the record that it is like."""
        if LIKE not in table:
            _refuse_lone(table)
            return None
        base, further = self._view(table[LIKE], kind)
        bases |= further
        return _without(base, table)

    def _axles(
        self,
        own: Any,  # noqa: ANN401 - whatever the file holds
        base: InheritedTable | None,
        bases: set[str],
    ) -> list[Any] | None:
        """Return the axles, the table's own first; none if its own are no list."""
        below = axles_by_place(base or {})
        if not isinstance(own, list):
            return list(below.values()) if own is None and below else None
        found = []
        for index, axle in enumerate(own):
            try:
                found.append(self._axle(axle, below, bases))
            except SchemaError as error:
                raise error.within(key=f"{AXLES}[{index}]") from None
        return [*found, *below.values()]

    def _axle(self, axle: Any, below: dict[str, InheritedTable], bases: set[str]) -> Any:  # noqa: ANN401 - as above
        """Return an axle with what it takes; what lies below is taken once."""
        if not isinstance(axle, dict):
            return axle
        place = axle.get("place")
        base = below.pop(place, None) if isinstance(place, str) else None
        if LIKE in axle:
            other, further = self._view(axle[LIKE], _CHASSIS)
            bases |= further
            places = axles_by_place(other)
            if place not in places:
                raise _no_axle(place, axle[LIKE], list(places))
            base = places[place]
        if base is None:
            _refuse_lone(axle)
            return axle
        return laid_over(leaving_out(axle, RELATION), _without(base, axle))

    def _view(self, named: object, kind: str) -> tuple[InheritedTable, frozenset[str]]:
        """Return all that others may take of a record, and the records that it comes from."""
        name = self._name(named, kind)
        short = f"{kind}/{name}"
        if short not in self._views:
            self._views[short] = self._made_view(short, kind, name)
        return self._views[short]

    def _made_view(self, short: str, kind: str, name: str) -> tuple[InheritedTable, frozenset[str]]:
        if short in self._open:
            raise _LostError(self._open[self._open.index(short) :])
        if len(self._open) > MOST_BASES:
            raise _LostError
        listed = self._family.listed(kind, name)
        if listed is None:
            raise self._unknown(short, kind)
        self._open.append(short)
        try:
            whole = self._whole(listed.table, kind)
        except SchemaError:
            # Told where it stands; here it only follows.
            raise self._unknown(short, kind) from None
        finally:
            self._open.pop()
        by = Statement(record=name, file=listed.file, source="", at="")
        return stated_by(whole.table, by), whole.bases | {short}

    def _name(self, named: object, kind: str) -> str:
        """Return the name of a record of this pack and of a kind."""
        if not isinstance(named, str):
            raise wrong_type(named, f"the id of a {kind} in quotes", key=LIKE)
        pack, is_full, short = named.rpartition(":")
        if is_full and pack != self._pack:
            raise SchemaError(
                "S206",
                value=named,
                expected=f"the id of a {kind} of this pack, which is whole without any other",
                remedy="give the figures here with their own source; a figure of another pack is "
                "corrected by an overlay",
                key=LIKE,
            )
        word, _, name = short.partition("/")
        if word != kind or not name:
            raise self._unknown(named, kind)
        return name

    def _unknown(self, named: str, kind: str) -> SchemaError:
        known = [f"{kind}/{name}" for name in self._family.names(kind)]
        return SchemaError(
            "S206",
            value=named,
            expected=f"the id of another {kind} of this pack",
            remedy=nearest(named, known),
            key=LIKE,
        )


def _is_like_another(table: Mapping[str, Any]) -> bool:
    axles = table.get(AXLES)
    tables = [table, *axles] if isinstance(axles, list) else [table]
    return any(key in one for one in tables if isinstance(one, dict) for key in RELATION)


def _without(base: InheritedTable, table: Mapping[str, Any]) -> InheritedTable:
    """Leave out of a table what another one is without."""
    paths = table.get(WITHOUT, [])
    if not isinstance(paths, list) or not all(isinstance(path, str) for path in paths):
        raise wrong_type(paths, "a list of fields in quotes", key=WITHOUT)
    for path in paths:
        try:
            base = cut(base, path.split("."))
        except LookupError:
            raise _not_there(path, base) from None
    return base


def _not_there(path: str, base: InheritedTable) -> SchemaError:
    return SchemaError(
        "S206",
        value=path,
        expected=f"a field that is stated there, of the record that this one is {LIKE}",
        remedy=nearest(path, sorted(base)),
        key=WITHOUT,
    )


def _refuse_lone(table: Mapping[str, Any]) -> None:
    if WITHOUT in table:
        raise SchemaError(
            "S207",
            value=f"{WITHOUT}, and no {LIKE}",
            expected=f"{LIKE} = the record that has what this one is without",
            remedy="name that record, or leave it out: what is not written is not there",
            key=WITHOUT,
        )


def _no_axle(place: object, named: str, places: Sequence[str]) -> SchemaError:
    return SchemaError(
        "S206",
        value=f"the {place} axle of {named}",
        expected="an axle in the same place",
        remedy=f"that vehicle has: {', '.join(sorted(places)) or 'none'}",
        key=LIKE,
    )


def _too_far(value: str) -> SchemaError:
    return SchemaError(
        "S207",
        value=value,
        expected=f"a record that is like others, at most {MOST_BASES} of them and never itself",
        remedy="let it be like the one that states most of its figures",
        key=LIKE,
    )
