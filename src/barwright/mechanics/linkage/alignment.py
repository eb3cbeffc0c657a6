r"""Camber, toe and castor of a wheel that the linkage tilts.

A linkage whose pivots are all parallel to its bar turns the wheel carrier about the
bar's direction, by the tilt that :mod:`barwright.mechanics.linkage.arm_and_strut` gives.
The wheel's spin axis and its steering axis are unit vectors in the vehicle axes of ISO 8855; both
are rotated about that direction and the angles are read from them again.  Nothing is
taken as small, and the order of the angles plays no part.

Assumed: a wheel that is not steered, on a rigid carrier, against a body that stays
upright.  So angles are those against the body: what roll or pitch of the body adds is
not in them, nor is what rubber gives away.  A spin axis within a hair of the vertical
has no toe.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.common.bar_axes import BarPlane
from barwright.mechanics.common.types import Real
from barwright.mechanics.common.vectors import Sign, Vector, rotated, vector

__all__ = ["Alignment"]


@attrs.frozen(eq=False, kw_only=True)
class Alignment:
    """Angles of an unsteered wheel and of its steering axis, relative to the body.

    Parameters
    ----------
    camber : float or array [rad]
        Lean of the wheel, positive if its top leans outward.
    toe : float or array [rad]
        Turn of the wheel seen from above, positive if its front points inward.
    castor : float or array [rad]
        Lean of the steering axis seen from the side, positive if its top leans rearward.
    steering_inclination : float or array [rad]
        Lean of the steering axis seen from the front, positive if its top leans inward.
    """

    camber: Real = 0.0
    toe: Real = 0.0
    castor: Real = 0.0
    steering_inclination: Real = 0.0

    def tilted(self, tilt: Real, *, plane: BarPlane, wheel_side: Sign) -> Alignment:
        r"""Alignment after a turn of the wheel carrier about the bar's direction.

        Spin axis and steering axis :math:`v` become, about the bump axis :math:`n`,

        .. math:: v' = n (n \cdot v) + (v - n (n \cdot v)) \cos\vartheta
                  + (n \times v) \sin\vartheta

        Parameters
        ----------
        tilt : float or array [rad]
            Turn :math:`\vartheta` of the carrier from where these angles hold, in the
            bump sense: :attr:`barwright.mechanics.linkage.arm_and_strut.Motion.tilt`.
        plane : BarPlane
            Plane of the linkage.
        wheel_side : int
            +1 for a left wheel, -1 for a right one.

        Returns
        -------
        Alignment

        References
        ----------
        Rotation of a vector about an axis; checked against an independent library of
        rotations and a general multibody engine.

        Examples
        --------
        A trailing arm whose axis is swept by 15°, outer end forward, gains negative
        camber and toe-in when the wheel rises:

        >>> from barwright.mechanics.common.bar_axes import bar_plane
        >>> sine, cosine = np.sin(np.radians(15.0)), np.cos(np.radians(15.0))
        >>> swept = bar_plane(bar_axis=(sine, cosine, 0), arm_direction=(-cosine, sine, 0))
        >>> there = Alignment().tilted(np.radians(10.0), plane=swept, wheel_side=1)
        >>> [f"{np.degrees(angle):.2f}" for angle in (there.camber, there.toe)]
        ['-2.58', '0.22']
        """
        spin = rotated(self._spin_axis(wheel_side), about=plane.bump_axis, by=tilt)
        steering = rotated(self._steering_axis(wheel_side), about=plane.bump_axis, by=tilt)
        return Alignment(
            camber=-np.arctan2(spin[..., 2], np.hypot(spin[..., 0], spin[..., 1])),
            toe=np.arctan2(spin[..., 0], wheel_side * spin[..., 1]),
            castor=np.arctan2(-steering[..., 0], steering[..., 2]),
            steering_inclination=np.arctan2(-wheel_side * steering[..., 1], steering[..., 2]),
        )

    def _spin_axis(self, wheel_side: Sign) -> Vector:
        """Point along the wheel's axle, outward, by one unit."""
        level = np.cos(self.camber)
        outward = wheel_side * level * np.cos(self.toe)
        return vector(level * np.sin(self.toe), outward, -np.sin(self.camber))

    def _steering_axis(self, wheel_side: Sign) -> Vector:
        """Point along the steering axis, upward, by what is one unit high."""
        return vector(-np.tan(self.castor), -wheel_side * np.tan(self.steering_inclination), 1.0)
