"""Laws and refusals of `barwright.mechanics.uncertainty.sampling`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty.sampling import Distribution, draw_inputs

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
