"""Bolts with a lever's pin on them: swivelling, or on a fixed line.

A bolt either swivels on a pivot of the chassis, so that lever, bolt and pivot form a
triangle, or it stays on a fixed line, along which the lever's pin slides; the two
follow different laws of angle and of force.  What all anchorages answer is in
:mod:`barwright.mechanics.anchorage.interface`; levers without a pin, which rest on a
bolt's end or are fixed, are in
:mod:`barwright.mechanics.anchorage.levers_without_pin`.

Rigid parts in the plane square to the bar axis, without friction; play in the pin,
bending of the bolt and the lever's own weight are left out.
"""

from __future__ import annotations

import abc

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.interface import Anchorage, first_not
from barwright.mechanics.common.one_or_many import every
from barwright.mechanics.common.types import Real

__all__ = ["Bolt", "FixedLineBolt", "SwivellingBolt"]


@attrs.frozen(kw_only=True)
class Bolt(Anchorage):
    """Interface of every bolt with a lever's pin on it.

    Parameters
    ----------
    lever_radius : float [m]
        From the bar axis to the lever's pin; on a fixed line, the most it can be.
    lever_side : int
        +1 if distances along the bolt grow in the bump sense, so that the bar's
        torque pulls the bolt; -1 if they fall, and it pushes.
    """

    lever_radius: float
    lever_side: int

    @abc.abstractmethod
    def lever_angle(self, distance: Real) -> Real:
        """Angle of the lever with its pin at a distance along the bolt.

        Parameters
        ----------
        distance : float or array [m]
            Of the lever's pin along the bolt.

        Returns
        -------
        float or array [rad]

        Raises
        ------
        GeometryError
            G102 if a swivelling bolt and its lever form no triangle.
        """

    @abc.abstractmethod
    def pin_distance(self, lever_angle: Real) -> Real:
        """Distance of the lever's pin along the bolt.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m]
        """

    def setting(self, lever_angle: Real) -> Real:
        """Distance of the lever's pin along the bolt [m], which is what a nut sets."""
        return self.pin_distance(lever_angle)


@attrs.frozen(kw_only=True)
class SwivellingBolt(Bolt):
    r"""A lever held by a bolt that swivels with it.

    .. math:: \alpha = \alpha_b \pm \arccos\frac{a^2 + r^2 - \ell^2}{2 a r}, \qquad
              \frac{\mathrm{d}\ell}{\mathrm{d}\alpha}
              = \frac{a r \sin(\alpha - \alpha_b)}{\ell}

    Parameters
    ----------
    pivot_distance : float [m]
        From the bar axis to the bolt's pivot, :math:`a`.
    pivot_angle : float [rad]
        Angle :math:`\alpha_b` of that pivot, in the bump sense.
    lever_radius : float [m]
        From the bar axis to the lever's pin, :math:`r`.
    lever_side : int
        +1 if the lever lies beyond the pivot in the bump sense, -1 if short of it.

    Notes
    -----
    A bolt on a fixed line follows another law: :class:`FixedLineBolt`.

    References
    ----------
    Law of cosines; the force by virtual work, checked against a frame in
    equilibrium.

    Examples
    --------
    A triangle of 3, 4 and 5 has its right angle at the bar axis:

    >>> bolt = SwivellingBolt(pivot_distance=0.3, pivot_angle=-1.0, lever_radius=0.4, lever_side=1)
    >>> f"{bolt.lever_angle(0.5):.6f} rad"
    '0.570796 rad'
    >>> f"{bolt.slope(bolt.lever_angle(0.5)):.3f} m/rad"
    '0.240 m/rad'
    """

    pivot_distance: float
    pivot_angle: float

    @property
    def reach(self) -> tuple[float, float]:
        """Distances of the pin along the bolt that the lever allows [m], ends excluded."""
        a, r = self.pivot_distance, self.lever_radius
        return abs(a - r), a + r

    def lever_angle(self, distance: Real) -> Real:
        """Angle of the lever with its pin at a distance along the bolt [rad]."""
        a, r = self.pivot_distance, self.lever_radius
        cosine = (a**2 + r**2 - np.square(distance)) / (2.0 * a * r)
        if not every(np.abs(cosine) < 1.0):
            wrong, a, r = first_not(np.abs(cosine) < 1.0, distance, a, r)
            raise GeometryError(
                "G102",
                value=f"{wrong * 1000:.1f} mm along the bolt",
                expected=f"{abs(a - r) * 1000:.1f} mm to {(a + r) * 1000:.1f} mm",
                remedy="check the lever's radius, the bolt's pivot and its thread",
                key="adjuster",
            )
        result: Real = self.pivot_angle + self.lever_side * np.arccos(cosine)
        return result

    def pin_distance(self, lever_angle: Real) -> Real:
        """Distance of the lever's pin along the bolt [m]."""
        a, r = self.pivot_distance, self.lever_radius
        cosine = np.cos(lever_angle - self.pivot_angle)
        result: Real = np.sqrt(a**2 + r**2 - 2.0 * a * r * cosine)
        return result

    def slope(self, lever_angle: Real) -> Real:
        """Change of the pin's distance with the lever's angle [m/rad]."""
        sine = np.sin(lever_angle - self.pivot_angle)
        return self.pivot_distance * self.lever_radius * sine / self.pin_distance(lever_angle)


@attrs.frozen(kw_only=True)
class FixedLineBolt(Bolt):
    r"""A straight lever whose pin slides along a bolt that stays on a fixed line.

    The line passes the bar axis at the distance :math:`e`; :math:`h` is the pin's
    distance from the foot of that perpendicular, in the bump sense.

    .. math:: \alpha = \alpha_f + \arctan\frac{h}{e}, \qquad
              \frac{\mathrm{d}\ell}{\mathrm{d}\alpha} = \pm \frac{e^2 + h^2}{e}

    Parameters
    ----------
    line_distance : float [m]
        From the bar axis to the bolt's line, :math:`e`.
    foot_angle : float [rad]
        Angle :math:`\alpha_f` of the perpendicular to that line, in the bump sense.
    foot_position : float [m]
        Of its foot along the bolt.
    lever_radius : float [m]
        Length of the lever, which the pin cannot leave.
    lever_side : int
        +1 if distances along the bolt grow in the bump sense, -1 if they fall.

    References
    ----------
    Right-angled triangle; the axial force :math:`T e / (e^2 + h^2)` by virtual
    work, checked by moment equilibrium.

    Examples
    --------
    >>> bolt = FixedLineBolt(line_distance=0.1, foot_angle=0.0, foot_position=0.2,
    ...                      lever_radius=0.15, lever_side=1)
    >>> f"{bolt.lever_angle(0.3):.6f} rad"
    '0.785398 rad'
    >>> f"{bolt.effort(1000.0, lever_angle=bolt.lever_angle(0.3)):.0f} N"
    '5000 N'
    """

    line_distance: float
    foot_angle: float
    foot_position: float

    @property
    def reach(self) -> tuple[float, float]:
        """Distances of the pin along the bolt that the lever allows [m]."""
        # A lever shorter than the distance of the line does not reach it at all.
        beyond = np.square(self.lever_radius) - np.square(self.line_distance)
        half = np.sqrt(np.maximum(0.0, beyond))
        return self.foot_position - half, self.foot_position + half

    def lever_angle(self, distance: Real) -> Real:
        """Angle of the lever with its pin at a distance along the bolt [rad]."""
        beyond = self.lever_side * (distance - self.foot_position)
        result: Real = self.foot_angle + np.arctan2(beyond, self.line_distance)
        return result

    def pin_distance(self, lever_angle: Real) -> Real:
        """Distance of the lever's pin along the bolt [m]."""
        beyond = self.line_distance * np.tan(lever_angle - self.foot_angle)
        result: Real = self.foot_position + self.lever_side * beyond
        return result

    def slope(self, lever_angle: Real) -> Real:
        """Change of the pin's distance with the lever's angle [m/rad]."""
        cosine = np.cos(lever_angle - self.foot_angle)
        result: Real = self.lever_side * self.line_distance / np.square(cosine)
        return result
