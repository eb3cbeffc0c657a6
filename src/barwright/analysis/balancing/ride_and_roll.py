"""Natural frequencies of a weighed vehicle, its roll and its load transfer."""

from __future__ import annotations

import math
from typing import Any

import attrs
import numpy as np

from barwright.analysis.balancing.balance_answer import RideAndRoll
from barwright.analysis.balancing.standing import StandingVehicle
from barwright.analysis.balancing.weighed_vehicle import PLACES
from barwright.analysis.corner.corner import metres
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.modes import (
    body_modes,
    bounce_and_pitch_frequencies,
    ride_frequencies,
    roll_frequency,
)
from barwright.mechanics.vehicle.ride import natural_frequency
from barwright.mechanics.vehicle.roll import (
    axle_roll_rate,
    load_transfer,
    roll_gradient,
    roll_rate_share,
)
from barwright.mechanics.vehicle.vehicle import Vehicle, front_mass_share, tilt_levers
from barwright.units import ANGLE, FREQUENCY, MASS, TORSIONAL_RATE, Quantity, quantity

__all__ = ["ACCELERATION", "ride_and_roll", "wanting_for_roll"]

ACCELERATION = 0.5
"""Lateral acceleration at which roll and load transfer are given, in g: a brisk bend.

Common practice, no source."""


def wanting_for_roll(standing: StandingVehicle) -> list[str]:
    """List the figures without which roll and load transfer are not known, as keys of a job."""
    keys = []
    if standing.weighed.vehicle.centre_of_gravity_height is None:
        keys.append("centre_of_gravity_height")
    centres = zip(PLACES, standing.roll_centres(), strict=True)
    return keys + [f"{place}.roll_centre" for place, centre in centres if centre is None]


def ride_and_roll(standing: StandingVehicle) -> RideAndRoll:
    """Return frequencies, roll and load transfer of a vehicle as it stands.

    Parameters
    ----------
    standing : StandingVehicle
        The vehicle.

    Returns
    -------
    RideAndRoll
        Without roll and load transfer where figures for them are missing.
    """
    vehicle = standing.vehicle
    front, rear = (float(one) for one in ride_frequencies(vehicle))
    rolls = [_roll_rate(standing, number) for number in range(len(PLACES))]
    bounce, pitch, roll = _modes(standing, roll_rate=sum(rolls))
    found = RideAndRoll(
        front_frequency=quantity(front, FREQUENCY),
        rear_frequency=quantity(rear, FREQUENCY),
        bounce_frequency=bounce,
        pitch_frequency=pitch,
        roll_frequency=roll,
        front_roll_rate=quantity(rolls[0], TORSIONAL_RATE),
        rear_roll_rate=quantity(rolls[1], TORSIONAL_RATE),
        front_roll_share=float(roll_rate_share(front=rolls[0], rear=rolls[1])),
        lateral_acceleration=ACCELERATION,
    )
    if wanting_for_roll(standing):
        return found
    return attrs.evolve(found, **_transfer(standing, rolls))


def _roll_rate(standing: StandingVehicle, number: int) -> float:
    """Roll rate of an axle [N·m/rad], its sides taken as alike."""
    own = slice(2 * number, 2 * number + 2)
    return float(
        axle_roll_rate(
            wheel_rate=float(np.mean(standing.vehicle.wheel_rates[own])),
            track=standing.tracks[number],
            bar=standing.bars[number],
            tyre_rate=float(np.mean(standing.vehicle.tyre_rates[own])),
        )
    )


def _modes(
    standing: StandingVehicle, *, roll_rate: float
) -> tuple[Quantity | None, Quantity | None, Quantity | None]:
    """Frequencies of bounce, pitch and roll, as far as the radii of gyration are known."""
    vehicle, figures = standing.vehicle, standing.weighed.vehicle
    mass = float(vehicle.mass)
    roll, pitch = (
        None if radius is None else mass * metres(radius) ** 2
        for radius in (figures.roll_radius, figures.pitch_radius)
    )
    if roll is not None and pitch is not None:
        modes = body_modes(vehicle, roll_inertia=roll, pitch_inertia=pitch)
        # Each mode is named by what moves most in it.
        found = [float(modes.frequencies[int(np.argmax(modes.shares[:, of]))]) for of in range(3)]
        bounce, rolls, pitches = (quantity(one, FREQUENCY) for one in found)
        return bounce, pitches, rolls
    if pitch is not None:
        return (*_bounce_and_pitch(vehicle, pitch), None)
    if roll is not None:
        lever = float(tilt_levers(vehicle)[0])
        own = roll_frequency(roll_rate=roll_rate, mass=mass, lever=lever, roll_inertia=roll)
        return None, None, quantity(float(own), FREQUENCY)
    return None, None, None


def _bounce_and_pitch(vehicle: Vehicle, pitch_inertia: float) -> tuple[Quantity, Quantity]:
    """Both modes in the middle plane, where nothing is known of the body's roll."""
    rates = vehicle.wheel_rates * vehicle.tyre_rates / (vehicle.wheel_rates + vehicle.tyre_rates)
    base = float(vehicle.wheels[0, 0] - vehicle.wheels[2, 0])
    share, mass = float(front_mass_share(vehicle)), float(vehicle.mass)
    front, rear = float(np.sum(rates[:2])), float(np.sum(rates[2:]))
    pair = bounce_and_pitch_frequencies(
        front_rate=front,
        rear_rate=rear,
        front_distance=(1.0 - share) * base,
        rear_distance=share * base,
        mass=mass,
        pitch_inertia=pitch_inertia,
    )
    # Bounce is the one that is nearer to the body's rising and falling without pitch.
    level = float(natural_frequency(rate=front + rear, mass=mass))
    bounce, pitch = sorted((float(one) for one in pair), key=lambda one: abs(one - level))
    return quantity(bounce, FREQUENCY), quantity(pitch, FREQUENCY)


def _transfer(standing: StandingVehicle, rolls: list[float]) -> dict[str, Any]:
    """Roll in a steady turn, what it does to the scales, and when a wheel lifts."""
    vehicle, acceleration = standing.vehicle, ACCELERATION * STANDARD_GRAVITY
    mass, lever = float(vehicle.mass), float(tilt_levers(vehicle)[0])
    angle = acceleration * float(roll_gradient(mass=mass, lever=lever, roll_rate=sum(rolls)))
    share = float(front_mass_share(vehicle))
    moved = [
        plain(
            load_transfer(
                lateral_acceleration=acceleration,
                roll=angle,
                roll_rate=rolls[number],
                track=standing.tracks[number],
                mass=mass * part,
                roll_centre=float(vehicle.roll_centres[number]),
                unsprung_mass=float(np.sum(standing.unsprung[2 * number : 2 * number + 2])),
                unsprung_height=standing.hub_heights[number],
            )
        )
        for number, part in enumerate((share, 1.0 - share))
    ]
    lightest = standing.loads.reshape(2, 2).min(axis=-1)
    lifts = [
        load / one if one > 0.0 else math.inf for load, one in zip(lightest, moved, strict=True)
    ]
    front, rear = (quantity(one / STANDARD_GRAVITY, MASS) for one in moved)
    return {
        "body_roll": quantity(angle, ANGLE),
        "front_transfer": front,
        "rear_transfer": rear,
        "first_lift": ACCELERATION * float(min(lifts)),
    }
