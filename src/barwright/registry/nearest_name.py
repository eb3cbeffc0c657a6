"""Which of the names that are known comes closest to one that is not."""

from __future__ import annotations

import difflib
import functools
import heapq
import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

__all__ = ["MOST_SUGGESTED", "nearest"]

# Comparing takes time that grows with the square of the length.
_LONGEST_NAME = 200

MOST_SUGGESTED = 1_000
"""Names that are looked at for each of very many that are wrong: a file can hold thousands."""

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
    "did you mean 'bar/dale-standard' or 'arm/dale'?"
    """
    wanted = name[:_LONGEST_NAME]
    close = difflib.get_close_matches(wanted, _promising(wanted, names), n=3, cutoff=0.5)
    if close:
        return f"did you mean {' or '.join(repr(match) for match in close)}?"
    some = sorted(names)
    return f"known: {', '.join(some[:8])}{', …' if some[8:] else ''}" if some else "none is known"


def _promising(name: str, names: Iterable[str]) -> list[str]:
    """Leave of very many names those that share most pairs of letters with one."""
    known = list(names)
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
