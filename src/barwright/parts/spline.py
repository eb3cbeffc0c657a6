"""Splines: the ends of a bar and the sockets that take them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import cast

import attrs

from barwright.errors import SchemaError
from barwright.parts.common.fields import (
    angle,
    as_far_as_known,
    named,
    refuse_unless_under,
    size,
    size_or_none,
    size_or_zero,
    tooth_count,
)
from barwright.parts.common.record import Record
from barwright.units import Quantity, shown

__all__ = ["BarEnd", "Socket"]


def _blanks(value: Iterable[int] | int) -> tuple[int, ...]:
    """Accept the numbers of missing teeth; an end may have none."""
    is_list = isinstance(value, Iterable) and not isinstance(value, str)
    numbers = tuple(cast("Iterable[int]", value)) if is_list else ()
    whole = is_list and all(type(n) is int for n in numbers)
    if not whole or len(set(numbers)) != len(numbers):
        raise SchemaError(
            "S203",
            value=numbers or value,
            expected="different whole numbers, including the maker's blank 0",
            remedy="list the missing teeth, like [0, 3], or [] for an end without a blank",
        )
    return tuple(sorted(numbers))


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class BarEnd(Record):
    """A splined end of a bar.

    Parameters
    ----------
    teeth : int
        Tooth count of the whole circle, blanks included.
    form : str
        Tooth form; it mates with a socket of the same form and count.
    length : Quantity
        Length of the spline.
    major_diameter : Quantity
        Diameter over the teeth.
    root_diameter : Quantity
        Diameter of the root circle.
    taper : Quantity
        Length of the cone between head and body.
    fillet_radius : Quantity, optional
        Radius of the fillet between body and head, if there is no cone.
    nose : Quantity
        Plain length beyond the spline.
    nose_diameter : Quantity, optional
        Of that length, where it is thinner than the teeth.
    blanks : tuple of int
        Teeth that are missing, counted right-handed about the bar axis (anchor
        end to arm end) from the maker's blank, which is 0; none on an end without a blank.
    mark : str, optional
        What shows tooth 0 of an end without a maker's blank, such as a punched dot.
    """

    teeth: int = attrs.field(converter=tooth_count)
    form: str
    length: Quantity = attrs.field(converter=size)
    major_diameter: Quantity = attrs.field(converter=size)
    root_diameter: Quantity = attrs.field(converter=size)
    taper: Quantity = attrs.field(converter=size_or_zero)
    fillet_radius: Quantity | None = attrs.field(default=None, converter=size_or_none)
    nose: Quantity = attrs.field(default="0 mm", converter=size_or_zero)
    nose_diameter: Quantity | None = attrs.field(default=None, converter=size_or_none)
    blanks: tuple[int, ...] = attrs.field(
        default=(0,), converter=_blanks, metadata={"differ": True}
    )
    mark: str | None = None

    @property
    def has_makers_blank(self) -> bool:
        """Whether tooth 0 is missing since the maker left it out."""
        return 0 in self.blanks

    @property
    def shows_its_count(self) -> bool:
        """Whether teeth can be counted from something that the end itself shows."""
        return self.has_makers_blank or self.mark is not None

    def _check(self) -> None:
        """Refuse roots outside the tips, a fillet beside a cone, and teeth that are not there."""
        super()._check()
        refuse_unless_under(
            "G107",
            small=self.root_diameter,
            large=self.major_diameter,
            key="root_diameter",
            large_is="major diameter",
        )
        self._check_fillet()
        self._check_nose()
        self._check_mark()
        self._check_blanks()

    @as_far_as_known
    def _check_fillet(self) -> None:
        if self.fillet_radius is not None and self.taper.magnitude:
            raise SchemaError(
                "S207",
                value=f"a fillet of {shown(self.fillet_radius)} beside a cone",
                expected="a fillet or a cone between head and body",
                remedy="write taper = '0 mm' for a head with a fillet",
                key="fillet_radius",
            )

    @as_far_as_known
    def _check_nose(self) -> None:
        if self.nose_diameter is None:
            return
        if not self.nose.magnitude or self.nose_diameter >= self.major_diameter:
            raise SchemaError(
                "S207",
                value=f"a nose of {shown(self.nose)} with a diameter of "
                f"{shown(self.nose_diameter)}",
                expected=f"one that has a length, and is thinner than the teeth of "
                f"{shown(self.major_diameter)}",
                remedy="write the length of the nose, or leave nose_diameter out",
                key="nose_diameter",
            )

    def _check_mark(self) -> None:
        if self.blanks and not self.shows_its_count:
            raise SchemaError(
                "S207",
                value=self.blanks,
                expected="the maker's blank 0 among the missing teeth",
                remedy="count from it, like [0, 3], or write [] for an end without a blank",
                key="blanks",
            )
        if self.has_makers_blank and self.mark is not None:
            raise SchemaError(
                "S207",
                value=self.mark,
                expected="no mark on an end that has a maker's blank",
                remedy="leave the mark out, or write blanks = [] for an end without a blank",
                key="mark",
            )

    @as_far_as_known
    def _check_blanks(self) -> None:
        places = {number % self.teeth for number in self.blanks}
        beyond = any(abs(number) >= self.teeth for number in self.blanks)
        if beyond or len(places) < len(self.blanks) or len(places) == self.teeth:
            raise SchemaError(
                "S207",
                value=self.blanks,
                expected=f"different teeth, but not all {self.teeth} of the end",
                remedy="count each missing tooth once, from the maker's blank",
                key="blanks",
            )


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Socket(Record):
    """A splined socket in an arm or an anchor.

    Parameters
    ----------
    teeth : int
        Tooth count of the whole circle, the key included.
    form : str
        Tooth form.
    length : Quantity
        Length of the spline.
    minor_diameter : Quantity
        Diameter inside the teeth. A bar that passes without engaging is smaller.
    required_engagement : Quantity
        Least overlap with the bar's spline.
    key_angle : Quantity
        Angle from the centreline of arm or lever to the key, in the bump sense, as fitted on
        its side.
    keyed : bool
        Whether the socket has its key, the filled groove that only a blank can pass.
    """

    teeth: int = attrs.field(converter=tooth_count)
    form: str
    length: Quantity = attrs.field(converter=size)
    minor_diameter: Quantity = attrs.field(converter=size)
    required_engagement: Quantity = attrs.field(converter=size)
    key_angle: Quantity = attrs.field(converter=angle)
    keyed: bool = True

    def _check(self) -> None:
        """Refuse a socket that asks for more engagement than it is long."""
        super()._check()
        self._check_engagement()

    @as_far_as_known
    def _check_engagement(self) -> None:
        if self.required_engagement > self.length:
            raise SchemaError(
                "S207",
                value=shown(self.required_engagement),
                expected=f"at most the socket's length of {shown(self.length)}",
                remedy="check both lengths and their units",
                key="required_engagement",
            )
