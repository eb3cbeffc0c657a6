"""Pre-setting against stresses integrated over the section.

A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

import numpy as np
import pytest
import scipy.integrate
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.presetting import (
    elastic_core_radius,
    elastic_plastic_torque,
    permanent_twist,
    plastic_torque,
    residual_stress,
    yield_torque,
    yield_twist,
)

D, LENGTH, G, TAU = 0.026, 1.1, 78e9, 850e6
R = D / 2.0
BAR = {"diameter": D, "active_length": LENGTH, "shear_modulus": G, "shear_yield": TAU}
FIRST = 2.0 * TAU * LENGTH / (G * D)
MULTIPLES = st.floats(1.0, 8.0)


def _held(radius: float, twist: float) -> float:
    """Stress in a fibre that is twisted from rest: Hooke, then flow."""
    return float(min(G * radius * twist / LENGTH, TAU))


def _on_the_way_back(radius: float, most: float, twist: float) -> float:
    """Stress in a fibre that was twisted to `most` and back; it may flow the other way."""
    return float(max(_held(radius, most) - G * radius * (most - twist) / LENGTH, -TAU))


def _torque(most: float, twist: float) -> float:
    """Moment of the stresses, integrated in parts that meet at the edge of the core."""
    core = min(R, TAU * LENGTH / (G * most))
    parts = [
        scipy.integrate.quad(
            lambda r: 2.0 * np.pi * r**2 * _on_the_way_back(r, most, twist),
            low,
            high,
            epsabs=1e-13 * TAU * R**3,
            epsrel=1e-12,
        )[0]
        for low, high in ((0.0, core), (core, R))
        if high > low
    ]
    return float(sum(parts))


def _let_go(most: float) -> float:
    """Twist at which no torque is left on the way back."""
    # The torque falls all the way back; two first yields further it is below zero.
    low = most - 2.0 * FIRST
    return float(
        scipy.optimize.brentq(lambda twist: _torque(most, twist), low, most, xtol=1e-14, rtol=1e-13)
    )


def test_full_torque_is_four_thirds_of_first_yield() -> None:
    # Beer & Johnston, 3.10 to 3.11, from memory.
    full = plastic_torque(diameter=D, shear_yield=TAU)

    assert full / yield_torque(diameter=D, shear_yield=TAU) == pytest.approx(4.0 / 3.0, rel=1e-14)


def test_full_torque_is_the_moment_of_one_stress_everywhere() -> None:
    moment, _ = scipy.integrate.quad(lambda r: 2.0 * np.pi * r**2 * TAU, 0.0, R)

    assert plastic_torque(diameter=D, shear_yield=TAU) == pytest.approx(moment, rel=1e-12)


def test_stress_left_at_the_surface_after_full_plastification_is_a_third_of_yield() -> None:
    # Beer & Johnston, 3.10 to 3.11, from memory.
    left = residual_stress(R, core_radius=0.0, diameter=D, shear_yield=TAU)

    assert left == pytest.approx(-TAU / 3.0, rel=1e-14)


def test_first_yield_is_where_the_surface_meets_the_yield_stress() -> None:
    twist = float(yield_twist(**BAR))

    assert G * R * twist / LENGTH == pytest.approx(TAU, rel=1e-14)
    assert yield_torque(diameter=D, shear_yield=TAU) == pytest.approx(
        _torque(twist, twist), rel=1e-12
    )


@settings(max_examples=30)
@given(multiple=MULTIPLES)
def test_core_ends_where_hooke_meets_the_yield_stress(multiple: float) -> None:
    twist = multiple * FIRST
    edge = scipy.optimize.brentq(
        lambda r: G * r * twist / LENGTH - TAU, 0.0, 2.0 * R, xtol=1e-16, rtol=1e-13
    )

    assert elastic_core_radius(twist, **BAR) == pytest.approx(min(edge, R), rel=1e-11)


@settings(max_examples=30)
@given(multiple=MULTIPLES)
def test_torque_is_the_moment_of_the_stresses(multiple: float) -> None:
    twist = multiple * FIRST
    core = elastic_core_radius(twist, **BAR)
    torque = elastic_plastic_torque(core, diameter=D, shear_yield=TAU)

    assert torque == pytest.approx(_torque(twist, twist), rel=1e-10)


@settings(max_examples=30)
@given(multiple=MULTIPLES)
def test_twist_that_stays_is_where_the_moment_is_gone(multiple: float) -> None:
    most = multiple * FIRST

    assert permanent_twist(most, **BAR) == pytest.approx(_let_go(most), abs=1e-10 * FIRST)


@settings(max_examples=20)
@given(multiple=st.floats(1.0, 8.0), share=st.floats(0.0, 1.0))
def test_stress_that_stays_is_that_of_the_fibre_let_go(multiple: float, share: float) -> None:
    most = multiple * FIRST
    core = elastic_core_radius(most, **BAR)
    left = residual_stress(share * R, core_radius=core, diameter=D, shear_yield=TAU)

    assert left == pytest.approx(_on_the_way_back(share * R, most, _let_go(most)), abs=1e-9 * TAU)


@settings(max_examples=30)
@given(share=st.floats(0.0, 1.0))
def test_stresses_that_stay_hold_each_other(share: float) -> None:
    core = share * R
    parts = [
        scipy.integrate.quad(
            lambda r: (
                2.0
                * np.pi
                * r**2
                * float(residual_stress(r, core_radius=core, diameter=D, shear_yield=TAU))
            ),
            low,
            high,
        )[0]
        for low, high in ((0.0, core), (core, R))
    ]
    full = float(plastic_torque(diameter=D, shear_yield=TAU))

    assert sum(parts) == pytest.approx(0.0, abs=1e-11 * full)
