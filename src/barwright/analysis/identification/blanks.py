"""Whether the blanks that are seen on a bar's end are those that are listed."""

from __future__ import annotations

import functools
from collections.abc import Collection

__all__ = ["OF_ANY_BAR", "blanks_probability"]

# Common practice, no source: how often an end shows what is listed, and how often a tooth
# more has been removed at some earlier work.  Else somebody has not looked well.
_AS_LISTED = 0.88
_FURTHER_CUT = 0.10
_MISSED = 1.0 - _AS_LISTED - _FURTHER_CUT

OF_ANY_BAR = 0.5
"""How likely any blanks are on a bar of which nothing is known."""


@functools.cache
def blanks_probability(seen: tuple[int, ...], *, listed: tuple[int, ...], teeth: int) -> float:
    """Return how likely some blanks are on an end that is listed with others.

    Parameters
    ----------
    seen : tuple of int
        Teeth that are missing, counted on from one of the blanks, either way round.
    listed : tuple of int
        Teeth that are missing, as they are listed.
    teeth : int
        Of the whole circle.

    Returns
    -------
    float
        From 0 to 1.
    """
    expected = {place % teeth for place in listed}
    if not listed or not seen:
        return _AS_LISTED if not seen and not listed else _odd(seen, expected)
    ways = [_turned(seen, by, sense, teeth) for by in range(teeth) for sense in (1, -1)]
    if expected in ways:
        return _AS_LISTED
    return _FURTHER_CUT if any(expected < way for way in ways) else _MISSED


def _odd(seen: Collection[int], expected: Collection[int]) -> float:
    """Where one of both has no blank: a tooth may have been removed since."""
    return _FURTHER_CUT if seen and not expected else _MISSED


def _turned(places: Collection[int], by: int, sense: int, teeth: int) -> set[int]:
    return {(by + sense * place) % teeth for place in places}
