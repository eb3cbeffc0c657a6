"""Whether the bar is strong enough, and how long it lasts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.corner import metres
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.finding import Caution, Finding, Topic
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import RatedCorner, Rates, rated_corner
from barwright.analysis.strength.life import FatigueLife, fatigue_life
from barwright.analysis.strength.overstress import Overstress, StressCheck, overstress_at
from barwright.analysis.strength.strength_limits import StrengthLimits, unused_limits
from barwright.analysis.strength.stress_uncertainty import stress_uncertainty
from barwright.analysis.strength.stressed_corner import StressedCorner
from barwright.analysis.strength.stresses import StrengthFigures, StressSwing, strength_figures
from barwright.analysis.strength.thread_grip import slipping_thread
from barwright.analysis.strength.travel_history import AskedHistory, TravelSpectrum, asked_history
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, ArrayWithUnit, Quantity, quantity, shown, to_kind

__all__ = ["AskedStrength", "Strength", "asked_strength", "strength", "strength_as_rated"]


@attrs.frozen(kw_only=True, repr=False)
class Strength(Answer):
    """Answer to :func:`strength`.

    Parameters
    ----------
    verdict : Verdict
        Holds, overstressed, strength not known, does not fit, cannot be reached, or needs more
        figures.
    findings : tuple of Finding
        Limits that are passed, and what else must be known.
    cautions : tuple of Caution
        What the figures do not know.
    fit : LengthFit
        How the bar lies.
    figures : StrengthFigures, optional
        None if the bar does not lie in both sockets or the height is out of travel.
    """

    fit: LengthFit
    figures: StrengthFigures | None

    @property
    def _stressed(self) -> StrengthFigures:
        return self._figure(self.figures, "stresses")

    @property
    def bump(self) -> StressCheck:
        """Full bump against the permissible shear stress; raises N201 if there is no stress."""
        return self._stressed.bump

    @property
    def at_yield(self) -> StressCheck:
        """Full bump against the stress at yield; raises N201 if there is no stress."""
        return self._stressed.at_yield

    @property
    def swing(self) -> StressSwing:
        """Stress about ride height; raises N201 if no travel was asked for."""
        return self._figure(
            self._stressed.swing, "a swing of the stress", otherwise="ask with travel='40 mm'"
        )

    @property
    def life(self) -> FatigueLife:
        """Life under a history; raises N201 if none was given."""
        return self._figure(
            self._stressed.life, "a life", otherwise="ask with a history of wheel travel"
        )

    @property
    def headline(self) -> str:
        """Whether the bar is strong enough, with its stress at full bump."""
        if self.figures is None or self.verdict.is_refusal:
            return self.refused()
        bump = self.figures.bump
        stress = f"{shown(bump.stress, 0)} at full bump"
        limit = bump.limit or self.figures.at_yield.limit
        if limit is None:
            return f"{self.verdict.value.capitalize()}: {stress}."
        against = f"{stress} against {shown(limit.stress, 0)}"
        if self.verdict is Verdict.BELOW_YIELD:
            return (
                f"The bar stays below yield: {against} at yield. Its permissible stress is not "
                "known."
            )
        return f"The bar is strong enough: {against} allowed."

    @property
    def has_conditions(self) -> bool:
        """Whether something must be known: also that yield alone says nothing of a life."""
        return self.verdict is Verdict.BELOW_YIELD or bool(self.findings)


@checks_arguments
@names_assumed()
def strength(
    setup: Setup,
    *,
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | TravelSpectrum | None = None,
    history_covers: FigureLike | None = None,
    wanted: Wanted | None = None,
) -> Strength:
    """Answer whether a bar is strong enough, and its life under a history of travel.

    Parameters
    ----------
    setup : Setup
        The corner.
    limits : StrengthLimits, optional
        Known limits of the bar's strength; limits that are left out come from its
        steel.  A stress without a limit is given without a verdict.
    travel : str or Quantity, optional
        Of the hub to either side of ride height, for mean and amplitude.
    history : sequence of str or Quantity, ArrayWithUnit or TravelSpectrum, optional
        Travel of the hub from ride height in the order of time, bump positive; or strokes in
        no order, like those of :func:`usual_travel`.
    history_covers : str or Quantity, optional
        Distance or time of one run of a history of travels, like ``"12 km"`` or ``"1 year"``;
        without it the life is a number of runs.
    wanted : Wanted, optional
        Ride height, with the free angle that gives it; if left out, the corner as
        it is clocked and set.

    Returns
    -------
    Strength

    Notes
    -----
    The splined heads are not in it (:func:`rates` gives their stresses).  Fillets between
    body and heads are compared with yield.  How much of the stress in them a bar feels over
    its life depends on the steel: an estimated life counts all of it at its lower end and
    none at its upper one.

    References
    ----------
    See :mod:`barwright.mechanics.strength.fatigue` and
    :mod:`barwright.mechanics.strength.histories`.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> limits = StrengthLimits(permissible_shear="900 MPa")
    >>> bump = strength(setup, limits=limits).figures.bump
    >>> f"{bump.stress:.0f~P}, factor {bump.factor:.2f}"
    '722 MPa, factor 1.25'
    """
    asked = asked_strength(
        limits=limits, travel=travel, history=history, history_covers=history_covers
    )
    return _strength(rated_corner(corner_of(setup), wanted), asked, wanted)


@attrs.frozen(eq=False)
class AskedStrength:
    """What :func:`strength` is asked of a corner: limits, travel to either side, a history."""

    limits: StrengthLimits
    travel: Quantity | None
    history: AskedHistory | None


def asked_strength(
    *,
    limits: StrengthLimits | None,
    travel: FigureLike | None,
    history: Sequence[FigureLike] | ArrayWithUnit | TravelSpectrum | None,
    history_covers: FigureLike | None,
) -> AskedStrength:
    """Read what :func:`strength` is asked of a corner.

    Parameters
    ----------
    limits, travel, history, history_covers
        As there.

    Returns
    -------
    AskedStrength

    Raises
    ------
    BarwrightError
        As there.
    """
    reach = None if travel is None else to_kind(travel, LENGTH, key="travel", allowed="positive")
    return AskedStrength(
        limits=StrengthLimits() if limits is None else limits,
        travel=reach,
        history=asked_history(history, history_covers),
    )


def strength_as_rated(rated: RatedCorner) -> Strength:
    """Answer :func:`strength` of a corner by the limits of its steel, with its rates known.

    Parameters
    ----------
    rated : RatedCorner
        The corner with its rates.

    Returns
    -------
    Strength
    """
    return _strength(rated, AskedStrength(StrengthLimits(), None, None), None)


def _strength(rated: RatedCorner, asked: AskedStrength, wanted: Wanted | None) -> Strength:
    rates, states = rated.answer, rated.states
    if states is None:
        return Strength(
            verdict=rates.verdict, fit=rates.fit, findings=rates.findings, cautions=(), figures=None
        )
    stressed, missing = StressedCorner(rated.corner, states), MissingFigures(rated.corner.setup)
    found = missing.tried(lambda: _judged(stressed, rates, asked, wanted))
    if found is not None:
        return found
    needed = missing.findings("needed to judge the stresses", AskedFor.STRENGTH)
    return Strength(verdict=Verdict.NEEDS_FIGURES, fit=rates.fit, findings=needed, figures=None)


def _judged(
    stressed: StressedCorner, rates: Rates, asked: AskedStrength, wanted: Wanted | None
) -> Strength:
    """Answer :func:`strength` of a corner with rates, all that it rests on being known."""
    setup, limits = stressed.corner.setup, asked.limits
    life = None
    if asked.history is not None:
        life = fatigue_life(
            stressed,
            limits,
            asked.history,
            stress_uncertainty=lambda: stress_uncertainty(setup, wanted),
        )
    bolt = None if rates.figures is None else rates.figures.bolt
    figures = strength_figures(stressed, limits, asked.travel, life, bolt)
    judged = overstress_at(setup.bar, **stressed.at_stops_and_ride, limits=limits)
    passed = (*judged.exceeded, *_passed(figures))
    # The first finding is the reason of a refusal.
    reasons = (rates.findings, passed) if rates.verdict.is_refusal else (passed, rates.findings)
    return Strength(
        verdict=_verdict(rates, judged, passed, figures),
        fit=rates.fit,
        findings=(
            *itertools.chain(*reasons),
            *_cut(stressed, asked),
            *judged.unknown,
            *_left_open(figures),
            *slipping_thread(figures.grip),
            *_unused(figures, limits, setup),
        ),
        cautions=(Caution.SCRAP_ON_NICKS,),
        figures=figures,
    )


def _verdict(
    rated: Rates, judged: Overstress, passed: Sequence[Finding], figures: StrengthFigures
) -> Verdict:
    if rated.verdict.is_refusal:
        return rated.verdict
    if passed:
        return Verdict.OVERSTRESSED
    if not judged.is_judged:
        return Verdict.STRENGTH_NOT_KNOWN
    return Verdict.HOLDS if figures.bump.limit else Verdict.BELOW_YIELD


# -- Findings ----------------------------------------------------------------


def _passed(figures: StrengthFigures) -> Iterator[Finding]:
    """Report a swing or history that the bar cannot carry."""
    swing, life = figures.swing, figures.life
    if swing and swing.goodman_factor is not None and swing.goodman_factor < 1.0:
        text = "the stress swing lies above Goodman's line: the bar's life is limited"
        factor = f"a factor of {swing.goodman_factor:.2f}"
        yield Finding(topic=Topic.STRESS, text=text, figure=factor, limit="1")
    if life and not life.lasts_one_run:
        text = "one run of the history uses up the whole life of the bar"
        yield Finding(topic=Topic.STRESS, text=text, figure="less than one run", limit="1 run")


def _cut(stressed: StressedCorner, asked: AskedStrength) -> Iterator[Finding]:
    """Report a travel that a stop cuts off."""
    history = asked.history
    travels = [0.0, *(() if history is None else history.travels)]
    travels += [] if asked.travel is None else [-metres(asked.travel), metres(asked.travel)]
    ends = zip(("droop", "bump"), stressed.travel_left, (min(travels), max(travels)), strict=True)
    for stop, limit, furthest in ends:
        if abs(furthest) > abs(limit) + _TRAVEL_ROUNDING:
            yield Finding(
                topic=Topic.TRAVEL,
                text=f"the {stop} stop cuts off part of the travel given",
                figure=quantity(furthest, LENGTH),
                limit=quantity(limit, LENGTH),
            )


def _left_open(figures: StrengthFigures) -> Iterator[Finding]:
    """Report what the figures leave out."""
    swing, life = figures.swing, figures.life
    needs = (swing and swing.endurance and not swing.ultimate) or (
        life and life.woehler_band and not life.ultimate
    )
    if needs:
        text = (
            "without an ultimate shear stress the mean stress cannot be judged: give it, or its "
            "ratio to the tensile strength of the steel"
        )
        yield Finding(topic=Topic.STRESS, text=text)
    if figures.preset and swing:
        text = (
            "the swing leaves out the residual stress of pre-setting, which is safe in "
            "the direction in which the bar was pre-set"
        )
        yield Finding(topic=Topic.STRESS, text=text)
    if life and life.lasts_one_run and life.band and _is_below_one(life.band.fewest_runs):
        text = "at the lower end of its band of life the bar breaks in the first run of the history"
        yield Finding(topic=Topic.STRESS, text=text)


def _is_below_one(runs: float | None) -> bool:
    return runs is not None and runs < 1.0


def _unused(figures: StrengthFigures, limits: StrengthLimits, setup: Setup) -> Iterator[Finding]:
    """Report given limits that did not apply."""
    given = {"has_travel": figures.swing is not None, "has_history": figures.life is not None}
    for text in unused_limits(limits, setup.bar, **given):
        yield Finding(topic=Topic.STRESS, text=text)


# Rounding of a travel that ends at a stop [m].
_TRAVEL_ROUNDING = 1e-9
