"""Whether the blanks of an end may be those that are listed."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.analysis.identification.blanks import blanks_probability
from each_case import each_case

AS_LISTED, CUT, MISSED = 0.88, 0.10, 0.02


@each_case(
    "seen, listed, likely",
    [
        ((0,), (0,), AS_LISTED),
        ((5,), (0,), AS_LISTED),
        ((0, 3), (0, 3), AS_LISTED),
        ((0, 36), (0, 3), AS_LISTED),
        ((0, 3), (0, -3), AS_LISTED),
        ((0, 3), (0,), CUT),
        ((0, 3, 7), (0, 4), CUT),
        ((0, 3), (0, 4), MISSED),
        ((0,), (0, 4), MISSED),
        ((), (), AS_LISTED),
        ((), (0,), MISSED),
        ((0,), (), CUT),
    ],
)
def test_a_pattern_is_known_whichever_way_round_it_is_counted(
    seen: tuple[int, ...], listed: tuple[int, ...], likely: float
) -> None:
    assert blanks_probability(seen, listed=listed, teeth=39) == pytest.approx(likely)


@given(
    listed=st.sets(st.integers(0, 11), min_size=1, max_size=5),
    by=st.integers(0, 11),
    sense=st.sampled_from([1, -1]),
)
def test_turning_or_mirroring_a_pattern_changes_nothing(
    listed: set[int], by: int, sense: int
) -> None:
    seen = {(by + sense * place) % 12 for place in listed}

    assert blanks_probability(
        tuple(sorted(seen)), listed=tuple(sorted(listed)), teeth=12
    ) == pytest.approx(AS_LISTED)


def test_all_patterns_of_a_small_end_agree_with_looking_at_each_in_turn() -> None:
    teeth, listed = 5, (0, 1)
    for size in range(1, 5):
        for seen in itertools.combinations(range(teeth), size):
            neighbours = any((one + 1) % teeth in seen for one in seen)
            expected = MISSED if not neighbours else AS_LISTED if size == 2 else CUT
            assert blanks_probability(seen, listed=listed, teeth=teeth) == pytest.approx(expected)
