"""How far tolerances leave open what is counted from the present lever."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Self, TypeAlias

import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.lever_now import (
    LeverNow,
    can_be_counted,
    from_its_bolt,
    start_of,
    with_nut_of,
)
from barwright.analysis.tolerance.plan_tolerance import uncertainty_at_ends, widest_at_ends
from barwright.analysis.tolerance.shifted_corners import anchorage_ends
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted

__all__ = ["LeverTolerance"]

Array: TypeAlias = NDArray[np.float64]


class LeverTolerance:
    """The present lever of a corner at both ends of every tolerance.

    Parameters
    ----------
    now : LeverNow
        The corner as it is, its lever's angles counted from its bolt.
    present : Setup
        The corner as it is now.
    wanted : Wanted
        Where it is to stand.
    """

    def __init__(self, now: LeverNow, *, present: Setup, wanted: Wanted) -> None:
        self.now = now
        self._present = present
        self._wanted = wanted
        self._ends = anchorage_ends(now.corner)
        self._elsewhere = [self._moved(corner) for corner in self._ends.there[:-1]]

    @classmethod
    def of(cls, corner: Corner, *, present: Setup, wanted: Wanted) -> Self | None:
        """Count from the present lever; none where a height must be measured first.

        Parameters
        ----------
        corner : Corner
            As it is to be.
        present : Setup
            As it is now.
        wanted : Wanted
            Where it is to stand.

        Returns
        -------
        LeverTolerance, optional
            None with a fixed socket too.
        """
        if corner.setup.adjuster is None or not can_be_counted(corner.setup, present=present):
            return None
        setup, now = (from_its_bolt(one) for one in (with_nut_of(corner.setup, present), present))
        lever = LeverNow.of(setup, start=start_of(setup, present=now), wanted=wanted)
        return None if lever is None else cls(lever, present=now, wanted=wanted)

    def uncertainty(self, figure: Callable[[LeverNow], float]) -> float:
        """Return what stands behind the ± of a figure that each tolerance moves.

        Parameters
        ----------
        figure : callable
            From the present lever to the figure.

        Returns
        -------
        float
        """
        return uncertainty_at_ends(self._ends, self._found(figure))

    def lever(self) -> float:
        """Return what stands behind the ± of the lever's angle, from its middle [rad].

        Returns
        -------
        float
        """
        return self.uncertainty(_from_middle)

    def widest_figure(self) -> str:
        """Name the figure that causes most of the lever angle's uncertainty.

        Returns
        -------
        str
            By the fields of the setup that lead to it; one of those has a tolerance.
        """
        return widest_at_ends(self._ends, self._found(_from_middle))

    def _found(self, figure: Callable[[LeverNow], float]) -> Array:
        moved = (math.nan if one is None else figure(one) for one in self._elsewhere)
        return np.array([*moved, figure(self.now)])

    def _moved(self, corner: Corner) -> LeverNow | None:
        """Find where the free angle is to go with a figure elsewhere; none where it cannot be."""
        start = start_of(corner.setup, present=self._present)
        try:
            return LeverNow.of(corner.setup, start=start, wanted=self._wanted)
        except BarwrightError:
            return None


def _from_middle(now: LeverNow) -> float:
    """Lever angle [rad] that the present teeth ask for, from the middle of the thread."""
    return now.offset - now.corner.lever_middle
