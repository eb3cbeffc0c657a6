"""A corner in SI floats, made once for a setup and a call: every question starts here."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable
from typing import Any

import attrs
import numpy as np

from barwright.analysis.corner.anchorage import Span, anchorage_of, change_per_turn, setting_span
from barwright.analysis.corner.rests_on import RESTS_ON, Records, are_same
from barwright.analysis.corner.suspension import (
    bushing_angle,
    linkage_of,
    metres,
    plane_of,
    radians,
    refuse_lengthening_damper,
    springs_of,
)
from barwright.errors import GeometryError, QuantityError, SchemaError
from barwright.first_use import cached_property
from barwright.mechanics.anchorage.adjuster import Anchorage
from barwright.mechanics.common import solve
from barwright.mechanics.common.bar_axes import BarPlane
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner import statics
from barwright.mechanics.corner.springs import Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage
from barwright.mechanics.spline import clocking
from barwright.parts.arm import Arm
from barwright.parts.bar import Side
from barwright.parts.setup import LoadKind, Setup
from barwright.units import MASS, TURNS, WHEEL_RATE, shown, si

__all__ = ["Corner", "Span", "metres", "radians"]


@attrs.frozen(eq=False, slots=False)
class Corner:
    """A setup in SI floats, each computed when it is first asked for and then kept.

    A public question makes one of its setup and hands it to all that it asks in turn.
    Everything that depends on the bar's seat is left to the fit, so that a corner whose
    bar does not fit still has a geometry.

    Parameters
    ----------
    setup : Setup
        The corner's records.
    """

    setup: Setup
    further: dict[Callable[[Corner], Any], tuple[Records, Any]] = attrs.field(
        factory=dict, init=False, repr=False
    )
    """What higher rooms have computed of it, and what that rests on."""

    def beside(self, setup: Setup) -> Corner:
        """Return the corner of another setup, which takes over all that is the same there.

        Parameters
        ----------
        setup : Setup
            Records that are mostly the very same as here.

        Returns
        -------
        Corner
            With whatever has been computed here so far and rests on the same records there.
        """
        known = vars(self)
        is_same = functools.cache(functools.partial(are_same, one=self.setup, other=setup))
        other = Corner(setup)
        vars(other).update(
            {name: known[name] for name, on in RESTS_ON.items() if name in known and is_same(on)}
        )
        other.further.update(
            {part: kept for part, kept in self.further.items() if is_same(kept[0])}
        )
        return other

    @cached_property
    def plane(self) -> BarPlane:
        """Plane square to the bar, in which the linkage moves."""
        return plane_of(self.setup.axle, self.setup.side)

    @cached_property
    def linkage(self) -> Linkage:
        """The suspension with the arm that is on it, known to close over its travel."""
        try:
            linkage = self._linkage_with(self.setup.arm)
            refuse_lengthening_damper(linkage, self.setup.axle)
        except GeometryError as error:
            raise error.within(key=self._key) from None
        return linkage

    @cached_property
    def standard_linkage(self) -> Linkage:
        """The suspension with the arm that the vehicle left the works with."""
        arm = self._standard_arm
        return linkage_of(self.setup.axle, arm, standard=arm, plane=self.plane)

    def _linkage_with(self, arm: Arm) -> Linkage:
        usual = self._standard_arm
        if arm is usual:
            return self.standard_linkage
        return linkage_of(self.setup.axle, arm, standard=usual, plane=self.plane)

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
    def anchorage(self) -> Anchorage:
        """What holds the anchor end: a lever on its bolt, or a fixed socket."""
        return anchorage_of(self.setup)

    def hold(self, twist: Real, *, rate: float) -> tuple[Real, Real]:
        """Torque of the bar at a twist [rad] [N·m], and its change with arm angle [N·m/rad].

        Every answer asks here: an adjuster's lever holds the bar one way, a fixed socket
        both ways.
        """
        return statics.bar_hold(twist, rate=rate, holds_both_ways=self.anchorage.holds_both_ways)

    def is_slack(self, twist: float) -> bool:
        """Whether the bar carries no torque at a twist [rad]."""
        _, stiffness = self.hold(twist, rate=1.0)
        return not stiffness

    @cached_property
    def sense(self) -> int:
        """Bump sense about the bar axis, from the corner's own vectors."""
        return int(self.plane.sense)

    @cached_property
    def wheel_side(self) -> int:
        """Which wheel: +1 for a left one, -1 for a right one."""
        return 1 if self.setup.side is Side.LEFT else -1

    # -- Load -----------------------------------------------------------------

    @cached_property
    def sprung_mass(self) -> float:
        """Mass that the corner carries [kg]."""
        mass = si(self.setup.load.mass, MASS)
        if self.setup.load.kind is LoadKind.SCALE_READING:
            mass -= si(self.setup.axle.unsprung_mass, MASS)
        return mass

    @cached_property
    def load(self) -> float:
        """Sprung load [N]."""
        return self.sprung_mass * statics.STANDARD_GRAVITY

    @cached_property
    def tyre_rate(self) -> float:
        """Vertical rate of the tyre [N/m]."""
        return si(self.setup.axle.tyre_rate, WHEEL_RATE)

    # -- Travel ---------------------------------------------------------------

    @cached_property
    def stops(self) -> Span:
        """Arm angles of droop and bump with the damper off [rad]."""
        return radians(self.setup.axle.droop_stop), radians(self.setup.axle.bump_stop)

    @cached_property
    def damper_span(self) -> Span:
        """Damper lengths at the bump stop and at the droop stop [m]."""
        longest, shortest = (float(self.linkage.motion(x).damper_length) for x in self.stops)
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
        return metres(self.setup.axle.measured_height) + float(measured.hub.height)

    def height(self, angle: Real) -> Real:
        """Hub to arch [m] at an arm angle [rad]."""
        return self.arch_height - self.linkage.motion(angle).hub.height

    def angle_at_height(self, height: float) -> float | None:
        """Arm angle [rad] at a hub-to-arch height [m]; none if it is out of travel."""

        def below(angle: Real) -> tuple[Real, Real]:
            hub = self.linkage.motion(angle).hub
            return height - self.arch_height + hub.height, hub.slope

        low, high = self.travel
        angle = float(solve.rising_root(below, low=low, high=high))
        # Beyond an end of the travel the root is that end, and misses.
        missed = abs(float(below(angle)[0])) > _HEIGHT_ROUNDING
        return None if missed else angle

    # -- Adjuster -------------------------------------------------------------

    @cached_property
    def setting_span(self) -> Span:
        """Least and greatest place of the lever's pin, or of the bolt's end [m]."""
        return setting_span(self.setup.adjuster)

    @cached_property
    def setting_middle(self) -> float:
        """Its place in the middle of the thread [m]."""
        return sum(self.setting_span) / 2.0

    @cached_property
    def setting_per_turn(self) -> float:
        """Its change with a clockwise turn [m]; 0 where there is nothing to turn."""
        return change_per_turn(self.setup.adjuster)

    @cached_property
    def lever_closes(self) -> bool:
        """Whether the lever reaches its pin, or its bolt's end, over the whole thread."""
        if self.setup.adjuster is None:
            return True
        low, high = self.anchorage.reach
        return low < self.setting_span[0] and self.setting_span[1] < high

    @cached_property
    def lever_span(self) -> Span:
        """Least and greatest angle of the lever [rad]."""
        one, other = (float(self.anchorage.lever_angle(end)) for end in self.setting_span)
        return min(one, other), max(one, other)

    @cached_property
    def lever_middle(self) -> float:
        """Angle of the lever in the middle of the thread [rad]."""
        return float(self.anchorage.lever_angle(self.setting_middle))

    @cached_property
    def turns_span(self) -> Span:
        """Turns from the middle at both ends of the thread, clockwise positive."""
        if self.setup.adjuster is None:
            return 0.0, 0.0
        low, high = self.setting_span
        half = (high - low) / 2.0 / abs(self.setting_per_turn)
        return -half, half

    def setting_at_turns(self, turns: Real) -> Real:
        """Place of the lever's pin or of the bolt's end [m], turned clockwise from the middle."""
        return self.setting_middle + turns * self.setting_per_turn

    def lever_at_turns(self, turns: Real) -> Real:
        """Lever angle [rad], turned clockwise from the middle."""
        return self.anchorage.lever_angle(self.setting_at_turns(turns))

    def turns_at_lever(self, lever_angle: float) -> float:
        """Count the turns from the middle, clockwise positive, at a lever angle [rad].

        Infinite where no turn leads there.
        """
        try:
            setting = float(self.anchorage.setting(lever_angle))
        except GeometryError:
            return math.inf
        if self.setup.adjuster is None:
            return 0.0
        return (setting - self.setting_middle) / self.setting_per_turn

    # -- Clocking -------------------------------------------------------------

    @cached_property
    def keyed_angle(self) -> float:
        """Free angle beyond the lever's with both blanks on their keys [rad]."""
        return float(
            clocking.free_angle(
                0.0,
                arm_key=radians(self.setup.arm.socket.key_angle),
                anchor_key=radians(self.setup.anchor.socket.key_angle),
                blank_angle=radians(self.setup.bar.blank_angle),
                sense=self.sense,
                rotation=0.0,
            )
        )

    @cached_property
    def step(self) -> float:
        """Smallest step of clocking [rad]."""
        bar = self.setup.bar
        return clocking.smallest_step(
            arm_teeth=bar.arm_end.teeth, anchor_teeth=bar.anchor_end.teeth
        )

    @cached_property
    def clocked_angle(self) -> float:
        """Free angle beyond the lever's as the bar is now clocked [rad].

        Taken the short way round, since a rotation by a whole turn is none.
        """
        bar = self.setup.bar
        steps = clocking.rotation_steps(
            arm_tooth=self.setup.arm_tooth,
            anchor_tooth=self.setup.anchor_tooth,
            arm_teeth=bar.arm_end.teeth,
            anchor_teeth=bar.anchor_end.teeth,
        )
        turned = self.keyed_angle + steps * self.step
        middle = sum(self.travel) / 2.0 - self.lever_middle
        return middle + float(np.remainder(turned - middle + np.pi, 2.0 * np.pi)) - np.pi

    def holds_turns(self, turns: float) -> bool:
        """Whether the thread holds so many turns from its middle."""
        low, high = self.turns_span
        return low - _TURNS_ROUNDING <= turns <= high + _TURNS_ROUNDING

    def check_nut(self) -> None:
        """Refuse a setting of the nut that its thread does not hold."""
        if not self.holds_turns(si(self.setup.nut_turns, TURNS)):
            low, high = self.turns_span
            raise QuantityError(
                "Q302",
                value=shown(self.setup.nut_turns),
                expected=f"{low:.3f} to {high:.3f} turns, what the thread holds",
                remedy="count the turns from the middle of the thread, clockwise positive",
                key="nut_turns",
            )

    @cached_property
    def nut_lever(self) -> float:
        """Lever angle as the nut is now set [rad]."""
        self.check_nut()
        return float(self.lever_at_turns(si(self.setup.nut_turns, TURNS)))

    @cached_property
    def setting_now(self) -> float:
        """Place of the lever's pin or of the bolt's end, as it is now set [m]."""
        return float(self.setting_at_turns(si(self.setup.nut_turns, TURNS)))

    @cached_property
    def free_angle(self) -> float:
        """Arm angle without torque, as clocked and set now [rad]."""
        return self.nut_lever + self.clocked_angle


# Rounding of a height that is found again from its own angle [m].
_HEIGHT_ROUNDING = 1e-9

# Rounding of nut turns that were themselves found from a lever angle.
_TURNS_ROUNDING = 1e-6
