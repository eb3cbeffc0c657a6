"""From a setup's records to the kernels' floats in SI units: every question starts here."""

from __future__ import annotations

import functools
from typing import TypeAlias

import attrs
import numpy as np

from barwright.errors import GeometryError, QuantityError
from barwright.mechanics import axes, clocking, corner, solve
from barwright.mechanics.adjuster import Bolt, FixedLineBolt, SwivellingBolt
from barwright.mechanics.linkage import Linkage, Strut, SwingArm
from barwright.mechanics.springs import GasForce, Spring
from barwright.mechanics.types import Point, Real
from barwright.parts.adjuster import LeverSide, SwivellingMounting
from barwright.parts.arm import Arm
from barwright.parts.bar import Side
from barwright.parts.chassis import Axle, LoadPoint, StrutMounting, Vector
from barwright.parts.setup import LoadKind, Setup
from barwright.units import (
    ANGLE,
    FORCE,
    GAS_SLOPE,
    LENGTH,
    MASS,
    TURNS,
    WHEEL_RATE,
    Quantity,
    shown,
    si,
)

__all__ = ["CornerModel", "Span", "metres", "radians"]

Span: TypeAlias = tuple[float, float]
"""Two limits, the lower one first."""


def metres(value: Quantity | None) -> float:
    """Metres of a length; 0 where there is none."""
    return 0.0 if value is None else si(value, LENGTH)


def radians(value: Quantity) -> float:
    """Radians of an angle."""
    return si(value, ANGLE)


@attrs.frozen(eq=False, slots=False)
class CornerModel:
    """A setup in SI floats, without its bar's rate.

    Everything that depends on the bar's seat is left to the fit, so that a
    corner whose bar does not fit still has a geometry.

    Parameters
    ----------
    setup : Setup
        The corner.
    """

    setup: Setup

    @functools.cached_property
    def linkage(self) -> Linkage:
        """The suspension with the arm that is on it, known to close over its travel."""
        axle = self.setup.axle
        linkage = _linkage(axle, self.setup.arm, standard=axle.standard(self.setup.side).arm)
        try:
            motion = linkage.motion(np.linspace(*self.stops, _LOOKS))
            if np.any(motion.damper_slope >= 0.0):
                raise _not_shortening(self.setup)
        except GeometryError as error:
            raise error.within(key=f"{self.setup.chassis.id}.{self.setup.corner}") from None
        return linkage

    @functools.cached_property
    def springs(self) -> tuple[Spring, ...]:
        """What acts beside the bar: the damper's gas, if it has any."""
        gas = self.setup.damper.gas
        if gas is None:
            return ()
        return (GasForce(si(gas.force, FORCE), metres(gas.at_length), si(gas.slope, GAS_SLOPE)),)

    @functools.cached_property
    def bolt(self) -> Bolt:
        """The adjuster's bolt with the lever that is on it."""
        adjuster = self.setup.adjuster
        mounting, side = adjuster.mounting, _SIDE[adjuster.lever_lies]
        radius = metres(self.setup.tube.lever_radius)
        if isinstance(mounting, SwivellingMounting):
            return SwivellingBolt(
                pivot_distance=metres(mounting.pivot_distance),
                pivot_angle=radians(mounting.pivot_angle),
                lever_radius=radius,
                side=side,
            )
        return FixedLineBolt(
            line_distance=metres(mounting.line_distance),
            foot_angle=radians(mounting.foot_angle),
            foot_position=metres(mounting.foot_position),
            lever_radius=radius,
            side=side,
        )

    @functools.cached_property
    def sense(self) -> int:
        """Bump sense about the bar axis, from the corner's own vectors."""
        axle = self.setup.axle
        plane = axes.bar_plane(
            bar_axis=_on_side(axle.bar_axis, self.setup.side),
            arm_direction=_on_side(axle.arm_direction, self.setup.side),
        )
        if plane.vertical_share < _LEVEL_SHARE:
            raise _not_level(axle)
        return int(plane.sense)

    # -- Load -----------------------------------------------------------------

    @functools.cached_property
    def sprung_mass(self) -> float:
        """Mass that the corner carries [kg]."""
        mass = si(self.setup.load.mass, MASS)
        if self.setup.load.kind is LoadKind.SCALE_READING:
            mass -= si(self.setup.axle.unsprung_mass, MASS)
        return mass

    @functools.cached_property
    def load(self) -> float:
        """Sprung load [N]."""
        return self.sprung_mass * corner.STANDARD_GRAVITY

    @functools.cached_property
    def tyre_rate(self) -> float:
        """Vertical rate of the tyre [N/m]."""
        return si(self.setup.axle.tyre_rate, WHEEL_RATE)

    # -- Travel ---------------------------------------------------------------

    @functools.cached_property
    def stops(self) -> Span:
        """Arm angles of droop and bump with the damper off [rad]."""
        return radians(self.setup.axle.droop_stop), radians(self.setup.axle.bump_stop)

    @functools.cached_property
    def damper_span(self) -> Span:
        """Damper lengths at the bump stop and at the droop stop [m]."""
        longest, shortest = (float(self.linkage.motion(x).damper_length) for x in self.stops)
        return shortest, longest

    @functools.cached_property
    def damper_fits(self) -> bool:
        """Whether the damper works somewhere between the arm's stops."""
        shortest, longest = self.damper_span
        damper = self.setup.damper
        return shortest < metres(damper.open_length) and metres(damper.closed_length) < longest

    @functools.cached_property
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

    @functools.cached_property
    def arch_height(self) -> float:
        """Height of the arch above the bar axis [m], from the chassis' measured pair."""
        axle = self.setup.axle
        usual = axle.standard(self.setup.side).arm
        hub = _linkage(axle, usual, standard=usual).motion(radians(axle.measured_angle)).hub.height
        return metres(axle.measured_height) + float(hub)

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

    @functools.cached_property
    def pin_span(self) -> Span:
        """Least and greatest distance of the lever's pin along the bolt [m].

        In tension the nut lies beyond the pin, in compression short of it; its
        whole height must be on full thread either way.
        """
        adjuster = self.setup.adjuster
        start, end = metres(adjuster.thread_start), metres(adjuster.thread_end)
        nut, spacer = metres(adjuster.nut_height), metres(adjuster.spacer)
        if self.bolt.side > 0:
            return start - spacer, end - nut - spacer
        return start + nut + spacer, end + spacer

    @functools.cached_property
    def pin_middle(self) -> float:
        """Distance of the pin with the nut in the middle of its thread [m]."""
        return sum(self.pin_span) / 2.0

    @functools.cached_property
    def lever_closes(self) -> bool:
        """Whether the lever reaches its pin over the whole thread."""
        low, high = self.bolt.reach
        return low < self.pin_span[0] and self.pin_span[1] < high

    @functools.cached_property
    def lever_span(self) -> Span:
        """Least and greatest angle of the lever [rad]."""
        one, other = (float(self.bolt.lever_angle(pin)) for pin in self.pin_span)
        return min(one, other), max(one, other)

    @functools.cached_property
    def lever_middle(self) -> float:
        """Angle of the lever with the nut in the middle of its thread [rad]."""
        return float(self.bolt.lever_angle(self.pin_middle))

    @functools.cached_property
    def pitch(self) -> float:
        """Pitch of the adjuster's thread [m]."""
        return metres(self.setup.adjuster.thread_pitch)

    @functools.cached_property
    def turns_span(self) -> Span:
        """Nut turns from the middle at both ends of the thread, clockwise positive."""
        half = (self.pin_span[1] - self.pin_span[0]) / 2.0 / self.pitch
        return -half, half

    def lever_at_turns(self, turns: Real) -> Real:
        """Lever angle [rad] with the nut turned clockwise from the middle."""
        return self.bolt.lever_angle(self.pin_middle - turns * self.pitch)

    def turns_at_lever(self, lever_angle: Real) -> Real:
        """Nut turns from the middle, clockwise positive, at a lever angle [rad]."""
        return (self.pin_middle - self.bolt.pin_distance(lever_angle)) / self.pitch

    # -- Clocking -------------------------------------------------------------

    @functools.cached_property
    def keyed_angle(self) -> float:
        """Free angle beyond the lever's with both blanks on their keys [rad]."""
        return float(
            clocking.free_angle(
                0.0,
                arm_key=radians(self.setup.arm.socket.key_angle),
                anchor_key=radians(self.setup.tube.socket.key_angle),
                blank_angle=radians(self.setup.bar.blank_angle),
                sense=self.sense,
                rotation=0.0,
            )
        )

    @functools.cached_property
    def step(self) -> float:
        """Smallest step of clocking [rad]."""
        bar = self.setup.bar
        return clocking.smallest_step(
            arm_teeth=bar.arm_end.teeth, anchor_teeth=bar.anchor_end.teeth
        )

    @functools.cached_property
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

    def check_nut(self) -> None:
        """Refuse a setting of the nut that its thread does not hold."""
        turns = si(self.setup.nut_turns, TURNS)
        low, high = self.turns_span
        if not low - _TURNS_ROUNDING <= turns <= high + _TURNS_ROUNDING:
            raise QuantityError(
                "Q302",
                value=shown(self.setup.nut_turns),
                expected=f"{low:.3f} to {high:.3f} turns, what the thread holds",
                remedy="count the turns from the middle of the thread, clockwise positive",
                key="nut_turns",
            )

    @functools.cached_property
    def nut_lever(self) -> float:
        """Lever angle as the nut is now set [rad]."""
        self.check_nut()
        return float(self.lever_at_turns(si(self.setup.nut_turns, TURNS)))

    @functools.cached_property
    def nut_pin(self) -> float:
        """Distance of the lever's pin along the bolt as the nut is now set [m]."""
        return self.pin_middle - si(self.setup.nut_turns, TURNS) * self.pitch

    @functools.cached_property
    def free_angle(self) -> float:
        """Arm angle without torque, as clocked and set now [rad]."""
        return self.nut_lever + self.clocked_angle


# Heights and loads are taken as square to the bar: to 0.1 % within this.
_LEVEL_DEGREES = 2.5
_LEVEL_SHARE = float(np.cos(np.radians(_LEVEL_DEGREES)))

_SIDE = {LeverSide.BUMPWARD: 1, LeverSide.DROOPWARD: -1}

# Places of the travel at which a linkage is looked at.
_LOOKS = 65

# Rounding of a height that is found again from its own angle [m].
_HEIGHT_ROUNDING = 1e-9

# Rounding of nut turns that were themselves found from a lever angle.
_TURNS_ROUNDING = 1e-6


def _linkage(axle: Axle, arm: Arm, *, standard: Arm) -> Linkage:
    """Build the suspension of an axle with an arm; the wheel carrier is the standard arm's."""
    radius = metres(arm.radius)
    hub = (metres(axle.hub_outboard), metres(axle.hub_up))
    load = hub
    if axle.load_at is LoadPoint.CONTACT:
        load = (hub[0], hub[1] - metres(axle.tyre_radius))
    mounting = axle.suspension
    if isinstance(mounting, StrutMounting):
        return Strut(
            arm_radius=radius,
            top_mount=(metres(mounting.top_outboard), metres(mounting.top_up)),
            offset=metres(mounting.offset),
            length_below=metres(mounting.length_below),
            reference_angle=radians(axle.reference_angle),
            load_point=load,
            hub_point=hub,
            reference_radius=metres(standard.radius),
        )
    reference = radians(axle.reference_angle)
    return SwingArm(
        load_point=_in_arm(load, reference, radius),
        hub_point=_in_arm(hub, reference, radius),
        damper_foot=(metres(mounting.foot_along), metres(mounting.foot_above)),
        damper_mount=(metres(mounting.mount_outboard), metres(mounting.mount_up)),
    )


def _not_level(axle: Axle) -> GeometryError:
    return GeometryError(
        "G105",
        value=f"bar axis {axle.bar_axis}",
        expected=f"a bar that is level within {_LEVEL_DEGREES}°",
        remedy="loads and heights of an inclined bar are not worked out yet",
        key="bar_axis",
    )


def _not_shortening(setup: Setup) -> GeometryError:
    return GeometryError(
        "G108",
        value=f"stops of {shown(setup.axle.droop_stop)} and {shown(setup.axle.bump_stop)}",
        expected="a damper that shortens all the way from one to the other",
        remedy="check the damper's mounts and the stops",
        key="suspension",
    )


def _in_arm(point: Point, reference: float, radius: float) -> Point:
    """Coordinates in the arm of a point given from the arm's end, level, at a reference angle."""
    cosine, sine = np.cos(reference), np.sin(reference)
    along = radius + point[0] * cosine + point[1] * sine
    return float(along), float(point[1] * cosine - point[0] * sine)


def _on_side(vector: Vector, side: Side) -> Vector:
    """Mirror a left-hand vector for the right-hand side, about the vehicle's middle plane."""
    x, y, z = vector
    return (x, y, z) if side is Side.LEFT else (x, -y, z)
