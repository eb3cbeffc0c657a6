"""A whole vehicle as it was weighed and measured, and what is known of both axles."""

from __future__ import annotations

from typing import ClassVar

import attrs

from barwright.errors import QuantityError, SchemaError
from barwright.parts.common.fields import (
    figure_fields,
    length_or_none,
    mass_or_none,
    named,
    rate_or_none,
    shear_modulus_or_none,
    size_or_none,
    size_or_zero_or_none,
    torsional_rate_or_none,
    turns_or_none,
)
from barwright.parts.common.record import Record
from barwright.units import Quantity, is_unknown

__all__ = ["AxleAntiRollBar", "WeighedAxle", "WeighedWheel", "WholeVehicle"]


class _AsKnown:
    """What records share in which a figure that is unknown is simply left out."""

    __slots__ = ()

    # What a job says is known.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    def _check(self) -> None:
        """Leave out what is unknown."""
        for name in figure_fields(type(self)):
            if is_unknown(getattr(self, name)):
                object.__setattr__(self, name, None)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class AxleAntiRollBar(_AsKnown, Record):
    """Anti-roll bar of an axle: its rate in one of the three ways in use, or its own sizes.

    Parameters
    ----------
    one_wheel_rate : Quantity, optional
        Force at one wheel for its travel, with the other wheel held.
    both_wheels_rate : Quantity, optional
        Force at each wheel for its travel, with both wheels moving against each other: twice
        the former.
    roll_rate : Quantity, optional
        Moment for the roll angle of the body.
    diameter : Quantity, optional
        Diameter of its round, solid body, where no rate is known.
    length : Quantity, optional
        Of the body between its levers.
    lever_length : Quantity, optional
        From the body's axis to the drop link, square to both.
    link_distance, wheel_distance : Quantity, optional
        From the pivot of the suspension arm to the drop link and to the middle of the tyre; the
        link moves as far as the wheel, if they are left out.
    shear_modulus : Quantity, optional
        Of its steel; the usual one, if left out.
    """

    one_wheel_rate: Quantity | None = attrs.field(default=None, converter=rate_or_none)
    both_wheels_rate: Quantity | None = attrs.field(default=None, converter=rate_or_none)
    roll_rate: Quantity | None = attrs.field(default=None, converter=torsional_rate_or_none)
    diameter: Quantity | None = attrs.field(default=None, converter=size_or_none)
    length: Quantity | None = attrs.field(default=None, converter=size_or_none)
    lever_length: Quantity | None = attrs.field(default=None, converter=size_or_none)
    link_distance: Quantity | None = attrs.field(default=None, converter=size_or_none)
    wheel_distance: Quantity | None = attrs.field(default=None, converter=size_or_none)
    shear_modulus: Quantity | None = attrs.field(default=None, converter=shear_modulus_or_none)

    def _check(self) -> None:
        """Refuse no rate and two at once, and sizes of which some are missing."""
        super()._check()
        rates = [name for name in _RATES if getattr(self, name) is not None]
        sizes = [name for name in _SIZES if getattr(self, name) is not None]
        if len(rates) + bool(sizes) != 1:
            raise SchemaError(
                "S207",
                value=" and ".join(rates + sizes[:1]) or "no rate",
                expected="one of one_wheel_rate, both_wheels_rate and roll_rate, or its sizes",
                remedy="give the rate whose conditions are known, or measure the bar",
                key=next(iter(rates + sizes), "one_wheel_rate"),
            )
        distances = (self.link_distance is None, self.wheel_distance is None)
        missing = [name for name in _SIZES if sizes and name not in sizes]
        missing += ["link_distance and wheel_distance"] if len(set(distances)) > 1 else []
        if missing:
            raise SchemaError(
                "S202",
                value=f"no {missing[0]}",
                expected=f"{', '.join(_SIZES)}, and both distances or none",
                remedy="measure it, or give a rate",
                key=missing[0].partition(" ")[0],
            )


_RATES = ("one_wheel_rate", "both_wheels_rate", "roll_rate")
_SIZES = ("diameter", "length", "lever_length")


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class WeighedWheel(_AsKnown, Record):
    """One wheel as it stood when all four were weighed; what was not read is left out.

    Parameters
    ----------
    scale_reading : Quantity, optional
        Mass shown by a scale under the tyre.
    height : Quantity, optional
        Hub to arch.
    nut_turns, pin_distance : Quantity, optional
        Where the nut was, in turns from mid-thread or as measured.
    """

    scale_reading: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    nut_turns: Quantity | None = attrs.field(default=None, converter=turns_or_none)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)

    def _check(self) -> None:
        """Refuse two places of one nut."""
        super()._check()
        if self.nut_turns is not None and self.pin_distance is not None:
            raise SchemaError(
                "S207",
                value="nut_turns and pin_distance",
                expected="one of them",
                remedy="keep the one that was measured",
                key="pin_distance",
            )


_NOT_READ = WeighedWheel()


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class WeighedAxle(_AsKnown, Record):
    """One axle of a vehicle that was weighed; what is not known is left out.

    Parameters
    ----------
    track : Quantity, optional
        Between the middles of both tyres.
    scale_reading : Quantity, optional
        Mass that both wheels showed together on one scale.
    wanted_height : Quantity, optional
        Hub to arch, wanted on both sides.
    wheel_rate : Quantity, optional
        Rate at each wheel, of an axle without torsion bars.
    tyre_rate : Quantity, optional
        Vertical rate of each tyre, of an axle without torsion bars.
    unsprung_mass : Quantity, optional
        Unsprung mass of each wheel, of an axle without torsion bars.
    anti_roll_bar : AxleAntiRollBar, optional
        Its anti-roll bar; none if there is none.
    roll_centre : Quantity, optional
        Height of the roll centre above the road.
    left, right : WeighedWheel
        Its wheels.
    """

    track: Quantity | None = attrs.field(default=None, converter=size_or_none)
    scale_reading: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    wanted_height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    wheel_rate: Quantity | None = attrs.field(default=None, converter=rate_or_none)
    tyre_rate: Quantity | None = attrs.field(default=None, converter=rate_or_none)
    unsprung_mass: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    anti_roll_bar: AxleAntiRollBar | None = None
    roll_centre: Quantity | None = attrs.field(default=None, converter=length_or_none)
    left: WeighedWheel = _NOT_READ
    right: WeighedWheel = _NOT_READ


_NOT_KNOWN = WeighedAxle()


def _share(value: object) -> float | None:
    """Accept a cross weight in per cent."""
    if value is None:
        return None
    if isinstance(value, int | float) and not isinstance(value, bool) and 0.0 < value < _WHOLE:
        return float(value)
    raise QuantityError(
        "Q302",
        value=value,
        expected="a number between 0 and 100, in per cent",
        remedy="write 50.0 if both diagonals are to carry the same",
    )


_WHOLE = 100.0


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class WholeVehicle(_AsKnown, Record):
    """A vehicle on its four wheels, weighed and measured at one time.

    Each figure is a quantity or a text with its unit; what is not known is left out.

    Parameters
    ----------
    total : Quantity, optional
        Mass of the whole vehicle, weighed by itself.
    wanted_cross_weight : float, optional
        Wanted share of the front right and rear left wheels, in per cent.
    centre_of_gravity_height : Quantity, optional
        Of the sprung mass, above the road.
    roll_radius, pitch_radius : Quantity, optional
        Radius of gyration of the sprung mass about the lengthwise and the crosswise axis
        through its centre of gravity.
    front, rear : WeighedAxle
        Its axles.

    Examples
    --------
    >>> van = WholeVehicle(front=WeighedAxle(left=WeighedWheel(scale_reading="331 kg")))
    >>> f"{van.front.left.scale_reading:~P}"
    '331.0 kg'
    """

    total: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    wanted_cross_weight: float | None = attrs.field(default=None, converter=_share)
    centre_of_gravity_height: Quantity | None = attrs.field(
        default=None, converter=size_or_zero_or_none
    )
    roll_radius: Quantity | None = attrs.field(default=None, converter=size_or_none)
    pitch_radius: Quantity | None = attrs.field(default=None, converter=size_or_none)
    front: WeighedAxle = _NOT_KNOWN
    rear: WeighedAxle = _NOT_KNOWN
