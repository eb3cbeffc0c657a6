r"""One corner at rest: bar, linkage, other springs and wheel load.

Virtual work in the arm angle :math:`\varphi`, with the load point's height
:math:`z` and the torques :math:`T_i` of the springs beside the bar:

.. math:: F z' = T + \sum_i T_i, \qquad T = k (\varphi - \varphi_\mathrm{free}).

The load is constant and vertical, links are rigid and joints without friction; the
arm's own weight is part of the load or left out.  An adjuster holds the bar one way
only: below its free angle a bar is slack and carries nothing, unless its anchor holds
it both ways.  The limits of travel are
hard; what gives way before them is a spring (:mod:`barwright.mechanics.corner.springs`).
At rest means as slowly as you like: no dynamic overshoot.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from typing import Any

import attrs
import numpy as np

from barwright.mechanics.common.one_or_many import chosen
from barwright.mechanics.common.requirements import refuse, require_finite, require_not_negative
from barwright.mechanics.common.solve import first_root
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.springs import Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion

__all__ = [
    "STANDARD_GRAVITY",
    "Rest",
    "Support",
    "arm_per_free_angle",
    "bar_hold",
    "bar_torque",
    "settle",
    "wheel_load",
    "wheel_rate",
]

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s²], 3rd CGPM (1901), exact."""


class Support(enum.Enum):
    """What holds a corner at rest."""

    BAR = "the bar, with the springs beside it"
    SPRINGS = "the springs beside the bar, which is slack"
    DROOP = "the limit of droop"
    BUMP = "the limit of bump"


@attrs.frozen(eq=False)
class Rest:
    """Angle at which a corner rests, and what supports it.

    Parameters
    ----------
    angle : float or array [rad]
        Arm angle.
    support : Support or array of Support
        What supports it. At a stop, bar and springs carry part of the load too.
    """

    angle: Real
    support: Any


def bar_hold(twist: Real, *, rate: Real, holds_both_ways: bool = False) -> tuple[Real, Real]:
    r"""Torque of a bar at a twist, and the change of that torque with arm angle.

    .. math:: T = k \theta, \qquad \frac{\mathrm{d}T}{\mathrm{d}\varphi} = k

    where the bar is wound or held both ways; else it is slack, and both are 0.

    Parameters
    ----------
    twist : float or array [rad]
        Twist :math:`\theta = \varphi - \varphi_\mathrm{free}`.
    rate : float or array [N·m/rad]
        Torsional rate :math:`k` of bar and tube.
    holds_both_ways : bool
        Whether the anchor holds torque in both senses.

    Returns
    -------
    (float or array, float or array) [N·m], [N·m/rad]

    References
    ----------
    Hooke's law; checked against a general multibody engine.

    Examples
    --------
    >>> torque, stiffness = bar_hold(-0.1, rate=3000.0)  # an adjuster's lever comes free
    >>> float(torque), float(stiffness)
    (0.0, 0.0)
    >>> torque, stiffness = bar_hold(-0.1, rate=3000.0, holds_both_ways=True)
    >>> float(torque), float(stiffness)
    (-300.0, 3000.0)
    """
    is_wound = (twist > 0.0) | holds_both_ways
    return chosen(is_wound, rate * twist, _NONE), chosen(is_wound, rate, _NONE)


def wheel_load(motion: Motion, *, torque: Real, springs: Sequence[Spring] = ()) -> Real:
    r"""Vertical load at the wheel that a bar's torque carries.

    .. math:: F = \frac{T + \sum_i T_i}{z'}

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    torque : float or array [N·m]
        Torque :math:`T` of the bar.
    springs : sequence of Spring
        Springs besides the bar, with the torques :math:`T_i`.

    Returns
    -------
    float or array [N]

    References
    ----------
    Principle of virtual work; checked with sympy.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(wheel_load(arm.motion(0.0), torque=1000.0))
    2500.0
    """
    result: Real = np.divide(torque + _beside(motion, springs)[0], motion.load.slope)
    return result


def bar_torque(motion: Motion, *, load: Real, springs: Sequence[Spring] = ()) -> Real:
    r"""Torque of the bar that carries a vertical load at the wheel.

    .. math:: T = F z' - \sum_i T_i

    The free angle that a wanted height needs follows from it at once:
    :math:`\varphi_\mathrm{free} = \varphi - T / k`.

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    load : float or array [N]
        Sprung load :math:`F`.
    springs : sequence of Spring
        Springs besides the bar, with the torques :math:`T_i`.

    Returns
    -------
    float or array [N·m]
        Negative where the springs carry more than the load, which no bar can do.

    References
    ----------
    Inverse of :func:`wheel_load`.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(bar_torque(arm.motion(0.0), load=2500.0))
    1000.0
    """
    return load * motion.load.slope - _beside(motion, springs)[0]


def wheel_rate(motion: Motion, *, rate: Real, load: Real, springs: Sequence[Spring] = ()) -> Real:
    r"""Vertical rate at the wheel.

    .. math:: K = \frac{\mathrm{d}F}{\mathrm{d}z}
              = \frac{k + \sum_i \mathrm{d}T_i / \mathrm{d}\varphi - F z''}{z'^2}

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    rate : float or array [N·m/rad]
        Torsional rate :math:`k` of bar and tube; 0 where the bar is slack.
    load : float or array [N]
        Load :math:`F` at the wheel in that state.
    springs : sequence of Spring
        Springs besides the bar, with the torques :math:`T_i`.

    Returns
    -------
    float or array [N/m]

    Notes
    -----
    The bare :math:`k / R^2` of a plain arm is wrong by +10 % to -48 % between
    10° of droop and 25° of bump.

    References
    ----------
    Derived in this project; checked with sympy and by finite differences.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> round(wheel_rate(arm.motion(0.0), rate=3200.0, load=2500.0))
    20000
    """
    stiffness = _stiffness(motion, rate=rate, load=load, springs=springs)
    result: Real = np.divide(stiffness, motion.load.slope**2)
    return result


def arm_per_free_angle(
    motion: Motion, *, rate: Real, load: Real, springs: Sequence[Spring] = ()
) -> Real:
    r"""Change of the arm angle at rest per change of the free angle.

    .. math:: \frac{\mathrm{d}\varphi}{\mathrm{d}\varphi_\mathrm{free}} =
              \frac{k}{k + \sum_i \mathrm{d}T_i / \mathrm{d}\varphi - F z''}

    Parameters
    ----------
    motion : Motion
        State of the linkage at rest.
    rate : float or array [N·m/rad]
        Torsional rate :math:`k` of bar and tube; 0 where the bar is slack.
    load : float or array [N]
        Sprung load :math:`F`.
    springs : sequence of Spring
        Springs besides the bar, with the torques :math:`T_i`.

    Returns
    -------
    float or array

    Notes
    -----
    Times the hub's slope this is the change of height for a turn of the lever;
    to take it as 1 is some 10 % off.

    References
    ----------
    Derived in this project; checked by finite differences of :func:`settle`.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(arm_per_free_angle(arm.motion(0.0), rate=3200.0, load=2500.0))
    1.0
    """
    result: Real = np.divide(rate, _stiffness(motion, rate=rate, load=load, springs=springs))
    return result


def settle(
    linkage: Linkage,
    *,
    free_angle: Real,
    rate: Real,
    load: Real,
    droop: Real,
    bump: Real,
    springs: Sequence[Spring] = (),
    holds_both_ways: bool = False,
) -> Rest:
    """Find where a corner rests when its load is lowered on from full droop.

    That is the first place, from full droop, at which bar and springs carry the
    load.  It is stable: a little lower they carry less.  Where there are other
    stable places further up, the corner would only get there if it were pushed.

    Parameters
    ----------
    linkage : Linkage
        The suspension.
    free_angle : float or array [rad]
        Arm angle at which the bar carries no torque; below it the bar is slack, unless its
        anchor holds both ways.
    rate : float or array [N·m/rad]
        Torsional rate of bar and tube.
    load : float or array [N]
        Sprung load.
    droop, bump : float or array [rad]
        Limits of the arm's travel; a corner that would go beyond rests there.
    springs : sequence of Spring
        Springs besides the bar.
    holds_both_ways : bool
        Whether the anchor holds torque in both senses, so that the bar is never
        slack but pulls the arm up below its free angle.

    Returns
    -------
    Rest

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the rate is negative or droop lies
        above bump.
    NotConvergedError
        N101 if an element does not settle: a fault of the program.

    Notes
    -----
    A snap-through that begins and ends within a sixty-fourth part of the travel may
    be passed over; :func:`barwright.mechanics.common.solve.first_root` says which.

    References
    ----------
    Checked against a general multibody engine, against scipy's minimum of the
    energy, and against a search in fine steps.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> rest = settle(arm, free_angle=-0.3125, rate=3200.0, load=2500.0, droop=-0.4, bump=0.4)
    >>> f"{abs(rest.angle):.9f}", rest.support.name
    ('0.000000000', 'BAR')
    """
    require_finite(free_angle=free_angle, load=load, droop=droop, bump=bump)
    require_not_negative(rate=rate)
    refuse(
        "Q302",
        droop,
        where=np.greater(droop, bump),
        expected="a limit of droop that is not above that of bump",
        remedy="angles are positive in the bump sense: check signs and order",
        key="droop",
    )

    def unbalanced(angle: Real) -> tuple[Real, Real]:
        motion = linkage.motion(angle)
        of_bar, of_rate = bar_hold(angle - free_angle, rate=rate, holds_both_ways=holds_both_ways)
        torque, stiffness = _beside(motion, springs)
        missing = load * motion.load.slope - torque
        return of_bar - missing, of_rate + stiffness - load * motion.load.curvature

    angle = first_root(unbalanced, low=droop, high=bump)
    # A bar that is held both ways is nowhere slack.
    slack_below = -math.inf if holds_both_ways else free_angle
    return Rest(angle, _support(angle, free_angle=slack_below, droop=droop, bump=bump))


# Whatever divides by it gets a number that is infinite, and no error.
_NONE = np.float64(0.0)


def _support(angle: Real, *, free_angle: Real, droop: Real, bump: Real) -> Any:  # noqa: ANN401
    """Say what holds a corner that rests at an angle."""
    places = (np.less_equal(angle, droop), np.greater_equal(angle, bump))
    slack = np.less_equal(angle, free_angle)
    return _SUPPORTS[chosen(places[0], 0, chosen(places[1], 1, chosen(slack, 2, 3)))]


_SUPPORTS = np.array([Support.DROOP, Support.BUMP, Support.SPRINGS, Support.BAR], dtype=object)


def _stiffness(motion: Motion, *, rate: Real, load: Real, springs: Sequence[Spring]) -> Real:
    """Change of the unbalanced torque with arm angle: bar, springs and geometry [N·m/rad]."""
    return rate + _beside(motion, springs)[1] - load * motion.load.curvature


def _beside(motion: Motion, springs: Sequence[Spring]) -> tuple[Real, Real]:
    """Torque and stiffness of all springs beside the bar."""
    held = [spring.hold(motion) for spring in springs]
    torque: Real = sum(one[0] for one in held)
    stiffness: Real = sum(one[1] for one in held)
    return torque, stiffness
