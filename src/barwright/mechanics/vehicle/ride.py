r"""Ride of a corner in small oscillations, and the anti-roll bar that ties two corners.

The sprung mass of a corner stands on its wheel rate :math:`K` and, below the wheel,
on the tyre's :math:`K_t`; it moves straight up and down, and either it or the wheel is
taken as still; :mod:`barwright.mechanics.vehicle.quarter_vehicle` lets both move.  Everything is
linear about the height of rest, where rates are those of the small movement, and
damping, which lowers a frequency by less than 5 % up to 0.3 of critical, is in
:mod:`barwright.mechanics.corner.damping`.

An anti-roll bar has a rate *per wheel* and a rate *in roll*, and the first is twice as
great where both wheels move as where one is held; each name here says which it is.
"""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.bar.torsion import series_rate
from barwright.mechanics.common.requirements import (
    refuse,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.common.types import Real
from barwright.mechanics.vehicle.roll import AntiRollBar

__all__ = [
    "anti_roll_bar",
    "natural_frequency",
    "ride_rate",
]


def natural_frequency(*, rate: Real, mass: Real) -> Real:
    r"""Undamped natural frequency of a mass on a spring.

    .. math:: f = \frac{1}{2\pi} \sqrt{\frac{K}{m}}

    Parameters
    ----------
    rate : float or array [N/m]
        Rate :math:`K`; for ride, wheel and tyre in series.
    mass : float or array [kg]
        Mass :math:`m` that it carries.

    Returns
    -------
    float or array [Hz]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the rate is negative or the mass not
        above zero.

    References
    ----------
    D. C. Barton and J. D. Fieldhouse, *Automotive Chassis Engineering*,
    Springer 2018, p. 213: wheel hop of 14.25 Hz.

    Examples
    --------
    >>> f"{natural_frequency(rate=320_630.0, mass=40.0):.2f} Hz"
    '14.25 Hz'
    """
    require_not_negative(rate=rate)
    require_positive(mass=mass)
    result: Real = np.sqrt(rate / mass) / (2.0 * np.pi)
    return result


def ride_rate(*, wheel_rate: Real, tyre_rate: Real) -> Real:
    r"""Ride rate: wheel rate and tyre rate in series.

    .. math:: K_R = \frac{K K_t}{K + K_t}

    Parameters
    ----------
    wheel_rate : float or array [N/m]
        Rate at the wheel :math:`K`.
    tyre_rate : float or array [N/m]
        Vertical rate of the tyre :math:`K_t`.

    Returns
    -------
    float or array [N/m]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if one is not above zero.

    References
    ----------
    T. D. Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 5 (from memory).

    Examples
    --------
    >>> round(ride_rate(wheel_rate=20_000.0, tyre_rate=180_000.0))
    18000
    """
    require_positive(wheel_rate=wheel_rate, tyre_rate=tyre_rate)
    return series_rate(wheel_rate, tyre_rate)


def anti_roll_bar(
    *, torsional_rate: Real, arm_length: Real, arm_rate: Real = math.inf, motion_ratio: Real = 1.0
) -> AntiRollBar:
    r"""Anti-roll bar of an axle from its own dimensions.

    A torsion bar across the vehicle has an arm and a drop link at each end.  With the
    one wheel lifted and the other held, body and both arms give way one behind
    the other:

    .. math:: \kappa = i^2 \left(\frac{r^2}{k} + \frac{2}{k_a}\right)^{-1}

    Two wheels that move against each other twist it twice and feel :math:`2 \kappa`
    each; in roll, over the track :math:`t`, that is the moment :math:`\kappa t^2`.

    Parameters
    ----------
    torsional_rate : float or array [N·m/rad]
        Torque for a unit of twist between the two arms, :math:`k`.
    arm_length : float or array [m]
        From the bar's axis to the drop link, square to both, :math:`r`.
    arm_rate : float or array [N/m]
        Force at the link for a unit of its own bending of *one* arm, :math:`k_a`;
        infinite for arms that do not bend.
    motion_ratio : float or array
        Travel of the drop link for a unit of travel of the wheel, :math:`i`.

    Returns
    -------
    AntiRollBar

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite, the arms' rate excepted; Q302 if one is not
        above zero.

    Notes
    -----
    Links square to their arms, bearings that let the body turn and do not give way.
    Both wheels up by as much: the bar does nothing.

    References
    ----------
    Compliances in series add; checked against a frame of beams.

    Examples
    --------
    >>> bar = anti_roll_bar(torsional_rate=900.0, arm_length=0.3, motion_ratio=0.8)
    >>> f"{bar.one_wheel_rate:.0f} N/m, {bar.both_wheels_rate:.0f} N/m"
    '6400 N/m, 12800 N/m'
    >>> f"{bar.roll_rate(track=1.5):.0f} N·m/rad"
    '14400 N·m/rad'
    """
    require_positive(torsional_rate=torsional_rate, arm_length=arm_length)
    require_positive(motion_ratio=motion_ratio)
    refuse(
        "Q302",
        arm_rate,
        where=np.logical_not(np.greater(arm_rate, 0.0)),
        expected="more than 0; infinite for arms that do not bend",
        remedy="check its sign",
        key="arm_rate",
    )
    at_link = 1.0 / (np.square(arm_length) / torsional_rate + np.divide(2.0, arm_rate))
    return AntiRollBar(one_wheel_rate=np.square(motion_ratio) * at_link)
