r"""Levers without a pin: with a flat face on a round, or fixed.

A short key lever on a cross-member has no nut.  Its flat face, parallel to the lever's
centreline, rests on a round: the end of a bolt that is screwed through the cross-member.  With the
round's centre at :math:`C`, and its distance :math:`p` from the lever's centreline made up
of the face's offset and the round's radius, the lever stands where

.. math:: \alpha = \arg C \pm \arcsin\frac{p}{|C|}.

The contact is square to the face, at :math:`c = \sqrt{|C|^2 - p^2}` along the lever.  It
can only push: a torque of the other sense lets the lever go.

Rigid and smooth parts in the plane square to the bar axis, a face that is flat and
long enough, a round without flats; wear and the pressure at the contact are left out.
"""

from __future__ import annotations

import abc
import math
from typing import ClassVar

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.interface import Anchorage, first_not
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real

__all__ = ["FaceContact", "FixedAnchor", "KeyLeverBolt"]


@attrs.frozen(kw_only=True)
class FaceContact(Anchorage):
    """A lever whose flat face rests on a rounded part that the setting moves.

    Parameters
    ----------
    face_offset : float [m]
        From the lever's centreline, which passes through the bar axis, to its face,
        toward the round.
    lever_side : int
        +1 if the lever lies bumpward of the round; -1 if droopward, where alone the
        round holds a torque that turns the lever in the bump sense.
    """

    face_offset: float
    lever_side: int

    def lever_angle(self, setting: Real) -> Real:
        """Angle of the lever at a setting [rad]."""
        along, across = self._centre(setting)
        leaning = np.arcsin(self._standoff / np.hypot(along, across))
        result: Real = self._datum + np.arctan2(across, along) + self.lever_side * leaning
        return result

    def slope(self, lever_angle: Real) -> Real:
        """Change of the setting with the lever's angle [m/rad]."""
        return self.contact_distance(lever_angle) / self._advance(lever_angle)

    def contact_distance(self, lever_angle: Real) -> Real:
        """Distance from the bar axis to the contact, along the lever.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m]

        Raises
        ------
        GeometryError
            G102 if no setting gives that angle.
        """
        along, across = self._centre(self.setting(lever_angle))
        turned = lever_angle - self._datum
        result: Real = along * np.cos(turned) + across * np.sin(turned)
        return result

    # In axes that are turned with the datum, so that no angle jumps by a whole turn.

    @property
    @abc.abstractmethod
    def _datum(self) -> float:
        """Direction from the bar axis that the round's centre is described from [rad]."""

    @property
    @abc.abstractmethod
    def _standoff(self) -> float:
        """From the lever's centreline to the round's centre [m]."""

    @abc.abstractmethod
    def _centre(self, setting: Real) -> tuple[Real, Real]:
        """Centre of the round along the datum and, bumpward, square to it [m]."""

    @abc.abstractmethod
    def _advance(self, lever_angle: Real) -> Real:
        """Motion of that centre square to the lever, bumpward, with the setting."""


@attrs.frozen(kw_only=True)
class KeyLeverBolt(FaceContact):
    r"""A key lever whose flat face rests on the rounded end of a bolt.

    The bolt is screwed through the cross-member, or through a nut in it, so that its
    end runs on a fixed line at the distance :math:`e` from the bar axis; :math:`h` is
    the distance of the end's centre from the foot of that perpendicular, in the bump
    sense, and :math:`p = f + \varrho`.

    .. math:: \alpha = \alpha_f + \arctan\frac{h}{e}
              \pm \arcsin\frac{p}{\sqrt{e^2 + h^2}}, \qquad
              \frac{\mathrm{d}\ell}{\mathrm{d}\alpha}
              = \pm \frac{\sqrt{e^2 + h^2 - p^2}}{\cos(\alpha - \alpha_f)}

    Parameters
    ----------
    line_distance : float [m]
        From the bar axis to the bolt's line, :math:`e`.
    foot_angle : float [rad]
        Angle :math:`\alpha_f` of the perpendicular to that line, in the bump sense.
    foot_position : float [m]
        Of its foot along the bolt; positions count from the cross-member.
    end_radius : float [m]
        Radius :math:`\varrho` of the bolt's rounded end.
    face_offset : float [m]
        From the lever's centreline to its face, toward the bolt, :math:`f`.
    face_start, face_end : float [m]
        Where the flat face begins and ends, from the bar axis along the lever.
    lever_side : int
        +1 if the bolt's end advances in the bump sense; -1 if in the droop sense, in
        which alone it holds a torque that turns the lever in the bump sense.
    stretch : int
        Where the face begins beyond the place at which the bolt's foot would touch
        it, what is in reach falls in two: +1 for the stretch that lies bumpward of
        the foot, -1 for the other.  Without meaning elsewhere.

    Raises
    ------
    GeometryError
        G102 if the bolt passes so near to the bar axis that the lever could come to
        lie along it, or if the face ends where it begins.

    Notes
    -----
    With :math:`p = 0` it is a :class:`~barwright.mechanics.anchorage.bolts_with_pin.FixedLineBolt`.
    The end is taken as a sphere as far as the contact comes.

    References
    ----------
    Derived in this project; checked by root finding on the tangency of a line and a
    circle, and against a frame in equilibrium.

    Examples
    --------
    >>> bolt = KeyLeverBolt(line_distance=0.05, foot_angle=0.0, foot_position=0.04,
    ...                     end_radius=0.006, face_offset=0.008, face_start=0.03,
    ...                     face_end=0.07, lever_side=-1)
    >>> f"{bolt.lever_angle(0.046):.6f} rad"
    '-0.283794 rad'
    >>> f"{bolt.effort(1000.0, lever_angle=-0.283794) / 1000:.3f} kN"
    '-20.000 kN'
    """

    line_distance: float
    foot_angle: float
    foot_position: float
    end_radius: float
    face_start: float
    face_end: float
    stretch: int = 1

    def __attrs_post_init__(self) -> None:
        """Refuse a bolt and a face that cannot work together."""
        passes = np.less(np.abs(self._standoff), self.line_distance)
        if not np.all(passes):
            distance, least = first_not(passes, self.line_distance, np.abs(self._standoff))
            raise GeometryError(
                "G102",
                value=f"a bolt that passes {distance * 1000:.1f} mm from the bar axis",
                expected=f"more than {least * 1000:.1f} mm, "
                "from the lever's centreline to the centre of the bolt's end",
                remedy="check the bolt's line, the lever's face and the bolt's end",
                key="line_distance",
            )
        rises = np.less_equal(0.0, self.face_start) & np.less(self.face_start, self.face_end)
        if not np.all(rises):
            start, end = first_not(rises, self.face_start, self.face_end)
            raise GeometryError(
                "G102",
                value=f"a face from {start * 1000:.1f} mm to {end * 1000:.1f} mm",
                expected="an end beyond its start, both from the bar axis outward",
                remedy="check where the lever's face begins and ends",
                key="face_end",
            )

    @property
    def reach(self) -> tuple[float, float]:
        """Distances of the bolt's end with the contact on the face [m].

        Of no width if the face ends short of the bolt.
        """
        nearest = self.line_distance**2 - self._standoff**2
        inner, outer = (
            np.sqrt(np.maximum(0.0, end**2 - nearest)) for end in (self.face_start, self.face_end)
        )
        # With the foot's own contact on the face there is only one stretch.
        is_one_of_two = np.greater(inner, 0.0)
        one = self._distance(np.where(is_one_of_two, self.stretch * inner, -outer))
        other = self._distance(np.where(is_one_of_two, self.stretch * outer, outer))
        return plain(np.minimum(one, other)), plain(np.maximum(one, other))

    def setting(self, lever_angle: Real) -> Real:
        """Distance of the bolt's end from the cross-member.

        Parameters
        ----------
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [m]

        Raises
        ------
        GeometryError
            G102 if the lever would lie along the bolt or point away from it.
        """
        turned = lever_angle - self.foot_angle
        cosine = np.cos(turned)
        if not np.all(cosine > 0.0):
            wrong = math.degrees(first_not(cosine > 0.0, turned)[0])
            raise GeometryError(
                "G102",
                value=f"a lever {wrong:.1f}° from the perpendicular to its bolt",
                expected="less than 90°",
                remedy="check the lever's angle and that of the bolt's line",
                key="adjuster",
            )
        beyond = (self.line_distance * np.sin(turned) - self.lever_side * self._standoff) / cosine
        return self._distance(beyond)

    def side_thrust(self, torque: Real, *, lever_angle: Real) -> Real:
        r"""Force of the lever on the bolt, square to the bolt.

        .. math:: S = - \frac{T}{c} \sin(\alpha - \alpha_f)

        Parameters
        ----------
        torque : float or array [N·m]
            Torque :math:`T` of the bar.
        lever_angle : float or array [rad]
            Angle of the lever.

        Returns
        -------
        float or array [N]
            Positive away from the bar axis.
        """
        sine = np.sin(lever_angle - self.foot_angle)
        result: Real = -1.0 * torque * sine / self.contact_distance(lever_angle)
        return result

    @property
    def _datum(self) -> float:
        return self.foot_angle

    @property
    def _standoff(self) -> float:
        return self.face_offset + self.end_radius

    def _centre(self, setting: Real) -> tuple[Real, Real]:
        return self.line_distance, self.lever_side * (setting - self._distance(0.0))

    def _distance(self, beyond: Real) -> Real:
        """Place of the tip with the end's centre so far bumpward of the foot."""
        return self.foot_position + self.end_radius + self.lever_side * beyond

    def _advance(self, lever_angle: Real) -> Real:
        result: Real = self.lever_side * np.cos(lever_angle - self.foot_angle)
        return result


@attrs.frozen(kw_only=True)
class FixedAnchor(Anchorage):
    """An anchor that the chassis holds at one angle, with nothing to set.

    Its reach has no width.  There is only the setting 0, with which the lever's angle
    does not change, so that the slope is infinite and the effort none: the chassis
    takes the torque, of whichever sense, and no bolt feels it.

    Parameters
    ----------
    anchor_angle : float [rad]
        The lever's or the socket's angle, in the bump sense.

    References
    ----------
    A clamped end; checked against a frame in equilibrium.

    Examples
    --------
    >>> anchor = FixedAnchor(anchor_angle=0.25)
    >>> anchor.lever_angle(0.0), anchor.reach
    (0.25, (0.0, 0.0))
    >>> anchor.effort(1000.0, lever_angle=0.25)
    0.0
    """

    holds_both_ways: ClassVar[bool] = True

    anchor_angle: float

    @property
    def reach(self) -> tuple[float, float]:
        """The one setting, twice."""
        return 0.0, 0.0

    def lever_angle(self, setting: Real) -> Real:
        """Angle of the anchor [rad], whatever the setting."""
        return self.anchor_angle + 0.0 * setting

    def setting(self, lever_angle: Real) -> Real:
        """Zero at the anchor's own angle, since there is nothing to set.

        Parameters
        ----------
        lever_angle : float or array [rad]
            That angle.

        Returns
        -------
        float or array

        Raises
        ------
        GeometryError
            G102 if another angle is asked for.
        """
        same = np.abs(lever_angle - self.anchor_angle) <= _ROUNDING
        if not np.all(same):
            wrong, fixed = map(math.degrees, first_not(same, lever_angle, self.anchor_angle))
            raise GeometryError(
                "G102",
                value=f"a lever at {wrong:.2f}°",
                expected=f"{fixed:.2f}°, where the anchor is fixed",
                remedy="choose another clocking: there is nothing to adjust",
                key="adjuster",
            )
        return 0.0 * lever_angle

    def slope(self, lever_angle: Real) -> Real:
        """Change of the setting with the lever's angle: infinite, since nothing moves it."""
        return math.inf + self.setting(lever_angle)


# Rounding of an angle that is made of several others [rad].
_ROUNDING = 1e-9
