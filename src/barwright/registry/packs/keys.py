"""How fields and kinds of record are spelled in a file."""

from __future__ import annotations

from typing import Any

__all__ = ["has_kinds", "hyphenated", "key_of", "kinds_of"]


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
    kinds = {cls.__name__.removesuffix("Mounting"): cls for cls in union.__args__}
    return {hyphenated(name): cls for name, cls in kinds.items()}


def has_kinds(cls: Any) -> bool:  # noqa: ANN401 - cattrs asks for any type
    """Tell whether a type is a union of several kinds of one thing, such as suspensions."""
    members = getattr(cls, "__args__", ())
    return bool(members) and all(getattr(m, "__name__", "").endswith("Mounting") for m in members)


def hyphenated(name: str) -> str:
    """Return "swing-arm" for "SwingArm"."""
    return "".join(f"-{c.lower()}" if c.isupper() else c for c in name).removeprefix("-")
