"""Laws and refusals of `barwright.mechanics.vehicle.balance`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import lsq_linear

from barwright.errors import QuantityError
from barwright.mechanics.vehicle.balance import (
    cross_weight,
    cross_weight_change,
    front_share,
    left_share,
    nearest_settings,
    self_stress,
)
from barwright.mechanics.vehicle.roll import AntiRollBar
from barwright.mechanics.vehicle.static_equilibrium import settle
from barwright.mechanics.vehicle.vehicle import Vehicle

FIGURES: dict[str, Any] = {
    "mass": 1300.0,
    "centre_of_gravity": (0.1, 0.02, 0.6),
    "wheels": ((1.2, 0.75), (1.2, -0.75), (-1.4, 0.7), (-1.4, -0.7)),
    "wheel_rates": (21_000.0, 22_000.0, 25_000.0, 26_000.0),
    "tyre_rates": 200_000.0,
    "front_bar": AntiRollBar(one_wheel_rate=9000.0),
    "unsprung_masses": (34.0, 34.0, 30.0, 30.0),
    "arches": (0.68, 0.68, 0.7, 0.7),
    "tyre_radii": 0.32,
}
UNEVEN = Vehicle(**FIGURES)


def test_shares_are_of_the_wheels_that_their_names_say() -> None:
    loads = np.array([1.0, 2.0, 4.0, 8.0])

    assert cross_weight(loads / 100.0) == pytest.approx(6.0 / 15.0, rel=1e-15)
    assert front_share(loads) == 3.0 / 15.0
    assert left_share(loads) == 5.0 / 15.0
    for share in (cross_weight, front_share, left_share):
        assert share(1.0) == 0.5
        assert isinstance(share(1.0), float)
        assert np.shape(share(np.ones((2, 3, 4)))) == (2, 3)


@pytest.mark.parametrize("share", [cross_weight, front_share, left_share])
@pytest.mark.parametrize(
    ("loads", "code", "value"),
    [
        ((1.0, 2.0, 3.0), "Q302", "an array of shape (3,)"),
        ((1.0, 2.0, math.nan, 3.0), "Q301", "nan"),
        ((-1.0, -2.0, 1.5, 1.5), "Q302", "0"),
        (((1.0, 1.0, 1.0, 1.0), (-1.0, -1.0, 0.0, 0.0)), "Q302", "-2"),
    ],
)
def test_loads_without_a_share_are_refused(
    share: Callable[..., Any], loads: Any, code: str, value: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        share(loads)

    assert (caught.value.code, caught.value.key) == (code, "loads")
    assert caught.value.value == value


def test_loads_that_carry_nothing_say_so() -> None:
    with pytest.raises(QuantityError) as caught:
        cross_weight(0.0)

    assert caught.value.expected == "loads whose sum is more than 0"
    assert caught.value.remedy == "check their signs"


def test_self_stress_has_no_sum_and_no_moment() -> None:
    stress = self_stress(UNEVEN)
    x, y = UNEVEN.wheels.T

    assert np.array([np.ones(4), x, y]) @ stress == pytest.approx(np.zeros(3), abs=1e-15)
    assert stress[0] + stress[3] == pytest.approx(1.0, rel=1e-14)
    assert np.sign(stress).tolist() == [1.0, -1.0, -1.0, 1.0]


CROOKED = ((1.3, 0.78), (1.1, -0.71), (-1.5, 0.69), (-1.2, -0.74))


def test_self_stress_of_wheels_at_four_different_places() -> None:
    stress = self_stress(attrs.evolve(UNEVEN, wheels=CROOKED))
    x, y = np.array(CROOKED).T

    assert np.array([np.ones(4), x, y]) @ stress == pytest.approx(np.zeros(3), abs=1e-15)
    assert np.sum(np.abs(stress)) == pytest.approx(2.0, rel=1e-14)
    assert stress[0] > 0.0


def test_self_stress_of_many_vehicles_is_that_of_each() -> None:
    wheels = np.stack([UNEVEN.wheels, 1.1 * UNEVEN.wheels + 0.1])
    found = self_stress(attrs.evolve(UNEVEN, wheels=wheels))

    assert found.shape == (2, 4)
    # Neither size nor place of the whole counts.
    assert found[1] == pytest.approx(found[0], rel=1e-12)


@given(corner=st.integers(0, 3))
def test_cross_weight_changes_as_the_stance_does(corner: int) -> None:
    before, after = settle(UNEVEN, 0.52), settle(UNEVEN, 0.52 + 0.01 * np.eye(4)[corner])
    change = cross_weight(after.loads) - cross_weight(before.loads)

    assert 0.01 * cross_weight_change(UNEVEN)[corner] == pytest.approx(change, rel=1e-9)


def test_cross_weight_change_of_many_vehicles() -> None:
    masses = np.array([1100.0, 1300.0])
    found = cross_weight_change(attrs.evolve(UNEVEN, mass=masses))

    assert found.shape == (2, 4)
    assert found[1] == pytest.approx(cross_weight_change(UNEVEN), rel=1e-12)
    hubs = attrs.evolve(UNEVEN, unsprung_masses=np.stack([np.ones(4), UNEVEN.unsprung_masses]))
    assert cross_weight_change(hubs)[1] == pytest.approx(cross_weight_change(UNEVEN), rel=1e-12)


# -- Settings within threads ------------------------------------------------------------

NUMBERS = st.floats(-5.0, 5.0)


@st.composite
def searches(draw: st.DrawFn) -> tuple[Any, ...]:
    """Wishes of one to four nuts, and threads that hold where they are now."""
    nuts, wishes = draw(st.integers(1, 4)), draw(st.integers(1, 5))
    matrix = [draw(st.lists(NUMBERS, min_size=nuts, max_size=nuts)) for _ in range(wishes)]
    wanted = draw(st.lists(NUMBERS, min_size=wishes, max_size=wishes))
    low = [-draw(st.floats(0.0, 3.0)) for _ in range(nuts)]
    high = [draw(st.floats(0.0, 3.0)) for _ in range(nuts)]
    return np.array(matrix), np.array(wanted), np.array(low), np.array(high)


@given(searches())
def test_nothing_within_the_threads_comes_nearer(search: tuple[Any, ...]) -> None:
    matrix, wanted, low, high = search
    found = nearest_settings(matrix, wanted, low=low, high=high)
    by_scipy = lsq_linear(matrix, wanted, bounds=(low - 1e-9, high + 1e-9), method="bvls")

    assert np.all((found >= low) & (found <= high))
    missed = float(np.sum((matrix @ found - wanted) ** 2))
    assert missed <= 2.0 * by_scipy.cost + 1e-6


def test_of_many_that_are_as_good_the_smallest_are_taken() -> None:
    found = nearest_settings([[1.0, 1.0]], [2.0], low=[-3.0, -3.0], high=[3.0, 3.0])

    assert found == pytest.approx([1.0, 1.0])


NUTS: dict[str, Any] = {"influences": [[1.0]], "wishes": [1.0], "low": [0.0], "high": [1.0]}
SEVEN = {"influences": np.ones((1, 7)), "low": np.zeros(7), "high": np.ones(7)}


@pytest.mark.parametrize(
    ("wrong", "code", "key"),
    [
        ({"influences": [[math.nan]]}, "Q301", "influences"),
        ({"wishes": [math.inf]}, "Q301", "wishes"),
        ({"low": [2.0]}, "Q302", "low"),
        (SEVEN, "Q302", "low"),
    ],
)
def test_what_no_thread_is_is_refused(wrong: dict[str, Any], code: str, key: str) -> None:
    with pytest.raises(QuantityError) as caught:
        nearest_settings(**NUTS | wrong)

    assert (caught.value.code, caught.value.key) == (code, key)
