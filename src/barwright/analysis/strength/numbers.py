"""Plain numbers that a caller gives: above zero, or a share."""

from __future__ import annotations

import math
from numbers import Real as AnyNumber

from barwright.errors import QuantityError

__all__ = ["above_zero", "share"]


def above_zero(value: float) -> float:
    """Accept a number that is finite and above zero."""
    is_number = isinstance(value, AnyNumber) and not isinstance(value, bool)
    if not (is_number and math.isfinite(value) and value > 0.0):
        raise QuantityError(
            "Q302",
            value=value,
            expected="a finite number above zero",
            remedy="check the sign and the figure",
        )
    return float(value)


def share(value: float) -> float:
    """Accept a number above zero that is at most 1."""
    number = above_zero(value)
    if number > 1.0:
        raise QuantityError(
            "Q302",
            value=value,
            expected="a share above zero, at most 1",
            remedy="write 60 % as 0.6",
        )
    return number
