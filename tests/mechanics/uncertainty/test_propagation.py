"""Laws and refusals of `barwright.mechanics.uncertainty.propagation`."""

from __future__ import annotations

import inspect
import itertools
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty import propagation
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    rectangular_uncertainty,
    variance_shares,
)
from each_case import each_case

NAN = math.nan
COEFFICIENTS = st.floats(-1.0, 1.0)
CONTRIBUTIONS = st.lists(st.floats(-100.0, 100.0), min_size=1, max_size=6)


def test_a_half_width_is_root_three_standard_uncertainties() -> None:
    assert rectangular_uncertainty(0.05) == pytest.approx(0.05 / 3.0**0.5, rel=1e-15)
    assert np.shape(rectangular_uncertainty(np.ones((2, 3)))) == (2, 3)


@given(contributions=CONTRIBUTIONS)
def test_independent_contributions_add_in_squares(contributions: list[float]) -> None:
    assert combined_uncertainty(contributions) == pytest.approx(math.hypot(*contributions))


@given(one=st.floats(-9.0, 9.0), other=st.floats(-9.0, 9.0), r=COEFFICIENTS)
def test_correlated_contributions_add_as_sides_of_a_triangle(
    one: float, other: float, r: float
) -> None:
    correlation = [[1.0, r], [r, 1.0]]
    expected = one**2 + other**2 + 2.0 * r * one * other

    assert combined_uncertainty([one, other], correlation=correlation) ** 2 == pytest.approx(
        expected, abs=1e-12
    )


def test_inputs_that_err_together_add_and_those_that_err_against_each_other_cancel() -> None:
    def of(r: float) -> float:
        return float(combined_uncertainty([0.3, 0.1], correlation=[[1.0, r], [r, 1.0]]))

    assert of(1.0) == pytest.approx(0.4, rel=1e-15)
    assert of(-1.0) == pytest.approx(0.2, rel=1e-14)
    assert combined_uncertainty([0.1, 0.1], correlation=[[1.0, -1.0], [-1.0, 1.0]]) == 0.0


def test_a_variance_that_rounding_takes_below_zero_is_zero() -> None:
    r = -1.0 - 5e-10
    assert combined_uncertainty([1.0, 1.0], correlation=[[1.0, r], [r, 1.0]]) == 0.0


@given(contributions=CONTRIBUTIONS)
def test_shares_are_those_of_the_squares(contributions: list[float]) -> None:
    shares = variance_shares(contributions)
    total = sum(x**2 for x in contributions)

    assert shares == pytest.approx([x**2 / total if total else 0.0 for x in contributions])


def test_shares_with_correlation_make_one_and_may_be_negative() -> None:
    shares = variance_shares([3.0, -1.0], correlation=[[1.0, 0.5], [0.5, 1.0]])

    # 9 − 1.5 and 1 − 1.5, of 7.
    assert shares == pytest.approx([7.5 / 7.0, -0.5 / 7.0])


def test_where_nothing_contributes_nobody_has_a_share() -> None:
    assert variance_shares([[0.0, 3.0], [0.0, 4.0]]).tolist() == [[0.0, 0.36], [0.0, 0.64]]


@each_case(
    "correlation, kernel",
    itertools.product(
        [
            [[1.0]],
            [[1.0, 0.1, 0.0], [0.1, 1.0, 0.0]],
            [[1.0, 0.2], [0.1, 1.0]],
            [[1.0, 0.1], [0.1, 0.9]],
            [[1.01, 0.1], [0.1, 1.0]],
            [[1.0, 1.01], [1.01, 1.0]],
            [[1.0, NAN], [NAN, 1.0]],
            [1.0, 1.0],
        ],
        [combined_uncertainty, variance_shares],
    ),
)
def test_a_matrix_that_no_inputs_can_have_is_refused(
    kernel: Callable[..., object], correlation: list[list[float]]
) -> None:
    with pytest.raises(QuantityError) as caught:
        kernel([1.0, 2.0], correlation=correlation)

    assert str(caught.value) == (
        f"Q302: correlation: got 'a matrix of shape {np.shape(correlation)}', expected "
        "correlations of 2 inputs: symmetric, 1 on the diagonal, and no combination of inputs "
        "with a negative variance; check the coefficients, each between -1 and 1"
    )


def test_three_inputs_cannot_all_err_against_each_other() -> None:
    against = -0.6 + 1.6 * np.eye(3)
    assert combined_uncertainty([1.0, 1.0, 1.0], correlation=-0.5 + 1.5 * np.eye(3)) < 1e-7
    with pytest.raises(QuantityError):
        combined_uncertainty([1.0, 1.0, 1.0], correlation=against)


@pytest.mark.parametrize("off", [1e-10, -1e-10])
def test_rounding_in_a_matrix_is_borne(off: float) -> None:
    correlation = [[1.0 + off, 1.0 + off], [1.0, 1.0 - off]]
    assert combined_uncertainty([1.0, 1.0], correlation=correlation) == pytest.approx(2.0)


@pytest.mark.parametrize(
    "kernel",
    [
        getattr(propagation, name)
        for name in propagation.__all__
        if inspect.isfunction(getattr(propagation, name))
    ],
)
def test_at_most_one_argument_goes_without_its_name(kernel: Callable[..., object]) -> None:
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) == 1
