"""Verdicts of rows, and figures of those rows that have one."""

from __future__ import annotations

from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.mechanics.common.types import Real

__all__ = ["LONGEST", "Verdicts", "answered", "picked", "places_of", "spelled", "where", "words"]

Verdicts: TypeAlias = NDArray[np.str_]
"""Verdict of each row; empty where a row is to be asked about by itself."""


LONGEST = f"<U{max(len(verdict.value) for verdict in Verdict)}"
"""Type of an array of verdicts."""


def words(*verdicts: Verdict) -> list[str]:
    """Spell verdicts, as columns hold them."""
    return [verdict.value for verdict in verdicts]


def answered(verdicts: Verdicts, flags: Any) -> Verdicts:  # noqa: ANN401 - one flag or a column
    """Keep verdicts where flags are raised; the other rows are to be asked about by themselves."""
    return picked(flags, verdicts, "")


def picked(flags: Any, one: Verdicts | str, other: Verdicts | str) -> Verdicts:  # noqa: ANN401 - as above
    """Take a verdict where flags are raised, and another elsewhere; one for all where it can be."""
    if np.all(flags):
        return np.asarray(one)
    return np.where(flags, one, other) if np.any(flags) else np.asarray(other)


def where(flags: Any, numbers: Real | None) -> Any:  # noqa: ANN401 - a number or a column
    """Keep numbers where flags are raised; elsewhere, and where nothing is known, there is none."""
    if numbers is None:
        return np.nan
    # Mostly they are raised in all rows, and to look is quick.
    return numbers if np.all(flags) else np.where(flags, numbers, np.nan)


# All verdicts, and none.
_WORDS = ("", *(verdict.value for verdict in Verdict))
_PLACES = {word: place for place, word in enumerate(_WORDS)}


def places_of(verdicts: Verdicts) -> NDArray[np.uint8]:
    """Find verdicts on the list of all: a byte each.

    Parameters
    ----------
    verdicts : array of str
        Verdicts, of which few are different ones.

    Returns
    -------
    array of int
    """
    found, left = np.zeros(verdicts.shape, dtype=np.uint8), np.ones(verdicts.shape, dtype=np.bool_)
    while left.any():
        word = verdicts[left][0]
        is_it = verdicts == word
        found[is_it] = _PLACES[str(word)]
        left &= ~is_it
    return found


def spelled(places: NDArray[np.uint8]) -> Verdicts:
    """Spell out verdicts, in an array no wider than the longest of them.

    Parameters
    ----------
    places : array of int
        What :func:`places_of` gives.

    Returns
    -------
    array of str
    """
    is_used = np.bincount(places, minlength=len(_WORDS)) > 0
    words = [word if used else "" for word, used in zip(_WORDS, is_used, strict=True)]
    return np.array(words)[places]
