"""Adjusters: the bolt and nut that set the angle of the anchor's lever."""

from __future__ import annotations

import enum

import attrs

from barwright.errors import GeometryError
from barwright.parts.source import Part, angle, named, size, size_or_zero
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["Adjuster", "LeverSide"]


class LeverSide(enum.Enum):
    """Which side of its bolt's pivot a lever lies on."""

    BUMPWARD = "bumpward"
    DROOPWARD = "droopward"


@attrs.frozen(kw_only=True, field_transformer=named)
class Adjuster(Part):
    """A bolt that swivels on a pivot of the chassis and holds the lever by a nut.

    The thread is right-handed.  Positions along the bolt are counted from its
    pivot.

    Parameters
    ----------
    pivot_distance : Quantity
        From the bar axis to the bolt's pivot.
    pivot_angle : Quantity
        Angle of that pivot above the arm's horizontal, in the bump sense.
    lever_lies : LeverSide
        Side of the pivot that the lever lies on, in the bump sense.
    thread_diameter, thread_pitch : Quantity
        Of the ISO metric thread.
    thread_start, thread_end : Quantity
        First and last full thread.
    nut_height : Quantity
        All of which must be engaged.
    spacer : Quantity
        Thickness between nut and lever pin.
    """

    pivot_distance: Quantity = attrs.field(converter=size)
    pivot_angle: Quantity = attrs.field(converter=angle)
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
        usable = si(self.thread_end, LENGTH) - si(self.thread_start, LENGTH)
        if usable <= si(self.nut_height, LENGTH):
            raise GeometryError(
                "G102",
                value=f"{usable * 1000:g} mm of thread",
                expected=f"more than the nut's height of {shown(self.nut_height)}",
                remedy="check where the thread begins and ends",
                key="thread_end",
            )
