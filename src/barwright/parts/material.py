"""What bars and tubes are made of."""

from __future__ import annotations

import attrs

from barwright.parts.source import Part, named, shear_modulus
from barwright.units import Quantity

__all__ = ["Material"]


@attrs.frozen(kw_only=True, field_transformer=named)
class Material(Part):
    """A steel.

    Parameters
    ----------
    shear_modulus : Quantity
        Published values for bar steels spread by ±5 %: give it a tolerance.
    """

    shear_modulus: Quantity = attrs.field(converter=shear_modulus)
