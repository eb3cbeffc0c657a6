"""What a kernel accepts and returns: a float, or an array that broadcasts."""

from __future__ import annotations

from typing import TypeAlias, cast

import numpy as np
from numpy.typing import NDArray

__all__ = ["Point", "Real", "plain"]

Real: TypeAlias = float | NDArray[np.float64]
"""A float or an array of floats; all kernels broadcast."""

Point: TypeAlias = tuple[float, float]
"""A point in the plane square to the bar axis: outboard [m], up [m]."""


def plain(value: Real) -> float:
    """Return what a kernel gives as a plain float, and an array as it is.

    Questions are written for one corner, in floats.  Lines of theirs that only compute, and
    decide nothing, serve columns of corners too.

    Parameters
    ----------
    value : float or array
        What a kernel gave.

    Returns
    -------
    float
        Or the array, where one was given.

    Examples
    --------
    >>> plain(np.float64(0.5))
    0.5
    >>> plain(np.array([0.5, 1.0]))
    array([0.5, 1. ])
    """
    return cast("float", value) if isinstance(value, np.ndarray) and value.ndim else float(value)
