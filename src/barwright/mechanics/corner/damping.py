r"""Dampers in small oscillations: damping at the wheel, and the damping ratio.

A damper resists in proportion to the speed of its rod, as much in bump as in rebound,
and moves :math:`i` times as far as the wheel; the power that it takes is the same at
both places.  Real dampers are neither linear nor alike both ways, so that a damping
ratio holds for one speed of the rod: take the slope of the measured curve there, or
the mean of both ways.  Friction of joints, rubber and tyre is not counted.  The mass
oscillates alone; for body and wheel together see
:mod:`barwright.mechanics.vehicle.quarter_vehicle`.
"""

from __future__ import annotations

import numpy as np

from barwright.mechanics.common.requirements import (
    refuse,
    require_finite,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.common.types import Real

__all__ = ["damping_ratio", "required_damper_rate", "wheel_damping"]


def wheel_damping(*, damper_rate: Real, motion_ratio: Real) -> Real:
    r"""Damping at the wheel, from a damper and its motion ratio.

    .. math:: c_w = c \, i^2, \qquad i = \frac{\mathrm{d}s}{\mathrm{d}z}

    Parameters
    ----------
    damper_rate : float or array [N·s/m]
        Force of the damper for a unit of its own speed, :math:`c`.
    motion_ratio : float or array
        Travel of the damper for a unit of travel of the wheel, :math:`i`, of either
        sign, as of :class:`~barwright.mechanics.linkage.arm_and_strut.Motion`.

    Returns
    -------
    float or array [N·s/m]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the damper's rate is negative.

    References
    ----------
    The power that the damper takes is the same at both places.

    Examples
    --------
    >>> round(wheel_damping(damper_rate=3000.0, motion_ratio=-0.7), 6)
    1470.0
    """
    require_not_negative(damper_rate=damper_rate)
    require_finite(motion_ratio=motion_ratio)
    return damper_rate * motion_ratio**2


def damping_ratio(*, damping: Real, rate: Real, mass: Real) -> Real:
    r"""Damping as a share of critical damping.

    .. math:: \zeta = \frac{c}{2 \sqrt{K m}}

    Parameters
    ----------
    damping : float or array [N·s/m]
        Damping :math:`c` where the mass is, as of :func:`wheel_damping`.
    rate : float or array [N/m]
        Rate :math:`K` in the same place.
    mass : float or array [kg]
        Mass :math:`m`.

    Returns
    -------
    float or array
        1 is critical.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the damping is negative, or rate or
        mass is not above zero.

    References
    ----------
    Decay of a damped oscillation; checked against its integration in time.

    Examples
    --------
    >>> f"{damping_ratio(damping=1600.0, rate=16_000.0, mass=400.0):.3f}"
    '0.316'
    """
    require_not_negative(damping=damping)
    require_positive(rate=rate, mass=mass)
    result: Real = damping / (2.0 * np.sqrt(rate * mass))
    return result


def required_damper_rate(
    *, damping_ratio: Real, rate: Real, mass: Real, motion_ratio: Real
) -> Real:
    r"""Damper rate that gives a damping ratio at the wheel.

    .. math:: c = \frac{2 \zeta \sqrt{K m}}{i^2}

    Parameters
    ----------
    damping_ratio : float or array
        Wanted damping ratio :math:`\zeta`.
    rate : float or array [N/m]
        Rate at the wheel :math:`K`.
    mass : float or array [kg]
        Mass :math:`m`.
    motion_ratio : float or array
        Travel of the damper for a unit of travel of the wheel, :math:`i`, of either
        sign.

    Returns
    -------
    float or array [N·s/m]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the damping ratio is negative, rate or
        mass is not above zero, or the damper does not move.

    References
    ----------
    Inverse of :func:`wheel_damping` and :func:`damping_ratio`.

    Examples
    --------
    >>> needed = required_damper_rate(damping_ratio=0.3, rate=16e3, mass=400.0, motion_ratio=0.5)
    >>> f"{needed:.0f} N·s/m"
    '6072 N·s/m'
    """
    require_not_negative(damping_ratio=damping_ratio)
    require_positive(rate=rate, mass=mass)
    require_finite(motion_ratio=motion_ratio)
    refuse(
        "Q302",
        motion_ratio,
        where=np.equal(motion_ratio, 0.0),
        expected="anything but 0",
        remedy="check the motion ratio: the damper must move with the wheel",
        key="motion_ratio",
    )
    result: Real = 2.0 * damping_ratio * np.sqrt(rate * mass) / motion_ratio**2
    return result
