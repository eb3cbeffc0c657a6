"""Pre-setting against fibres that flow, summed over the section (``outside.fibres``)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.bar.presetting import (
    elastic_core_radius,
    elastic_plastic_torque,
    permanent_twist,
    residual_stress,
    yield_torque,
    yield_twist,
)
from draws import draws
from outside.fibres import Fibres

D, TAU = 0.026, 850e6
R = D / 2.0
BAR = {"diameter": D, "active_length": 1.1, "shear_modulus": 78e9, "shear_yield": TAU}
FIBRES = Fibres(**BAR)
FIRST = FIBRES.first_yield
MULTIPLES = st.floats(1.0, 8.0)


@settings(max_examples=draws(20))
@given(diameter=st.floats(0.015, 0.060), length=st.floats(0.3, 2.0), stress=st.floats(2e8, 1.2e9))
def test_first_yield_is_where_the_outermost_fibre_begins_to_flow(
    diameter: float, length: float, stress: float
) -> None:
    bar = BAR | {"diameter": diameter, "active_length": length, "shear_yield": stress}
    fibres = Fibres(**bar)

    assert yield_twist(**bar) == pytest.approx(fibres.first_yield, rel=1e-12)
    assert yield_torque(diameter=diameter, shear_yield=stress) == pytest.approx(
        fibres.torque(fibres.first_yield, fibres.first_yield), rel=1e-12
    )


@settings(max_examples=draws(30))
@given(multiple=MULTIPLES)
def test_core_ends_where_hooke_meets_the_yield_stress(multiple: float) -> None:
    twist = multiple * FIRST

    assert elastic_core_radius(twist, **BAR) == pytest.approx(FIBRES.core(twist), rel=1e-11)


@settings(max_examples=draws(30))
@given(multiple=MULTIPLES)
def test_torque_is_the_moment_of_the_stresses(multiple: float) -> None:
    twist = multiple * FIRST
    core = elastic_core_radius(twist, **BAR)
    torque = elastic_plastic_torque(core, diameter=D, shear_yield=TAU)

    assert torque == pytest.approx(FIBRES.torque(twist, twist), rel=1e-10)


@settings(max_examples=draws(30))
@given(multiple=MULTIPLES)
def test_twist_that_stays_is_where_the_moment_is_gone(multiple: float) -> None:
    most = multiple * FIRST

    assert permanent_twist(most, **BAR) == pytest.approx(FIBRES.let_go(most), abs=1e-10 * FIRST)


@settings(max_examples=draws(20))
@given(multiple=st.floats(1.0, 8.0), share=st.floats(0.0, 1.0))
def test_stress_that_stays_is_that_of_the_fibre_let_go(multiple: float, share: float) -> None:
    most = multiple * FIRST
    core = elastic_core_radius(most, **BAR)
    left = residual_stress(share * R, core_radius=core, diameter=D, shear_yield=TAU)
    fibre = FIBRES.let_back(share * R, most, FIBRES.let_go(most))

    assert left == pytest.approx(fibre, abs=1e-9 * TAU)


@settings(max_examples=draws(30))
@given(share=st.floats(0.0, 1.0))
def test_stresses_that_stay_hold_each_other(share: float) -> None:
    core = share * R

    def left(radius: float) -> float:
        return float(residual_stress(radius, core_radius=core, diameter=D, shear_yield=TAU))

    full = FIBRES.moment(lambda _: TAU, kink=0.0)
    assert FIBRES.moment(left, kink=core) == pytest.approx(0.0, abs=1e-11 * full)


def test_columns_of_bars_are_those_bars_one_by_one() -> None:
    lengths, twists = np.array([[0.8], [1.1]]), np.array([1.0, 1.4, 2.2])
    bars = BAR | {"active_length": lengths}
    kept = np.asarray(permanent_twist(twists, **bars))
    expected = [
        [Fibres(**(BAR | {"active_length": float(length)})).let_go(float(most)) for most in twists]
        for (length,) in lengths
    ]

    assert kept == pytest.approx(np.array(expected), abs=1e-9)
