"""What must be known of a corner at rest with its nut where it is set."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.fillets import twist_left_out
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.corner.torsional_rates import TorsionalRates
from barwright.analysis.finding import Finding
from barwright.analysis.rates.bolt_load import bolt_findings, bolt_load
from barwright.analysis.rates.ride_height import (
    described,
    on_a_stop,
    rest_angle,
    slackness,
    solved_state,
)
from barwright.analysis.reindex.feasibility import beyond_limits
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.units import TURNS, si

__all__ = ["RestingCorner"]


class RestingCorner:
    """A corner at rest with its nut where it is set.

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
        low, high = corner.travel
        self._droop, here, self._bump = (
            solved_state(corner, spring, angle=at, free_angle=corner.free_angle)
            for at in (low, self._angle, high)
        )
        self._bolt = bolt_load(corner, here, self._bump, free_angle=corner.free_angle)

    def findings(self) -> Iterator[Finding]:
        """Say what must be known."""
        corner = self._corner
        yield from twist_left_out(corner.setup.bar)
        yield from on_a_stop(corner, self._angle)
        yield from slackness(corner, self._droop)
        yield from unusual_load(corner)
        yield from bolt_findings(corner, self._bolt)

    def forbidden(self) -> Iterator[tuple[Verdict, Finding]]:
        """Say why it must not be left so."""
        corner = self._corner
        droop, bump = (described(corner, state) for state in (self._droop, self._bump))
        yield from beyond_limits(corner, droop=droop, bump=bump, bolt=self._bolt)

    def height_uncertainty(self) -> float:
        """Return what the tolerances of the figures leave open of its height.

        Returns
        -------
        float [m]
            0 if no figure has a tolerance.
        """
        corner = self._corner
        open_by = PlanUncertainty(corner, height=float(corner.height(self._angle)))
        return open_by.height(
            turns=si(corner.setup.nut_turns, TURNS), clocked_angle=corner.clocked_angle
        )
