"""The geometry of a corner in SI floats: linkage, springs beside the bar, travel and heights."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.anchorage import Span
from barwright.analysis.corner.suspension import (
    bushing_angle,
    linkage_of,
    metres,
    plane_of,
    radians,
    refuse_lengthening_damper,
    springs_of,
)
from barwright.analysis.corner.taken_over import TakesOver
from barwright.computed_once import cached_property
from barwright.errors import GeometryError, SchemaError
from barwright.mechanics.common import solve
from barwright.mechanics.common.bar_axes import BarPlane
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.springs import Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage, Motion
from barwright.parts.arm import Arm
from barwright.parts.bar import Side

__all__ = ["HEIGHT_ROUNDING", "CornerGeometry"]


@attrs.frozen(eq=False, slots=False)
class CornerGeometry(TakesOver):
    """What guides a wheel, and what acts on it beside the bar.

    Parameters
    ----------
    setup : Setup
        The corner's records.
    """

    @cached_property
    def plane(self) -> BarPlane:
        """Plane square to the bar, in which the linkage moves."""
        return plane_of(self.setup.axle, self.setup.side)

    @cached_property
    def linkage(self) -> Linkage:
        """The suspension with the arm that is on it, known to close over its travel."""
        try:
            linkage = self._linkage_with(self.setup.arm)
            self._check_damper(linkage)
        except GeometryError as error:
            raise error.within(key=self._key) from None
        return linkage

    @cached_property
    def standard_linkage(self) -> Linkage:
        """The suspension with the arm that the vehicle left the works with."""
        return self._linkage_of(self._standard_arm)

    def _linkage_with(self, arm: Arm) -> Linkage:
        return self.standard_linkage if arm is self._standard_arm else self._linkage_of(arm)

    def _linkage_of(self, arm: Arm) -> Linkage:
        standard = self._standard_arm
        return linkage_of(self.setup.axle, arm, standard=standard, plane=self.plane)

    def _check_damper(self, linkage: Linkage) -> None:
        refuse_lengthening_damper(linkage, self.setup.axle)

    @property
    def _standard_arm(self) -> Arm:
        return self.setup.axle.standard(self.setup.side).arm

    @property
    def _key(self) -> str:
        """Where an error of the chassis' geometry lies."""
        return f"{self.setup.chassis.id}.{self.setup.corner}"

    @cached_property
    def springs(self) -> tuple[Spring, ...]:
        """What acts beside the bar: the damper's gas, rubber and coils."""
        gas, arch = self.setup.damper.gas, self.arch_height
        try:
            springs = springs_of(
                self.setup.axle, gas=gas, arch=arch, tightened_at=self.bushing_angle
            )
            return tuple(springs)
        except SchemaError as error:
            raise error.within(key=self._key) from None

    @cached_property
    def bushing_angle(self) -> float | None:
        """Arm angle [rad] at which the arm's bushings were tightened; none without any."""
        return bushing_angle(self.setup.axle, standard=self.standard_linkage, arch=self.arch_height)

    @cached_property
    def sense(self) -> int:
        """Bump sense about the bar axis, from the corner's own vectors."""
        return int(self.plane.sense)

    @cached_property
    def wheel_side(self) -> int:
        """Which wheel: +1 for a left one, -1 for a right one."""
        return 1 if self.setup.side is Side.LEFT else -1

    # -- Motion ---------------------------------------------------------------

    def motion(self, angle: Real) -> Motion:
        """State of the linkage at an arm angle [rad]; one alone is kept for the next question."""
        if not isinstance(angle, float):
            return self.linkage.motion(angle)
        if angle not in self.motions:
            self.motions[angle] = self.linkage.motion(angle)
        return self.motions[angle]

    @cached_property
    def motions(self) -> dict[float, Motion]:
        """States of the linkage that were asked for, by arm angle [rad]."""
        return {}

    # -- Travel ---------------------------------------------------------------

    @cached_property
    def stops(self) -> Span:
        """Arm angles of droop and bump with the damper off [rad]."""
        return radians(self.setup.axle.droop_stop), radians(self.setup.axle.bump_stop)

    @cached_property
    def damper_span(self) -> Span:
        """Damper lengths at the bump stop and at the droop stop [m]."""
        longest, shortest = (plain(self.motion(x).damper_length) for x in self.stops)
        return shortest, longest

    @cached_property
    def damper_fits(self) -> bool:
        """Whether the damper works somewhere between the arm's stops."""
        shortest, longest = self.damper_span
        damper = self.setup.damper
        return shortest < metres(damper.open_length) and metres(damper.closed_length) < longest

    @cached_property
    def travel(self) -> Span:
        """Arm angles of droop and bump with the damper on [rad].

        Those of the stops where the damper does not fit, which the fit reports.
        """
        low, high = self.stops
        shortest, longest = self.damper_span
        damper = self.setup.damper
        if not self.damper_fits:
            return low, high
        if metres(damper.open_length) < longest:
            low = float(self.linkage.angle_at_damper_length(metres(damper.open_length)))
        if metres(damper.closed_length) > shortest:
            high = float(self.linkage.angle_at_damper_length(metres(damper.closed_length)))
        return low, high

    # -- Height ---------------------------------------------------------------

    @cached_property
    def arch_height(self) -> float:
        """Height of the arch above the bar axis [m], from the chassis' measured pair."""
        measured = self.standard_linkage.motion(radians(self.setup.axle.measured_angle))
        return metres(self.setup.axle.measured_height) + plain(measured.hub.height)

    def height(self, angle: Real) -> Real:
        """Hub to arch [m] at an arm angle [rad]."""
        return self.arch_height - self.motion(angle).hub.height

    @property
    def height_span(self) -> Span:
        """Least and greatest hub-to-arch height [m] that the travel allows."""
        low, high = sorted(float(self.height(angle)) for angle in self.travel)
        return low, high

    def angle_at_height(self, height: float) -> float | None:
        """Arm angle [rad] at a hub-to-arch height [m]; none if it is out of travel."""
        angle = plain(self.nearest_angle(height))
        # Beyond an end of the travel the root is that end, and misses.
        missed = abs(height - float(self.height(angle))) > HEIGHT_ROUNDING
        return None if missed else angle

    def nearest_angle(self, height: Real) -> Real:
        """Arm angle [rad] of the travel that is nearest to a hub-to-arch height [m]."""

        def below(angle: Real) -> tuple[Real, Real]:
            hub = self.motion(angle).hub
            return height - self.arch_height + hub.height, hub.slope

        low, high = self.travel
        return solve.rising_root(below, low=low, high=high)


HEIGHT_ROUNDING = 1e-9
"""Rounding of a height that is found again from its own angle [m]."""
