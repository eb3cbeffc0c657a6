"""Laws and refusals of `barwright.mechanics.vehicle.modes`."""

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
from barwright.mechanics.vehicle.modes import (
    body_modes,
    bounce_and_pitch_frequencies,
    ride_frequencies,
    roll_frequency,
)
from barwright.mechanics.vehicle.ride import natural_frequency
from barwright.mechanics.vehicle.roll import AntiRollBar, axle_roll_rate
from barwright.mechanics.vehicle.vehicle import Vehicle
from each_case import each_case

FIGURES: dict[str, Any] = {
    "mass": 1300.0,
    "centre_of_gravity": (0.1, 0.0, 0.6),
    "wheels": ((1.2, 0.75), (1.2, -0.75), (-1.4, 0.75), (-1.4, -0.75)),
    "wheel_rates": (21_000.0, 21_000.0, 25_000.0, 25_000.0),
    "tyre_rates": 200_000.0,
    "front_bar": AntiRollBar(one_wheel_rate=9000.0),
}
EVEN = Vehicle(**FIGURES)
INERTIAS = {"roll_inertia": 450.0, "pitch_inertia": 1900.0}

PLANE: dict[str, float] = {
    "front_rate": 40_000.0,
    "rear_rate": 44_000.0,
    "front_distance": 1.2,
    "rear_distance": 1.4,
    "mass": 1300.0,
    "pitch_inertia": 2000.0,
}


def test_ends_swing_apart_where_the_inertia_is_that_of_two_masses() -> None:
    front, rear = 1300.0 * 1.4 / 2.6, 1300.0 * 1.2 / 2.6
    found = bounce_and_pitch_frequencies(**PLANE | {"pitch_inertia": 1300.0 * 1.2 * 1.4})

    assert found == pytest.approx(
        (
            natural_frequency(rate=40_000.0, mass=front),
            natural_frequency(rate=44_000.0, mass=rear),
        ),
        rel=1e-12,
    )


def test_bounce_and_pitch_part_where_both_ends_deflect_alike() -> None:
    found = bounce_and_pitch_frequencies(**PLANE | {"rear_rate": 40_000.0, "rear_distance": 1.2})
    bounce = natural_frequency(rate=80_000.0, mass=1300.0)
    pitch = natural_frequency(rate=80_000.0 * 1.2**2, mass=2000.0)

    assert found == pytest.approx((pitch, bounce), rel=1e-12)


@given(front=st.floats(1e4, 1e5), rear=st.floats(1e4, 1e5), inertia=st.floats(800.0, 5000.0))
def test_the_lower_frequency_comes_first(front: float, rear: float, inertia: float) -> None:
    low, high = bounce_and_pitch_frequencies(
        **PLANE | {"front_rate": front, "rear_rate": rear, "pitch_inertia": inertia}
    )

    assert low <= high


def test_a_light_body_on_a_small_lever_rolls_like_a_wheel_on_its_spring() -> None:
    found = roll_frequency(roll_rate=40_000.0, mass=1300.0, lever=0.0, roll_inertia=450.0)

    assert found == natural_frequency(rate=40_000.0, mass=450.0)


def test_a_lever_takes_from_the_rate_and_adds_to_the_inertia() -> None:
    found = roll_frequency(roll_rate=40_000.0, mass=1300.0, lever=0.5, roll_inertia=450.0)
    rate = 40_000.0 - 1300.0 * STANDARD_GRAVITY * 0.5

    assert found == pytest.approx(natural_frequency(rate=rate, mass=775.0), rel=1e-14)


def test_modes_of_an_even_vehicle_are_those_of_its_planes() -> None:
    """With the pitch axis through the centre of gravity, as the plane has it."""
    modes = body_modes(attrs.evolve(EVEN, pitch_centre=0.6, roll_centres=0.1), **INERTIAS)
    front, rear = (1.0 / (1.0 / rate + 1.0 / 200_000.0) for rate in (21_000.0, 25_000.0))
    plane = bounce_and_pitch_frequencies(
        front_rate=2.0 * front,
        rear_rate=2.0 * rear,
        front_distance=1.1,
        rear_distance=1.5,
        mass=1300.0,
        pitch_inertia=1900.0,
    )
    rates = [
        axle_roll_rate(
            wheel_rate=21_000.0,
            track=1.5,
            bar=AntiRollBar(one_wheel_rate=9000.0),
            tyre_rate=200_000.0,
        ),
        axle_roll_rate(wheel_rate=25_000.0, track=1.5, tyre_rate=200_000.0),
    ]
    roll = roll_frequency(roll_rate=sum(rates), mass=1300.0, lever=0.5, roll_inertia=450.0)

    assert modes.frequencies == pytest.approx(sorted([roll, *plane]), rel=1e-9)


def test_shares_tell_which_mode_is_which() -> None:
    modes = body_modes(EVEN, **INERTIAS)
    roll = int(np.argmax(modes.shares[:, 1]))

    assert modes.shares.sum(axis=-1) == pytest.approx(np.ones(3), rel=1e-12)
    assert modes.shares[roll] == pytest.approx([0.0, 1.0, 0.0], abs=1e-20)
    assert np.all(np.diff(modes.frequencies) > 0.0)
    # The stiffer rear lets the body pitch a little as it bounces.
    others = np.delete(modes.shares, roll, axis=0)
    assert np.all(others[:, 0] > 0.0)
    assert np.all(others[:, 2] > 0.0)


def test_the_place_of_the_origin_does_not_count() -> None:
    uneven = FIGURES | {"wheel_rates": (21_000.0, 23_000.0, 25_000.0, 27_000.0)}
    moved = {
        "centre_of_gravity": (2.1, -0.5, 0.6),
        "wheels": np.array(FIGURES["wheels"]) + np.array([2.0, -0.5]),
    }
    here, there = (body_modes(Vehicle(**uneven | at), **INERTIAS) for at in ({}, moved))

    assert there.frequencies == pytest.approx(here.frequencies, rel=1e-10)
    assert there.shares == pytest.approx(here.shares, rel=1e-8, abs=1e-12)


def test_modes_broadcast() -> None:
    many = attrs.evolve(EVEN, mass=np.array([1200.0, 1300.0]))
    modes = body_modes(
        many, roll_inertia=np.array([[400.0], [450.0], [500.0]]), pitch_inertia=1900.0
    )

    assert modes.frequencies.shape == (3, 2, 3)
    assert modes.shares.shape == (3, 2, 3, 3)
    alone = body_modes(EVEN, **INERTIAS)
    assert modes.frequencies[1, 1] == pytest.approx(alone.frequencies, rel=1e-12)
    places = attrs.evolve(EVEN, centre_of_gravity=[[0.1, 0.0, 0.6], [0.2, 0.0, 0.6]])
    assert body_modes(places, **INERTIAS).frequencies.shape == (2, 3)
    assert body_modes(EVEN, roll_inertia=450.0, pitch_inertia=np.ones(5)).shares.shape == (5, 3, 3)


def test_ride_frequencies_are_those_of_each_axle() -> None:
    front, rear = (2.0 / (1.0 / rate + 1.0 / 200_000.0) for rate in (21_000.0, 25_000.0))

    assert ride_frequencies(EVEN) == pytest.approx(
        [
            natural_frequency(rate=front, mass=1300.0 * 1.5 / 2.6),
            natural_frequency(rate=rear, mass=1300.0 * 1.1 / 2.6),
        ],
        rel=1e-12,
    )


def test_ride_frequencies_broadcast() -> None:
    masses = attrs.evolve(EVEN, mass=np.array([1200.0, 1300.0, 1400.0]))
    rates = attrs.evolve(EVEN, wheel_rates=np.stack([EVEN.wheel_rates, 2.0 * EVEN.wheel_rates]))
    places = attrs.evolve(EVEN, centre_of_gravity=[[0.1, 0.0, 0.6]] * 5)

    for many, count in ((masses, 3), (rates, 2), (places, 5)):
        assert ride_frequencies(many).shape == (count, 2)
    assert ride_frequencies(masses)[1] == pytest.approx(ride_frequencies(EVEN), rel=1e-14)
    assert ride_frequencies(rates)[0] == pytest.approx(ride_frequencies(EVEN), rel=1e-14)
    assert np.all(ride_frequencies(rates)[1] > ride_frequencies(EVEN))


def test_kernels_of_a_plane_take_arrays() -> None:
    rates = np.array([3e4, 4e4])
    low, high = bounce_and_pitch_frequencies(**PLANE | {"front_rate": rates})

    assert np.shape(low) == np.shape(high) == (2,)
    assert np.shape(roll_frequency(roll_rate=rates, mass=1e3, lever=0.4, roll_inertia=4e2)) == (2,)


REFUSED: list[tuple[Callable[[], Any], str, str]] = [
    *(
        (lambda name=name: bounce_and_pitch_frequencies(**PLANE | {name: 0.0}), "Q302", name)
        for name in PLANE
    ),
    *(
        (lambda name=name: bounce_and_pitch_frequencies(**PLANE | {name: math.nan}), "Q301", name)
        for name in PLANE
    ),
    *(
        (lambda name=name: body_modes(EVEN, **INERTIAS | {name: 0.0}), "Q302", name)
        for name in INERTIAS
    ),
    (
        lambda: roll_frequency(roll_rate=4e4, mass=1e3, lever=0.4, roll_inertia=0.0),
        "Q302",
        "roll_inertia",
    ),
    (
        lambda: roll_frequency(roll_rate=3e3, mass=1e3, lever=0.4, roll_inertia=4e2),
        "Q302",
        "roll_rate",
    ),
    (
        lambda: ride_frequencies(attrs.evolve(EVEN, centre_of_gravity=(1.3, 0.0, 0.6))),
        "Q302",
        "mass",
    ),
]


@each_case("call, code, key", REFUSED)
def test_impossible_figures_are_refused(call: Callable[[], Any], code: str, key: str) -> None:
    with pytest.raises(QuantityError) as caught:
        call()

    assert (caught.value.code, caught.value.key) == (code, key)
