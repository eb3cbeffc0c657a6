r"""Springs of a corner beside its bar: gas, rubber and coils.

Each spring is told where the linkage stands and answers with the torque that it puts
on the arm about the bar axis, in the sense that carries the car as the bar's own
does, and with that torque's change with arm angle.  Both follow from virtual work:
a force :math:`f` over a compression :math:`c(\varphi)` holds :math:`f c'`.  Springs
are elastic and without friction, mass or speed: no hysteresis of the rubber, no
stiffening of a stop that is hit fast, no heating of the gas.  Points keep to the plane
square to the bar axis.  A spring that is out of contact carries nothing and pulls
at nothing; where it comes into contact its force is steady and its rate jumps.
"""

from __future__ import annotations

import abc
from collections.abc import Sequence
from typing import cast

import attrs
import numpy as np

from barwright.errors import QuantityError
from barwright.mechanics.common.one_or_many import chosen
from barwright.mechanics.common.requirements import (
    refuse,
    require_finite,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import Motion, damper_state
from barwright.mechanics.linkage.wheel_carrier import Point

__all__ = ["BumpStop", "Bushing", "GasForce", "HelperSpring", "Spring"]


class Spring(abc.ABC):
    """Interface of every spring besides the bar."""

    @abc.abstractmethod
    def hold(self, motion: Motion) -> tuple[Real, Real]:
        """Torque about the bar axis, and its change with arm angle.

        Parameters
        ----------
        motion : Motion
            State of the linkage.

        Returns
        -------
        (float or array, float or array) [N·m], [N·m/rad]
            The torque is positive where it carries the car, as the bar's own.
        """


@attrs.frozen
class GasForce(Spring):
    r"""Force with which a gas damper pushes itself open, linear in its length.

    .. math:: T = -F s', \qquad \frac{\mathrm{d}T}{\mathrm{d}\varphi} = -F' s'^2 - F s''

    Parameters
    ----------
    force : float or array [N]
        Force :math:`F` at one length; zero or positive.
    at_length : float or array [m]
        That length.
    slope : float or array [N/m]
        Change of force with length, :math:`F'`; zero or negative.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if one has the wrong sign.

    References
    ----------
    Principle of virtual work; checked against a general multibody engine.

    Examples
    --------
    >>> GasForce(force=200.0, at_length=0.5, slope=-500.0).at(0.4)
    250.0
    """

    force: Real
    at_length: Real
    slope: Real = 0.0

    def __attrs_post_init__(self) -> None:
        """Refuse what no gas does."""
        require_finite(at_length=self.at_length, slope=self.slope)
        require_not_negative(force=self.force)
        refuse(
            "Q302",
            self.slope,
            where=np.greater(self.slope, 0.0),
            expected="0 or less",
            remedy="check the sign: a shorter damper pushes harder",
            key="slope",
        )

    def at(self, length: Real) -> Real:
        """Force of the gas.

        Parameters
        ----------
        length : float or array [m]
            Of the damper.

        Returns
        -------
        float or array [N]
        """
        return self.force + self.slope * (length - self.at_length)

    def hold(self, motion: Motion) -> tuple[Real, Real]:
        """Torque about the bar axis [N·m], and its change with arm angle [N·m/rad]."""
        slope, curvature = -1.0 * motion.damper_slope, -1.0 * motion.damper_curvature
        return _held(self.at(motion.damper_length), -self.slope, slope, curvature)


def _figures(values: Sequence[float]) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


@attrs.frozen(kw_only=True)
class BumpStop(Spring):
    r"""A stop of rubber or foam that meets arm, hub or damper near full bump.

    .. math:: T = f c', \qquad \frac{\mathrm{d}T}{\mathrm{d}\varphi} = f' c'^2 + f c''

    Parameters
    ----------
    compressions : sequence of float [m]
        Compressions of the table, from 0 at contact, rising.
    forces : sequence of float [N]
        Forces that belong to them, from 0, rising.  Between them the force is
        linear; beyond the last one the last slope goes on.
    at_length : float or array, optional [m]
        Damper length at contact, of a stop on the damper's rod.
    at_height : float or array, optional [m]
        Hub above the bar axis at contact, of a stop that presses it straight down.
    at_angle : float or array, optional [rad]
        Arm angle at contact, of a stop that presses square to the arm.
    radius : float or array, optional [m]
        From the bar axis to where it does; goes with ``at_angle`` alone.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 for a table that does not rise from 0, or if
        not exactly one place of contact is given.

    Notes
    -----
    At a point of the table the rate is that of the part beyond it; at contact, still 0.

    References
    ----------
    Principle of virtual work; checked against a general multibody engine.

    Examples
    --------
    >>> stop = BumpStop(compressions=(0.0, 0.01, 0.02), forces=(0.0, 200.0, 1000.0), at_length=0.3)
    >>> [f"{stop.at(c):.0f} N" for c in (-0.005, 0.005, 0.015, 0.030)]
    ['0 N', '100 N', '600 N', '1800 N']
    """

    compressions: Sequence[float] = attrs.field(converter=_figures)
    forces: Sequence[float] = attrs.field(converter=_figures)
    at_length: Real | None = None
    at_height: Real | None = None
    at_angle: Real | None = None
    radius: Real | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse a table that does not rise, and a stop that is nowhere or at two places."""
        _refuse_unless_rising(self.compressions, key="compressions")
        _refuse_unless_rising(self.forces, key="forces")
        if len(self.compressions) != len(self.forces):
            raise QuantityError(
                "Q302",
                value=f"{len(self.forces)} forces",
                expected=f"one for each of the {len(self.compressions)} compressions",
                remedy="complete both columns of the table",
                key="forces",
            )
        self._refuse_unless_at_one_place()

    def at(self, compression: Real) -> Real:
        """Force of the stop.

        Parameters
        ----------
        compression : float or array [m]
            By how much it is pressed; negative before contact.

        Returns
        -------
        float or array [N]
            0 before contact.
        """
        return self._pressed(compression)[0]

    def hold(self, motion: Motion) -> tuple[Real, Real]:
        """Torque about the bar axis [N·m], and its change with arm angle [N·m/rad]."""
        compression, slope, curvature = self._compression(motion)
        return _held(*self._pressed(compression), slope, curvature)

    def _pressed(self, compression: Real) -> tuple[Real, Real]:
        """Force and rate at a compression."""
        starts, forces = np.array(self.compressions), np.array(self.forces)
        rates = np.diff(forces) / np.diff(starts)
        part = np.clip(np.searchsorted(starts, compression, side="right") - 1, 0, rates.size - 1)
        touches = np.greater(compression, 0.0)
        force = forces[part] + rates[part] * (compression - starts[part])
        return chosen(touches, force, 0.0), chosen(touches, rates[part], 0.0)

    def _compression(self, motion: Motion) -> tuple[Real, Real, Real]:
        """Compression, with its first and second derivative with the arm angle."""
        if self.at_height is not None:
            hub = motion.hub
            return hub.height - self.at_height, hub.slope, hub.curvature
        if self.at_angle is not None and self.radius is not None:
            return self.radius * (motion.angle - self.at_angle), self.radius, 0.0
        # It is at one place, and there is no other left.
        pressed = cast("Real", self.at_length) - motion.damper_length
        return pressed, -1.0 * motion.damper_slope, -1.0 * motion.damper_curvature

    def _refuse_unless_at_one_place(self) -> None:
        names = ("at_length", "at_height", "at_angle", "radius")
        places = {name: getattr(self, name) for name in names}
        given = {name: place for name, place in places.items() if place is not None}
        if set(given) not in ({"at_length"}, {"at_height"}, {"at_angle", "radius"}):
            raise QuantityError(
                "Q302",
                value=" and ".join(given) or "no place of contact",
                expected="at_length, at_height, or at_angle and radius",
                remedy="state the contact in one way",
                key="at_length",
            )
        require_finite(**given)
        if self.radius is not None:
            require_positive(radius=self.radius)


@attrs.frozen
class Bushing(Spring):
    r"""A rubber bushing that winds up with the arm.

    .. math:: T = k_b (\varphi - \varphi_t)

    Parameters
    ----------
    rate : float or array [N·m/rad]
        Torsional rate :math:`k_b` of all bushings of the arm together.
    tightened_at : float or array [rad]
        Arm angle :math:`\varphi_t` at which their bolts were tightened.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the rate is negative.

    References
    ----------
    A linear spring about the bar axis; checked against a general multibody engine.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> Bushing(rate=150.0, tightened_at=-0.25).hold(arm.motion(0.25))
    (75.0, 150.0)
    """

    rate: Real
    tightened_at: Real

    def __attrs_post_init__(self) -> None:
        """Refuse what no rubber does."""
        require_not_negative(rate=self.rate)
        require_finite(tightened_at=self.tightened_at)

    def hold(self, motion: Motion) -> tuple[Real, Real]:
        """Torque about the bar axis [N·m], and its change with arm angle [N·m/rad]."""
        return self.rate * (motion.angle - self.tightened_at), self.rate


@attrs.frozen(kw_only=True)
class HelperSpring(Spring):
    r"""A coil spring besides the bar, over the damper or between its own mounts.

    .. math:: f = k_h \max(0,\, s_0 + c - s), \qquad T = -f s'

    Parameters
    ----------
    rate : float or array [N/m]
        Rate :math:`k_h` of the coil.
    free_length : float or array [m]
        Its length :math:`s_0` without load.
    seat_offset : float or array [m]
        What the distance :math:`s` between the mounts has beyond that between the
        spring's seats, :math:`c`.
    arm_point : (float, float), optional [m]
        Where it stands on the arm that turns with the bar, along its centreline and
        square to it (up); left out for a spring over the damper.
    chassis_point : (float, float), optional [m]
        Where it meets the chassis, outboard and up from the bar axis; goes with
        ``arm_point``.

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 for a rate or a length that is not above
        zero, or for one point without the other.

    Notes
    -----
    Nothing holds a coil to its seats: where they are further apart than its free
    length it is loose.  Nor does it go solid: a bump stop says where that is.

    References
    ----------
    Principle of virtual work; checked against a general multibody engine.

    Examples
    --------
    >>> helper = HelperSpring(rate=20_000.0, free_length=0.25, seat_offset=0.15)
    >>> [f"{helper.at(length):.0f} N" for length in (0.35, 0.40, 0.45)]
    ['1000 N', '0 N', '0 N']
    """

    rate: Real
    free_length: Real
    seat_offset: Real = 0.0
    arm_point: Point | None = None
    chassis_point: Point | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse what is not a coil, and a spring with only one end."""
        require_positive(rate=self.rate, free_length=self.free_length)
        require_finite(seat_offset=self.seat_offset)
        if (self.arm_point is None) != (self.chassis_point is None):
            given = "chassis_point" if self.arm_point is None else "arm_point"
            raise QuantityError(
                "Q302",
                value=f"{given} alone",
                expected="both points, or none for a spring over the damper",
                remedy="give arm_point and chassis_point",
                key=given,
            )

    def at(self, length: Real) -> Real:
        """Force of the spring.

        Parameters
        ----------
        length : float or array [m]
            Between its mounts.

        Returns
        -------
        float or array [N]
            0 where it is loose.
        """
        return self.rate * np.maximum(self.free_length + self.seat_offset - length, 0.0)

    def hold(self, motion: Motion) -> tuple[Real, Real]:
        """Torque about the bar axis [N·m], and its change with arm angle [N·m/rad]."""
        length, slope, curvature = self._line(motion)
        force = self.at(length)
        rate = chosen(np.greater(force, 0.0), self.rate, 0.0)
        return _held(force, rate, -1.0 * slope, -1.0 * curvature)

    def _line(self, motion: Motion) -> tuple[Real, Real, Real]:
        """Distance between the mounts and its derivatives with the arm angle."""
        if self.arm_point is None or self.chassis_point is None:
            return motion.damper_length, motion.damper_slope, motion.damper_curvature
        return damper_state(self.arm_point, self.chassis_point, motion.angle)


def _held(force: Real, rate: Real, slope: Real, curvature: Real) -> tuple[Real, Real]:
    """Torque, and its change with arm angle, of a force over a compression."""
    return force * slope, rate * slope**2 + force * curvature


def _refuse_unless_rising(values: Sequence[float], *, key: str) -> None:
    require_finite(**{key: np.array(values)})
    if not (len(values) > 1 and values[0] == 0.0 and np.all(np.diff(values) > 0.0)):
        raise QuantityError(
            "Q302",
            value=", ".join(f"{value:g}" for value in values) or "nothing",
            expected="0 and then rising figures, at least two in all",
            remedy="begin the table at contact and remove what repeats or falls",
            key=key,
        )
