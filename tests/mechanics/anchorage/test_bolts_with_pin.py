"""Laws and refusals of `barwright.mechanics.anchorage.bolts_with_pin`."""

from __future__ import annotations

import inspect

import attrs
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.anchorage import threads
from barwright.mechanics.anchorage.bolts_with_pin import Bolt, FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.interface import Anchorage

BOLT = SwivellingBolt(pivot_distance=0.15, pivot_angle=-0.4, lever_radius=0.10, lever_side=1)
DISTANCES = st.floats(0.06, 0.24)

# Sides of 3, 4 and 5, so that every figure can be written down.
ON_A_LINE = FixedLineBolt(
    line_distance=0.3, foot_angle=0.2, foot_position=0.1, lever_radius=0.5, lever_side=1
)
PUSHED = attrs.evolve(ON_A_LINE, lever_side=-1)


@given(distance=DISTANCES, side=st.sampled_from([-1, 1]))
def test_distance_leads_to_an_angle_and_back(distance: float, side: int) -> None:
    bolt = attrs.evolve(BOLT, lever_side=side)

    assert bolt.pin_distance(bolt.lever_angle(distance)) == pytest.approx(distance, rel=1e-12)


@given(distance=DISTANCES)
def test_two_sides_are_mirror_images_about_the_pivot(distance: float) -> None:
    other = attrs.evolve(BOLT, lever_side=-1)
    one, two = BOLT.lever_angle(distance), other.lever_angle(distance)

    assert (one + two) / 2.0 == pytest.approx(BOLT.pivot_angle, abs=1e-13)
    assert BOLT.slope(one) == pytest.approx(-other.slope(two), rel=1e-10)


@given(distance=DISTANCES, turn=st.floats(-3.0, 3.0))
def test_turning_the_pivot_turns_the_lever_with_it(distance: float, turn: float) -> None:
    turned = attrs.evolve(BOLT, pivot_angle=BOLT.pivot_angle + turn)
    angle = BOLT.lever_angle(distance) + turn

    assert turned.lever_angle(distance) == pytest.approx(angle, abs=1e-13)


@given(distance=DISTANCES, torque=st.floats(1.0, 3000.0))
def test_work_at_the_bolt_is_work_at_the_lever(distance: float, torque: float) -> None:
    angle, step = float(BOLT.lever_angle(distance)), 1e-6
    travel = BOLT.pin_distance(angle + step) - BOLT.pin_distance(angle - step)

    assert BOLT.effort(torque, lever_angle=angle) * travel == pytest.approx(
        torque * 2.0 * step, rel=1e-6
    )


@pytest.mark.parametrize(("side", "sign"), [(1, 1.0), (-1, -1.0)])
def test_lever_beyond_its_pivot_pulls_and_short_of_it_pushes(side: int, sign: float) -> None:
    bolt = attrs.evolve(BOLT, lever_side=side)
    force = bolt.effort(800.0, lever_angle=bolt.lever_angle(0.15))

    assert np.sign(force) == sign


def test_arrays_give_what_their_elements_give() -> None:
    distances = np.array([0.08, 0.15, 0.22])
    angles = np.asarray(BOLT.lever_angle(distances))

    assert angles == pytest.approx([BOLT.lever_angle(float(d)) for d in distances], abs=1e-14)


def test_refusal_names_the_adjuster_and_its_range() -> None:
    with pytest.raises(GeometryError) as caught:
        BOLT.lever_angle(0.3)

    assert caught.value.key == "adjuster"
    assert caught.value.value == "300.0 mm along the bolt"
    assert caught.value.expected == "50.0 mm to 250.0 mm"


def test_angle_of_the_force_is_keyword_only() -> None:
    with pytest.raises(TypeError):
        BOLT.effort(800.0, 0.3)  # type: ignore[call-arg]


def test_refusal_shows_the_first_of_the_wrong_distances() -> None:
    with pytest.raises(GeometryError) as caught:
        BOLT.lever_angle(np.array([[0.1, 0.02], [0.4, 0.1]]))

    assert caught.value.fields == {
        "code": "G102",
        "value": "20.0 mm along the bolt",
        "expected": "50.0 mm to 250.0 mm",
        "remedy": "check the lever's radius, the bolt's pivot and its thread",
        "key": "adjuster",
        "file": "",
        "line": 0,
    }


def test_refusal_shows_the_range_of_a_long_lever_to_a_tenth_of_a_millimetre() -> None:
    with pytest.raises(GeometryError, match=r"700\.0 mm to 1300\.0 mm"):
        attrs.evolve(BOLT, pivot_distance=0.3, lever_radius=1.0).lever_angle(0.6)


def test_swivelling_bolt_reaches_from_the_difference_to_the_sum_of_its_sides() -> None:
    assert BOLT.reach == pytest.approx((0.05, 0.25), rel=1e-15)
    assert attrs.evolve(BOLT, lever_radius=0.2).reach == pytest.approx((0.05, 0.35), rel=1e-15)


def test_bolt_on_a_line_reaches_as_far_as_its_lever() -> None:
    assert ON_A_LINE.reach == pytest.approx((-0.3, 0.5), rel=1e-15)
    assert PUSHED.reach == ON_A_LINE.reach


@pytest.mark.parametrize(
    ("bolt", "distance"), [(ON_A_LINE, 0.1 + 0.4), (PUSHED, 0.1 - 0.4)], ids=["pulled", "pushed"]
)
def test_a_lever_on_a_line_has_the_angle_of_its_triangle(
    bolt: FixedLineBolt, distance: float
) -> None:
    angle = 0.2 + np.arctan2(4.0, 3.0)

    assert bolt.lever_angle(distance) == pytest.approx(angle, rel=1e-15)
    assert bolt.pin_distance(angle) == pytest.approx(distance, rel=1e-14)
    assert bolt.slope(angle) == pytest.approx(bolt.lever_side * 0.25 / 0.3, rel=1e-14)
    assert bolt.effort(1000.0, lever_angle=angle) == pytest.approx(
        bolt.lever_side * 1200.0, rel=1e-14
    )


@pytest.mark.parametrize("bolt", [BOLT, ON_A_LINE, PUSHED])
def test_nut_sets_the_pin_and_efforts_are_a_table_of_torques_and_angles(bolt: Bolt) -> None:
    angles = np.array([0.3, 0.6, 0.9])
    torques = np.array([[500.0], [-800.0]])

    assert np.array_equal(bolt.setting(angles), bolt.pin_distance(angles))
    assert np.shape(bolt.effort(torques, lever_angle=angles)) == (2, 3)
    assert not bolt.holds_both_ways


def test_effort_is_keyword_only_in_its_angle() -> None:
    with pytest.raises(TypeError):
        BOLT.effort(800.0, 0.3)  # type: ignore[call-arg]


def test_what_only_says_what_is_common_cannot_be_made() -> None:
    assert inspect.isabstract(Anchorage)
    with pytest.raises(TypeError, match="abstract"):
        Bolt(lever_radius=0.1, lever_side=1)  # type: ignore[abstract]


@pytest.mark.parametrize("bolt", [ON_A_LINE, PUSHED])
def test_share_of_the_proof_load_follows_from_the_force_in_any_state(bolt: FixedLineBolt) -> None:
    # A fortieth of 48.9 kN is 1222.5 N; the lever square to the line needs T / 300 mm.
    torques = 0.3 * 1222.5 * np.array([[0.0], [1.0], [40.0]])
    forces = bolt.effort(torques, lever_angle=np.array([0.2, 0.2 + np.arctan2(4.0, 3.0)]))
    shares = threads.utilisation(forces, capacity=48_900.0)

    square = np.array([[0.0], [0.025], [1.0]])
    assert shares == pytest.approx(square * np.array([1.0, 0.36]), rel=1e-14)
