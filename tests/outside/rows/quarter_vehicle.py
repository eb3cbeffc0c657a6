"""Modes of a quarter vehicle: roots of its Lagrangian in sympy and mpmath, and a decay in time.

Both are those of ``outside.oscillations``; Barton and Fieldhouse was read.
"""

from __future__ import annotations

import functools
import math

from barwright.mechanics.vehicle.quarter_vehicle import RideModes, quarter_vehicle_modes
from outside.oscillations import roots
from validation import Kind, Row


def _modes() -> RideModes:
    return quarter_vehicle_modes(
        sprung_mass=350.0,
        unsprung_mass=40.0,
        wheel_rate=20_000.0,
        tyre_rate=200_000.0,
        damping=1500.0,
    )


_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_roots = functools.partial(
    _engine,
    of="quarter_vehicle.quarter_vehicle_modes",
    source="sympy and mpmath: roots of the Lagrangian's characteristic polynomial",
    kind=Kind.FORMULATED,
)
_GIVEN = "350 over 40 kg, 20 and 200 kN/m, 1.5 N·s/mm"


def _root(which: int) -> complex:
    return roots(350.0, 40.0, 2e4, 2e5, 1500.0)[which]


_HELD = {"sprung_mass": 1e9, "unsprung_mass": 40.0, "wheel_rate": 20.63e3, "tyre_rate": 300e3}

ROWS: list[Row] = [
    Row(
        of="quarter_vehicle.quarter_vehicle_modes",
        source="D. C. Barton and J. D. Fieldhouse, Automotive Chassis Engineering, 2018, p. 213",
        kind=Kind.READ,
        given="20.63 and 300 kN/m, 40 kg under a fixed body: frequency of wheel hop",
        unit="Hz",
        expected=14.25,
        got=lambda: float(quarter_vehicle_modes(**_HELD).hop.frequency),
        within=3.6e-4,
        why="printed to 0.01 Hz",
    ),
    _roots(
        given=f"{_GIVEN}: frequency of the body",
        unit="Hz",
        expected=lambda: abs(_root(0)) / math.tau,
        got=lambda: float(_modes().body_mode.frequency),
    ),
    _roots(
        given=f"{_GIVEN}: damping ratio of the body",
        unit="",
        expected=lambda: -_root(0).real / abs(_root(0)),
        got=lambda: float(_modes().body_mode.damping_ratio),
    ),
    _roots(
        given=f"{_GIVEN}: frequency of wheel hop",
        unit="Hz",
        expected=lambda: abs(_root(3)) / math.tau,
        got=lambda: float(_modes().hop.frequency),
    ),
    _roots(
        given=f"{_GIVEN}: damping ratio of wheel hop",
        unit="",
        expected=lambda: -_root(3).real / abs(_root(3)),
        got=lambda: float(_modes().hop.damping_ratio),
    ),
]
