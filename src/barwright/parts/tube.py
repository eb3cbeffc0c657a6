"""Torque tubes, which hold the anchor end and carry the adjuster's lever."""

from __future__ import annotations

import attrs

from barwright.parts.bar import Side
from barwright.parts.common.fields import length, named, refuse_unless_under, size
from barwright.parts.common.record import Part
from barwright.parts.material import Material
from barwright.parts.spline import Socket
from barwright.units import Quantity

__all__ = ["Tube"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Tube(Part):
    """A tube around the bar, with the anchor socket at one end and a lever.

    Positions along the tube are counted from its end next to the arm, toward
    the anchor socket.

    Parameters
    ----------
    material : Material
        Steel of the tube.
    outside_diameter : Quantity
        Outside diameter of the tube.
    bore : Quantity
        Bore of the tube.
    lever_position : Quantity
        Position of the adjuster's lever.
    lever_radius : Quantity
        Distance from the bar axis to the lever's pin.
    cap_position : Quantity
        Position of the cap that holds the tube to the chassis.
    socket_position : Quantity
        Position of the near face of the anchor socket.
    socket : Socket
        The anchor socket; its key angle is from the lever's centreline.
    made_for : Side, optional
        The side that it fits; left out if the left and right parts mirror each other.
    """

    material: Material
    outside_diameter: Quantity = attrs.field(converter=size)
    bore: Quantity = attrs.field(converter=size)
    lever_position: Quantity = attrs.field(converter=length)
    lever_radius: Quantity = attrs.field(converter=size)
    cap_position: Quantity = attrs.field(converter=length)
    socket_position: Quantity = attrs.field(converter=size)
    socket: Socket
    made_for: Side | None = None

    def _check(self) -> None:
        """Refuse dimensions that no tube can have together."""
        super()._check()
        refuse_unless_under(
            "G104",
            small=self.bore,
            large=self.outside_diameter,
            key="bore",
            large_is="outside diameter",
        )
        refuse_unless_under(
            "G109",
            small=self.lever_position,
            large=self.socket_position,
            key="lever_position",
            large_is="socket's position",
            remedy="count both from the tube's end next to the arm",
        )
