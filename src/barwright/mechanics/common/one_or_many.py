"""What NumPy does of many numbers, of one number alone in a fraction of the time.

The equations of a kernel stand once, for floats and for arrays; these are the functions in
which the two differ. An element of an array comes out as the float alone does.
"""

from __future__ import annotations

import math
from typing import Any, TypeAlias, cast

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.types import Real

__all__: list[str] = []

Flags: TypeAlias = bool | np.bool_ | NDArray[np.bool_]
"""What a comparison of floats or arrays gives."""


def cosine_and_sine(angle: Real) -> tuple[Real, Real]:
    """Cosine and sine of an angle [rad]."""
    if isinstance(angle, float) and math.isfinite(angle):
        return math.cos(angle), math.sin(angle)
    return np.cos(angle), np.sin(angle)


def fourth_power(length: Real) -> Real:
    """Fourth power; of many numbers by squares, since NumPy takes fifty times as long for it."""
    if isinstance(length, np.ndarray) and length.ndim:
        return np.square(np.square(length))
    return length**4


def hypotenuse(vector: tuple[Real, Real]) -> Real:
    """Length of a vector in the plane."""
    one, other = vector
    # NumPy's functions of two numbers take fifteen times as long; of huge ones only they work.
    if isinstance(one, float) and isinstance(other, float) and -_HUGE < one < _HUGE > abs(other):
        # Whatever divides by one of NumPy's numbers gets no error.
        return np.float64(abs(complex(one, other)))
    result: Real = np.hypot(one, other)
    return result


def lowest(first: Real, *others: Real) -> Real:
    """Lowest of several numbers; none where one of them is no number."""
    for other in others:
        if isinstance(first, float) and isinstance(other, float):
            first = first if first < other or math.isnan(first) else other
        else:
            first = np.minimum(first, other)
    return first


def highest(first: Real, *others: Real) -> Real:
    """Highest of several numbers; none where one of them is no number."""
    for other in others:
        if isinstance(first, float) and isinstance(other, float):
            first = first if first > other or math.isnan(first) else other
        else:
            first = np.maximum(first, other)
    return first


# A length whose square is far from the greatest number.
_HUGE = 1e150


def every(flags: Flags) -> bool:
    """Whether all flags are set."""
    return bool(flags if isinstance(flags, bool | np.bool_) else flags.all())


def some(flags: Flags) -> bool:
    """Whether one of the flags is set."""
    return bool(flags if isinstance(flags, bool | np.bool_) else flags.any())


def chosen(flags: Flags, value: Any, other: Any) -> Any:  # noqa: ANN401 - numbers, or places of a list
    """One value where a flag is set, and another where it is not."""
    if isinstance(flags, bool | np.bool_):
        return value if flags else other
    return np.where(flags, value, other)[()]


def plain(value: Real) -> float:
    """Return what a kernel gives as a plain float, and an array as it is.

    Questions are written for one corner, in floats.  Lines of theirs that only compute, and
    decide nothing, serve columns of corners too.
    """
    return cast("float", value) if isinstance(value, np.ndarray) and value.ndim else float(value)
