r"""Adjusters: from the place of a nut to the angle of the anchor's lever.

A lever of radius :math:`r` on the bar axis, a bolt that swivels on a pivot at
the distance :math:`a` and the angle :math:`\alpha_b`, and the lever's pin at
:math:`\ell` along the bolt from that pivot form a triangle.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.types import Real

__all__ = ["SwivellingBolt"]


@attrs.frozen
class SwivellingBolt:
    r"""A lever held by a bolt that swivels with it.

    .. math:: \alpha = \alpha_b \pm \arccos\frac{a^2 + r^2 - \ell^2}{2 a r}

    Parameters
    ----------
    pivot_distance : float [m]
        From the bar axis to the bolt's pivot, :math:`a`.
    pivot_angle : float [rad]
        Angle :math:`\alpha_b` of that pivot, in the bump sense.
    lever_radius : float [m]
        From the bar axis to the lever's pin, :math:`r`.
    side : int
        +1 if the lever lies beyond the pivot in the bump sense, -1 if short of it.

    Notes
    -----
    A bolt on a fixed line follows another law and is not meant here.

    References
    ----------
    Law of cosines; the force by virtual work, checked against a frame in
    equilibrium.

    Examples
    --------
    A triangle of 3, 4 and 5 has its right angle at the bar axis:

    >>> bolt = SwivellingBolt(pivot_distance=0.3, pivot_angle=-1.0, lever_radius=0.4, side=1)
    >>> f"{bolt.lever_angle(0.5):.6f} rad"
    '0.570796 rad'
    >>> f"{bolt.slope(bolt.lever_angle(0.5)):.3f} m/rad"
    '0.240 m/rad'
    """

    pivot_distance: float
    pivot_angle: float
    lever_radius: float
    side: int

    def lever_angle(self, distance: Real) -> Real:
        """Angle of the lever with its pin at a distance along the bolt.

        Parameters
        ----------
        distance : float or array [m]
            From the bolt's pivot to the lever's pin.

        Returns
        -------
        float or array [rad]

        Raises
        ------
        GeometryError
            If the three lengths form no triangle.
        """
        a, r = self.pivot_distance, self.lever_radius
        cosine = (a**2 + r**2 - np.square(distance)) / (2.0 * a * r)
        if not np.all(np.abs(cosine) < 1.0):
            wrong = np.ravel(distance)[~(np.abs(np.ravel(cosine)) < 1.0)]
            raise GeometryError(
                "G102",
                value=f"{wrong[0] * 1000:.1f} mm along the bolt",
                expected=f"{abs(a - r) * 1000:.1f} mm to {(a + r) * 1000:.1f} mm",
                remedy="check the lever's radius, the bolt's pivot and its thread",
                key="adjuster",
            )
        result: Real = self.pivot_angle + self.side * np.arccos(cosine)
        return result

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
        a, r = self.pivot_distance, self.lever_radius
        cosine = np.cos(lever_angle - self.pivot_angle)
        result: Real = np.sqrt(a**2 + r**2 - 2.0 * a * r * cosine)
        return result

    def slope(self, lever_angle: Real) -> Real:
        r"""Change of the pin's distance with the lever's angle.

        .. math:: \frac{\mathrm{d}\ell}{\mathrm{d}\alpha}
                  = \frac{a r \sin(\alpha - \alpha_b)}{\ell}

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m/rad]
            Positive if the bolt is in tension under the bar's torque.
        """
        sine = np.sin(lever_angle - self.pivot_angle)
        return self.pivot_distance * self.lever_radius * sine / self.pin_distance(lever_angle)

    def bolt_force(self, torque: Real, *, lever_angle: Real) -> Real:
        r"""Force along the bolt that holds the bar's torque.

        .. math:: F = T \left/ \frac{\mathrm{d}\ell}{\mathrm{d}\alpha} \right.

        Parameters
        ----------
        torque : float or array [N·m]
            Torque of the bar.
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [N]
            Tension positive.
        """
        return torque / self.slope(lever_angle)
