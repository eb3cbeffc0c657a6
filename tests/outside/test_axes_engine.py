"""Inclined bars against a multibody engine, and wheels against a library of rotations."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.linalg import null_space
from scipy.spatial.transform import Rotation

from barwright.mechanics.common.bar_axes import BarPlane, bar_plane
from barwright.mechanics.corner.statics import wheel_load, wheel_rate
from barwright.mechanics.linkage.alignment import Alignment
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from barwright.mechanics.spline.clocking import bump_sense
from draws import draws
from inclined_arm import HingedArm, camber_and_toe, steering_axis, wheel_frame

Floats = NDArray[np.float64]

ANGLES = st.floats(-0.5, 0.5)
SIDES = st.sampled_from([-1, 1])


@st.composite
def bars(draw: st.DrawFn) -> tuple[Floats, Floats]:
    """A bar axis up to 57° from the horizontal, and the level way from it to the wheel."""
    heading, climb = draw(st.floats(-math.pi, math.pi)), draw(st.floats(-1.0, 1.0))
    level = np.array([math.cos(heading), math.sin(heading), 0.0])
    bar = math.cos(climb) * level + np.array([0.0, 0.0, math.sin(climb)])
    return bar, draw(SIDES) * np.array([-level[1], level[0], 0.0])


def plane_of(bar: Floats, arm: Floats) -> BarPlane:
    return bar_plane(bar_axis=bar, arm_direction=arm)


@given(vectors=bars())
def test_the_plane_is_what_is_square_to_the_bar(vectors: tuple[Floats, Floats]) -> None:
    bar, arm = vectors
    plane = plane_of(bar, arm)
    level = null_space(np.array([bar, [0.0, 0.0, 1.0]]))[:, 0]
    rising = null_space(np.array([bar, level]))[:, 0]

    assert plane.outboard == pytest.approx(level * np.sign(level @ arm), abs=1e-14)
    assert plane.up == pytest.approx(rising * np.sign(rising[2]), abs=1e-14)


@given(vectors=bars())
def test_bump_is_what_lifts_the_wheel_in_the_engine(vectors: tuple[Floats, Floats]) -> None:
    bar, arm = vectors
    engine, plane = HingedArm(bar, 0.4 * arm), plane_of(bar, arm)

    assert plane.sense == engine.sense
    assert bump_sense(bar_axis=bar, arm_direction=arm) == engine.sense
    assert plane.bump_axis == pytest.approx(engine.bump_axis, abs=1e-14)


@given(vectors=bars(), outboard=st.floats(0.2, 0.6), above=st.floats(-0.3, 0.2), angle=ANGLES)
def test_a_swing_arm_carries_its_wheel_where_the_engine_does(
    vectors: tuple[Floats, Floats], outboard: float, above: float, angle: float
) -> None:
    bar, arm = vectors
    plane = plane_of(bar, arm)
    # Beside the plane through the origin too: that plays no part.
    place = plane.in_vehicle(outboard=outboard, height=above) + 0.3 * bar
    engine = HingedArm(bar, place)
    swing = SwingArm((outboard, above), (outboard, above), (0.3, 0.0), (0.3, 0.4))
    load, at_rest = swing.motion(angle).load, swing.motion(0.0).load
    shift = {"outboard": load.outboard - at_rest.outboard, "height": load.height - at_rest.height}
    moved = engine.at(angle).wheel - place

    assert plane.in_vehicle(**shift) == pytest.approx(moved, abs=1e-14)
    assert plane.vertical_share * shift["height"] == pytest.approx(moved[2], abs=1e-14)
    assert plane.wheelbase_change(**shift) == pytest.approx(moved[0], abs=1e-14)
    for side in (-1, 1):
        widened = plane.track_change(**shift, wheel_side=side)
        assert widened == pytest.approx(side * moved[1], abs=1e-14)


@given(vectors=bars(), radius=st.floats(0.2, 0.6), angle=ANGLES, load=st.floats(500.0, 5000.0))
def test_a_vertical_load_turns_the_arm_as_in_the_engine(
    vectors: tuple[Floats, Floats], radius: float, angle: float, load: float
) -> None:
    bar, arm = vectors
    plane, engine = plane_of(bar, arm), HingedArm(bar, radius * arm).at(angle)
    motion = SwingArm((radius, 0.0), (radius, 0.0), (0.1, 0.0), (0.1, 0.4)).motion(angle)
    torque = engine.torque((0.0, 0.0, load))

    assert wheel_load(motion, torque=torque) == pytest.approx(
        load * plane.vertical_share, rel=1e-12
    )
    # Virtual work: the same torque from the engine's own Jacobian.
    assert torque == pytest.approx(load * engine.velocity[2], rel=1e-12)


@settings(max_examples=draws(30))
@given(vectors=bars(), angle=st.floats(-0.3, 0.3))
def test_a_wheel_rate_is_the_engines_load_over_its_travel(
    vectors: tuple[Floats, Floats], angle: float
) -> None:
    bar, arm = vectors
    plane, rate, free = plane_of(bar, arm), 3600.0, -0.5
    step = 1e-4
    low, high = (_carried(bar, arm, angle + x, rate, free) for x in (-step, step))
    engine_rate = (high[0] - low[0]) / (high[1] - low[1])

    motion = SwingArm((0.4, 0.0), (0.4, 0.0), (0.1, 0.0), (0.1, 0.4)).motion(angle)
    load = wheel_load(motion, torque=rate * (angle - free))
    ours = wheel_rate(motion, rate=rate, load=load) / plane.vertical_share**2
    assert ours == pytest.approx(engine_rate, rel=1e-6)


def _carried(bar: Floats, arm: Floats, angle: float, rate: float, free: float) -> Any:
    """Vertical load that a bar carries in the engine, and the wheel's height there."""
    engine = HingedArm(bar, 0.4 * arm).at(angle)
    return rate * (angle - free) / engine.torque((0.0, 0.0, 1.0)), engine.wheel[2]


SMALL = st.floats(-0.3, 0.3)


@given(vectors=bars(), tilt=st.floats(-0.5, 0.5), camber=SMALL, toe=SMALL, side=SIDES)
def test_camber_and_toe_are_those_of_a_rotated_wheel(
    vectors: tuple[Floats, Floats], tilt: float, camber: float, toe: float, side: int
) -> None:
    plane = plane_of(*vectors)
    turn = Rotation.from_rotvec(tilt * plane.bump_axis)
    frame = turn * wheel_frame(camber=camber, toe=toe, side=side)
    after = Alignment(camber=camber, toe=toe).tilted(tilt, plane=plane, wheel_side=side)

    assert (after.camber, after.toe) == pytest.approx(camber_and_toe(frame, side=side), abs=1e-12)


@given(vectors=bars(), tilt=st.floats(-0.5, 0.5), castor=SMALL, inclination=SMALL, side=SIDES)
def test_castor_is_that_of_two_points_which_the_engine_carries(
    vectors: tuple[Floats, Floats], tilt: float, castor: float, inclination: float, side: int
) -> None:
    bar, arm = vectors
    low = 0.4 * arm
    high = low + steering_axis(castor=castor, inclination=inclination, side=side)
    ways = [HingedArm(bar, low).at(tilt).wheel, HingedArm(bar, high)]
    # The upper point may fall when the wheel rises: both turn about the same direction.
    same = 1.0 if ways[1].sense == HingedArm(bar, low).sense else -1.0
    forward, left, up = ways[1].at(same * tilt).wheel - ways[0]
    before = Alignment(castor=castor, steering_inclination=inclination)
    after = before.tilted(tilt, plane=plane_of(bar, arm), wheel_side=side)

    assert math.tan(float(after.castor)) == pytest.approx(-forward / up, abs=1e-12)
    assert math.tan(float(after.steering_inclination)) == pytest.approx(
        -side * left / up, abs=1e-12
    )
