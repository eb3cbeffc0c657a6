"""Laws of `barwright.mechanics.spline.insertion`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.spline.insertion import passes_freely, passes_meshed

TEETH = st.integers(6, 60)


@given(major=st.floats(0.01, 0.05), minor=st.floats(0.01, 0.05))
def test_end_passes_freely_only_if_it_is_smaller(major: float, minor: float) -> None:
    assert bool(passes_freely(major_diameter=major, minor_diameter=minor)) == (major < minor)


def test_end_of_the_same_size_or_of_none_does_not_pass_freely() -> None:
    majors = np.array([0.0291, 0.0292, 0.0293, math.nan])

    answer = passes_freely(major_diameter=majors, minor_diameter=0.0292)
    assert np.asarray(answer).tolist() == [True, False, False, False]


@given(teeth=TEETH, blank=st.integers(-60, 60), times=st.integers(-2, 2))
def test_end_passes_where_its_blank_is_on_the_key(teeth: int, blank: int, times: int) -> None:
    turned = (times * teeth - blank) * math.tau / teeth

    assert passes_meshed(turned, teeth=teeth, blanks=(blank,))
    assert not passes_meshed(turned + math.tau / teeth, teeth=teeth, blanks=(blank,))
    assert passes_meshed(turned + math.tau / teeth, teeth=teeth, blanks=(blank,), keyed=False)


@given(teeth=TEETH, part=st.floats(0.01, 0.99), keyed=st.booleans())
def test_end_between_two_teeth_does_not_pass(teeth: int, part: float, *, keyed: bool) -> None:
    turned = part * math.tau / teeth

    assert not passes_meshed(turned, teeth=teeth, blanks=range(teeth), keyed=keyed)


@pytest.mark.parametrize(("off", "passes"), [(0.9e-6, True), (1.1e-6, False)])
def test_rounding_of_a_turn_is_a_millionth_of_a_tooth(off: float, *, passes: bool) -> None:
    for side in (1.0, -1.0):
        turned = side * off * math.tau / 40

        assert bool(passes_meshed(turned, teeth=40, blanks=(0,))) is passes


def test_end_without_a_blank_passes_no_key() -> None:
    assert not passes_meshed(0.0, teeth=40, blanks=())
    assert passes_meshed(0.0, teeth=40, blanks=(), keyed=False)
    turns = np.zeros(3)
    answer = np.asarray(passes_meshed(turns, teeth=40, blanks=()))
    assert answer.tolist() == [False, False, False]


def test_turn_that_is_no_number_passes_nothing() -> None:
    assert not passes_meshed(math.nan, teeth=40, blanks=(0,), keyed=False)


def test_each_turn_of_a_column_has_its_own_answer() -> None:
    turned = np.radians([0.0, 9.0, -27.0, 27.0, -9.0])

    answer = passes_meshed(turned, teeth=40, blanks=(0, 3))
    assert np.asarray(answer).tolist() == [True, False, True, False, False]


def test_turns_and_teeth_broadcast() -> None:
    turned = np.radians([[0.0], [9.0], [12.0]])
    answer = passes_meshed(turned, teeth=np.array([30.0, 40.0]), blanks=(0, -1))

    # One pitch on, the last tooth but none comes to the key: 12° of 30 teeth, 9° of 40.
    assert np.asarray(answer).tolist() == [[True, True], [False, True], [True, False]]


def test_diameters_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        passes_freely(0.028, 0.029)  # type: ignore[call-arg]
