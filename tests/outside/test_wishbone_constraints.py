"""The double wishbone against least squares on the raw constraints of rigid links."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import least_squares

from linkages import WISHBONES

Vector = NDArray[np.float64]

ANGLES = st.floats(-0.25, 0.25)


def turned(point: tuple[float, float], angle: float) -> Vector:
    cosine, sine = math.cos(angle), math.sin(angle)
    return np.array([point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine])


def carrier(linkage: Any, angle: float) -> tuple[Vector, float]:
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

    # From here the search falls on the intersection outboard.
    start = np.array([linkage.arm_radius, 0.0, 1.0])
    found = least_squares(broken, start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    assert found.cost < 1e-24
    joint, lean = found.x[:2], float(found.x[2])
    assert _side(linkage, joint, lean) > 0.0
    return joint, lean


def _side(linkage: Any, joint: Vector, lean: float) -> float:
    """Positive if the upper ball joint lies outboard of the line to the upper pivot."""
    line = np.array(linkage.upper_pivot) - joint
    upright = np.array([math.cos(lean), math.sin(lean)])
    return float(line[1] * upright[0] - line[0] * upright[1])


@given(linkage=WISHBONES, angle=ANGLES)
def test_points_of_the_carrier_are_those_of_rigid_links(linkage: Any, angle: float) -> None:
    motion = linkage.motion(angle)
    _, usual = carrier(linkage, linkage.reference_angle)
    joint, lean = carrier(linkage, angle)

    assert math.isclose(float(motion.tilt), lean - usual, abs_tol=1e-8)
    for path, point in ((motion.load, linkage.load_point), (motion.hub, linkage.hub_point)):
        at = joint + turned(point, lean - usual)
        assert math.isclose(float(path.outboard), at[0], abs_tol=1e-8)
        assert math.isclose(float(path.height), at[1], abs_tol=1e-8)
    foot = turned(linkage.damper_foot, angle)
    length = float(np.linalg.norm(np.array(linkage.damper_mount) - foot))
    assert math.isclose(float(motion.damper_length), length, rel_tol=1e-12)
    assert math.isclose(float(linkage.angle_at_damper_length(length)), angle, abs_tol=1e-9)


@given(linkage=WISHBONES, angle=ANGLES)
def test_derivatives_are_those_of_differences(linkage: Any, angle: float) -> None:
    step = 1e-5
    before, here, after = (linkage.motion(angle + side * step) for side in (-1.0, 0.0, 1.0))
    for name in ("load", "hub"):
        low, at, high = (getattr(m, name) for m in (before, here, after))
        slope = (float(high.height) - float(low.height)) / (2.0 * step)
        bend = (float(high.slope) - float(low.slope)) / (2.0 * step)
        assert math.isclose(float(at.slope), slope, rel_tol=1e-6, abs_tol=1e-7)
        assert math.isclose(float(at.curvature), bend, rel_tol=1e-5, abs_tol=1e-5)
