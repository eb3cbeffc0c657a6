"""Root finding: Newton's method, safeguarded by a bracket.

Functions are continuous, and may have corners where a spring makes contact; each
gives its slope along with its value.  All elements of an array are worked on at
once, and one that has settled is frozen, so that its neighbours cannot change it.
A Newton step is taken where it stays in the bracket, goes up a rising function and
at least halves the step before; anywhere else the bracket is halved.  So an answer is
found to rounding, or N101 is raised; a value that is not a number never settles.
Where several roots are possible, :func:`first_root` looks along the interval first,
and can miss what happens wholly within a sixty-fourth part of it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.errors import NotConvergedError
from barwright.mechanics.common.types import Real

__all__ = ["first_root", "rising_root"]

_Function: TypeAlias = Callable[[Any], tuple[Any, Any]]
_Array: TypeAlias = NDArray[np.float64]

_ITERATIONS = 100

# Parts of an interval at whose ends a function is looked at, and how many
# values are asked for at a time.
_PARTS = 64
_BLOCK = 1 << 16

# Halvings of such a part that find a top between its ends to rounding.
_HALVINGS = 50


def rising_root(function: Callable[[Real], tuple[Real, Real]], *, low: Real, high: Real) -> Real:
    """Root of a function that rises through zero.

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
    if not any(map(np.ndim, (low, high, at_low, at_high))):
        ends = map(float, (low, high, at_low, at_high))
        return _root_of_one(function, *ends)
    return _roots(function, low, high, at_low, at_high)


def _root_of_one(
    function: _Function, low: float, high: float, at_low: float, at_high: float
) -> float:
    """Do as :func:`_roots` does, with one number alone."""
    starts_above, stays_below = at_low >= 0.0, at_high <= 0.0
    x = low if starts_above else high if stays_below else 0.5 * (low + high)
    is_known = math.isfinite(at_low) and math.isfinite(at_high)
    is_settled = (starts_above or stays_below) and is_known
    last = high - low
    for _ in range(_ITERATIONS):
        if is_settled:
            return x
        # Whatever divides by one of NumPy's numbers gets no error.
        value, slope = map(float, function(np.float64(x)))
        low, high = (low, x) if value > 0.0 else (x, high)
        rounding = 4.0 * math.ulp(max(abs(x), 1.0))
        rises = slope > 0.0 and math.isfinite(slope)
        step = -value / slope if rises else math.inf
        newton, middle = x + step, 0.5 * (low + high)
        is_safe = low < newton < high and abs(step) <= 0.5 * last
        is_root = value == 0.0 or abs(step) <= rounding
        following = x if value == 0.0 else newton if is_root or is_safe else middle
        last, x = abs(following - x), following
        is_known = is_known and math.isfinite(value)
        is_settled = (is_root or last <= rounding) and is_known
    raise _unsettled(high - low)


def _roots(function: _Function, low: Real, high: Real, at_low: Real, at_high: Real) -> _Array:
    low, high, at_low, at_high = (
        np.array(x) for x in np.broadcast_arrays(low, high, at_low, at_high)
    )
    starts_above, stays_below = at_low >= 0.0, at_high <= 0.0
    x = np.where(starts_above, low, np.where(stays_below, high, 0.5 * (low + high)))
    # A value that is not a number compares as neither; what met one must not settle.
    known = np.isfinite(at_low) & np.isfinite(at_high)
    settled = np.asarray((starts_above | stays_below) & known)
    last = high - low
    for _ in range(_ITERATIONS):
        if settled.all():
            return x
        value, slope = function(x)
        is_above = value > 0.0
        high, low = np.where(is_above, x, high), np.where(is_above, low, x)
        rounding = 4.0 * np.spacing(np.maximum(np.abs(x), 1.0))
        following, is_root = _following(
            x, value, slope, low=low, high=high, most=0.5 * last, rounding=rounding
        )
        last = np.abs(following - x)
        x = np.where(settled, x, following)
        known = known & np.isfinite(value)
        settled = settled | ((is_root | (last <= rounding)) & known)
    raise _unsettled(float(np.max(high - low)))


def _unsettled(width: float) -> NotConvergedError:
    """Refuse to answer where no root was found."""
    return NotConvergedError(
        "N101",
        value=f"{width:.3g} between the limits",
        expected=f"a root within {_ITERATIONS} steps",
        remedy="report this setup",
    )


def _following(
    x: _Array,
    value: Real,
    slope: Real,
    *,
    low: _Array,
    high: _Array,
    most: _Array,
    rounding: _Array,
) -> tuple[_Array, Any]:
    """Next place to look at, and whether this one was the root."""
    rises = (slope > 0.0) & np.isfinite(slope)
    with np.errstate(over="ignore"):
        step = np.divide(-value, slope, out=np.full(x.shape, np.inf), where=rises)
    newton, size, is_zero = x + step, np.abs(step), value == 0.0
    is_safe = (newton > low) & (newton < high) & (size <= most)
    is_root = is_zero | (size <= rounding)
    near = np.where(is_zero, x, newton)
    return np.where(is_root, near, np.where(is_safe, newton, 0.5 * (low + high))), is_root


def first_root(function: Callable[[Real], tuple[Real, Real]], *, low: Real, high: Real) -> Real:
    """First root of a function, from the low end.

    Parameters
    ----------
    function : callable
        From an argument to the function's value and slope; of a leading axis more
        than the interval's it must make just that.
    low, high : float or array
        Interval to search; its low end where the function is not below zero there,
        its high end where it stays below zero.

    Returns
    -------
    float or array

    Raises
    ------
    NotConvergedError
        N101 if an element does not settle: a fault of the program.

    Notes
    -----
    The interval is looked at in 64 equal parts.  A function that comes up to zero
    and falls again within one part is seen if it rises at the part's one end, falls
    at the other and has one top between them.

    References
    ----------
    Checked against a search in steps a thousand times finer.

    Examples
    --------
    Of the three roots of a cubic the first:

    >>> def cubic(x):
    ...     return (x + 0.5) * (x - 0.1) * (x - 0.7), 3.0 * x**2 - 0.6 * x - 0.33
    >>> f"{first_root(cubic, low=-1.0, high=1.0):.12f}"
    '-0.500000000000'
    """
    at_low = function(low)[0]
    shape = np.broadcast_shapes(np.shape(low), np.shape(high), np.shape(at_low))
    found = np.broadcast_to(np.greater_equal(at_low, 0.0), shape)
    bracket = [np.broadcast_to(edge, shape) for edge in (low, high, at_low, 0.0)]
    is_within = np.zeros(shape, dtype=np.bool_)
    parts = max(1, _BLOCK // max(math.prod(shape), 1))
    for first in range(0, _PARTS, parts):
        if found.all():
            break
        share = np.arange(first, min(first + parts, _PARTS) + 1) / _PARTS
        # Limits that all elements have in common make places that they have in common, where
        # a function need find but once what depends on the place alone.
        share = share.reshape(-1, *(1,) * len(shape))
        part, is_there = _first_part(function, low * (1.0 - share) + high * share)
        is_new = is_there & ~found
        bracket = [np.where(is_new, *edges) for edges in zip(part, bracket, strict=True)]
        found, is_within = found | is_there, is_within | is_new
    left, right, at_left, at_right = bracket
    if not shape:
        return rising_root(function, low=left, high=right)
    if not is_within.all():
        at_right = np.where(is_within, at_right, function(high)[0])
    return _roots(function, left, right, at_left, at_right)


def _first_part(function: _Function, x: _Array) -> tuple[list[_Array], Any]:
    """First part, along the leading axis, in which a function comes up to zero.

    Returns
    -------
    (list of array, array of bool)
        Both ends of the part, the values there, and whether there is such a part.
    """
    value, slope = np.broadcast_arrays(*function(x))
    begin, end, at_end = x[:-1], x[1:], value[1:]
    # Where there is no number there is no telling, which the search then finds out.
    comes_up = (at_end >= 0.0) | np.isnan(at_end)
    # It may have come up before an end at which it is just zero and falling.
    may_top = (at_end <= 0.0) & (slope[:-1] > 0.0) & (slope[1:] < 0.0)
    if may_top.any():
        top = _top(function, begin, end)
        at_top = function(top)[0]
        over = may_top & (at_top >= 0.0)
        end, at_end = np.where(over, top, end), np.where(over, at_top, at_end)
        comes_up = comes_up | over
    place = np.argmax(comes_up, axis=0)
    there = (place, *np.indices(place.shape, sparse=True))
    edges = (begin, end, value[:-1], at_end)
    part = [np.broadcast_to(edge, comes_up.shape)[there] for edge in edges]
    return part, comes_up.any(axis=0)


def _top(function: _Function, low: _Array, high: _Array) -> _Array:
    """Place between two others where a function that rises begins to fall."""
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        rises = function(middle)[1] > 0.0
        low, high = np.where(rises, middle, low), np.where(rises, high, middle)
    return 0.5 * (low + high)
