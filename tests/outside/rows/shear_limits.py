"""Rows of `shear_limits`: pylife's equivalent stresses, and a recalled example."""

from __future__ import annotations

from collections.abc import Callable

import scipy.constants
import scipy.optimize
from pylife.stress import equistress

from barwright.mechanics.strength.shear_limits import (
    corrected_endurance,
    ultimate_shear,
    yield_shear,
)
from validation import Kind, Row

KPSI = 1e3 * scipy.constants.psi


def shear_that_reaches(strength: float, equivalent: Callable[..., float]) -> float:
    """Pure shear whose equivalent stress is a tensile strength, from the stress tensor."""

    def missing(shear: float) -> float:
        return float(equivalent(0.0, 0.0, 0.0, shear, 0.0, 0.0)) - strength

    return float(scipy.optimize.brentq(missing, 0.0, strength, xtol=1e-6, rtol=1e-14))


ROWS = [
    Row(
        of="shear_limits.ultimate_shear",
        source="pylife, greatest shear stress (Tresca) of a tensor in pure shear, by a root search",
        given="tensile strength 1500 MPa, ratio 0.5",
        unit="MPa",
        expected=lambda: shear_that_reaches(1500.0, equistress.tresca),
        got=lambda: float(ultimate_shear(1500.0, shear_ratio=0.5)),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="shear_limits.yield_shear",
        source="pylife, distortion energy (von Mises) of a tensor in pure shear, by a root search",
        given="proof strength 1200 MPa",
        unit="MPa",
        expected=lambda: shear_that_reaches(1200.0, equistress.mises),
        got=lambda: float(yield_shear(1200.0)),
        within=1e-9,
        kind=Kind.ENGINE,
    ),
    Row(
        of="shear_limits.corrected_endurance",
        source="Shigley, *Mechanical Engineering Design*, 8th ed., example 6-8",
        given="24.5 kpsi; surface 0.963, size 1, loading 0.85, temperature 1, reliability 0.814",
        unit="kpsi",
        expected=16.3,
        got=lambda: float(
            corrected_endurance(
                24.5 * KPSI,
                surface_factor=0.963,
                size_factor=1.0,
                loading_factor=0.85,
                temperature_factor=1.0,
                reliability_factor=0.814,
                notch_factor=1.0,
            )
            / KPSI
        ),
        within=0.05 / 16.3,
        why="printed to 0.1 kpsi",
        kind=Kind.RECALLED,
    ),
]
