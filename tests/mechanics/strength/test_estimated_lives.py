"""Laws of `barwright.mechanics.strength.estimated_lives`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.strength.estimated_lives import (
    LOW_CYCLE_SHARES,
    SurfaceFinish,
    life_exponent,
    size_factor,
    specimen_endurance,
    surface_factor,
    survival_factor,
)
from barwright.mechanics.strength.histories import basquin_life

STRENGTHS = st.floats(300e6, 2500e6)


@given(STRENGTHS)
def test_a_specimen_bears_half_its_tensile_strength_up_to_a_limit(tensile: float) -> None:
    assert specimen_endurance(tensile) == pytest.approx(min(tensile / 2.0, 700e6))


@given(STRENGTHS, st.floats(1.0, 2.0))
def test_a_stronger_steel_feels_its_surface_more(tensile: float, more: float) -> None:
    for finish in SurfaceFinish:
        weak, strong = (surface_factor(s, finish=finish) for s in (tensile, tensile * more))
        assert 0.0 < strong <= weak <= 1.0


def test_surfaces_of_a_spring_steel_stand_in_their_order() -> None:
    factors = [float(surface_factor(1500e6, finish=finish)) for finish in SurfaceFinish]
    assert factors == sorted(factors, reverse=True)
    assert factors == pytest.approx([0.848, 0.649, 0.302, 0.188], abs=1e-3)


def test_the_two_branches_of_size_nearly_meet() -> None:
    below, above = size_factor(0.051), size_factor(0.051 * (1.0 + 1e-12))
    assert above == pytest.approx(below, rel=0.005)
    assert size_factor(0.00762) == pytest.approx(1.0)
    assert size_factor(np.array([0.02, 0.1])).shape == (2,)  # type: ignore[union-attr]


@pytest.mark.parametrize("diameter", [0.00278, 0.2541, math.nan])
def test_a_size_beyond_the_source_is_refused(diameter: float) -> None:
    with pytest.raises(QuantityError) as caught:
        size_factor(np.array([0.03, diameter]))
    assert (caught.value.code, caught.value.key) == ("Q302", "diameter")


@pytest.mark.parametrize("tensile", [0.0, -1e9])
def test_a_strength_that_cannot_be_is_refused(tensile: float) -> None:
    with pytest.raises(QuantityError):
        specimen_endurance(tensile)
    with pytest.raises(QuantityError):
        surface_factor(tensile, finish=SurfaceFinish.GROUND)


@given(st.floats(-3.0, 3.0))
def test_weak_and_strong_bars_lie_alike_about_the_mean(deviations: float) -> None:
    assert survival_factor(deviations) + survival_factor(-deviations) == pytest.approx(2.0)


@given(st.floats(100e6, 500e6), st.floats(1.05, 8.0))
def test_a_line_passes_through_both_of_its_ends(high: float, ratio: float) -> None:
    exponent = life_exponent(low_cycle_stress=high * ratio, high_cycle_stress=high)
    life = basquin_life(high * ratio, at_stress=high, at_life=1e6, exponent=exponent)
    assert life == pytest.approx(1e3, rel=1e-9)


@pytest.mark.parametrize("low", [200e6, 300e6, math.nan])
def test_a_line_that_does_not_fall_is_refused(low: float) -> None:
    with pytest.raises(QuantityError) as caught:
        life_exponent(low_cycle_stress=low, high_cycle_stress=300e6)
    assert (caught.value.code, caught.value.key) == ("Q302", "low_cycle_stress")


def test_the_least_share_comes_first() -> None:
    assert list(LOW_CYCLE_SHARES) == sorted(LOW_CYCLE_SHARES)
