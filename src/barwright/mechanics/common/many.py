"""Many corners in one object whose figures are arrays: some rows of it, and its bounds."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.interval import Bounded, Interval
from barwright.mechanics.common.types import Real

__all__: list[str] = []

T = TypeVar("T")


def at_rows(thing: T, rows: NDArray[Any]) -> T:
    """Return some rows of a thing; what all rows have in common stays as it is.

    Parameters
    ----------
    thing : object
        A number, an array, a record of kernels, or a tuple of them.
    rows : array of int or of bool
        Which rows.

    Returns
    -------
    object

    Examples
    --------
    >>> at_rows((np.array([1.0, 2.0, 3.0]), 7.0), np.array([True, False, True]))
    (array([1., 3.]), 7.0)
    """
    found: T = _mapped(thing, lambda array: array if array.size == 1 else array[rows])
    return found


def bounds(value: Real) -> Bounded:
    """Return a number, or the interval that holds an array's.

    Parameters
    ----------
    value : float or array
        The values of all rows.

    Returns
    -------
    float or Interval
    """
    return Interval(np.min(value), np.max(value)) if np.ndim(value) else value


def bounds_inside(thing: T) -> T:
    """Return a thing with an interval in the place of each array.

    Parameters
    ----------
    thing : object
        As of :func:`at_rows`.

    Returns
    -------
    object
    """
    found: T = _mapped(thing, bounds)
    return found


def _mapped(thing: Any, change: Callable[[Any], Any]) -> Any:  # noqa: ANN401 - of any kind
    """Change the arrays in a thing."""
    if isinstance(thing, np.ndarray):
        return change(thing) if thing.ndim else thing
    if isinstance(thing, tuple):
        parts = tuple(_mapped(part, change) for part in thing)
        return thing if _are_same(parts, thing) else parts
    if not attrs.has(type(thing)):
        return thing
    own = {
        field.alias: getattr(thing, field.name) for field in attrs.fields(type(thing)) if field.init
    }
    changed = {name: _mapped(value, change) for name, value in own.items()}
    return thing if _are_same(changed.values(), own.values()) else attrs.evolve(thing, **changed)


def _are_same(some: Any, others: Any) -> bool:  # noqa: ANN401 - values one by one
    return all(one is other for one, other in zip(some, others, strict=True))
