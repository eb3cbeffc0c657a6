"""Rows of `barwright.mechanics.vehicle.modes`.

One example is recalled from a textbook; the other figures are eigenvalues of a multibody
engine's mass and stiffness matrices, of its whole vehicle without mass in the hubs.
"""

from __future__ import annotations

import functools

import attrs
import mujoco
import numpy as np
from scipy.constants import foot, pound_force, slug

from barwright.mechanics.vehicle.modes import (
    Modes,
    body_modes,
    bounce_and_pitch_frequencies,
    ride_frequencies,
    roll_frequency,
)
from barwright.mechanics.vehicle.ride import ride_rate
from barwright.mechanics.vehicle.roll import axle_roll_rate
from outside.rows.static_equilibrium import ENGINE, vehicle
from outside.whole_vehicle import Array, Engine, element
from validation import Kind, Row

_engine = functools.partial(
    Row,
    source="MuJoCo and scipy: eigenvalues of a body on four corners, massless hubs",
    within=1e-6,
    kind=Kind.ENGINE,
)

# -- All three at once, coupled --------------------------------------------------------------

COUPLED = attrs.evolve(ENGINE, unsprung_masses=(0.0,) * 4, inertia=(450.0, 1900.0))

# -- Alike on both sides ----------------------------------------------------------------------

# The axes of tilt pass through the centre of gravity, as textbooks have it.
EVEN = Engine(
    mass=1300.0,
    centre_of_gravity=(0.1, 0.0, 0.5),
    axis_height=0.5,
    wheels=((1.3, 0.75), (1.3, -0.75), (-1.3, 0.75), (-1.3, -0.75)),
    wheel_rates=(22_000.0, 22_000.0, 25_000.0, 25_000.0),
    tyre_rates=(190_000.0,) * 4,
    arches=(0.7,) * 4,
    hubs=(0.3,) * 4,
    # So light in roll that this is the fastest of the three.
    inertia=(100.0, 2000.0),
)
# High above its axis, and the slowest in roll.
TALL = attrs.evolve(
    EVEN, centre_of_gravity=(0.0, 0.0, 0.7), axis_height=0.1, inertia=(900.0, 300.0)
)
# With a moment of inertia of m·a·b each end of a body swings as if the other stood still.
ENDS_APART = attrs.evolve(EVEN, inertia=(100.0, 1300.0 * 1.2 * 1.4))


@functools.cache
def frequencies(engine: str) -> Array:
    """Of the body of one of these vehicles at rest, slowest first [Hz]."""
    built: Engine = globals()[engine]
    return built.at_rest(built.free_heights).frequencies()


@functools.cache
def heave_share() -> float:
    """Share of the slowest mode's kinetic energy in which the centre of gravity rises."""
    rest = COUPLED.at_rest(COUPLED.free_heights)
    mode, mass = rest.slowest()
    rising = np.zeros((3, rest.model.nv))
    mujoco.mj_jac(rest.model, rest.data, rising, None, rest.data.body(1).xipos, 1)
    speed = float(rising[2, :3] @ mode)
    return COUPLED.mass * speed**2 / float(mode @ mass @ mode)


def _modes() -> Modes:
    return body_modes(vehicle(COUPLED), roll_inertia=450.0, pitch_inertia=1900.0)


FRONT = 2.0 * ride_rate(wheel_rate=22_000.0, tyre_rate=190_000.0)
REAR = 2.0 * ride_rate(wheel_rate=25_000.0, tyre_rate=190_000.0)


def _both(place: int) -> float:
    return float(
        bounce_and_pitch_frequencies(
            front_rate=FRONT,
            rear_rate=REAR,
            front_distance=1.2,
            rear_distance=1.4,
            mass=1300.0,
            pitch_inertia=2000.0,
        )[place]
    )


def _recalled(place: int) -> float:
    """Figures of a textbook: 3220 lb, 2400 and 2600 lb/ft at 4.5 and 5.5 ft, radius 4 ft."""
    return float(
        bounce_and_pitch_frequencies(
            front_rate=2400.0 * pound_force / foot,
            rear_rate=2600.0 * pound_force / foot,
            front_distance=4.5 * foot,
            rear_distance=5.5 * foot,
            mass=100.0 * slug,
            pitch_inertia=100.0 * slug * (4.0 * foot) ** 2,
        )[place]
    )


_textbook = functools.partial(
    Row,
    of="modes.bounce_and_pitch_frequencies",
    source="W. T. Thomson, Theory of Vibration with Applications, car in bounce and pitch",
    given="100 slug, radius of gyration 4 ft, 2400 and 2600 lbf/ft at 4.5 and 5.5 ft",
    unit="Hz",
    why="printed to 0.01 Hz",
    kind=Kind.RECALLED,
)
_GIVEN = "1300 kg, 2000 kg·m² in pitch, corners of 22 and 25 N/mm on tyres of 190 N/mm"

ROWS = [
    *(
        _engine(
            of="modes.body_modes",
            given="the uneven vehicle of `static_equilibrium.settle` with 450 and 1900 kg·m²; "
            f"{name}",
            unit="Hz",
            expected=element(functools.partial(frequencies, "COUPLED"), i),
            got=element(lambda: _modes().frequencies, i),
        )
        for i, name in enumerate(("slowest", "middle", "fastest"))
    ),
    _engine(
        of="modes.body_modes",
        given="the same; heave's share of the slowest mode's kinetic energy",
        unit="",
        expected=heave_share,
        got=element(lambda: _modes().shares, 0, 0),
    ),
    _textbook(expected=1.10, got=lambda: _recalled(0), within=0.005 / 1.10),
    _textbook(expected=1.44, got=lambda: _recalled(1), within=0.005 / 1.44),
    _engine(
        of="modes.bounce_and_pitch_frequencies",
        given=f"{_GIVEN}; the lower",
        unit="Hz",
        expected=element(functools.partial(frequencies, "EVEN"), 0),
        got=lambda: _both(0),
    ),
    _engine(
        of="modes.bounce_and_pitch_frequencies",
        given=f"{_GIVEN}; the upper",
        unit="Hz",
        expected=element(functools.partial(frequencies, "EVEN"), 1),
        got=lambda: _both(1),
    ),
    _engine(
        of="modes.roll_frequency",
        given="1300 kg, 900 kg·m² in roll, 600 mm above the roll axis, on the same corners",
        unit="Hz",
        expected=element(functools.partial(frequencies, "TALL"), 0),
        got=lambda: float(
            roll_frequency(
                roll_rate=axle_roll_rate(wheel_rate=22_000.0, track=1.5, tyre_rate=190_000.0)
                + axle_roll_rate(wheel_rate=25_000.0, track=1.5, tyre_rate=190_000.0),
                mass=1300.0,
                lever=0.6,
                roll_inertia=900.0,
            )
        ),
    ),
    *(
        _engine(
            of="modes.ride_frequencies",
            given="the same corners, 1300·1.2·1.4 kg·m² in pitch, so that each end swings by "
            f"itself; {end}",
            unit="Hz",
            expected=element(functools.partial(frequencies, "ENDS_APART"), i),
            got=element(lambda: ride_frequencies(vehicle(ENDS_APART)), i),
        )
        for i, end in enumerate(("front", "rear"))
    ),
]
