"""Which keys a table must have in the JSON Schemas, alone and if it is like another one.

A record that is like another one gives only what differs, in its tables too.  So the
definition of a table asks for nothing that may be taken of another record.  What else is
asked for stands at the records, for those that are like no other.
"""

from __future__ import annotations

import typing
from collections.abc import Iterator
from typing import Any, TypeAlias

import attrs

from barwright.parts.chassis import Axle, StandardParts
from barwright.parts.common.record import Part, Record
from barwright.registry.packs.format.keys import FURTHER_KEYS, KIND_WORDS, key_of
from barwright.registry.packs.format.pack import KINDS
from barwright.registry.packs.tables.gaps import may_be_left_out
from barwright.registry.packs.tables.inherited import LIKE

__all__ = ["LIKE_OTHERS", "always_required", "further_fields", "unless_like"]

Schema: TypeAlias = dict[str, Any]

LIKE_OTHERS = (*KINDS.values(), Axle)
"""Classes whose tables may be like another one."""


def further_fields(cls: type[Any]) -> list[str]:
    """List the fields of a class that may be written in two ways.

    Parameters
    ----------
    cls : type
        The class.

    Returns
    -------
    list of str
    """
    return [name for name in FURTHER_KEYS if name in attrs.fields_dict(cls)]


def always_required(cls: type[Any]) -> list[str]:
    """List the keys that a table has even if it is like another one.

    Parameters
    ----------
    cls : type
        Class that it is read into.

    Returns
    -------
    list of str
    """
    if issubclass(cls, Part):
        return ["id", "title", "source"]
    if cls is Axle:
        return ["place"]
    takes = cls is StandardParts or (issubclass(cls, Record) and cls.MAY_HAVE_GAPS)
    return [] if takes else _required(cls)


def _required(cls: type[Any]) -> list[str]:
    gaps = may_be_left_out(cls) | set(further_fields(cls))
    return [
        key_of(field.name)
        for field in attrs.fields(cls)
        if field.default is attrs.NOTHING and field.name not in gaps
    ]


def unless_like(cls: type[Any]) -> Schema:
    """Ask for what a table that is like no other must give.

    Parameters
    ----------
    cls : type
        Class that it is read into.

    Returns
    -------
    dict
        Part of a schema; empty if there is nothing to ask for.
    """
    asked = _asked(cls)
    return {"if": {"required": [LIKE]}, "else": asked} if asked else {}


def _asked(cls: type[Any]) -> Schema:
    """Ask for the keys of a table, and of the tables in it."""
    required = [key for key in _required(cls) if key not in always_required(cls)]
    either = [{"oneOf": [{"required": [k]} for k in (key_of(n), n)]} for n in further_fields(cls)]
    inside = dict(_asked_inside(cls))
    return (
        ({"required": required} if required else {})
        | ({"allOf": either} if either else {})
        | ({"properties": inside} if inside else {})
    )


def _asked_inside(cls: type[Any]) -> Iterator[tuple[str, Schema]]:
    for name, hint in typing.get_type_hints(cls).items():
        if hint == tuple[Axle, ...]:
            yield key_of(name), {"items": unless_like(Axle)}
            continue
        for member in (hint, *typing.get_args(hint)):
            if _is_table(member) and (asked := _asked(member)):
                yield key_of(name), asked


def _is_table(hint: Any) -> bool:  # noqa: ANN401 - any annotation
    """Tell whether a hint is the class of a table within a record, one of several kinds not."""
    is_table = isinstance(hint, type) and issubclass(hint, Record | StandardParts)
    return is_table and not issubclass(hint, Part) and hint not in KIND_WORDS
