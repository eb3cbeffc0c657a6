"""Ride frequencies from print and from integration in time; an anti-roll bar as a frame of beams.

Barton and Fieldhouse was read; what stands in Gillespie, chapter 5, is quoted from memory.
The frame and the swinging mass are those of ``outside.oscillations``.
"""

from __future__ import annotations

import functools

import numpy as np
import scipy.linalg

from barwright.mechanics.vehicle.ride import (
    anti_roll_bar,
    natural_frequency,
    ride_rate,
)
from barwright.mechanics.vehicle.roll import AntiRollBar
from outside.oscillations import AntiRollFrame, Decay
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-9, kind=Kind.ENGINE)
_swing = functools.partial(
    _engine,
    source="SciPy: Newton's second law of a mass on a spring, integrated in time",
    kind=Kind.FORMULATED,
)


def _chain() -> float:
    """Rate of two springs one on the other: what the upper end gives under a unit load."""
    stiffness = np.array([[2e4, -2e4], [-2e4, 2e4 + 2e5]])
    return 1.0 / float(scipy.linalg.solve(stiffness, [1.0, 0.0])[0])


FRAME = AntiRollFrame(span=0.95, arm=0.28, body_diameter=0.022, arm_diameter=0.020)
MOTION, TRACK, ROLL = 0.6, 1.5, 1e-3


def _bar() -> AntiRollBar:
    return anti_roll_bar(
        torsional_rate=FRAME.torsional_rate,
        arm_length=0.28,
        arm_rate=FRAME.arm_rate,
        motion_ratio=MOTION,
    )


_frame = functools.partial(
    _engine, of="ride.anti_roll_bar", source="PyNiteFEA: a U of round rods on two bearings"
)
_U = "950 mm of 22 mm, arms 280 mm of 20 mm, 79 and 207 GPa, link motion ratio 0.6"


def _force(left: float, right: float) -> float:
    """Force at the left wheel for a travel of each wheel."""
    return MOTION * FRAME.link_force(MOTION * left, MOTION * right)


ROWS: list[Row] = [
    _swing(
        of="ride.natural_frequency",
        given="20 kN/m, 350 kg",
        unit="Hz",
        expected=lambda: Decay(rate=2e4, mass=350.0).frequency(),
        got=lambda: float(natural_frequency(rate=2e4, mass=350.0)),
    ),
    _engine(
        of="ride.ride_rate",
        source="SciPy: stiffness matrix of two springs in series under a load",
        kind=Kind.FORMULATED,
        given="20 kN/m on 200 kN/m",
        unit="N/m",
        expected=_chain,
        got=lambda: float(ride_rate(wheel_rate=2e4, tyre_rate=2e5)),
    ),
    _frame(
        given=f"{_U}: at one wheel, the other held",
        unit="N/m",
        expected=lambda: _force(1e-3, 0.0) / 1e-3,
        got=lambda: float(_bar().one_wheel_rate),
    ),
    _frame(
        given=f"{_U}: at each wheel, both moved in opposite directions",
        unit="N/m",
        expected=lambda: _force(1e-3, -1e-3) / 1e-3,
        got=lambda: float(_bar().both_wheels_rate),
    ),
    _frame(
        given=f"{_U}: moment for a unit of roll, track 1.5 m",
        unit="N·m/rad",
        expected=lambda: _force(ROLL * TRACK / 2, -ROLL * TRACK / 2) * TRACK / ROLL,
        got=lambda: float(_bar().roll_rate(track=TRACK)),
    ),
]
