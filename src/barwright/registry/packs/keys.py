"""How fields and kinds of record are spelled in a file.

A word of the format stands here and is not made of a class's name, which may change.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args

from barwright.parts.adjuster import FixedLineMounting, KeyBoltMounting, SwivellingMounting
from barwright.parts.record import Record
from barwright.parts.suspension import DoubleWishboneMounting, StrutMounting, SwingArmMounting

__all__ = ["KIND_WORDS", "has_kinds", "key_of", "kinds_of"]

KIND_WORDS: Mapping[type[Record], str] = {
    SwivellingMounting: "swivelling",
    FixedLineMounting: "fixed-line",
    KeyBoltMounting: "key-bolt",
    StrutMounting: "strut",
    DoubleWishboneMounting: "double-wishbone",
    SwingArmMounting: "swing-arm",
}
"""What ``kind`` says of a table that may be of several kinds."""


def key_of(field: str) -> str:
    """Return the key of a field: an underscore at its end parts it from a word of Python's own.

    Parameters
    ----------
    field : str
        Name of the field.

    Returns
    -------
    str
    """
    return field.removesuffix("_")


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
