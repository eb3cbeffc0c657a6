"""Dampers, whose open and closed lengths limit the arm's travel."""

from __future__ import annotations

import attrs

from barwright.parts.common.fields import (
    damping_rate_or_none,
    force,
    gas_slope,
    named,
    refuse_unless_under,
    size,
)
from barwright.parts.common.record import Part, Record
from barwright.units import Quantity

__all__ = ["Damper", "GasCharge"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class GasCharge(Record):
    """The gas in a damper, which pushes it open.

    Parameters
    ----------
    force : Quantity
        Force at one length.
    at_length : Quantity
        That length, between the mounts.
    slope : Quantity
        Change of force with length. It is negative: the shorter the damper, the harder the gas
        pushes.
    """

    force: Quantity = attrs.field(converter=force)
    at_length: Quantity = attrs.field(converter=size)
    slope: Quantity = attrs.field(default="0 N/mm", converter=gas_slope)


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Damper(Part):
    """A damper, or the damper of a strut.

    Parameters
    ----------
    open_length : Quantity
        Length between the mounts, fully extended.
    closed_length : Quantity
        Length between the mounts, fully compressed.
    gas : GasCharge, optional
        Gas charge; left out for a damper without gas.
    damping_rate : Quantity, optional
        Force per speed of the rod: the mean of bump and rebound at the speed of interest.
    """

    open_length: Quantity = attrs.field(converter=size)
    closed_length: Quantity = attrs.field(converter=size)
    gas: GasCharge | None = None
    damping_rate: Quantity | None = attrs.field(default=None, converter=damping_rate_or_none)

    def _check(self) -> None:
        """Refuse a damper without stroke."""
        super()._check()
        refuse_unless_under(
            "G106",
            small=self.closed_length,
            large=self.open_length,
            key="closed_length",
            large_is="open length",
        )
