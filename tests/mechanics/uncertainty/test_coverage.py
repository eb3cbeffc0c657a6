"""Laws and refusals of `barwright.mechanics.uncertainty.coverage`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty import coverage
from barwright.mechanics.uncertainty.coverage import (
    coverage_factor,
    expanded_uncertainty,
    symmetric_interval,
)

NAN, INF = math.nan, math.inf
SHARES = st.floats(0.001, 0.999)
LESS = "less than 1 by a part in a thousand million; write 0.95 for 95 %"
INTERVALS = [symmetric_interval]


# -- Factors -------------------------------------------------------------------


def test_an_expanded_uncertainty_is_factor_times_uncertainty() -> None:
    assert expanded_uncertainty(3.0, coverage_factor=2.5) == 7.5
    assert np.shape(expanded_uncertainty(np.ones(3), coverage_factor=np.ones((2, 1)))) == (2, 3)


@given(share=SHARES)
def test_one_degree_of_freedom_has_a_closed_form(share: float) -> None:
    # Student's distribution is then Cauchy's.
    factor = coverage_factor(share, degrees_of_freedom=1.0)

    assert factor == pytest.approx(math.tan(math.pi * share / 2.0), rel=1e-10)


@given(share=SHARES)
def test_two_degrees_of_freedom_have_a_closed_form(share: float) -> None:
    factor = coverage_factor(share, degrees_of_freedom=2.0)

    assert factor == pytest.approx(share * math.sqrt(2.0 / (1.0 - share**2)), rel=1e-11)


@given(share=SHARES)
def test_without_end_of_them_it_is_the_normal_distribution(share: float) -> None:
    assert math.erf(float(coverage_factor(share)) / math.sqrt(2.0)) == pytest.approx(
        share, rel=1e-12
    )


def test_the_more_that_is_known_the_smaller_the_factor() -> None:
    factors = np.asarray(
        coverage_factor(0.95, degrees_of_freedom=np.array([1, 2, 3, 10, 100, 1e4, 1e7, INF]))
    )

    assert np.all(np.diff(factors) < 0.0)


@pytest.mark.parametrize("freedom", [1.0, 1.999, 16.0, 16.75])
def test_degrees_of_freedom_are_cut_to_whole_ones(freedom: float) -> None:
    assert coverage_factor(0.95, degrees_of_freedom=freedom) == coverage_factor(
        0.95, degrees_of_freedom=float(int(freedom))
    )


def test_a_coverage_that_is_hardly_less_than_one_has_a_factor() -> None:
    # Beyond 6.1094 standard deviations lies a part in a thousand million.
    assert coverage_factor(1.0 - 1e-9) == pytest.approx(6.1094, rel=1e-5)
    assert coverage_factor(1.0 - 1e-9, degrees_of_freedom=1.0) == pytest.approx(
        2e9 / math.pi, rel=1e-5
    )


def test_factors_broadcast_over_coverages_and_degrees_of_freedom() -> None:
    share, freedom = np.array([[0.5], [0.95]]), np.array([1.0, 5.0, INF])
    factors = np.asarray(coverage_factor(share, degrees_of_freedom=freedom))

    assert factors.shape == (2, 3)
    assert factors[1, 1] == pytest.approx(coverage_factor(0.95, degrees_of_freedom=5.0), rel=1e-14)
    assert factors[0, 2] == pytest.approx(coverage_factor(0.5), rel=1e-14)


@pytest.mark.parametrize(
    ("share", "code", "got", "expected"),
    [
        (0.0, "Q302", "0", "more than 0; check its sign"),
        (-0.5, "Q302", "-0.5", "more than 0; check its sign"),
        (1.0, "Q302", "1", LESS),
        (1.0 - 0.9e-9, "Q302", "1", LESS),
        (95.0, "Q302", "95", LESS),
        (np.array([0.5, 1.5, 2.5]), "Q302", "1.5", LESS),
        (NAN, "Q301", "nan", "a finite number; look for a missing value or a division by zero"),
    ],
)
def test_a_coverage_beyond_all_or_nothing_is_refused(
    share: float, code: str, got: str, expected: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        coverage_factor(share)

    assert str(caught.value).startswith(f"{code}: coverage: got '{got}', expected {expected}")


@pytest.mark.parametrize(
    ("freedom", "got"), [(0.99, "0.99"), (0.0, "0"), (NAN, "nan"), (np.array([3.0, -1.0]), "-1")]
)
def test_less_than_one_degree_of_freedom_is_refused(freedom: float, got: str) -> None:
    with pytest.raises(QuantityError) as caught:
        coverage_factor(0.95, degrees_of_freedom=freedom)

    assert str(caught.value) == (
        f"Q302: degrees_of_freedom: got '{got}', expected 1 or more degrees of freedom; "
        "give the count of readings less one, or infinity"
    )


# -- Effective degrees of freedom ------------------------------------------------


# -- Intervals of draws ----------------------------------------------------------


@pytest.mark.parametrize(
    ("count", "share", "ends"),
    [
        (100, 0.90, (5.0, 95.0)),  # 90 steps, 10 to spare: the 5th and the 95th
        (101, 0.90, (5.0, 96.0)),  # 91 steps, 10 to spare
        (99, 0.90, (5.0, 94.0)),  # 89 steps, 10 to spare
        (100, 0.95, (3.0, 98.0)),  # 95 steps, 5 to spare: the middle, rounded up
        (20, 0.95, (1.0, 20.0)),
        (3, 0.5, (1.0, 3.0)),
    ],
)
def test_the_symmetric_interval_counts_from_both_ends(
    count: int, share: float, ends: tuple[float, float]
) -> None:
    draws = np.random.default_rng(7).permutation(np.arange(1.0, count + 1.0))

    assert symmetric_interval(draws, coverage=share) == ends


@pytest.mark.parametrize("interval", INTERVALS)
def test_intervals_are_taken_along_the_last_axis(interval: Callable[..., object]) -> None:
    draws = np.random.default_rng(3).standard_exponential((2, 3, 50))
    low, high = np.asarray(interval(draws, coverage=0.8))

    assert low.shape == high.shape == (2, 3)
    assert (low[1, 2], high[1, 2]) == interval(draws[1, 2], coverage=0.8)


@pytest.mark.parametrize("interval", INTERVALS)
@pytest.mark.parametrize(
    ("draws", "share", "message"),
    [
        ([1.0, NAN, 2.0], 0.5, "Q301: outputs: got 'nan', expected a finite number"),
        ([1.0, INF, 2.0], 0.5, "Q301: outputs: got 'inf', expected a finite number"),
        ([1.0, 2.0], 1.0, "Q302: coverage: got '1', expected less than 1 by"),
        ([1.0, 2.0], 0.0, "Q302: coverage: got '0', expected more than 0"),
        (
            range(9),
            0.95,
            (
                "Q302: outputs: got '9', expected more draws, for some to lie within 0.95 and some "
                "beyond; draw more"
            ),
        ),
        (
            [1.0, 2.0],
            0.2,
            (
                "Q302: outputs: got '2', expected more draws, for some to lie within 0.2 and some "
                "beyond; draw more"
            ),
        ),
    ],
)
def test_draws_that_tell_no_interval_are_refused(
    interval: Callable[..., object], draws: list[float], share: float, message: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        interval(draws, coverage=share)

    assert str(caught.value).startswith(message)


@pytest.mark.parametrize("name", coverage.__all__)
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(coverage, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) == 1
    assert kinds.count(inspect.Parameter.KEYWORD_ONLY) == 1
