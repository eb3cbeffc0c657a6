"""Adjusters: the bolt that sets the angle of the anchor's lever."""

from __future__ import annotations

import enum

import attrs

from barwright.errors import GeometryError, SchemaError
from barwright.parts.common.fields import (
    angle,
    as_far_as_known,
    length,
    named,
    refuse_unless_under,
    size,
    size_or_none,
    size_or_zero,
)
from barwright.parts.common.record import Part, Record
from barwright.units import (
    LENGTH,
    Quantity,
    quantity_of_unit,
    shown,
    si,
    unit_spelling,
    unknown,
)

__all__ = [
    "Adjuster",
    "ContactSide",
    "FixedLineMounting",
    "KeyBoltMounting",
    "LeverSide",
    "PropertyClass",
    "SwivellingMounting",
    "refuse_misplaced_nut",
]


class LeverSide(enum.Enum):
    """Side of its bolt's head or pivot on which a lever lies."""

    BUMPWARD = "bumpward"
    DROOPWARD = "droopward"


class PropertyClass(enum.Enum):
    """Property class of a steel bolt, as marked on its head."""

    CLASS_8_8 = "8.8"
    CLASS_10_9 = "10.9"


class ContactSide(enum.Enum):
    """Side of the bolt's foot on which its end meets a key lever's face."""

    BUMPWARD = "bumpward"
    DROOPWARD = "droopward"


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class SwivellingMounting(Record):
    """A bolt that swivels on a pivot of the chassis; positions count from it.

    Parameters
    ----------
    pivot_distance : Quantity
        Distance from the bar axis to the bolt's pivot.
    pivot_angle : Quantity
        Angle of that pivot above the arm's horizontal, in the bump sense.
    """

    pivot_distance: Quantity = attrs.field(converter=size)
    pivot_angle: Quantity = attrs.field(converter=angle)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class FixedLineMounting(Record):
    """A bolt that stays on a fixed line, along which the lever's pin slides.

    Positions along the bolt count from its head.

    Parameters
    ----------
    line_distance : Quantity
        Distance from the bar axis to the bolt's line.
    foot_angle : Quantity
        Angle of the perpendicular to that line above the arm's horizontal, in
        the bump sense.
    foot_position : Quantity
        Position of the foot of that perpendicular along the bolt.
    """

    line_distance: Quantity = attrs.field(converter=size)
    foot_angle: Quantity = attrs.field(converter=angle)
    foot_position: Quantity = attrs.field(converter=length)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class KeyBoltMounting(Record):
    """A bolt that is screwed through a cross-member and pushes a key lever's face.

    Its rounded end runs on a fixed line.  Positions along the bolt count from the
    cross-member, toward that end.

    Parameters
    ----------
    line_distance : Quantity
        Distance from the bar axis to the bolt's line.
    foot_angle : Quantity
        Angle of the perpendicular to that line above the arm's horizontal, in
        the bump sense.
    foot_position : Quantity
        Position of the foot of that perpendicular along the bolt.
    end_radius : Quantity
        Radius of the bolt's rounded end.
    stretch : ContactSide
        Side of the foot on which the bolt works. It matters only if the lever's face begins
        beyond the point where the bolt would touch it at its foot.
    """

    line_distance: Quantity = attrs.field(converter=size)
    foot_angle: Quantity = attrs.field(converter=angle)
    foot_position: Quantity = attrs.field(converter=length)
    end_radius: Quantity = attrs.field(converter=size_or_zero)
    stretch: ContactSide = ContactSide.BUMPWARD


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Adjuster(Part):
    """A bolt with a right-handed thread that holds the anchor's lever.

    On a tube's lever, a nut on the bolt is turned; on a key lever, the bolt itself is,
    in the thread of its cross-member.

    Parameters
    ----------
    mounting : SwivellingMounting, FixedLineMounting or KeyBoltMounting
        How the bolt is held.
    lever_lies : LeverSide
        Side of the bolt's head or pivot on which the lever lies. Bumpward: the bolt is pulled.
        Droopward: it is pushed, like every bolt against a key lever.
    thread_diameter : Quantity
        Nominal diameter of the ISO metric thread.
    thread_pitch : Quantity
        Pitch of that thread.
    thread_start : Quantity
        First full thread along the bolt. For a bolt that is screwed through a cross-member: the
        first position of its end.
    thread_end : Quantity
        Last full thread, counted likewise. For a bolt that is screwed through a cross-member:
        the last position of its end.
    property_class : PropertyClass, optional
        Property class of the bolt, as marked on its head.
    nut_height : Quantity, optional
        Height of the nut, all of which must be engaged; left out only if there is no nut.
    spacer : Quantity
        Thickness between nut and lever pin.
    """

    mounting: SwivellingMounting | FixedLineMounting | KeyBoltMounting
    lever_lies: LeverSide
    thread_diameter: Quantity = attrs.field(converter=size)
    thread_pitch: Quantity = attrs.field(converter=size)
    thread_start: Quantity = attrs.field(converter=size)
    thread_end: Quantity = attrs.field(converter=size)
    property_class: PropertyClass | None = None
    nut_height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    spacer: Quantity = attrs.field(default="0 mm", converter=size_or_zero)

    def _check(self) -> None:
        """Refuse a thread that is no longer than the nut, and a bolt that holds nothing."""
        super()._check()
        self._check_pitch()
        if isinstance(self.mounting, KeyBoltMounting):
            self._refuse_what_has_no_nut()
        elif self.nut_height is None:
            # A nut has a height, whether it was measured or not.
            object.__setattr__(self, "nut_height", unknown())
        self._check_thread()

    @as_far_as_known
    def _check_pitch(self) -> None:
        refuse_unless_under(
            "G102",
            small=self.thread_pitch,
            large=_half(self.thread_diameter),
            key="thread_pitch",
            large_is="half diameter",
        )

    @property
    def is_screwed(self) -> bool:
        """Whether the bolt itself is turned, rather than a nut on it."""
        return isinstance(self.mounting, KeyBoltMounting)

    @as_far_as_known
    def _refuse_what_has_no_nut(self) -> None:
        wrong = {
            "nut_height": self.nut_height is not None and shown(self.nut_height),
            "spacer": bool(self.spacer.magnitude) and shown(self.spacer),
            "lever_lies": self.lever_lies is LeverSide.BUMPWARD and self.lever_lies.value,
        }
        for key, value in wrong.items():
            if value:
                raise SchemaError(
                    "S207",
                    value=value,
                    expected="a bolt without nut and spacer, with its lever droopward",
                    remedy="correct these keys: a bolt through a cross-member can only push",
                    key=key,
                )

    @as_far_as_known
    def _check_thread(self) -> None:
        usable = si(self.thread_end, LENGTH) - si(self.thread_start, LENGTH)
        nut = self.nut_height
        if usable <= (si(nut, LENGTH) if nut is not None else 0.0):
            than = "0 mm" if nut is None else f"the nut's height of {shown(nut)}"
            raise GeometryError(
                "G102",
                value=f"{usable * 1000:g} mm of thread",
                expected=f"more than {than}",
                remedy="check where the thread begins and ends",
                key="thread_end",
            )


def _half(length: Quantity) -> Quantity:
    return quantity_of_unit(length.magnitude / 2.0, unit_spelling(length))


@as_far_as_known
def refuse_misplaced_nut(
    adjuster: Adjuster | None, *, nut_turns: Quantity, pin_distance: Quantity | None
) -> None:
    """Refuse a place of the nut where there is none, and one that is given twice.

    Parameters
    ----------
    adjuster : Adjuster, optional
        What is turned; none with a fixed socket.
    nut_turns : Quantity
        Of the nut from the middle of its thread.
    pin_distance : Quantity, optional
        The same, measured.

    Raises
    ------
    SchemaError
        S207.
    """
    places = {"nut_turns": nut_turns, "pin_distance": pin_distance}
    given = {
        key: shown(place) for key, place in places.items() if place is not None and place.magnitude
    }
    for key, place in given.items() if adjuster is None else ():
        raise SchemaError(
            "S207",
            value=place,
            expected="none, because a fixed socket has nothing to turn",
            remedy=f"leave {key} out",
            key=key,
        )
    if len(given) > 1:
        raise SchemaError(
            "S207",
            value=" and ".join(f"{key} {place}" for key, place in given.items()),
            expected="only one of them, because both say where the nut stands",
            remedy="leave one out",
            key="pin_distance",
        )
