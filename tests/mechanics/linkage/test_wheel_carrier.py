"""Laws of `barwright.mechanics.linkage.wheel_carrier`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.linkage.wheel_carrier import Carrier, Path, on_arm, turned

ANGLES = st.floats(-1.4, 1.4)
LENGTHS = st.floats(-0.6, 0.6)
POINTS = st.tuples(LENGTHS, LENGTHS)
SLOPES = st.floats(-1.5, 1.5)

CARRIERS = st.builds(
    Carrier,
    joint=st.builds(on_arm, POINTS, ANGLES),
    tilt=ANGLES,
    tilt_slope=SLOPES,
    tilt_curvature=SLOPES,
)


@given(point=POINTS, one=ANGLES, other=ANGLES)
def test_turns_add_up_and_keep_the_distance(
    point: tuple[float, float], one: float, other: float
) -> None:
    both = turned(turned(point, one), other)

    assert both == pytest.approx(turned(point, one + other), abs=1e-14)
    assert math.hypot(*both) == pytest.approx(math.hypot(*point), abs=1e-14)


def test_a_quarter_turn_in_bump_carries_outboard_to_up_and_up_to_inboard() -> None:
    assert turned((1.0, 0.0), math.pi / 2.0) == pytest.approx((0.0, 1.0), abs=1e-15)
    assert turned((0.0, 1.0), math.pi / 2.0) == pytest.approx((-1.0, 0.0), abs=1e-15)


def test_a_point_of_an_arm_rises_by_its_outboard_coordinate() -> None:
    path = on_arm((0.3, -0.4), math.pi / 2.0)

    assert (path.outboard, path.height) == pytest.approx((0.4, 0.3), abs=1e-15)
    assert (path.slope, path.curvature) == pytest.approx((0.4, -0.3), abs=1e-15)


@given(carrier=CARRIERS)
def test_the_ball_joint_is_where_it_is(carrier: Carrier) -> None:
    path, joint = carrier.path((0.0, 0.0)), carrier.joint

    assert (path.outboard, path.height) == (joint.outboard, joint.height)
    assert (path.slope, path.curvature) == (joint.slope, joint.curvature)
    assert carrier.outboard_slope((0.0, 0.0)) == -joint.height


def test_a_path_adds_the_turn_of_the_carrier_to_its_joint() -> None:
    joint = Path(0.5, 0.25, slope=0.5, curvature=-0.25)
    carrier = Carrier(joint=joint, tilt=math.pi / 2.0, tilt_slope=0.5, tilt_curvature=2.0)
    path = carrier.path((0.125, -0.375))  # now (0.375, 0.125) from the joint

    assert (path.outboard, path.height) == pytest.approx((0.875, 0.375))
    assert path.slope == pytest.approx(0.5 + 0.5 * 0.375)
    assert path.curvature == pytest.approx(-0.25 + 2.0 * 0.375 - 0.25 * 0.125)
    assert carrier.outboard_slope((0.125, -0.375)) == pytest.approx(-0.25 - 0.5 * 0.125)


@given(carrier=CARRIERS, point=POINTS, other=POINTS)
def test_points_of_a_carrier_part_no_further(
    carrier: Carrier, point: tuple[float, float], other: tuple[float, float]
) -> None:
    one, two = carrier.path(point), carrier.path(other)
    apart = (one.outboard - two.outboard, one.height - two.height)
    parting = (
        carrier.outboard_slope(point) - carrier.outboard_slope(other),
        one.slope - two.slope,
    )

    assert math.hypot(*apart) == pytest.approx(math.dist(point, other), abs=1e-14)
    assert apart[0] * parting[0] + apart[1] * parting[1] == pytest.approx(0.0, abs=1e-14)


@given(half_track=st.floats(0.5, 0.9), outboard=st.floats(0.2, 0.6), below=st.floats(0.1, 0.4))
def test_a_swing_axles_roll_centre_lies_on_the_line_through_its_axis(
    half_track: float, outboard: float, below: float
) -> None:
    axle = Carrier(joint=on_arm((0.0, 0.0), 0.0), tilt=0.0, tilt_slope=1.0, tilt_curvature=0.0)
    height = axle.roll_centre_height((outboard, -below), half_track=half_track)

    assert height == pytest.approx(below * half_track / outboard)


def test_a_wheel_that_rises_straight_up_rolls_about_the_ground() -> None:
    # Parallel arms, level: the instant centre is at infinity.
    level = Carrier(joint=on_arm((0.35, 0.0), 0.0), tilt=0.0, tilt_slope=0.0, tilt_curvature=0.0)

    assert level.roll_centre_height((0.1, -0.25), half_track=0.7) == 0.0


def test_carriers_broadcast_over_joints_tilts_and_points() -> None:
    angles = np.linspace(-0.3, 0.3, 4)[:, None]
    lengths = np.array([0.3, 0.4, 0.5])
    carrier = Carrier(
        joint=on_arm((lengths, 0.0), angles), tilt=angles, tilt_slope=0.5, tilt_curvature=0.1
    )
    point = (0.1, np.array([-0.2, -0.25, -0.3]))
    path = carrier.path(point)
    heights = carrier.roll_centre_height(point, half_track=0.7)

    assert np.shape(path.height) == np.shape(path.curvature) == np.shape(heights) == (4, 3)
    alone = Carrier(joint=on_arm((0.4, 0.0), 0.3), tilt=0.3, tilt_slope=0.5, tilt_curvature=0.1)
    assert np.asarray(path.height)[3, 1] == alone.path((0.1, -0.25)).height
    assert np.asarray(heights)[3, 1] == alone.roll_centre_height((0.1, -0.25), half_track=0.7)
