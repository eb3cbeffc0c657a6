"""Facts: the fields of a record that are no quantity, as a file states them."""

from __future__ import annotations

import enum
import functools
import types
import typing
from collections.abc import Set as AbstractSet
from typing import Any

import attrs

from barwright.units import UNKNOWN, is_unknown

__all__ = ["as_stated", "fact_fields", "field_types"]

# What names a record and places it among others, and what only tells one axle from the other.
_NAMES = frozenset({"id", "title", "place", "replaces", "replaced_by", "pack_version"})

_PLAIN = (bool, int, float, str, enum.Enum)


def fact_fields(cls: type) -> AbstractSet[str]:
    """List the fields of a record class that hold a count, a word, a list or a direction.

    Parameters
    ----------
    cls : type
        Class of the record.

    Returns
    -------
    set of str
        Without its names, and without what it refers to.

    Examples
    --------
    >>> from barwright.parts.spline import Socket
    >>> sorted(fact_fields(Socket))
    ['form', 'keyed', 'teeth']
    """
    return _fact_fields(cls)


def field_types(cls: type) -> dict[str, Any]:
    """Types of a class's fields, known only when all of its module is."""
    return _field_types(cls)


@functools.cache
def _field_types(cls: Any) -> dict[str, Any]:  # noqa: ANN401 - a class
    return typing.get_type_hints(cls)


@functools.cache
def _fact_fields(cls: Any) -> AbstractSet[str]:  # noqa: ANN401 - a class
    hints = field_types(cls)
    names = {field.name for field in attrs.fields(cls)} - _NAMES
    return frozenset(name for name in names if _is_fact(hints[name]))


def _is_fact(hint: Any) -> bool:  # noqa: ANN401 - any annotation
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        members = [member for member in typing.get_args(hint) if member is not types.NoneType]
        return all(map(_is_fact, members))
    if typing.get_origin(hint) is tuple:
        return all(_is_fact(item) for item in typing.get_args(hint) if item is not Ellipsis)
    # A month is no plain type, but it is written as one text.
    return isinstance(hint, type) and (issubclass(hint, _PLAIN) or hasattr(hint, "PATTERN"))


def as_stated(value: Any) -> Any:  # noqa: ANN401 - whatever a field holds
    """Return the value of a fact as a file states it.

    Parameters
    ----------
    value : object
        Value of the field.

    Returns
    -------
    bool, int, float, str or tuple of these
        ``unknown`` for a figure or a count that is not known; none for none.

    Examples
    --------
    >>> from barwright.parts.bar import Side
    >>> as_stated((0, 3)), as_stated(Side.LEFT)
    ((0, 3), 'left')
    """
    if value is None or isinstance(value, bool | int | float | str):
        return value
    if isinstance(value, tuple):
        return tuple(map(as_stated, value))
    if isinstance(value, enum.Enum):
        return value.value
    return UNKNOWN if is_unknown(value) else str(value)
