"""What the keys of a record hold: figures, counts, texts, references or tables."""

from __future__ import annotations

import enum
import functools
import types
import typing
from collections.abc import Mapping
from typing import Any

import attrs

from barwright.parts.common.fields import figure_fields, known_or_not
from barwright.registry.packs.format.keys import FURTHER_KEYS, key_of, kinds_of
from barwright.registry.packs.format.pack import KINDS

__all__ = ["Leaf", "fields_of", "table_class"]


class Leaf(enum.Enum):
    """What a text of a record is read as, if it is no table."""

    TEXT = "text"
    ID = "id"
    FIGURE = "figure"
    COUNT = "count"
    WHOLE = "whole number"
    NUMBER = "number"
    TRUTH = "truth"


# Keys that name other records in words that the class of a record does not.
_ALSO_IDS = ("like", "replaces")

_LEAVES: Mapping[Any, Leaf] = {int: Leaf.WHOLE, float: Leaf.NUMBER, bool: Leaf.TRUTH}


@functools.cache
def fields_of(cls: Any) -> Mapping[str, tuple[Leaf, Any]]:  # noqa: ANN401 - a class
    """List what each key of a record holds.

    Parameters
    ----------
    cls : type
        Class of the record.

    Returns
    -------
    mapping of str to (Leaf, type)
        How a text is read, and the type of the field without ``None``.
    """
    hints = typing.get_type_hints(cls)
    found = {}
    for field in attrs.fields(cls):
        hint = _without_none(hints[field.name])
        found[key_of(field.name)] = (_leaf(cls, field.name, hint), hint)
        if field.name in FURTHER_KEYS:
            found[field.name] = found[key_of(field.name)]
    return found | dict.fromkeys(_ALSO_IDS, (Leaf.ID, str))


def _leaf(cls: type[Any], name: str, hint: Any) -> Leaf:  # noqa: ANN401 - any annotation
    if name in figure_fields(cls):
        return Leaf.FIGURE
    if name in known_or_not(cls):
        return Leaf.COUNT
    if name == "id" or _refers(hint):
        return Leaf.ID
    return _LEAVES.get(_item(hint), Leaf.TEXT)


def _refers(hint: Any) -> bool:  # noqa: ANN401 - any annotation
    return any(member in KINDS.values() for member in _members(_item(hint)))


def _item(hint: Any) -> Any:  # noqa: ANN401 - any annotation
    """Type of what a list holds, or the type itself."""
    return typing.get_args(hint)[0] if typing.get_origin(hint) is tuple else hint


def table_class(hint: Any, table: Mapping[str, Any]) -> type[Any] | None:  # noqa: ANN401 - any annotation
    """Return the class that a table is read into.

    Parameters
    ----------
    hint : type
        Type of the field, or of a list in it.
    table : mapping
        The table; of several kinds its ``kind`` names one.

    Returns
    -------
    type, optional
        None if no table is expected there.
    """
    held = _item(hint)
    words = kinds_of(held)
    if words:
        return words.get(str(table.get("kind")))
    return held if attrs.has(held) else None


def _without_none(hint: Any) -> Any:  # noqa: ANN401 - any annotation
    members = tuple(member for member in _members(hint) if member is not types.NoneType)
    return typing.Union[members]  # noqa: UP007 - made at run time


def _members(hint: Any) -> tuple[Any, ...]:  # noqa: ANN401 - any annotation
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        return typing.get_args(hint)
    return (hint,)
