"""A cam in the cross-member, on which a short key lever rests with its flat face.

A circular eccentric turns on a fixed pivot and lifts the face, to which it is always
tangent: the geometry of :mod:`barwright.mechanics.anchorage.levers_without_pin`, with a
round whose centre runs on a circle.  Between two dead centres the lever turns with the
cam, over the rest of the turn against it; a dead centre lies where the eccentricity stands
square to the face.  There the torque of the bar asks no effort of the cam, between them
the most.

Rigid parts in the plane square to the bar axis.  The effort is that without friction;
with friction at the face, a cam may hold itself.  The pivot's own friction, which helps,
and wear of face and cam are left out.
"""

from __future__ import annotations

import math

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.interface import first_not
from barwright.mechanics.anchorage.levers_without_pin import FaceContact
from barwright.mechanics.common.types import Real

__all__ = ["EccentricCam"]


@attrs.frozen(kw_only=True)
class EccentricCam(FaceContact):
    r"""A key lever whose flat face rests on an eccentric cam in the cross-member.

    The setting is the cam's angle :math:`\psi`: the direction from its pivot to the
    centre of its circle, in the bump sense.

    .. math:: \sin(\psi - \alpha)
              = \frac{\mp p - a \sin(\alpha_p - \alpha)}{\varepsilon}, \qquad
              \frac{\mathrm{d}\psi}{\mathrm{d}\alpha}
              = \frac{c}{\varepsilon \cos(\psi - \alpha)}, \qquad p = f + R

    Parameters
    ----------
    pivot_distance : float [m]
        From the bar axis to the cam's pivot, :math:`a`.
    pivot_angle : float [rad]
        Angle :math:`\alpha_p` of that pivot, in the bump sense.
    eccentricity : float [m]
        From the pivot to the centre of the cam's circle, :math:`\varepsilon`.
    cam_radius : float [m]
        Radius :math:`R` of that circle.
    face_offset : float [m]
        From the lever's centreline to its face, toward the cam, :math:`f`.
    lever_side : int
        +1 if the lever lies bumpward of the cam; -1 if droopward, where alone the
        cam holds a torque that turns the lever in the bump sense.
    follows : int
        Half of the cam's turn that is used: +1 where the lever turns with the cam,
        -1 where it turns against it.

    Raises
    ------
    GeometryError
        G102 if the cam has no eccentricity, or comes so near to the bar axis that
        the lever cannot rest on it at every angle.

    Notes
    -----
    Whether the lever is long enough, :meth:`contact_distance` tells.

    References
    ----------
    Derived in this project; checked by root finding on the tangency of a line and a
    circle, and against a general multibody engine.

    Examples
    --------
    >>> cam = EccentricCam(pivot_distance=0.06, pivot_angle=0.3, eccentricity=0.008,
    ...                    cam_radius=0.014, face_offset=0.006, lever_side=-1, follows=1)
    >>> f"{cam.setting(cam.lever_angle(0.5)):.6f} rad"
    '0.500000 rad'
    >>> f"{cam.effort(1000.0, lever_angle=cam.lever_angle(0.5)):.1f} N·m"
    '109.7 N·m'
    """

    pivot_distance: float
    pivot_angle: float
    eccentricity: float
    cam_radius: float
    follows: int

    def __attrs_post_init__(self) -> None:
        """Refuse a cam that does nothing, or that reaches the bar axis."""
        largest = self.pivot_distance - abs(self._standoff)
        if not 0.0 < self.eccentricity < largest:
            raise GeometryError(
                "G102",
                value=f"an eccentricity of {self.eccentricity * 1000:.1f} mm",
                expected=f"more than 0 and less than {largest * 1000:.1f} mm",
                remedy="check the cam's place, its circle and the lever's face",
                key="eccentricity",
            )

    @property
    def reach(self) -> tuple[float, float]:
        """Cam angles [rad] between the two dead centres, which are excluded.

        There the eccentricity is square to the face, and the lever turns back.
        """
        droopward, bumpward = (
            self.pivot_angle
            + math.asin(
                (self.lever_side * self._standoff + way * self.eccentricity) / self.pivot_distance
            )
            for way in (-1.0, 1.0)
        )
        quarter = math.pi / 2.0
        if self.follows > 0:
            return droopward - quarter, bumpward + quarter
        return bumpward + quarter, droopward + 3.0 * quarter

    def setting(self, lever_angle: Real) -> Real:
        """Angle of the cam, within its reach.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [rad]

        Raises
        ------
        GeometryError
            G102 if the cam does not bring the lever there.
        """
        sine = self._square(lever_angle)
        if not np.all(np.abs(sine) < 1.0):
            wrong = math.degrees(first_not(np.abs(sine) < 1.0, lever_angle)[0])
            low, high = sorted(math.degrees(float(self.lever_angle(end))) for end in self.reach)
            raise GeometryError(
                "G102",
                value=f"a lever at {wrong:.1f}°",
                expected=f"{low:.1f}° to {high:.1f}°",
                remedy="check the cam's place, its eccentricity and the lever's angle",
                key="adjuster",
            )
        within = np.arcsin(sine)
        result: Real = lever_angle + (within if self.follows > 0 else math.pi - within)
        return result

    def least_friction(self, lever_angle: Real) -> Real:
        r"""Least coefficient of friction at which the cam stays where it is by itself.

        The force at the contact must pass through the cam's pivot:

        .. math:: \mu = \frac{\varepsilon |\cos(\psi - \alpha)|}
                  {|R \pm \varepsilon \sin(\psi - \alpha)|}

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array
            Between face and cam; friction in the pivot, which helps, is left out.
        """
        beyond = self.cam_radius + self.lever_side * self.eccentricity * self._square(lever_angle)
        result: Real = np.abs(self._advance(lever_angle) / beyond)
        return result

    def holds_itself(self, lever_angle: Real, *, friction: Real) -> bool | NDArray[np.bool_]:
        """Whether the cam stays in place without a locking screw.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.
        friction : float or array
            Coefficient of friction between face and cam.

        Returns
        -------
        bool or array
        """
        result: bool | NDArray[np.bool_] = friction >= self.least_friction(lever_angle)
        return result

    @property
    def _datum(self) -> float:
        return self.pivot_angle

    @property
    def _standoff(self) -> float:
        return self.face_offset + self.cam_radius

    def _centre(self, setting: Real) -> tuple[Real, Real]:
        turned = setting - self.pivot_angle
        along: Real = self.pivot_distance + self.eccentricity * np.cos(turned)
        across: Real = self.eccentricity * np.sin(turned)
        return along, across

    def _square(self, lever_angle: Real) -> Real:
        """Share of the eccentricity that stands square to the lever, bumpward."""
        pivot = self.pivot_distance * np.sin(self.pivot_angle - lever_angle)
        result: Real = (-self.lever_side * self._standoff - pivot) / self.eccentricity
        return result

    def _advance(self, lever_angle: Real) -> Real:
        square = self._square(lever_angle)
        result: Real = self.follows * self.eccentricity * np.sqrt(1.0 - np.square(square))
        return result
