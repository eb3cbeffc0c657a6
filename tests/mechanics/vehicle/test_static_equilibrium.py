"""Laws of `barwright.mechanics.vehicle.static_equilibrium`."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.roll import AntiRollBar
from barwright.mechanics.vehicle.static_equilibrium import influence, settle
from barwright.mechanics.vehicle.vehicle import Vehicle

FIGURES: dict[str, Any] = {
    "mass": 1300.0,
    "centre_of_gravity": (0.1, 0.02, 0.6),
    "wheels": ((1.2, 0.75), (1.2, -0.75), (-1.4, 0.7), (-1.4, -0.7)),
    "wheel_rates": (21_000.0, 22_000.0, 25_000.0, 26_000.0),
    "tyre_rates": 200_000.0,
    "front_bar": AntiRollBar(one_wheel_rate=9000.0),
    "unsprung_masses": (34.0, 34.0, 30.0, 30.0),
    "roll_centres": (0.05, 0.1),
    "pitch_centre": 0.12,
    "arches": (0.68, 0.68, 0.7, 0.7),
    "tyre_radii": 0.32,
}
UNEVEN = Vehicle(**FIGURES)
# With the axes of tilt through the centre of gravity, whose weight then adds nothing.
BALANCED = Vehicle(**FIGURES | {"roll_centres": 0.6, "pitch_centre": 0.6})
FREE = st.lists(st.floats(0.45, 0.6), min_size=4, max_size=4)


@given(free=FREE)
def test_loads_carry_the_leaning_body(free: list[float]) -> None:
    found = settle(UNEVEN, free)
    x, y = UNEVEN.wheels.T
    sprung = found.loads - UNEVEN.unsprung_masses * STANDARD_GRAVITY
    weight = 1300.0 * STANDARD_GRAVITY

    assert np.sum(sprung) == pytest.approx(weight, rel=1e-12)
    # Roll moves the weight to the right, pitch forward, each by its lever over the axis.
    axis = 0.1 + 1.5 / 2.6 * (0.05 - 0.1)
    left = 0.02 - (0.6 - axis) * found.roll
    forward = 0.1 + (0.6 - 0.12) * found.pitch_angle
    assert np.sum(y * sprung) == pytest.approx(weight * left, rel=1e-9, abs=1e-8)
    assert np.sum(x * sprung) == pytest.approx(weight * forward, rel=1e-9, abs=1e-8)


@given(free=FREE)
def test_springs_bars_and_tyres_have_the_forces_of_their_lengths(free: list[float]) -> None:
    found = settle(UNEVEN, free)
    hubs = found.arches - found.heights
    bar = 9000.0 * (found.heights[0] - found.heights[1])
    sprung = found.spring_loads + np.array([-bar, bar, 0.0, 0.0])

    assert found.loads == pytest.approx(200_000.0 * (0.32 - hubs), rel=1e-9)
    assert found.spring_loads == pytest.approx(
        UNEVEN.wheel_rates * (np.array(free) - found.heights), rel=1e-12
    )
    assert found.loads == pytest.approx(
        sprung + UNEVEN.unsprung_masses * STANDARD_GRAVITY, rel=1e-9
    )


@given(free=FREE)
def test_a_rigid_body_moves_by_its_pose(free: list[float]) -> None:
    found = settle(UNEVEN, free)
    x, y = UNEVEN.wheels.T
    rises = found.arches - UNEVEN.arches

    assert rises == pytest.approx(found.heave + y * found.roll - x * found.pitch_angle, abs=1e-15)
    assert found.rise(forward=x, leftward=y) == pytest.approx(rises, abs=1e-15)
    assert found.rise(forward=0.0, leftward=0.0) == found.heave
    assert all(isinstance(figure, float) for figure in (found.heave, found.roll, found.pitch_angle))


def test_signs_are_those_of_the_vehicle_axes() -> None:
    level = settle(UNEVEN, 0.52)
    left = settle(UNEVEN, (0.53, 0.52, 0.53, 0.52))
    nose_down = settle(UNEVEN, (0.52, 0.52, 0.53, 0.53))

    assert left.roll > level.roll
    assert nose_down.pitch_angle > level.pitch_angle
    assert settle(UNEVEN, 0.53).heave > level.heave


@given(corner=st.integers(0, 3), step=st.floats(0.001, 0.02))
def test_raising_a_corner_loads_its_diagonal_and_lifts_it(corner: int, step: float) -> None:
    more = np.full(4, 0.52) + step * np.eye(4)[corner]
    change = settle(BALANCED, more).loads - settle(BALANCED, 0.52).loads
    sign = np.array([1.0, -1.0, -1.0, 1.0]) * (1.0 if corner in (0, 3) else -1.0)

    assert np.all(sign * change > 0.0)
    # Axle sums do not move; sides would not either, were both tracks alike.
    assert change[0] + change[1] == pytest.approx(0.0, abs=1e-9 * np.max(np.abs(change)))
    assert change[2] + change[3] == pytest.approx(0.0, abs=1e-9 * np.max(np.abs(change)))
    assert settle(BALANCED, more).heights[corner] > settle(BALANCED, 0.52).heights[corner]


def test_loads_of_rigid_tyres_are_the_limit_of_stiff_ones() -> None:
    free = (0.53, 0.52, 0.51, 0.52)
    rigid = settle(attrs.evolve(UNEVEN, tyre_rates=math.inf), free)
    stiff = settle(attrs.evolve(UNEVEN, tyre_rates=1e11), free)

    assert rigid.loads == pytest.approx(stiff.loads, rel=1e-5)
    assert rigid.arches - rigid.heights == pytest.approx(np.full(4, 0.32), abs=1e-15)


def test_heights_count_from_the_reference_position_where_none_is_given() -> None:
    plain = attrs.evolve(UNEVEN, arches=0.0, tyre_radii=0.0)
    found = settle(plain, np.array([0.53, 0.52, 0.51, 0.52]) - UNEVEN.arches + UNEVEN.tyre_radii)
    other = settle(UNEVEN, (0.53, 0.52, 0.51, 0.52))

    assert found.loads == pytest.approx(other.loads, rel=1e-12)
    assert found.heights == pytest.approx(other.heights - UNEVEN.arches + 0.32, abs=1e-14)


def test_a_wheel_that_lifts_and_a_slack_spring_are_told() -> None:
    standing = settle(UNEVEN, 0.52)
    crossed = settle(UNEVEN, (0.92, 0.52, 0.52, 0.92))

    assert standing.lifted.tolist() == standing.slack.tolist() == [False] * 4
    assert crossed.lifted.tolist() == [False, True, True, False]
    assert crossed.slack.tolist() == [False, True, True, False]
    # A wheel that hangs from its spring still weighs on the road.
    heavy = attrs.evolve(UNEVEN, unsprung_masses=80.0)
    hanging = settle(heavy, (0.8, 0.52, 0.52, 0.8))
    assert hanging.slack.tolist() == [False, False, True, False]
    assert hanging.lifted.tolist() == [False] * 4


def test_a_load_of_nothing_is_not_lifted() -> None:
    found = settle(UNEVEN, 0.52)
    empty = attrs.evolve(found, loads=np.zeros(4), spring_loads=np.zeros(4))

    assert not np.any(empty.lifted)
    assert not np.any(empty.slack)


@given(corner=st.integers(0, 3))
def test_influence_is_the_change_of_the_stance(corner: int) -> None:
    change = influence(UNEVEN)
    before, after = settle(UNEVEN, 0.52), settle(UNEVEN, 0.52 + np.eye(4)[corner])

    for name in ("loads", "heights", "arches"):
        moved = getattr(after, name) - getattr(before, name)
        assert getattr(change, name)[:, corner] == pytest.approx(moved, rel=1e-9, abs=1e-9)


def test_a_turn_of_all_nuts_lifts_a_car_that_loads_do_not_tilt() -> None:
    """The same change of free height everywhere lifts the body as far, if nothing else moves."""
    even = Vehicle(
        mass=1300.0,
        centre_of_gravity=(0.0, 0.0, 0.6),
        wheels=((1.3, 0.7), (1.3, -0.7), (-1.3, 0.7), (-1.3, -0.7)),
        wheel_rates=22_000.0,
        tyre_rates=200_000.0,
    )

    assert np.sum(influence(even).heights, axis=-1) == pytest.approx(np.ones(4), rel=1e-12)
    assert np.sum(influence(even).loads, axis=-1) == pytest.approx(np.zeros(4), abs=1e-7)


def test_masses_and_settings_broadcast() -> None:
    many = attrs.evolve(UNEVEN, mass=np.array([1200.0, 1300.0, 1400.0]))
    free = 0.52 + 0.01 * np.arange(8.0).reshape(2, 1, 4)
    found, change = settle(many, free), influence(many)

    assert found.loads.shape == found.spring_loads.shape == (2, 3, 4)
    assert found.heights.shape == found.arches.shape == (2, 3, 4)
    assert found.roll.shape == np.shape(found.rise(forward=1.0, leftward=0.0)) == (2, 3)
    assert change.loads.shape == change.heights.shape == change.arches.shape == (3, 4, 4)
    alone = settle(attrs.evolve(UNEVEN, mass=1400.0), free[1, 0])
    assert found.loads[1, 2] == pytest.approx(alone.loads, rel=1e-12)
    assert influence(attrs.evolve(UNEVEN, mass=1400.0)).heights == pytest.approx(
        change.heights[2], rel=1e-12
    )


@pytest.mark.parametrize("name", ["wheel_rates", "tyre_rates", "arches", "centre_of_gravity"])
def test_every_figure_of_a_vehicle_broadcasts(name: str) -> None:
    one = getattr(UNEVEN, name)
    many = Vehicle(**FIGURES | {name: np.stack([one, 1.1 * one])})

    assert settle(many, 0.52).loads.shape == (2, 4)
    assert settle(many, 0.52).loads[0] == pytest.approx(settle(UNEVEN, 0.52).loads, rel=1e-12)


def test_bars_broadcast() -> None:
    bars = attrs.evolve(UNEVEN, rear_bar=AntiRollBar(one_wheel_rate=np.array([0.0, 5000.0])))

    assert settle(bars, (0.53, 0.52, 0.52, 0.52)).loads.shape == (2, 4)


@pytest.mark.parametrize(
    ("free", "code"), [((0.5, 0.5), "Q302"), ((0.5, 0.5, math.nan, 0.5), "Q301")]
)
def test_settings_that_are_not_those_of_four_corners_are_refused(free: Any, code: str) -> None:
    with pytest.raises(QuantityError) as caught:
        settle(UNEVEN, free)

    assert (caught.value.code, caught.value.key) == (code, "free_heights")
