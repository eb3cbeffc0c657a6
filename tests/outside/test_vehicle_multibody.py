"""Whole vehicles against a general multibody engine, and against energies and free bodies.

The engine's vehicles are set off level by some 0.1 mrad, where rotations in full and linear
equations agree to 1e-7; how far they part at larger tilts is a test of its own.
"""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
import pytest
import scipy.linalg
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import root
from scipy.spatial.transform import Rotation

from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import self_stress
from barwright.mechanics.vehicle.modes import body_modes
from barwright.mechanics.vehicle.roll import load_transfer, roll_gradient
from barwright.mechanics.vehicle.static_equilibrium import influence, settle
from draws import draws
from outside.rows.balance import free_for_cross_weight, free_for_heights
from outside.rows.static_equilibrium import ENGINE, vehicle
from outside.whole_vehicle import Array, Engine


def _four(low: float, high: float) -> st.SearchStrategy[list[float]]:
    return st.lists(st.floats(low, high), min_size=4, max_size=4)


@st.composite
def engines(draw: st.DrawFn) -> Engine:
    """Uneven vehicles that stand: weight between the wheels, springs that hold it up."""
    track, base = draw(_four(0.6, 0.85)), draw(_four(1.1, 1.5))
    front, rear = draw(st.floats(0.62, 0.72)), draw(st.floats(0.62, 0.72))
    return Engine(
        mass=draw(st.floats(900.0, 1800.0)),
        centre_of_gravity=(
            draw(st.floats(-0.3, 0.3)),
            draw(st.floats(-0.06, 0.06)),
            draw(st.floats(0.45, 0.8)),
        ),
        wheels=(
            (base[0], track[0]),
            (base[1], -track[1]),
            (-base[2], track[2]),
            (-base[3], -track[3]),
        ),
        wheel_rates=draw(_four(15_000.0, 40_000.0)),
        tyre_rates=draw(_four(120_000.0, 300_000.0)),
        bars=(draw(st.floats(0.0, 20_000.0)), draw(st.floats(0.0, 20_000.0))),
        unsprung_masses=draw(_four(20.0, 60.0)),
        axis_height=draw(st.floats(-0.05, 0.3)),
        arches=(front, front, rear, rear),
        hubs=(0.3, 0.3, 0.31, 0.31),
        inertia=(draw(st.floats(300.0, 700.0)), draw(st.floats(1200.0, 3000.0))),
    )


@settings(max_examples=draws(15))
@given(engine=engines(), off=_four(-2e-4, 2e-4))
def test_a_vehicle_comes_to_rest_in_the_same_stance(engine: Engine, off: list[float]) -> None:
    free = engine.free_heights + np.array(off)
    rest, stance = engine.at_rest(free), settle(vehicle(engine), free)

    assert stance.loads == pytest.approx(rest.loads, rel=1e-6)
    assert stance.heights == pytest.approx(rest.heights, rel=1e-6)
    assert stance.arches == pytest.approx(rest.arches, rel=1e-6)
    # Their second order is some 1e-8.
    poses = {"heave": stance.heave, "roll": stance.roll, "pitch": stance.pitch_angle}
    for name, pose in poses.items():
        assert pose == pytest.approx(rest.joint(name), abs=1e-6)


@settings(max_examples=draws(8))
@given(engine=engines(), corner=st.integers(0, 3))
def test_a_corner_moves_the_same_loads_and_heights(engine: Engine, corner: int) -> None:
    found = influence(vehicle(engine))
    for name in ("loads", "heights", "arches"):
        column = getattr(found, name)[:, corner]
        assert column == pytest.approx(
            engine.moved(corner, name), rel=1e-6, abs=1e-6 * np.max(np.abs(column))
        )


@settings(max_examples=draws(8))
@given(engine=engines())
def test_a_body_swings_at_the_same_frequencies(engine: Engine) -> None:
    light = attrs.evolve(engine, unsprung_masses=(0.0,) * 4)
    roll, pitch = light.inertia
    modes = body_modes(vehicle(light), roll_inertia=roll, pitch_inertia=pitch)
    rest = light.at_rest(light.free_heights)

    assert modes.frequencies == pytest.approx(rest.frequencies(), rel=1e-6)


@settings(max_examples=draws(8))
@given(engine=engines(), off=_four(-1e-4, 1e-4))
def test_settings_for_heights_give_the_engine_these_heights(
    engine: Engine, off: list[float]
) -> None:
    wanted = np.array(engine.arches) - np.array(engine.hubs) + np.array(off)
    free = free_for_heights(vehicle(engine), wanted)

    assert engine.at_rest(free).heights == pytest.approx(wanted, abs=1e-7)


@settings(max_examples=draws(8))
@given(engine=engines(), more=st.floats(-1e-3, 1e-3))
def test_settings_for_a_cross_weight_give_the_engine_that_cross_weight(
    engine: Engine, more: float
) -> None:
    crossed = np.array([0.0, 1.0, 1.0, 0.0])
    share = float(engine.loads @ crossed / np.sum(engine.loads)) + more
    wanted = np.array(engine.arches) - np.array(engine.hubs)
    built = vehicle(engine)
    rest = engine.at_rest(free_for_cross_weight(built, wanted, share))

    assert rest.loads @ crossed / np.sum(rest.loads) == pytest.approx(share, abs=1e-8)
    # What the heights miss is nothing that a pose could mend: the self-stress alone.
    missed, stress = rest.heights - wanted, self_stress(built)
    along = float(missed @ stress / (stress @ stress))
    assert missed == pytest.approx(along * stress, abs=1e-7)


def test_loads_are_off_by_two_hundredths_of_a_percent_at_one_degree() -> None:
    """The linearisation error that the documentation states."""
    free = ENGINE.free_heights + np.array([-0.08, 0.0, 0.0, 0.0])
    rest, stance = ENGINE.at_rest(free), settle(vehicle(ENGINE), free)
    tilt = np.degrees(np.hypot(rest.joint("roll"), rest.joint("pitch")))
    off = np.max(np.abs(stance.loads - rest.loads)) / np.sum(rest.loads)

    assert tilt == pytest.approx(1.4, abs=0.1)
    assert 2.0e-4 < off < 2.6e-4


def _energy(place: Array, *, engine: Engine, free: Array, radii: Array) -> float:
    """Potential energy of body, springs, bars and tyres, from the places of all points.

    The place is heave, roll and pitch of the body about the axes, and four hubs above the road.
    """
    centre, axis = np.array(engine.centre_of_gravity), np.array([0.0, 0.0, engine.axis_height])
    turn = Rotation.from_euler("YX", [place[2], place[1]])
    moved = turn.apply(centre - axis) + axis + np.array([0.0, 0.0, place[0]])
    # Wheel forces keep their distance from the axes: travel is that of points at their height.
    points = np.column_stack([np.array(engine.wheels), np.full(4, engine.axis_height)])
    rises = (turn.apply(points - axis) + axis - points)[:, 2] + place[0]
    heights, loads = np.array(engine.arches) + rises - place[3:], radii - place[3:]
    energy = STANDARD_GRAVITY * (engine.mass * moved[2] + engine.unsprung_masses @ place[3:])
    energy += 0.5 * np.sum(engine.wheel_rates * (heights - free) ** 2)
    energy += 0.5 * np.sum(engine.tyre_rates * loads**2)
    for bar, (left, right) in zip(engine.bars, ((0, 1), (2, 3)), strict=True):
        energy += 0.5 * bar * (heights[left] - heights[right]) ** 2
    return float(energy)


def _gradient(place: Array, **figures: Any) -> Array:
    """Of the energy, by differences between two places."""
    steps = 1e-4 * np.eye(place.size)
    ends = [(_energy(place + s, **figures), _energy(place - s, **figures)) for s in steps]
    return np.array([(more - less) / 2e-4 for more, less in ends])


def test_the_energy_is_least_in_the_stance() -> None:
    free = ENGINE.free_heights + np.array([2e-4, -1e-4, 1e-4, 3e-4])
    start = np.concatenate([np.zeros(3), ENGINE.hubs])
    found = root(
        lambda place: _gradient(place, engine=ENGINE, free=free, radii=ENGINE.tyre_radii), start
    ).x
    stance = settle(vehicle(ENGINE), free)

    assert (stance.heave, stance.roll, stance.pitch_angle) == pytest.approx(found[:3], abs=1e-8)
    assert stance.arches - stance.heights == pytest.approx(found[3:], abs=1e-8)


def test_load_transfer_is_that_of_three_free_bodies() -> None:
    """Statics of body and both axles in a curve, in the place to which the body leans."""
    mass, height, inside = 1350.0, 0.62, 4.0
    (ahead, behind), (front, rear) = (1.2, 1.4), (0.05, 0.12)
    rates, tracks = np.array([36_000.0, 24_000.0]), np.array([1.5, 1.46])
    unsprung, hub = np.array([80.0, 95.0]), np.array([0.31, 0.30])
    share = behind / (ahead + behind)
    axis = share * front + (1.0 - share) * rear
    # Unknown: side and upright force at both roll centres, the roll, and at each axle
    # the gain of the right wheel.  The moments of springs and bars go with the roll.
    rows, right = [], []
    rows.append([1.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0])
    right.append(mass * inside)
    rows.append([0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0])
    right.append(mass * STANDARD_GRAVITY)
    rows.append([ahead, -behind, 0.0, 0.0, 0.0, 0.0, 0.0])
    right.append(0.0)
    rows.append([0.0, 0.0, ahead, -behind, 0.0, 0.0, 0.0])
    right.append(0.0)
    # About the roll axis beneath the centre of gravity, which the roll moves to the right.
    lever = height - axis
    side = np.array([front - axis, rear - axis])
    rows.append([*(-side), 0.0, 0.0, rates.sum() - mass * STANDARD_GRAVITY * lever, 0.0, 0.0])
    right.append(mass * inside * lever)
    for axle, centre in enumerate((front, rear)):
        moment = np.zeros(7)
        moment[axle], moment[4], moment[5 + axle] = centre, rates[axle], -tracks[axle]
        rows.append(list(moment))
        right.append(-unsprung[axle] * inside * hub[axle])
    found = scipy.linalg.solve(np.array(rows), np.array(right))

    roll = inside * roll_gradient(mass=mass, lever=lever, roll_rate=float(rates.sum()))
    transfer = load_transfer(
        lateral_acceleration=inside,
        roll=roll,
        roll_rate=rates,
        track=tracks,
        mass=mass * np.array([share, 1.0 - share]),
        roll_centre=np.array([front, rear]),
        unsprung_mass=unsprung,
        unsprung_height=hub,
    )
    assert roll == pytest.approx(found[4], rel=1e-12)
    assert transfer == pytest.approx(found[5:], rel=1e-12)
