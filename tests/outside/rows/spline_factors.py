"""Rows of `barwright.mechanics.spline_factors`: the tables as a handbook carries them."""

from __future__ import annotations

import math

import scipy.interpolate

from barwright.mechanics.spline_factors import (
    PowerSource,
    ServiceLoad,
    application_factor,
    distribution_factor,
    life_factor,
)
from validation import Flag, Row

DUDLEY = "Dudley (1957), as carried by *Machinery's Handbook*, 27th ed., p. 2171 to 2175"


def between(cycles: float) -> float:
    """Life factor from an interpolating line through the printed lives, in logarithms."""
    lives, factors = [3.0, 4.0, 5.0, 6.0, 7.0], [1.8, 1.0, 0.5, 0.4, 0.3]
    line = scipy.interpolate.make_interp_spline(lives, [math.log10(f) for f in factors], k=1)
    return float(10.0 ** line(math.log10(cycles)))


ROWS = [
    Row(
        of="spline_factors.application_factor",
        source=DUDLEY,
        given="combustion engine, heavy load",
        unit="",
        expected=2.8,
        got=lambda: application_factor(
            power_source=PowerSource.COMBUSTION_ENGINE, service_load=ServiceLoad.HEAVY_SHOCK
        ),
        within=1e-12,
    ),
    Row(
        of="spline_factors.application_factor",
        source=DUDLEY,
        given="hydraulic motor, intermittent load",
        unit="",
        expected=1.8,
        got=lambda: application_factor(
            power_source=PowerSource.HYDRAULIC_MOTOR, service_load=ServiceLoad.INTERMITTENT_SHOCK
        ),
        within=1e-12,
    ),
    Row(
        of="spline_factors.life_factor",
        source=DUDLEY,
        given="10⁶ cycles, one way",
        unit="",
        expected=0.4,
        got=lambda: float(life_factor(1e6)),
        within=1e-12,
    ),
    Row(
        of="spline_factors.life_factor",
        source=DUDLEY,
        given="10⁶ cycles, reversed",
        unit="",
        expected=0.3,
        got=lambda: float(life_factor(1e6, reverses=True)),
        within=1e-12,
    ),
    Row(
        of="spline_factors.life_factor",
        source="scipy, line through the printed lives in logarithms",
        given="2·10⁴ cycles, one way",
        unit="",
        expected=lambda: between(2e4),
        got=lambda: float(life_factor(2e4)),
        within=1e-12,
        flag=Flag.ENGINE,
    ),
    Row(
        of="spline_factors.distribution_factor",
        source=DUDLEY,
        given="misalignment 0.004, face 25 mm",
        unit="",
        expected=1.5,
        got=lambda: float(distribution_factor(misalignment=0.004, face_width=0.025)),
        within=1e-12,
    ),
    Row(
        of="spline_factors.distribution_factor",
        source=DUDLEY + ": the next printed misalignment and face",
        given="misalignment 0.0021, face 51 mm",
        unit="",
        expected=2.5,
        got=lambda: float(distribution_factor(misalignment=0.0021, face_width=0.051)),
        within=1e-12,
    ),
]
