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

from barwright.errors import QuantityError
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import (
    cross_weight,
    cross_weight_change,
    free_heights_for_cross_weight,
    free_heights_for_heights,
    free_heights_for_loads,
    front_share,
    left_share,
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
RIGID = attrs.evolve(UNEVEN, tyre_rates=math.inf)
TOTAL = (1300.0 + 128.0) * STANDARD_GRAVITY
HEIGHTS = np.array([0.38, 0.38, 0.40, 0.40])
NEAR = st.lists(st.floats(-0.01, 0.01), min_size=4, max_size=4)
SHARES = st.floats(0.45, 0.55)


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


@given(off=NEAR)
def test_settings_for_heights_give_these_heights(off: list[float]) -> None:
    wanted = HEIGHTS + np.array(off)
    found = settle(UNEVEN, free_heights_for_heights(UNEVEN, wanted))

    assert found.heights == pytest.approx(wanted, abs=1e-12)
    assert np.sum(found.loads) == pytest.approx(TOTAL, rel=1e-12)


@given(off=NEAR, share=SHARES)
def test_settings_for_a_cross_weight_give_it_and_the_pose(off: list[float], share: float) -> None:
    wanted = HEIGHTS + np.array(off)
    free = free_heights_for_cross_weight(UNEVEN, wanted, cross_weight=share)
    found = settle(UNEVEN, free)
    missed, stress = found.heights - wanted, self_stress(UNEVEN)

    assert cross_weight(found.loads) == pytest.approx(share, rel=1e-12)
    along = missed @ stress / (stress @ stress)
    assert missed == pytest.approx(along * stress, abs=1e-12)


@given(share=SHARES)
def test_on_rigid_tyres_level_heights_go_with_any_cross_weight(share: float) -> None:
    free = free_heights_for_cross_weight(RIGID, HEIGHTS, cross_weight=share)
    found = settle(RIGID, free)

    assert found.heights - found.heights[0] == pytest.approx(HEIGHTS - 0.38, abs=1e-12)
    assert cross_weight(found.loads) == pytest.approx(share, rel=1e-12)


@given(off=NEAR, share=SHARES)
def test_settings_for_possible_loads_give_these_loads(off: list[float], share: float) -> None:
    wanted = HEIGHTS + np.array(off)
    crossed = free_heights_for_cross_weight(UNEVEN, wanted, cross_weight=share)
    loads = settle(UNEVEN, crossed).loads
    free = free_heights_for_loads(UNEVEN, wanted, loads=loads)

    assert free == pytest.approx(crossed, abs=1e-12)


def _loads() -> Any:
    free = free_heights_for_cross_weight(UNEVEN, HEIGHTS, cross_weight=0.5)
    return settle(UNEVEN, free).loads


IMPOSSIBLE = [
    ((0.5, 0.5, 0.5, 0.5), "four"),
    ((-0.5, -0.5, -0.5, -0.5), "four"),
    ((1.0, 1.0, -1.0, -1.0), "front"),
    ((1.0, -1.0, 1.0, -1.0), "left"),
]


@pytest.mark.parametrize(("off", "wheels"), IMPOSSIBLE)
def test_loads_that_no_adjuster_gives_are_refused(off: tuple[float, ...], wheels: str) -> None:
    possible = _loads()
    asked = possible + 0.55 * np.array(off)
    of = {"four": [0, 1, 2, 3], "front": [0, 1], "left": [0, 2]}[wheels]

    # Within the tolerance they are taken, and only just.
    free_heights_for_loads(UNEVEN, HEIGHTS, loads=asked, tolerance=1.101)
    with pytest.raises(QuantityError) as caught:
        free_heights_for_loads(UNEVEN, HEIGHTS, loads=asked)
    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{np.sum(asked[of]):.6g}",
        "expected": (
            f"{np.sum(possible[of]):.6g} N on the {wheels} wheels, as weight and "
            "centre of gravity have it"
        ),
        "remedy": "choose a cross weight; adjusters change nothing else of the loads",
        "key": "loads",
        "file": "",
        "line": 0,
    }


def test_loads_less_than_a_newton_off_are_taken() -> None:
    asked = _loads() + 0.45 * np.array(IMPOSSIBLE[2][0])

    assert free_heights_for_loads(UNEVEN, HEIGHTS, loads=asked).shape == (4,)


def test_one_wrong_load_among_many_is_refused() -> None:
    many = np.stack([_loads(), _loads() + 10.0])
    with pytest.raises(QuantityError) as caught:
        free_heights_for_loads(UNEVEN, HEIGHTS, loads=many)

    assert caught.value.value == f"{TOTAL + 40.0:.6g}"


def test_four_heights_on_rigid_tyres_are_refused() -> None:
    with pytest.raises(QuantityError) as caught:
        free_heights_for_heights(RIGID, HEIGHTS)

    assert caught.value.fields == {
        "code": "Q302",
        "value": "a wish for all four heights of a body on rigid tyres",
        "expected": "tyres that give way, since a rigid body has only three heights to give",
        "remedy": "give the tyres' rates, or ask for a cross weight",
        "key": "tyre_rates",
        "file": "",
        "line": 0,
    }


def test_one_tyre_that_gives_way_is_enough() -> None:
    one = attrs.evolve(UNEVEN, tyre_rates=(math.inf, 2e5, math.inf, math.inf))
    found = settle(one, free_heights_for_heights(one, HEIGHTS))

    assert found.heights == pytest.approx(HEIGHTS, abs=1e-10)


def test_one_rigid_vehicle_among_many_is_refused() -> None:
    both = attrs.evolve(UNEVEN, tyre_rates=[[2e5] * 4, [math.inf] * 4])
    with pytest.raises(QuantityError):
        free_heights_for_heights(both, HEIGHTS)


@pytest.mark.parametrize("share", [0.0, 1.0, -0.1, math.nan, np.array([0.5, 1.2])])
def test_what_is_no_share_is_refused(share: Any) -> None:
    with pytest.raises(QuantityError) as caught:
        free_heights_for_cross_weight(UNEVEN, HEIGHTS, cross_weight=share)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{np.ravel(share)[-1]:.6g}",
        "expected": "a share of the load, between 0 and 1",
        "remedy": "give 0.5 where both diagonals are to carry alike",
        "key": "cross_weight",
        "file": "",
        "line": 0,
    }


WITH_HEIGHTS: list[Callable[[Any], Any]] = [
    lambda heights: free_heights_for_heights(UNEVEN, heights),
    lambda heights: free_heights_for_cross_weight(UNEVEN, heights, cross_weight=0.5),
    lambda heights: free_heights_for_loads(UNEVEN, heights, loads=_loads()),
]


@pytest.mark.parametrize("call", WITH_HEIGHTS)
@pytest.mark.parametrize(
    ("heights", "code"), [((0.38, 0.38), "Q302"), ((0.38, 0.38, math.nan, 0.38), "Q301")]
)
def test_heights_that_are_not_those_of_four_corners_are_refused(
    call: Callable[[Any], Any], heights: Any, code: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        call(heights)

    assert (caught.value.code, caught.value.key) == (code, "heights")


def test_one_height_stands_for_all_corners() -> None:
    found = settle(UNEVEN, free_heights_for_heights(UNEVEN, 0.39))

    assert found.heights == pytest.approx(np.full(4, 0.39), abs=1e-12)


def test_wishes_broadcast() -> None:
    many = attrs.evolve(UNEVEN, mass=np.array([1200.0, 1300.0, 1400.0]))
    heights = np.stack([HEIGHTS, HEIGHTS + 0.01])[:, None, :]
    shares = np.array([0.49, 0.5, 0.51])

    assert free_heights_for_heights(many, heights).shape == (2, 3, 4)
    found = free_heights_for_cross_weight(many, heights, cross_weight=shares)
    assert found.shape == (2, 3, 4)
    one = free_heights_for_cross_weight(UNEVEN, HEIGHTS + 0.01, cross_weight=0.5)
    assert found[1, 1] == pytest.approx(one, rel=1e-12)
    shared = free_heights_for_cross_weight(UNEVEN, HEIGHTS, cross_weight=shares)
    assert shared.shape == (3, 4)
    again = free_heights_for_loads(UNEVEN, HEIGHTS, loads=settle(UNEVEN, shared).loads)
    assert again == pytest.approx(shared, rel=1e-12)
