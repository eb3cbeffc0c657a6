"""The one iteration of this library: a Newton step that a bracket safeguards."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from barwright.errors import NotConvergedError
from barwright.mechanics.types import Real

__all__ = ["rising_root"]

_ITERATIONS = 100


def rising_root(function: Callable[[Real], tuple[Real, Real]], *, low: Real, high: Real) -> Real:
    """Argument at which a function that rises through zero is zero.

    Works on all elements at once; one that has settled is frozen, so that its
    neighbours cannot change it, and a single value is a column of length one.

    Parameters
    ----------
    function : callable
        From an argument to the function's value and slope.
    low, high : float or array
        Interval to search; where the function does not change sign in it, the
        end at which it would.

    Returns
    -------
    float or array

    Raises
    ------
    NotConvergedError
        N101 if an element does not settle: a fault of the program.

    References
    ----------
    Newton's method with bisection as its safeguard; checked against scipy.

    Examples
    --------
    >>> f"{rising_root(lambda x: (x**2 - 2.0, 2.0 * x), low=0.0, high=2.0):.12f}"
    '1.414213562373'
    """
    at_low, at_high = function(low)[0], function(high)[0]
    low, high, at_low, at_high = (
        np.array(x, dtype=np.float64) for x in np.broadcast_arrays(low, high, at_low, at_high)
    )
    starts_above, stays_below = at_low >= 0.0, at_high <= 0.0
    x = np.where(starts_above, low, np.where(stays_below, high, 0.5 * (low + high)))
    settled = np.asarray(starts_above | stays_below)
    for _ in range(_ITERATIONS):
        if settled.all():
            return x if x.ndim else float(x)
        value, slope = function(x)
        high = np.where(value > 0.0, x, high)
        low = np.where(value > 0.0, low, x)
        with np.errstate(divide="ignore", invalid="ignore"):
            newton = x - value / slope
        inside = (newton > low) & (newton < high)
        following = np.where(inside, newton, 0.5 * (low + high))
        exact = np.asarray(value == 0.0)
        close = np.abs(following - x) <= 4.0 * np.spacing(np.maximum(np.abs(x), 1.0))
        x = np.where(settled | exact, x, following)
        # A value that is not a number compares as neither; it must not settle.
        settled = settled | exact | (close & np.isfinite(value))
    raise NotConvergedError(
        "N101",
        value=f"{float(np.max(high - low)):.3g} between the limits",
        expected=f"a root within {_ITERATIONS} steps",
        remedy="report the setup that led here",
    )
