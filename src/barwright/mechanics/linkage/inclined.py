"""Linkages in the plane of an inclined bar, with heights that are vertical.

A vertical load does its work on vertical travel, so that with these heights all statics of a
corner hold as they stand.
"""

from __future__ import annotations

import attrs

from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion
from barwright.mechanics.linkage.wheel_carrier import Path

__all__: list[str] = []


@attrs.frozen
class InclinedLinkage(Linkage):
    """A linkage in the plane of an inclined bar; its heights are vertical.

    Parameters
    ----------
    linkage : Linkage
        The linkage in that plane.
    share : float
        Vertical share of a travel in it:
        :attr:`barwright.mechanics.common.bar_axes.BarPlane.vertical_share`.

    References
    ----------
    Projection; checked against a general multibody engine.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> f"{InclinedLinkage(arm, 0.995).motion(0.0).load.slope:.3f} m/rad"
    '0.398 m/rad'
    """

    linkage: Linkage
    share: float

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        motion = self.linkage.motion(angle)
        return attrs.evolve(motion, load=self._risen(motion.load), hub=self._risen(motion.hub))

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        return self.linkage.angle_at_damper_length(length)

    def _risen(self, path: Path) -> Path:
        return Path(
            path.outboard,
            self.share * path.height,
            slope=self.share * path.slope,
            curvature=self.share * path.curvature,
        )
