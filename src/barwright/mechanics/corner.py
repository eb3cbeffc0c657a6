r"""One corner of a vehicle at rest: bar, linkage, gas damper and wheel load.

Virtual work in the arm angle :math:`\varphi`, with the load point's height
:math:`z` and the damper's length :math:`s`:

.. math:: F z' = T - F_\mathrm{gas} s', \qquad T = k (\varphi - \varphi_\mathrm{free}).

The load is taken as constant and vertical; bushings are taken as free to turn.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.linkage import Linkage, Motion
from barwright.mechanics.solve import rising_root
from barwright.mechanics.types import Real

__all__ = [
    "NO_GAS",
    "STANDARD_GRAVITY",
    "GasForce",
    "arm_per_free_angle",
    "bar_torque",
    "natural_frequency",
    "settle",
    "wheel_load",
    "wheel_rate",
]

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall [m/s²], 3rd CGPM (1901), exact."""


@attrs.frozen
class GasForce:
    """Force with which a gas damper pushes itself open, linear in its length.

    Parameters
    ----------
    force : float [N]
        Force at one length.
    at_length : float [m]
        That length.
    slope : float [N/m]
        Change of force with length; zero or negative.

    Examples
    --------
    >>> GasForce(force=200.0, at_length=0.5, slope=-500.0).at(0.4)
    250.0
    """

    force: float = 0.0
    at_length: float = 0.0
    slope: float = 0.0

    def at(self, length: Real) -> Real:
        """Force [N] at a damper length [m]."""
        return self.force + self.slope * (length - self.at_length)


NO_GAS = GasForce()
"""A damper without gas."""


def wheel_load(motion: Motion, *, torque: Real, gas: GasForce = NO_GAS) -> Real:
    r"""Vertical load at the wheel that a bar's torque carries.

    .. math:: F = \frac{T - F_\mathrm{gas} s'}{z'}

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    torque : float or array [N·m]
        Torque :math:`T` of the bar.
    gas : GasForce
        Gas force of the damper.

    Returns
    -------
    float or array [N]

    References
    ----------
    Principle of virtual work; checked with sympy.

    Examples
    --------
    >>> from barwright.mechanics.linkage import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(wheel_load(arm.motion(0.0), torque=1000.0))
    2500.0
    """
    return (torque - gas.at(motion.damper_length) * motion.damper_slope) / motion.load.slope


def bar_torque(motion: Motion, *, load: Real, gas: GasForce = NO_GAS) -> Real:
    r"""Torque of the bar that carries a vertical load at the wheel.

    .. math:: T = F z' + F_\mathrm{gas} s'

    The free angle that a wanted height needs follows from it at once:
    :math:`\varphi_\mathrm{free} = \varphi - T / k`.

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    load : float or array [N]
        Sprung load :math:`F`.
    gas : GasForce
        Gas force of the damper.

    Returns
    -------
    float or array [N·m]

    References
    ----------
    Inverse of :func:`wheel_load`.

    Examples
    --------
    >>> from barwright.mechanics.linkage import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(bar_torque(arm.motion(0.0), load=2500.0))
    1000.0
    """
    return load * motion.load.slope + gas.at(motion.damper_length) * motion.damper_slope


def _stiffness(motion: Motion, *, rate: Real, load: Real, gas: GasForce) -> Real:
    """Change of the unbalanced torque with arm angle, bar, gas and geometry [N·m/rad]."""
    return (
        rate
        - gas.slope * motion.damper_slope**2
        - gas.at(motion.damper_length) * motion.damper_curvature
        - load * motion.load.curvature
    )


def wheel_rate(motion: Motion, *, rate: Real, load: Real, gas: GasForce = NO_GAS) -> Real:
    r"""Vertical rate at the wheel.

    .. math:: K = \frac{\mathrm{d}F}{\mathrm{d}z} = \frac{k - F_\mathrm{gas}' s'^2
              - F_\mathrm{gas} s'' - F z''}{z'^2}

    Parameters
    ----------
    motion : Motion
        State of the linkage.
    rate : float or array [N·m/rad]
        Torsional rate :math:`k` of bar and tube.
    load : float or array [N]
        Load :math:`F` at the wheel in that state.
    gas : GasForce
        Gas force of the damper.

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
    >>> from barwright.mechanics.linkage import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> round(wheel_rate(arm.motion(0.0), rate=3200.0, load=2500.0))
    20000
    """
    stiffness = _stiffness(motion, rate=rate, load=load, gas=gas)
    return stiffness / motion.load.slope**2


def arm_per_free_angle(motion: Motion, *, rate: Real, load: Real, gas: GasForce = NO_GAS) -> Real:
    r"""Change of the arm's angle at rest with the free angle, under one load.

    .. math:: \frac{\mathrm{d}\varphi}{\mathrm{d}\varphi_\mathrm{free}} =
              \frac{k}{k - F_\mathrm{gas}' s'^2 - F_\mathrm{gas} s'' - F z''}

    Parameters
    ----------
    motion : Motion
        State of the linkage at rest.
    rate : float or array [N·m/rad]
        Torsional rate :math:`k` of bar and tube.
    load : float or array [N]
        Sprung load :math:`F`.
    gas : GasForce
        Gas force of the damper.

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
    >>> from barwright.mechanics.linkage import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> float(arm_per_free_angle(arm.motion(0.0), rate=3200.0, load=2500.0))
    1.0
    """
    return rate / _stiffness(motion, rate=rate, load=load, gas=gas)


def settle(
    linkage: Linkage,
    *,
    free_angle: Real,
    rate: Real,
    load: Real,
    droop: Real,
    bump: Real,
    gas: GasForce = NO_GAS,
) -> Real:
    """Arm angle at which a corner comes to rest; a bar below its free angle is slack.

    Parameters
    ----------
    linkage : Linkage
        The suspension.
    free_angle : float or array [rad]
        Arm angle without torque.
    rate : float or array [N·m/rad]
        Torsional rate of bar and tube.
    load : float or array [N]
        Sprung load.
    droop, bump : float or array [rad]
        Limits of the arm's travel; a corner that would go beyond rests there.
    gas : GasForce
        Gas force of the damper.

    Returns
    -------
    float or array [rad]

    Raises
    ------
    NotConvergedError
        If an element does not settle: a fault of the program.

    References
    ----------
    Checked against a general multibody engine and against scipy's minimum of
    the energy.

    Examples
    --------
    >>> from barwright.mechanics.linkage import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> angle = settle(arm, free_angle=-0.3125, rate=3200.0, load=2500.0, droop=-0.4, bump=0.4)
    >>> f"{abs(angle):.9f}"
    '0.000000000'
    """

    def unbalanced(angle: Real) -> tuple[Real, Real]:
        motion = linkage.motion(angle)
        torque = rate * (angle - free_angle) - bar_torque(motion, load=load, gas=gas)
        return torque, _stiffness(motion, rate=rate, load=load, gas=gas)

    def without_bar(angle: Real) -> tuple[Real, Real]:
        motion = linkage.motion(angle)
        torque = -1.0 * bar_torque(motion, load=load, gas=gas)
        return torque, _stiffness(motion, rate=0.0, load=load, gas=gas)

    # The adjuster holds the bar one way only: it carries nothing below its free
    # angle, and where nothing is asked of it there, gas and load alone decide.
    start = np.clip(free_angle, droop, bump)
    slack = rate * np.maximum(start - free_angle, 0.0) + without_bar(start)[0] >= 0.0
    wound = rising_root(unbalanced, low=start, high=bump)
    if not np.any(slack):
        return wound
    rest = np.where(slack, rising_root(without_bar, low=droop, high=start), wound)
    return rest if rest.ndim else float(rest)


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

    References
    ----------
    D. C. Barton and J. D. Fieldhouse, *Automotive Chassis Engineering*,
    Springer 2018, p. 213: wheel hop of 14.25 Hz.

    Examples
    --------
    >>> f"{natural_frequency(rate=320_630.0, mass=40.0):.2f} Hz"
    '14.25 Hz'
    """
    result: Real = np.sqrt(rate / mass) / (2.0 * np.pi)
    return result
