"""Laws of `barwright.mechanics.linkage`."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.linkage import Strut, SwingArm

ANGLES = st.floats(-0.5, 0.5)

ARM = SwingArm(
    load_point=(0.42, -0.28),
    hub_point=(0.42, 0.01),
    damper_foot=(0.31, -0.03),
    damper_mount=(0.24, 0.52),
)
STRUT = Strut(
    arm_radius=0.36,
    top_mount=(0.28, 0.62),
    offset=-0.03,
    length_below=0.04,
    reference_angle=-0.05,
    load_point=(0.12, -0.27),
    hub_point=(0.12, 0.03),
)


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

    assert apart == pytest.approx(math.dist(STRUT.load_point, STRUT.hub_point), rel=1e-13)


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
    load = (float(before.load.outboard) - joint[0], float(before.load.height) - joint[1])
    hub = (float(before.hub.outboard) - joint[0], float(before.hub.height) - joint[1])
    renamed = attrs.evolve(STRUT, reference_angle=0.2, load_point=load, hub_point=hub).motion(angle)

    assert renamed.load.height == pytest.approx(STRUT.motion(angle).load.height, abs=1e-14)
    assert renamed.hub.slope == pytest.approx(STRUT.motion(angle).hub.slope, abs=1e-14)


@pytest.mark.parametrize("linkage", [ARM, STRUT], ids=["swing arm", "strut"])
@given(angle=ANGLES, shorter=st.floats(0.001, 0.03))
def test_shorter_damper_lifts_the_droop_limit(
    linkage: SwingArm | Strut, angle: float, shorter: float
) -> None:
    length = linkage.motion(angle).damper_length

    assert linkage.angle_at_damper_length(length - shorter) > angle


def test_refusal_names_the_damper_and_its_range() -> None:
    arm = attrs.evolve(ARM, damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
    with pytest.raises(GeometryError) as caught:
        arm.angle_at_damper_length(0.9)

    assert caught.value.fields | {"remedy": ""} == {
        "code": "G101",
        "value": "a damper whose mounts are 900.0 mm apart",
        "expected": "200.0 mm to 800.0 mm",
        "remedy": "",
        "key": "damper",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("length", [0.1999, 0.8001])
def test_refuses_a_damper_only_just_out_of_reach(length: float) -> None:
    arm = attrs.evolve(ARM, damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
    with pytest.raises(GeometryError):
        arm.angle_at_damper_length(length)


def test_refusal_names_the_top_mount() -> None:
    strut = attrs.evolve(STRUT, top_mount=(0.37, 0.0))
    with pytest.raises(GeometryError) as caught:
        strut.motion(0.0)

    assert caught.value.key == "top_mount"
    assert caught.value.value == "ball joint 10.0 mm from the top mount"
    assert caught.value.expected == "more than the strut's offset of 30.0 mm"


def test_refuses_a_damper_shorter_than_its_length_below() -> None:
    strut = attrs.evolve(STRUT, length_below=0.80)
    with pytest.raises(GeometryError):
        strut.angle_at_damper_length(0.30)
