"""What is lost counts before where the nut stands."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.analysis.reindex.preference import (
    Candidate,
    least_flats_left,
    rank,
    sufficient_thread,
    unbeaten,
)
from barwright.mechanics.spline.clocking_search import Choice

ENDS = st.frozensets(st.sampled_from(["arm", "anchor"]))


def candidate(
    cuts: int = 0,
    ends: frozenset[str] = frozenset(),
    distance: int = 0,
    flats_left: int | None = None,
) -> Candidate:
    # The middle is that of the thread, so what is left follows from the distance.
    left = 50 - distance if flats_left is None else flats_left
    return Candidate(Choice(0, 0, 0, cuts, ends), 0.0, distance=distance, flats_left=left)


CANDIDATES = st.lists(
    st.builds(candidate, st.integers(0, 2), ENDS, st.integers(0, 50)),
    min_size=1,
    max_size=8,
)


def first(*candidates: Candidate, enough: int) -> Candidate:
    least = least_flats_left([c.flats_left for c in candidates], enough=enough)
    return min(candidates, key=lambda c: rank(c, least=least, has_findings=False))


def test_an_uncut_bar_comes_first_while_enough_thread_is_left() -> None:
    uncut, cut = candidate(distance=40, flats_left=14), candidate(cuts=2, distance=0, flats_left=54)
    assert first(uncut, cut, enough=14) is uncut
    assert first(uncut, cut, enough=15) is cut


def test_without_enough_thread_a_turn_is_not_worth_a_tooth() -> None:
    uncut, cut = candidate(distance=40, flats_left=6), candidate(cuts=1, distance=34, flats_left=12)
    assert first(uncut, cut, enough=20) is uncut
    assert first(uncut, candidate(cuts=1, distance=33, flats_left=13), enough=20).choice.cuts == 1


def test_a_bar_that_stays_in_comes_before_one_that_is_drawn() -> None:
    left = candidate(distance=30)
    assert first(left, candidate(ends=frozenset({"arm"})), enough=10) is left


def test_a_finding_counts_before_the_nut() -> None:
    near, far = candidate(distance=1), candidate(distance=2)
    order = [rank(near, least=0, has_findings=True), rank(far, least=0, has_findings=False)]
    assert order[1] < order[0]


@given(CANDIDATES, st.integers(0, 50))
def test_whatever_is_left_out_is_beaten_or_one_of_its_kind_is_nearer(
    candidates: list[Candidate], enough: int
) -> None:
    kept = unbeaten(candidates, enough=enough)
    assert kept
    for one in candidates:
        alike = [
            k
            for k in kept
            if (k.choice.cuts, k.choice.disturbed) == (one.choice.cuts, one.choice.disturbed)
        ]
        assert (
            one in kept
            or any(k.beats(one, enough=enough) for k in kept)
            or any(k.order <= one.order for k in alike)
        )
    assert not any(a.beats(b, enough=enough) for a in kept for b in kept)


@given(CANDIDATES, st.integers(0, 50))
def test_to_beat_is_transitive(candidates: list[Candidate], enough: int) -> None:
    """No pairwise tolerance anywhere, so that the order does not depend on who is asked."""
    for a in candidates:
        for b in candidates:
            for c in candidates:
                if a.beats(b, enough=enough) and b.beats(c, enough=enough):
                    assert a.beats(c, enough=enough)


@pytest.mark.parametrize(
    ("tolerance", "thread", "wanted", "flats", "cut_short"),
    [
        (0.0, 4.0, None, 6, False),  # a turn, which is a quarter
        (0.0, 3.0, None, 5, True),  # three quarters of a turn, up to the next flat
        (0.5, 24.0, None, 18, False),  # an eighth
        (2.5, 24.0, None, 21, False),  # the tolerance and a turn
        (7.0, 24.0, None, 36, True),  # a quarter, and no more
        (7.0, 24.0, 1.0, 6, True),  # as the caller says
    ],
)
def test_enough_is_what_corrects_the_height(
    tolerance: float, thread: float, wanted: float | None, flats: int, *, cut_short: bool
) -> None:
    enough = sufficient_thread(tolerance=tolerance, thread=thread, wanted=wanted)
    assert (enough.flats, enough.is_cut_short) == (flats, cut_short)
