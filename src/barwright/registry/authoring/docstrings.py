"""What the docstrings of record classes say of their fields."""

from __future__ import annotations

import inspect
import re
from collections.abc import Mapping

__all__ = ["descriptions", "summary"]

_SECTION = re.compile(
    r"^Parameters\n-+\n(?P<body>.*?)(?=\n\n\S[^\n]*\n-+\n|\Z)", re.MULTILINE | re.DOTALL
)
_FIELD = re.compile(
    r"^(?P<names>\w+(?:, \w+)*) : [^\n]*\n(?P<text>(?:(?:    [^\n]*)?(?:\n|\Z))*)", re.MULTILINE
)


def summary(cls: type) -> str:
    """Return the first sentence of a class's docstring.

    Parameters
    ----------
    cls : type
        The class.

    Returns
    -------
    str

    Examples
    --------
    >>> from barwright.parts.arm import Arm
    >>> summary(Arm)
    'An arm that turns with the bar.'
    """
    return _plain(inspect.cleandoc(cls.__doc__ or "").partition("\n\n")[0])


def descriptions(cls: type) -> Mapping[str, str]:
    """Return the description of each field from a class's docstring and its bases'.

    Parameters
    ----------
    cls : type
        The class; its docstring lists its fields as parameters.

    Returns
    -------
    mapping of str to str
        By name of the field.

    Examples
    --------
    >>> from barwright.parts.arm import Arm
    >>> descriptions(Arm)["made_for"]
    'The side that it fits; left out if the left and right parts mirror each other.'
    """
    found: dict[str, str] = {}
    for base in reversed(cls.__mro__):
        section = _SECTION.search(inspect.cleandoc(base.__doc__ or ""))
        for field in _FIELD.finditer(section["body"] if section else ""):
            found |= dict.fromkeys(field["names"].split(", "), _plain(field["text"]))
    return found


def _plain(text: str) -> str:
    """Put text on one line, without the marks that only docstrings need."""
    return " ".join(text.split()).replace("``", "'")
