"""Numbers of a working as they are printed: given ones in full, computed ones with guard digits."""

from __future__ import annotations

import math

__all__ = ["GUARDED", "computed", "exact", "rounded"]

GUARDED = 7
"""Digits of a computed figure: more than is known of it, so that no step loses by rounding."""

# Digits that a change of units leaves right.
_FULL = 12

# Places behind the point that no figure of a car needs more of.
_MOST_PLACES = 9


def exact(number: float) -> str:
    """Write a given number with all its digits.

    Parameters
    ----------
    number : float
        The number.

    Returns
    -------
    str

    Examples
    --------
    >>> exact(79300.0), exact(0.1 + 0.2), exact(-181.0)
    ('79300', '0.3', '-181')
    """
    text = f"{number:.{_places(number, _FULL)}f}"
    return _without_zeros(text) if "." in text else text


def computed(number: float) -> str:
    """Write a computed number with its guard digits.

    Parameters
    ----------
    number : float
        The number.

    Returns
    -------
    str

    Examples
    --------
    >>> computed(27954.1234), computed(0.25), computed(2751479.6)
    ('27954.12', '0.2500000', '2751480')
    """
    # Adding zero turns a rounded -0.0 into 0.0.
    places = min(_places(number, GUARDED), _MOST_PLACES)
    return f"{round(number, places) + 0.0:.{places}f}"


def rounded(number: float) -> str:
    """Write an uncertainty with two digits.

    Parameters
    ----------
    number : float
        The number, above 0.

    Returns
    -------
    str

    Examples
    --------
    >>> rounded(155123.0), rounded(0.01234)
    ('160000', '0.012')
    """
    places = _places(number, 2)
    if places:
        return f"{number:.{places}f}"
    return f"{float(f'{number:.1e}'):.0f}"


def _places(number: float, digits: int) -> int:
    """Places behind the point that give a number so many digits."""
    if number == 0.0:
        return 0 if digits == _FULL else digits
    return max(0, digits - 1 - math.floor(math.log10(abs(number))))


def _without_zeros(text: str) -> str:
    shorter = text.rstrip("0").rstrip(".")
    return "0" if shorter in ("", "-0") else shorter
