"""How many draws an uncertainty may be found from, and how they are asked for."""

from __future__ import annotations

import math

from barwright.errors import QuantityError

__all__ = ["FEWEST_DRAWS", "MOST_DRAWS", "refuse_unless_sensible"]

FEWEST_DRAWS = 100
"""Fewer leave nothing to see beyond the interval that holds 95 % of them."""

MOST_DRAWS = 100_000
"""All of them are kept; so many take some tens of minutes, and some hundred megabytes."""


def refuse_unless_sensible(*, coverage_factor: float, draws: int, seed: int) -> None:
    """Refuse a coverage factor, a number of draws or a seed that cannot be.

    Parameters
    ----------
    coverage_factor : float
        Standard uncertainties behind a ±.
    draws : int
        How many draws, or none.
    seed : int
        Where they begin.

    Raises
    ------
    QuantityError
        Q302.
    """
    if not 0.0 < coverage_factor < math.inf:
        raise QuantityError(
            "Q302",
            value=coverage_factor,
            expected="a coverage factor above zero",
            remedy="leave it out for the usual 2",
            key="coverage_factor",
        )
    if draws != 0 and not FEWEST_DRAWS <= draws <= MOST_DRAWS:
        raise QuantityError(
            "Q302",
            value=draws,
            expected=f"0, or {FEWEST_DRAWS} to {MOST_DRAWS} draws",
            remedy="leave it out, or take 10000 for an interval of 95 %",
            key="draws",
        )
    if seed < 0:
        raise QuantityError(
            "Q302",
            value=seed,
            expected="0 or more",
            remedy="take another whole number for other draws",
            key="seed",
        )
