"""Laws and refusals of `barwright.mechanics.clocking`."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import GeometryError
from barwright.mechanics.choices import Choice, Spline, choices
from barwright.mechanics.clocking import (
    TurningSense,
    bump_sense,
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


@pytest.mark.parametrize(
    "vector",
    [(0, 0, 0), (math.nan, 0, 1), (math.inf, 0, 0), (1, 0), (1, 0, 0, 0), (), ((1, 0, 0),)],
    ids=str,
)
@pytest.mark.parametrize("name", ["bar_axis", "arm_direction"])
def test_bump_sense_refuses_what_is_no_direction(name: str, vector: Sequence[float]) -> None:
    vectors: dict[str, Sequence[float]] = {"bar_axis": (1, 0, 0), "arm_direction": (0, 1, 0)}
    with pytest.raises(GeometryError) as caught:
        bump_sense(**(vectors | {name: vector}))

    assert (caught.value.code, caught.value.key) == ("G105", name)


def _leaning(degrees: float) -> list[tuple[Vector, Vector]]:
    """Bar and arm out of square by an angle: in plan, bar out of level, arm out of level."""
    off, square = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    return [
        ((1, 0, 0), (off, square, 0)),
        ((square, 0, off), (0, 1, 0)),
        ((-square, off, 0), (0, 1, 0)),
    ]


@pytest.mark.parametrize("case", [0, 1, 2])
def test_bump_sense_allows_two_and_a_half_degrees_out_of_square(case: int) -> None:
    axis, arm = _leaning(2.4)[case]
    assert abs(bump_sense(bar_axis=axis, arm_direction=arm)) == 1

    axis, arm = _leaning(2.6)[case]
    with pytest.raises(GeometryError) as caught:
        bump_sense(bar_axis=axis, arm_direction=arm)
    assert caught.value.code == "G105"


@pytest.mark.parametrize(
    ("axis", "arm"), [((1, 0, 0), (1, 0, 0)), ((0, 0, 1), (0, 1, 0)), ((1, 0, 0), (0, 0, 1))]
)
def test_bump_sense_refuses_arms_along_the_bar_and_upright_vectors(
    axis: Vector, arm: Vector
) -> None:
    with pytest.raises(GeometryError, match="square"):
        bump_sense(bar_axis=axis, arm_direction=arm)


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


def test_blanks_and_sockets_without_a_key_cost_no_cut() -> None:
    cut_before = Spline(36, blanks=frozenset({0, 5}))

    assert [cut_before.cuts(tooth) for tooth in (0, 5, 6)] == [0, 0, 1]
    assert Spline(36, keyed=False).cuts(6) == 0


def test_ready_teeth_are_looked_at_each_and_any_other_once() -> None:
    assert Spline(36, current=3, blanks=frozenset({0, -5})).reachable() == [-5, 0, 3, None]
    assert Spline(36, current=3, keyed=False).reachable() == [3, None]


def test_present_clocking_comes_first_and_costs_nothing() -> None:
    arm, anchor = Spline(36, current=4), Spline(40, current=-3)
    steps = rotation_steps(arm_tooth=4, anchor_tooth=-3, arm_teeth=36, anchor_teeth=40)
    first = choices(arm, anchor, wanted=float(steps), low=steps - 5.0, high=steps + 5.0)[0]

    # Tooth 4 is not a blank: its key has been cleared, and nothing is cut again.
    assert first == Choice(steps, 4, -3, cuts=0, ends=frozenset())


def test_bar_cut_before_reaches_its_second_blank_without_a_cut() -> None:
    arm, anchor = Spline(36, blanks=frozenset({0, 2})), Spline(40)
    found = choices(arm, anchor, wanted=20.0, low=15.0, high=25.0)

    assert Choice(20, 2, 0, cuts=0, ends=frozenset({"arm"})) in found


def test_choices_are_sorted_by_cuts() -> None:
    cuts = [c.cuts for c in choices(Spline(36), Spline(40), wanted=9.2, low=-40.0, high=40.0)]

    assert cuts == sorted(cuts)
    assert set(cuts) == {0, 1, 2}
