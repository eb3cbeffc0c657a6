"""Thread kernels against the printed tables of ISO 724 and ISO 898-1.

Figures read in secondary tables that agree with each other.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.optimize
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.anchorage.threads import (
    COARSE_PITCH,
    PropertyClass,
    external_stripping_area,
    internal_stripping_area,
    proof_load,
    stress_area,
)

# Nominal diameter and coarse pitch [mm] (ISO 261, ISO 724); tensile stress area [mm²]
# and proof loads [N] of property classes 8.8 and 10.9 (ISO 898-1).
M8 = (8, 1.25, 36.6, 21_200, 30_400)
M10 = (10, 1.5, 58.0, 33_700, 48_100)
M12 = (12, 1.75, 84.3, 48_900, 70_000)
M14 = (14, 2.0, 115.0, 66_700, 95_500)
M16 = (16, 2.0, 157.0, 91_000, 130_000)
TABLE = [M8, M10, M12, M14, M16]
CLASSES = [(PropertyClass.CLASS_8_8, 3), (PropertyClass.CLASS_10_9, 4)]
BY_CLASS = pytest.mark.parametrize(("property_class", "column"), CLASSES)


def _area(diameter: float, pitch: float) -> float:
    """Stress area in mm² of a thread in mm."""
    return float(stress_area(diameter=diameter / 1000.0, pitch=pitch / 1000.0)) * 1e6


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"M{row[0]}")
def test_coarse_pitch_is_the_standard_one(row: tuple[float, ...]) -> None:
    assert COARSE_PITCH[row[0] / 1000.0] == row[1] / 1000.0


@pytest.mark.parametrize(("diameter", "pitch"), [(0.006, 0.001), (0.020, 0.0025)])
def test_coarse_pitch_of_the_outer_sizes(diameter: float, pitch: float) -> None:
    # M6 and M20 of ISO 261, from memory.
    assert COARSE_PITCH[diameter] == pitch


@pytest.mark.parametrize("row", [M8, M10, M12], ids=lambda row: f"M{row[0]}")
def test_stress_area_agrees_to_the_printed_digit(row: tuple[float, ...]) -> None:
    assert _area(row[0], row[1]) == pytest.approx(row[2], abs=0.05)


@pytest.mark.parametrize(("row", "deviation"), [(M14, 0.0038), (M16, -0.0021)])
def test_stress_area_of_the_large_sizes_is_printed_rounded(
    row: tuple[float, ...], deviation: float
) -> None:
    # ISO 898-1 prints these two in whole mm²: 0.38 % below and 0.21 % above the formula.
    assert _area(row[0], row[1]) / row[2] - 1.0 == pytest.approx(deviation, abs=5e-5)


@pytest.mark.parametrize("column", [3, 4], ids=["8.8", "10.9"])
def test_proof_loads_of_a_class_are_one_stress_on_the_stress_areas(column: int) -> None:
    # 0.38 % is the coarsest rounding of an area; three digits of a load add 0.25 %.
    stress = np.array([row[column] / _area(row[0], row[1]) for row in TABLE])

    assert np.max(np.abs(stress / np.median(stress) - 1.0)) < 0.0063


@BY_CLASS
def test_proof_stress_is_that_of_the_printed_loads_on_the_printed_areas(
    property_class: PropertyClass, column: int
) -> None:
    quotients = np.array([row[column] / row[2] * 1e6 for row in TABLE])

    assert round(float(np.mean(quotients)), -7) == property_class.proof_stress
    assert np.max(np.abs(quotients / property_class.proof_stress - 1.0)) < 0.0025


@BY_CLASS
@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"M{row[0]}")
def test_proof_load_is_the_printed_one_but_for_the_rounding_of_areas(
    row: tuple[float, ...], property_class: PropertyClass, column: int
) -> None:
    # M14 is printed on an area 0.38 % too small; no other is off by more than 0.25 %.
    load = proof_load(property_class, diameter=row[0] / 1000.0, pitch=row[1] / 1000.0)

    assert load == pytest.approx(row[column], rel=0.0042 if row is M14 else 0.0026)


def _thread(place: float, pitch: float, pitch_diameter: float) -> float:
    """Diameter of a sharp thread of 60° along its axis, a crest at zero."""
    height = pitch * math.cos(math.radians(30.0))  # of the equilateral triangle
    from_crest = abs(place / pitch - round(place / pitch))
    return pitch_diameter + height * (1.0 - 4.0 * from_crest)


def _width_on(cylinder: float, pitch: float, pitch_diameter: float) -> float:
    """Axial width of one bolt's thread where a cylinder cuts it."""
    half = scipy.optimize.brentq(
        lambda place: _thread(place, pitch, pitch_diameter) - cylinder, 0.0, pitch / 2.0, xtol=1e-16
    )
    return 2.0 * float(half)


@given(pitch=st.floats(0.5e-3, 3e-3), depth=st.floats(-0.4, 0.4), turns=st.floats(1.0, 20.0))
def test_stripping_area_is_what_a_cylinder_cuts_from_the_profile(
    pitch: float, depth: float, turns: float
) -> None:
    # FED-STD-H28/2B prints no example that was to hand; a cut through a sharp profile of
    # 60°, of width P/2 at the pitch line, stands in for it.
    pitch_diameter = 0.0108
    cylinder = pitch_diameter - depth * pitch
    expected = math.pi * cylinder * turns * _width_on(cylinder, pitch, pitch_diameter)
    area = external_stripping_area(
        engagement=turns * pitch,
        pitch=pitch,
        internal_minor_diameter=cylinder,
        external_pitch_diameter=pitch_diameter,
    )

    assert area == pytest.approx(expected, rel=1e-9)


@given(pitch=st.floats(0.5e-3, 3e-3), depth=st.floats(-0.4, 0.4), turns=st.floats(1.0, 20.0))
def test_stripping_area_of_the_nut_is_what_a_cylinder_cuts_between_the_bolts_threads(
    pitch: float, depth: float, turns: float
) -> None:
    # From memory, by exchange of the parts; a nut fills what a sharp bolt of its own
    # pitch diameter would leave.
    pitch_diameter = 0.0110
    cylinder = pitch_diameter + depth * pitch
    left = pitch - _width_on(cylinder, pitch, pitch_diameter)
    area = internal_stripping_area(
        engagement=turns * pitch,
        pitch=pitch,
        external_major_diameter=cylinder,
        internal_pitch_diameter=pitch_diameter,
    )

    assert area == pytest.approx(math.pi * cylinder * turns * left, rel=1e-9)


def test_stripping_area_is_the_formula_as_printed_in_threads_per_inch() -> None:
    # FED-STD-H28/2B as in Machinery's Handbook, 24th ed.: n = 10 per inch, L_e = 1 in,
    # K_n = 0.66 in, E_s = 0.68 in: π · 10 · 0.66 · (0.05 + 0.57735 · 0.02) in² = 1.276147 in².
    area = external_stripping_area(
        engagement=0.0254,
        pitch=0.00254,
        internal_minor_diameter=0.66 * 0.0254,
        external_pitch_diameter=0.68 * 0.0254,
    )

    assert area / 0.0254**2 == pytest.approx(1.276147, abs=1e-6)
