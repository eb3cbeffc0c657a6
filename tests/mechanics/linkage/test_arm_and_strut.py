"""Laws and refusals of `barwright.mechanics.linkage.arm_and_strut`."""

from __future__ import annotations

import itertools
import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import (
    Linkage,
    Motion,
    Path,
    Strut,
    SwingArm,
    where_least,
)
from each_case import each_case
from linkages import ANGLES, ARM, EACH, STRUT


def refused(act: Any, *arguments: Any) -> dict[str, Any]:
    """Fields of the error that a call raises."""
    with pytest.raises(GeometryError) as caught:
        act(*arguments)
    return caught.value.fields


@given(angle=ANGLES, add=ANGLES)
def test_swing_arm_keeps_its_points_at_their_radius(angle: float, add: float) -> None:
    one, two = ARM.motion(angle).load, ARM.motion(angle + add).load

    assert np.hypot(one.outboard, one.height) == pytest.approx(
        np.hypot(two.outboard, two.height), rel=1e-13
    )


@given(angle=ANGLES)
def test_points_of_a_carrier_keep_their_distance(angle: float) -> None:
    motion = STRUT.motion(angle)
    apart = np.hypot(
        motion.load.outboard - motion.hub.outboard, motion.load.height - motion.hub.height
    )

    assert apart == pytest.approx(math.dist((0.12, -0.27), (0.12, 0.03)), rel=1e-13)


def test_strut_stands_at_its_reference_as_given() -> None:
    motion = STRUT.motion(-0.05)
    joint = (0.36 * math.cos(-0.05), 0.36 * math.sin(-0.05))

    assert motion.tilt == 0.0
    assert motion.hub.outboard == pytest.approx(joint[0] + 0.12, rel=1e-14)
    assert motion.hub.height == pytest.approx(joint[1] + 0.03, rel=1e-14)


@given(angle=ANGLES)
def test_strut_without_offset_is_as_long_as_ball_joint_and_mount_are_apart(angle: float) -> None:
    strut = attrs.evolve(STRUT, offset=0.0, length_below=0.0)
    joint = (0.36 * math.cos(angle), 0.36 * math.sin(angle))

    assert strut.motion(angle).damper_length == pytest.approx(
        math.dist(joint, (0.28, 0.62)), rel=1e-14
    )


@given(angle=ANGLES, add=st.floats(-0.2, 0.2))
def test_length_below_is_added_and_moves_nothing(angle: float, add: float) -> None:
    here = STRUT.motion(angle)
    longer = attrs.evolve(STRUT, length_below=STRUT.length_below + add).motion(angle)

    assert longer.damper_length - here.damper_length == pytest.approx(add, abs=1e-15)
    assert (longer.damper_slope, longer.hub.height) == (here.damper_slope, here.hub.height)


@given(angle=ANGLES)
def test_reference_only_names_the_points(angle: float) -> None:
    # The same carrier, its load point given in the position at another angle.
    before = STRUT.motion(0.2)
    joint = (0.36 * math.cos(0.2), 0.36 * math.sin(0.2))
    load = (before.load.outboard - joint[0], before.load.height - joint[1])
    hub = (before.hub.outboard - joint[0], before.hub.height - joint[1])
    renamed = attrs.evolve(STRUT, reference_angle=0.2, load_point=load, hub_point=hub).motion(angle)

    assert renamed.load.height == pytest.approx(STRUT.motion(angle).load.height, abs=1e-14)
    assert renamed.hub.slope == pytest.approx(STRUT.motion(angle).hub.slope, abs=1e-14)


def test_another_arm_is_on_and_the_carrier_stays_what_it_is() -> None:
    longer = attrs.evolve(STRUT, arm_radius=0.38, reference_radius=0.36)

    # With a foot further out the strut, and the wheel with it, leans in at the top.
    assert longer.motion(-0.05).tilt > 0.03
    assert attrs.evolve(STRUT, reference_radius=0.36).motion(0.2).tilt == STRUT.motion(0.2).tilt
    assert attrs.evolve(longer, reference_radius=None).motion(-0.05).tilt == 0.0


@pytest.mark.parametrize("linkage", EACH.values(), ids=EACH)
def test_a_state_knows_its_angle_and_is_that_of_its_carrier(linkage: Any) -> None:
    motion, carrier = linkage.motion(0.2), linkage.carrier(0.2)

    assert motion.angle == 0.2
    assert motion.tilt == carrier.tilt
    for path, point in ((motion.load, linkage.load_point), (motion.hub, linkage.hub_point)):
        assert attrs.astuple(path) == attrs.astuple(carrier.path(point))


def test_a_swing_arm_is_its_own_carrier() -> None:
    carrier = ARM.carrier(0.3)

    assert (carrier.tilt, carrier.tilt_slope, carrier.tilt_curvature) == (0.3, 1.0, 0.0)
    assert attrs.astuple(carrier.joint) == (0.0, 0.0, 0.0, 0.0)


@pytest.mark.parametrize("linkage", EACH.values(), ids=EACH)
@given(angle=st.floats(-0.3, 0.3), shorter=st.floats(0.001, 0.03))
def test_shorter_damper_lifts_the_droop_limit(
    linkage: Linkage, angle: float, shorter: float
) -> None:
    length = linkage.motion(angle).damper_length

    assert linkage.angle_at_damper_length(length - shorter) > angle


# -- Motion ratio ------------------------------------------------------------------------


def moving(*, z: float, bend: float, s: float, s_bend: float) -> Motion:
    """State of some linkage, from its derivatives."""
    load = Path(0.4, 0.0, slope=z, curvature=bend)
    hub = Path(0.4, 0.3, slope=99.0, curvature=99.0)
    return Motion(0.0, load, hub, 0.5, s, s_bend, 0.0)


def test_motion_ratio_is_the_dampers_stroke_over_the_loads_travel() -> None:
    motion = moving(z=0.4, bend=-0.1, s=-0.3, s_bend=0.2)

    assert motion.motion_ratio == pytest.approx(0.75)


@given(angle=st.floats(-0.3, 0.3))
def test_a_damper_beside_the_load_moves_as_it_does(angle: float) -> None:
    # Foot at the load point, mount far above: the damper shortens by what the load rises.
    arm = SwingArm(
        load_point=(0.4, 0.0), hub_point=(0.4, 0.0), damper_foot=(0.4, 0.0), damper_mount=(0.4, 1e7)
    )
    motion = arm.motion(angle)

    assert motion.motion_ratio == pytest.approx(1.0, abs=1e-7)


# -- Arrays ------------------------------------------------------------------------------


def test_dimensions_broadcast_with_angles() -> None:
    radii, angles = np.array([0.34, 0.36]), np.linspace(-0.2, 0.2, 3)[:, None]
    struts = attrs.evolve(
        STRUT,
        arm_radius=radii,
        top_mount=(np.array([0.27, 0.28]), 0.62),
        offset=np.array([0.02, -0.03]),
        length_below=np.array([0.0, 0.04]),
        reference_radius=np.array([0.35, 0.36]),
    )
    motion = struts.motion(angles)
    back = np.asarray(struts.angle_at_damper_length(motion.damper_length))

    assert np.shape(motion.damper_curvature) == (3, 2)
    assert np.asarray(motion.load.height)[2, 1] == STRUT.motion(0.2).load.height
    assert back == pytest.approx(np.broadcast_to(angles, (3, 2)), abs=1e-12)


def test_feet_and_mounts_of_a_damper_broadcast() -> None:
    arms = attrs.evolve(
        ARM,
        damper_foot=(np.array([0.29, 0.31]), np.array([0.01, -0.03])),
        damper_mount=(np.array([0.2, 0.24]), 0.52),
    )
    lengths = np.asarray(arms.motion(0.1).damper_length)

    assert lengths[1] == ARM.motion(0.1).damper_length
    assert arms.angle_at_damper_length(lengths) == pytest.approx(0.1, abs=1e-13)


# -- Refusals ----------------------------------------------------------------------------

PLAIN = attrs.evolve(ARM, damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))


def test_refusal_names_the_damper_and_its_range() -> None:
    assert refused(PLAIN.angle_at_damper_length, 0.9) == {
        "code": "G101",
        "value": "a damper whose mounts are 900.0 mm apart",
        "expected": "200.0 mm to 800.0 mm",
        "remedy": "check the damper's length, the arm's length and the mounts",
        "key": "damper",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("length", [0.1999, 0.8001])
def test_refuses_a_damper_only_just_out_of_reach(length: float) -> None:
    assert refused(PLAIN.angle_at_damper_length, length)["code"] == "G101"


@pytest.mark.parametrize("length", [0.25, 1.0])
def test_takes_a_damper_that_just_reaches(length: float) -> None:
    # 3-4-5, in figures without rounding: the mount stands 0.625 m from the axis.
    arm = attrs.evolve(ARM, damper_foot=(0.375, 0.0), damper_mount=(0.375, 0.5))
    straight = math.atan2(4.0, 3.0) - (math.pi if length > 0.5 else 0.0)

    assert arm.angle_at_damper_length(length) == pytest.approx(straight, abs=1e-15)


@each_case(
    "linkage, length", itertools.product(EACH.values(), [0.01, 1.5, math.nan, np.array([0.5, 1.5])])
)
def test_refuses_a_damper_that_the_arm_cannot_reach(linkage: Linkage, length: Real) -> None:
    assert refused(linkage.angle_at_damper_length, length)["code"] == "G101"


def test_refusal_shows_the_first_length_that_is_wrong() -> None:
    fields = refused(PLAIN.angle_at_damper_length, np.array([0.5, 0.7, 0.95, 0.1]))

    assert fields["value"] == "a damper whose mounts are 950.0 mm apart"


def test_refusal_names_the_top_mount() -> None:
    strut = attrs.evolve(STRUT, top_mount=(0.37, 0.0))

    assert refused(strut.motion, 0.0) == {
        "code": "G101",
        "value": "ball joint 10.0 mm from the top mount",
        "expected": "more than the strut's offset of 30.0 mm",
        "remedy": "check the top mount, the arm's length and the strut's offset",
        "key": "top_mount",
        "file": "",
        "line": 0,
    }


def test_refusal_shows_the_strut_that_is_most_wrong() -> None:
    struts = attrs.evolve(
        STRUT, top_mount=(0.37, np.array([0.6, 0.03, 0.0])), offset=np.array([0.01, 0.04, -0.04])
    )
    fields = refused(struts.motion, 0.0)

    assert fields["value"] == "ball joint 10.0 mm from the top mount"
    assert fields["expected"] == "more than the strut's offset of 40.0 mm"


@pytest.mark.parametrize("offset", [-0.1, 0.1])
@pytest.mark.parametrize("height", [0.0, 0.05, 0.1], ids=["at", "within", "just at the offset"])
def test_refuses_a_top_mount_no_further_than_the_offset(offset: float, height: float) -> None:
    strut = Strut(
        arm_radius=0.35,
        top_mount=(0.35, height),
        offset=offset,
        length_below=0.0,
        reference_angle=1.0,
        load_point=(0.1, -0.25),
        hub_point=(0.1, 0.0),
    )
    fields = refused(strut.motion, 0.0)

    assert fields["value"] == f"ball joint {height * 1000:.1f} mm from the top mount"
    assert fields["expected"] == "more than the strut's offset of 100.0 mm"


def test_refuses_a_damper_shorter_than_its_length_below() -> None:
    strut = attrs.evolve(STRUT, length_below=np.array([0.04, 0.80]))

    assert refused(strut.angle_at_damper_length, np.array([0.6, 0.80])) == {
        "code": "G101",
        "value": "a damper whose mounts are 800.0 mm apart",
        "expected": "more than 800.0 mm",
        "remedy": "check the damper's length, the arm's length and the mounts",
        "key": "damper",
        "file": "",
        "line": 0,
    }


def test_refuses_an_angle_that_is_no_number_in_a_strut() -> None:
    assert refused(STRUT.motion, np.array([0.1, math.nan]))["value"] == (
        "ball joint nan mm from the top mount"
    )


def test_values_are_told_where_a_measure_is_least() -> None:
    flags = np.array([[True, False], [False, True]])

    assert where_least(flags, np.array([1.0, 2.0]), 7.0) == [2.0, 7.0]
    assert where_least(np.False_, 3.0) == [3.0]
    assert where_least(np.array([0.3, -0.2, -0.1]), np.array([1.0, 2.0, 3.0])) == [2.0]
