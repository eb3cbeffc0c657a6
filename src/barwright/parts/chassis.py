"""Chassis: the vehicle's own geometry, and the parts that it left the works with."""

from __future__ import annotations

import enum
import math
from typing import TypeAlias

import attrs

from barwright.errors import GeometryError, SchemaError
from barwright.parts.adjuster import Adjuster
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.damper import Damper
from barwright.parts.source import (
    Part,
    Record,
    angle,
    length,
    mass,
    named,
    rate,
    size,
    size_or_zero,
)
from barwright.parts.tube import Tube
from barwright.units import ANGLE, Quantity, shown, si

__all__ = [
    "Axle",
    "BarEndName",
    "Chassis",
    "LoadPoint",
    "Place",
    "StandardParts",
    "StrutMounting",
    "SwingArmMounting",
    "Vector",
]

Vector: TypeAlias = tuple[float, float, float]
"""A direction in the vehicle axes of ISO 8855: x forward, y left, z up."""


_UPRIGHT = math.pi / 2.0


class Place(enum.Enum):
    """Which axle."""

    FRONT = "front"
    REAR = "rear"


class BarEndName(enum.Enum):
    """An end of a bar: the one that turns with the arm, and the one that is held."""

    ARM = "arm end"
    ANCHOR = "anchor end"


class LoadPoint(enum.Enum):
    """Where the wheel load acts on the wheel carrier."""

    CONTACT = "tyre contact"
    HUB = "hub"


@attrs.frozen(kw_only=True, field_transformer=named)
class StrutMounting(Record):
    """A strut over a lower arm, in the plane square to the bar axis.

    Coordinates are outboard and up from the bar axis.

    Parameters
    ----------
    top_outboard, top_up : Quantity
        The strut's top mount.
    offset : Quantity
        Of the strut's axis from the ball joint, positive if it passes outboard.
    length_below : Quantity
        Damper length beyond the foot of the offset; negative if it ends above.
    """

    top_outboard: Quantity = attrs.field(converter=length)
    top_up: Quantity = attrs.field(converter=size)
    offset: Quantity = attrs.field(default="0 mm", converter=length)
    length_below: Quantity = attrs.field(default="0 mm", converter=length)


@attrs.frozen(kw_only=True, field_transformer=named)
class SwingArmMounting(Record):
    """A damper over an arm that carries the wheel, in the plane square to the bar axis.

    Parameters
    ----------
    mount_outboard, mount_up : Quantity
        Upper damper mount, outboard and up from the bar axis.
    foot_along, foot_above : Quantity
        Lower damper mount on the arm: along its centreline, and square to it.
    """

    mount_outboard: Quantity = attrs.field(converter=length)
    mount_up: Quantity = attrs.field(converter=size)
    foot_along: Quantity = attrs.field(converter=size)
    foot_above: Quantity = attrs.field(default="0 mm", converter=length)


@attrs.frozen(kw_only=True)
class StandardParts:
    """What one corner left the works with.

    Parameters
    ----------
    arm, bar, tube, adjuster, damper : record
        The parts.
    """

    arm: Arm
    bar: Bar
    tube: Tube
    adjuster: Adjuster
    damper: Damper


@attrs.frozen(kw_only=True, field_transformer=named)
class Axle(Record):
    """One axle's geometry, given for its left corner; the right one mirrors it.

    Axial positions are counted from the arm socket's face that looks away from
    the anchor, toward the anchor.

    Parameters
    ----------
    place : Place
        Front or rear.
    bar_axis : Vector
        From the anchor end to the arm end, left corner.
    arm_direction : Vector
        From the bar axis to the wheel, level, left corner.
    entry : BarEndName
        End at which the bar goes in.
    suspension : StrutMounting or SwingArmMounting
        What guides the wheel.
    hub_outboard, hub_up : Quantity
        Hub centre from the ball joint or, of a swing arm, from the arm's end:
        outboard and up, at the reference arm angle.
    reference_angle : Quantity
        Arm angle at which hub and contact are given.
    load_at : LoadPoint
        Where the wheel load acts: at the tyre contact where the wheel carrier
        leans in this plane, at the hub where the wheel is free to roll in it.
    tyre_radius : Quantity
        Loaded radius.
    tyre_rate : Quantity
        Vertical rate.
    unsprung_mass : Quantity
        Of the corner.
    standard_mass : Quantity
        Sprung mass that the corner carries in standard trim.
    standard_height : Quantity
        Hub to arch in standard trim.
    measured_height, measured_angle : Quantity
        A pair of hub-to-arch and arm angle that belong together.
    droop_stop, bump_stop : Quantity
        Arm angles that the chassis allows with the damper off.
    tube_position : Quantity
        Axial position of the tube's end next to the arm.
    bolt_position, cap_holes_position : Quantity
        Axial positions of the adjuster's bolt and of the holes for the cap.
    lever_allowance, cap_allowance : Quantity
        How far lever and cap may lie from them.
    space_behind : Quantity
        Free space beyond the anchor socket.
    arm_stop, anchor_stop : Quantity, optional
        Axial positions that the bar's ends cannot pass.
    left : StandardParts
        Standard parts of the left corner.
    right : StandardParts, optional
        Those of the right corner, where they are not the left's mirrored.
    """

    place: Place
    bar_axis: Vector
    arm_direction: Vector
    entry: BarEndName
    suspension: StrutMounting | SwingArmMounting
    hub_outboard: Quantity = attrs.field(converter=length)
    hub_up: Quantity = attrs.field(converter=length)
    reference_angle: Quantity = attrs.field(converter=angle)
    load_at: LoadPoint
    tyre_radius: Quantity = attrs.field(converter=size)
    tyre_rate: Quantity = attrs.field(converter=rate)
    unsprung_mass: Quantity = attrs.field(converter=mass)
    standard_mass: Quantity = attrs.field(converter=mass)
    standard_height: Quantity = attrs.field(converter=size)
    measured_height: Quantity = attrs.field(converter=size)
    measured_angle: Quantity = attrs.field(converter=angle)
    droop_stop: Quantity = attrs.field(converter=angle)
    bump_stop: Quantity = attrs.field(converter=angle)
    tube_position: Quantity = attrs.field(converter=length)
    bolt_position: Quantity = attrs.field(converter=length)
    cap_holes_position: Quantity = attrs.field(converter=length)
    lever_allowance: Quantity = attrs.field(converter=size_or_zero)
    cap_allowance: Quantity = attrs.field(converter=size_or_zero)
    space_behind: Quantity = attrs.field(converter=size_or_zero)
    arm_stop: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(length)
    )
    anchor_stop: Quantity | None = attrs.field(
        default=None, converter=attrs.converters.optional(length)
    )
    left: StandardParts
    right: StandardParts | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse stops that leave no travel, and an arm that points to the other side."""
        super().__attrs_post_init__()
        droop, bump = si(self.droop_stop, ANGLE), si(self.bump_stop, ANGLE)
        if not -_UPRIGHT < droop < bump < _UPRIGHT:
            raise GeometryError(
                "G106",
                value=f"{shown(self.droop_stop)} to {shown(self.bump_stop)}",
                expected="a droop stop under the bump stop, both within 90° of the horizontal",
                remedy="angles are positive in the bump sense: check the signs",
                key="droop_stop",
            )
        if self.arm_direction[1] < 0.0:
            raise GeometryError(
                "G105",
                value=self.arm_direction,
                expected="the left corner's direction, which does not point to the right",
                remedy="give x forward, y left, z up, from the bar axis to the left wheel",
                key="arm_direction",
            )

    def standard(self, side: Side) -> StandardParts:
        """Return the standard parts of one corner."""
        return self.right if side is Side.RIGHT and self.right else self.left


@attrs.frozen(kw_only=True, field_transformer=named)
class Chassis(Part):
    """A vehicle, as far as its torsion bars are concerned.

    Parameters
    ----------
    wheelbase : Quantity
        Between the axles.
    axles : tuple of Axle
        Those with torsion bars.
    """

    wheelbase: Quantity = attrs.field(converter=size)
    axles: tuple[Axle, ...]

    def __attrs_post_init__(self) -> None:
        """Refuse two axles in one place."""
        super().__attrs_post_init__()
        places = [axle.place.value for axle in self.axles]
        if len(set(places)) < len(places) or not places:
            raise SchemaError(
                "S207",
                value=", ".join(places) or "no axle",
                expected="at least one axle, each in a place of its own",
                remedy="say front or rear, once each",
                key="axles",
            )
