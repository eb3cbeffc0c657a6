"""What bars and tubes are made of."""

from __future__ import annotations

import attrs

from barwright.parts.common.fields import density_or_none, named, shear_modulus, stress_or_none
from barwright.parts.common.record import Part
from barwright.units import Quantity

__all__ = ["Material"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class Material(Part):
    """A steel, in the condition that its title names.

    Only the shear modulus is needed for a rate; what is not known is left out.

    Parameters
    ----------
    shear_modulus : Quantity
        Shear modulus. Published values for bar steels differ by ± 5 %, so give it a tolerance.
    youngs_modulus : Quantity, optional
        Modulus of elasticity.
    density : Quantity, optional
        Mass per volume.
    tensile_strength : Quantity, optional
        Tensile strength after heat treatment.
    proof_strength : Quantity, optional
        Tensile stress at a permanent extension of 0.2 %.
    permissible_shear : Quantity, optional
        Greatest shear stress at rest of a bar that is not pre-set.
    preset_permissible_shear : Quantity, optional
        Greatest shear stress at rest of a pre-set bar.
    """

    shear_modulus: Quantity = attrs.field(converter=shear_modulus)
    youngs_modulus: Quantity | None = attrs.field(default=None, converter=stress_or_none)
    density: Quantity | None = attrs.field(default=None, converter=density_or_none)
    tensile_strength: Quantity | None = attrs.field(default=None, converter=stress_or_none)
    proof_strength: Quantity | None = attrs.field(default=None, converter=stress_or_none)
    permissible_shear: Quantity | None = attrs.field(default=None, converter=stress_or_none)
    preset_permissible_shear: Quantity | None = attrs.field(default=None, converter=stress_or_none)
