"""What left the works stands at its height."""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.unloading import can_be_put_in
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.ride import ride
from barwright.analysis.reindex.plan.feasibility import wound_up
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.errors import BarwrightError
from barwright.lint.corners.compared import compared
from barwright.lint.corners.corners import Said, StandardCorner, reported_where_it_fits
from barwright.lint.corners.suspects import MOST_EXPLAINED, off_middle, off_tolerance, suspects
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.setup import Setup
from barwright.units import LENGTH, TURNS, Quantity, quantity, shown, si

__all__ = ["RULE"]

_ON_KEYS = "with its blanks on the keys"

# Nearer the middle than this [rad], nothing is left to explain.
_NEAR = math.radians(1.0)


def _remarks(subject: Subject) -> Iterator[Remark]:
    left = iter(range(MOST_EXPLAINED))
    return reported_where_it_fits(subject, lambda corner: _reported(corner, left))


def _reported(corner: StandardCorner, left: Iterator[int]) -> Iterator[Said]:
    if texts := tuple(_against_it(corner.setup)):
        remedy = "" if next(left, None) is None else _explained(corner.setup)
        yield from (Said(text, remedy) for text in texts)


def _explained(setup: Setup) -> str:
    """Say which figure may be wrong; empty where no single one explains it."""
    corner = Corner(setup)
    try:
        is_off = off_middle(corner)
        within = _NEAR if is_off is None else max(off_tolerance(corner), _NEAR)
        found = suspects(corner, within=within)
    except BarwrightError:
        return ""
    if is_off is None:
        return "; ".join(filter(None, (found, compared(setup, Topic.TRAVEL))))
    return f"{found}; angles are positive in the bump sense" if found else ""


def _against_it(setup: Setup) -> Iterator[str]:
    try:
        answer = reindex(setup)
    except BarwrightError as error:
        yield f"got {error.value!r}, expected {error.expected}"
        return
    if answer.verdict is Verdict.NEEDS_FIGURES:
        return
    if _keeps_from_standing(answer.verdict):
        yield from (finding.line for finding in answer.findings)
        return
    plans = (*answer.plans, *answer.rejected)
    keyed = [plan for plan in plans if plan.arm_tooth == plan.anchor_tooth == 0]
    for plan in keyed:
        yield from (f"{_ON_KEYS}: {finding.line}" for finding in _against(plan))
    if not keyed:
        yield _off_keys(setup, answer, plans[0])


def _against(plan: Plan) -> Iterator[Finding]:
    """Say why the works could not have put the bar in so, or not safely."""
    if _keeps_from_standing(plan.verdict):
        yield from plan.findings
    elif not can_be_put_in(plan.fitting):
        yield wound_up(plan.fitting)


def _keeps_from_standing(verdict: Verdict) -> bool:
    """Tell whether a verdict refuses for another reason than strength, which has its own rule."""
    return verdict.is_refusal and verdict is not Verdict.OVERSTRESSED


def _off_keys(setup: Setup, answer: Reindex, plan: Plan) -> str:
    """Say at which heights the corner stands on its keys, over the whole thread."""
    settings = (attrs.evolve(setup, nut_turns=turns) for turns in _ends(plan))
    states = (ride(setting).state for setting in settings)
    heights = sorted((state.height for state in states if state), key=_metres)
    span = " to ".join(shown(height, 1) for height in heights)
    stands = f"{_ON_KEYS} it stands at {span}, not at {shown(setup.axle.standard_height)}"
    return stands + _free_angles(setup, answer)


def _free_angles(setup: Setup, answer: Reindex) -> str:
    """Say which free angle the corner has in the middle of the thread, and which it wants."""
    angles = (ride(setup).free_angle, answer.free_angle)
    # Of a height that can be reached both are known.
    is_now, should_be = (shown(angle, 1) for angle in angles if angle is not None)
    middle = " in the middle of the thread" if setup.adjuster else ""
    return f": its free angle is {is_now}{middle} but should be {should_be}"


def _ends(plan: Plan) -> tuple[Quantity, ...]:
    """Both ends of the thread, as turns from its middle; no turn where nothing can be turned."""
    now = plan.nut_turns
    clockwise, counter_clockwise = plan.turns_left_clockwise, plan.turns_left_counter_clockwise
    if now is None or clockwise is None or counter_clockwise is None:
        return (quantity(0.0, TURNS),)
    return now - counter_clockwise, now + clockwise


def _metres(height: Quantity) -> float:
    return si(height, LENGTH)


RULE = Rule(
    name="standard-stands",
    code="R302",
    wants="with blanks on keys and the nut on its thread, a corner has its standard height",
    tip="check standard_height, standard_mass, the pair of measured_height and measured_angle, "
    "both key_angle, the bar's diameter and steel, and the adjuster; angles are positive in the "
    "bump sense",
    remarks=_remarks,
)
