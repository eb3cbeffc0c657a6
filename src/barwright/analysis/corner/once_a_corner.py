"""Functions of a corner that are computed once, and then kept with it."""

from __future__ import annotations

import functools
from collections.abc import Callable, Hashable
from typing import Concatenate, ParamSpec, TypeVar

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.rests_on import Records

__all__ = ["once_a_corner"]

P = ParamSpec("P")
T = TypeVar("T")


def once_a_corner(
    rests_on: Records,
) -> Callable[[Callable[Concatenate[Corner, P], T]], Callable[Concatenate[Corner, P], T]]:
    """Decorate a function of a corner so that its results are kept with the corner.

    Parameters
    ----------
    rests_on : callable
        From a setup to the records that the function reads: a corner with the very same ones
        takes its answers over.

    Returns
    -------
    callable
        A decorator. What the function is given beside the corner tells its results apart.
    """

    def decorated(
        compute: Callable[Concatenate[Corner, P], T],
    ) -> Callable[Concatenate[Corner, P], T]:
        @functools.wraps(compute)
        def kept(corner: Corner, /, *given: P.args, **named: P.kwargs) -> T:
            _, results = corner.further.setdefault(compute, (rests_on, {}))
            key: Hashable = (given, *named.items())
            if key not in results:
                results[key] = compute(corner, *given, **named)
            found: T = results[key]
            return found

        return kept

    return decorated
