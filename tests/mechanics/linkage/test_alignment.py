"""Laws of `barwright.mechanics.linkage.alignment`."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.bar_axes import BarPlane, bar_plane
from barwright.mechanics.linkage.alignment import Alignment

ANGLES = st.floats(-0.6, 0.6)
SIDES = st.sampled_from([-1, 1])
ALIGNMENTS = st.builds(
    Alignment, camber=ANGLES, toe=ANGLES, castor=ANGLES, steering_inclination=ANGLES
)
TRAILING = bar_plane(bar_axis=(0, 1, 0), arm_direction=(-1, 0, 0))


def along(side: int) -> BarPlane:
    """Plane of a level bar along the vehicle."""
    return bar_plane(bar_axis=(1, 0, 0), arm_direction=(0, side, 0))


def angles(alignment: Alignment) -> Any:
    return np.array([float(x) for x in attrs.astuple(alignment)])


def test_a_straight_wheel_is_what_is_not_said() -> None:
    assert angles(Alignment()).tolist() == [0.0, 0.0, 0.0, 0.0]


@given(before=ALIGNMENTS, side=SIDES)
def test_without_a_turn_nothing_changes(before: Alignment, side: int) -> None:
    assert angles(before.tilted(0.0, plane=TRAILING, wheel_side=side)) == pytest.approx(
        angles(before), abs=1e-14
    )


@given(before=ALIGNMENTS, tilt=ANGLES, side=SIDES)
def test_a_turn_back_undoes_a_turn(before: Alignment, tilt: float, side: int) -> None:
    plane = bar_plane(bar_axis=(1, 0.3, 0.2), arm_direction=(-0.3 * side, side, 0))
    there = before.tilted(tilt, plane=plane, wheel_side=side)

    assert angles(there.tilted(-tilt, plane=plane, wheel_side=side)) == pytest.approx(
        angles(before), abs=1e-12
    )


@given(tilt=ANGLES, side=SIDES)
def test_a_bar_along_the_vehicle_takes_its_tilt_from_the_camber(tilt: float, side: int) -> None:
    after = Alignment(camber=0.02, steering_inclination=0.1).tilted(
        tilt, plane=along(side), wheel_side=side
    )

    assert after.camber == pytest.approx(0.02 - tilt, abs=1e-14)
    assert after.steering_inclination == pytest.approx(0.1 + tilt, abs=1e-14)
    assert (after.toe, after.castor) == pytest.approx((0.0, 0.0), abs=1e-15)


@given(tilt=ANGLES, side=SIDES)
def test_a_trailing_arm_takes_its_tilt_from_the_castor(tilt: float, side: int) -> None:
    after = Alignment(castor=0.05).tilted(tilt, plane=TRAILING, wheel_side=side)

    assert after.castor == pytest.approx(0.05 - tilt, abs=1e-14)
    assert (after.camber, after.toe, after.steering_inclination) == pytest.approx(
        (0.0, 0.0, 0.0), abs=1e-15
    )


@given(before=ALIGNMENTS, tilt=ANGLES)
def test_left_and_right_are_mirrors(before: Alignment, tilt: float) -> None:
    left = bar_plane(bar_axis=(1, 0.3, 0.2), arm_direction=(-0.3, 1, 0))
    right = bar_plane(bar_axis=(1, -0.3, 0.2), arm_direction=(-0.3, -1, 0))

    assert angles(before.tilted(tilt, plane=left, wheel_side=1)) == pytest.approx(
        angles(before.tilted(tilt, plane=right, wheel_side=-1)), abs=1e-15
    )


def test_toe_in_turns_into_camber_on_a_trailing_arm() -> None:
    # A quarter turn carries what points forward down, and what leans out forward.
    quarter = Alignment(toe=0.1, camber=0.05).tilted(math.pi / 2.0, plane=TRAILING, wheel_side=1)

    assert math.sin(quarter.camber) == pytest.approx(math.cos(0.05) * math.sin(0.1))
    assert math.tan(quarter.toe) == pytest.approx(-math.tan(0.05) / math.cos(0.1))


@pytest.mark.parametrize("side", [-1, 1])
def test_a_wheel_laid_flat_has_a_camber_of_a_right_angle(side: int) -> None:
    for tilt in (math.pi / 2.0, -math.pi / 2.0):
        flat = Alignment().tilted(tilt, plane=along(side), wheel_side=side)
        assert flat.camber == pytest.approx(-tilt, abs=1e-15)


def test_tilts_planes_sides_and_references_broadcast() -> None:
    tilts = np.linspace(-0.2, 0.3, 5)[:, None]
    sides = np.array([1, -1])
    planes = bar_plane(
        bar_axis=np.array([(1, 0.2, 0.1), (1, -0.2, 0.1)], dtype=float),
        arm_direction=np.array([(-0.2, 1, 0), (-0.2, -1, 0)], dtype=float),
    )
    reference = Alignment(camber=np.array([-0.01, 0.01]), castor=0.05)
    every = reference.tilted(tilts, plane=planes, wheel_side=sides)
    right = bar_plane(bar_axis=(1, -0.2, 0.1), arm_direction=(-0.2, -1, 0))
    alone = Alignment(camber=0.01, castor=0.05).tilted(0.3, plane=right, wheel_side=-1)

    for name in ("camber", "toe", "castor", "steering_inclination"):
        values = np.asarray(getattr(every, name))
        assert values.shape == (5, 2)
        assert values[4, 1] == pytest.approx(getattr(alone, name), abs=1e-15)
