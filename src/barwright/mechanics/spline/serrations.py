r"""Serrations: splines with many small teeth whose flanks are straight.

Plain geometry of ideal V-shaped teeth, alike all round: a shaft's flanks are straight
lines, so the teeth of the hub that fits it have the same flanks, seen from the other
side.  Two things come from a standard, DIN 5481, and both from memory: that one angle
is 60° for every size, and that the other is 60° less the angle from tooth to tooth.
Which is which follows from the geometry: the shaft's spaces, and the hub's teeth in
them, have the 60°; the shaft's teeth are narrower.  Its tables of sizes were not to
hand, and none are given: pitch diameter, truncations and all other lengths are inputs,
from the standard or from a calliper.

Left out: tolerances and play, rounded tips and roots, and serrations with involute
flanks, which are splines of 45° (:mod:`barwright.mechanics.spline.involute_metric`).
"""

from __future__ import annotations

import math

import attrs
import numpy as np

from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.involute import angular_pitch

__all__ = ["Serration"]

# DIN 5481, from memory.
_STANDARD_ANGLE = math.radians(60.0)


@attrs.frozen(kw_only=True)
class Serration:
    r"""A serrated shaft whose teeth are as thick as their spaces at the pitch circle.

    With :math:`p = 2\pi/z`, the spaces' angle :math:`\beta` and the teeth's
    :math:`\gamma`, all flanks, drawn out, pass the axis at the same distance

    .. math:: \rho = \frac{d}{2} \sin\left(\frac{\gamma}{2} + \frac{p}{4}\right) .

    Parameters
    ----------
    teeth : float or array
        Teeth :math:`z` of the whole circle, missing ones counted.
    pitch_diameter : float or array [m]
        Diameter :math:`d` of the circle on which teeth and spaces are equally wide.
    space_angle : float or array [rad]
        Angle :math:`\beta` between the flanks of a space; 60° if left out.

    Raises
    ------
    QuantityError
        If the flanks of a space enclose less than the angle from tooth to tooth, so
        that the teeth have none, or 180° or more.

    Examples
    --------
    >>> shaft = Serration(teeth=36, pitch_diameter=0.030)
    >>> f"{math.degrees(shaft.tooth_angle):.1f}°, {shaft.pitch_tooth_thickness * 1000:.3f} mm"
    '50.0°, 1.309 mm'
    """

    teeth: Real
    pitch_diameter: Real
    space_angle: Real = _STANDARD_ANGLE

    def __attrs_post_init__(self) -> None:
        """Refuse an angle that leaves no tooth."""
        some_tooth = np.greater(self.tooth_angle, 0.0)
        refuse(
            "Q302",
            np.degrees(self.space_angle),
            where=np.logical_not(some_tooth & np.less(self.space_angle, math.pi)),
            expected="more degrees than the pitch, and less than 180",
            remedy="give the angle between the two flanks of a space",
            key="space_angle",
        )

    @property
    def tooth_angle(self) -> Real:
        r"""Angle [rad] between the flanks of a shaft's tooth, and of the hub's space.

        .. math:: \gamma = \beta - \frac{2 \pi}{z}
        """
        return self.space_angle - angular_pitch(self.teeth)

    @property
    def pitch_tooth_thickness(self) -> Real:
        """Thickness [m] of a tooth along the pitch circle, equal to the space."""
        return math.pi * self.pitch_diameter / (2.0 * self.teeth)

    @property
    def sharp_major_diameter(self) -> Real:
        r"""Diameter [m] on which the flanks of a shaft's tooth would meet.

        .. math:: d_s = \frac{2 \rho}{\sin (\gamma / 2)}
        """
        result: Real = 2.0 * self._flank_distance / np.sin(self.tooth_angle / 2.0)
        return result

    @property
    def sharp_minor_diameter(self) -> Real:
        r"""Diameter [m] on which the flanks of a shaft's space would meet.

        .. math:: d_r = \frac{2 \rho}{\sin (\beta / 2)}
        """
        result: Real = 2.0 * self._flank_distance / np.sin(self.space_angle / 2.0)
        return result

    def major_diameter(self, truncation: Real) -> Real:
        """Diameter over teeth that are cut off below their sharp edge.

        Parameters
        ----------
        truncation : float or array [m]
            How much of the sharp tooth is missing, along the radius.

        Returns
        -------
        float or array [m]
            Of the shaft's tips, or of the hub's roots.
        """
        return self.sharp_major_diameter - 2.0 * truncation

    def minor_diameter(self, truncation: Real) -> Real:
        """Diameter of roots that are filled above their sharp edge.

        Parameters
        ----------
        truncation : float or array [m]
            How much of the sharp space is filled, along the radius.

        Returns
        -------
        float or array [m]
            Of the shaft's roots, or of the hub's tips.
        """
        return self.sharp_minor_diameter + 2.0 * truncation

    def tooth_thickness(self, diameter: Real) -> Real:
        r"""Thickness of a shaft's tooth along a circle.

        .. math:: t_y = d_y \left(\arcsin \frac{2 \rho}{d_y} - \frac{\gamma}{2}\right)

        Parameters
        ----------
        diameter : float or array [m]
            Diameter :math:`d_y` of the circle.

        Returns
        -------
        float or array [m]
            The arc, not the chord; what it leaves of the circular pitch is the hub's.

        Raises
        ------
        QuantityError
            If the circle does not cut the flanks.
        """
        self._refuse_off_the_flanks(diameter, "diameter")
        turned = np.arcsin(2.0 * self._flank_distance / diameter)
        result: Real = diameter * (turned - self.tooth_angle / 2.0)
        return result

    @property
    def _flank_distance(self) -> Real:
        """Distance [m] from the axis at which the drawn-out flanks pass."""
        to_flank = (self.tooth_angle + angular_pitch(self.teeth) / 2.0) / 2.0
        result: Real = self.pitch_diameter / 2.0 * np.sin(to_flank)
        return result

    def _refuse_off_the_flanks(self, diameter: Real, key: str) -> None:
        # With the rounding of a diameter that was computed.
        least = self.sharp_minor_diameter * (1.0 - 1e-9)
        most = self.sharp_major_diameter * (1.0 + 1e-9)
        on_flank = np.greater_equal(diameter, least) & np.less_equal(diameter, most)
        refuse(
            "Q302",
            diameter,
            where=np.logical_not(on_flank),
            expected="a circle between the sharp roots and the sharp tips of the teeth",
            remedy="give a diameter in the unit of the pitch diameter",
            key=key,
        )
