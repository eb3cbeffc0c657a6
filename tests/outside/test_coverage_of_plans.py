"""Two standard uncertainties of figures that lie in rectangles cover about 95 %, or more."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from barwright.analysis.tolerance.shifted_answers import COVERAGE_FACTOR, uncertainty

# Percent that the sum of so many equal rectangles lies within.
SHARES = {1: 100.0, 2: 96.63, 3: 95.83, 12: 95.5}


@pytest.mark.parametrize("count", [1, 2, 3, 5, 12])
def test_equal_rectangles_lie_within_by_the_distribution_of_their_sum(count: int) -> None:
    open_by = float(uncertainty(np.ones(count)))
    # Irwin and Hall's distribution is of a sum of rectangles from 0 to 1.
    reach = min(0.5 * (count + open_by), float(count))
    share = 100.0 * (2.0 * float(stats.irwinhall(count).cdf(reach)) - 1.0)

    assert COVERAGE_FACTOR == 2.0
    assert share > 95.4
    if count in SHARES:
        assert share == pytest.approx(SHARES[count], abs=0.05)


def test_one_rectangle_among_small_ones_is_covered_whole() -> None:
    widths = np.array([1.0, 0.1, 0.05])
    drawn = np.random.default_rng(1).uniform(-1.0, 1.0, (100_000, 3)) @ widths

    assert np.mean(np.abs(drawn) <= float(uncertainty(widths))) > 0.999
