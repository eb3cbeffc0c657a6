"""`one_or_many`: one number comes out as the same number among many does."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.one_or_many import (
    chosen,
    cosine_and_sine,
    every,
    fourth_power,
    some,
)


@given(st.floats(-1e4, 1e4))
def test_cosine_and_sine_of_one_angle_are_those_of_many(angle: float) -> None:
    one, many = cosine_and_sine(angle), cosine_and_sine(np.array([angle]))
    for alone, among in zip(one, many, strict=True):
        assert abs(float(alone) - float(np.asarray(among)[0])) <= math.ulp(1.0)


@pytest.mark.filterwarnings("ignore:invalid value")
@pytest.mark.parametrize("angle", [math.inf, -math.inf, math.nan])
def test_what_is_no_angle_has_neither(angle: float) -> None:
    assert all(math.isnan(float(value)) for value in cosine_and_sine(angle))


@given(st.lists(st.booleans(), min_size=1, max_size=4))
def test_flags_are_counted_as_numpy_does(flags: list[bool]) -> None:
    assert every(np.array(flags)) is all(flags)
    assert some(np.array(flags)) is any(flags)
    for flag in flags:
        assert every(flag) is some(flag) is every(np.bool_(flag)) is some(np.bool_(flag)) is flag


@given(flag=st.booleans(), value=st.floats(-1.0, 1.0), other=st.floats(-1.0, 1.0))
def test_one_value_is_chosen_as_of_many(*, flag: bool, value: float, other: float) -> None:
    many = chosen(np.array([flag]), value, other)
    assert chosen(flag, value, other) == many[0]
    assert chosen(np.bool_(flag), value, other) == many[0]


@given(st.lists(st.floats(1e-3, 10.0), min_size=1, max_size=5))
def test_fourth_power_of_one_length_is_that_of_many(lengths: list[float]) -> None:
    many = np.asarray(fourth_power(np.array(lengths)))
    for length, among in zip(lengths, many.tolist(), strict=True):
        assert among == pytest.approx(length**4, rel=1e-15)
        assert fourth_power(length) == length**4
