"""Rows of `barwright.mechanics.vehicle.roll`.

One figure was read in its source.  The others are those of a multibody engine: a torsion
rod with two levers, a body hinged to an axle in a sideways field, and a whole vehicle; see
``outside.axles`` and ``outside.whole_vehicle``.
"""

from __future__ import annotations

import functools
import math

from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.roll import (
    AntiRollBar,
    axle_roll_rate,
    load_transfer,
    roll_gradient,
    roll_rate_share,
)
from outside.axles import CurvingAxle, Rod
from outside.whole_vehicle import Engine
from validation import Kind, Row

_engine = functools.partial(Row, within=1e-6, kind=Kind.ENGINE)

# -- Three rates of one bar ----------------------------------------------------------------

ROD = Rod(torsional_rate=900.0, lever=0.3, track=1.5)
# Small, so that levers turn in proportion to the travel.
LIFT = 1e-4

_rod = functools.partial(
    _engine,
    source="MuJoCo: energy of a torsion rod with two levers on a body",
    given="rod 900 N·m/rad, levers 300 mm, track 1.5 m",
)


def _one_wheel() -> float:
    return 2.0 * ROD.energy(left=LIFT) / LIFT**2


BAR_ROWS = [
    _rod(
        of="roll.AntiRollBar.both_wheels_rate",
        unit="N/m",
        # Two wheels share the energy.
        expected=lambda: ROD.energy(left=LIFT, right=-LIFT) / LIFT**2,
        got=lambda: AntiRollBar(one_wheel_rate=_one_wheel()).both_wheels_rate,
    ),
    _rod(
        of="roll.AntiRollBar.roll_rate",
        unit="N·m/rad",
        expected=lambda: 2.0 * ROD.energy(roll=LIFT) / LIFT**2,
        got=lambda: AntiRollBar(one_wheel_rate=_one_wheel()).roll_rate(track=1.5),
    ),
    _rod(
        of="roll.AntiRollBar.of_both_wheels",
        unit="N/m",
        expected=_one_wheel,
        got=lambda: (
            AntiRollBar.of_both_wheels(ROD.energy(left=LIFT, right=-LIFT) / LIFT**2).one_wheel_rate
        ),
    ),
    _rod(
        of="roll.AntiRollBar.of_roll",
        unit="N/m",
        expected=_one_wheel,
        got=lambda: (
            AntiRollBar.of_roll(2.0 * ROD.energy(roll=LIFT) / LIFT**2, track=1.5).one_wheel_rate
        ),
    ),
]

# -- Roll rates of axles -------------------------------------------------------------------

# The centre of gravity in the axis of roll, so that weight adds nothing.
CAR = Engine(
    mass=1200.0,
    centre_of_gravity=(0.0, 0.0, 0.4),
    axis_height=0.4,
    wheels=((1.3, 0.75), (1.3, -0.75), (-1.3, 0.7), (-1.3, -0.7)),
    wheel_rates=(21_000.0, 21_000.0, 26_000.0, 26_000.0),
    tyre_rates=(190_000.0, 190_000.0, 210_000.0, 210_000.0),
    bars=(9000.0, 4000.0),
    arches=(0.7, 0.7, 0.7, 0.7),
    hubs=(0.3, 0.3, 0.3, 0.3),
)


MOMENT = 10.0


@functools.cache
def _leaning() -> tuple[float, float, float]:
    """Roll angle of the engine's body under a moment, and what front and rear tyres hold of it."""
    rest = CAR.at_rest(CAR.free_heights, moment=MOMENT)
    loads = rest.loads
    front, rear = 0.75 * (loads[1] - loads[0]), 0.7 * (loads[3] - loads[2])
    return rest.joint("roll"), float(front), float(rear)


def _front_rate() -> float:
    return float(
        axle_roll_rate(
            wheel_rate=21_000.0,
            track=1.5,
            bar=AntiRollBar(one_wheel_rate=9000.0),
            tyre_rate=190_000.0,
        )
    )


def _rear_rate() -> float:
    return float(
        axle_roll_rate(
            wheel_rate=26_000.0,
            track=1.4,
            bar=AntiRollBar(one_wheel_rate=4000.0),
            tyre_rate=210_000.0,
        )
    )


_lean = functools.partial(_engine, source="MuJoCo: a body on four corners, leaned over by a moment")

AXLE_ROWS = [
    _lean(
        of="roll.axle_roll_rate",
        given="wheel 21 N/mm, bar 9 N/mm with one wheel held, tyre 190 N/mm, track 1.5 m",
        unit="N·m/rad",
        expected=lambda: _leaning()[1] / _leaning()[0],
        got=_front_rate,
    ),
    _lean(
        of="roll.axle_roll_rate",
        given="wheel 26 N/mm, bar 4 N/mm with one wheel held, tyre 210 N/mm, track 1.4 m",
        unit="N·m/rad",
        expected=lambda: _leaning()[2] / _leaning()[0],
        got=_rear_rate,
    ),
    _lean(
        of="roll.roll_rate_share",
        given="the axles above as front and rear: front tyres' share of the moment",
        unit="",
        expected=lambda: _leaning()[1] / MOMENT,
        got=lambda: roll_rate_share(front=_front_rate(), rear=_rear_rate()),
    ),
]

# -- In a curve ----------------------------------------------------------------------------

# The engine's curve is slow, so that the body leans in proportion.
CURVE = CurvingAxle(
    mass=620.0,
    height=0.6,
    roll_centre=0.08,
    roll_rate=31_000.0,
    unsprung_mass=90.0,
    unsprung_height=0.31,
)

_BOOK = "D. C. Barton and J. D. Fieldhouse, Automotive Chassis Engineering (2018), p. 174"


def _gradient() -> float:
    return float(roll_gradient(mass=1280.0, lever=0.365, roll_rate=28_650.0))


CURVE_ROWS = [
    Row(
        of="roll.roll_gradient",
        source=_BOOK,
        kind=Kind.READ,
        given="1280 kg, 365 mm above the roll axis, 28 650 N·m/rad",
        unit="rad/(m/s²)",
        expected=0.0194,
        got=_gradient,
        within=2.6e-3,
        why="printed to 0.0001",
    ),
    Row(
        of="roll.roll_gradient",
        source=_BOOK,
        kind=Kind.READ,
        given="the same, for 1 g",
        unit="deg",
        expected=10.9,
        got=lambda: math.degrees(_gradient() * STANDARD_GRAVITY),
        within=4.6e-3,
        why="printed to 0.1°",
    ),
    _engine(
        of="roll.roll_gradient",
        source="MuJoCo: a hinged body in a field that also pulls sideways",
        given="620 kg, 520 mm above the roll axis, 31 000 N·m/rad",
        unit="rad/(m/s²)",
        expected=lambda: CURVE.roll / CURVE.acceleration,
        got=lambda: float(roll_gradient(mass=620.0, lever=0.52, roll_rate=31_000.0)),
    ),
    _engine(
        of="roll.load_transfer",
        source="MuJoCo: torque under an axle with a hinged body, in a field that pulls sideways",
        given="the same body, roll centre at 80 mm, 90 kg unsprung at 310 mm, track 1.5 m",
        unit="N/(m/s²)",
        expected=lambda: CURVE.moment / 1.5 / CURVE.acceleration,
        got=lambda: float(
            load_transfer(
                lateral_acceleration=1.0,
                roll=float(roll_gradient(mass=620.0, lever=0.52, roll_rate=31_000.0)),
                roll_rate=31_000.0,
                track=1.5,
                mass=620.0,
                roll_centre=0.08,
                unsprung_mass=90.0,
                unsprung_height=0.31,
            )
        ),
    ),
]

ROWS = [*BAR_ROWS, *AXLE_ROWS, *CURVE_ROWS]
