"""Rows of `barwright.mechanics.strength.estimated_lives`: recalled examples, and a drawn line."""

from __future__ import annotations

import numpy as np
import scipy.constants

from barwright.mechanics.strength.estimated_lives import (
    SurfaceFinish,
    life_exponent,
    size_factor,
    specimen_endurance,
    surface_factor,
    survival_factor,
)
from barwright.mechanics.strength.histories import basquin_life
from validation import Kind, Row

SHIGLEY = "Shigley, *Mechanical Engineering Design*, 8th ed."
KPSI = 1e3 * scipy.constants.psi
THREE_DIGITS = "printed with three digits"


def slope_of_a_drawn_line(low: float, high: float) -> float:
    """Slope of a straight line through both ends, drawn on logarithmic paper."""
    fitted = np.polynomial.Polynomial.fit(np.log10([low, high]), [3.0, 6.0], 1)
    return -float(fitted.convert().coef[1])


def life_of_example_6_2() -> float:
    """Life of a specimen of 90 kpsi, of which 0.86 is borne for a thousand cycles, at 55 kpsi."""
    endurance = float(specimen_endurance(90.0 * KPSI))
    exponent = life_exponent(low_cycle_stress=0.86 * 90.0 * KPSI, high_cycle_stress=endurance)
    return float(basquin_life(55.0 * KPSI, at_stress=endurance, at_life=1e6, exponent=exponent))


ROWS = [
    Row(
        of="estimated_lives.specimen_endurance",
        source=f"{SHIGLEY}, eq. 6-8: 700 MPa above 1400 MPa",
        given="tensile strength 1600 MPa",
        unit="MPa",
        expected=700.0,
        got=lambda: float(specimen_endurance(1600e6)) / 1e6,
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.specimen_endurance",
        source=f"{SHIGLEY}, example 6-2",
        given="tensile strength 90 kpsi",
        unit="kpsi",
        expected=45.0,
        got=lambda: float(specimen_endurance(90.0 * KPSI)) / KPSI,
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.surface_factor",
        source=f"{SHIGLEY}, example 6-3",
        given="machined, tensile strength 520 MPa",
        unit="",
        expected=0.860,
        got=lambda: float(surface_factor(520e6, finish=SurfaceFinish.MACHINED)),
        within=6e-4,
        why=THREE_DIGITS,
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.size_factor",
        source=f"{SHIGLEY}, example 6-4",
        given="diameter 32 mm",
        unit="",
        expected=0.858,
        got=lambda: float(size_factor(0.032)),
        within=6e-4,
        why=THREE_DIGITS,
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.survival_factor",
        source=f"{SHIGLEY}, table 6-5: 99 % reliability, 2.326 standard deviations",
        given="2.326 standard deviations below the mean",
        unit="",
        expected=0.814,
        got=lambda: float(survival_factor(2.326)),
        within=6e-4,
        why=THREE_DIGITS,
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.life_exponent",
        source=f"{SHIGLEY}, example 6-2: 77 500 cycles, with rounded steps",
        given="90 kpsi, share 0.86, reversed amplitude 55 kpsi",
        unit="cycles",
        expected=77_500.0,
        got=life_of_example_6_2,
        within=5e-3,
        why="the example rounds its constants to four digits before it takes a high power",
        kind=Kind.RECALLED,
    ),
    Row(
        of="estimated_lives.life_exponent",
        source="numpy, slope of a straight line through two points in logarithms",
        given="700 MPa for a thousand cycles, 310 MPa for a million",
        unit="",
        expected=lambda: slope_of_a_drawn_line(700e6, 310e6),
        got=lambda: float(life_exponent(low_cycle_stress=700e6, high_cycle_stress=310e6)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
]
