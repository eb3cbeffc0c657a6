"""Laws and refusals of `barwright.mechanics.vehicle.roll`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.roll import (
    NO_BAR,
    AntiRollBar,
    axle_roll_rate,
    load_transfer,
    roll_gradient,
    roll_rate_share,
)
from each_case import each_case

RATES = st.floats(1e3, 5e4)
TRACKS = st.floats(1.0, 2.0)


@given(rate=RATES, track=TRACKS)
def test_a_bar_is_the_same_whichever_way_its_rate_is_told(rate: float, track: float) -> None:
    bar = AntiRollBar(one_wheel_rate=rate)

    assert bar.both_wheels_rate == 2.0 * rate
    assert bar.roll_rate(track=track) == pytest.approx(rate * track**2, rel=1e-15)
    assert AntiRollBar.of_both_wheels(bar.both_wheels_rate).one_wheel_rate == rate
    again = AntiRollBar.of_roll(bar.roll_rate(track=track), track=track)
    assert again.one_wheel_rate == pytest.approx(rate, rel=1e-15)


def test_no_bar_has_no_rate() -> None:
    assert NO_BAR.one_wheel_rate == 0.0


@given(rate=RATES, track=TRACKS, bar=RATES)
def test_an_axle_rolls_on_springs_and_bar(rate: float, track: float, bar: float) -> None:
    with_bar = axle_roll_rate(wheel_rate=rate, track=track, bar=AntiRollBar(one_wheel_rate=bar))
    without = axle_roll_rate(wheel_rate=rate, track=track)

    assert without == pytest.approx(0.5 * rate * track**2, rel=1e-15)
    assert with_bar - without == pytest.approx(bar * track**2, rel=1e-9)


@given(rate=RATES, track=TRACKS)
def test_tyres_as_stiff_as_springs_halve_the_roll_rate(rate: float, track: float) -> None:
    rigid = axle_roll_rate(wheel_rate=rate, track=track)

    assert axle_roll_rate(wheel_rate=rate, track=track, tyre_rate=rate) == pytest.approx(
        0.5 * rigid, rel=1e-14
    )


def test_the_front_share_grows_with_the_front_rate() -> None:
    assert roll_rate_share(front=3.0, rear=1.0) == 0.75


@given(mass=st.floats(500.0, 2000.0), lever=st.floats(0.1, 0.6), rate=st.floats(2e4, 1e5))
def test_a_leaning_body_is_in_equilibrium(mass: float, lever: float, rate: float) -> None:
    angle = 2.5 * roll_gradient(mass=mass, lever=lever, roll_rate=rate)

    assert rate * angle == pytest.approx(mass * lever * (2.5 + STANDARD_GRAVITY * angle), rel=1e-12)


def test_a_body_below_its_axis_leans_into_the_curve() -> None:
    assert roll_gradient(mass=1000.0, lever=-0.1, roll_rate=30_000.0) < 0.0


CURVE: dict[str, float] = {
    "lateral_acceleration": 5.0,
    "roll": 0.05,
    "roll_rate": 30_000.0,
    "track": 1.5,
    "mass": 600.0,
}


def test_load_goes_through_springs_and_through_links() -> None:
    springs = load_transfer(**CURVE)
    links = load_transfer(**CURVE, roll_centre=0.1) - springs
    unsprung = load_transfer(**CURVE, unsprung_mass=80.0, unsprung_height=0.3) - springs

    assert springs == pytest.approx(1000.0, rel=1e-15)
    assert links == pytest.approx(200.0, rel=1e-12)
    assert unsprung == pytest.approx(80.0, rel=1e-12)


def test_unsprung_mass_on_the_road_and_height_without_mass_transfer_nothing() -> None:
    assert load_transfer(**CURVE, unsprung_mass=80.0) == load_transfer(**CURVE)
    assert load_transfer(**CURVE, unsprung_height=0.3) == load_transfer(**CURVE)


def test_kernels_take_arrays() -> None:
    rates, tracks = np.array([1e4, 2e4]), np.array([[1.4], [1.5], [1.6]])
    bar = AntiRollBar(one_wheel_rate=rates)

    assert np.shape(bar.roll_rate(track=tracks)) == (3, 2)
    assert np.shape(axle_roll_rate(wheel_rate=2e4, track=tracks, bar=bar)) == (3, 2)
    assert np.shape(AntiRollBar.of_roll(rates, track=tracks).one_wheel_rate) == (3, 2)
    gradients = roll_gradient(mass=1000.0, lever=np.array([0.3, 0.4]), roll_rate=3e4)
    assert np.shape(gradients) == (2,)
    roll = np.array([0.01, 0.02, 0.03])
    assert np.shape(load_transfer(**CURVE | {"roll": roll})) == (3,)


REFUSED: list[tuple[Callable[[], Any], str, str, str]] = [
    (lambda: AntiRollBar(one_wheel_rate=-1.0), "Q302", "one_wheel_rate", "-1"),
    (lambda: AntiRollBar(one_wheel_rate=math.inf), "Q301", "one_wheel_rate", "inf"),
    (
        lambda: AntiRollBar(one_wheel_rate=np.array([1.0, math.nan])),
        "Q301",
        "one_wheel_rate",
        "nan",
    ),
    (lambda: AntiRollBar.of_both_wheels(-1.0), "Q302", "one_wheel_rate", "-0.5"),
    (lambda: AntiRollBar.of_roll(1e4, track=0.0), "Q302", "track", "0"),
    (lambda: axle_roll_rate(wheel_rate=0.0, track=1.5), "Q302", "wheel_rate", "0"),
    (lambda: axle_roll_rate(wheel_rate=2e4, track=-1.5), "Q302", "track", "-1.5"),
    (lambda: axle_roll_rate(wheel_rate=2e4, track=1.5, tyre_rate=0.0), "Q302", "tyre_rate", "0"),
    (
        lambda: axle_roll_rate(wheel_rate=2e4, track=1.5, tyre_rate=math.nan),
        "Q302",
        "tyre_rate",
        "nan",
    ),
    (lambda: roll_rate_share(front=0.0, rear=1.0), "Q302", "front", "0"),
    (lambda: roll_rate_share(front=1.0, rear=math.nan), "Q301", "rear", "nan"),
    (lambda: roll_gradient(mass=0.0, lever=0.4, roll_rate=3e4), "Q302", "mass", "0"),
    (lambda: roll_gradient(mass=1e3, lever=math.nan, roll_rate=3e4), "Q301", "lever", "nan"),
    (lambda: roll_gradient(mass=1e3, lever=0.4, roll_rate=math.inf), "Q301", "roll_rate", "inf"),
    (lambda: load_transfer(**CURVE | {"track": 0.0}), "Q302", "track", "0"),
]


@each_case("call, code, key, value", REFUSED)
def test_impossible_figures_are_refused(
    call: Callable[[], Any], code: str, key: str, value: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        call()

    assert (caught.value.code, caught.value.key, caught.value.value) == (code, key, value)


@pytest.mark.parametrize("more", [0.0, 1.0])
def test_a_body_that_topples_is_refused(more: float) -> None:
    gravity = 1000.0 * STANDARD_GRAVITY * 0.5
    with pytest.raises(QuantityError) as caught:
        roll_gradient(mass=1000.0, lever=0.5, roll_rate=np.array([3e4, gravity - more]))

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{-more:.6g}" if more else "0",
        "expected": ("a roll rate of which mass times gravity times lever leaves more than 0"),
        "remedy": "check the rates, the track and the height of the centre of gravity",
        "key": "roll_rate",
        "file": "",
        "line": 0,
    }


def test_a_body_that_just_stands_and_a_soft_tyre_are_taken() -> None:
    gravity = 1000.0 * STANDARD_GRAVITY * 0.5

    assert roll_gradient(mass=1000.0, lever=0.5, roll_rate=gravity + 0.5) == pytest.approx(1000.0)
    assert axle_roll_rate(wheel_rate=1.0, track=2.0, tyre_rate=0.5) == pytest.approx(2.0 / 3.0)


def test_a_tyre_that_is_refused_says_how_a_rigid_one_is_told() -> None:
    with pytest.raises(QuantityError) as caught:
        axle_roll_rate(wheel_rate=2e4, track=1.5, tyre_rate=-1.0)

    assert caught.value.expected == "more than 0; infinite for a rigid tyre"
    assert caught.value.remedy == "check its sign"
