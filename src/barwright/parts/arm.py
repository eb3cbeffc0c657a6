"""Suspension arms."""

from __future__ import annotations

import attrs

from barwright.parts.bar import Side
from barwright.parts.common.fields import named, size
from barwright.parts.common.record import Part
from barwright.parts.spline import Socket
from barwright.units import Quantity

__all__ = ["Arm"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Arm(Part):
    """An arm that turns with the bar.

    Parameters
    ----------
    radius : Quantity
        Distance from the bar axis to the ball joint, or to the wheel of a swing arm.
    socket : Socket
        The spline that takes the bar.
    made_for : Side, optional
        The side that it fits; left out if the left and right parts mirror each other.
    """

    radius: Quantity = attrs.field(converter=size)
    socket: Socket
    made_for: Side | None = None
