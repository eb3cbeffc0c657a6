r"""Roll of a body on two axles: anti-roll bars, roll rates, roll angle, load transfer.

The body is rigid and tilts by a small angle about a fixed roll axis through the
roll centres of both axles; springs, bars and tyres are linear, left and right of
an axle are alike, and lateral acceleration is steady.  With the height :math:`d`
of the centre of gravity above the roll axis, the weight of the leaning body adds
:math:`m g d \varphi` to the moment of the acceleration, so that it takes
:math:`m g d` off the roll rate; that term is kept everywhere.

Vehicle axes are those of ISO 8855: an acceleration to the left is positive, rolls
the body to the right, and that roll is positive, since the left side goes up.
Limits: no jacking, no camber or track change, no lift of a wheel, no dampers.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.bar.torsion import series_rate
from barwright.mechanics.common.requirements import (
    refuse,
    require_finite,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.statics import STANDARD_GRAVITY

__all__ = [
    "NO_BAR",
    "AntiRollBar",
    "axle_roll_rate",
    "load_transfer",
    "roll_gradient",
    "roll_rate_share",
]


@attrs.frozen(eq=False, kw_only=True)
class AntiRollBar:
    r"""Anti-roll bar of an axle, however its rate is given.

    It pushes the wheels with :math:`\pm \kappa (q_l - q_r)`, where :math:`q` is
    the travel of each wheel against the body.  Three rates go by the name of its
    rate: :math:`\kappa` where one wheel moves and the other is held;
    :math:`2 \kappa`, **twice** that, for each of two wheels that move against each
    other; and :math:`\kappa t^2` as a moment for the body's roll.

    Parameters
    ----------
    one_wheel_rate : float or array [N/m]
        :math:`\kappa`: force at one wheel per travel, with the other wheel held.

    Raises
    ------
    QuantityError
        Q301 if the rate is not finite; Q302 if it is negative.

    References
    ----------
    Derived in this project; checked against a general multibody engine on a
    torsion rod with two levers.

    Examples
    --------
    >>> bar = AntiRollBar(one_wheel_rate=8000.0)
    >>> bar.both_wheels_rate
    16000.0
    >>> bar.roll_rate(track=1.5)
    18000.0
    """

    one_wheel_rate: Real

    def __attrs_post_init__(self) -> None:
        """Refuse a rate that no bar has."""
        require_not_negative(one_wheel_rate=self.one_wheel_rate)

    @classmethod
    def of_both_wheels(cls, rate: Real) -> AntiRollBar:
        r"""Make a bar from its rate at each wheel, with both wheels moving in opposition.

        Parameters
        ----------
        rate : float or array [N/m]
            :math:`2 \kappa`.

        Returns
        -------
        AntiRollBar

        Raises
        ------
        QuantityError
            Q301 if the rate is not finite; Q302 if it is negative.

        References
        ----------
        Each wheel feels the travel of both.

        Examples
        --------
        >>> AntiRollBar.of_both_wheels(16_000.0).one_wheel_rate
        8000.0
        """
        return cls(one_wheel_rate=rate / 2.0)

    @classmethod
    def of_roll(cls, rate: Real, *, track: Real) -> AntiRollBar:
        r"""Make a bar from its roll rate.

        Parameters
        ----------
        rate : float or array [N·m/rad]
            :math:`\kappa t^2`.
        track : float or array [m]
            Track :math:`t` of the axle.

        Returns
        -------
        AntiRollBar

        Raises
        ------
        QuantityError
            Q301 if a figure is not finite; Q302 if the rate is negative or the track not
            above zero.

        References
        ----------
        Inverse of :meth:`roll_rate`.

        Examples
        --------
        >>> AntiRollBar.of_roll(18_000.0, track=1.5).one_wheel_rate
        8000.0
        """
        require_positive(track=track)
        return cls(one_wheel_rate=rate / track**2)

    @property
    def both_wheels_rate(self) -> Real:
        """Rate at each wheel [N/m], with both wheels moving in opposition."""
        return 2.0 * self.one_wheel_rate

    def roll_rate(self, *, track: Real) -> Real:
        """Roll rate [N·m/rad] over a track [m], with the hubs held."""
        return self.one_wheel_rate * track**2


NO_BAR = AntiRollBar(one_wheel_rate=0.0)
"""An axle without an anti-roll bar."""


def axle_roll_rate(
    *, wheel_rate: Real, track: Real, bar: AntiRollBar = NO_BAR, tyre_rate: Real = np.inf
) -> Real:
    r"""Roll rate of an axle: springs and bar, in series with the tyres.

    .. math:: \frac{1}{K_\varphi} = \frac{1}{\frac{1}{2} K t^2 + \kappa t^2}
              + \frac{1}{\frac{1}{2} K_t t^2}

    Parameters
    ----------
    wheel_rate : float or array [N/m]
        Rate :math:`K` at each wheel.
    track : float or array [m]
        Track :math:`t`.
    bar : AntiRollBar
        Anti-roll bar of the axle, :math:`\kappa`.
    tyre_rate : float or array [N/m]
        Rate :math:`K_t` of each tyre; infinite for rigid tyres.

    Returns
    -------
    float or array [N·m/rad]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite, the tyre's rate excepted; Q302 if one is not
        above zero.

    References
    ----------
    Compliances in series add; checked against a general multibody engine.

    Examples
    --------
    >>> float(axle_roll_rate(wheel_rate=20_000.0, track=1.5))
    22500.0
    """
    require_positive(wheel_rate=wheel_rate, track=track)
    require_tyre_rates(tyre_rate, key="tyre_rate")
    wheel = wheel_rate + bar.both_wheels_rate
    return 0.5 * series_rate(wheel, tyre_rate) * track**2


def roll_rate_share(*, front: Real, rear: Real) -> Real:
    """Share of the front axle in the vehicle's roll rate.

    Parameters
    ----------
    front, rear : float or array [N·m/rad]
        Roll rate of each axle.

    Returns
    -------
    float or array
        From 0 to 1.

    Raises
    ------
    QuantityError
        Q301 if a rate is not finite; Q302 if one is not above zero.

    References
    ----------
    Definition.

    Examples
    --------
    >>> roll_rate_share(front=30_000.0, rear=20_000.0)
    0.6
    """
    require_positive(front=front, rear=rear)
    return front / (front + rear)


def roll_gradient(*, mass: Real, lever: Real, roll_rate: Real) -> Real:
    r"""Roll angle of the body per lateral acceleration, in a steady turn.

    .. math:: \frac{\varphi}{a_y} = \frac{m d}{K_\varphi - m g d}

    Parameters
    ----------
    mass : float or array [kg]
        Sprung mass :math:`m`.
    lever : float or array [m]
        Height :math:`d` of its centre of gravity above the roll axis.
    roll_rate : float or array [N·m/rad]
        Roll rate :math:`K_\varphi` of both axles together.

    Returns
    -------
    float or array [rad/(m/s²)]
        Times :data:`~barwright.mechanics.corner.statics.STANDARD_GRAVITY`, per g.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the mass is not above zero, or gravity
        outweighs the roll rate: the body would topple.

    References
    ----------
    D. C. Barton and J. D. Fieldhouse, *Automotive Chassis Engineering*,
    Springer 2018, p. 174: 0.0194 rad/(m/s²), 10.9° per g.

    Examples
    --------
    >>> gradient = roll_gradient(mass=1280.0, lever=0.365, roll_rate=28_650.0)
    >>> f"{gradient:.4f} rad/(m/s²)"
    '0.0194 rad/(m/s²)'
    """
    return mass * lever / upright_roll_rate(mass=mass, lever=lever, roll_rate=roll_rate)


def load_transfer(
    *,
    lateral_acceleration: Real,
    roll: Real,
    roll_rate: Real,
    track: Real,
    mass: Real,
    roll_centre: Real = 0.0,
    unsprung_mass: Real = 0.0,
    unsprung_height: Real = 0.0,
) -> Real:
    r"""Load transfer from the left wheel of an axle to the right one.

    .. math:: \Delta F = \frac{K_\varphi \varphi + (m h + m_u h_u) a_y}{t}

    The first term goes through springs, bars and tyres, the others through the
    links.

    Parameters
    ----------
    lateral_acceleration : float or array [m/s²]
        Acceleration :math:`a_y`, to the left positive.
    roll : float or array [rad]
        Roll angle :math:`\varphi` of the body, as :func:`roll_gradient` gives it.
    roll_rate : float or array [N·m/rad]
        Roll rate :math:`K_\varphi` of this axle.
    track : float or array [m]
        Track :math:`t` of this axle.
    mass : float or array [kg]
        Sprung mass :math:`m` that rests on this axle.
    roll_centre : float or array [m]
        Height :math:`h` of this axle's roll centre above the road.
    unsprung_mass : float or array [kg]
        Unsprung mass :math:`m_u` of this axle, both wheels.
    unsprung_height : float or array [m]
        Height :math:`h_u` of its centre of gravity above the road.

    Returns
    -------
    float or array [N]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the track is not above zero.

    References
    ----------
    Moments about the middle of the axle on the road; checked against a general
    multibody engine and against the statics of three free bodies.

    Examples
    --------
    >>> load_transfer(lateral_acceleration=5.0, roll=0.05, roll_rate=30_000.0, track=1.5,
    ...               mass=600.0, roll_centre=0.1)
    1200.0
    """
    require_positive(track=track)
    through_links = mass * roll_centre + unsprung_mass * unsprung_height
    return (roll_rate * roll + through_links * lateral_acceleration) / track


def upright_roll_rate(*, mass: Real, lever: Real, roll_rate: Real) -> Real:
    """Take the leaning weight off a roll rate [N·m/rad]; refuse if nothing is left."""
    require_positive(mass=mass)
    require_finite(lever=lever, roll_rate=roll_rate)
    upright = roll_rate - mass * STANDARD_GRAVITY * lever
    refuse(
        "Q302",
        upright,
        where=np.less_equal(upright, 0.0),
        expected="a roll rate of which mass times gravity times lever leaves more than 0",
        remedy="check the rates, the track and the height of the centre of gravity",
        key="roll_rate",
    )
    return upright


def require_tyre_rates(rates: Real, *, key: str) -> None:
    """Refuse rates of tyres that are not above zero; a rigid one has an infinite rate."""
    refuse(
        "Q302",
        rates,
        where=np.logical_not(np.greater(rates, 0.0)),
        expected="more than 0; infinite for a rigid tyre",
        remedy="check its sign",
        key=key,
    )
