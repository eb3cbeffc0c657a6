"""Mass of a bar, by its sizes and the density of its steel."""

from __future__ import annotations

from barwright.analysis.corner.bar.fillets import fillets_of
from barwright.analysis.corner.suspension import metres
from barwright.mechanics.bar import torsion, transitions
from barwright.parts.bar import Bar
from barwright.parts.spline import BarEnd

__all__ = ["mass_of"]


def mass_of(bar: Bar, *, density: float) -> float:
    """Return the mass of a bar [kg].

    A head counts as a cylinder midway between the tips and the roots of its teeth, and a nose of
    which no diameter is given as one over its teeth.

    Parameters
    ----------
    bar : Bar
        The bar.
    density : float
        Of its steel [kg/m³].

    Returns
    -------
    float
    """
    diameter, bore = metres(bar.diameter), metres(bar.bore)
    body, fillets = metres(bar.length), fillets_of(bar)
    total = sum(fillet.mass(density) for fillet in fillets)
    for end in (bar.arm_end, bar.anchor_end):
        taper = metres(end.taper)
        body = body - (metres(end.length) + taper)
        total += _head(end, density=density, bore=bore)
        total += float(
            transitions.taper_mass(
                taper,
                diameter=diameter,
                head_diameter=metres(end.root_diameter),
                density=density,
                bore=bore,
            )
        )
    body = body - sum(fillet.length for fillet in fillets)
    plain = torsion.bar_mass(length=body, diameter=diameter, density=density, bore=bore)
    return total + float(plain)


def _head(end: BarEnd, *, density: float, bore: float) -> float:
    """Mass of a splined head with its nose [kg]."""
    tips = metres(end.major_diameter)
    nose = tips if end.nose_diameter is None else metres(end.nose_diameter)
    pieces = (
        (metres(end.length), (tips + metres(end.root_diameter)) / 2.0),
        (metres(end.nose), nose),
    )
    return sum(
        float(torsion.bar_mass(length=length, diameter=across, density=density, bore=bore))
        for length, across in pieces
    )
