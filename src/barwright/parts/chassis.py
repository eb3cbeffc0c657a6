"""Chassis: the vehicle's own geometry, and its standard parts."""

from __future__ import annotations

import enum
import math
from typing import TypeAlias

import attrs

from barwright.errors import GeometryError, SchemaError
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import Anchor, KeyLever, refuse_unmatched
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.common.fields import (
    angle,
    as_far_as_known,
    length,
    length_or_none,
    mass,
    named,
    rate,
    size,
    size_or_zero,
    size_or_zero_or_none,
)
from barwright.parts.common.identity import Month, month
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import Part, Record
from barwright.parts.damper import Damper
from barwright.parts.suspension import (
    ArmBushing,
    BumpRubber,
    DoubleWishboneMounting,
    HelperCoil,
    StrutMounting,
    SwingArmMounting,
)
from barwright.parts.tube import Tube
from barwright.units import ANGLE, Quantity, shown, si, unknown

__all__ = [
    "Axle",
    "AxlePlace",
    "BarEndName",
    "Chassis",
    "LoadPoint",
    "StandardParts",
    "Vector",
]

Vector: TypeAlias = tuple[float, float, float]
"""A direction in the vehicle axes of ISO 8855: x forward, y left, z up."""


_UPRIGHT = math.pi / 2.0


class AxlePlace(enum.Enum):
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


@attrs.frozen(kw_only=True, repr=False)
class StandardParts(Summarised):
    """Standard parts of one corner.

    Parameters
    ----------
    arm : record
        The arm that turns with the bar.
    bar : record
        The torsion bar.
    anchor : record
        What holds the bar's anchor end: a tube, a key lever, or a fixed socket.
    adjuster : record
        The adjuster of the lever; none with a fixed socket.
    damper : record
        The damper.
    """

    arm: Arm
    bar: Bar
    anchor: Anchor
    adjuster: Adjuster | None = None
    damper: Damper

    def __attrs_post_init__(self) -> None:
        """Refuse an anchor and an adjuster that cannot work together."""
        refuse_unmatched(self.anchor, self.adjuster)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Axle(Record):
    """One axle's geometry, given for its left corner; the right one mirrors it.

    Axial positions are counted from the arm socket's outer face, toward the anchor.

    Parameters
    ----------
    place : AxlePlace
        Front or rear.
    bar_axis : Vector
        Direction from the anchor end to the arm end, left corner.
    arm_direction : Vector
        Direction from the bar axis to the wheel, level and square to the bar, left corner.
    arm_axis : Vector, optional
        Axis of the arm's own bearings, left corner, parallel to the bar; the bar's if left out.
    entry : BarEndName
        End at which the bar goes in.
    suspension : StrutMounting, SwingArmMounting or DoubleWishboneMounting
        What guides the wheel.
    hub_outboard : Quantity
        Hub centre at the reference angle, outboard of the arm's ball joint or end.
    hub_up : Quantity
        Hub centre at the reference angle, up from the arm's ball joint or end.
    reference_angle : Quantity
        Arm angle at which the hub's place in the plane square to the bar axis is given.
    load_at : LoadPoint
        Where the load acts: tyre contact if the wheel tilts in this plane, hub if it rolls in it.
    tyre_radius : Quantity
        Loaded radius.
    tyre_rate : Quantity
        Vertical rate of the tyre.
    unsprung_mass : Quantity
        Unsprung mass of the corner.
    standard_mass : Quantity
        Sprung mass that the corner carries in standard trim.
    standard_height : Quantity
        Hub to arch in standard trim.
    measured_height : Quantity
        A measured height, hub to arch.
    measured_angle : Quantity
        Arm angle at the measured height.
    droop_stop : Quantity
        Least arm angle that the chassis allows with the damper off.
    bump_stop : Quantity
        Greatest arm angle that the chassis allows with the damper off.
    tube_position : Quantity
        Axial position of the end of the tube, key lever or fixed socket that is next to the arm.
    bolt_position : Quantity, optional
        Axial position of the adjuster's bolt; a fixed socket needs none.
    lever_allowance : Quantity, optional
        How far the lever may lie from that bolt; a fixed socket needs none.
    cap_holes_position : Quantity, optional
        Axial position of the holes for the tube's cap; only a tube needs it.
    cap_allowance : Quantity, optional
        How far the cap may lie from its holes; only a tube needs it.
    space_behind : Quantity
        Free space beyond the anchor socket.
    arm_stop : Quantity, optional
        Axial position that the arm end of the bar cannot pass.
    anchor_stop : Quantity, optional
        Axial position that the anchor end of the bar cannot pass.
    bump_rubber : BumpRubber, optional
        Rubber that is compressed before the hard bump stop.
    bushing : ArmBushing, optional
        Rubber that twists with the arm.
    helper_coil : HelperCoil, optional
        A coil over the damper.
    left : StandardParts
        Standard parts of the left corner.
    right : StandardParts, optional
        Standard parts of the right corner, if they are not the left's mirrored.
    """

    place: AxlePlace
    bar_axis: Vector
    arm_direction: Vector
    arm_axis: Vector | None = None
    entry: BarEndName
    suspension: StrutMounting | SwingArmMounting | DoubleWishboneMounting
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
    bolt_position: Quantity | None = attrs.field(default=None, converter=length_or_none)
    cap_holes_position: Quantity | None = attrs.field(default=None, converter=length_or_none)
    lever_allowance: Quantity | None = attrs.field(default=None, converter=size_or_zero_or_none)
    cap_allowance: Quantity | None = attrs.field(default=None, converter=size_or_zero_or_none)
    space_behind: Quantity = attrs.field(converter=size_or_zero)
    arm_stop: Quantity | None = attrs.field(default=None, converter=length_or_none)
    anchor_stop: Quantity | None = attrs.field(default=None, converter=length_or_none)
    bump_rubber: BumpRubber | None = None
    bushing: ArmBushing | None = None
    helper_coil: HelperCoil | None = None
    left: StandardParts
    right: StandardParts | None = None

    def _check(self) -> None:
        """Refuse stops that leave no travel, and an arm that points to the other side."""
        super()._check()
        self._check_travel()
        if self.arm_direction[1] < 0.0:
            raise GeometryError(
                "G105",
                value=self.arm_direction,
                expected="the left corner's direction, which does not point to the right",
                remedy="give x forward, y left, z up, from the bar axis to the left wheel",
                key="arm_direction",
            )
        for parts in filter(None, (self.left, self.right)):
            self._expect_places(parts.anchor)

    @as_far_as_known
    def _check_travel(self) -> None:
        droop, bump = si(self.droop_stop, ANGLE), si(self.bump_stop, ANGLE)
        if not -_UPRIGHT < droop < bump < _UPRIGHT:
            raise GeometryError(
                "G106",
                value=f"{shown(self.droop_stop)} to {shown(self.bump_stop)}",
                expected="a droop stop below the bump stop, both within 90° of the horizontal",
                remedy="check the signs: angles are positive in the bump sense",
                key="droop_stop",
            )

    def _expect_places(self, anchor: Anchor) -> None:
        """Hold the places that the axle's own anchor has for unknown where they are not given."""
        for name in _PLACES.get(type(anchor), ()):
            if getattr(self, name) is None:
                object.__setattr__(self, name, unknown())

    def refuse_without_place(self, anchor: Anchor) -> None:
        """Refuse an anchor whose bolt or cap has no place on this axle.

        Parameters
        ----------
        anchor : Tube, KeyLever or FixedSocket
            What holds the anchor end.

        Raises
        ------
        SchemaError
            S207.
        """
        for name in _PLACES.get(type(anchor), ()):
            if getattr(self, name) is None:
                raise SchemaError(
                    "S207",
                    value=f"no {name}",
                    expected=f"the {name} that {anchor.title} needs",
                    remedy="give it; only a fixed socket has no bolt, and only a tube has a cap",
                    key=name,
                )

    def standard(self, side: Side) -> StandardParts:
        """Return the standard parts of one corner."""
        return self.right if side is Side.RIGHT and self.right else self.left


_PLACES: dict[type[Part], tuple[str, ...]] = {
    KeyLever: ("bolt_position", "lever_allowance"),
    Tube: ("bolt_position", "lever_allowance", "cap_holes_position", "cap_allowance"),
}


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Chassis(Part):
    """A vehicle, as far as its torsion bars are concerned.

    Parameters
    ----------
    maker : str, optional
        Maker of the vehicle.
    model : str, optional
        Model name, without the maker.
    body : str, optional
        Kind of body, such as a panel van.
    trim : str, optional
        Grade of equipment, if that makes a difference.
    drive : str, optional
        Driven wheels.
    markets : tuple of str
        Where it was sold in this form; everywhere if empty.
    codes : tuple of str
        Chassis codes of its maker.
    first_built : Month, optional
        First month in which it was built in this form.
    last_built : Month, optional
        Last month in which it was built in this form.
    wheelbase : Quantity
        Between the axles.
    axles : tuple of Axle
        Axles with torsion bars.
    right_side : Chassis, optional
        The same vehicle with the figures of its right corners, where they differ.
    """

    maker: str | None = None
    model: str | None = None
    body: str | None = None
    trim: str | None = None
    drive: str | None = None
    markets: tuple[str, ...] = ()
    codes: tuple[str, ...] = ()
    first_built: Month | None = attrs.field(
        default=None, converter=attrs.converters.optional(month)
    )
    last_built: Month | None = attrs.field(default=None, converter=attrs.converters.optional(month))
    wheelbase: Quantity = attrs.field(converter=size)
    axles: tuple[Axle, ...]
    right_side: Chassis | None = None

    def _check(self) -> None:
        """Refuse two axles in one place, and an end before the beginning."""
        super()._check()
        if self.first_built and self.last_built and self.last_built < self.first_built:
            raise SchemaError(
                "S207",
                value=str(self.last_built),
                expected=f"{self.first_built}, when it was first built, or later",
                remedy="check which of the two months is wrong",
                key="last_built",
            )
        places = [axle.place.value for axle in self.axles]
        if len(set(places)) < len(places) or not places:
            raise SchemaError(
                "S207",
                value=", ".join(places) or "no axle",
                expected="at least one axle, and each place only once",
                remedy="write front or rear, each at most once",
                key="axles",
            )

    def corner(self, axle: Axle, side: Side) -> tuple[Chassis, Axle]:
        """Return the vehicle and one of its axles with the figures of one side.

        Parameters
        ----------
        axle : Axle
            The axle; one that is tried in the place of its own stays.
        side : Side
            The side.

        Returns
        -------
        (Chassis, Axle)
        """
        if self.right_side is None or side is Side.LEFT:
            return self, axle
        own = {one.place: one for one in self.right_side.axles}
        return self.right_side, own[axle.place] if axle in self.axles else axle

    def refuse_other_axle(self, axle: Axle) -> None:
        """Refuse an axle that is none of its own.

        Figures of an axle may be tried otherwise; the parts that it was built with tell whose
        it is.

        Parameters
        ----------
        axle : Axle
            An axle.

        Raises
        ------
        SchemaError
            S207.
        """
        if _built_with(axle) not in [_built_with(a) for a in self.axles if a.place is axle.place]:
            raise SchemaError(
                "S207",
                value=f"a {axle.place.value} axle with {axle.left.bar.id}",
                expected=f"an axle of {self.id}",
                remedy="take one of the chassis' own axles",
                key="axle",
            )


def _built_with(axle: Axle) -> tuple[str, ...]:
    """Ids of the parts that an axle's left corner left the works with."""
    parts = axle.left
    return (parts.arm.id, parts.bar.id, parts.anchor.id, parts.damper.id)
