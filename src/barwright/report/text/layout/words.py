"""Where a line may end: at a space, but not between a number and its unit."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from barwright.units.kinds import UNITS

__all__ = ["cells", "unbroken", "wrapped"]

_NUMBER = re.compile(r"[('\"±+-]*\d[\d.,]*")
_SHOWN = {unit.replace("**3", "³").replace("*", "·") for unit in UNITS}
_UNITS = frozenset({*UNITS, *_SHOWN, "%", "turns"})
_AFTER_A_UNIT = ",;.:)'\""
_BETWEEN = frozenset({"±", "+/-", "×"})


def cells(text: str) -> int:
    """Count the columns that a text takes on a terminal.

    Parameters
    ----------
    text : str
        One line.

    Returns
    -------
    int

    Examples
    --------
    >>> cells("±"), cells("車"), cells("e\u0301")
    (1, 2, 1)
    """
    if text.isascii():
        return len(text)
    return sum(map(_cells_of, text))


def _cells_of(letter: str) -> int:
    if unicodedata.combining(letter):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1


def unbroken(text: str) -> list[str]:
    """Part a text where a line may end.

    Parameters
    ----------
    text : str
        One line.

    Returns
    -------
    list of str
        Words, and figures with their units.

    Examples
    --------
    >>> unbroken("stands at 349 ± 7 mm, tooth 3")
    ['stands', 'at', '349 ± 7 mm,', 'tooth', '3']
    """
    parts: list[str] = []
    last = ""
    for word in text.split():
        if parts and _holds_on(last, word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
        last = word
    return parts


def _holds_on(before: str, word: str) -> bool:
    """Whether two words in a row are of one figure."""
    if before in _BETWEEN or word in _BETWEEN:
        return True
    is_number = _NUMBER.fullmatch(before) is not None
    return is_number and word.rstrip(_AFTER_A_UNIT) in _UNITS


def wrapped(text: str, width: int) -> Iterator[str]:
    """Part a text into lines.

    Parameters
    ----------
    text : str
        One line.
    width : int
        Of the lines.  What cannot be broken and is wider stands in a line of its own: the
        name of a file stays whole, so that it can be copied.

    Yields
    ------
    str

    Examples
    --------
    >>> list(wrapped("the bar stands at 349 mm", 15))
    ['the bar stands', 'at 349 mm']
    """
    line, room = "", width
    for part in unbroken(text):
        size = cells(part)
        if line and size + 1 > room:
            yield line
            line, room = part, width - size
        else:
            line, room = (f"{line} {part}", room - size - 1) if line else (part, room - size)
    yield line
