"""Settings of all nuts for one aim: the moves, how the vehicle then stands, and what forbids it."""

from __future__ import annotations

from collections.abc import Iterator

import attrs
import numpy as np

from barwright.analysis.adjusting.resting_corner import RestingCorner
from barwright.analysis.answer import Verdict
from barwright.analysis.balancing.after_turning import AfterTurning
from barwright.analysis.balancing.balance_answer import BalanceAim, NutMove, NutSettings
from barwright.analysis.balancing.corner_law import CornerLaw
from barwright.analysis.balancing.nut_search import Wish, is_met, turns_for, warp_of
from barwright.analysis.balancing.standing import Resting, StandingVehicle
from barwright.analysis.balancing.weighed_vehicle import sprung_load
from barwright.analysis.corner.anchorage import TurnedPart, bolt_datum, turned
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.raising import raising_sense
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.reindex.plan.uncut_trial import CLOSE_ENOUGH
from barwright.analysis.reindex.preference import FLATS
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.spline.clocking import TurningSense
from barwright.mechanics.vehicle.static_equilibrium import influence
from barwright.mechanics.vehicle.vehicle import CORNERS, Array
from barwright.parts.adjuster import Adjuster
from barwright.units import HEIGHT_PER_TURN, LENGTH, TURNS, quantity

__all__ = ["FoundTurns", "aims_in_order", "found_turns", "nut_settings"]


@attrs.frozen(kw_only=True, eq=False)
class FoundTurns:
    """Places of all nuts for a wish, and whether they may be set.

    Parameters
    ----------
    aim : BalanceAim
        What they are set for.
    verdict : Verdict
        Whether it is reached.
    findings : tuple of Finding
        Why not, or what else to know.
    turns : array
        Turns from mid-thread of the nuts that can be turned.
    """

    aim: BalanceAim
    verdict: Verdict
    findings: tuple[Finding, ...]
    turns: Array


def found_turns(standing: StandingVehicle, wish: Wish) -> FoundTurns:
    """Find where the nuts have to be for a wish, and whether that may be.

    Parameters
    ----------
    standing : StandingVehicle
        The vehicle as it stands.
    wish : Wish
        Heights and cross weight, and which of them count.

    Returns
    -------
    FoundTurns
    """
    total = float(np.sum(standing.loads)) / STANDARD_GRAVITY
    is_balanced = is_met(wish, standing.rest(standing.turns), total=total)
    turns = standing.turns if is_balanced else turns_for(standing, wish)
    resting = standing.rest(turns)
    refused = tuple(_forbidden(standing, resting, turns))
    if refused:
        verdict, findings = refused[0][0], tuple(finding for _, finding in refused)
    elif is_balanced:
        verdict, findings = Verdict.BALANCED, ()
    elif is_met(wish, resting, total=total):
        verdict, findings = Verdict.REACHED, ()
    else:
        ended = tuple(_ended(standing, turns))
        verdict = Verdict.OUT_OF_REACH if ended else Verdict.NEAREST
        findings = ended or (_conflict(),)
    told = (*_warped(wish, resting), *_findings(standing, resting, turns))
    return FoundTurns(aim=wish.aim, verdict=verdict, findings=(*findings, *told), turns=turns)


def nut_settings(standing: StandingVehicle, found: FoundTurns, after: AfterTurning) -> NutSettings:
    """Put the moves to places of the nuts, and how the vehicle then stands.

    Parameters
    ----------
    standing : StandingVehicle
        The vehicle as it stands.
    found : FoundTurns
        The places.
    after : AfterTurning
        How it then stands.

    Returns
    -------
    NutSettings
    """
    return NutSettings(
        aim=found.aim,
        verdict=found.verdict,
        findings=found.findings,
        moves=tuple(_moves(standing, found.turns)),
        scales=after.scales,
        cross_weight=after.cross_weight,
        cross_uncertainty=after.cross_uncertainty,
    )


def _warped(wish: Wish, resting: Resting) -> Iterator[Finding]:
    """Say that four heights are no plane's, which no nut changes."""
    warp = warp_of(wish, resting)
    if warp > CLOSE_ENOUGH:
        yield Finding(
            topic=Topic.BALANCE,
            text="the four heights cannot all be had: as a plane they are met, and this is left. "
            "Arches that differ, tyres or an uneven floor cause it, and no nut mends it",
            figure=quantity(warp, LENGTH),
            limit=quantity(CLOSE_ENOUGH, LENGTH),
        )


def _conflict() -> Finding:
    return Finding(
        topic=Topic.BALANCE,
        text="heights and cross weight cannot both be had: there are more wishes than nuts. "
        "These settings lie between",
    )


# -- What forbids it ---------------------------------------------------------------------


def _forbidden(
    standing: StandingVehicle, resting: Resting, turns: Array
) -> Iterator[tuple[Verdict, Finding]]:
    """Say why the vehicle must not be left like this, or cannot stand like this."""
    stance = resting.stance
    for number, corner in enumerate(CORNERS):
        if stance.lifted[number]:
            text = f"the {corner} wheel lifts off its scale"
            yield Verdict.OUT_OF_REACH, Finding(topic=Topic.LOAD, text=text)
        elif stance.slack[number] and number not in standing.laws:
            text = f"the {corner} spring goes slack"
            yield Verdict.NOT_SAFE, Finding(topic=Topic.SLACK, text=text)
    for number, law in standing.laws.items():
        height = float(stance.heights[number])
        state = law.at(height, turns=_place(standing, number, turns))
        if law.is_on_stop(height):
            text = f"the {CORNERS[number]} arm comes to rest on a stop"
            yield Verdict.OUT_OF_REACH, Finding(topic=Topic.TRAVEL, text=text)
        elif state.torque <= 0.0 and not law.corner.anchorage.holds_both_ways:
            text = f"the {CORNERS[number]} bar goes slack"
            yield Verdict.NOT_SAFE, Finding(topic=Topic.SLACK, text=text)
        elif number in standing.movable:
            yield from _there(law, state.load, _place(standing, number, turns)).forbidden()


def _findings(standing: StandingVehicle, resting: Resting, turns: Array) -> tuple[Finding, ...]:
    """Say what must be known of the corners whose nuts are turned."""
    found: list[Finding] = []
    for number, place, now in zip(standing.movable, turns, standing.turns, strict=True):
        law = standing.laws[number]
        height = float(resting.stance.heights[number])
        if place != now and not law.is_on_stop(height):
            load = law.at(height, turns=float(place)).load
            found += _there(law, load, float(place)).findings()
    return tuple(dict.fromkeys(found))


def _there(law: CornerLaw, load: float, place: float) -> RestingCorner:
    """Return a corner at rest with its nut at a place, by what its spring then carries [N]."""
    setup = attrs.evolve(
        law.corner.setup,
        nut_turns=quantity(place, TURNS),
        pin_distance=None,
        load=sprung_load(load / STANDARD_GRAVITY),
    )
    return RestingCorner(Corner(setup), law.spring)


def _place(standing: StandingVehicle, number: int, turns: Array) -> float:
    """Return where a corner's nut is, in turns from mid-thread."""
    places = dict(zip(standing.movable, turns.tolist(), strict=True))
    return float(places.get(number, standing.laws[number].turns))


def _ended(standing: StandingVehicle, turns: Array) -> Iterator[Finding]:
    """Say which threads end before the wish is met."""
    for number, place in zip(standing.movable, turns, strict=True):
        corner = standing.laws[number].corner
        low, high = corner.turns_span
        if min(place - low, high - place) < 1.0 / FLATS:
            yield Finding(
                topic=Topic.THREAD,
                text=f"the {CORNERS[number]} thread ends before the wish is met. The bar must be "
                "re-indexed: barwright reindex plans it",
            )


# -- The moves ---------------------------------------------------------------------------


def _moves(standing: StandingVehicle, turns: Array) -> Iterator[NutMove]:
    """Give the moves in their order: the axle with most to do first, and what lowers first."""
    now = standing.turns
    change = dict(zip(standing.movable, (turns - now).tolist(), strict=True))
    most = {n: max(abs(change.get(n - n % 2 + side, 0.0)) for side in (0, 1)) for n in change}
    raises = {n: change[n] * _raising(standing.laws[n].corner) > 0.0 for n in change}
    rise = influence(standing.vehicle).heights
    for number in sorted(change, key=lambda n: (-most[n], n // 2, raises[n], n)):
        law, place = standing.laws[number], float(dict(zip(change, turns, strict=True))[number])
        per_turn = law.free_height_per_turn(law.height, turns=law.turns) * rise[number, number]
        yield _move(law, place, change[number], height_per_turn=abs(float(per_turn)))


def _raising(corner: Corner) -> int:
    return 1 if raising_sense(corner) is TurningSense.CLOCKWISE else -1


def _move(law: CornerLaw, place: float, change: float, *, height_per_turn: float) -> NutMove:
    corner = law.corner
    adjuster, part = corner.setup.adjuster, turned(corner.setup.adjuster)
    assert isinstance(adjuster, Adjuster)  # noqa: S101 - its nut can be turned
    assert isinstance(part, TurnedPart)  # noqa: S101 - likewise
    low, high = corner.turns_span
    left = {1: high - place, -1: place - low}
    up, is_turned = _raising(corner), abs(change) > _LEAST
    clockwise = TurningSense.CLOCKWISE if change > 0.0 else TurningSense.COUNTER_CLOCKWISE
    return NutMove(
        corner=corner.setup.corner,
        turned_part=part,
        bolt_datum=bolt_datum(adjuster),
        correcting_turns=quantity(change, TURNS),
        correcting_sense=clockwise if is_turned else None,
        is_raised=change * up > 0.0,
        height_per_turn=quantity(height_per_turn, HEIGHT_PER_TURN),
        nut_turns=quantity(place, TURNS),
        pin_distance=quantity(plain(corner.setting_at_turns(place)), LENGTH),
        left_to_raise=quantity(left[up], TURNS),
        left_to_lower=quantity(left[-up], TURNS),
    )


_LEAST = 1e-6


def aims_in_order(standing: StandingVehicle, *, first: BalanceAim | None) -> list[BalanceAim]:
    """List the aims, the preferred one first.

    Four nuts give heights and cross weight, so both are set; two give the heights, and the
    cross weight only at their cost.
    """
    usual = BalanceAim.BOTH if len(standing.movable) == len(CORNERS) else BalanceAim.HEIGHTS
    chosen = first or usual
    return [chosen, *(aim for aim in BalanceAim if aim is not chosen)]
