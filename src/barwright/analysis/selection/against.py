"""What speaks against a candidate, how near it comes to passing, and what would let it through."""

from __future__ import annotations

import math
from typing import cast

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.strength.overstress import StressCheck
from barwright.analysis.strength.strength import Strength
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Quantity, shown, si

__all__ = [
    "Against",
    "against_fit",
    "against_goal",
    "against_plan",
    "against_rates",
    "against_strength",
    "decisive_stress",
]

_LIVING = frozenset({Verdict.HOLDS, Verdict.BELOW_YIELD})
_FIGURES = "give its missing figures"


@attrs.frozen
class Against:
    """A reason why a candidate is taken out.

    Parameters
    ----------
    text : str
        The reason.
    remedy : str
        What would let it through, as an order.
    by : float
        How far it is from passing, to find the nearest of those that are taken out.
    """

    text: str
    remedy: str
    by: float


def against_fit(setup: Setup) -> Against | None:
    """Say why a bar does not go in.

    Parameters
    ----------
    setup : Setup
        The corner with it.

    Returns
    -------
    Against or None
        None if it goes in.
    """
    answer = fit_of(Corner(setup))
    if answer.outcome.is_good:
        return None
    first = answer.findings[0]
    by = float(sum(one not in answer.changes for one in answer.findings))
    return Against(first.line, _FIT_REMEDIES.get(first.topic, _OTHER_PLACES), by)


_OTHER_PLACES = "find an arm and an anchor in other places, or a bar of another length"
_FIT_REMEDIES = {
    Topic.NEEDED: _FIGURES,
    Topic.WRONG_SIDE: "take the part that is made for this side",
    Topic.WAY_IN: "find an arm or an anchor with a wider way in, or a thinner bar",
    Topic.TOOTH_DEPTH: "check the diameters of bar and socket",
    Topic.TRAVEL: "find a damper of another length",
    Topic.THREAD: "check the figures of lever and adjuster",
}


def against_rates(answer: Rates) -> Against | None:
    """Say why a corner does not stand at the wanted height.

    Parameters
    ----------
    answer : Rates
        Its rates there.

    Returns
    -------
    Against or None
        None if it does.
    """
    if answer.figures is not None:
        return None
    first = answer.findings[0]
    if first.topic is Topic.TRAVEL and first.upper is not None:
        low, high = (shown(cast("Quantity", end), 0) for end in (first.limit, first.upper))
        return Against(first.line, f"ask for a height from {low} to {high}", _beyond(first))
    remedy = _FIGURES if answer.verdict is Verdict.NEEDS_FIGURES else "ask for another height"
    return Against(first.line, remedy, math.inf)


def _beyond(travel: Finding) -> float:
    """How far a wish lies outside the travel [m]."""
    wish, low, high = (
        si(cast("Quantity", one), LENGTH) for one in (travel.figure, travel.limit, travel.upper)
    )
    return max(low - wish, wish - high)


def against_strength(answer: Strength) -> Against | None:
    """Say why a bar does not survive, as far as is known.

    Parameters
    ----------
    answer : Strength
        Its stress.

    Returns
    -------
    Against or None
        None if it survives.
    """
    if answer.verdict in _LIVING:
        return None
    check = decisive_stress(answer)
    if check.factor is None:
        remedy = "give the permissible stress or the yield strength of its steel"
        return Against(answer.headline, remedy, math.inf)
    stress = shown(abs(check.stress), 0)
    remedy = f"take a steel that bears {stress}, or stop the wheel before full bump"
    return Against(answer.headline, remedy, 1.0 / check.factor)


def decisive_stress(answer: Strength) -> StressCheck:
    """Return the stress at full bump against the limit that decides.

    Parameters
    ----------
    answer : Strength
        The stresses of a bar.

    Returns
    -------
    StressCheck
        Against the permissible stress, or against that at yield if it is all that is known.
    """
    return answer.bump if answer.bump.limit else answer.at_yield


def against_goal(miss: float, *, most: float) -> Against | None:
    """Say by how much a rate misses the goal.

    Parameters
    ----------
    miss : float
        As a share, negative below the goal; not a number of a corner without such a figure.
    most : float
        What is allowed.

    Returns
    -------
    Against or None
        None if it is near enough.
    """
    if math.isnan(miss):
        return Against("no ride frequency", "ask for a rate instead", math.inf)
    if abs(miss) <= most:
        return None
    side = "above" if miss > 0.0 else "below"
    percent = 100.0 * abs(miss)
    return Against(
        f"{percent:.0f} % {side} the goal",
        f"allow a miss of {math.floor(percent) + 1:d} %",
        abs(miss),
    )


def against_plan(
    answer: Reindex, setup: Setup, *, present: Setup, wanted: Wanted
) -> Against | None:
    """Say why there is no safe plan.

    Parameters
    ----------
    answer : Reindex
        The plans.
    setup : Setup
        The corner with the bar.
    present : Setup
        The corner as it is now.
    wanted : Wanted
        The height, and limits on the work.

    Returns
    -------
    Against or None
        None if there is a plan.
    """
    if answer.plans:
        return None
    by = float(len(answer.findings))
    if answer.verdict is Verdict.NEEDS_FIGURES:
        return Against(answer.headline, _FIGURES, by)
    free = reindex(setup, wanted=attrs.evolve(wanted, cuts=None), present=present)
    if free.plans:
        teeth = min(plan.cuts for plan in free.plans)
        remedy = f"allow {teeth} {'tooth' if teeth == 1 else 'teeth'} to be removed"
        return Against(answer.headline, remedy, by)
    return Against(answer.headline, "ask for another height", by)
