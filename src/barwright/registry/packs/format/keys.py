"""How fields and kinds of record are spelled in a file.

A word of the format stands here and is not made of a class's name, which may change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, get_args

from barwright.errors import SchemaError
from barwright.parts.adjuster import FixedLineMounting, KeyBoltMounting, SwivellingMounting
from barwright.parts.common.record import Record
from barwright.parts.suspension import DoubleWishboneMounting, StrutMounting, SwingArmMounting

__all__ = [
    "FURTHER_KEYS",
    "KIND_WORDS",
    "OTHER_KEYS",
    "has_kinds",
    "key_of",
    "kinds_of",
    "with_usual_keys",
    "written_key",
]

KIND_WORDS: Mapping[type[Record], str] = {
    SwivellingMounting: "swivelling",
    FixedLineMounting: "fixed-line",
    KeyBoltMounting: "key-bolt",
    StrutMounting: "strut",
    DoubleWishboneMounting: "double-wishbone",
    SwingArmMounting: "swing-arm",
}
"""What ``kind`` says of a table that may be of several kinds."""

FURTHER_KEYS: Mapping[str, str] = {"anchor": "tube"}
"""Keys that are read too, by their field's name, and the usual key in their place.

What holds a bar's anchor end is a torque tube on most vehicles, and files call it so.
"""

OTHER_KEYS: Mapping[str, str] = {**FURTHER_KEYS, **{key: own for own, key in FURTHER_KEYS.items()}}
"""Of each key that may be written in two ways, the other one."""


def key_of(field: str) -> str:
    """Return the usual key of a field.

    An underscore at the end of a field parts it from a word of Python's own.

    Parameters
    ----------
    field : str
        Name of the field.

    Returns
    -------
    str
    """
    return FURTHER_KEYS.get(field, field.removesuffix("_"))


def written_key(field: str, table: Mapping[str, Any]) -> str:
    """Return the key of a field as a table has it, or else the usual one.

    Parameters
    ----------
    field : str
        Name of the field.
    table : mapping
        The table, as parsed.

    Returns
    -------
    str
    """
    return field if field in table else key_of(field)


def with_usual_keys(table: Mapping[str, Any], fields: Iterable[str]) -> dict[str, Any]:
    """Return a table whose keys are the usual ones.

    Parameters
    ----------
    table : mapping
        The table, as parsed.
    fields : iterable of str
        Names of fields that stand in it instead of their usual keys.

    Returns
    -------
    dict

    Raises
    ------
    SchemaError
        S207 if a usual key stands in it too.
    """
    usual = {field: key_of(field) for field in fields}
    for field, key in usual.items():
        if key in table:
            raise SchemaError(
                "S207",
                value=f"{key} and {field}",
                expected="only one of them, because both mean the same part",
                remedy=f"leave {key} or {field} out",
                key=field,
            )
    return {usual.get(key, key): value for key, value in table.items()}


def kinds_of(union: Any) -> dict[str, type[Any]]:  # noqa: ANN401 - a union of classes
    """List the classes that a table of several kinds may be, by the word for its `kind`.

    Parameters
    ----------
    union : type
        Union of record classes.

    Returns
    -------
    dict of str to type
        Empty where the union is of something else.
    """
    if not has_kinds(union):
        return {}
    return {KIND_WORDS[cls]: cls for cls in get_args(union)}


def has_kinds(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Tell whether a type is a union of several kinds of one thing, such as suspensions."""
    members = get_args(cls)
    return bool(members) and all(member in KIND_WORDS for member in members)
