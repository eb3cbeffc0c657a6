"""Torsion and ride kernels against printed examples, quadrature and a chain of nodes.

Single figures stand in ``outside/rows/torsion.py``; here is what those rows do not hold.
A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.constants
import scipy.integrate
import scipy.linalg
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.bar.torsion import (
    polar_second_moment,
    series_rate,
    torque_at_stress,
    torsional_rate,
)
from barwright.mechanics.bar.transitions import equivalent_length, taper_equivalent_length
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.ride import natural_frequency
from draws import draws

RATES = st.floats(1e2, 1e6)


def test_bore_of_the_hollow_shaft_of_beer_and_johnston_is_stressed_less() -> None:
    # Beer & Johnston, torsion, example 3.01, from memory: 40/60 mm, 120 MPa outside,
    # 80 MPa at the bore.
    torque = torque_at_stress(120e6, diameter=0.060, bore=0.040)
    moment = polar_second_moment(diameter=0.060, bore=0.040)

    assert torque * 0.020 / moment == pytest.approx(80e6, rel=1e-12)


def test_second_moment_is_the_sum_over_thin_rings() -> None:
    total, _ = scipy.integrate.quad(lambda r: r**2 * 2.0 * math.pi * r, 0.0275, 0.0375)

    assert polar_second_moment(diameter=0.075, bore=0.055) == pytest.approx(total, rel=1e-12)


@given(ratio=st.floats(0.3, 1.0))
def test_solid_cone_has_its_closed_form(ratio: float) -> None:
    # L/3 · q (1 + q + q²), q = d/D: from memory, proved by quadrature.
    length = taper_equivalent_length(0.040, diameter=0.025, head_diameter=0.025 / ratio)

    assert length == pytest.approx(0.040 / 3.0 * ratio * (1.0 + ratio + ratio**2), rel=1e-13)


@settings(max_examples=draws(40))
@given(head=st.floats(1.0, 2.0), bore=st.floats(0.0, 0.9))
def test_hollow_cone_agrees_with_adaptive_quadrature(head: float, bore: float) -> None:
    d, b = 0.030, 0.030 * bore

    def local_share(x: float) -> float:
        local = d + (head - 1.0) * d * x / 0.050
        return float((d**4 - b**4) / (local**4 - b**4))

    expected, _ = scipy.integrate.quad(local_share, 0.0, 0.050, epsabs=0.0, epsrel=1e-12)
    length = taper_equivalent_length(0.050, diameter=d, head_diameter=head * d, bore=b)

    assert length == pytest.approx(expected, rel=1e-11)


def test_cone_is_the_limit_of_many_short_heads() -> None:
    middle = (np.arange(20_000) + 0.5) / 20_000
    steps = equivalent_length(
        0.030 / 20_000, diameter=0.022, head_diameter=0.022 + 0.012 * middle, bore=0.008
    )
    cone = taper_equivalent_length(0.030, diameter=0.022, head_diameter=0.034, bore=0.008)

    assert cone == pytest.approx(np.sum(steps), rel=1e-8)


def test_wheel_and_tyre_in_series_as_gillespie_writes_it() -> None:
    # Gillespie, Fundamentals of Vehicle Dynamics, ch. 5, from memory:
    # K_R = K_s K_t / (K_s + K_t).
    wheel, tyre = 22e3, 190e3

    assert series_rate(wheel, tyre) == pytest.approx(wheel * tyre / (wheel + tyre), rel=1e-14)


@settings(max_examples=draws(50))
@given(rates=st.lists(RATES, min_size=1, max_size=6))
def test_series_rate_agrees_with_a_chain_of_nodes(rates: list[float]) -> None:
    stiffness = np.zeros((len(rates), len(rates)))
    for node, rate in enumerate(rates):  # spring `node` runs from node - 1 to node
        stiffness[node, node] += rate
        if node:
            stiffness[node - 1, node - 1] += rate
            stiffness[node - 1, node] -= rate
            stiffness[node, node - 1] -= rate
    unit_torque = np.zeros(len(rates))
    unit_torque[-1] = 1.0
    twist = scipy.linalg.solve(stiffness, unit_torque)[-1]

    assert series_rate(*rates) == pytest.approx(1.0 / twist, rel=1e-9)


@pytest.mark.parametrize(
    ("diameter", "tube_share", "percent"),
    [(0.025, 0.6, 9), (0.028, 0.6, 13), (0.025, 1.0, 14), (0.028, 1.0, 20)],
)
def test_torque_tube_costs_a_share_of_the_rate(
    diameter: float, tube_share: float, percent: int
) -> None:
    # A 48 × 3.5 mm tube; whole percents worked out by hand from d⁴/(48⁴ - 41⁴).
    bar = torsional_rate(diameter=diameter, active_length=1.0, shear_modulus=78e9)
    tube = torsional_rate(diameter=0.048, bore=0.041, active_length=tube_share, shear_modulus=78e9)

    assert round(100.0 * (1.0 - float(series_rate(bar, tube) / bar))) == percent


def test_wheel_hop_of_barton_and_fieldhouse() -> None:
    # Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 213:
    # 20.63 kN/m and 300 kN/m hold 40 kg, hop 14.25 Hz.
    hop = natural_frequency(rate=20.63e3 + 300e3, mass=40.0)

    assert hop == pytest.approx(14.25, abs=0.005)


@pytest.mark.parametrize(("deflection", "frequency"), [(0.2484, 1.0), (0.1104, 1.5)])
def test_static_deflection_belongs_to_a_frequency(deflection: float, frequency: float) -> None:
    # Gillespie, Fundamentals of Vehicle Dynamics, ch. 5, from memory: 248.4 mm and
    # 110.4 mm; half a unit in the last place is 2.3e-4 of the frequency at most.
    rate = 400.0 * STANDARD_GRAVITY / deflection

    assert natural_frequency(rate=rate, mass=400.0) == pytest.approx(frequency, rel=3e-4)


def test_gravity_is_that_of_a_table_of_constants() -> None:
    assert scipy.constants.g == STANDARD_GRAVITY
