"""Laws and refusals of `barwright.mechanics.common.bar_axes`."""

from __future__ import annotations

import itertools
import math
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.common.bar_axes import BarPlane, bar_plane
from barwright.mechanics.common.vectors import length
from each_case import each_case

Vector = tuple[float, float, float]

HEADINGS = st.floats(-math.pi, math.pi)
CLIMBS = st.floats(-1.0, 1.0)  # radians: short of 60°
HANDS = st.sampled_from([-1, 1])


def inclined(heading: float, climb: float, hand: int = 1) -> tuple[Vector, Vector]:
    """Bar and arm: the arm points to a heading, and bump is right-handed for hand +1."""
    arm = (math.cos(heading), math.sin(heading), 0.0)
    level = (hand * arm[1] * math.cos(climb), -hand * arm[0] * math.cos(climb))
    return (*level, math.sin(climb)), arm


def plane_of(heading: float, climb: float, hand: int = 1) -> BarPlane:
    axis, arm = inclined(heading, climb, hand)
    return bar_plane(bar_axis=axis, arm_direction=arm)


def refused(**vectors: Any) -> dict[str, Any]:
    """Fields of the error that some vectors raise, beside good ones."""
    good = {"bar_axis": (1.0, 0.0, 0.0), "arm_direction": (0.0, 1.0, 0.0)}
    with pytest.raises(GeometryError) as caught:
        bar_plane(**(good | vectors))
    return caught.value.fields


@given(heading=HEADINGS, climb=CLIMBS, hand=HANDS)
def test_outboard_is_level_up_rises_and_both_are_square_to_the_bar(
    heading: float, climb: float, hand: int
) -> None:
    plane = plane_of(heading, climb, hand)
    axes = np.array([plane.axis, plane.outboard, plane.up])

    assert axes @ axes.T == pytest.approx(np.eye(3), abs=1e-15)
    assert plane.outboard[2] == 0.0
    assert plane.outboard == pytest.approx(inclined(heading, climb, hand)[1], abs=1e-14)
    assert plane.vertical_share == pytest.approx(math.cos(climb), abs=1e-15)
    assert plane.sense == hand
    assert plane.bump_axis == pytest.approx(hand * plane.axis, abs=1e-15)


@given(heading=HEADINGS, climb=CLIMBS, scale=st.floats(1e-200, 1e200))
def test_lengths_of_vectors_play_no_part(heading: float, climb: float, scale: float) -> None:
    axis, arm = inclined(heading, climb)
    scaled = bar_plane(bar_axis=[scale * x for x in axis], arm_direction=[x / scale for x in arm])

    assert scaled.up == pytest.approx(plane_of(heading, climb).up, abs=1e-14)


def test_numbers_of_any_kind_make_a_vector() -> None:
    halves: Any = (Fraction(1, 2), 0, Fraction(-1, 2))

    assert bar_plane(bar_axis=halves, arm_direction=(0, 1, 0)).axis == pytest.approx(
        [math.sqrt(0.5), 0.0, -math.sqrt(0.5)]
    )


def test_a_level_bar_along_the_vehicle_has_the_vehicles_own_plane() -> None:
    left = bar_plane(bar_axis=(1, 0, 0), arm_direction=(0, 1, 0))
    right = bar_plane(bar_axis=(1, 0, 0), arm_direction=(0, -1, 0))

    assert left.outboard.tolist() == [0, 1, 0]
    assert left.up.tolist() == right.up.tolist() == [0, 0, 1]
    assert right.outboard.tolist() == [0, -1, 0]
    assert (left.sense, right.sense) == (1, -1)
    assert type(left.sense) is int
    assert left.bump_axis.tolist() == [1, 0, 0]
    assert right.bump_axis.tolist() == [-1, 0, 0]


def test_a_shift_in_the_plane_is_told_in_vehicle_axes() -> None:
    # A bar on the left that climbs forward, 3 along and 4 up of 5: up leans back.
    plane = bar_plane(bar_axis=(4, 0, 3), arm_direction=(0, 2, 0))

    assert plane.in_vehicle(outboard=0.2, height=0.0) == pytest.approx([0.0, 0.2, 0.0])
    assert plane.in_vehicle(outboard=0.0, height=0.1) == pytest.approx([-0.06, 0.0, 0.08])
    assert plane.track_change(outboard=0.2, height=0.1, wheel_side=1) == pytest.approx(0.2)
    assert plane.wheelbase_change(outboard=0.2, height=0.1) == pytest.approx(-0.06)


def test_outward_widens_the_track_on_either_side() -> None:
    for side in (-1, 1):
        plane = bar_plane(bar_axis=(1, 0, 0), arm_direction=(0, side, 0))
        assert plane.track_change(outboard=0.02, height=0.1, wheel_side=side) == pytest.approx(0.02)


def test_a_trailing_arm_that_shortens_carries_its_wheel_forward() -> None:
    plane = bar_plane(bar_axis=(0, 1, 0), arm_direction=(-1, 0, 0))

    assert plane.wheelbase_change(outboard=-0.02, height=0.1) == pytest.approx(0.02)
    assert plane.track_change(outboard=-0.02, height=0.1, wheel_side=1) == 0.0


def test_vectors_and_figures_broadcast() -> None:
    climbs = np.array([0.0, 0.2, -0.4])
    pairs = [inclined(0.7, float(climb), hand) for climb in climbs for hand in (1, -1)]
    bars = np.array([axis for axis, _ in pairs]).reshape(3, 2, 3)
    plane = bar_plane(bar_axis=bars, arm_direction=inclined(0.7, 0.0)[1], arm_axis=bars)

    assert np.asarray(plane.sense).tolist() == [[1, -1]] * 3
    assert plane.vertical_share == pytest.approx(np.cos(climbs)[:, None] * np.ones(2))
    shifts = plane.in_vehicle(outboard=np.array([0.1, 0.2]), height=0.3)
    alone = plane_of(0.7, -0.4, -1)
    assert shifts.shape == (3, 2, 3)
    assert shifts[2, 1] == pytest.approx(alone.in_vehicle(outboard=0.2, height=0.3), abs=1e-15)
    tracks = np.asarray(plane.track_change(outboard=0.1, height=0.3, wheel_side=np.array([1, -1])))
    assert tracks[2, 1] == pytest.approx(
        alone.track_change(outboard=0.1, height=0.3, wheel_side=-1)
    )


def test_one_plane_takes_arrays_of_figures() -> None:
    plane = plane_of(0.2, 0.3)
    shifts = plane.in_vehicle(outboard=np.zeros(4), height=np.linspace(0.0, 0.3, 4))

    assert shifts.shape == (4, 3)
    assert shifts[3] == pytest.approx(0.3 * plane.up)


# -- Refusals ----------------------------------------------------------------------------


@each_case(
    "vector, name",
    itertools.product(
        [(0, 0, 0), (math.nan, 0, 1), (math.inf, 0, 0), (1, 0), (1, 0, 0, 0), (), 1.0],
        ["bar_axis", "arm_direction", "arm_axis"],
    ),
)
def test_refuses_what_is_no_direction(name: str, vector: Any) -> None:
    assert refused(**{name: vector}) == {
        "code": "G105",
        "value": repr(vector),
        "expected": "three finite numbers, not all zero",
        "remedy": "give x forward, y left, z up",
        "key": name,
        "file": "",
        "line": 0,
    }


def test_refuses_one_wrong_vector_of_many() -> None:
    assert refused(bar_axis=np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 0.0]]))["key"] == "bar_axis"


@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_refuses_a_bar_steeper_than_sixty_degrees(sign: float) -> None:
    def climbing(degrees: float) -> Vector:
        return (math.cos(math.radians(degrees)), 0.0, sign * math.sin(math.radians(degrees)))

    arm = (0, 1, 0)
    assert bar_plane(bar_axis=climbing(60.0), arm_direction=arm).vertical_share == (
        pytest.approx(0.5)
    )
    assert refused(bar_axis=climbing(60.01))["expected"] == "an axis within 60° of the horizontal"
    assert refused(bar_axis=(0.0, 0.0, sign)) == {
        "code": "G105",
        "value": f"bar axis (0.0, 0.0, {sign})",
        "expected": "an axis within 60° of the horizontal",
        "remedy": "give x forward, y left, z up, from the anchor end to the arm end",
        "key": "bar_axis",
        "file": "",
        "line": 0,
    }


def leaning(degrees: float) -> dict[str, Vector]:
    """Arms out of true by an angle: in plan either way, and out of level."""
    off, square = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return {"in plan": (off, square, 0), "back": (-off, square, 0), "up": (0, square, off)}


@pytest.mark.parametrize("way", leaning(0.0))
@pytest.mark.parametrize("side", [-1, 1])
def test_an_arm_is_square_to_the_bar_within_two_and_a_half_degrees(way: str, side: int) -> None:
    arm = tuple(side * x for x in leaning(2.49)[way])
    plane = bar_plane(bar_axis=(1, 0, 0), arm_direction=arm)

    # Within that it counts as square: only its side is taken from it.
    assert plane.outboard.tolist() == [0, side, 0]
    arm = tuple(side * x for x in leaning(2.51)[way])
    assert refused(arm_direction=arm)["key"] == "arm_direction"


def test_refusal_shows_both_bar_and_arm() -> None:
    assert refused(bar_axis=np.array([2.0, 0.0, 0.0]), arm_direction=(1, 0, 0)) == {
        "code": "G105",
        "value": "bar axis (2.0, 0.0, 0.0), arm (1, 0, 0)",
        "expected": "an arm that is level and square to the bar within 2.5°",
        "remedy": "give the arm as a horizontal vector at a right angle to the bar",
        "key": "arm_direction",
        "file": "",
        "line": 0,
    }


@given(heading=HEADINGS, climb=CLIMBS, way=HANDS)
def test_an_arms_axis_may_run_either_way(heading: float, climb: float, way: int) -> None:
    axis, arm = inclined(heading, climb)
    own = [way * 7.0 * x for x in axis]
    plane = bar_plane(bar_axis=axis, arm_direction=arm, arm_axis=own)

    assert plane.up == pytest.approx(plane_of(heading, climb).up, abs=1e-15)


@pytest.mark.parametrize("way", leaning(0.0))
def test_refuses_an_arm_whose_axis_is_not_the_bars(way: str) -> None:
    # The bar lies across here.
    across: dict[str, Any] = {"bar_axis": (0, 1, 0), "arm_direction": (-1, 0, 0)}
    bar_plane(**across, arm_axis=leaning(2.49)[way])
    assert refused(**across, arm_axis=leaning(2.51)[way])["code"] == "G110"
    assert refused(**across, arm_axis=leaning(10.0)[way]) == {
        "code": "G110",
        "value": "10.0° between arm axis and bar axis",
        "expected": "at most 2.5°",
        "remedy": "check both axes: such an arm would bend the bar as it swings",
        "key": "arm_axis",
        "file": "",
        "line": 0,
    }


def test_refusal_of_an_arms_axis_shows_the_worst_of_many() -> None:
    axes = np.array([(1.0, 0.0, 0.0), (1.0, 1.0, 0.0), (1.0, 0.1, 0.0)])

    assert refused(arm_axis=axes)["value"] == "45.0° between arm axis and bar axis"


@pytest.mark.parametrize("scale", [1e-300, 1.0, 1e300])
def test_the_length_of_a_vector_does_not_leave_the_range_of_floats(scale: float) -> None:
    assert length(np.array([2.0, 3.0, 6.0]) * scale) == pytest.approx(7.0 * scale)
