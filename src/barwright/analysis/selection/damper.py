"""Which damper goes with another bar."""

from __future__ import annotations

from barwright.analysis.rates.rates import RatedCorner
from barwright.mechanics.corner.damping import required_damper_rate
from barwright.units import DAMPING_RATE, Quantity, quantity

__all__ = ["damper_rate_for"]


def damper_rate_for(rated: RatedCorner, *, damping_ratio: float | None) -> Quantity | None:
    """Return the rate of the damper that gives a corner a damping ratio.

    Parameters
    ----------
    rated : RatedCorner
        The corner with its rates.
    damping_ratio : float, optional
        Of its sprung mass.

    Returns
    -------
    Quantity or None
        None without a ratio, or where the corner has no stiffness at rest.
    """
    states = rated.states
    if damping_ratio is None or states is None or states.ride.wheel_rate <= 0.0:
        return None
    found = required_damper_rate(
        damping_ratio=damping_ratio,
        rate=states.ride.wheel_rate,
        mass=rated.corner.sprung_mass,
        motion_ratio=rated.corner.motion(states.ride.angle).motion_ratio,
    )
    return quantity(float(found), DAMPING_RATE)
