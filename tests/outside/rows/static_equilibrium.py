"""Rows of `barwright.mechanics.vehicle.static_equilibrium`.

Figures of a multibody engine's whole vehicle, off its level position by some 0.1 mrad, where
rotations in full and linear equations agree to 1e-8; see ``outside.whole_vehicle``.
"""

from __future__ import annotations

import functools

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.vehicle.roll import AntiRollBar
from barwright.mechanics.vehicle.static_equilibrium import Stance, influence, settle
from barwright.mechanics.vehicle.vehicle import Vehicle
from outside.whole_vehicle import NOSE, Array, AtRest, Engine, TiltingBody, element
from validation import Kind, Row

ENGINE = Engine(
    mass=1300.0,
    centre_of_gravity=(0.15, 0.03, 0.58),
    wheels=((1.25, 0.74), (1.25, -0.74), (-1.3, 0.70), (-1.3, -0.72)),
    wheel_rates=(21_000.0, 20_000.0, 24_000.0, 25_000.0),
    tyre_rates=(190_000.0, 190_000.0, 210_000.0, 210_000.0),
    bars=(9000.0, 4000.0),
    unsprung_masses=(34.0, 34.0, 30.0, 30.0),
    axis_height=0.12,
    arches=(0.68, 0.68, 0.70, 0.70),
    hubs=(0.31, 0.31, 0.30, 0.30),
)

OFF = np.array([2e-4, -1e-4, 1e-4, 3e-4])
"""How far the corners are set off the settings of the level position."""


def vehicle(engine: Engine) -> Vehicle:
    """The same figures for the kernels."""
    front, rear = (AntiRollBar(one_wheel_rate=rate) for rate in engine.bars)
    return Vehicle(
        mass=engine.mass,
        centre_of_gravity=engine.centre_of_gravity,
        wheels=engine.wheels,
        wheel_rates=engine.wheel_rates,
        tyre_rates=engine.tyre_rates,
        front_bar=front,
        rear_bar=rear,
        unsprung_masses=engine.unsprung_masses,
        roll_centres=engine.axis_height,
        pitch_centre=engine.axis_height,
        arches=engine.arches,
        tyre_radii=engine.tyre_radii,
    )


@functools.cache
def rest(sign: float = 1.0) -> AtRest:
    """Where the engine's vehicle comes to rest, set off one way or the other."""
    return ENGINE.at_rest(ENGINE.free_heights + sign * OFF)


def stance() -> Stance:
    """Where the kernels have it."""
    return settle(vehicle(ENGINE), ENGINE.free_heights + OFF)


# What the kernels call a joint of the engine.
_FIELDS = {"pitch": "pitch_angle"}


def _of_stance(name: str) -> Array:
    found: Array = getattr(stance(), _FIELDS.get(name, name))
    return found


def _of_influence(name: str) -> Array:
    found: Array = getattr(influence(vehicle(ENGINE)), name)
    return found


def tilt(name: str) -> float:
    """Half of what lies between the engine's two ways: their second order is alike."""
    return (rest().joint(name) - rest(-1.0).joint(name)) / 2.0


# Front left so low that its spring would have to pull, and rear right the road.
HANGING = np.array([-0.8, 0.0, 0.0, 0.0])


@functools.cache
def hanging() -> AtRest:
    """The engine's vehicle with the front left corner let down."""
    return ENGINE.at_rest(ENGINE.free_heights + HANGING)


def hanging_by_kernels() -> Stance:
    """The same by the kernels."""
    return settle(vehicle(ENGINE), ENGINE.free_heights + HANGING)


def which(corners: NDArray[np.bool_]) -> float:
    """Corners of which something is so, added up: 1, 2, 4 and 8 in their order."""
    return float(np.sum(corners * np.array([1.0, 2.0, 4.0, 8.0])))


TILTING = TiltingBody(
    mass=1300.0,
    centre_of_gravity=(0.3, 0.0, 0.9),
    wheels=((1.25, 0.74), (1.25, -0.74), (-1.3, 0.70), (-1.3, -0.70)),
    rates=(21_000.0, 20_000.0, 24_000.0, 25_000.0),
    roll_centres=(0.05, 0.35),
    pitch_centre=0.2,
)
TILTED = Vehicle(
    mass=TILTING.mass,
    centre_of_gravity=TILTING.centre_of_gravity,
    wheels=TILTING.wheels,
    wheel_rates=TILTING.rates,
    tyre_rates=np.inf,
    roll_centres=TILTING.roll_centres,
    pitch_centre=TILTING.pitch_centre,
)


def level_lengths(body: TiltingBody) -> Array:
    """Free lengths of the springs that hold the body level."""
    engine = Engine(
        mass=body.mass,
        centre_of_gravity=body.centre_of_gravity,
        wheels=body.wheels,
        wheel_rates=body.rates,
        tyre_rates=body.rates,
        arches=(0.0,) * 4,
        hubs=(0.0,) * 4,
    )
    return np.array(engine.loads / np.array(body.rates))


_vehicle = functools.partial(
    Row,
    source="MuJoCo: a body, four sliding hubs, springs, tyres and bars at rest",
    within=1e-6,
    kind=Kind.ENGINE,
)
_GIVEN = "1300 kg on uneven corners with tyres and bars, up to 0.3 mm off level"

ROWS = [
    *(
        _vehicle(
            of="static_equilibrium.settle",
            given=f"{_GIVEN}; load, {name}",
            unit="N",
            expected=element(lambda: rest().loads, i),
            got=element(lambda: stance().loads, i),
        )
        for i, name in ((0, "front left"), (3, "rear right"))
    ),
    _vehicle(
        of="static_equilibrium.settle",
        given=f"{_GIVEN}; hub to arch, front right",
        unit="m",
        expected=lambda: float(rest().heights[1]),
        got=lambda: float(stance().heights[1]),
    ),
    _vehicle(
        of="static_equilibrium.settle",
        given=f"{_GIVEN}; road to arch, rear left",
        unit="m",
        expected=lambda: float(rest().arches[2]),
        got=lambda: float(stance().arches[2]),
    ),
    *(
        _vehicle(
            of="static_equilibrium.settle",
            given=f"{_GIVEN}; {name}",
            unit="rad",
            expected=functools.partial(tilt, name),
            got=element(functools.partial(_of_stance, name)),
        )
        for name in ("roll", "pitch")
    ),
    _vehicle(
        of="static_equilibrium.settle",
        given=f"{_GIVEN}; heave",
        unit="m",
        expected=lambda: tilt("heave"),
        got=lambda: float(stance().heave),
    ),
    _vehicle(
        of="static_equilibrium.Stance.rise",
        given=f"{_GIVEN}; a point 2.1 m forward and 0.5 m to the left",
        unit="m",
        expected=lambda: (rest().nose - rest(-1.0).nose) / 2.0,
        got=lambda: float(stance().rise(forward=NOSE[0], leftward=NOSE[1])),
    ),
    _vehicle(
        of="static_equilibrium.Stance.lifted",
        given="the same, with the front left corner 800 mm lower: wheels in tension, added as "
        "1, 2, 4, 8",
        unit="",
        expected=lambda: which(hanging().loads < 0.0),
        got=lambda: which(hanging_by_kernels().lifted),
    ),
    _vehicle(
        of="static_equilibrium.Stance.slack",
        given="the same, with the front left corner 800 mm lower: springs in tension, added as "
        "1, 2, 4, 8",
        unit="",
        expected=lambda: which(hanging().heights > ENGINE.free_heights + HANGING),
        got=lambda: which(hanging_by_kernels().slack),
    ),
    *(
        _vehicle(
            of="static_equilibrium.influence",
            given=f"the same vehicle; {what} of one corner for free height at another",
            unit=unit,
            expected=element(functools.partial(ENGINE.moved, 1, name), at),
            got=element(functools.partial(_of_influence, name), at, 1),
        )
        for what, name, at, unit in (
            ("load", "loads", 2, "N/m"),
            ("hub to arch", "heights", 0, ""),
            ("road to arch", "arches", 3, ""),
        )
    ),
    _vehicle(
        of="static_equilibrium.influence",
        source="MuJoCo: a body on an inclined roll axis and a pitch axis at another height",
        given="1300 kg, 900 mm high, roll centres 50 and 350 mm, pitch centre 200 mm; change of "
        "both front loads together per change of free height, front left",
        unit="N/m",
        expected=lambda: float(np.sum(TILTING.moved(0, level_lengths(TILTING))[:2])),
        got=lambda: float(np.sum(influence(TILTED).loads[:2, 0])),
    ),
    _vehicle(
        of="static_equilibrium.influence",
        source="MuJoCo: a body on an inclined roll axis and a pitch axis at another height",
        given="the same; change of both left loads together per change of free height, rear left",
        unit="N/m",
        expected=lambda: float(np.sum(TILTING.moved(2, level_lengths(TILTING))[0::2])),
        got=lambda: float(np.sum(influence(TILTED).loads[0::2, 2])),
    ),
]
