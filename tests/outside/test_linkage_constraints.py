"""Linkages against the raw constraints of rigid bodies, and against differences."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion, Strut, SwingArm
from draws import draws
from linkages import ANGLES, STRUTS, SWING_ARMS, WISHBONES

FIELDS: dict[str, Callable[[Motion], Real]] = {
    "load outboard": lambda m: m.load.outboard,
    "load height": lambda m: m.load.height,
    "load slope": lambda m: m.load.slope,
    "load curvature": lambda m: m.load.curvature,
    "hub outboard": lambda m: m.hub.outboard,
    "hub height": lambda m: m.hub.height,
    "hub slope": lambda m: m.hub.slope,
    "hub curvature": lambda m: m.hub.curvature,
    "damper length": lambda m: m.damper_length,
    "damper slope": lambda m: m.damper_slope,
    "damper curvature": lambda m: m.damper_curvature,
    "tilt": lambda m: m.tilt,
    "motion ratio": lambda m: m.motion_ratio,
}
DERIVED = [
    ("load height", "load slope", "load curvature"),
    ("hub height", "hub slope", "hub curvature"),
    ("damper length", "damper slope", "damper curvature"),
]

# A linkage and an arm angle within its travel.
STATES = st.one_of(
    st.tuples(STRUTS, ANGLES),
    st.tuples(SWING_ARMS, ANGLES),
    st.tuples(WISHBONES, st.floats(-0.25, 0.25)),
)


def _carrier(strut: Any, angle: float) -> NDArray[np.float64]:
    """Ball joint and direction of the strut's axis, from the constraints alone."""
    mount = np.array(strut.top_mount)

    def violated(pose: NDArray[np.float64]) -> NDArray[np.float64]:
        joint, axis = pose[:2], pose[2]
        outboard_of_axis = np.array([math.sin(axis), -math.cos(axis)])
        on_the_axis = (mount - joint) @ outboard_of_axis - strut.offset
        on_the_arm = (
            math.hypot(*joint) - strut.arm_radius,
            joint[1] * math.cos(angle) - joint[0] * math.sin(angle),
        )
        return np.array([*on_the_arm, on_the_axis])

    start = np.array([strut.arm_radius, 0.0, math.pi / 2.0])
    result = scipy.optimize.least_squares(violated, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert np.max(np.abs(result.fun)) < 1e-12
    return np.asarray(result.x)


@settings(max_examples=draws(40))
@given(strut=STRUTS, angle=ANGLES)
def test_strut_obeys_the_constraints_of_a_rigid_carrier(strut: Any, angle: float) -> None:
    pose = _carrier(strut, angle)
    tilt = pose[2] - _carrier(strut, strut.reference_angle)[2]
    turn = np.array([[math.cos(tilt), -math.sin(tilt)], [math.sin(tilt), math.cos(tilt)]])
    along = np.array([math.cos(pose[2]), math.sin(pose[2])])
    damper = (np.array(strut.top_mount) - pose[:2]) @ along + strut.length_below
    motion = strut.motion(angle)

    assert motion.tilt == pytest.approx(tilt, abs=1e-10)
    assert motion.damper_length == pytest.approx(damper, abs=1e-10)
    for point, path in ((strut.load_point, motion.load), (strut.hub_point, motion.hub)):
        expected = pose[:2] + turn @ np.array(point)
        assert (path.outboard, path.height) == pytest.approx(tuple(expected), abs=1e-10)


@pytest.mark.parametrize("offset", [-0.06, 0.06])
def test_positive_offset_puts_the_strut_outboard_of_the_ball_joint(offset: float) -> None:
    # An upright strut: with the mount straight above a point beside the joint, the
    # length is the plain height, and the carrier stands as at the reference.
    strut = Strut(
        arm_radius=0.35,
        top_mount=(0.35 + offset, 0.60),
        offset=offset,
        length_below=0.0,
        reference_angle=0.0,
        load_point=(0.1, -0.25),
        hub_point=(0.1, 0.0),
    )
    assert strut.motion(0.0).damper_length == pytest.approx(0.60, abs=1e-14)


@settings(max_examples=draws(60))
@given(arm=SWING_ARMS, angle=ANGLES)
def test_swing_arm_turns_its_points_rigidly(arm: Any, angle: float) -> None:
    turn = complex(math.cos(angle), math.sin(angle))
    motion = arm.motion(angle)

    assert motion.tilt == angle
    foot = complex(*arm.damper_foot) * turn
    assert motion.damper_length == pytest.approx(abs(complex(*arm.damper_mount) - foot), rel=1e-14)
    for point, path in ((arm.load_point, motion.load), (arm.hub_point, motion.hub)):
        place = complex(*point) * turn
        assert (path.outboard, path.height) == pytest.approx((place.real, place.imag), abs=1e-15)


# Central differences of sixth order on seven points.
STEP = 0.005
NODES = STEP * np.arange(-3.0, 4.0)
FIRST = np.array([-1.0, 9.0, -45.0, 0.0, 45.0, -9.0, 1.0]) / (60.0 * STEP)
SECOND = np.array([2.0, -27.0, 270.0, -490.0, 270.0, -27.0, 2.0]) / (180.0 * STEP**2)


@settings(max_examples=draws(80))
@given(state=st.tuples(st.one_of(STRUTS, SWING_ARMS), ANGLES))
def test_slopes_and_curvatures_are_those_of_differences(state: tuple[Linkage, float]) -> None:
    linkage, angle = state
    here, around = linkage.motion(angle), [linkage.motion(angle + step) for step in NODES]
    for value, slope, curvature in DERIVED:
        samples = np.array([FIELDS[value](motion) for motion in around])
        assert FIELDS[slope](here) == pytest.approx(FIRST @ samples, abs=1e-10)
        assert FIELDS[curvature](here) == pytest.approx(SECOND @ samples, abs=1e-8)


@settings(max_examples=draws(80))
@given(state=STATES)
def test_damper_length_leads_back_to_its_angle(state: tuple[Linkage, float]) -> None:
    linkage, angle = state
    length = linkage.motion(angle).damper_length

    assert linkage.angle_at_damper_length(length) == pytest.approx(angle, abs=1e-12)


@settings(max_examples=draws(30))
@given(linkage=st.one_of(STRUTS, SWING_ARMS, WISHBONES))
def test_arrays_give_what_their_elements_give(linkage: Linkage) -> None:
    angles = np.linspace(-0.25, 0.25, 6).reshape(2, 3)
    whole = linkage.motion(angles)
    lengths = np.asarray(whole.damper_length)
    back = np.asarray(linkage.angle_at_damper_length(lengths))
    for index, angle in np.ndenumerate(angles):
        one = linkage.motion(float(angle))
        for field in FIELDS.values():
            assert np.asarray(field(whole))[index] == pytest.approx(field(one), rel=1e-12)
        alone = linkage.angle_at_damper_length(float(lengths[index]))
        assert back[index] == pytest.approx(alone, abs=1e-14)


def test_an_array_of_linkages_gives_what_each_gives() -> None:
    arms = [SwingArm((x, -0.2), (x, 0.0), (0.3, 0.01 * x), (0.25, 0.5)) for x in (0.3, 0.45, 0.6)]
    x = np.array([0.3, 0.45, 0.6])
    together = SwingArm((x, -0.2), (x, 0.0), (0.3, 0.01 * x), (0.25, 0.5)).motion(0.2)

    for index, arm in enumerate(arms):
        for field in FIELDS.values():
            values = np.broadcast_to(field(together), (3,))
            assert values[index] == pytest.approx(field(arm.motion(0.2)), rel=1e-14)
