"""Whether the bar is strong enough, and how long it lasts."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.assumed import names_assumed
from barwright.analysis.corner.corner import metres
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.finding import Caution, Finding, Topic
from barwright.analysis.fit.length_fit import LengthFit
from barwright.analysis.rates.rates import RatedCorner, Rates, rated_corner
from barwright.analysis.strength.overstress import Overstress, StressCheck, overstress_at
from barwright.analysis.strength.strength_limits import StrengthLimits, unused_limits
from barwright.analysis.strength.stresses import (
    FatigueLife,
    StrengthFigures,
    StressedCorner,
    StressSwing,
    strength_figures,
)
from barwright.errors import QuantityError, SchemaError
from barwright.parts.arguments import checks_arguments
from barwright.parts.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.measuring.catalogue import AskedFor
from barwright.units import LENGTH, ArrayWithUnit, Quantity, is_quantity, quantity, shown, to_kind

__all__ = ["Strength", "asked_strength", "strength", "strength_as_rated"]


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
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
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
    history : sequence of str or Quantity, or ArrayWithUnit, optional
        Travel of the hub from ride height in the order of time, bump positive.
    wanted : Wanted, optional
        Ride height, with the free angle that gives it; if left out, the corner as
        it is clocked and set.

    Returns
    -------
    Strength

    Notes
    -----
    The splined heads are not in it (:func:`rates` gives their stresses).  Fillets between
    body and heads are compared with yield only: how much of the stress in them a bar feels
    over its life depends on the steel.

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
    asked = asked_strength(limits=limits, travel=travel, history=history)
    return _strength(rated_corner(corner_of(setup), wanted), *asked)


def asked_strength(
    *,
    limits: StrengthLimits | None,
    travel: FigureLike | None,
    history: Sequence[FigureLike] | ArrayWithUnit | None,
) -> tuple[StrengthLimits, Quantity | None, NDArray[np.float64] | None]:
    """Read what :func:`strength` is asked of a corner.

    Parameters
    ----------
    limits, travel, history
        As there.

    Returns
    -------
    (StrengthLimits, Quantity, array)
        Limits, travel to either side, and the travels of the history [m].

    Raises
    ------
    BarwrightError
        As there.
    """
    reach = None if travel is None else to_kind(travel, LENGTH, key="travel", allowed="positive")
    points = None if history is None else _travels(history)
    return StrengthLimits() if limits is None else limits, reach, points


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
    return _strength(rated, StrengthLimits(), None, None)


def _strength(
    rated: RatedCorner,
    limits: StrengthLimits,
    reach: Quantity | None,
    points: NDArray[np.float64] | None,
) -> Strength:
    rates, states = rated.answer, rated.states
    if states is None:
        return Strength(
            verdict=rates.verdict, fit=rates.fit, findings=rates.findings, cautions=(), figures=None
        )
    stressed, missing = StressedCorner(rated.corner, states), MissingFigures(rated.corner.setup)
    found = missing.tried(lambda: _judged(stressed, rates, limits, reach, points))
    if found is not None:
        return found
    needed = missing.findings("needed to judge the stresses", AskedFor.STRENGTH)
    return Strength(verdict=Verdict.NEEDS_FIGURES, fit=rates.fit, findings=needed, figures=None)


def _judged(
    stressed: StressedCorner,
    rates: Rates,
    limits: StrengthLimits,
    reach: Quantity | None,
    points: NDArray[np.float64] | None,
) -> Strength:
    """Answer :func:`strength` of a corner with rates, all that it rests on being known."""
    setup = stressed.corner.setup
    figures = strength_figures(stressed, limits, reach, points)
    judged = overstress_at(setup.bar, **stressed.at_stops_and_ride, limits=limits)
    passed = (*judged.exceeded, *_passed(figures))
    # The first finding is the reason of a refusal.
    reasons = (rates.findings, passed) if rates.verdict.is_refusal else (passed, rates.findings)
    return Strength(
        verdict=_verdict(rates, judged, passed, figures),
        fit=rates.fit,
        findings=(
            *itertools.chain(*reasons),
            *_cut(stressed, reach, points),
            *judged.unknown,
            *_left_open(figures),
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


def _travels(history: Sequence[FigureLike] | ArrayWithUnit) -> NDArray[np.float64]:
    """Travels of a history [m]."""
    is_list = isinstance(history, Sequence) and not isinstance(history, str | bytes)
    if not (is_list or (is_quantity(history) and np.ndim(history.magnitude) == 1)):
        raise SchemaError(
            "S203",
            value=str(history),
            expected="wheel travels in the order of time",
            remedy="give a list like ['0 mm', '12 mm'], or an array with its unit",
            key="history",
        )
    if is_quantity(history):
        return _of_array(history)
    figures = (to_kind(x, LENGTH, key=f"history[{place}]") for place, x in enumerate(history))
    return np.array([metres(figure) for figure in figures], dtype=np.float64)


def _of_array(history: Quantity | ArrayWithUnit) -> NDArray[np.float64]:
    """Travels of an array [m]; its unit is checked once."""
    unit = to_kind(1.0 * history.units, LENGTH, key="history")
    if np.asarray(history.magnitude).dtype.kind not in "iuf":
        raise QuantityError(
            "Q104",
            value=str(history),
            expected="wheel travels that are real numbers",
            remedy="give an array of real numbers with its unit",
            key="history",
        )
    travels = np.asarray(history.magnitude, dtype=np.float64) * metres(unit)
    wrong = np.flatnonzero(~np.isfinite(travels))
    if wrong.size:
        raise QuantityError(
            "Q301",
            value=str(np.asarray(history.magnitude)[wrong[0]] * history.units),
            expected="a finite number",
            remedy="correct or remove the value there",
            key=f"history[{wrong[0]}]",
        )
    return travels


# -- Findings ----------------------------------------------------------------


def _passed(figures: StrengthFigures) -> Iterator[Finding]:
    """Report a swing or history that the bar cannot carry."""
    swing, life = figures.swing, figures.life
    if swing and swing.goodman_factor is not None and swing.goodman_factor < 1.0:
        text = "the stress swing lies above Goodman's line: the bar's life is limited"
        factor = f"a factor of {swing.goodman_factor:.2f}"
        yield Finding(topic=Topic.STRESS, text=text, figure=factor, limit="1")
    if life and life.repeats is not None and life.repeats < 1.0:
        text = "one run of the history uses up the whole life of the bar"
        runs = f"{life.repeats:.2g} runs"
        yield Finding(topic=Topic.STRESS, text=text, figure=runs, limit="1")


def _cut(
    stressed: StressedCorner, reach: Quantity | None, points: NDArray[np.float64] | None
) -> Iterator[Finding]:
    """Report a travel that a stop cuts off."""
    states, height = stressed.states, stressed.corner.height
    asked = [0.0] if points is None else [0.0, *points]
    asked += [] if reach is None else [-metres(reach), metres(reach)]
    for stop, state, furthest in (
        ("droop", states.droop, min(asked)),
        ("bump", states.bump, max(asked)),
    ):
        limit = float(height(states.ride.angle) - height(state.angle))
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
        life and life.woehler_line and not life.ultimate
    )
    if needs:
        text = (
            "without an ultimate shear stress the mean stress cannot be judged: give it, or its "
            "ratio to the tensile strength of the steel"
        )
        yield Finding(topic=Topic.STRESS, text=text)
    if figures.preset and (swing or life):
        text = (
            "swing and life leave out the residual stress of pre-setting, which is safe in "
            "the direction in which the bar was pre-set"
        )
        yield Finding(topic=Topic.STRESS, text=text)


def _unused(figures: StrengthFigures, limits: StrengthLimits, setup: Setup) -> Iterator[Finding]:
    """Report given limits that did not apply."""
    given = {"has_travel": figures.swing is not None, "has_history": figures.life is not None}
    for text in unused_limits(limits, setup.bar, **given):
        yield Finding(topic=Topic.STRESS, text=text)


# Rounding of a travel that ends at a stop [m].
_TRAVEL_ROUNDING = 1e-9
