"""Laws and refusals of `barwright.mechanics.linkage.double_wishbone`."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.linkage.double_wishbone import DoubleWishbone
from linkages import CROSSED, WISHBONE

EVEN = DoubleWishbone(
    arm_radius=0.35,
    upper_pivot=(0.0, 0.25),
    upper_radius=0.35,
    upright=0.25,
    branch=1,
    damper_foot=(0.25, 0.0),
    damper_mount=(0.2, 0.4),
    reference_angle=0.0,
    load_point=(0.1, -0.2),
    hub_point=(0.1, 0.1),
)
ANGLES = st.floats(-0.3, 0.3)


def test_equal_parallel_arms_keep_the_wheel_upright() -> None:
    angles = np.linspace(-0.3, 0.3, 31)
    motion, carrier = EVEN.motion(angles), EVEN.carrier(angles)

    assert np.allclose(motion.tilt, 0.0, atol=1e-12)
    assert np.allclose(motion.load.slope, 0.35 * np.cos(angles), atol=1e-12)
    assert np.allclose(motion.hub.curvature, -0.35 * np.sin(angles), atol=1e-12)
    assert np.allclose(carrier.tilt_slope, 0.0, atol=1e-12)


@given(angle=ANGLES)
def test_a_shorter_upper_arm_takes_camber_from_a_wheel_that_rises(angle: float) -> None:
    shorter = attrs.evolve(EVEN, upper_radius=0.25, upper_pivot=(0.1, 0.25))

    assert math.copysign(1.0, shorter.carrier(angle + 0.31).tilt_slope) == 1.0
    # From level, both up and down: the shorter arm's end is drawn inward.
    assert shorter.motion(angle).tilt >= -1e-15


@pytest.mark.parametrize("arms", [WISHBONE, CROSSED], ids=["outboard", "inboard"])
def test_wheel_stands_at_its_reference_as_given(arms: DoubleWishbone) -> None:
    motion = arms.motion(0.04)
    joint = (0.34 * math.cos(0.04), 0.34 * math.sin(0.04))

    assert (motion.angle, motion.tilt) == (0.04, 0.0)
    assert (motion.load.outboard, motion.load.height) == pytest.approx(
        (joint[0] + 0.10, joint[1] - 0.24), rel=1e-14
    )


@given(angle=ANGLES)
def test_the_sides_of_a_linkage_are_mirrors(angle: float) -> None:
    # Seen from the other side of the line between joint and pivot, straight above it.
    upright = attrs.evolve(WISHBONE, arm_radius=0.34, upper_pivot=(0.34, 0.35), reference_angle=0.0)
    one, other = upright, attrs.evolve(upright, branch=-1)
    joint = 0.34 * np.array([math.cos(angle), math.sin(angle)])
    line = math.atan2(0.35 - joint[1], 0.34 - joint[0])
    at_reference = math.pi / 2.0

    # Both lean off that line by as much; tilts are told from the reference.
    both = np.asarray(one.motion(angle).tilt) + np.asarray(other.motion(angle).tilt)
    assert both == pytest.approx(2.0 * (line - at_reference), abs=1e-12)


def test_another_lower_arm_is_on_and_the_carrier_stays_what_it_is() -> None:
    longer = attrs.evolve(WISHBONE, arm_radius=0.36, reference_radius=0.34)

    # With its foot further out the wheel leans in at the top.
    assert longer.motion(0.04).tilt > 0.05
    same = attrs.evolve(WISHBONE, reference_radius=0.34)
    assert same.motion(0.2).tilt == WISHBONE.motion(0.2).tilt
    assert attrs.evolve(longer, reference_radius=None).motion(0.04).tilt == 0.0


def test_dimensions_broadcast_with_angles() -> None:
    angles = np.linspace(-0.2, 0.2, 3)[:, None]
    arms = attrs.evolve(
        WISHBONE,
        arm_radius=np.array([0.33, 0.34]),
        upper_pivot=(np.array([0.12, 0.13]), 0.27),
        upper_radius=np.array([0.24, 0.23]),
        upright=np.array([0.27, 0.28]),
        reference_angle=np.array([0.0, 0.04]),
        damper_foot=(np.array([0.23, 0.24]), -0.02),
    )
    motion = arms.motion(angles)
    back = np.asarray(arms.angle_at_damper_length(motion.damper_length))

    assert np.shape(motion.load.curvature) == (3, 2)
    assert np.asarray(motion.load.curvature)[2, 1] == WISHBONE.motion(0.2).load.curvature
    assert back == pytest.approx(np.broadcast_to(angles, (3, 2)), abs=1e-12)


# -- Refusals ----------------------------------------------------------------------------

SHORT = attrs.evolve(EVEN, upper_radius=0.05, upright=0.10)


def refused(act: Any, *arguments: Any) -> dict[str, Any]:
    """Fields of the error that a call raises."""
    with pytest.raises(GeometryError) as caught:
        act(*arguments)
    return caught.value.fields


def test_links_that_do_not_meet_are_refused() -> None:
    assert refused(SHORT.motion, 0.0) == {
        "code": "G101",
        "value": "430.1 mm from ball joint to upper pivot",
        "expected": "50.0 mm to 150.0 mm",
        "remedy": "check the upper arm, the upright and the upper pivot",
        "key": "upper_pivot",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize(
    "pivot", [(0.35, 0.0625), (0.35, 0.0624), (0.35, 0.1875), (0.35, 0.1876), (0.35, math.nan)]
)
def test_links_in_one_line_or_beyond_are_refused(pivot: tuple[float, float]) -> None:
    # In figures without rounding: 0.125 m and 0.0625 m, folded or stretched.
    arms = attrs.evolve(EVEN, upper_pivot=pivot, upright=0.125, upper_radius=0.0625)
    fields = refused(arms.motion, 0.0)

    assert fields["code"] == "G101"
    assert fields["expected"] == "62.5 mm to 187.5 mm"


@pytest.mark.parametrize("height", [0.0626, 0.1874])
def test_links_that_only_just_meet_are_taken(height: float) -> None:
    arms = attrs.evolve(EVEN, upper_pivot=(0.35, height), upright=0.125, upper_radius=0.0625)

    assert math.isfinite(float(arms.motion(0.0).tilt))


def test_refusal_shows_the_first_linkage_that_is_wrong() -> None:
    several = attrs.evolve(EVEN, upper_radius=np.array([0.35, 0.05]), upright=np.array([0.25, 0.1]))
    fields = refused(several.motion, 0.0)

    assert fields["value"] == "430.1 mm from ball joint to upper pivot"
    assert fields["expected"] == "50.0 mm to 150.0 mm"


@pytest.mark.parametrize("length", [0.1, 0.9, math.nan])
def test_refuses_a_damper_that_the_lower_arm_cannot_reach(length: float) -> None:
    assert refused(EVEN.angle_at_damper_length, length)["key"] == "damper"
