"""Suspension linkages in the plane square to the bar axis.

Origin on the bar axis, ``y`` outboard (from the bar toward the wheel), ``z`` up,
arm at the angle ``φ`` above the horizontal.  Rigid links, no bushing
compliance.  Every derivative is with respect to ``φ`` and analytic.
"""

from __future__ import annotations

import abc
import math
from typing import Any

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.types import Point, Real

__all__ = ["Linkage", "Motion", "Path", "Strut", "SwingArm"]


@attrs.frozen(eq=False)
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


@attrs.frozen(eq=False)
class Motion:
    """State of a linkage at an arm angle.

    Parameters
    ----------
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

    load: Path
    hub: Path
    damper_length: Real
    damper_slope: Real
    damper_curvature: Real
    tilt: Real


class Linkage(abc.ABC):
    """What every linkage tells of its state."""

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
            G101 if a strut's top mount comes closer to the ball joint than its offset.
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

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        length, slope, curvature = damper_state(self.damper_foot, self.damper_mount, angle)
        return Motion(
            load=on_arm(self.load_point, angle),
            hub=on_arm(self.hub_point, angle),
            damper_length=length,
            damper_slope=slope,
            damper_curvature=curvature,
            tilt=angle,
        )

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        return damper_angle(self.damper_foot, self.damper_mount, length)


@attrs.frozen
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

    arm_radius: float
    top_mount: Point
    offset: float
    length_below: float
    reference_angle: float
    load_point: Point
    hub_point: Point
    reference_radius: float | None = None

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        joint = on_arm((self.arm_radius, 0.0), angle)
        length, axis_angle = self._axis(joint)
        along = (np.cos(axis_angle), np.sin(axis_angle))
        outward = (along[1], -1.0 * along[0])
        # From the top mount to the joint, v' is minus the joint's velocity and
        # v'' minus its acceleration; v = e·outward + s·along.
        velocity = (joint.height, -1.0 * joint.outboard)
        acceleration = (joint.outboard, joint.height)
        turn = -dot(velocity, outward) / length
        slope = dot(velocity, along) - self.offset * turn
        turn_rate = -(dot(acceleration, outward) + turn * (dot(velocity, along) + slope)) / length
        curvature = dot(acceleration, along) + length * turn**2 - self.offset * turn_rate
        usual = self.arm_radius if self.reference_radius is None else self.reference_radius
        tilt = axis_angle - self._axis(on_arm((usual, 0.0), self.reference_angle))[1]
        return Motion(
            load=carried(self.load_point, joint, tilt, turn, turn_rate),
            hub=carried(self.hub_point, joint, tilt, turn, turn_rate),
            damper_length=length + self.length_below,
            damper_slope=slope,
            damper_curvature=curvature,
            tilt=tilt,
        )

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        above = length - self.length_below
        if not np.all(above > 0.0):
            limit = f"more than {self.length_below * 1000:.1f} mm"
            raise _out_of_reach(length, np.logical_not(above > 0.0), limit)
        return _lifted(np.hypot(above, self.offset), self.top_mount, self.arm_radius)

    def _axis(self, joint: Path) -> tuple[Real, Real]:
        """Length from the foot of the offset to the top mount, and the axis' angle."""
        across = self.top_mount[0] - joint.outboard
        up = self.top_mount[1] - joint.height
        distance = np.hypot(across, up)
        if not np.all(distance > abs(self.offset)):
            raise GeometryError(
                "G101",
                value=f"ball joint {np.min(distance) * 1000:.1f} mm from the top mount",
                expected=f"more than the strut's offset of {abs(self.offset) * 1000:.1f} mm",
                remedy="check the top mount, the arm's length and the strut's offset",
                key="top_mount",
            )
        length = np.sqrt(distance**2 - self.offset**2)
        return length, np.arctan2(up, across) + np.arcsin(self.offset / distance)


# -- Shared with the other linkages of this package, and public to nobody else ---------


def damper_state(foot: Point, mount: Point, angle: Real) -> tuple[Real, Real, Real]:
    """Length of a damper from a point of the arm to the chassis, and its derivatives."""
    at = _turned(foot, angle)
    span = (mount[0] - at[0], mount[1] - at[1])
    length = np.hypot(*span)
    # The foot moves at right angles to its own radius.
    slope = (span[0] * at[1] - span[1] * at[0]) / length
    return length, slope, (dot(at, at) + dot(span, at) - slope**2) / length


def damper_angle(foot: Point, mount: Point, length: Real) -> Real:
    """Arm angle at which such a damper has a length."""
    along, above = foot
    lifted = _lifted(length, mount, float(np.hypot(along, above)))
    return lifted - math.atan2(above, along)


def on_arm(point: Point, angle: Real) -> Path:
    """Path of a point fixed to the arm."""
    outboard, height = _turned(point, angle)
    return Path(outboard, height, slope=outboard, curvature=-1.0 * height)


def carried(point: Point, joint: Path, tilt: Real, turn: Real, turn_rate: Real) -> Path:
    """Path of a point fixed in a wheel carrier that tilts about the ball joint."""
    outboard, height = _turned(point, tilt)
    return Path(
        joint.outboard + outboard,
        joint.height + height,
        slope=joint.slope + turn * outboard,
        curvature=joint.curvature + turn_rate * outboard - turn**2 * height,
    )


def _lifted(distance: Real, mount: Point, radius: float) -> Real:
    """Angle of a radius whose end, below a mount, is at a distance from it."""
    reach = float(np.hypot(*mount))
    cosine = (radius**2 + reach**2 - np.square(distance)) / (2.0 * radius * reach)
    if not np.all(np.abs(cosine) <= 1.0):
        limits = f"{abs(reach - radius) * 1000:.1f} mm to {(reach + radius) * 1000:.1f} mm"
        raise _out_of_reach(distance, np.logical_not(np.abs(cosine) <= 1.0), limits)
    result: Real = np.arctan2(mount[1], mount[0]) - np.arccos(cosine)
    return result


def _out_of_reach(distance: Real, is_wrong: Any, limits: str) -> GeometryError:  # noqa: ANN401
    """Refuse a damper's length; where there are several, the first that is wrong."""
    wrong = np.ravel(distance)[np.ravel(is_wrong)]
    return GeometryError(
        "G101",
        value=f"a damper whose mounts are {wrong[0] * 1000:.1f} mm apart",
        expected=limits,
        remedy="check the damper's length, the arm's length and the mounts",
        key="damper",
    )


def _turned(point: Point, angle: Real) -> tuple[Real, Real]:
    """Coordinates of a point after a turn about the origin."""
    cosine, sine = np.cos(angle), np.sin(angle)
    return point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine


def dot(one: tuple[Real, Real], other: tuple[Real, Real]) -> Real:
    """Scalar product in the plane."""
    return one[0] * other[0] + one[1] * other[1]
