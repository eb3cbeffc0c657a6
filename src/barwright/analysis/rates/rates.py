"""Rates of a corner: of bar and tube, and at the wheel."""

from __future__ import annotations

from functools import partial
from typing import Any

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.bar.fillets import twist_left_out
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.fit.head_load import head_loads, unbalanced_heads
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.bolt_load import bolt_findings, bolt_load
from barwright.analysis.rates.corner_state import (
    CornerState,
    SolvedStates,
    described,
    solved_states,
)
from barwright.analysis.rates.curve import RateCurve, rate_curve
from barwright.analysis.rates.rate_figures import PartRates, RateFigures
from barwright.analysis.rates.ride_height import (
    free_angle_for,
    no_torque,
    on_a_stop,
    out_of_travel,
    rest_angle,
    slackness,
    wanted_angle,
    wound_bushings,
)
from barwright.analysis.rates.vibration import (
    damping_ratio,
    ride_frequency,
    wheel_damping,
    wheel_hop,
)
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import (
    TORSIONAL_RATE,
    Quantity,
    quantity,
    shown,
)

__all__ = ["RatedCorner", "Rates", "rated_corner", "rates", "rates_of"]


@attrs.frozen(kw_only=True, repr=False)
class Rates(Answer):
    """Answer to :func:`rates`.

    Parameters
    ----------
    verdict : Verdict
        Rated, does not fit, cannot be reached, or needs more figures.
    findings : tuple of Finding
        What else must be known.
    cautions : tuple of Caution
        None, because rates lead to no work.
    fit : LengthFit
        How the bar lies.
    figures : RateFigures, optional
        None if the bar does not lie in both sockets, the height is out of travel, or figures
        that they need are unknown.
    by_part : PartRates, optional
        Rates of bar and tube where these are all that is known.
    """

    fit: LengthFit
    figures: RateFigures | None
    by_part: PartRates | None = None

    @property
    def _rated(self) -> RateFigures:
        return self._figure(self.figures, "rates")

    @property
    def _by_part(self) -> RateFigures | PartRates:
        if self.figures is not None:
            return self.figures
        return self._figure(self.by_part, "rates")

    @property
    def bar_rate(self) -> Quantity:
        """Torsional rate of the bar alone; raises N201 if there is none."""
        return self._by_part.bar_rate

    @property
    def system_rate(self) -> Quantity:
        """Torsional rate of bar and tube in series; raises N201 if there is none."""
        return self._by_part.system_rate

    @property
    def wheel_rate(self) -> Quantity:
        """Rate at the wheel, at rest; raises N201 if there is none."""
        return self._rated.ride.wheel_rate

    @property
    def ride_frequency(self) -> Quantity:
        """Frequency of the sprung mass at rest; raises N201 if there is none."""
        return self._figure(
            self._rated.ride_frequency,
            "a ride frequency",
            otherwise="none: the corner has no stiffness where it rests",
        )

    @property
    def droop(self) -> CornerState:
        """The corner at full droop; raises N201 if it has no rates."""
        return self._rated.droop

    @property
    def ride(self) -> CornerState:
        """The corner at rest; raises N201 if it has no rates."""
        return self._rated.ride

    @property
    def bump(self) -> CornerState:
        """The corner at full bump; raises N201 if it has no rates."""
        return self._rated.bump

    @property
    def curve(self) -> RateCurve:
        """Load and rate over the travel; raises N201 if there is none."""
        return self._rated.curve

    @property
    def headline(self) -> str:
        """The rate at the wheel, at which height, and the ride frequency."""
        if self.figures is None or self.verdict.is_refusal:
            return self.refused()
        at_ride = self.figures.ride
        frequency = self.figures.ride_frequency
        rides = "" if frequency is None else f"; ride frequency {shown(frequency, 2)}"
        return (
            f"{shown(at_ride.wheel_rate, 1)} at the wheel at {shown(at_ride.height, 0)} hub to "
            f"arch{rides}."
        )


@checks_arguments
@names_assumed()
def rates(setup: Setup, *, wanted: Wanted | None = None) -> Rates:
    """Answer what rates a corner has over its travel.

    Parameters
    ----------
    setup : Setup
        The corner.
    wanted : Wanted, optional
        Height to rate it at, with the free angle that gives it; if left out, the
        corner as it is clocked and set.

    Returns
    -------
    Rates

    Raises
    ------
    QuantityError
        Q302 for a load that no bar of this diameter could carry at the wanted height.

    References
    ----------
    See :mod:`barwright.mechanics.bar.torsion` and :mod:`barwright.mechanics.corner.statics`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> figures = rates(setup).figures
    >>> figures.system_rate < figures.bar_rate
    True
    """
    return rates_of(corner_of(setup), wanted)


@attrs.frozen(eq=False)
class RatedCorner:
    """A corner with its rates.

    Parameters
    ----------
    corner : Corner
        The corner.
    answer : Rates
        Its rates.
    states : SolvedStates, optional
        Load for which they were computed; none if the answer has no figures.
    """

    corner: Corner
    answer: Rates
    states: SolvedStates | None = None


def rates_of(corner: Corner, wanted: Wanted | None) -> Rates:
    """Answer :func:`rates` of a corner.

    Parameters
    ----------
    corner : Corner
        The corner.
    wanted : Wanted, optional
        Height to rate it at.

    Returns
    -------
    Rates
    """
    return rated_corner(corner, wanted).answer


def rated_corner(corner: Corner, wanted: Wanted | None) -> RatedCorner:
    """Rate a corner, and keep the states that its rates are found in.

    Parameters
    ----------
    corner : Corner
        The corner.
    wanted : Wanted, optional
        Height to rate it at.

    Returns
    -------
    RatedCorner
    """
    missing = MissingFigures(corner.setup)
    rated = missing.tried(lambda: _rated(corner, wanted, missing))
    if rated is not None:
        return rated
    parts = missing.tried(lambda: corner.torsional_rates)
    answer = Rates(
        verdict=Verdict.NEEDS_FIGURES,
        fit=fit_of(corner),
        findings=missing.findings("needed for the rate at the wheel", AskedFor.RATES),
        figures=None,
        by_part=None if parts is None else PartRates(**_by_part(parts)),
    )
    return RatedCorner(corner, answer)


def _rated(corner: Corner, wanted: Wanted | None, missing: MissingFigures) -> RatedCorner:
    """Rate a corner, without what is left out because figures are missing."""
    fit, spring = fit_of(corner), corner.torsional_rates
    if spring is None or missing.tried(lambda: corner.lever_closes) is False:
        answer = Rates(verdict=Verdict.DOES_NOT_FIT, fit=fit, findings=fit.reasons, figures=None)
        return RatedCorner(corner, answer)
    angles = _angles(corner, spring, wanted)
    if angles is None:
        finding = out_of_travel(corner, wanted or Wanted())
        answer = Rates(verdict=Verdict.OUT_OF_REACH, fit=fit, findings=(finding,), figures=None)
        return RatedCorner(corner, answer)
    findings = (*on_a_stop(corner, angles[0]), *wound_bushings(corner, angles[0]))
    if wanted is not None and corner.is_slack(angles[0] - angles[1]):
        answer = Rates(
            verdict=Verdict.OUT_OF_REACH,
            fit=fit,
            findings=(no_torque(angles[0], free_angle=angles[1]), *unusual_load(corner)),
            figures=None,
        )
        return RatedCorner(corner, answer)
    states = _states(corner, spring, ride=angles[0], free_angle=angles[1])
    figures = _figures(corner, spring, states, free=angles[1], missing=missing)
    unfit = fit.verdict is Verdict.DOES_NOT_FIT
    answer = Rates(
        verdict=Verdict.DOES_NOT_FIT if unfit else Verdict.RATED,
        fit=fit,
        findings=(
            *fit.open_findings,
            *findings,
            *slackness(corner, states.droop),
            *missing.each(
                (
                    partial(unusual_load, corner),
                    partial(twist_left_out, corner.setup.bar),
                    partial(unbalanced_heads, corner),
                    partial(bolt_findings, corner, figures.bolt),
                )
            ),
            *missing.findings("left out because figures are missing"),
        ),
        figures=figures,
    )
    return RatedCorner(corner, answer, states)


def _angles(
    corner: Corner, spring: TorsionalRates, wanted: Wanted | None
) -> tuple[float, float] | None:
    """Arm angle at ride and free angle [rad]; none if the wish is out of travel."""
    if wanted is None:
        return rest_angle(corner, spring, corner.free_angle), corner.free_angle
    angle = wanted_angle(corner, wanted)
    return None if angle is None else (angle, free_angle_for(corner, spring, angle))


@once_a_corner(of_either_side)
def _states(
    corner: Corner, spring: TorsionalRates, *, ride: float, free_angle: float
) -> SolvedStates:
    """Solve a corner at its stops and at a ride angle, once for both sides."""
    return solved_states(corner, spring, ride=ride, free_angle=free_angle)


def _by_part(spring: TorsionalRates) -> dict[str, Any]:
    """Rates of bar and tube, and of both in series."""
    return {
        "bar_rate": quantity(spring.bar, TORSIONAL_RATE),
        "tube_rate": None if spring.tube is None else quantity(spring.tube, TORSIONAL_RATE),
        "system_rate": quantity(spring.system, TORSIONAL_RATE),
    }


def _figures(
    corner: Corner,
    spring: TorsionalRates,
    states: SolvedStates,
    *,
    free: float,
    missing: MissingFigures,
) -> RateFigures:
    droop, at_ride, bump = states.droop, states.ride, states.bump
    material = corner.setup.bar.material
    at_wheel = missing.tried(lambda: wheel_damping(corner, at_ride.angle))
    hop = missing.tried(lambda: wheel_hop(corner, wheel_rate=at_ride.wheel_rate, at_wheel=at_wheel))
    hop_frequency, hop_damping = hop or (None, None)
    return RateFigures(
        **_by_part(spring),
        shear_modulus=material.shear_modulus,
        shear_modulus_tolerance=material.about["shear_modulus"].tolerance,
        droop=described(corner, droop),
        ride=described(corner, at_ride),
        bump=described(corner, bump),
        curve=rate_curve(corner, spring, free, rest=at_ride.angle),
        ride_frequency=missing.tried(lambda: ride_frequency(corner, at_ride.wheel_rate)),
        damping_ratio=damping_ratio(corner, wheel_rate=at_ride.wheel_rate, at_wheel=at_wheel),
        heads=missing.tried(lambda: head_loads(corner, bump.torque, droop.torque)) or (),
        bolt=missing.tried(lambda: bolt_load(corner, at_ride, bump, free_angle=free)),
        wheel_hop_frequency=hop_frequency,
        wheel_hop_damping=hop_damping,
    )
