"""Laws of `barwright.mechanics.common.interval`: a bound holds whatever lies within."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.interval import Interval, direction, parts, root, square

NUMBERS = st.floats(-50.0, 50.0)
SHARES = st.floats(0.0, 1.0)
INTERVALS = st.tuples(NUMBERS, NUMBERS).map(lambda ends: Interval(min(ends), max(ends)))

OPERATIONS = [operator.add, operator.sub, operator.mul, operator.truediv]


def inside(interval: Interval, share: float) -> float:
    """A number of an interval."""
    return float(interval.low) + share * float(interval.high - interval.low)


def holds(interval: Interval, number: float) -> bool:
    """Whether a number lies within, to rounding."""
    room = 1e-12 * max(1.0, abs(number))
    return float(interval.low) - room <= number <= float(interval.high) + room


@pytest.mark.parametrize("operation", OPERATIONS)
@given(one=INTERVALS, other=INTERVALS, shares=st.tuples(SHARES, SHARES))
def test_what_two_numbers_give_lies_within_what_their_intervals_give(
    operation: Callable[[Any, Any], Any],
    one: Interval,
    other: Interval,
    shares: tuple[float, float],
) -> None:
    number, divisor = inside(one, shares[0]), inside(other, shares[1])
    if operation is operator.truediv and abs(divisor) < 1e-6:
        return

    assert holds(operation(one, other), operation(number, divisor))
    assert holds(operation(one, divisor), operation(number, divisor))
    if operation is not operator.truediv or float(other.low) * float(other.high) > 0.0:
        assert holds(operation(np.float64(number), other), operation(number, divisor))


@given(INTERVALS, SHARES)
def test_signs_squares_and_roots_lie_within(interval: Interval, share: float) -> None:
    number = inside(interval, share)

    assert holds(-interval, -number)
    assert holds(square(interval), number**2)
    if number >= 0.0:
        assert holds(root(interval), math.sqrt(number))


@given(st.floats(-1.57, 1.57), st.floats(-1.57, 1.57), SHARES)
def test_directions_lie_within(one: float, other: float, share: float) -> None:
    interval = Interval(min(one, other), max(one, other))
    angle = inside(interval, share)

    cosine, sine = direction(interval)
    assert holds(cosine, math.cos(angle))
    assert holds(sine, math.sin(angle))
    for found, expected in zip(direction(angle), (math.cos(angle), math.sin(angle)), strict=True):
        assert found == pytest.approx(expected, abs=4e-16)


def test_square_of_what_holds_zero_begins_at_zero() -> None:
    assert float(square(Interval(-2.0, 1.0)).low) == 0.0
    assert float(square(Interval(-2.0, 1.0)).high) == 4.0
    assert float(square(Interval(-2.0, -1.0)).low) == 1.0


def test_bounds_of_a_sum_and_a_product_are_no_wider_than_they_need_be() -> None:
    one, other = Interval(-1.0, 2.0), Interval(3.0, 4.0)
    for found, low, high in (
        (one + other, 2.0, 6.0),
        (one - other, -5.0, -1.0),
        (one * other, -4.0, 8.0),
        (one / other, -1.0 / 3.0, 2.0 / 3.0),
        (12.0 / other, 3.0, 4.0),
        (1.0 - one, -1.0, 2.0),
    ):
        assert (float(found.low), float(found.high)) == pytest.approx((low, high))


def test_of_a_quotient_by_what_may_be_zero_nothing_is_known() -> None:
    found = 1.0 / Interval(np.array([-1.0, 0.0, 1.0]), np.array([1.0, 1.0, 2.0]))

    assert np.asarray(found.low).tolist() == [-math.inf, -math.inf, 0.5]
    assert np.asarray(found.high).tolist() == [math.inf, math.inf, 1.0]


def test_of_a_direction_beyond_a_right_angle_nothing_is_known() -> None:
    for found in direction(Interval(-0.1, 1.6)):
        assert (float(found.low), float(found.high)) == (-1.0, 1.0)


def test_parts_lie_one_after_another() -> None:
    found = parts(low=np.array([0.0, 2.0]), high=np.array([1.0, 6.0]), number=2)

    assert np.asarray(found.low).tolist() == [[0.0, 2.0], [0.5, 4.0]]
    assert np.asarray(found.high).tolist() == [[0.5, 4.0], [1.0, 6.0]]
    assert np.asarray(parts(low=0.0, high=1.0, number=4).low).tolist() == [0.0, 0.25, 0.5, 0.75]
