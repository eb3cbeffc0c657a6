"""Laws and refusals of `barwright.mechanics.uncertainty.propagation`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty import propagation
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    first_order,
    rectangular_uncertainty,
    sensitivities,
    standard_uncertainty,
    variance_shares,
)

Array = NDArray[np.float64]
NAN = math.nan
COEFFICIENTS = st.floats(-1.0, 1.0)
CONTRIBUTIONS = st.lists(st.floats(-100.0, 100.0), min_size=1, max_size=6)


def product(x: Array) -> Array:
    return np.asarray(x[0] * x[1])


def both(x: Array) -> Array:
    """Two outputs: a product and a sum."""
    return np.stack([x[0] * x[1], x[0] + x[1]])


def test_a_half_width_is_root_three_standard_uncertainties() -> None:
    assert rectangular_uncertainty(0.05) == pytest.approx(0.05 / 3.0**0.5, rel=1e-15)
    assert np.shape(rectangular_uncertainty(np.ones((2, 3)))) == (2, 3)


def test_an_expanded_uncertainty_is_divided_by_its_factor() -> None:
    assert standard_uncertainty(6.0, coverage_factor=2.0) == 3.0
    assert np.shape(standard_uncertainty(np.ones(3), coverage_factor=np.ones((2, 1)))) == (2, 3)


def test_slopes_are_taken_over_the_steps_given() -> None:
    # A cube has no straight piece: over ±h its mean slope at 0 is h².
    slopes = sensitivities(lambda x: x[0] ** 3 + 0.0 * x[1], values=[0.0, 0.0], spacings=[2.0, 1.0])

    assert slopes.tolist() == [4.0, 0.0]


def test_one_step_serves_all_inputs() -> None:
    assert sensitivities(product, values=[2.0, 3.0], spacings=0.5).tolist() == [3.0, 2.0]


def test_whole_numbers_are_numbers_too() -> None:
    # In whole numbers of 64 bits the squares would run over.
    big = [3_000_000_000, 4_000_000_000]
    result = first_order(
        product, values=[200, 50], uncertainties=[2, 1], correlation=[[1, 0], [0, 1]]
    )

    assert sensitivities(product, values=[2, 3], spacings=0.5).tolist() == [3.0, 2.0]
    assert np.asarray(result.value).dtype == np.float64
    assert combined_uncertainty(big) == 5e9
    assert variance_shares(big) == pytest.approx([0.36, 0.64])
    assert result.uncertainty == pytest.approx(1e4 * math.hypot(0.01, 0.02))


def test_slopes_use_the_distance_that_rounding_leaves() -> None:
    # 1e-3 of a step of 3e-16 is no step at all; of 1e-15 at 1 it is rounded to 8 or 12 ulp.
    (slope,) = sensitivities(lambda x: x[0], values=[1.0], spacings=[1e-15])

    assert slope == 1.0


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


def test_what_is_not_a_number_is_not_hidden() -> None:
    assert np.isnan(variance_shares([NAN, 1.0])).all()
    assert np.isnan(combined_uncertainty([NAN, 1.0]))
    result = first_order(lambda x: x[0] * NAN, values=[1.0], uncertainties=[0.1])
    assert np.isnan([result.value, result.uncertainty, *result.shares]).all()


def test_a_product_adds_relative_uncertainties() -> None:
    result = first_order(product, values=[200.0, 50.0], uncertainties=[2.0, 1.0])

    assert result.value == 10_000.0
    assert result.uncertainty == pytest.approx(1e4 * math.hypot(0.01, 0.02), rel=1e-11)
    assert result.sensitivities == pytest.approx([50.0, 200.0], rel=1e-11)
    assert result.shares == pytest.approx([0.2, 0.8], rel=1e-11)


def test_correlation_goes_through_to_uncertainty_and_shares() -> None:
    together = [[1.0, 1.0], [1.0, 1.0]]
    result = first_order(
        product, values=[200.0, 50.0], uncertainties=[2.0, 1.0], correlation=together
    )

    assert result.uncertainty == pytest.approx(1e4 * 0.03, rel=1e-11)
    assert result.shares == pytest.approx([1.0 / 3.0, 2.0 / 3.0], rel=1e-11)


def test_several_outputs_have_an_axis_of_their_own() -> None:
    result = first_order(both, values=[200.0, 50.0], uncertainties=[2.0, 1.0])

    assert np.shape(result.value) == (2,)
    assert result.sensitivities.shape == result.shares.shape == (2, 2)
    assert result.uncertainty == pytest.approx([1e4 * math.hypot(0.01, 0.02), math.hypot(2.0, 1.0)])
    assert result.sensitivities[:, 1] == pytest.approx([1.0, 1.0])


def test_a_grid_of_inputs_is_propagated_element_by_element() -> None:
    values = np.array([[100.0, 200.0, 300.0], [50.0, 50.0, 60.0]])
    uncertainties = np.array([[1.0, 2.0, 0.5], [1.0, 0.0, 2.0]])
    result = first_order(both, values=values, uncertainties=uncertainties)

    assert np.shape(result.uncertainty) == (2, 3)
    for column in range(3):
        alone = first_order(both, values=values[:, column], uncertainties=uncertainties[:, column])
        assert (
            np.asarray(result.uncertainty)[:, column].tolist()
            == np.asarray(alone.uncertainty).tolist()
        )
        assert result.shares[..., column].tolist() == alone.shares.tolist()


def test_an_exact_input_has_a_slope_and_no_share() -> None:
    result = first_order(product, values=[200.0, 0.0], uncertainties=[0.0, 0.0])
    other = first_order(product, values=[200.0, 50.0], uncertainties=[0.0, 1.0])

    assert result.sensitivities == pytest.approx([0.0, 200.0])
    assert (result.uncertainty, result.shares.tolist()) == (0.0, [0.0, 0.0])
    assert other.sensitivities == pytest.approx([50.0, 200.0], rel=1e-9)
    assert other.shares.tolist() == [0.0, 1.0]


@pytest.mark.parametrize(("at", "size"), [(1e-6, 1e-6), (1.0, 1.0), (-1e9, 1e9), (0.0, 1.0)])
def test_the_slope_in_an_exact_input_is_taken_in_its_own_size(at: float, size: float) -> None:
    seen: list[float] = []

    def watched(x: Array) -> float:
        seen.append(float(x[0]))
        return float(x[0])

    first_order(watched, values=[at], uncertainties=[0.0])

    # The cube root of the rounding of 1, over the size of the input.
    step = size * np.finfo(float).eps ** (1.0 / 3.0)
    assert sorted(seen) == pytest.approx([at - step, at, at + step], rel=1e-12)


def test_a_step_is_counted_in_standard_uncertainties() -> None:
    # At 1 a cube rises by 3 h + h³ over h: over ±0.5 its mean slope is 3.25.
    def of(step: float) -> float:
        return float(
            first_order(
                lambda x: x[0] ** 3, values=[1.0], uncertainties=[0.5], spacing=step
            ).uncertainty
        )

    assert of(1.0) == pytest.approx(0.5 * 3.25, rel=1e-14)
    assert of(0.2) == pytest.approx(0.5 * 3.01, rel=1e-13)


def test_a_step_is_a_thousandth_of_an_uncertainty_if_nothing_is_said() -> None:
    result = first_order(lambda x: x[0] ** 3, values=[0.0], uncertainties=[1.0])

    assert result.sensitivities[0] == pytest.approx(1e-6, rel=1e-12)


@pytest.mark.parametrize("uncertainties", [[-0.1, 1.0], [0.1, -1e-30]])
def test_a_negative_uncertainty_is_refused(uncertainties: list[float]) -> None:
    with pytest.raises(QuantityError) as caught:
        first_order(product, values=[1.0, 1.0], uncertainties=uncertainties)
    assert (caught.value.code, caught.value.key) == ("Q302", "uncertainties")


def test_an_uncertainty_that_is_no_number_is_refused() -> None:
    with pytest.raises(QuantityError, match="Q301: uncertainties: got 'nan'"):
        first_order(product, values=[1.0, 1.0], uncertainties=[NAN, 1.0])


@pytest.mark.parametrize(
    "correlation",
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
)
@pytest.mark.parametrize("kernel", [combined_uncertainty, variance_shares])
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
