"""The double wishbone against least squares on the raw constraints of rigid links."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import least_squares

from barwright.errors import GeometryError
from barwright.mechanics.corner import settle, wheel_load
from barwright.mechanics.wishbone import DoubleWishbone

Vector = NDArray[np.float64]

LINKAGES = st.builds(
    DoubleWishbone,
    # Sizes whose links meet over the whole travel.
    arm_radius=st.floats(0.30, 0.36),
    upper_pivot=st.tuples(st.floats(0.12, 0.18), st.floats(0.20, 0.28)),
    upper_radius=st.floats(0.22, 0.30),
    upright=st.floats(0.22, 0.30),
    side=st.just(1),
    damper_foot=st.tuples(st.floats(0.20, 0.30), st.floats(-0.03, 0.03)),
    damper_mount=st.tuples(st.floats(0.15, 0.28), st.floats(0.45, 0.60)),
    reference_angle=st.floats(-0.1, 0.1),
    load_point=st.tuples(st.floats(0.05, 0.15), st.floats(-0.30, -0.20)),
    hub_point=st.tuples(st.floats(0.05, 0.15), st.floats(0.02, 0.12)),
)
ANGLES = st.floats(-0.25, 0.25)


def turned(point: tuple[float, float], angle: float) -> Vector:
    cosine, sine = math.cos(angle), math.sin(angle)
    return np.array([point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine])


def carrier(linkage: DoubleWishbone, angle: float, guess: float) -> tuple[Vector, float]:
    """Ball joint, and lean of the upright, by least squares on the link lengths."""

    def broken(unknown: Vector) -> Vector:
        joint, lean = unknown[:2], unknown[2]
        top = joint + linkage.upright * np.array([math.cos(lean), math.sin(lean)])
        return np.array(
            [
                *(joint - turned((linkage.arm_radius, 0.0), angle)),
                np.linalg.norm(top - np.array(linkage.upper_pivot)) - linkage.upper_radius,
            ]
        )

    start = np.array([linkage.arm_radius, 0.0, guess])
    found = least_squares(broken, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert found.cost < 1e-24
    return found.x[:2], float(found.x[2])


@given(linkage=LINKAGES, angle=ANGLES)
def test_points_of_the_carrier_are_those_of_rigid_links(
    linkage: DoubleWishbone, angle: float
) -> None:
    motion = linkage.motion(angle)
    # Of the two intersections of the circles, the one outboard is built.
    leans = [carrier(linkage, at, 1.0) for at in (linkage.reference_angle, angle)]
    (_, usual), (joint, lean) = leans
    assume(_side(linkage, joint, lean) > 1e-3)
    assert math.isclose(float(motion.tilt), lean - usual, abs_tol=1e-8)
    for path, point in ((motion.load, linkage.load_point), (motion.hub, linkage.hub_point)):
        at = joint + turned(point, lean - usual)
        assert math.isclose(float(path.outboard), at[0], abs_tol=1e-8)
        assert math.isclose(float(path.height), at[1], abs_tol=1e-8)
    foot = turned(linkage.damper_foot, angle)
    length = float(np.linalg.norm(np.array(linkage.damper_mount) - foot))
    assert math.isclose(float(motion.damper_length), length, rel_tol=1e-12)
    assert math.isclose(float(linkage.angle_at_damper_length(length)), angle, abs_tol=1e-9)


def _side(linkage: DoubleWishbone, joint: Vector, lean: float) -> float:
    """Positive if the upper ball joint lies outboard of the line to the upper pivot."""
    line = np.array(linkage.upper_pivot) - joint
    upright = np.array([math.cos(lean), math.sin(lean)])
    return float(line[1] * upright[0] - line[0] * upright[1])


@given(linkage=LINKAGES, angle=ANGLES)
def test_derivatives_are_those_of_differences(linkage: DoubleWishbone, angle: float) -> None:
    step = 1e-5
    before, here, after = (linkage.motion(angle + side * step) for side in (-1.0, 0.0, 1.0))
    for name in ("load", "hub"):
        low, at, high = (getattr(m, name) for m in (before, here, after))
        slope = (float(high.height) - float(low.height)) / (2.0 * step)
        bend = (float(high.slope) - float(low.slope)) / (2.0 * step)
        assert math.isclose(float(at.slope), slope, rel_tol=1e-6, abs_tol=1e-7)
        assert math.isclose(float(at.curvature), bend, rel_tol=1e-5, abs_tol=1e-5)
    speed = (float(after.damper_length) - float(before.damper_length)) / (2.0 * step)
    assert math.isclose(float(here.damper_slope), speed, rel_tol=1e-6, abs_tol=1e-8)
    change = (float(after.damper_slope) - float(before.damper_slope)) / (2.0 * step)
    assert math.isclose(float(here.damper_curvature), change, rel_tol=1e-5, abs_tol=1e-6)


def test_equal_parallel_arms_keep_the_wheel_upright() -> None:
    even = DoubleWishbone(
        arm_radius=0.35,
        upper_pivot=(0.0, 0.25),
        upper_radius=0.35,
        upright=0.25,
        side=1,
        damper_foot=(0.25, 0.0),
        damper_mount=(0.2, 0.4),
        reference_angle=0.0,
        load_point=(0.1, -0.2),
        hub_point=(0.1, 0.1),
    )
    angles = np.linspace(-0.3, 0.3, 31)
    motion = even.motion(angles)
    assert np.allclose(motion.tilt, 0.0, atol=1e-12)
    assert np.allclose(motion.load.slope, 0.35 * np.cos(angles), atol=1e-12)
    # A corner on it is a plain arm of that radius.
    rest = settle(even, free_angle=-0.3, rate=3000.0, load=2500.0, droop=-0.3, bump=0.3)
    assert float(wheel_load(even.motion(rest), torque=3000.0 * (rest + 0.3))) == pytest.approx(
        2500.0
    )


def test_links_that_do_not_meet_are_refused() -> None:
    short = DoubleWishbone(
        arm_radius=0.35,
        upper_pivot=(0.0, 0.25),
        upper_radius=0.05,
        upright=0.10,
        side=1,
        damper_foot=(0.25, 0.0),
        damper_mount=(0.2, 0.4),
        reference_angle=0.0,
        load_point=(0.1, -0.2),
        hub_point=(0.1, 0.1),
    )
    with pytest.raises(GeometryError) as caught:
        short.motion(0.0)
    assert caught.value.code == "G101"
    assert caught.value.expected == "50.0 mm to 150.0 mm"
