"""Damping ratios by the logarithmic decrement of a decay that scipy integrates in time.

The decay is that of ``outside.oscillations``; the damper at the wheel is that of a tendon in
the multibody engine of ``outside.corners``.
"""

from __future__ import annotations

import functools

from scipy.optimize import brentq

from barwright.mechanics.corner.damping import damping_ratio, required_damper_rate, wheel_damping
from outside.corners import Engine
from outside.oscillations import Decay
from outside.rows.springs import ARM
from validation import Kind, Row

RATE, MASS, MOTION, WANTED = 20_000.0, 350.0, 0.7, 0.3

_engine = functools.partial(Row, kind=Kind.ENGINE)


def _at_wheel() -> float:
    engine = Engine(ARM, damper=3000.0)
    return engine.damping(0.15) / engine.lever(0.15) ** 2


def _found() -> float:
    """Damper whose decay has the ratio that is wanted."""

    def too_much(damper: float) -> float:
        return Decay(rate=RATE, mass=MASS, damping=damper * MOTION**2).ratio() - WANTED

    return float(brentq(too_much, 100.0, 6000.0, xtol=1e-8))


ROWS: list[Row] = [
    _engine(
        of="damping.wheel_damping",
        source="MuJoCo: a hinged arm and a tendon that damps",
        given="3 N·s/mm, swing arm at 0.15 rad",
        unit="N·s/m",
        expected=_at_wheel,
        got=lambda: float(
            wheel_damping(damper_rate=3000.0, motion_ratio=ARM.motion(0.15).motion_ratio)
        ),
        within=1e-9,
    ),
    _engine(
        of="damping.damping_ratio",
        source="SciPy: logarithmic decrement of a decay, integrated in time",
        kind=Kind.FORMULATED,
        given="1.5 N·s/mm, 20 kN/m, 350 kg",
        unit="",
        expected=lambda: Decay(rate=RATE, mass=MASS, damping=1500.0).ratio(),
        got=lambda: float(damping_ratio(damping=1500.0, rate=RATE, mass=MASS)),
        within=1e-8,
    ),
    _engine(
        of="damping.required_damper_rate",
        source="SciPy: search for a decay of that decrement, integrated in time",
        kind=Kind.FORMULATED,
        given="0.3 of critical, 20 kN/m, 350 kg, damper motion ratio 0.7",
        unit="N·s/m",
        expected=_found,
        got=lambda: float(
            required_damper_rate(damping_ratio=WANTED, rate=RATE, mass=MASS, motion_ratio=MOTION)
        ),
        within=1e-7,
    ),
]
