"""How a corner vibrates: frequency and damping of body and wheel."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.mechanics.corner import damping
from barwright.mechanics.vehicle import ride
from barwright.mechanics.vehicle.quarter_vehicle import quarter_vehicle_modes
from barwright.units import DAMPING_RATE, FREQUENCY, MASS, Quantity, quantity, si

__all__ = ["damping_ratio", "ride_frequency", "wheel_damping", "wheel_hop"]


def ride_frequency(corner: Corner, wheel_rate: float) -> Quantity | None:
    """Ride frequency with the tyre in series.

    Parameters
    ----------
    corner : Corner
        The corner.
    wheel_rate : float
        Rate at the wheel [N/m].

    Returns
    -------
    Quantity, optional
        None of a wheel without a rate.
    """
    if wheel_rate <= 0.0:
        return None
    rate = ride.ride_rate(wheel_rate=wheel_rate, tyre_rate=corner.tyre_rate)
    frequency = ride.natural_frequency(rate=rate, mass=corner.sprung_mass)
    return quantity(float(frequency), FREQUENCY)


@once_a_corner(of_either_side)
def wheel_damping(corner: Corner, angle: float) -> float | None:
    """Damping at the wheel at an arm angle; none where the damper's is not known.

    Parameters
    ----------
    corner : Corner
        The corner.
    angle : float
        Arm angle [rad].

    Returns
    -------
    float, optional
        In N·s/m.
    """
    known = corner.setup.damper.damping_rate
    if known is None:
        return None
    at_wheel = damping.wheel_damping(
        damper_rate=si(known, DAMPING_RATE),
        motion_ratio=corner.motion(angle).motion_ratio,
    )
    return float(at_wheel)


def damping_ratio(corner: Corner, *, wheel_rate: float, at_wheel: float | None) -> float | None:
    """Damping ratio of the sprung mass.

    Parameters
    ----------
    corner : Corner
        The corner.
    wheel_rate : float
        Rate at the wheel [N/m].
    at_wheel : float, optional
        Damping at the wheel [N·s/m].

    Returns
    -------
    float, optional
        None where either is not known.
    """
    if at_wheel is None or wheel_rate <= 0.0:
        return None
    ratio = damping.damping_ratio(damping=at_wheel, rate=wheel_rate, mass=corner.sprung_mass)
    return float(ratio)


@once_a_corner(of_either_side)
def wheel_hop(
    corner: Corner, *, wheel_rate: float, at_wheel: float | None
) -> tuple[Quantity | None, float | None]:
    """Natural frequency and damping ratio of wheel hop, each none where it is not known.

    Parameters
    ----------
    corner : Corner
        The corner.
    wheel_rate : float
        Rate at the wheel [N/m].
    at_wheel : float, optional
        Damping at the wheel [N·s/m].

    Returns
    -------
    (Quantity, optional, float, optional)
    """
    if wheel_rate <= 0.0:
        return None, None
    hop = quarter_vehicle_modes(
        sprung_mass=corner.sprung_mass,
        unsprung_mass=si(corner.setup.axle.unsprung_mass, MASS),
        wheel_rate=wheel_rate,
        tyre_rate=corner.tyre_rate,
        damping=at_wheel or 0.0,
    ).hop
    ratio = None if at_wheel is None else float(hop.damping_ratio)
    return quantity(float(hop.frequency), FREQUENCY), ratio
