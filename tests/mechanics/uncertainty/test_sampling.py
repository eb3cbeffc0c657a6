"""Laws and refusals of `barwright.mechanics.uncertainty.sampling`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty.sampling import Distribution, draw_inputs, monte_carlo

Array = NDArray[np.float64]
KINDS = list(Distribution)
USUAL: dict[str, Any] = {
    "values": [10.0, -3.0],
    "uncertainties": [1.0, 0.5],
    "draws": 200_000,
    "seed": 4,
}


def draws(**change: Any) -> Array:
    return draw_inputs(**(USUAL | change))


@pytest.mark.parametrize("kind", KINDS)
def test_draws_have_the_mean_and_the_spread_of_their_inputs(kind: Distribution) -> None:
    drawn = draws(distributions=kind)

    assert drawn.shape == (2, 200_000)
    assert drawn.mean(axis=-1) == pytest.approx([10.0, -3.0], abs=0.01)
    assert drawn.std(axis=-1) == pytest.approx([1.0, 0.5], rel=0.01)


@pytest.mark.parametrize(
    ("kind", "half", "kurtosis"),
    [
        (Distribution.RECTANGULAR, 3.0**0.5, 1.8),
        (Distribution.TRIANGULAR, 6.0**0.5, 2.4),
        (Distribution.NORMAL, math.inf, 3.0),
    ],
)
def test_each_distribution_has_its_own_width_and_flatness(
    kind: Distribution, half: float, kurtosis: float
) -> None:
    off = draws(distributions=kind)[0] - 10.0

    assert np.abs(off).max() <= half
    assert np.mean(off**4) / np.mean(off**2) ** 2 == pytest.approx(kurtosis, rel=0.02)
    assert np.mean(off**3) == pytest.approx(0.0, abs=0.02)


def test_inputs_are_drawn_from_rectangles_if_nothing_is_said() -> None:
    assert draws().tolist() == draws(distributions=Distribution.RECTANGULAR).tolist()


def test_each_input_may_have_a_distribution_of_its_own() -> None:
    drawn = draws(distributions=[Distribution.NORMAL, Distribution.RECTANGULAR])

    assert np.abs(drawn[0] - 10.0).max() > 3.0
    assert np.abs(drawn[1] + 3.0).max() <= 0.5 * 3.0**0.5


def test_inputs_are_drawn_apart_from_each_other() -> None:
    one, other = draws()

    assert np.corrcoef(one, other)[0, 1] == pytest.approx(0.0, abs=0.01)


def test_a_seed_settles_the_draws() -> None:
    assert draws(draws=10).tolist() == draws(draws=10).tolist()
    assert draws(draws=10).tolist() != draws(draws=10, seed=5).tolist()


def test_one_uncertainty_serves_all_inputs_and_an_exact_one_stays() -> None:
    assert draws(uncertainties=0.0).std() == pytest.approx(6.5)
    assert set(draws(uncertainties=[0.0, 1.0])[0]) == {10.0}


def test_one_seed_gives_the_same_places_in_the_spread_of_any_input() -> None:
    standard = draw_inputs(values=[0.0], uncertainties=[1.0], draws=9, seed=4)
    other = draw_inputs(values=[10], uncertainties=[2], draws=9, seed=4)

    assert other.tolist() == (10.0 + 2.0 * standard).tolist()


def test_draws_are_those_of_the_generator() -> None:
    drawn = draw_inputs(
        values=[10.0], uncertainties=[2.0], distributions=Distribution.NORMAL, draws=9, seed=4
    )

    assert drawn[0].tolist() == (10.0 + 2.0 * np.random.default_rng(4).standard_normal(9)).tolist()


def test_two_draws_are_the_fewest() -> None:
    assert draws(draws=2).shape == (2, 2)


def test_a_grid_of_inputs_is_drawn_element_by_element() -> None:
    drawn = draw_inputs(values=np.zeros((2, 3)), uncertainties=np.ones((2, 3)), draws=5, seed=1)

    assert drawn.shape == (2, 3, 5)
    assert len(set(drawn.ravel())) == 30


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"uncertainties": [1.0, -0.1]}, "Q302: uncertainties: got '-0.1', expected 0 or more"),
        ({"uncertainties": math.nan}, "Q301: uncertainties: got 'nan', expected a finite number"),
        ({"draws": 1}, "Q302: draws: got '1', expected a whole number of at least 2 draws"),
        ({"draws": 1000.0}, "Q302: draws: got '1000', expected a whole number of at least 2"),
        ({"seed": -1}, "Q302: seed: got '-1', expected a whole number of 0 or more"),
        ({"seed": 0.5}, "Q302: seed: got '0.5', expected a whole number of 0 or more"),
    ],
)
def test_what_cannot_be_drawn_is_refused(change: dict[str, Any], message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        draws(**change)

    assert str(caught.value).startswith(message)


def test_distributions_are_one_for_all_or_one_for_each() -> None:
    with pytest.raises(ValueError, match="zip"):
        draws(distributions=[Distribution.NORMAL])


# -- Through a function --------------------------------------------------------


def product(x: Array) -> Array:
    return np.asarray(x[0] * x[1])


def both(x: Array) -> Array:
    return np.stack([x[0] * x[1], x[0] + x[1]])


def test_all_draws_go_through_the_function() -> None:
    result = monte_carlo(product, **(USUAL | {"draws": 50}))
    drawn = draws(draws=50)

    assert result.outputs.tolist() == (drawn[0] * drawn[1]).tolist()
    assert result.mean == pytest.approx(np.mean(result.outputs), rel=1e-14)
    # The standard deviation of a sample, with one draw less in its mean of squares.
    off = result.outputs - np.mean(result.outputs)
    assert result.uncertainty == pytest.approx(math.sqrt(sum(off**2) / 49.0), rel=1e-12)


@pytest.mark.parametrize("function", [product, both])
def test_a_function_that_does_not_broadcast_is_called_for_each_draw(function: Any) -> None:
    calls: list[tuple[int, ...]] = []

    def alone(x: Array) -> Array:
        calls.append(x.shape)
        return np.asarray(function(x))

    slow = monte_carlo(alone, **(USUAL | {"draws": 20}), broadcasts=False)
    quick = monte_carlo(function, **(USUAL | {"draws": 20}))

    assert calls == [(2,)] * 20
    assert slow.outputs.tolist() == quick.outputs.tolist()
    assert np.asarray(slow.mean).tolist() == np.asarray(quick.mean).tolist()


@pytest.mark.parametrize("broadcasts", [True, False])
def test_a_grid_of_inputs_goes_through_draw_by_draw(*, broadcasts: bool) -> None:
    shapes: list[tuple[int, ...]] = []

    def counted(x: Array) -> Any:
        shapes.append(x.shape)
        return (x[0] > 0.0).astype(int)

    grid = np.ones((2, 3))
    result = monte_carlo(
        counted, values=grid, uncertainties=grid, draws=5, seed=1, broadcasts=broadcasts
    )

    assert shapes == [(2, 3, 5)] if broadcasts else [(2, 3)] * 5
    assert result.outputs.shape == (3, 5)
    assert result.outputs.dtype == np.float64


def test_a_function_is_taken_to_broadcast_if_nothing_is_said() -> None:
    calls: list[tuple[int, ...]] = []

    def watched(x: Array) -> Array:
        calls.append(x.shape)
        return product(x)

    monte_carlo(watched, **(USUAL | {"draws": 20}))

    assert calls == [(2, 20)]


def test_distributions_go_through_to_the_draws() -> None:
    kinds = [Distribution.TRIANGULAR, Distribution.NORMAL]
    result = monte_carlo(product, **(USUAL | {"draws": 30}), distributions=kinds)
    drawn = draws(draws=30, distributions=kinds)

    assert result.outputs.tolist() == (drawn[0] * drawn[1]).tolist()


def test_several_outputs_have_an_axis_of_their_own() -> None:
    result = monte_carlo(both, **USUAL)

    assert result.outputs.shape == (2, 200_000)
    assert result.mean == pytest.approx([-30.0, 7.0], rel=1e-2)
    assert result.uncertainty == pytest.approx(
        [math.sqrt(9.0 + 25.0 + 0.25), math.hypot(1.0, 0.5)], rel=0.01
    )


def test_a_mean_knows_of_the_bend_that_a_first_order_does_not() -> None:
    result = monte_carlo(lambda x: x[0] ** 2, **(USUAL | {"values": [0.0, 0.0]}))

    assert result.mean == pytest.approx(1.0, rel=0.01)


def test_what_is_not_a_number_is_not_hidden() -> None:
    result = monte_carlo(lambda x: np.where(x[0] > 10.0, math.nan, x[0]), **(USUAL | {"draws": 9}))

    assert np.isnan(result.mean)
    assert np.isnan(result.uncertainty)
