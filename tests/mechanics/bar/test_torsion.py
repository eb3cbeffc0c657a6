"""Laws of `barwright.mechanics.bar.torsion`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.bar import torsion
from barwright.mechanics.bar.torsion import (
    bar_mass,
    polar_second_moment,
    series_rate,
    shear_stress,
    strain_energy,
    torque_at_stress,
    torsional_rate,
    twist_from_torque,
)
from kernel_grids import COLUMN, ROW, Call, assert_a_grid_is_its_places

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


def test_part_without_stiffness_leaves_none() -> None:
    assert series_rate(3000.0, 0.0) == 0.0


@given(count=st.integers(1, 12))
def test_equal_parts_share_the_compliance_equally(count: int) -> None:
    assert series_rate(*[6000.0] * count) == pytest.approx(6000.0 / count, rel=1e-13)


@given(rate=st.floats(500.0, 9000.0), twist=st.floats(-1.0, 1.0), add=st.floats(-1.0, 1.0))
def test_energy_grows_by_the_mean_torque_times_the_added_twist(
    rate: float, twist: float, add: float
) -> None:
    gain = strain_energy(rate=rate, twist=twist + add) - strain_energy(rate=rate, twist=twist)

    assert gain == pytest.approx(rate * (twist + add / 2.0) * add, abs=1e-9)


@given(diameter=DIAMETERS, bore=st.floats(0.0, 1.0), length=LENGTHS)
def test_mass_of_a_tube_and_of_its_core_is_that_of_the_solid_bar(
    diameter: float, bore: float, length: float
) -> None:
    def mass(**section: float) -> float:
        return float(bar_mass(length=length, density=7850.0, **section))

    tube = mass(diameter=diameter, bore=bore * diameter)
    core = mass(diameter=bore * diameter)
    assert tube + core == pytest.approx(mass(diameter=diameter), rel=1e-13)


@given(torque=st.floats(-2000.0, 2000.0), bore=st.floats(0.0, 0.9))
def test_a_bar_twists_by_its_torque_over_its_rate(torque: float, bore: float) -> None:
    bar = {"diameter": 0.025, "bore": 0.025 * bore, "active_length": 0.9, "shear_modulus": 8e10}

    assert twist_from_torque(torque, **bar) * torsional_rate(**bar) == pytest.approx(torque)


# Every kernel with each argument as a column or a row.
BAR = {"diameter": 0.025 * COLUMN, "bore": 0.008 * ROW}
LONG_BAR = {**BAR, "active_length": ROW, "shear_modulus": MODULUS * COLUMN}
CALLS: dict[str, Call] = {
    "polar_second_moment": (polar_second_moment, BAR),
    "torsional_rate": (torsional_rate, LONG_BAR),
    "twist_from_torque": (twist_from_torque, {"torque": 900.0 * ROW, **LONG_BAR}),
    "shear_stress": (shear_stress, {"torque": 900.0 * ROW, **BAR}),
    "torque_at_stress": (torque_at_stress, {"shear_stress": 7e8 * ROW, **BAR}),
    "strain_energy": (strain_energy, {"rate": 3e3 * COLUMN, "twist": ROW}),
    "bar_mass": (bar_mass, {**BAR, "length": ROW, "density": 7850.0 * COLUMN}),
}


@pytest.mark.parametrize("name", sorted(CALLS))
def test_a_grid_holds_what_its_places_give_alone(name: str) -> None:
    assert_a_grid_is_its_places(CALLS[name])


def test_series_of_columns_is_a_column() -> None:
    whole = np.asarray(series_rate(3000.0 * COLUMN, 6000.0 * ROW))

    assert whole.shape == (2, 3)
    assert whole[1, 2] == series_rate(3000.0 * 1.2, 6000.0 * 1.1)


def test_every_kernel_has_been_called_with_a_grid() -> None:
    assert set(CALLS) | {"series_rate"} == set(torsion.__all__)


@pytest.mark.parametrize("name", sorted(set(torsion.__all__) - {"series_rate"}))
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(torsion, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
    assert kinds.count(inspect.Parameter.KEYWORD_ONLY) >= 1
