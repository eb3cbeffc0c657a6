"""Records of tables that are in order, made in one go.

Nothing is asked here of what might be wrong.  Where a table is not in order, or is written
in a way that is seldom, no record is made of it: then :mod:`structure` goes through all of
it, and tells everything that is wrong.
"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeVar, cast

from barwright.parts.common.record import Part
from barwright.parts.common.source import JOB, About, Fact, Figure, Origin, Source, SourceKind, Told
from barwright.registry.packs.tables.inherited import InheritedTable, Statement
from barwright.registry.packs.tables.shape import (
    SOURCE_KEYS,
    Asked,
    NotInOrderError,
    Shape,
    shape_of,
)
from barwright.units import UNKNOWN, WrittenFigure, is_unknown, read_figure
from barwright.units.reader import ordinary_figure

__all__ = ["RecordsInOrder"]

P = TypeVar("P", bound=Part)

_OF_A_FIGURE = {"is", *SOURCE_KEYS}
_SAYS_WHENCE = {"id", *SOURCE_KEYS}

# A record is made without its __init__: its fields have been read already as its converters
# would, and to convert them again takes longer than all else.
_new = object.__new__
_set = object.__setattr__


class RecordsInOrder:
    """Makes records of the tables of one file.

    Parameters
    ----------
    file : str
        Name of the file.
    sources : sequence of Source
        Those that it may name.
    pack : str
        Id of the pack that the sources belong to.
    parts : mapping
        Records that a table may refer to, by class and id.
    """

    def __init__(
        self,
        *,
        file: str,
        sources: Sequence[Source],
        pack: str,
        parts: Mapping[type, Mapping[str, Any]],
    ) -> None:
        self._file = file
        self._sources = {source.id: source.kind for source in sources}
        self._pack = pack
        self._parts = parts

    def record(self, table: Any, cls: type[P]) -> P | None:  # noqa: ANN401 - whatever the file holds
        """Make a record.

        Parameters
        ----------
        table : dict
            The table, as parsed.
        cls : type
            Record class.

        Returns
        -------
        Part or None
            None if anything may be wrong with the table.
        """
        try:
            return cast("P", self.made(table, cls, None))
        # Whatever is wrong, even a fault of this module, :mod:`structure` goes through the table.
        except Exception:  # noqa: BLE001 - as said
            return None

    def made(self, table: Any, cls: Any, around: Origin | None) -> Any:  # noqa: ANN401 - as above
        """Make a record of a table that may stand in another one, or raise whatever is raised."""
        shape = shape_of(cls)
        if shape.alike and any(key in table and other in table for key, other in shape.alike):
            raise NotInOrderError
        own = cast("Origin", self._origin_of(table, around) if shape.is_record else around)
        elsewhere = table.stated if isinstance(table, InheritedTable) else {}
        context = self, own
        held, told, facts = (
            dict(shape.defaults),
            dict[str, WrittenFigure | Told](),
            dict[str, Told](),
        )
        for key, raw in table.items():
            field = shape.by_key[key]  # a key that is not allowed is a KeyError
            if field is None:
                continue
            name, value = field.name, raw
            is_table = field.may_have_source and type(raw) is dict
            if is_table or key in elsewhere:
                value, origin = self._stated(raw, elsewhere.get(key), own, is_table=is_table)
            else:
                origin = own
            if field.figure is not None and value != UNKNOWN:
                read = _ordinary(value, field.figure) or _unusual(value, field.figure, origin)
                held[name] = read.value
                told[name] = read if origin is own else Told(Figure, read, origin)
            else:
                held[name] = field.read(value, context)
                if field.may_have_source and (is_table or value != UNKNOWN):
                    facts[name] = Told(Fact, held[name], origin)
        for name in shape.needed - held.keys():
            held[name] = shape.left_out[name]()
        _refuse_vague(told.values(), own)
        made = _made(cls, shape, held)
        if shape.is_record:
            _set(made, "about", About.told({**_in_order(shape, held, told), **facts}, own))
        return made

    def referred(self, name: str, kinds: Sequence[type[Part]]) -> Any:  # noqa: ANN401 - a part
        """Return the record of one of some kinds that an id names."""
        for cls in kinds:
            try:
                return self._parts[cls][name]
            except KeyError:
                continue
        raise NotInOrderError

    def _origin_of(self, table: Mapping[str, Any], around: Origin | None) -> Origin:
        """Return where the figures of a record's table come from."""
        if around is not None and _SAYS_WHENCE.isdisjoint(table):
            return around
        before = around or Origin("", SourceKind.INVENTED, "", self._file, "")
        source, kind, at = self._cited(table, before)
        return Origin(source, kind, at, before.file, str(table.get("id", before.record)))

    def _stated(
        self,
        raw: Any,  # noqa: ANN401 - as parsed
        elsewhere: Statement | None,
        own: Origin,
        *,
        is_table: bool,
    ) -> tuple[Any, Origin]:
        """Return a value and where it comes from, if that is not where its table does."""
        around = self._origin(elsewhere) if elsewhere else own
        if not is_table:
            return raw, around
        if not raw.keys() <= _OF_A_FIGURE:
            raise NotInOrderError
        source, kind, at = self._cited(raw, around)
        return raw["is"], Origin(source, kind, at, around.file, around.record)

    def _cited(self, table: Mapping[str, Any], around: Origin) -> tuple[str, SourceKind, str]:
        """Source, its kind, and place; a place belongs to its source and is not inherited alone."""
        named = table["source"] if "source" in table else around.source.partition(":")[2]
        source = f"{self._pack}:{named}"
        at = table.get("at", around.at if source == around.source else "")
        if not isinstance(at, str):
            raise NotInOrderError
        return source, self._sources[named], at

    def _origin(self, by: Statement) -> Origin:
        """Return where what another record states comes from."""
        source = f"{self._pack}:{by.source}"
        return Origin(source, self._sources[by.source], by.at, by.file, by.record)


# Many parts have the same sizes, and nothing can change what was read.
@functools.lru_cache(maxsize=1024)
def _ordinary(raw: str, asked: Asked) -> WrittenFigure | None:
    """Read a figure that is written as most are."""
    return ordinary_figure(raw, asked.kind, asked.allowed)


def _unusual(raw: str, asked: Asked, origin: Origin) -> WrittenFigure:
    """Read a figure that is written in another way."""
    is_of_a_pack = not origin.source.startswith(f"{JOB}:")
    return read_figure(raw, asked.kind, key="", allowed=asked.allowed, one_limit=is_of_a_pack)


def _refuse_vague(told: Iterable[WrittenFigure | Told], own: Origin) -> None:
    """Refuse an estimate that does not say how far off it may be."""
    for one in told:
        read, origin = (one, own) if isinstance(one, WrittenFigure) else (one.value, one.origin)
        if origin.source_kind is SourceKind.ESTIMATED and read.tolerance is None:
            raise NotInOrderError


def _made(cls: type[Any], shape: Shape, held: dict[str, Any]) -> Any:  # noqa: ANN401 - a record of the class
    """Make a record of fields that are as their own converters would return them."""
    made = _new(cls)
    for name, value in held.items():
        _set(made, name, value)
    for name, compute in shape.computed.items():
        if name not in held:
            held[name] = compute(made)
            _set(made, name, held[name])
    check = made._check if shape.is_record else made.__attrs_post_init__  # noqa: SLF001 - as whoever changes a record
    check()
    return made


def _in_order(
    shape: Shape, held: Mapping[str, Any], told: Mapping[str, WrittenFigure | Told]
) -> dict[str, Figure | WrittenFigure | Told]:
    """List what is known of the figures of a record, in the order of its fields."""
    known: dict[str, Figure | WrittenFigure | Told] = {}
    for name in shape.figures:
        if name in told:
            known[name] = told[name]
        elif (value := held[name]) is not None and not is_unknown(value):
            known[name] = Figure(value=value)
    return known
