"""Rows of `barwright.mechanics.bar.fillets`: its field by scikit-fem, its shape by shapely.

The kernel was fitted to finite elements of the displacement.  It is held here against those of
another unknown, the stress function, and of none of the fillets that it was fitted to.
"""

from __future__ import annotations

import math

import numpy as np
import scipy.integrate

from barwright.mechanics.bar.fillets import (
    fillet_equivalent_length,
    fillet_length,
    fillet_mass,
    fillet_plane_length,
    fillet_stress_concentration,
)
from outside.shafts import fillet_outline, revolved
from shaft_fe import Fillet, stressed_shaft
from validation import Kind, Row

_FIELD = "scikit-fem: Michell's stress function of the filleted shaft"
_ARC = "shapely: circle of 32 000 sides, cut off at face or head"
_PILKEY = (
    "Pilkey, *Peterson's Stress Concentration Factors*: fit to the chart of the shouldered "
    "shaft in torsion"
)
_FITTED = "fitted"

_SHARP = {"diameter": 0.025, "head_diameter": 0.034, "fillet_radius": 0.0025}
_LONG = {"diameter": 0.025, "head_diameter": 0.030, "fillet_radius": 0.040}
_GENTLE = {"diameter": 0.025, "head_diameter": 0.030, "fillet_radius": 0.100}
_IN_WORDS = {
    "sharp": "25 mm body, 34 mm head, radius 2.5 mm",
    "long": "25 mm body, 30 mm head, radius 40 mm",
}


def meshed(
    *, diameter: float, head_diameter: float, fillet_radius: float, bore: float = 0.0
) -> Fillet:
    """The same fillet for the finite elements."""
    return Fillet(diameter=diameter, head_diameter=head_diameter, radius=fillet_radius, bore=bore)


def outline(
    *, diameter: float, head_diameter: float, fillet_radius: float
) -> list[tuple[float, float]]:
    """The same fillet as points of its surface."""
    return fillet_outline(diameter=diameter, head_diameter=head_diameter, radius=fillet_radius)


def twisted(*, diameter: float, head_diameter: float, fillet_radius: float, bore: float) -> float:
    """Length of body that twists as the circle above it does, if sections stay plane [m]."""
    wall, step = diameter**4 - bore**4, (head_diameter - diameter) / 2.0
    end = math.sqrt(fillet_radius**2 - (fillet_radius - step) ** 2)

    def share(along: float) -> float:
        above = fillet_radius - math.sqrt(fillet_radius**2 - along**2)
        return wall / ((diameter + 2.0 * above) ** 4 - bore**4)

    return float(scipy.integrate.quad(share, 0.0, end, epsabs=0.0, epsrel=1e-12)[0])


def concentration_by_pilkey(*, step: float, radius: float, head_diameter: float) -> float:
    """Published curve for a step of 0.25 to 4 radii; its coefficients from memory."""
    share, ratio = 2.0 * step / head_diameter, step / radius
    coefficients = (
        0.905 + 0.783 * ratio**0.5 - 0.075 * ratio,
        -0.437 - 1.969 * ratio**0.5 + 0.553 * ratio,
        1.557 + 1.073 * ratio**0.5 - 0.578 * ratio,
        -1.061 + 0.171 * ratio**0.5 + 0.086 * ratio,
    )
    return float(np.polyval(coefficients[::-1], share))


ROWS = [
    Row(
        of="fillets.fillet_length",
        source=_ARC,
        given=_IN_WORDS["long"],
        unit="mm",
        expected=lambda: outline(**_LONG)[-1][0] * 1e3,
        got=lambda: float(fillet_length(**_LONG)) * 1e3,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_length",
        source=_ARC,
        given=_IN_WORDS["sharp"],
        unit="mm",
        expected=lambda: outline(**_SHARP)[-1][0] * 1e3,
        got=lambda: float(fillet_length(**_SHARP)) * 1e3,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_mass",
        source=f"{_ARC}; centroid and area of the half section, by Pappus's theorem",
        given=f"{_IN_WORDS['long']}, 8 mm bore, 7850 kg/m³",
        unit="g",
        expected=lambda: 7850e3 * revolved(outline(**_LONG), bore=0.008),
        got=lambda: float(fillet_mass(density=7850.0, bore=0.008, **_LONG)) * 1e3,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_mass",
        source=f"{_ARC}; centroid and area of the half section, by Pappus's theorem",
        given=f"{_IN_WORDS['sharp']}, 7850 kg/m³",
        unit="g",
        expected=lambda: 7850e3 * revolved(outline(**_SHARP)),
        got=lambda: float(fillet_mass(density=7850.0, **_SHARP)) * 1e3,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_plane_length",
        source="scipy: the twist of plane sections, integrated along the axis",
        given="25 mm body, 30 mm head, radius 100 mm, 16 mm bore",
        unit="mm",
        expected=lambda: twisted(**_GENTLE, bore=0.016) * 1e3,
        got=lambda: float(fillet_plane_length(**_GENTLE, bore=0.016)) * 1e3,
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_equivalent_length",
        source=_FIELD,
        given=_IN_WORDS["sharp"],
        unit="mm",
        expected=lambda: stressed_shaft(meshed(**_SHARP)).equivalent_length * 1e3,
        got=lambda: float(fillet_equivalent_length(**_SHARP)) * 1e3,
        within=4e-3,
        why=f"{_FITTED} within 0.0005 body diameters",
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_equivalent_length",
        source=_FIELD,
        given=f"{_IN_WORDS['long']}, 12.5 mm bore",
        unit="mm",
        expected=lambda: stressed_shaft(meshed(**_LONG, bore=0.0125)).equivalent_length * 1e3,
        got=lambda: float(fillet_equivalent_length(**_LONG, bore=0.0125)) * 1e3,
        within=4e-3,
        why=f"{_FITTED} within 0.002 body diameters",
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_stress_concentration",
        source=_FIELD,
        given=_IN_WORDS["sharp"],
        unit="",
        expected=lambda: stressed_shaft(meshed(**_SHARP)).peak,
        got=lambda: float(fillet_stress_concentration(**_SHARP)),
        within=3e-3,
        why=f"{_FITTED} within 0.3 %",
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fillets.fillet_stress_concentration",
        source=_PILKEY,
        given="25 mm body, 30 mm head, radius 1.25 mm",
        unit="",
        expected=lambda: concentration_by_pilkey(step=0.0025, radius=0.00125, head_diameter=0.030),
        got=lambda: float(
            fillet_stress_concentration(diameter=0.025, head_diameter=0.030, fillet_radius=0.00125)
        ),
        within=5e-2,
        why="a curve fitted to a chart",
        kind=Kind.RECALLED,
    ),
]
