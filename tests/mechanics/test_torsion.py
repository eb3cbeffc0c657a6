"""Laws of `barwright.mechanics.torsion`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics import torsion
from barwright.mechanics.torsion import (
    equivalent_length,
    polar_second_moment,
    series_rate,
    shear_stress,
    strain_energy,
    taper_equivalent_length,
    torsional_rate,
)

DIAMETERS = st.floats(0.015, 0.060)
LENGTHS = st.floats(0.2, 2.0)
MODULUS = 78e9


@given(diameter=DIAMETERS, bore=st.floats(0.0, 0.9), lengths=st.tuples(LENGTHS, LENGTHS))
def test_two_bars_in_series_are_one_long_bar(
    diameter: float, bore: float, lengths: tuple[float, float]
) -> None:
    one, two, whole = (
        torsional_rate(
            diameter=diameter, bore=bore * diameter, active_length=length, shear_modulus=MODULUS
        )
        for length in (*lengths, sum(lengths))
    )
    assert series_rate(one, two) == pytest.approx(whole, rel=1e-13)


@given(diameter=DIAMETERS, bore=st.floats(0.0, 1.0))
def test_tube_and_the_core_it_lacks_are_the_solid_bar(diameter: float, bore: float) -> None:
    tube = polar_second_moment(diameter=diameter, bore=bore * diameter)
    core = polar_second_moment(diameter=bore * diameter)

    assert tube + core == pytest.approx(polar_second_moment(diameter=diameter), rel=1e-13)


@given(diameter=DIAMETERS, scale=st.floats(0.5, 2.0))
def test_rate_grows_with_the_fourth_power_and_stress_falls_with_the_third(
    diameter: float, scale: float
) -> None:
    def rate(of: float) -> float:
        return float(torsional_rate(diameter=of, active_length=1.0, shear_modulus=MODULUS))

    assert rate(scale * diameter) == pytest.approx(scale**4 * rate(diameter), rel=1e-12)
    assert shear_stress(900.0, diameter=scale * diameter) == pytest.approx(
        shear_stress(900.0, diameter=diameter) / scale**3, rel=1e-12
    )


@given(scale=st.floats(0.9, 1.1))
def test_rate_is_proportional_to_the_modulus(scale: float) -> None:
    nominal, changed = (
        torsional_rate(diameter=0.025, active_length=1.0, shear_modulus=modulus)
        for modulus in (MODULUS, scale * MODULUS)
    )
    assert changed == pytest.approx(scale * nominal, rel=1e-13)


@given(rates=st.lists(st.floats(10.0, 1e6), min_size=2, max_size=6))
def test_series_is_softer_than_its_softest_part_and_blind_to_order(rates: list[float]) -> None:
    whole = series_rate(*rates)

    assert whole < min(rates)
    assert whole == pytest.approx(series_rate(*reversed(rates)), rel=1e-13)


def test_rigid_part_in_series_changes_nothing() -> None:
    assert series_rate(3000.0, math.inf) == 3000.0


@given(count=st.integers(1, 12))
def test_equal_parts_share_the_compliance_equally(count: int) -> None:
    assert series_rate(*[6000.0] * count) == pytest.approx(6000.0 / count, rel=1e-13)


@given(rate=st.floats(500.0, 9000.0), twist=st.floats(-1.0, 1.0), add=st.floats(-1.0, 1.0))
def test_energy_grows_by_the_mean_torque_times_the_added_twist(
    rate: float, twist: float, add: float
) -> None:
    gain = strain_energy(rate=rate, twist=twist + add) - strain_energy(rate=rate, twist=twist)

    assert gain == pytest.approx(rate * (twist + add / 2.0) * add, abs=1e-9)


@given(head=st.floats(1.0, 2.0), bore=st.floats(0.0, 0.8))
def test_head_of_its_equivalent_length_twists_as_much_as_the_body(head: float, bore: float) -> None:
    d, b = 0.025, 0.025 * bore
    length = equivalent_length(0.040, diameter=d, head_diameter=head * d, bore=b)
    body = torsional_rate(diameter=d, bore=b, active_length=length, shear_modulus=MODULUS)
    real = torsional_rate(diameter=head * d, bore=b, active_length=0.040, shear_modulus=MODULUS)

    assert body == pytest.approx(real, rel=1e-12)


@given(head=st.floats(1.01, 2.0), bore=st.floats(0.0, 0.8))
def test_taper_lies_between_its_head_and_its_body(head: float, bore: float) -> None:
    d, b = 0.025, 0.025 * bore
    taper = taper_equivalent_length(0.040, diameter=d, head_diameter=head * d, bore=b)

    assert equivalent_length(0.040, diameter=d, head_diameter=head * d, bore=b) < taper < 0.040


def test_head_of_a_solid_bar_counts_by_the_fourth_power() -> None:
    assert equivalent_length(0.016, diameter=0.020, head_diameter=0.040) == pytest.approx(0.001)


def test_taper_without_slope_is_its_own_length() -> None:
    plain = taper_equivalent_length(0.040, diameter=0.025, head_diameter=0.025, bore=0.01)

    assert plain == pytest.approx(0.040, rel=1e-14)


def test_kernels_broadcast_over_arrays() -> None:
    diameter, length = np.array([[0.020], [0.025]]), np.array([0.8, 1.0, 1.2])
    rate = torsional_rate(diameter=diameter, active_length=length, shear_modulus=MODULUS)
    taper = taper_equivalent_length(length, diameter=diameter, head_diameter=0.035)

    assert np.shape(rate) == np.shape(taper) == (2, 3)
    assert np.asarray(rate)[1, 2] == torsional_rate(
        diameter=0.025, active_length=1.2, shear_modulus=MODULUS
    )
    assert np.asarray(taper)[1, 2] == pytest.approx(
        taper_equivalent_length(1.2, diameter=0.025, head_diameter=0.035), rel=1e-14
    )


@pytest.mark.parametrize("name", sorted(set(torsion.__all__) - {"series_rate"}))
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(torsion, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
    assert kinds.count(inspect.Parameter.KEYWORD_ONLY) >= 1
