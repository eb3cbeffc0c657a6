"""Laws and refusals of `barwright.mechanics.spline.clocking`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.spline.clocking import (
    TurningSense,
    bump_sense,
    centred,
    free_angle,
    rotation_steps,
    smallest_step,
    tooth_pairs,
    turning_sense,
)

ANGLES = st.floats(-3.0, 3.0)
TEETH = st.integers(6, 80)
SENSES = st.sampled_from([-1, 1])

Vector = tuple[float, float, float]


@pytest.mark.parametrize(
    ("axis", "arm", "expected"),
    [
        ((1, 0, 0), (0, 1, 0), 1),  # along the car, arm end in front, left wheel
        ((1, 0, 0), (0, -1, 0), -1),  # the same on the right
        ((-1, 0, 0), (0, 1, 0), -1),  # along, arm end behind, left
        ((-1, 0, 0), (0, -1, 0), 1),  # along, arm end behind, right
        ((0, 1, 0), (-1, 0, 0), 1),  # across, arm end on the left, trailing arm
        ((0, -1, 0), (-1, 0, 0), -1),  # across, arm end on the right, trailing arm
        ((0, 1, 0), (1, 0, 0), -1),  # across, arm end on the left, leading arm
    ],
)
def test_bump_sense_of_bars_along_and_across(axis: Vector, arm: Vector, expected: int) -> None:
    assert bump_sense(bar_axis=axis, arm_direction=arm) == expected


@given(heading=ANGLES, handed=SENSES, lengths=st.tuples(st.floats(1e-3, 1e3), st.floats(1e-3, 1e3)))
def test_bump_sense_knows_no_lengths_and_reverses_with_either_vector(
    heading: float, handed: int, lengths: tuple[float, float]
) -> None:
    cosine, sine = math.cos(heading), math.sin(heading)
    arm = (lengths[0] * cosine, lengths[0] * sine, 0.0)
    axis = (handed * lengths[1] * sine, -handed * lengths[1] * cosine, 0.0)
    back = (-axis[0], -axis[1], 0.0)
    other = (-arm[0], -arm[1], 0.0)

    assert bump_sense(bar_axis=axis, arm_direction=arm) == handed
    assert bump_sense(bar_axis=back, arm_direction=arm) == -handed
    assert bump_sense(bar_axis=axis, arm_direction=other) == -handed


@given(heading=ANGLES, handed=SENSES, climb=st.floats(-1.0, 1.0))
def test_bump_sense_of_an_inclined_bar_is_that_of_the_level_one_below_it(
    heading: float, handed: int, climb: float
) -> None:
    cosine, sine = math.cos(heading), math.sin(heading)
    axis = (handed * sine, -handed * cosine, math.tan(climb))

    assert bump_sense(bar_axis=axis, arm_direction=(cosine, sine, 0.0)) == handed


def test_bump_sense_of_one_bar_is_a_plain_number_and_of_many_an_array() -> None:
    one = bump_sense(bar_axis=(1, 0, 0), arm_direction=(0, 1, 0))
    both = bump_sense(
        bar_axis=np.array([1.0, 0.0, 0.0]), arm_direction=np.array([(0.0, 1.0, 0.0), (0.0, -1, 0)])
    )

    assert type(one) is int
    assert np.asarray(both).tolist() == [1, -1]


@pytest.mark.parametrize(
    ("axis", "arm", "key"),
    [
        ((0, 0, 0), (0, 1, 0), "bar_axis"),
        ((1, 0, 0), (0, math.nan, 0), "arm_direction"),
        ((0, 0, 1), (0, 1, 0), "bar_axis"),  # upright
        ((1, 0, 0), (1, 0, 0), "arm_direction"),  # along the bar
        ((1, 0, 0), (0, 0, 1), "arm_direction"),  # upright
    ],
)
def test_bump_sense_refuses_what_has_none(axis: Vector, arm: Vector, key: str) -> None:
    with pytest.raises(GeometryError) as caught:
        bump_sense(bar_axis=axis, arm_direction=arm)

    assert (caught.value.code, caught.value.key) == ("G105", key)


@pytest.mark.parametrize("sense", [-1, 1])
@pytest.mark.parametrize("end", [True, False], ids=["arm end", "anchor end"])
def test_viewers_at_the_two_ends_see_opposite_senses(*, sense: int, end: bool) -> None:
    seen = turning_sense(sense, from_arm_end=end)

    assert turning_sense(sense, from_arm_end=not end) is seen.reversed
    assert turning_sense(-sense, from_arm_end=end) is seen.reversed
    assert seen.reversed.reversed is seen


def test_right_handed_bump_is_counter_clockwise_from_the_arm_end() -> None:
    assert turning_sense(1, from_arm_end=True) is TurningSense.COUNTER_CLOCKWISE


@given(angles=st.tuples(ANGLES, ANGLES, ANGLES, ANGLES, ANGLES), sense=SENSES, add=ANGLES)
def test_free_angle_follows_each_of_its_angles_one_to_one(
    angles: tuple[float, float, float, float, float], sense: int, add: float
) -> None:
    def free(*, lever: float, arm: float, anchor: float, blank: float, rotation: float) -> float:
        return float(
            free_angle(
                lever,
                arm_key=arm,
                anchor_key=anchor,
                blank_angle=blank,
                sense=sense,
                rotation=rotation,
            )
        )

    names = ("lever", "arm", "anchor", "blank", "rotation")
    base = dict(zip(names, angles, strict=True))
    gains = {"lever": 1, "arm": -1, "anchor": 1, "blank": sense, "rotation": 1}
    for name, gain in gains.items():
        changed = free(**(base | {name: base[name] + add}))
        assert changed - free(**base) == pytest.approx(gain * add, abs=1e-13)


@given(delta=ANGLES, sense=SENSES)
def test_bar_on_the_wrong_side_errs_by_twice_its_blank_angle(delta: float, sense: int) -> None:
    right, wrong = (
        free_angle(0.2, arm_key=0.1, anchor_key=0.3, blank_angle=delta, sense=side, rotation=0.0)
        for side in (sense, -sense)
    )
    assert abs(right - wrong) == pytest.approx(2.0 * abs(delta), abs=1e-13)


@given(arm=TEETH, anchor=TEETH, steps=st.integers(-9999, 9999))
def test_every_pair_gives_the_rotation_it_was_asked_for(arm: int, anchor: int, steps: int) -> None:
    for arm_tooth, anchor_tooth in tooth_pairs(steps, arm_teeth=arm, anchor_teeth=anchor):
        assert type(arm_tooth) is type(anchor_tooth) is int
        found = rotation_steps(
            arm_tooth=arm_tooth, anchor_tooth=anchor_tooth, arm_teeth=arm, anchor_teeth=anchor
        )
        assert (found - steps) % math.lcm(arm, anchor) == 0


@given(arm=TEETH, anchor=TEETH, steps=st.integers(-9999, 9999))
def test_pairs_of_the_two_ends_exchanged_turn_the_other_way(
    arm: int, anchor: int, steps: int
) -> None:
    pairs = tooth_pairs(steps, arm_teeth=arm, anchor_teeth=anchor)
    exchanged = tooth_pairs(-steps, arm_teeth=anchor, anchor_teeth=arm)

    assert {(c, a) for a, c in exchanged} == set(pairs)


@given(arm=TEETH, anchor=TEETH)
def test_smallest_step_divides_the_pitch_of_both_ends(arm: int, anchor: int) -> None:
    step = smallest_step(arm_teeth=arm, anchor_teeth=anchor)

    assert step == smallest_step(arm_teeth=anchor, anchor_teeth=arm)
    for teeth in (arm, anchor):
        in_steps = math.tau / teeth / step
        assert in_steps == pytest.approx(round(in_steps), rel=1e-12)


# -- Arrays ------------------------------------------------------------------------------


def test_teeth_and_counts_broadcast() -> None:
    arm, anchor = np.arange(-3, 4)[:, None], np.arange(-2, 3)
    teeth = np.array([40, 41, 42, 39, 36])
    steps = np.asarray(
        rotation_steps(arm_tooth=arm, anchor_tooth=anchor, arm_teeth=40, anchor_teeth=teeth)
    )
    sizes = np.asarray(smallest_step(arm_teeth=40, anchor_teeth=teeth))
    short = np.asarray(centred(np.arange(-50, 50)[:, None], teeth=teeth))

    assert steps.shape == (7, 5)
    for (i, j), found in np.ndenumerate(steps):
        assert found == rotation_steps(
            arm_tooth=int(arm[i, 0]),
            anchor_tooth=int(anchor[j]),
            arm_teeth=40,
            anchor_teeth=int(teeth[j]),
        )
    for j, count in enumerate(teeth.tolist()):
        assert sizes[j] == smallest_step(arm_teeth=40, anchor_teeth=count)
        assert short[:, j].tolist() == [centred(tooth, teeth=count) for tooth in range(-50, 50)]


def test_python_integers_stay_what_they_are_and_have_no_end() -> None:
    huge = 10**30
    steps = rotation_steps(arm_tooth=huge, anchor_tooth=-huge, arm_teeth=39, anchor_teeth=42)

    assert type(steps) is int
    assert steps == rotation_steps(
        arm_tooth=huge % 39, anchor_tooth=-huge % 42, arm_teeth=39, anchor_teeth=42
    )
    assert type(smallest_step(arm_teeth=39, anchor_teeth=42)) is float


def test_free_angles_broadcast() -> None:
    angles = free_angle(
        np.zeros((2, 1)),
        arm_key=0.1,
        anchor_key=0.2,
        blank_angle=np.array([0.0, 0.3]),
        sense=np.array([1, -1]),
        rotation=np.array([[0.0], [1.0]]),
    )

    assert np.asarray(angles) == pytest.approx(np.array([[0.1, -0.2], [1.1, 0.8]]))
