"""What a vehicle can be found by: its words, and the months in which it was built."""

from __future__ import annotations

import functools
import itertools
import re
import unicodedata
from collections.abc import Iterator, Mapping

import attrs

from barwright.parts.chassis import Chassis
from barwright.parts.common.identity import Month

__all__ = [
    "ANY_WORD",
    "ATTRIBUTES",
    "EVERYWHERE",
    "Condition",
    "Months",
    "compact",
    "identity",
    "months",
    "plain_letters",
    "spelled",
    "terms",
    "words_of",
]

Months = tuple[int, int]
"""First and last month, counted from year 0: twelve times the year, and the month from 0."""

ANY_WORD = "word"
"""Attribute under which every word of a vehicle stands, whichever text it comes from."""

ATTRIBUTES = ("maker", "model", "body", "trim", "drive", "market", "code")
"""Attributes that a vehicle can be asked for by their whole text."""

EVERYWHERE = "*"
"""What a vehicle without markets has for one; no market is spelled so."""

_WORD = re.compile(r"[^\W_]+")

# Marks above and below Latin, Greek and Cyrillic letters; those of other scripts are letters.
_MARKS = re.compile("[\N{COMBINING GRAVE ACCENT}-\N{COMBINING LATIN SMALL LETTER X}]")

# Small letters that are no letter with a mark, and what is typed in their place.
_LETTERS = str.maketrans(
    {
        "\N{LATIN SMALL LETTER AE}": "ae",
        "\N{LATIN SMALL LETTER O WITH STROKE}": "o",
        "\N{LATIN SMALL LIGATURE OE}": "oe",
        "\N{LATIN SMALL LETTER L WITH STROKE}": "l",
        "\N{LATIN SMALL LETTER D WITH STROKE}": "d",
        "\N{LATIN SMALL LETTER ETH}": "d",
        "\N{LATIN SMALL LETTER THORN}": "th",
        "\N{LATIN SMALL LETTER H WITH STROKE}": "h",
        "\N{LATIN SMALL LETTER T WITH STROKE}": "t",
        "\N{LATIN SMALL LETTER DOTLESS I}": "i",
    }
)

_FROM_THE_BEGINNING, _TO_THE_END = Month(1000, 1).number, Month(9999, 12).number


@attrs.frozen(kw_only=True)
class Condition:
    """Something that a vehicle must have: a word, or a time at which it was built.

    Parameters
    ----------
    word : str
        The word, in lower case; empty if no word will do.
    attribute : str
        Attribute that holds the word; any if empty.
    months : pair of int, optional
        It is enough that the vehicle was built in one of these months.
    """

    word: str = ""
    attribute: str = ""
    months: Months | None = None


def words_of(text: str) -> list[str]:
    """Part a text into words: letters and digits in a row, capitals or not.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    list of str

    Examples
    --------
    >>> words_of("Fells carrier, FLV-21")
    ['fells', 'carrier', 'flv', '21']
    >>> words_of("Škårø")
    ['skaro']
    """
    return list(_words(text))


# Makers, bodies and markets are the same of many vehicles.
@functools.lru_cache(maxsize=1024)
def _words(text: str) -> tuple[str, ...]:
    return tuple(_WORD.findall(plain_letters(text)))


def plain_letters(text: str) -> str:
    """Return a text in small letters without diacritics, as it is typed where there are none.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str

    Examples
    --------
    >>> plain_letters("Großer Łabędź")
    'grosser labedz'
    """
    if text.isascii():
        return text.lower()
    small = unicodedata.normalize("NFKC", text).casefold().translate(_LETTERS)
    without = _MARKS.sub("", unicodedata.normalize("NFKD", small))
    return unicodedata.normalize("NFKC", without).casefold()


def compact(text: str) -> str:
    """Return a part number by its letters and digits alone, as it is looked up.

    Parameters
    ----------
    text : str
        The number, with or without spaces and hyphens.

    Returns
    -------
    str

    Examples
    --------
    >>> compact("71-20 455 A") == compact("7120455a")
    True
    """
    return "".join(words_of(text))


def spelled(text: str) -> str:
    """Return a text by its words alone: what is spelled alike is the same.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str

    Examples
    --------
    >>> spelled("Panel-Van") == spelled("panel van")
    True
    """
    return " ".join(_words(text))


def identity(chassis: Chassis) -> Mapping[str, tuple[str, ...]]:
    """List what a vehicle states of each attribute.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.

    Returns
    -------
    mapping of str to tuple of str
        Every name of :data:`ATTRIBUTES`; an empty tuple for what it does not state.
    """
    single = ("maker", "model", "body", "trim", "drive")
    stated = {name: getattr(chassis, name) for name in single}
    return {name: (text,) if text else () for name, text in stated.items()} | {
        "market": chassis.markets,
        "code": chassis.codes,
    }


def terms(chassis: Chassis) -> Iterator[tuple[str, str]]:
    """List what a vehicle can be found by, as pairs of attribute and token.

    Parameters
    ----------
    chassis : Chassis
        The vehicle, under its full id.

    Yields
    ------
    tuple of str
        :data:`ANY_WORD` and each word of its id, title and attributes; each attribute
        and its whole text as :func:`spelled` has it.
    """
    stated = identity(chassis)
    for attribute, texts in stated.items():
        yield from ((attribute, token) for token in map(spelled, texts) if token)
    if not stated["market"]:
        yield "market", EVERYWHERE
    for text in (chassis.id, chassis.title, *itertools.chain(*stated.values())):
        yield from ((ANY_WORD, word) for word in _words(text))


def months(chassis: Chassis) -> Months | None:
    """Return the months in which a vehicle was built, if it states them.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.

    Returns
    -------
    pair of int or None
        What it leaves open at one end goes on for ever.
    """
    first, last = chassis.first_built, chassis.last_built
    if first is None and last is None:
        return None
    return (
        _FROM_THE_BEGINNING if first is None else first.number,
        _TO_THE_END if last is None else last.number,
    )
