"""The choice of teeth by trying every pair at once, in NumPy: to check and to time it by."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.spline.clocking_search import ClockedEnd

__all__ = ["Found", "sweep"]

Found = set[tuple[int, int, int]]
"""Rotations in steps, each with the teeth on both keys."""

_Whole = NDArray[np.int64]
_Flags = NDArray[np.bool_]

_FAR = 1 << 60


def sweep(
    arm: ClockedEnd, anchor: ClockedEnd, *, wanted_steps: float, low: float, high: float
) -> Found:
    """Find the nearest rotations on both sides of a wanted one, for each way to get there.

    A way keeps a ready tooth at an end, or takes any there.

    Parameters
    ----------
    arm, anchor : ClockedEnd
        The bar's two ends.
    wanted_steps : float
        Wanted rotation in steps.
    low, high : float
        Least and greatest rotation in steps.

    Returns
    -------
    set of (int, int, int)
    """
    arm_teeth, anchor_teeth = _teeth(arm.teeth)[:, None], _teeth(anchor.teeth)[None, :]
    turn = math.lcm(arm.teeth, anchor.teeth)
    steps = arm_teeth * (turn // arm.teeth) - anchor_teeth * (turn // anchor.teeth)
    below = steps + turn * np.floor((min(wanted_steps, high) - steps) / turn).astype(np.int64)
    above = steps + turn * np.ceil((max(wanted_steps, low) - steps) / turn).astype(np.int64)
    below, above = np.where(below >= low, below, -_FAR), np.where(above <= high, above, _FAR)
    found: Found = set()
    for arm_way in arm.ways():
        for anchor_way in anchor.ways():
            is_open = _open_to(arm_way, arm_teeth) & _open_to(anchor_way, anchor_teeth)
            found.update(_best(np.where(is_open, below, -_FAR), arm_teeth, anchor_teeth, side=1))
            found.update(_best(np.where(is_open, above, _FAR), arm_teeth, anchor_teeth, side=-1))
    return found


def _teeth(count: int) -> _Whole:
    """All teeth of an end, from the blank, counted the short way round."""
    return np.arange(count, dtype=np.int64) - (count - 1) // 2


def _open_to(way: int | None, teeth: _Whole) -> _Flags:
    return np.ones(teeth.shape, dtype=np.bool_) if way is None else teeth == way


def _best(
    rotations: _Whole, arm_teeth: _Whole, anchor_teeth: _Whole, *, side: int
) -> Iterator[tuple[int, int, int]]:
    """Yield the greatest of rotations times a side, with all its ties; none of those far away."""
    best = int((side * rotations).max()) * side
    if abs(best) < _FAR:
        for row, column in np.argwhere(rotations == best).tolist():
            yield best, int(arm_teeth[row, 0]), int(anchor_teeth[0, column])
