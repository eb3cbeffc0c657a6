r"""Motion of a wheel carrier as one rigid body in the plane square to the bar axis.

Origin on the bar axis, ``y`` outboard (from the bar toward the wheel), ``z`` up.  A
linkage gives where the carrier's ball joint is and how the carrier has tilted, both
with their derivatives with the arm angle :math:`\varphi`; every point of the carrier
follows by plane rigid-body kinematics, and so does the roll centre.

Assumed: a rigid carrier; a ball joint that circles the bar axis; all pivots parallel
to the bar, so that the carrier moves in one plane.  Steering, rubber that gives way
and top mounts that lean fore and aft are not in it.  What the tilt does to camber,
toe and castor of the wheel is in :mod:`barwright.mechanics.linkage.alignment`.
All values are floats or arrays that broadcast.
"""

from __future__ import annotations

from typing import TypeAlias

import attrs
import numpy as np

from barwright.computed_once import cached_property
from barwright.mechanics.common.one_or_many import cosine_and_sine
from barwright.mechanics.common.types import Real

__all__ = ["Carrier", "Path", "Point", "on_arm", "turned"]

Point: TypeAlias = tuple[Real, Real]
"""A point in the plane square to the bar axis: outboard [m], up [m]; floats or arrays."""


# Of classes with slots the frozen ones take three times as long to make.
@attrs.frozen(eq=False, slots=False)
class Path:
    """Motion of one point of the wheel carrier.

    Parameters
    ----------
    outboard, height : float or array [m]
        Coordinates of the point.
    slope : float or array [m/rad]
        Change of height with arm angle.
    curvature : float or array [m/rad²]
        Change of that slope with arm angle.
    """

    outboard: Real
    height: Real
    slope: Real
    curvature: Real


@attrs.frozen(eq=False, kw_only=True, slots=False)
class Carrier:
    """State of a wheel carrier at an arm angle.

    Parameters
    ----------
    joint : Path
        Its ball joint on the arm, which circles the bar axis; of a swing arm, the
        axis itself.
    tilt : float or array [rad]
        Turn from the reference position, in the bump sense.
    tilt_slope, tilt_curvature : float or array
        First and second derivative of the tilt with the arm angle [1], [1/rad].
    """

    joint: Path
    tilt: Real
    tilt_slope: Real
    tilt_curvature: Real

    @cached_property
    def _turn(self) -> tuple[Real, Real]:
        """Cosine and sine of the tilt."""
        return cosine_and_sine(self.tilt)

    def path(self, point: Point) -> Path:
        r"""Path of a point fixed in the carrier.

        .. math:: z' = z_B' + \vartheta' y, \qquad
                  z'' = z_B'' + \vartheta'' y - \vartheta'^2 z

        with :math:`y, z` from the ball joint :math:`B` to the point as it now lies,
        and the tilt :math:`\vartheta`.

        Parameters
        ----------
        point : (float or array, float or array) [m]
            Outboard and up from the ball joint in the reference position.

        Returns
        -------
        Path

        References
        ----------
        Plane motion of a rigid body; checked against a general multibody engine.

        Examples
        --------
        >>> axle = Carrier(joint=on_arm((0.0, 0.0), 0.1), tilt=0.1, tilt_slope=1.0,
        ...                tilt_curvature=0.0)
        >>> f"{axle.path((0.5, 0.0)).height:.4f} m"
        '0.0499 m'
        """
        return _CarriedPath(self, point)

    def outboard_slope(self, point: Point) -> Real:
        r"""Change of a point's outboard coordinate with the arm angle.

        .. math:: y' = y_B' - \vartheta' z

        Parameters
        ----------
        point : (float or array, float or array) [m]
            As in :meth:`path`.

        Returns
        -------
        float or array [m/rad]

        References
        ----------
        Plane motion of a rigid body; checked against a general multibody engine.

        Examples
        --------
        >>> axle = Carrier(joint=on_arm((0.0, 0.0), 0.0), tilt=0.0, tilt_slope=1.0,
        ...                tilt_curvature=0.0)
        >>> f"{axle.outboard_slope((0.5, -0.3)):.1f} m/rad"
        '0.3 m/rad'
        """
        # The ball joint circles the bar axis.
        return -1.0 * self.joint.height - self.tilt_slope * turned(point, self.tilt)[1]

    def roll_centre_height(self, contact: Point, *, half_track: Real) -> Real:
        r"""Height of the roll centre above the tyre contact.

        The line from the contact to the carrier's instant centre, carried on to the
        middle plane of the vehicle:

        .. math:: h = \frac{t}{2} \frac{y'}{z'}

        which stays finite where the arms are parallel and the instant centre is not.
        For a level bar along the vehicle, with both sides alike and the body upright.

        Parameters
        ----------
        contact : (float or array, float or array) [m]
            Tyre contact, as in :meth:`path`.
        half_track : float or array [m]
            :math:`t / 2`: from the middle plane of the vehicle to the contact.

        Returns
        -------
        float or array [m]

        References
        ----------
        Instant centre of a plane motion; checked against the intersections of the
        links' own lines.

        Examples
        --------
        A swing axle, whose instant centre is the bar axis 0.3 m above the ground:

        >>> axle = Carrier(joint=on_arm((0.0, 0.0), 0.0), tilt=0.0, tilt_slope=1.0,
        ...                tilt_curvature=0.0)
        >>> f"{axle.roll_centre_height((0.5, -0.3), half_track=0.7):.2f} m"
        '0.42 m'
        """
        rises = self.path(contact).slope
        result: Real = np.divide(half_track * self.outboard_slope(contact), rises)
        return result


class _CarriedPath(Path):
    """Path of a point fixed in a carrier, each figure of it computed when it is asked for.

    Few questions ask for all four, or for those of both the hub and the load.
    """

    _carrier: Carrier
    _point: Point

    def __init__(self, carrier: Carrier, point: Point) -> None:
        vars(self).update(_carrier=carrier, _point=point)

    @cached_property
    def _arm(self) -> Point:
        """From the ball joint to the point as it now lies."""
        (along, above), (cosine, sine) = self._point, self._carrier._turn  # noqa: SLF001 - of this module
        return along * cosine - above * sine, along * sine + above * cosine

    @property
    def outboard(self) -> Real:
        return self._carrier.joint.outboard + self._arm[0]

    @property
    def height(self) -> Real:
        return self._carrier.joint.height + self._arm[1]

    @property
    def slope(self) -> Real:
        return self._carrier.joint.slope + self._carrier.tilt_slope * self._arm[0]

    @property
    def curvature(self) -> Real:
        carrier, (outboard, height) = self._carrier, self._arm
        turning = carrier.joint.curvature + carrier.tilt_curvature * outboard
        return turning - carrier.tilt_slope**2 * height


def turned(point: Point, angle: Real) -> Point:
    r"""Coordinates of a point after a turn about the origin.

    .. math:: (y \cos\varphi - z \sin\varphi,\; y \sin\varphi + z \cos\varphi)

    Parameters
    ----------
    point : (float or array, float or array) [m]
        Outboard and up.
    angle : float or array [rad]
        Turn in the bump sense.

    Returns
    -------
    (float or array, float or array) [m]

    References
    ----------
    Rotation of the plane.

    Examples
    --------
    >>> [round(float(x), 3) for x in turned((0.4, 0.0), 0.5)]
    [0.351, 0.192]
    """
    cosine, sine = cosine_and_sine(angle)
    return point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine


def on_arm(point: Point, angle: Real) -> Path:
    r"""Path of a point fixed to an arm that turns about the bar axis.

    .. math:: z' = y, \qquad z'' = -z

    Parameters
    ----------
    point : (float or array, float or array) [m]
        Along the arm's centreline and square to it (up).
    angle : float or array [rad]
        Angle of the arm above the horizontal.

    Returns
    -------
    Path

    References
    ----------
    Plane rotation about a fixed axis; checked against a general multibody engine.

    Examples
    --------
    >>> f"{on_arm((0.4, 0.0), 0.5).slope:.3f} m/rad"
    '0.351 m/rad'
    """
    outboard, height = turned(point, angle)
    return Path(outboard, height, slope=outboard, curvature=-1.0 * height)


def ball_joint(radius: Real, *, angle: Real) -> Path:
    """Path of a point on the centreline of an arm, as :func:`on_arm` has it."""
    cosine, sine = cosine_and_sine(angle)
    outboard, height = radius * cosine, radius * sine
    return Path(outboard, height, slope=outboard, curvature=-1.0 * height)
