"""Laws of `barwright.mechanics.spline.factors`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.spline.factors import (
    APPLICATION_FACTORS,
    LIFE_FACTORS,
    LIFE_FACTORS_REVERSED,
    LOAD_DISTRIBUTION_FACTORS,
    PowerSource,
    ServiceLoad,
    application_factor,
    distribution_factor,
    life_factor,
    missing_tooth_factor,
)


def test_every_source_and_load_has_its_factor_and_its_name() -> None:
    assert list(APPLICATION_FACTORS) == list(PowerSource)
    for factors in APPLICATION_FACTORS.values():
        assert list(factors) == list(ServiceLoad)
        assert sorted(factors.values()) == list(factors.values())
    assert [source.value for source in PowerSource] == [
        "turbine or electric motor",
        "hydraulic motor",
        "combustion engine",
    ]
    assert [load.value for load in ServiceLoad] == [
        "uniform",
        "light shock",
        "intermittent shock",
        "heavy shock",
    ]


def test_source_and_load_are_not_exchanged() -> None:
    factor = application_factor(
        power_source=PowerSource.COMBUSTION_ENGINE, service_load=ServiceLoad.LIGHT_SHOCK
    )

    assert factor == 2.2


@pytest.mark.parametrize(
    ("reverses", "table"), [(False, LIFE_FACTORS), (True, LIFE_FACTORS_REVERSED)]
)
def test_life_factor_is_the_printed_one_at_a_printed_life(
    reverses: Any, table: dict[float, float]
) -> None:
    factors = np.asarray(life_factor(np.array(list(table)), reverses=reverses))

    np.testing.assert_allclose(factors, list(table.values()), rtol=1e-14)


def test_life_factor_is_the_geometric_mean_half_way_in_logarithms() -> None:
    assert life_factor(math.sqrt(1e3 * 1e4)) == pytest.approx(math.sqrt(1.8), rel=1e-13)
    later = math.sqrt(1e5 * 1e6)
    assert life_factor(later) == pytest.approx(math.sqrt(0.5 * 0.4), rel=1e-13)
    assert life_factor(later, reverses=True) == pytest.approx(math.sqrt(0.4 * 0.3), rel=1e-13)


@given(cycles=st.floats(1e3, 9.9e6), more=st.floats(1.0, 1.01), reverses=st.booleans())
def test_life_factor_never_rises_with_life(cycles: float, more: float, *, reverses: bool) -> None:
    now, later = (life_factor(n, reverses=reverses) for n in (cycles, cycles * more))

    assert later <= now * (1.0 + 1e-12)
    assert life_factor(cycles, reverses=True) <= life_factor(cycles) * (1.0 + 1e-12)


@pytest.mark.parametrize("cycles", [999.0, 1e7 + 0.5, 1.001e7, 0.0, -1.0, math.nan, math.inf])
def test_life_beyond_the_table_is_refused(cycles: float) -> None:
    with pytest.raises(QuantityError) as caught:
        life_factor(np.array([1e5, cycles]))

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{cycles:.6g}",
        "expected": "from 1000 to 1e+07, as far as the table goes",
        "remedy": "give the formula your own factor",
        "key": "cycles",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("misalignment", LOAD_DISTRIBUTION_FACTORS)
@pytest.mark.parametrize("face_width", LOAD_DISTRIBUTION_FACTORS[0.001])
def test_distribution_factor_of_a_printed_place_or_just_under_is_the_printed_one(
    misalignment: float, face_width: float
) -> None:
    printed = LOAD_DISTRIBUTION_FACTORS[misalignment][face_width]
    for below in (1.0 + 1e-15, 1.0, 1.0 - 1e-15, 0.9):
        assert printed == distribution_factor(
            misalignment=misalignment * below, face_width=face_width * below
        )


def test_distribution_factor_goes_up_to_the_next_printed_place() -> None:
    table = np.asarray(
        distribution_factor(
            misalignment=np.array([[0.0], [0.00101], [0.0021], [0.0041]]),
            face_width=np.array([0.0, 0.0121, 0.0251, 0.0501]),
        )
    )

    assert table.tolist() == [list(row.values()) for row in LOAD_DISTRIBUTION_FACTORS.values()]


@pytest.mark.parametrize(
    ("place", "key", "limit"),
    [
        ({"misalignment": 0.0081, "face_width": 0.02}, "misalignment", "0.008"),
        ({"misalignment": -0.001, "face_width": 0.02}, "misalignment", "0.008"),
        ({"misalignment": math.nan, "face_width": 0.02}, "misalignment", "0.008"),
        ({"misalignment": 0.001, "face_width": 0.101}, "face_width", "0.1"),
        ({"misalignment": 0.001, "face_width": -0.01}, "face_width", "0.1"),
        ({"misalignment": 0.001, "face_width": math.nan}, "face_width", "0.1"),
    ],
)
def test_place_beyond_the_table_is_refused(place: dict[str, float], key: str, limit: str) -> None:
    with pytest.raises(QuantityError) as caught:
        distribution_factor(**place)

    assert (caught.value.code, caught.value.key) == ("Q302", key)
    assert caught.value.value == f"{place[key]:.6g}"
    assert caught.value.expected == f"from 0 to {limit}, as far as the table goes"


def test_arguments_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        distribution_factor(0.001, 0.02)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        application_factor(PowerSource.HYDRAULIC_MOTOR, ServiceLoad.UNIFORM)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        life_factor(1e5, True)  # type: ignore[call-arg]


# -- Missing teeth -------------------------------------------------------------------------

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
