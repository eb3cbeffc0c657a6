"""How uncertain the stresses of a bar are, from the tolerances of its setup's figures."""

from __future__ import annotations

from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.rates.rates import rated_corner
from barwright.analysis.tolerance.tolerance import tolerance
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import STRESS, Quantity, quantity, si

__all__ = ["stress_uncertainty"]


def stress_uncertainty(setup: Setup, wanted: Wanted | None) -> float:
    """Find the ± of the stress at full bump, and take all stresses to share it.

    Parameters
    ----------
    setup : Setup
        A corner with rates.
    wanted : Wanted, optional
        Ride height.

    Returns
    -------
    float
        Expanded uncertainty, about 95 %, as a share of the stress; 0 without tolerances, and
        without a stress.
    """

    def at_bump(shifted: Setup) -> Quantity | None:
        states = rated_corner(corner_of(shifted), wanted).states
        return None if states is None else quantity(states.bump.shear_stress, STRESS)

    (row,) = tolerance(at_bump, setup).rows
    stress = abs(si(row.nominal, STRESS))
    if row.uncertainty is None or stress == 0.0:
        return 0.0
    return si(row.uncertainty, STRESS) / stress
