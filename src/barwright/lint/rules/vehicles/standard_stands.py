"""What left the works stands at its height."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.unloading import can_be_put_in
from barwright.analysis.finding import Finding
from barwright.analysis.rates.ride import ride
from barwright.analysis.reindex.feasibility import wound_up
from barwright.analysis.reindex.plan import Plan
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.errors import BarwrightError
from barwright.lint.corners import StandardCorner, reported_where_it_fits
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject import Subject
from barwright.parts.setup import Setup
from barwright.units import LENGTH, TURNS, Quantity, quantity, shown, si

__all__ = ["RULE"]

_ON_KEYS = "with its blanks on the keys"


def _remarks(subject: Subject) -> Iterator[Remark]:
    return reported_where_it_fits(subject, _reported)


def _reported(corner: StandardCorner) -> Iterator[str]:
    try:
        answer = reindex(corner.setup)
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
        yield _off_keys(corner.setup, answer, plans[0])


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
    tip="check height, mass, key angles and adjuster; angles are positive in the bump sense",
    remarks=_remarks,
)
