r"""Interval arithmetic: bounds of what a formula gives over a stretch of its arguments.

A formula that is written with :math:`+ - \times /`, :func:`square`, :func:`root` and
:func:`direction` gives numbers for numbers, and for an :class:`Interval` one that holds every
value in between: what is shown of it holds for a whole stretch of travel and not only where
somebody looked.  Bounds are wide where an argument occurs several times, and never too narrow
but for rounding, which whoever decides by them leaves room for.
"""

from __future__ import annotations

from typing import Any, TypeAlias

import attrs
import numpy as np

from barwright.mechanics.common.types import Real

__all__: list[str] = []


@attrs.frozen(eq=False)
class Interval:
    """All numbers between two limits.

    Parameters
    ----------
    low, high : float or array
        The limits, the lower one first; infinite where nothing is known.

    References
    ----------
    Interval arithmetic, after Moore; from memory.

    Examples
    --------
    >>> stretch = Interval(-1.0, 2.0)
    >>> found = 3.0 - stretch * stretch
    >>> float(found.low), float(found.high)
    (-1.0, 5.0)
    >>> float(square(stretch).low)
    0.0
    """

    low: Real
    high: Real

    # Arrays leave their sums and products with an interval to it.
    __array_ufunc__ = None

    def __neg__(self) -> Interval:
        """Turn the sign."""
        return Interval(-self.high, -self.low)

    def __add__(self, other: Bounded) -> Interval:
        """Add a number or an interval."""
        low, high = _limits(other)
        return Interval(self.low + low, self.high + high)

    __radd__ = __add__

    def __sub__(self, other: Bounded) -> Interval:
        """Subtract a number or an interval."""
        low, high = _limits(other)
        return Interval(self.low - high, self.high - low)

    def __rsub__(self, other: Real) -> Interval:
        """Subtract from a number."""
        return Interval(other - self.high, other - self.low)

    def __mul__(self, other: Bounded) -> Interval:
        """Multiply by a number or an interval."""
        if not isinstance(other, Interval):
            return _between(self.low * other, self.high * other)
        one = _between(self.low * other.low, self.high * other.high)
        two = _between(self.low * other.high, self.high * other.low)
        return Interval(np.minimum(one.low, two.low), np.maximum(one.high, two.high))

    __rmul__ = __mul__

    def __truediv__(self, other: Bounded) -> Interval:
        """Divide by a number or an interval; by one with zero in it, nothing is known."""
        if not isinstance(other, Interval):
            return _between(self.low / other, self.high / other)
        return self * _inverse(other)

    def __rtruediv__(self, other: Real) -> Interval:
        """Divide a number."""
        return _inverse(self) * other


Bounded: TypeAlias = Any
"""A number, an array of them, or an :class:`Interval`."""


def square(value: Bounded) -> Bounded:
    """Square of a number or an interval."""
    if not isinstance(value, Interval):
        return value * value
    one, other = value.low * value.low, value.high * value.high
    holds_zero = (value.low <= 0.0) & (value.high >= 0.0)
    return Interval(np.where(holds_zero, 0.0, np.minimum(one, other)), np.maximum(one, other))


def root(value: Bounded) -> Bounded:
    """Square root; of an interval, of what of it is not below zero."""
    if not isinstance(value, Interval):
        return np.sqrt(value)
    return Interval(np.sqrt(np.maximum(value.low, 0.0)), np.sqrt(value.high))


def direction(angle: Bounded) -> tuple[Bounded, Bounded]:
    r"""Cosine and sine of an angle [rad].

    .. math:: t = \tan\frac{\varphi}{2}, \qquad \cos\varphi = \frac{1 - t^2}{1 + t^2}, \qquad
              \sin\varphi = \frac{2 t}{1 + t^2}

    Parameters
    ----------
    angle : float, array or Interval [rad]
        An interval lies within a right angle either way; of a wider one nothing is known.

    Returns
    -------
    (float, array or Interval, float, array or Interval)

    References
    ----------
    Half-angle formulae.  One tangent costs a fraction of a cosine and a sine.

    Examples
    --------
    >>> cosine, sine = direction(Interval(-0.1, 0.5))
    >>> f"{cosine.low:.3f} {cosine.high:.3f} {sine.low:.3f} {sine.high:.3f}"
    '0.878 1.000 -0.100 0.479'
    """
    if isinstance(angle, Interval):
        return _bounded_direction(angle)
    half = np.tan(0.5 * angle)
    squared = half * half
    share = 1.0 / (1.0 + squared)
    return (1.0 - squared) * share, 2.0 * half * share


def parts(*, low: Real, high: Real, number: int) -> Interval:
    """Equal parts of a stretch, along a leading axis.

    Parameters
    ----------
    low, high : float or array
        Where it begins and ends.
    number : int
        How many parts.

    Returns
    -------
    Interval
    """
    share = np.arange(number + 1) / number
    edges = low + (high - low) * share.reshape(-1, *(1,) * np.ndim(np.subtract(high, low)))
    return Interval(edges[:-1], edges[1:])


def _bounded_direction(angle: Interval) -> tuple[Interval, Interval]:
    ends = [direction(end) for end in (angle.low, angle.high)]
    right = np.pi / 2.0
    is_narrow = (angle.low >= -right) & (angle.high <= right)
    holds_zero = (angle.low <= 0.0) & (angle.high >= 0.0)
    least, most = np.minimum(ends[0][0], ends[1][0]), np.maximum(ends[0][0], ends[1][0])
    return (
        _where(is_narrow, least, np.where(holds_zero, 1.0, most)),
        _where(is_narrow, ends[0][1], ends[1][1]),
    )


def _where(is_narrow: Any, low: Real, high: Real) -> Interval:  # noqa: ANN401 - a flag or many
    return Interval(np.where(is_narrow, low, -1.0), np.where(is_narrow, high, 1.0))


def _limits(value: Bounded) -> tuple[Real, Real]:
    return (value.low, value.high) if isinstance(value, Interval) else (value, value)


def _between(one: Real, other: Real) -> Interval:
    return Interval(np.minimum(one, other), np.maximum(one, other))


def _inverse(value: Interval) -> Interval:
    is_known = (value.low > 0.0) | (value.high < 0.0)
    with np.errstate(divide="ignore"):
        low, high = np.divide(1.0, value.high), np.divide(1.0, value.low)
    return Interval(np.where(is_known, low, -np.inf), np.where(is_known, high, np.inf))
