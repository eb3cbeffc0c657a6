"""What to know about a corner at rest with its nut as set."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.bar.fillets import twist_left_out
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.finding import Finding
from barwright.analysis.rates.bolt_load import bolt_findings, bolt_load
from barwright.analysis.rates.corner_state import solved_states
from barwright.analysis.rates.ride_height import on_a_stop, rest_angle, slackness
from barwright.analysis.reindex.plan.feasibility import beyond_limits
from barwright.analysis.strength.overstress import overstress_at
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty

__all__ = ["RestingCorner"]


class RestingCorner:
    """A corner at rest with its nut as set.

    Parameters
    ----------
    corner : Corner
        The corner.
    spring : TorsionalRates
        Its rates.
    """

    def __init__(self, corner: Corner, spring: TorsionalRates) -> None:
        self._corner = corner
        self._angle = rest_angle(corner, spring, corner.free_angle)
        self._states = solved_states(corner, spring, ride=self._angle, free_angle=corner.free_angle)
        ride, bump = self._states.ride, self._states.bump
        self._bolt = bolt_load(corner, ride, bump, free_angle=corner.free_angle)

    @property
    def height(self) -> float:
        """Hub to arch [m]."""
        return float(self._corner.height(self._angle))

    def findings(self) -> Iterator[Finding]:
        """Report what must be known of it."""
        corner = self._corner
        yield from twist_left_out(corner.setup.bar)
        yield from on_a_stop(corner, self._angle)
        yield from slackness(corner, self._states.droop)
        yield from unusual_load(corner)
        yield from bolt_findings(corner, self._bolt)

    def forbidden(self) -> Iterator[tuple[Verdict, Finding]]:
        """Report why it must not be left like this."""
        corner, droop, bump = self._corner, self._states.droop, self._states.bump
        strength = overstress_at(corner.setup.bar, droop=droop.shear_stress, bump=bump.shear_stress)
        yield from beyond_limits(
            corner, droop_twist=droop.twist, strength=strength, bolt=self._bolt
        )

    def height_uncertainty(self) -> float:
        """Return the uncertainty of its height, from the tolerances of the figures.

        Returns
        -------
        float [m]
            0 if no figure has a tolerance.
        """
        corner = self._corner
        open_by = PlanUncertainty(corner, height=self.height)
        return open_by.height(turns=corner.turns_now, clocked_angle=corner.clocked_angle)
