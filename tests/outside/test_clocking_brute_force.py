"""Clocking kernels against searches over all pairs of teeth, and teeth built in 3-D."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

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
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd, choices
from draws import draws
from rare_cases import rarely_after
from teeth import UP, Floats, all_turns, built_free_angle, seen_turning, teeth_of
from tooth_sweep import sweep

TEETH = st.integers(6, 80)
ANGLES = st.floats(-3.0, 3.0)
FEW_TEETH = st.integers(6, 24)


def _turns(arm_tooth: int, anchor_tooth: int, arm_teeth: int, anchor_teeth: int) -> Fraction:
    """Rotation of a pair as an exact share of one turn, in [0, 1)."""
    return (Fraction(arm_tooth, arm_teeth) - Fraction(anchor_tooth, anchor_teeth)) % 1


def _all_pairs(steps: int, arm_teeth: int, anchor_teeth: int) -> set[tuple[int, int]]:
    """Every pair of teeth whose rotation is a number of steps, by trying all."""
    arm, anchor = np.array(teeth_of(arm_teeth))[:, None], np.array(teeth_of(anchor_teeth))[None, :]
    lcm = math.lcm(arm_teeth, anchor_teeth)
    # Both sides of a/N_a - c/N_c = k/lcm (mod 1), times N_a N_c lcm.
    both = arm_teeth * anchor_teeth
    excess = (arm * anchor_teeth - anchor * arm_teeth) * lcm - (steps % lcm) * both
    hits = np.argwhere(excess % (both * lcm) == 0)
    return {(int(arm[i, 0]), int(anchor[0, j])) for i, j in hits}


@given(arm_teeth=TEETH, anchor_teeth=TEETH, steps=st.integers(-(10**15), 10**15))
def test_pairs_are_exactly_those_of_a_search_over_all(
    arm_teeth: int, anchor_teeth: int, steps: int
) -> None:
    pairs = tooth_pairs(steps, arm_teeth=arm_teeth, anchor_teeth=anchor_teeth)

    assert len(pairs) == math.gcd(arm_teeth, anchor_teeth)
    assert set(pairs) == _all_pairs(steps, arm_teeth, anchor_teeth)


@given(common=st.integers(2, 16), arm=st.integers(1, 5), anchor=st.integers(1, 5), data=st.data())
def test_pairs_of_counts_with_a_common_factor_are_complete(
    common: int, arm: int, anchor: int, data: st.DataObject
) -> None:
    arm_teeth, anchor_teeth = common * arm, common * anchor
    assume(arm_teeth >= 6 and anchor_teeth >= 6)
    steps = data.draw(st.integers(-500, 500))

    pairs = tooth_pairs(steps, arm_teeth=arm_teeth, anchor_teeth=anchor_teeth)

    assert len(set(pairs)) == math.gcd(arm_teeth, anchor_teeth)
    assert set(pairs) == _all_pairs(steps, arm_teeth, anchor_teeth)


@given(arm_teeth=TEETH, anchor_teeth=TEETH, arm=st.integers(-200, 200), data=st.data())
def test_steps_are_the_exact_share_of_a_turn(
    arm_teeth: int, anchor_teeth: int, arm: int, data: st.DataObject
) -> None:
    anchor = data.draw(st.integers(-200, 200))
    steps = rotation_steps(
        arm_tooth=arm, anchor_tooth=anchor, arm_teeth=arm_teeth, anchor_teeth=anchor_teeth
    )
    lcm = math.lcm(arm_teeth, anchor_teeth)

    assert 0 <= steps < lcm
    assert Fraction(steps, lcm) == _turns(arm, anchor, arm_teeth, anchor_teeth)


@settings(max_examples=draws(25))
@given(arm_teeth=FEW_TEETH, anchor_teeth=FEW_TEETH)
def test_smallest_step_is_the_least_rotation_of_all_pairs(
    arm_teeth: int, anchor_teeth: int
) -> None:
    reachable = {
        _turns(arm, anchor, arm_teeth, anchor_teeth)
        for arm in range(arm_teeth)
        for anchor in range(anchor_teeth)
    }
    least = min(reachable - {Fraction(0)})

    step = smallest_step(arm_teeth=arm_teeth, anchor_teeth=anchor_teeth)
    assert step == pytest.approx(math.tau * float(least), rel=1e-14)


@pytest.mark.parametrize(("arm_teeth", "anchor_teeth"), [(36, 40), (36, 41), (39, 42)])
def test_steps_are_the_turns_of_directions_in_space(arm_teeth: int, anchor_teeth: int) -> None:
    turns = all_turns(arm_teeth, anchor_teeth)
    step = smallest_step(arm_teeth=arm_teeth, anchor_teeth=anchor_teeth)
    for (arm, anchor), turn in turns.items():
        steps = rotation_steps(
            arm_tooth=arm, anchor_tooth=anchor, arm_teeth=arm_teeth, anchor_teeth=anchor_teeth
        )
        assert steps * step == pytest.approx(turn, abs=1e-12)


@given(tooth=st.integers(-(10**6), 10**6), teeth=st.integers(1, 100))
def test_centred_is_the_only_equal_tooth_in_range(tooth: int, teeth: int) -> None:
    assert [same for same in teeth_of(teeth) if (same - tooth) % teeth == 0] == [
        centred(tooth, teeth=teeth)
    ]


def _degrees(arm_tooth: int, anchor_tooth: int, **counts: int) -> float:
    steps = rotation_steps(arm_tooth=arm_tooth, anchor_tooth=anchor_tooth, **counts)
    return math.degrees(steps * smallest_step(**counts))


def test_thirty_nine_and_forty_two_teeth_make_a_vernier() -> None:
    # Worked by hand: 9.231°, 8.571° and 360°/546 = 0.659°, three pairs for each rotation.
    counts = {"arm_teeth": 39, "anchor_teeth": 42}

    assert _degrees(1, 0, **counts) == pytest.approx(9.231, abs=0.0005)
    assert _degrees(0, -1, **counts) == pytest.approx(8.571, abs=0.0005)
    assert _degrees(1, 1, **counts) == pytest.approx(0.659, abs=0.0005)
    assert len(tooth_pairs(1, **counts)) == 3


def test_one_tooth_each_way_is_not_always_the_smallest_step() -> None:
    # Worked by hand: 1.220° with one tooth each way, but 360°/1476 = 0.244° is the smallest.
    counts = {"arm_teeth": 36, "anchor_teeth": 41}

    assert math.degrees(smallest_step(**counts)) == pytest.approx(0.244, abs=0.0005)
    assert _degrees(1, 1, **counts) == pytest.approx(1.220, abs=0.0005)
    assert tooth_pairs(1, **counts) == [(-7, -8)]


@st.composite
def ends(draw: st.DrawFn) -> ClockedEnd:
    """Draw one end of a bar: new or cut before, on any tooth, with or without key."""
    teeth = draw(FEW_TEETH)
    tooth = st.sampled_from(teeth_of(teeth))
    extra = draw(st.frozensets(tooth, max_size=2))
    return ClockedEnd(teeth, current=draw(tooth), blanks=extra | {0}, keyed=draw(st.booleans()))


def _every_choice(arm: ClockedEnd, anchor: ClockedEnd, low: float, high: float) -> Iterator[Choice]:
    """Every clocking between two limits, by trying each pair of teeth."""
    lcm = math.lcm(arm.teeth, anchor.teeth)
    for arm_tooth in teeth_of(arm.teeth):
        for anchor_tooth in teeth_of(anchor.teeth):
            touched = frozenset(
                name
                for name, end, tooth in (("arm", arm, arm_tooth), ("anchor", anchor, anchor_tooth))
                if tooth != end.current
            )
            cuts = 0
            if "arm" in touched and arm.keyed and arm_tooth not in arm.blanks:
                cuts += 1
            if "anchor" in touched and anchor.keyed and anchor_tooth not in anchor.blanks:
                cuts += 1
            steps = int(_turns(arm_tooth, anchor_tooth, arm.teeth, anchor.teeth) * lcm)
            first = steps + lcm * math.ceil((low - steps) / lcm)
            for lifted in range(first, math.floor(high) + 1, lcm):
                yield Choice(lifted, arm_tooth, anchor_tooth, cuts, touched)


# Eighths of a step: exact in binary, so that no limit is blurred.
EIGHTHS = st.integers(-4000, 4000).map(lambda n: n / 8.0)


@st.composite
def searches(draw: st.DrawFn) -> tuple[ClockedEnd, ClockedEnd, float, float, float]:
    """Draw two ends, a wanted rotation in or out of the limits, and the limits."""
    wanted, low = draw(EIGHTHS), draw(EIGHTHS)
    width = draw(st.integers(0, 2400)) / 8.0
    return draw(ends()), draw(ends()), wanted, low, low + width


@settings(max_examples=draws(80))
@given(search=searches())
def test_every_returned_choice_exists(
    search: tuple[ClockedEnd, ClockedEnd, float, float, float],
) -> None:
    arm, anchor, wanted, low, high = search
    found = choices(arm, anchor, wanted_steps=wanted, low=low, high=high)

    assert set(found) <= set(_every_choice(arm, anchor, low, high))
    assert len(set(found)) == len(found)


@settings(max_examples=draws(80))
@given(search=searches())
def test_no_pair_beats_what_is_returned(
    search: tuple[ClockedEnd, ClockedEnd, float, float, float],
) -> None:
    arm, anchor, wanted, low, high = search
    found = choices(arm, anchor, wanted_steps=wanted, low=low, high=high)
    nearest: dict[tuple[int, frozenset[str]], float] = {}
    for pair in _every_choice(arm, anchor, low, high):
        key, distance = (pair.cuts, pair.disturbed), abs(pair.clocking_steps - wanted)
        nearest[key] = min(distance, nearest.get(key, math.inf))

    for (cuts, touched), distance in nearest.items():
        assert any(
            choice.cuts <= cuts
            and choice.disturbed <= touched
            and abs(choice.clocking_steps - wanted) <= distance
            for choice in found
        )


@settings(max_examples=draws(60))
@given(search=searches())
def test_both_sides_and_all_ties_of_each_kind_are_returned(
    search: tuple[ClockedEnd, ClockedEnd, float, float, float],
) -> None:
    arm, anchor, wanted, low, high = search
    found = set(choices(arm, anchor, wanted_steps=wanted, low=low, high=high))
    every = list(_every_choice(arm, anchor, low, high))

    for side in (
        [pair for pair in every if pair.clocking_steps <= wanted],
        [pair for pair in every if pair.clocking_steps >= wanted],
    ):
        for kind in {(pair.cuts, pair.disturbed) for pair in side}:
            alike = [pair for pair in side if (pair.cuts, pair.disturbed) == kind]
            best = min(abs(pair.clocking_steps - wanted) for pair in alike)
            equalled = any(
                (pair.cuts, pair.disturbed) != kind
                and pair.cuts <= kind[0]
                and pair.disturbed <= kind[1]
                and abs(pair.clocking_steps - wanted) <= best
                for pair in side
            )
            ties = {pair for pair in alike if abs(pair.clocking_steps - wanted) == best}
            assert equalled or ties <= found


@settings(max_examples=draws(60))
@given(search=searches())
def test_choices_are_the_next_on_either_side_of_every_way_and_no_other(
    search: tuple[ClockedEnd, ClockedEnd, float, float, float],
) -> None:
    arm, anchor, wanted, low, high = search
    every = list(_every_choice(arm, anchor, low, high))
    expected: set[Choice] = set()
    # A way keeps a ready tooth at an end, or takes any there.
    for arm_way, anchor_way in itertools.product(arm.ways(), anchor.ways()):
        open_to_it = [
            pair
            for pair in every
            if pair.arm_tooth == (pair.arm_tooth if arm_way is None else arm_way)
            and pair.anchor_tooth == (pair.anchor_tooth if anchor_way is None else anchor_way)
        ]
        below = max(
            (p.clocking_steps for p in open_to_it if p.clocking_steps <= wanted), default=None
        )
        above = min(
            (p.clocking_steps for p in open_to_it if p.clocking_steps >= wanted), default=None
        )
        expected |= {pair for pair in open_to_it if pair.clocking_steps in {below, above}}
    found = choices(arm, anchor, wanted_steps=wanted, low=low, high=high)

    assert set(found) == expected
    assert all(type(choice.arm_tooth) is type(choice.anchor_tooth) is int for choice in found)


@pytest.mark.parametrize("arm_teeth", rarely_after(20, range(1, 61)))
def test_choices_are_those_of_a_sweep_over_all_pairs(arm_teeth: int) -> None:
    random = np.random.default_rng(arm_teeth)
    for anchor_teeth in range(1, 61):
        arm, anchor = (_any_end(random, teeth) for teeth in (arm_teeth, anchor_teeth))
        turn = math.lcm(arm_teeth, anchor_teeth)
        # Eighths of a step are exact in binary.
        wanted, low = (int(random.integers(-8 * turn, 8 * turn)) / 8.0 for _ in range(2))
        limits = {"wanted_steps": wanted, "low": low, "high": low + float(random.integers(turn))}

        found = choices(arm, anchor, **limits)

        assert len(set(found)) == len(found)
        assert {one[:3] for one in found} == sweep(arm, anchor, **limits)


def _any_end(random: np.random.Generator, teeth: int) -> ClockedEnd:
    current, *blanks = (
        centred(int(tooth), teeth=teeth) for tooth in random.integers(teeth, size=3)
    )
    is_cut, keyed, in_place = random.random(3) < (0.5, 0.8, 0.8)
    return ClockedEnd(
        teeth,
        current=current,
        blanks=frozenset({0, *(blanks if is_cut else ())}),
        keyed=bool(keyed),
        in_place=bool(in_place),
    )


def test_nothing_is_returned_where_no_rotation_lies_between_the_limits() -> None:
    assert choices(ClockedEnd(36), ClockedEnd(40), wanted_steps=9.2, low=9.1, high=9.3) == []


@settings(max_examples=draws(100))
@given(
    heading=ANGLES,
    handed=st.sampled_from([-1, 1]),
    angles=st.tuples(ANGLES, ANGLES, ANGLES, ANGLES),
    counts=st.tuples(TEETH, TEETH),
    teeth=st.tuples(st.integers(-40, 40), st.integers(-40, 40)),
)
def test_free_angle_is_where_teeth_and_keys_meet_in_three_dimensions(
    heading: float,
    handed: int,
    angles: tuple[float, float, float, float],
    counts: tuple[int, int],
    teeth: tuple[int, int],
) -> None:
    lever, arm_key, anchor_key, blank = angles
    arm_turn, anchor_turn = (
        math.tau * tooth / count for tooth, count in zip(teeth, counts, strict=True)
    )
    arm = np.array([math.cos(heading), math.sin(heading), 0.0])
    built = built_free_angle(
        heading=heading,
        handed=handed,
        lever=lever,
        arm_key=arm_key,
        anchor_key=anchor_key,
        blank=blank,
        arm_turn=arm_turn,
        anchor_turn=anchor_turn,
    )

    found = free_angle(
        lever,
        arm_key=arm_key,
        anchor_key=anchor_key,
        blank_angle=blank,
        sense=_sense(arm, handed),
        rotation=arm_turn - anchor_turn,
    )
    assert math.remainder(float(found) - built, math.tau) == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=draws(60))
@given(heading=ANGLES, handed=st.sampled_from([-1, 1]), from_arm_end=st.booleans())
def test_viewer_sees_the_bump_rotation_turn_as_told(
    *, heading: float, handed: int, from_arm_end: bool
) -> None:
    arm = np.array([math.cos(heading), math.sin(heading), 0.0])
    area = seen_turning(heading=heading, handed=handed, from_arm_end=from_arm_end)

    reported = turning_sense(_sense(arm, handed), from_arm_end=from_arm_end)
    assert (reported is TurningSense.COUNTER_CLOCKWISE) == (area > 0.0)


def _sense(arm: Floats, handed: int) -> int:
    """Bump sense of a level bar square to an arm."""
    axis = handed * np.cross(arm, UP)
    return bump_sense(bar_axis=[float(x) for x in axis], arm_direction=[float(x) for x in arm])
