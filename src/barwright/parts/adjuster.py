"""Adjusters: the bolt and nut that set the angle of the anchor's lever."""

from __future__ import annotations

import enum

import attrs

from barwright.errors import GeometryError
from barwright.parts.source import (
    Part,
    Record,
    angle,
    length,
    named,
    refuse_unless_under,
    size,
    size_or_zero,
)
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["Adjuster", "FixedLineMounting", "LeverSide", "SwivellingMounting"]


class LeverSide(enum.Enum):
    """Which side of its bolt's head or pivot a lever lies on."""

    BUMPWARD = "bumpward"
    DROOPWARD = "droopward"


@attrs.frozen(kw_only=True, field_transformer=named)
class SwivellingMounting(Record):
    """A bolt that swivels on a pivot of the chassis; positions count from it.

    Parameters
    ----------
    pivot_distance : Quantity
        From the bar axis to the bolt's pivot.
    pivot_angle : Quantity
        Angle of that pivot above the arm's horizontal, in the bump sense.
    """

    pivot_distance: Quantity = attrs.field(converter=size)
    pivot_angle: Quantity = attrs.field(converter=angle)


@attrs.frozen(kw_only=True, field_transformer=named)
class FixedLineMounting(Record):
    """A bolt that stays on a fixed line, along which the lever's pin slides.

    Positions along the bolt count from its head.

    Parameters
    ----------
    line_distance : Quantity
        From the bar axis to the bolt's line.
    foot_angle : Quantity
        Angle of the perpendicular to that line above the arm's horizontal, in
        the bump sense.
    foot_position : Quantity
        Of its foot along the bolt.
    """

    line_distance: Quantity = attrs.field(converter=size)
    foot_angle: Quantity = attrs.field(converter=angle)
    foot_position: Quantity = attrs.field(converter=length)


@attrs.frozen(kw_only=True, field_transformer=named)
class Adjuster(Part):
    """A bolt that holds the anchor's lever by a nut with a right-handed thread.

    Parameters
    ----------
    mounting : SwivellingMounting or FixedLineMounting
        How the bolt is held.
    lever_lies : LeverSide
        Side of the bolt's head or pivot that the lever lies on, in the bump
        sense: bumpward, and the bolt pulls; droopward, and it pushes.
    thread_diameter, thread_pitch : Quantity
        Of the ISO metric thread.
    thread_start, thread_end : Quantity
        First and last full thread, along the bolt.
    nut_height : Quantity
        All of which must be engaged.
    spacer : Quantity
        Thickness between nut and lever pin.
    """

    mounting: SwivellingMounting | FixedLineMounting
    lever_lies: LeverSide
    thread_diameter: Quantity = attrs.field(converter=size)
    thread_pitch: Quantity = attrs.field(converter=size)
    thread_start: Quantity = attrs.field(converter=size)
    thread_end: Quantity = attrs.field(converter=size)
    nut_height: Quantity = attrs.field(converter=size)
    spacer: Quantity = attrs.field(default="0 mm", converter=size_or_zero)

    def __attrs_post_init__(self) -> None:
        """Refuse a thread that is no longer than the nut."""
        super().__attrs_post_init__()
        refuse_unless_under(
            "G102",
            self.thread_pitch,
            self.thread_diameter / 2.0,
            key="thread_pitch",
            large_is="half diameter",
        )
        usable = si(self.thread_end, LENGTH) - si(self.thread_start, LENGTH)
        if usable <= si(self.nut_height, LENGTH):
            raise GeometryError(
                "G102",
                value=f"{usable * 1000:g} mm of thread",
                expected=f"more than the nut's height of {shown(self.nut_height)}",
                remedy="check where the thread begins and ends",
                key="thread_end",
            )
