"""Which of the names that are known comes closest to one that is not: the one search for it."""

from __future__ import annotations

import difflib
import functools
import heapq
import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

__all__ = ["MOST_SUGGESTED", "closest", "is_one_slip", "nearest"]

# Comparing takes time that grows with the square of the length.
_LONGEST_NAME = 200

MOST_SUGGESTED = 1_000
"""Names that are looked at for each of very many that are wrong: a file can hold thousands."""

_MOST_NAMED = 3

# Share of letters in common from which two words look alike. Of short words, half are in common
# by chance: 'note' and 'bore'.
_ALIKE = 0.6
_SHORT = 5
_ALIKE_IF_SHORT = 0.75

# Letter by letter; a pack whose every reference is wrong would take hours.
_MOST_COMPARED = 10


def nearest(name: str, names: Sequence[str] | Mapping[str, Any]) -> str:
    """Say which known names come closest to one that is unknown.

    Parameters
    ----------
    name : str
        The unknown name.
    names : collection of str
        The known ones.

    Returns
    -------
    str
        A remedy for a message.

    Examples
    --------
    >>> nearest("bar/dale-standrad", ["bar/dale-standard", "arm/dale"])
    "did you mean 'bar/dale-standard'?"
    """
    close = closest(name, names, most=_MOST_NAMED)
    if close:
        return f"did you mean {' or '.join(repr(match) for match in close)}?"
    some = sorted(names)
    return f"known: {', '.join(some[:8])}{', …' if some[8:] else ''}" if some else "none is known"


def closest(name: str, names: Iterable[str], *, most: int = 5) -> list[str]:
    """List the known names that a person may have meant.

    Parameters
    ----------
    name : str
        What was written.
    names : iterable of str
        What could have been.
    most : int
        How many are listed at most.

    Returns
    -------
    list of str
        Those that are one slip away: a letter too many, too few, another one, or two
        that have changed places.  If there is none, what looks alike.

    Examples
    --------
    >>> closest("shrot", ["front", "long", "short", "sport"])
    ['short']
    >>> closest("wheelbse2", ["wheelbarrow", "wheelbase"])
    ['wheelbase', 'wheelbarrow']
    """
    wanted, known = name[:_LONGEST_NAME], list(names)
    slips = [other for other in known if is_one_slip(wanted, other)]
    slips.sort(key=lambda other: -difflib.SequenceMatcher(None, wanted, other).ratio())
    if slips:
        return slips[:most]
    cutoff = _ALIKE if len(wanted) > _SHORT else _ALIKE_IF_SHORT
    return difflib.get_close_matches(wanted, _promising(wanted, known), n=most, cutoff=cutoff)


def is_one_slip(word: str, other: str) -> bool:
    """Tell whether one slip of the pen lies between two words."""
    if abs(len(word) - len(other)) > 1 or word == other:
        return False
    start = len(_shared(word, other))
    rest, other_rest = word[start:], other[start:]
    end = len(_shared(rest[::-1], other_rest[::-1]))
    rest, other_rest = rest[: len(rest) - end], other_rest[: len(other_rest) - end]
    if len(rest) == len(other_rest) == 2:  # noqa: PLR2004 - two letters that have changed places
        return rest == other_rest[::-1]
    return max(len(rest), len(other_rest)) == 1


def _shared(word: str, other: str) -> str:
    """Return the letters with which both begin."""
    pairs = itertools.takewhile(lambda pair: pair[0] == pair[1], zip(word, other, strict=False))
    return "".join(letter for letter, _ in pairs)


def _promising(name: str, known: list[str]) -> list[str]:
    """Leave of very many names those that share most pairs of letters with one."""
    if len(known) <= _MOST_COMPARED:
        return known
    pairs = _pairs(name)

    def likeness(other: str) -> float:
        return (pairs & _pairs(other)).bit_count() / (len(name) + len(other))

    return heapq.nlargest(_MOST_COMPARED, known, key=likeness)


@functools.lru_cache(maxsize=2**15)
def _pairs(name: str) -> int:
    """Set a bit for each pair of letters; some pairs share one."""
    bits = {(31 * ord(one) + ord(other)) % 256 for one, other in itertools.pairwise(name)}
    return sum(1 << bit for bit in bits)
