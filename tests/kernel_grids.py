"""A kernel called with columns and rows, held against its calls with single figures."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

__all__ = ["COLUMN", "ROW", "Call", "assert_a_grid_is_its_places"]

Call = tuple[Callable[..., Any], dict[str, NDArray[np.float64]]]

COLUMN = np.array([[1.0], [1.2]])
ROW = np.array([0.9, 1.0, 1.1])


def assert_a_grid_is_its_places(call: Call) -> None:
    """Call a kernel with arguments that are scaled columns and rows, and place by place.

    Parameters
    ----------
    call : (callable, dict of array)
        The kernel and its arguments by name, which together make a grid of 2 by 3.
    """
    kernel, arguments = call
    grid = np.asarray(kernel(**arguments))
    spread = {key: np.broadcast_to(values, (2, 3)) for key, values in arguments.items()}

    assert grid.shape == (2, 3)
    assert len(np.unique(grid)) > 1
    for place in np.ndindex(2, 3):
        alone = kernel(**{key: float(values[place]) for key, values in spread.items()})
        assert np.shape(alone) == ()
        assert grid[place] == pytest.approx(alone, rel=1e-13)
