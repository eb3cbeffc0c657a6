r"""Double wishbones in the plane square to the bar axis, the bar in one of the arms.

Two arms of any lengths, pivots and ball joints at any heights, and an upright between
the ball joints make a four-bar linkage, closed in form by the intersection of two
circles; of the two intersections the data name the one that is built.  The bar is in the
arm that is called the lower one here.  If it is in the upper arm, the other pivot lies
below the bar, and *lower* and *upper* change places.  The damper stands on the arm on the
bar.  Derivatives are with respect to the angle :math:`\varphi` of that arm, and analytic.

Assumed, as for :mod:`barwright.mechanics.linkage.arm_and_strut`: rigid links without play or
rubber, both arms' axes parallel to the bar, the damper in the same plane.  An upper arm and an
upright that come into one line are refused: there the linkage locks.  Not in it:
steering, arms whose axes converge, and a damper on the other arm.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.common.one_or_many import cosine_and_sine, every, hypotenuse
from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import (
    Linkage,
    Motion,
    damper_angle,
    damper_state,
    dot,
    motion_of,
    where_least,
)
from barwright.mechanics.linkage.wheel_carrier import Carrier, Point, ball_joint

__all__ = ["DoubleWishbone"]


@attrs.frozen(kw_only=True)
class DoubleWishbone(Linkage):
    r"""A wheel carrier between two arms, of which the lower one turns with the bar.

    Lower ball joint :math:`B`, upper ball joint :math:`C` and the upper arm's
    pivot :math:`U` make a four-bar linkage: :math:`|C - B| = h` and
    :math:`|C - U| = r`, closed in form by the intersection of two circles.

    Parameters
    ----------
    arm_radius : float [m]
        From the bar axis to the lower ball joint.
    upper_pivot : (float, float) [m]
        Pivot of the upper arm, outboard and up from the bar axis.
    upper_radius : float [m]
        From that pivot to the upper ball joint, :math:`r`.
    upright : float [m]
        Between the ball joints, :math:`h`.
    branch : int
        Which of the two intersections is built.  +1 if the upright lies at a smaller angle than
        the line from the ball joint to the upper pivot: the upper ball joint is outboard of the
        line.  Below the bar, where the line points down, the smaller angle is inboard.
    damper_foot : (float, float) [m]
        Lower damper mount on the lower arm, along its centreline and above it.
    damper_mount : (float, float) [m]
        Upper damper mount on the chassis, outboard and up; above the foot.
    reference_angle : float [rad]
        Angle of the lower arm at which the points below are given.
    load_point, hub_point : (float, float) [m]
        Points fixed in the wheel carrier, outboard and up from the lower ball
        joint in the reference position.
    reference_radius : float, optional [m]
        Lower arm's radius of the reference position, if another arm is on; the
        carrier stays what it is.

    References
    ----------
    Derived in this project; checked against least squares on the raw constraints.

    Examples
    --------
    Equal, parallel arms and an upright as tall as their pivots are apart do not
    tilt the wheel:

    >>> even = DoubleWishbone(arm_radius=0.35, upper_pivot=(0.0, 0.25), upper_radius=0.35,
    ...                       upright=0.25, branch=1, damper_foot=(0.25, 0.0),
    ...                       damper_mount=(0.2, 0.4), reference_angle=0.0,
    ...                       load_point=(0.1, -0.2), hub_point=(0.1, 0.1))
    >>> f"{abs(even.motion(0.2).tilt):.9f} rad"
    '0.000000000 rad'
    """

    arm_radius: Real
    upper_pivot: Point
    upper_radius: Real
    upright: Real
    branch: int
    damper_foot: Point
    damper_mount: Point
    reference_angle: Real
    load_point: Point
    hub_point: Point
    reference_radius: Real | None = None

    def carrier(self, angle: Real) -> Carrier:
        """State of the wheel carrier at an angle of the lower arm [rad]."""
        joint = ball_joint(self.arm_radius, angle=angle)
        lean = self._lean(joint.outboard, joint.height)
        turn, turn_rate = self._turning(joint.outboard, joint.height, lean)
        radius = self.arm_radius if self.reference_radius is None else self.reference_radius
        usual = ball_joint(radius, angle=self.reference_angle)
        tilt = lean - self._lean(usual.outboard, usual.height)
        return Carrier(joint=joint, tilt=tilt, tilt_slope=turn, tilt_curvature=turn_rate)

    def upright_angle(self, angle: Real) -> Real:
        """Angle of the upright [rad], from the lower to the upper ball joint, above outboard."""
        joint = ball_joint(self.arm_radius, angle=angle)
        return self._lean(joint.outboard, joint.height)

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an angle of the lower arm [rad]."""
        damper = damper_state(self.damper_foot, self.damper_mount, angle)
        points = (self.load_point, self.hub_point)
        return motion_of(self.carrier(angle), angle=angle, points=points, damper=damper)

    def angle_at_damper_length(self, length: Real) -> Real:
        """Angle of the lower arm [rad] at which the damper has a length [m]."""
        return damper_angle(self.damper_foot, self.damper_mount, length)

    def _lean(self, outboard: Real, height: Real) -> Real:
        """Angle of the upright, from the lower to the upper ball joint [rad]."""
        across, up = self.upper_pivot[0] - outboard, self.upper_pivot[1] - height
        distance = hypotenuse((across, up))
        cosine = (self.upright**2 + distance**2 - self.upper_radius**2) / (
            2.0 * self.upright * distance
        )
        meets = np.abs(cosine) < 1.0
        if not every(meets):
            least, most = np.abs(self.upright - self.upper_radius), self.upright + self.upper_radius
            raise _apart(*where_least(meets, distance, least, most))
        # Outboard of a line that points up to the pivot is the smaller angle.
        result: Real = np.arctan2(up, across) - self.branch * np.arccos(cosine)
        return result

    def _turning(self, outboard: Real, height: Real, lean: Real) -> tuple[Real, Real]:
        """First and second derivative of the upright's angle with the arm's."""
        along = cosine_and_sine(lean)
        square = (-along[1], along[0])
        velocity, acceleration = (-1.0 * height, outboard), (-1.0 * outboard, -1.0 * height)
        # From the upper pivot to the upper ball joint; its length does not change.
        arm = (
            outboard + self.upright * along[0] - self.upper_pivot[0],
            height + self.upright * along[1] - self.upper_pivot[1],
        )
        lever = self.upright * dot(arm, square)
        turn = -dot(arm, velocity) / lever
        swing = self.upright * turn
        end = (velocity[0] + swing * square[0], velocity[1] + swing * square[1])
        central = self.upright * turn**2 * dot(arm, along)
        return turn, -(dot(end, end) + dot(arm, acceleration) - central) / lever


def _apart(distance: float, least: float, most: float) -> GeometryError:
    """Refuse links that do not meet, or that lie in one line."""
    return GeometryError(
        "G101",
        value=f"{distance * 1000:.1f} mm from ball joint to upper pivot",
        expected=f"{least * 1000:.1f} mm to {most * 1000:.1f} mm",
        remedy="check the upper arm, the upright and the upper pivot",
        key="upper_pivot",
    )
