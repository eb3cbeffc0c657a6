"""A linkage that remembers its states at some angles: droop, rest and bump are asked for often."""

from __future__ import annotations

import attrs

from barwright.mechanics.common.types import Real
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion

__all__: list[str] = []


@attrs.frozen(eq=False)
class KeptMotions(Linkage):
    """A linkage that remembers its states at some angles.

    Parameters
    ----------
    linkage : Linkage
        The linkage.

    Examples
    --------
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = KeptMotions(SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4)))
    >>> angle = 0.25
    >>> arm.keep(angle)
    >>> arm.motion(angle) is arm.motion(angle)
    True
    """

    linkage: Linkage
    # Each state holds its angle, so that no other object can take the angle's place.
    _kept: dict[int, Motion] = attrs.field(init=False, factory=dict)

    def keep(self, angle: Real) -> None:
        """Remember the state at an arm angle [rad]: at this very object, not at equal ones."""
        self._kept[id(angle)] = self.motion(angle)

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]."""
        found = self._kept.get(id(angle))
        return self.linkage.motion(angle) if found is None else found

    def angle_at_damper_length(self, length: Real) -> Real:
        """Arm angle [rad] at which the damper has a length [m]."""
        return self.linkage.angle_at_damper_length(length)
