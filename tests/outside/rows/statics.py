"""One corner at rest, as a hinged arm with springs and a mass in a multibody engine.

See ``outside.corners``.  Where a load is lowered on, the engine lets time go by with a field
that grows from nothing, its arm damped so that it does not overshoot.
"""

from __future__ import annotations

import functools

import attrs

from barwright.mechanics.corner.springs import HelperSpring
from barwright.mechanics.corner.statics import (
    STANDARD_GRAVITY,
    arm_per_free_angle,
    bar_hold,
    bar_torque,
    settle,
    wheel_load,
    wheel_rate,
)
from outside.corners import Engine, damping_for
from outside.rows.springs import ARM, BUSHING, GAS, OF_ITS_OWN, ON_ROD
from validation import Kind, Row

RATE, FREE, LOAD, ANGLE = 3600.0, -0.35, 2600.0, 0.2
SPRINGS = [GAS, BUSHING, OF_ITS_OWN]
ALL = Engine(ARM, SPRINGS, rate=RATE, free=FREE)
ONE_WAY = Engine(ARM, rate=RATE, free=FREE)

_source = "MuJoCo: a hinged arm, its bar, gas, a rubber bushing and a coil"
_engine = functools.partial(Row, source=_source, within=1e-9, kind=Kind.ENGINE)
_GIVEN = "3600 N·m/rad, free at −0.35 rad"


def _load() -> float:
    return float(wheel_load(ARM.motion(ANGLE), torque=RATE * (ANGLE - FREE), springs=SPRINGS))


def _follows() -> float:
    """Change of the engine's place of rest with its bar's free angle."""
    step = 1e-3
    rests = [
        Engine(ARM, SPRINGS, rate=RATE, free=FREE + n * step).balances(LOAD, -0.3, 0.5)
        for n in (-2, -1, 1, 2)
    ]
    return (rests[0] - 8.0 * rests[1] + 8.0 * rests[2] - rests[3]) / (12.0 * step)


def _rest() -> float:
    rest = settle(ARM, free_angle=FREE, rate=RATE, load=LOAD, droop=-0.5, bump=0.5, springs=SPRINGS)
    return float(rest.angle)


def _in_time() -> float:
    """Where the engine's arm stands still after some seconds."""
    mass = LOAD / STANDARD_GRAVITY
    damping = damping_for(mass, ARM, RATE)
    engine = Engine(ARM, SPRINGS, rate=RATE, free=FREE, mass=mass, damping=damping)
    return engine.lowered_on(-0.3, seconds=8.0)


# -- A coil that passes over its dead centre --------------------------------------------

LEVEL = attrs.evolve(ARM, load_point=(0.42, 0.0))
OVER_CENTRE = HelperSpring(
    rate=60_000.0, free_length=0.25, arm_point=(0.20, 0.0), chassis_point=(0.35, 0.0)
)
_OVER = "coil with its dead centre at 0 rad, bar slack below 0.1 rad, from −0.5 rad"


def _first(load: float) -> float:
    rest = settle(
        LEVEL,
        free_angle=0.1,
        rate=5000.0,
        load=load,
        droop=-0.5,
        bump=0.6,
        springs=[OVER_CENTRE],
    )
    return float(rest.angle)


def _lowered_on(load: float) -> float:
    engine = Engine(
        LEVEL,
        [OVER_CENTRE],
        rate=5000.0,
        free=0.1,
        mass=load / STANDARD_GRAVITY,
        damping=500.0,
        timestep=0.004,
    )
    return engine.lowered_on(-0.5, seconds=120.0)


_lowered = functools.partial(
    Row,
    of="statics.settle",
    source="MuJoCo: an arm on which the load is slowly lowered",
    unit="rad",
    within=1e-6,
    kind=Kind.ENGINE,
)

ROWS: list[Row] = [
    _engine(
        of="statics.bar_hold",
        source="MuJoCo: a hinged arm and a bar whose anchor comes free",
        given=f"{_GIVEN}, arm at 0.2 rad: torque",
        unit="N·m",
        expected=lambda: ONE_WAY.holds(ANGLE),
        got=lambda: float(bar_hold(ANGLE - FREE, rate=RATE)[0]),
    ),
    _engine(
        of="statics.bar_hold",
        source="MuJoCo: a hinged arm and a bar whose anchor is clamped",
        given=f"{_GIVEN}, arm at −0.45 rad: torque",
        unit="N·m",
        expected=lambda: Engine(ARM, clamped=(RATE, FREE)).holds(FREE - 0.1),
        got=lambda: float(bar_hold(-0.1, rate=RATE, holds_both_ways=True)[0]),
    ),
    _engine(
        of="statics.bar_hold",
        source="MuJoCo: a hinged arm and a bar whose anchor is clamped",
        given=f"{_GIVEN}, arm at −0.45 rad: change with arm angle",
        unit="N·m/rad",
        expected=lambda: Engine(ARM, clamped=(RATE, FREE)).stiffness(FREE - 0.1),
        got=lambda: float(bar_hold(-0.1, rate=RATE, holds_both_ways=True)[1]),
    ),
    _engine(
        of="statics.wheel_load",
        given=f"{_GIVEN}, arm at 0.2 rad",
        unit="N",
        expected=lambda: ALL.carries(ANGLE),
        got=_load,
    ),
    _engine(
        of="statics.bar_torque",
        given="2600 N at the wheel, arm at 0.2 rad",
        unit="N·m",
        expected=lambda: LOAD * Engine(ARM).lever(ANGLE) - Engine(ARM, SPRINGS).holds(ANGLE),
        got=lambda: float(bar_torque(ARM.motion(ANGLE), load=LOAD, springs=SPRINGS)),
    ),
    _engine(
        of="statics.wheel_rate",
        given=f"{_GIVEN}, arm at 0.2 rad",
        unit="N/m",
        expected=lambda: ALL.wheel_rate(ANGLE),
        got=lambda: float(wheel_rate(ARM.motion(ANGLE), rate=RATE, load=_load(), springs=SPRINGS)),
    ),
    _engine(
        of="statics.arm_per_free_angle",
        given=f"{_GIVEN}, 2600 N at the wheel",
        unit="rad/rad",
        expected=_follows,
        got=lambda: float(
            arm_per_free_angle(ARM.motion(_rest()), rate=RATE, load=LOAD, springs=SPRINGS)
        ),
    ),
    _engine(
        of="statics.settle",
        given=f"{_GIVEN}, 2600 N at the wheel: arm angle in balance",
        unit="rad",
        expected=lambda: ALL.balances(LOAD, -0.3, 0.5),
        got=_rest,
    ),
    _engine(
        of="statics.settle",
        given=f"{_GIVEN}, 2600 N at the wheel: arm angle once it has stopped moving",
        unit="rad",
        expected=_in_time,
        got=_rest,
        within=1e-6,
    ),
    _engine(
        of="statics.settle",
        source="MuJoCo: a hinged arm, its bar and a bump stop on the rod",
        given="3600 N·m/rad, free at −0.1 rad, 2600 N at the wheel: arm angle in balance",
        unit="rad",
        expected=lambda: Engine(ARM, [ON_ROD], rate=RATE, free=-0.1).balances(LOAD, -0.05, 0.5),
        got=lambda: float(
            settle(
                ARM,
                free_angle=-0.1,
                rate=RATE,
                load=LOAD,
                droop=-0.5,
                bump=0.5,
                springs=[ON_ROD],
            ).angle
        ),
    ),
    _lowered(
        given=f"{_OVER}, 1450 N: short of the dead centre",
        expected=lambda: _lowered_on(1450.0),
        got=lambda: _first(1450.0),
    ),
    _lowered(
        given=f"{_OVER}, 1620 N: snapped through onto the bar",
        expected=lambda: _lowered_on(1620.0),
        got=lambda: _first(1620.0),
    ),
]
