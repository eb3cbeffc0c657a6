"""What the table of a class of records is made of: its keys, and what reads each of them."""

from __future__ import annotations

import enum
import functools
import types
import typing
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Protocol, TypeAlias, cast

import attrs

from barwright.parts.common.facts import fact_fields, field_types
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import Month, PartNumber
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import Origin
from barwright.registry.packs.format.keys import OTHER_KEYS, has_kinds, key_of, kinds_of
from barwright.registry.packs.tables import values
from barwright.registry.packs.tables.gaps import may_be_left_out
from barwright.registry.packs.tables.inherited import leaving_out
from barwright.units import UNKNOWN, Kind, Range, unknown, unknown_count

__all__ = ["SOURCE_KEYS", "Asked", "Context", "Field", "NotInOrderError", "Shape", "shape_of"]

SOURCE_KEYS = ("source", "at")
"""Keys of a table that say where its figures and facts come from."""

_KIND = {"kind"}


class NotInOrderError(Exception):
    """Something is wrong with a table, or may be."""


class Maker(Protocol):
    """Makes records of tables that stand in another one."""

    def made(self, table: Any, cls: Any, around: Origin | None) -> Any:  # noqa: ANN401 - as parsed
        """Make a record."""

    def referred(self, name: str, kinds: Sequence[type[Part]]) -> Any:  # noqa: ANN401 - a part
        """Return the record of one of some kinds that an id names."""


Context: TypeAlias = tuple[Maker, Origin]
"""Who reads a table, and where what stands in it comes from."""

Reader: TypeAlias = Callable[[Any, Context], Any]
"""Reads a value of a table."""


@attrs.frozen(eq=False)
class Asked:
    """What a figure must be; there is one for each kind and range.

    Parameters
    ----------
    kind : Kind
        Kind of quantity.
    allowed : {"any", "positive", "zero or more", "zero or less"}
        Which numbers are possible.
    """

    kind: Kind
    allowed: Range


_asked = functools.cache(Asked)


@attrs.frozen
class Field:
    """What stands under a key.

    Parameters
    ----------
    name : str
        Of the field.
    read : callable
        Reads it, unless it is a figure that is known.
    figure : Asked, optional
        What it must be, if it is a figure.
    may_have_source : bool
        Whether it may be a table with a source of its own.
    """

    name: str
    read: Reader
    figure: Asked | None
    may_have_source: bool


@attrs.frozen
class Shape:
    """What a class is made of.

    Parameters
    ----------
    is_record : bool
        Whether its table may name a source.
    by_key : mapping
        Field of each key; none where the key says something else.
    alike : tuple of tuple
        Keys of one field.
    defaults : mapping
        Values of fields that may be left out.
    needed : frozenset of str
        Fields that may not.
    left_out : mapping
        Makes the value of those of them that are unknown then.
    figures : tuple of str
        Fields that hold figures.
    computed : mapping
        Makes the value of those that follow from the fields before them.
    """

    is_record: bool
    by_key: Mapping[str, Field | None]
    alike: tuple[tuple[str, str], ...]
    defaults: Mapping[str, Any]
    needed: frozenset[str]
    left_out: Mapping[str, Callable[[], Any]]
    figures: tuple[str, ...]
    computed: Mapping[str, Callable[[Any], Any]]


@functools.cache
def shape_of(cls: Any) -> Shape:  # noqa: ANN401 - a class
    """Return what the table of a class is made of.

    Parameters
    ----------
    cls : type
        Class of a record, or of the standard parts of a corner.

    Returns
    -------
    Shape
    """
    is_record = issubclass(cls, Record)
    fields = [field for field in attrs.fields(cls) if field.name != "about"]
    stated = {f.name: _field(cls, f) for f in fields if f.name not in NOT_IN_FILES}
    by_key: dict[str, Field | None] = {key_of(name): field for name, field in stated.items()}
    others = {OTHER_KEYS[key]: key for key in by_key if key in OTHER_KEYS}
    by_key |= {other: by_key[key] for other, key in others.items()}
    figures = tuple(figure_fields(cls))
    of_others = {f.name for f in fields if isinstance(f.default, attrs.Factory)}  # type: ignore[arg-type] # attrs says that it is a function
    may_be_out = [f for f in fields if f.default is not attrs.NOTHING and f.name not in of_others]
    defaults = {field.name: _converted(field)(field.default) for field in may_be_out}
    return Shape(
        is_record=is_record,
        by_key=by_key | dict.fromkeys(SOURCE_KEYS if is_record else ()),
        alike=tuple(others.items()),
        defaults=defaults,
        needed=frozenset(field.name for field in fields) - defaults.keys() - of_others,
        left_out={n: unknown if n in figures else unknown_count for n in may_be_left_out(cls)},
        figures=figures,
        computed={f.name: _computed(f) for f in fields if f.name in of_others},
    )


def _computed(field: attrs.Attribute[Any]) -> Callable[[Any], Any]:
    """Make what computes the default of a field from the record, as far as that is made."""
    compute: Any = field.default
    convert = _converted(field)
    return lambda record: convert(compute.factory(record))


def _converted(field: attrs.Attribute[Any]) -> Callable[[Any], Any]:
    return cast("Callable[[Any], Any]", field.converter) if field.converter else _as_it_is


def _as_it_is(value: Any) -> Any:  # noqa: ANN401 - as the field
    return value


def _field(cls: type[Any], field: attrs.Attribute[Any]) -> Field:
    name, is_record = field.name, issubclass(cls, Record)
    asked = figure_fields(cls).get(name)
    figure = _asked(*asked) if asked else None
    hint = field_types(cls)[name]
    read = _gap(cls, unknown) if figure else _reading(_reader(hint), field)
    if field.metadata.get("may_be_unknown"):
        read = _or_gap(read, _gap(cls, unknown_count))
    may_have_source = figure is not None or (is_record and name in fact_fields(cls))
    return Field(name, read, figure, may_have_source)


def _gap(cls: type[Record], unknown_of: Callable[[], Any]) -> Reader:
    """Make the reader of what is not known."""

    def read(_: Any, __: Context) -> Any:  # noqa: ANN401 - as parsed
        if not cls.MAY_HAVE_GAPS:
            raise NotInOrderError
        return unknown_of()

    return read


def _or_gap(read: Reader, gap: Reader) -> Reader:
    return lambda raw, context: (gap if raw == UNKNOWN else read)(raw, context)


def _reading(read: Reader, field: attrs.Attribute[Any]) -> Reader:
    """Make a reader that converts, too, as a field does."""
    convert: Any = field.converter
    if convert is None or field.metadata.get("is_only_checked"):
        return read
    return lambda raw, context: convert(read(raw, context))


# -- Readers of values, by their type ----------------------------------------------------


def _reader(hint: Any) -> Reader:  # noqa: ANN401 - any annotation
    """Make the reader of a value of a type."""
    origin, members = typing.get_origin(hint), typing.get_args(hint)
    if origin in (typing.Union, types.UnionType):
        return _reader_of_union([member for member in members if member is not types.NoneType])
    if origin is tuple and hint not in _PLAIN:
        return _reader_of_list(members)
    if hint in _PLAIN:
        return _PLAIN[hint]
    if issubclass(hint, enum.Enum):
        words = {member.value: member for member in hint}
        return lambda raw, _: words[raw]
    if issubclass(hint, Part):
        return lambda raw, context: context[0].referred(raw, (hint,))
    return lambda raw, context: context[0].made(raw, hint, context[1])


_month_of = functools.lru_cache(maxsize=1024)(Month.of)


_PLAIN: Mapping[Any, Reader] = {
    int: values.whole_number,
    float: values.number,
    str: values.text,
    bool: values.truth,
    Month: lambda raw, _: _month_of(raw),
    tuple[PartNumber, ...]: values.part_numbers,
}


def _reader_of_union(members: Sequence[Any]) -> Reader:
    if len(members) == 1:
        return _reader(members[0])
    if has_kinds(union := typing.Union[tuple(members)]):  # noqa: UP007 - of members in a list
        words = kinds_of(union)
        return lambda raw, context: context[0].made(
            leaving_out(raw, _KIND), words[raw["kind"]], context[1]
        )
    return lambda raw, context: context[0].referred(raw, members)


def _reader_of_list(members: Sequence[Any]) -> Reader:
    """Make the reader of a list of any length, or of as many values as there are types."""
    is_open = members[-1] is Ellipsis
    readers = list(map(_reader, members[:1] if is_open else members))

    def read_list(raw: Any, context: Context) -> Any:  # noqa: ANN401 - as parsed
        if not isinstance(raw, list):
            raise NotInOrderError
        of_each = readers * len(raw) if is_open else readers
        return tuple([read(item, context) for read, item in zip(of_each, raw, strict=True)])

    return read_list
