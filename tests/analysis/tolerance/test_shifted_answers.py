"""Tests of `shifted_answers`: what a figure changes by, and what is no change."""

from __future__ import annotations

import math

import numpy as np
import pytest

from barwright.analysis.tolerance.shifted_answers import half_change

# Ten thousand roundings of a float, of 1.1e-16 each, add up to 1e-12 at most.
ROUNDING = 1e-12


def changed(low: float, high: float, *, middle: float) -> float:
    return float(half_change(np.array([low]), np.array([high]), middle=np.array([middle]))[0])


@pytest.mark.parametrize("size", [0.0, 0.5, 1.0, 40.0, -2e5])
def test_a_figure_that_moves_within_rounding_has_not_moved(size: float) -> None:
    rounding = ROUNDING * max(1.0, abs(size))

    assert changed(size - 0.9 * rounding, size + 0.9 * rounding, middle=size) == 0.0
    assert changed(size - 1.1 * rounding, size + 1.1 * rounding, middle=size) > rounding


def test_half_of_the_way_between_the_ends_counts() -> None:
    assert changed(3.0, 8.0, middle=5.0) == 2.5
    assert changed(8.0, 3.0, middle=5.0) == -2.5


def test_where_one_end_is_missing_the_other_counts_alone() -> None:
    assert changed(math.nan, 8.0, middle=5.0) == 3.0
    assert changed(3.0, math.nan, middle=5.0) == 2.0
    assert math.isnan(changed(math.nan, math.nan, middle=5.0))
