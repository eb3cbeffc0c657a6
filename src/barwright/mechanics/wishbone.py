"""Double wishbones in the plane square to the bar axis, the bar in the lower arm."""

from __future__ import annotations

import attrs
import numpy as np

from barwright.errors import GeometryError
from barwright.mechanics.linkage import (
    Linkage,
    Motion,
    carried,
    damper_angle,
    damper_state,
    dot,
    on_arm,
)
from barwright.mechanics.types import Point, Real

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
    side : int
        +1 if the upper ball joint lies outboard of the line from the lower one to
        the upper pivot, -1 if inboard: which of the two intersections is built.
    damper_foot : (float, float) [m]
        Lower damper mount on the lower arm, along its centreline and above it.
    damper_mount : (float, float) [m]
        Upper damper mount on the chassis, outboard and up; above the foot.
    reference_angle : float [rad]
        Angle of the lower arm at which the points below are given.
    load_point, hub_point : (float, float) [m]
        Points fixed in the wheel carrier, outboard and up from the lower ball
        joint in the reference position.

    References
    ----------
    Derived in this project; checked against least squares on the raw constraints.

    Examples
    --------
    Equal, parallel arms and an upright as tall as their pivots are apart do not
    tilt the wheel:

    >>> even = DoubleWishbone(arm_radius=0.35, upper_pivot=(0.0, 0.25), upper_radius=0.35,
    ...                       upright=0.25, side=1, damper_foot=(0.25, 0.0),
    ...                       damper_mount=(0.2, 0.4), reference_angle=0.0,
    ...                       load_point=(0.1, -0.2), hub_point=(0.1, 0.1))
    >>> f"{abs(even.motion(0.2).tilt):.9f} rad"
    '0.000000000 rad'
    """

    arm_radius: float
    upper_pivot: Point
    upper_radius: float
    upright: float
    side: int
    damper_foot: Point
    damper_mount: Point
    reference_angle: float
    load_point: Point
    hub_point: Point

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        joint = on_arm((self.arm_radius, 0.0), angle)
        lean = self._lean(joint.outboard, joint.height)
        turn, turn_rate = self._turning(joint.outboard, joint.height, lean)
        usual = on_arm((self.arm_radius, 0.0), self.reference_angle)
        tilt = lean - self._lean(usual.outboard, usual.height)
        length, slope, curvature = damper_state(self.damper_foot, self.damper_mount, angle)
        return Motion(
            load=carried(self.load_point, joint, tilt, turn, turn_rate),
            hub=carried(self.hub_point, joint, tilt, turn, turn_rate),
            damper_length=length,
            damper_slope=slope,
            damper_curvature=curvature,
            tilt=tilt,
        )

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        return damper_angle(self.damper_foot, self.damper_mount, length)

    def _lean(self, outboard: Real, height: Real) -> Real:
        """Angle of the upright, from the lower to the upper ball joint [rad]."""
        across, up = self.upper_pivot[0] - outboard, self.upper_pivot[1] - height
        distance = np.hypot(across, up)
        cosine = (self.upright**2 + distance**2 - self.upper_radius**2) / (
            2.0 * self.upright * distance
        )
        if not np.all(np.abs(cosine) < 1.0):
            raise GeometryError(
                "G101",
                value=f"{np.ravel(distance)[0] * 1000:.1f} mm from ball joint to upper pivot",
                expected=(
                    f"{abs(self.upright - self.upper_radius) * 1000:.1f} mm to "
                    f"{(self.upright + self.upper_radius) * 1000:.1f} mm"
                ),
                remedy="check the upper arm, the upright and the upper pivot",
                key="upper_pivot",
            )
        # Outboard of the line to the pivot is the smaller angle.
        result: Real = np.arctan2(up, across) - self.side * np.arccos(cosine)
        return result

    def _turning(self, outboard: Real, height: Real, lean: Real) -> tuple[Real, Real]:
        """First and second derivative of the upright's angle with the arm's."""
        along, square = (np.cos(lean), np.sin(lean)), (-np.sin(lean), np.cos(lean))
        velocity, acceleration = (-1.0 * height, outboard), (-1.0 * outboard, -1.0 * height)
        # From the upper pivot to the upper ball joint; its length does not change.
        arm = (
            outboard + self.upright * along[0] - self.upper_pivot[0],
            height + self.upright * along[1] - self.upper_pivot[1],
        )
        lever = self.upright * dot(arm, square)
        turn = -dot(arm, velocity) / lever
        swing = tuple(v + self.upright * turn * s for v, s in zip(velocity, square, strict=True))
        speed = swing[0] ** 2 + swing[1] ** 2
        central = self.upright * turn**2 * dot(arm, along)
        return turn, -(speed + dot(arm, acceleration) - central) / lever
