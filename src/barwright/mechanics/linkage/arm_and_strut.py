r"""Swing arm and strut, in the plane square to the bar axis.

Origin on the bar axis, ``y`` outboard (from the bar toward the wheel), ``z`` up,
arm at the angle :math:`\varphi` above the horizontal; the double wishbone is in
:mod:`barwright.mechanics.linkage.double_wishbone`.  All closed forms; every derivative is with
respect to :math:`\varphi` and analytic.

Assumed: rigid links; pivots without play or rubber, all parallel to the bar; the
damper in the same plane, so that what is long in that plane is what is measured.
A strut turns about its top mount as about a point.  Not in it: steering, and links
that lie across the plane.  A damper's length leads back to one arm angle, the one
with the foot below the mount.  Angle and dimensions are floats or arrays that
broadcast.  For an inclined bar see :mod:`barwright.mechanics.common.bar_axes`.
"""

from __future__ import annotations

import abc
from typing import TypeAlias

import attrs
import numpy as np

from barwright.computed_once import cached_property
from barwright.errors import GeometryError
from barwright.mechanics.common.one_or_many import Flags, cosine_and_sine, every, hypotenuse
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.wheel_carrier import (
    Carrier,
    Path,
    Point,
    ball_joint,
    on_arm,
    turned,
)

__all__ = ["Linkage", "Motion", "Path", "Strut", "SwingArm"]

Change: TypeAlias = tuple[Real, Real, Real]
"""A value with its first and second derivative with the arm angle."""


@attrs.frozen(eq=False, slots=False)
class Motion:
    """State of a linkage at an arm angle.

    Parameters
    ----------
    angle : float or array [rad]
        Angle of the arm above the horizontal: where this state is.
    load : Path
        The point where the wheel load acts.
    hub : Path
        The hub centre, which heights are measured to.
    damper_length : float or array [m]
        Length of the damper between its mounts.
    damper_slope, damper_curvature : float or array [m/rad], [m/rad²]
        Its first and second derivative.
    tilt : float or array [rad]
        Turn of the wheel carrier in this plane from its reference position, in
        the bump sense.  For a bar along the vehicle it is a loss of camber; for
        a bar across, it does not lean the wheel.
    """

    angle: Real
    load: Path
    hub: Path
    damper_length: Real
    damper_slope: Real
    damper_curvature: Real
    tilt: Real

    @property
    def motion_ratio(self) -> Real:
        r"""Shortening of the damper for a unit of travel where the load acts.

        .. math:: i = -\frac{s'}{z'}

        A damper force :math:`F_d` is :math:`i F_d` at the wheel, and a damping
        coefficient :math:`c` is :math:`i^2 c`.

        Returns
        -------
        float or array

        References
        ----------
        Virtual work; checked against a general multibody engine.

        Examples
        --------
        >>> arm = SwingArm(load_point=(0.4, 0.0), hub_point=(0.4, 0.0),
        ...                damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
        >>> f"{arm.motion(0.0).motion_ratio:.2f}"
        '0.75'
        """
        return -1.0 * self.damper_slope / self.load.slope


class Linkage(abc.ABC):
    """Interface of every linkage."""

    @abc.abstractmethod
    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle.

        Parameters
        ----------
        angle : float or array [rad]
            Angle of the arm above the horizontal.

        Returns
        -------
        Motion

        Raises
        ------
        GeometryError
            G101 if a strut's top mount comes closer to the ball joint than its
            offset, or if the links of a double wishbone do not meet.
        """

    @abc.abstractmethod
    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle at which the damper has a length.

        Parameters
        ----------
        length : float or array [m]
            As :attr:`Motion.damper_length`.

        Returns
        -------
        float or array [rad]

        Raises
        ------
        GeometryError
            G101 if the arm cannot reach that length.
        """


@attrs.frozen
class SwingArm(Linkage):
    """An arm that carries the wheel rigidly: trailing arm or swing axle.

    Parameters
    ----------
    load_point, hub_point : (float, float) [m]
        Points fixed to the arm, along its centreline and square to it (up).
    damper_foot : (float, float) [m]
        Lower damper mount, likewise fixed to the arm.
    damper_mount : (float, float) [m]
        Upper damper mount on the chassis, outboard and up; above the foot.

    References
    ----------
    Plane rotation about a fixed axis; checked against a general multibody engine.

    Examples
    --------
    >>> arm = SwingArm(load_point=(0.4, 0.0), hub_point=(0.4, 0.0),
    ...                damper_foot=(0.3, 0.0), damper_mount=(0.3, 0.4))
    >>> float(arm.motion(0.0).load.slope)
    0.4
    >>> abs(float(arm.angle_at_damper_length(0.4))) < 1e-12
    True
    """

    load_point: Point
    hub_point: Point
    damper_foot: Point
    damper_mount: Point

    def carrier(self, angle: Real) -> Carrier:
        """State of the wheel carrier, which is the arm, at an arm angle [rad]."""
        axis = on_arm((0.0, 0.0), angle)
        return Carrier(joint=axis, tilt=angle, tilt_slope=1.0, tilt_curvature=0.0)

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        damper = damper_state(self.damper_foot, self.damper_mount, angle)
        points = (self.load_point, self.hub_point)
        return motion_of(self.carrier(angle), angle=angle, points=points, damper=damper)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        return damper_angle(self.damper_foot, self.damper_mount, length)


@attrs.frozen(slots=False)
class Strut(Linkage):
    r"""A lower arm and a strut whose axis is fixed in the wheel carrier.

    With ball joint :math:`B`, top mount :math:`M` and :math:`D = |M - B|`, the
    strut's axis stands at the angle of :math:`BM` plus
    :math:`\arcsin(e / D)`, and its length is :math:`\sqrt{D^2 - e^2} + c`.

    Parameters
    ----------
    arm_radius : float [m]
        From the bar axis to the ball joint.
    top_mount : (float, float) [m]
        Top mount, outboard and up from the bar axis.
    offset : float [m]
        Distance :math:`e` of the strut's axis from the ball joint, positive if
        it passes outboard.
    length_below : float [m]
        What the damper's length has beyond the foot of that distance:
        :math:`c`, negative if the damper ends above it.
    reference_angle : float [rad]
        Arm angle at which the points below are given.
    load_point, hub_point : (float, float) [m]
        Points fixed in the wheel carrier, outboard and up from the ball joint
        in the reference position.
    reference_radius : float, optional [m]
        Arm radius of the reference position, if another arm is on; the carrier
        stays what it is.

    References
    ----------
    Derived in this project; checked against least squares on the raw constraints.

    Examples
    --------
    >>> strut = Strut(arm_radius=0.35, top_mount=(0.30, 0.60), offset=0.02,
    ...               length_below=0.0, reference_angle=0.0,
    ...               load_point=(0.10, -0.25), hub_point=(0.10, 0.03))
    >>> motion = strut.motion(0.1)
    >>> f"{motion.damper_length:.4f} m"
    '0.5668 m'
    >>> f"{strut.angle_at_damper_length(motion.damper_length):.6f} rad"
    '0.100000 rad'
    """

    arm_radius: Real
    top_mount: Point
    offset: Real
    length_below: Real
    reference_angle: Real
    load_point: Point
    hub_point: Point
    reference_radius: Real | None = None

    def carrier(self, angle: Real) -> Carrier:
        """State of the wheel carrier at an arm angle [rad]."""
        return self._state(angle)[0]

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        carrier, damper = self._state(angle)
        points = (self.load_point, self.hub_point)
        return motion_of(carrier, angle=angle, points=points, damper=damper)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        above = length - self.length_below
        if not every(above > 0.0):
            wrong, below = where_least(above > 0.0, length, self.length_below)
            raise _out_of_reach(wrong, f"more than {below * 1000:.1f} mm")
        return _lifted(hypotenuse((above, self.offset)), self.top_mount, self.arm_radius)

    def _state(self, angle: Real) -> tuple[Carrier, Change]:
        """Wheel carrier and damper at an arm angle."""
        joint = ball_joint(self.arm_radius, angle=angle)
        length, axis_angle = self._axis(joint)
        cosine, sine = cosine_and_sine(axis_angle)
        # From the top mount to the joint, v = s·along + e·outward. The joint circles: v'' is v'
        # turned by a right angle, as along is outward, so that v'' along is v' outward.
        along = joint.height * cosine - joint.outboard * sine
        outward = joint.height * sine + joint.outboard * cosine
        turn = -outward / length
        slope = along - self.offset * turn
        turn_rate = (along - turn * (along + slope)) / length
        curvature = outward + length * turn**2 - self.offset * turn_rate
        tilt = axis_angle - self._reference_axis
        carrier = Carrier(joint=joint, tilt=tilt, tilt_slope=turn, tilt_curvature=turn_rate)
        return carrier, (length + self.length_below, slope, curvature)

    @cached_property
    def _reference_axis(self) -> Real:
        """Angle of the strut's axis in the reference position."""
        usual = self.arm_radius if self.reference_radius is None else self.reference_radius
        return self._axis(ball_joint(usual, angle=self.reference_angle))[1]

    @cached_property
    def _offset(self) -> tuple[Real, Real]:
        """Size and square of the strut's offset."""
        return np.abs(self.offset), self.offset**2

    def _axis(self, joint: Path) -> tuple[Real, Real]:
        """Length from the foot of the offset to the top mount, and the axis' angle."""
        across = self.top_mount[0] - joint.outboard
        up = self.top_mount[1] - joint.height
        distance = hypotenuse((across, up))
        offset, square = self._offset
        clearance = distance - offset
        if not every(clearance > 0.0):
            wrong, offset = where_least(clearance, distance, offset)
            raise GeometryError(
                "G101",
                value=f"ball joint {wrong * 1000:.1f} mm from the top mount",
                expected=f"more than the strut's offset of {offset * 1000:.1f} mm",
                remedy="check the top mount, the arm's length and the strut's offset",
                key="top_mount",
            )
        length = np.sqrt(distance**2 - square)
        return length, np.arctan2(up, across) + np.arcsin(self.offset / distance)


# -- Shared with the other linkages of this package, and public to nobody else ---------


def motion_of(
    carrier: Carrier, *, angle: Real, points: tuple[Point, Point], damper: Change
) -> Motion:
    """State of a linkage from that of its carrier, its load and hub point, and its damper."""
    load, hub = (carrier.path(point) for point in points)
    return Motion(angle, load, hub, *damper, tilt=carrier.tilt)


def damper_state(foot: Point, mount: Point, angle: Real) -> Change:
    """Length of a damper from a point of the arm to the chassis, and its derivatives."""
    at = turned(foot, angle)
    span = (mount[0] - at[0], mount[1] - at[1])
    length = hypotenuse(span)
    # The foot moves at right angles to its own radius.
    slope = (span[0] * at[1] - span[1] * at[0]) / length
    return length, slope, (dot(at, at) + dot(span, at) - slope**2) / length


def damper_angle(foot: Point, mount: Point, length: Real) -> Real:
    """Arm angle at which such a damper has a length."""
    along, above = foot
    result: Real = _lifted(length, mount, hypotenuse((along, above))) - np.arctan2(above, along)
    return result


def where_least(measure: Flags | Real, *values: Real) -> list[float]:
    """Elements of arrays at the smallest measure, or at the first false flag."""
    measures, *arrays = np.broadcast_arrays(measure, *values)
    place = int(np.argmin(measures))
    return [float(array.flat[place]) for array in arrays]


def _lifted(distance: Real, mount: Point, radius: Real) -> Real:
    """Angle of a radius whose end, below a mount, is at a distance from it."""
    reach = hypotenuse(mount)
    cosine = (radius**2 + reach**2 - np.square(distance)) / (2.0 * radius * reach)
    meets = np.abs(cosine) <= 1.0
    if not every(meets):
        wrong, least, most = where_least(meets, distance, np.abs(reach - radius), reach + radius)
        raise _out_of_reach(wrong, f"{least * 1000:.1f} mm to {most * 1000:.1f} mm")
    result: Real = np.arctan2(mount[1], mount[0]) - np.arccos(cosine)
    return result


def _out_of_reach(distance: float, limits: str) -> GeometryError:
    """Refuse a damper's length."""
    return GeometryError(
        "G101",
        value=f"a damper whose mounts are {distance * 1000:.1f} mm apart",
        expected=limits,
        remedy="check the damper's length, the arm's length and the mounts",
        key="damper",
    )


def dot(one: Point, other: Point) -> Real:
    """Scalar product in the plane."""
    return one[0] * other[0] + one[1] * other[1]
