"""Laws of `barwright.mechanics.spline.factors`."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.spline.factors import missing_tooth_factor

HEADS = st.integers(12, 48).flatmap(
    lambda teeth: st.tuples(st.just(teeth), st.sets(st.integers(0, teeth - 1), max_size=4))
)


@pytest.mark.parametrize("teeth", [1, 2, 3, 22, 40, 41])
def test_a_whole_circle_shares_evenly_where_it_balances_at_all(teeth: int) -> None:
    factor = missing_tooth_factor(teeth=teeth, missing=[])
    assert factor == (math.inf if teeth == 1 else pytest.approx(1.0, rel=1e-12))


@given(HEADS, st.integers(-100, 100))
def test_it_matters_only_how_the_gaps_lie_to_each_other(
    head: tuple[int, set[int]], turned: int
) -> None:
    teeth, missing = head
    factor = missing_tooth_factor(teeth=teeth, missing=missing)
    moved = missing_tooth_factor(teeth=teeth, missing=[place + turned for place in missing])
    mirrored = missing_tooth_factor(teeth=teeth, missing=[-place for place in missing])
    assert moved == pytest.approx(factor, rel=1e-9)
    assert mirrored == pytest.approx(factor, rel=1e-9)


@given(HEADS)
def test_no_gaps_load_a_tooth_less_than_the_mean_of_those_left(head: tuple[int, set[int]]) -> None:
    teeth, missing = head
    mean = teeth / (teeth - len(missing))
    assert missing_tooth_factor(teeth=teeth, missing=missing) >= mean * (1.0 - 1e-12)


@pytest.mark.parametrize("teeth", [22, 40])
def test_two_gaps_cost_the_less_the_further_they_lie_apart(teeth: int) -> None:
    near, opposite = (
        missing_tooth_factor(teeth=teeth, missing=[0, other]) for other in (1, teeth // 2)
    )
    one = missing_tooth_factor(teeth=teeth, missing=[0])
    assert opposite == pytest.approx(teeth / (teeth - 2), rel=1e-9)
    assert opposite < one < near


def test_teeth_on_one_side_balance_no_torque() -> None:
    assert missing_tooth_factor(teeth=24, missing=range(11)) < math.inf
    assert missing_tooth_factor(teeth=24, missing=range(12)) == math.inf


@pytest.mark.parametrize("missing", [range(4), [0, 1, 2, -1]])
def test_a_circle_without_teeth_is_refused(missing: Any) -> None:
    with pytest.raises(QuantityError) as caught:
        missing_tooth_factor(teeth=4, missing=missing)
    assert (caught.value.code, caught.value.key) == ("Q302", "missing")
