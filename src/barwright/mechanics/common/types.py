"""What a kernel accepts and returns: a float, or an array that broadcasts."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["Point", "Real"]

Real: TypeAlias = float | NDArray[np.float64]
"""A float or an array of floats; all kernels broadcast."""

Point: TypeAlias = tuple[float, float]
"""A point in the plane square to the bar axis: outboard [m], up [m]."""
