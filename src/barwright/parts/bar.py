"""Torsion bars."""

from __future__ import annotations

import enum

import attrs

from barwright.errors import GeometryError, SchemaError
from barwright.parts.common.fields import (
    angle,
    as_far_as_known,
    named,
    refuse_unless_under,
    size,
    size_or_none,
    torsional_rate_or_none,
    twist_or_none,
)
from barwright.parts.common.record import Part
from barwright.parts.material import Material
from barwright.parts.spline import BarEnd
from barwright.units import LENGTH, UNKNOWN, Quantity, is_unknown, shown, si

__all__ = ["Bar", "Side"]


class Side(enum.Enum):
    """A side of the vehicle."""

    LEFT = "left"
    RIGHT = "right"


def _usual_blank_angle(bar: Bar) -> str:
    """Return the angle between the blanks of a bar that does not say it."""
    has_both = bar.arm_end.has_makers_blank and bar.anchor_end.has_makers_blank
    return "0 deg" if has_both else UNKNOWN


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Bar(Part):
    """A round bar with a splined head at each end.

    Parameters
    ----------
    material : Material
        Steel.
    diameter : Quantity
        Of the body.
    bore : Quantity, optional
        Bore of a hollow bar, through its whole length.
    length : Quantity
        Length over both splines, from outer edge to outer edge, without noses.
    arm_end : BarEnd
        The splined end in the socket of the arm.
    anchor_end : BarEnd
        The splined end in the socket of the anchor.
    blank_angle : Quantity
        Angle from the anchor-end blank to the arm-end blank, right-handed about the bar axis
        (anchor end to arm end); of an end without a blank, to the tooth that carries its mark.
        Unknown, if it is left out, where an end has no blank.
    made_for : Side, optional
        The side that its blanks or its pre-setting are made for.
    preset : bool
        Whether its maker twisted it beyond yield. It then works in one direction only.
    preset_twist : Quantity, optional
        Twist between the heads at which a solid bar was held when it was pre-set.
    measured_rate : Quantity, optional
        Torsional rate of the bar as it lies in its sockets, where that was measured: it takes
        the place of the rate that diameter, length and steel give.
    """

    material: Material
    diameter: Quantity = attrs.field(converter=size)
    bore: Quantity | None = attrs.field(default=None, converter=size_or_none)
    length: Quantity = attrs.field(converter=size)
    arm_end: BarEnd
    anchor_end: BarEnd
    blank_angle: Quantity = attrs.field(
        default=attrs.Factory(_usual_blank_angle, takes_self=True), converter=angle
    )
    made_for: Side | None = None
    preset: bool = False
    preset_twist: Quantity | None = attrs.field(default=None, converter=twist_or_none)
    measured_rate: Quantity | None = attrs.field(default=None, converter=torsional_rate_or_none)

    def _check(self) -> None:
        """Refuse dimensions that no bar can have together."""
        super()._check()
        self._check_bore()
        self._check_sides()
        self._check_blank_angle()
        self._check_preset_twist()
        self._check_length()

    def _check_blank_angle(self) -> None:
        if is_unknown(self.blank_angle) or all(
            end.shows_its_count for end in (self.arm_end, self.anchor_end)
        ):
            return
        raise SchemaError(
            "S207",
            value=f"a blank_angle of {shown(self.blank_angle)}",
            expected="none, since an end shows no tooth to measure it from",
            remedy="leave it out, or say what shows the tooth with mark, like 'a punched dot'",
            key="blank_angle",
        )

    def _check_bore(self) -> None:
        if self.bore is None:
            return
        for name, outside in (
            ("diameter", self.diameter),
            ("arm_end.root_diameter", self.arm_end.root_diameter),
            ("anchor_end.root_diameter", self.anchor_end.root_diameter),
        ):
            refuse_unless_under("G104", small=self.bore, large=outside, key="bore", large_is=name)

    def _check_sides(self) -> None:
        if self.preset and self.made_for is None:
            raise SchemaError(
                "S207",
                value="preset without made_for",
                expected="the side that a pre-set bar is made for",
                remedy="add made_for = 'left' or 'right'",
                key="made_for",
            )

    def _check_preset_twist(self) -> None:
        if self.preset_twist is None or (self.preset and self.bore is None):
            return
        raise SchemaError(
            "S207",
            value=f"a preset_twist of {shown(self.preset_twist)}",
            expected="a preset_twist only for a solid bar that is pre-set",
            remedy="add preset = true, or leave it out; leave it out for a hollow bar",
            key="preset_twist",
        )

    @as_far_as_known
    def _check_length(self) -> None:
        heads = sum(
            si(end.length, LENGTH) + si(end.taper, LENGTH) + _most_of_fillet(end)
            for end in (self.arm_end, self.anchor_end)
        )
        if heads >= si(self.length, LENGTH):
            raise GeometryError(
                "G103",
                value=shown(self.length),
                expected=f"more than both splines, tapers and fillets, {heads * 1000:g} mm",
                remedy="give the length over both splines",
                key="length",
            )


def _most_of_fillet(end: BarEnd) -> float:
    """Length [m] that a fillet is never longer than."""
    return 0.0 if end.fillet_radius is None else si(end.fillet_radius, LENGTH)
