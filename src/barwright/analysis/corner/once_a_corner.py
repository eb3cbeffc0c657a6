"""Functions of a corner that are computed once, and then kept with it."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import TypeVar

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.rests_on import Records

__all__ = ["once_a_corner"]

T = TypeVar("T")


def once_a_corner(rests_on: Records) -> Callable[[Callable[[Corner], T]], Callable[[Corner], T]]:
    """Decorate a function of a corner so that its result is kept with the corner.

    Parameters
    ----------
    rests_on : callable
        From a setup to the records that the function reads: a corner with the very same ones
        takes its answer over.

    Returns
    -------
    callable
        A decorator.
    """

    def decorated(compute: Callable[[Corner], T]) -> Callable[[Corner], T]:
        @functools.wraps(compute)
        def kept(corner: Corner) -> T:
            further = corner.further
            if compute not in further:
                further[compute] = rests_on, compute(corner)
            found: T = further[compute][1]
            return found

        return kept

    return decorated
