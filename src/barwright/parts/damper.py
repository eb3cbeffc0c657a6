"""Dampers, whose open and closed lengths limit the arm's travel."""

from __future__ import annotations

import attrs

from barwright.errors import GeometryError
from barwright.parts.source import Part, Record, force, gas_slope, named, size
from barwright.units import Quantity, shown

__all__ = ["Damper", "GasCharge"]


@attrs.frozen(kw_only=True, field_transformer=named)
class GasCharge(Record):
    """The gas in a damper, which pushes it open.

    Parameters
    ----------
    force : Quantity
        Force at one length.
    at_length : Quantity
        That length, between the mounts.
    slope : Quantity
        Change of force with length; negative, since the gas pushes harder when
        the damper is shorter.
    """

    force: Quantity = attrs.field(converter=force)
    at_length: Quantity = attrs.field(converter=size)
    slope: Quantity = attrs.field(default="0 N/mm", converter=gas_slope)


@attrs.frozen(kw_only=True, field_transformer=named)
class Damper(Part):
    """A damper, or the damper of a strut.

    Parameters
    ----------
    open_length, closed_length : Quantity
        Between the mounts, fully out and fully in.
    gas : GasCharge, optional
        Left out for a damper without gas.
    """

    open_length: Quantity = attrs.field(converter=size)
    closed_length: Quantity = attrs.field(converter=size)
    gas: GasCharge | None = None

    def __attrs_post_init__(self) -> None:
        """Refuse a damper without stroke."""
        super().__attrs_post_init__()
        if self.closed_length >= self.open_length:
            raise GeometryError(
                "G106",
                value=shown(self.closed_length),
                expected=f"a closed length under the open length of {shown(self.open_length)}",
                remedy="check which of the two was measured",
                key="closed_length",
            )
