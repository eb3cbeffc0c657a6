"""Steps from rates and geometry to what the wheel carries, where it rests, and its rate."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeAlias

import attrs

from barwright.analysis.rates.corner_state import SolvedState
from barwright.analysis.rates.ride_height import wanted_height
from barwright.analysis.working.expression import Expression, Symbol, total
from barwright.analysis.working.steps.bar_steps import second_moment
from barwright.analysis.working.steps.linkage_steps import LinkageSteps
from barwright.analysis.working.steps.load_steps import load_steps
from barwright.analysis.working.steps.spring_steps import SpringHold, arch_height, spring_steps
from barwright.analysis.working.steps.suspension_steps import linkage_steps
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    ANGLE_IN_RADIANS,
    FORCE_UNIT,
    LENGTH_UNIT,
    STRESS_UNIT,
    TORQUE_UNIT,
    WHEEL_RATE_UNIT,
)
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.bar import torsion
from barwright.mechanics.corner import statics
from barwright.parts.wanted import Wanted
from barwright.units import (
    ANGLE,
    FORCE,
    LENGTH,
    STRESS,
    TORQUE,
    WHEEL_RATE,
)

__all__ = ["Named", "resting_steps", "stop_steps", "wanted_steps"]

Named: TypeAlias = Callable[[str], str]
"""From a field of a state to the figure of the answer that it is; empty if it is none."""

_GEOMETRY = "definition"


@attrs.frozen(kw_only=True)
class _State:
    """A state of the corner while its steps are put down."""

    linkage: LinkageSteps
    solved: SolvedState
    named: Named

    @property
    def sheet(self) -> Worksheet:
        """Where they are put down."""
        return self.linkage.sheet

    def name(self, symbol: str) -> str:
        """Name a symbol of this state."""
        return marked(symbol, self.linkage.mark)


# -- The corner at rest --------------------------------------------------------------


def wanted_steps(
    sheet: Worksheet,
    solved: SolvedState,
    rate: Symbol,
    wanted: Wanted,
    *,
    named: Named,
    mark: str = "",
) -> LinkageSteps:
    """Put down a corner that is to rest at a wanted height, and the free angle for it."""
    load = load_steps(sheet)
    sheet.begin("Geometry at the wanted height")
    where = "at the wanted height" if mark else "at rest"
    state = _state(sheet, solved, mark, named=named, where=where, wanted=wanted)
    linkage = state.linkage
    slope, holds = linkage.slope(), spring_steps(linkage)
    if not mark:
        linkage.curvature()
    sheet.begin("Torque and free angle for the wanted height")
    torque = sheet.step(
        state.name("T"),
        "torque of the bar that carries the load there",
        _less(load * slope, holds),
        TORQUE_UNIT,
        statics.bar_torque,
        found=solved.torque,
        figure=state.named("torque"),
        kind=TORQUE,
    )
    twist = sheet.step(
        state.name("θ"),
        "twist of bar and tube there",
        torque / rate,
        ANGLE_IN_RADIANS,
        statics.bar_hold,
        found=solved.twist,
        also=ANGLE_IN_DEGREES,
        figure=state.named("twist"),
        kind=ANGLE,
    )
    sheet.step(
        state.name("φ_free"),
        "free angle that gives that height: the arm angle at which the bar carries no torque",
        linkage.angle - twist,
        ANGLE_IN_DEGREES,
        statics.bar_torque,
        found=solved.angle - solved.twist,
    )
    if not mark:
        _rated(state, rate, load, holds)
    return linkage


def resting_steps(
    sheet: Worksheet, solved: SolvedState, rate: Symbol, free: Symbol, *, named: Named
) -> LinkageSteps:
    """Put down a corner as it rests, and put its angle into the equation of rest."""
    load = load_steps(sheet)
    sheet.begin("Geometry at rest")
    state = _state(sheet, solved, "", named=named, where="at rest")
    holds = spring_steps(state.linkage)
    sheet.begin("Rest")
    carried = _carried(state, rate, free, holds)
    torque = Symbol("T")
    low, high = sheet.corner.travel
    if low < solved.angle < high:
        sheet.balance(
            state.linkage.angle,
            "moment of the load about the bar axis, and what carries it",
            left=load * state.linkage.slope(),
            right=total(torque, *(hold.torque for hold in holds)),
            unit=TORQUE_UNIT,
            source=statics.bar_torque,
        )
    _rated(state, rate, carried, holds)
    return state.linkage


def stop_steps(
    sheet: Worksheet, solved: SolvedState, rate: Symbol, *, place: str, named: Named
) -> None:
    """Put down a corner at a limit of its travel."""
    sheet.begin({"droop": "Full droop", "bump": "Full bump"}[place])
    state = _state(sheet, solved, place[0], named=named, where=f"at full {place}")
    holds = spring_steps(state.linkage)
    carried = _carried(state, rate, Symbol("φ_free"), holds)
    _rated(state, rate, carried, holds)


def _state(
    sheet: Worksheet,
    solved: SolvedState,
    mark: str,
    *,
    named: Named,
    where: str,
    wanted: Wanted | None = None,
) -> _State:
    """Begin a state with its arm angle, and show that this is the right one."""
    angle = _angle(sheet, solved, mark, named=named, where=where, wanted=wanted)
    linkage = linkage_steps(sheet, angle, mark=mark, where=where, named=named)
    state = _State(linkage=linkage, solved=solved, named=named)
    sheet.step(
        state.name("H"),
        f"height hub to arch, {where}",
        arch_height(sheet) - linkage.hub_height(),
        LENGTH_UNIT,
        _GEOMETRY,
        found=solved.height,
        figure=state.named("height"),
        kind=LENGTH,
    )
    _show_angle(state, wanted)
    return state


def _angle(
    sheet: Worksheet,
    solved: SolvedState,
    mark: str,
    *,
    named: Named,
    where: str,
    wanted: Wanted | None,
) -> Symbol:
    name, words = marked("φ", mark), f"arm angle {where}"
    limit = _limit(sheet, mark)
    if limit in _LIMITS:
        return sheet.given(name, f"{words}: the chassis' stop", f"axle.{limit}")
    if limit:
        how = "solved for the damper's length; put in below"
    elif wanted is not None and wanted.arm_angle is not None:
        return sheet.wished(name, f"{words}, as wanted", wanted.arm_angle, ANGLE)
    elif wanted is not None:
        how = "solved for the wanted height; put in below"
    else:
        how = "solved for rest; put in below"
    return sheet.solved(
        name, words, solved.angle, ANGLE_IN_DEGREES, how, figure=named("arm_angle"), kind=ANGLE
    )


_LIMITS = ("droop_stop", "bump_stop")


def _limit(sheet: Worksheet, mark: str) -> str:
    """Figure that ends the travel there; nothing at rest."""
    if mark not in ("d", "b"):
        return ""
    end = 0 if mark == "d" else 1
    if sheet.corner.travel[end] == sheet.corner.stops[end]:
        return _LIMITS[end]
    return ("open_length", "closed_length")[end]


def _show_angle(state: _State, wanted: Wanted | None) -> None:
    """Put a solved angle into what it was solved from."""
    sheet, linkage = state.sheet, state.linkage
    limit = _limit(sheet, linkage.mark)
    if limit and limit not in _LIMITS:
        which = limit.partition("_")[0]
        length = sheet.given(f"s_{which[0]}", f"{which} length of the damper", f"damper.{limit}")
        sheet.balance(
            linkage.angle,
            f"length of the damper {linkage.where}, which is {which} there",
            left=linkage.damper_length(),
            right=length,
            unit=LENGTH_UNIT,
            source=_GEOMETRY,
        )
    if wanted is not None and wanted.arm_angle is None:
        height = wanted_height(sheet.corner, wanted)
        sheet.balance(
            linkage.angle,
            "height hub to arch at rest, which is the one that is wanted",
            left=arch_height(sheet) - linkage.hub_height(),
            right=sheet.wished("H_w", "wanted height, hub to arch", height, LENGTH),
            unit=LENGTH_UNIT,
            source=_GEOMETRY,
        )


# -- What the wheel feels ------------------------------------------------------------


def _carried(state: _State, rate: Symbol, free: Symbol, holds: Sequence[SpringHold]) -> Symbol:
    """Find twist, torque and the load that they carry."""
    sheet, linkage, solved = state.sheet, state.linkage, state.solved
    twist = sheet.step(
        state.name("θ"),
        f"twist of bar and tube, {linkage.where}",
        linkage.angle - free,
        ANGLE_IN_DEGREES,
        statics.bar_hold,
        found=solved.twist,
        also=ANGLE_IN_RADIANS,
        figure=state.named("twist"),
        kind=ANGLE,
    )
    is_slack = sheet.corner.is_slack(solved.twist)
    torque = sheet.step(
        state.name("T"),
        f"torque of the bar, {linkage.where}" + (": none, it is slack" if is_slack else ""),
        0 * rate if is_slack else rate * twist,
        TORQUE_UNIT,
        statics.bar_hold,
        found=solved.torque,
        figure=state.named("torque"),
        kind=TORQUE,
    )
    return sheet.step(
        state.name("F_w"),
        f"load at the wheel that is carried {linkage.where}",
        total(torque, *(hold.torque for hold in holds)) / linkage.slope(),
        FORCE_UNIT,
        statics.wheel_load,
        found=solved.wheel_load,
        figure=state.named("wheel_load"),
        kind=FORCE,
    )


def _rated(state: _State, rate: Symbol, load: Symbol, holds: Sequence[SpringHold]) -> None:
    """Find the rate at the wheel, the stress and the damper's reserve."""
    sheet, linkage, solved = state.sheet, state.linkage, state.solved
    _stress(state)
    _strokes(state)
    stiff: list[Expression] = [hold.stiffness for hold in holds]
    bent = load * linkage.curvature()
    if not sheet.corner.is_slack(solved.twist):
        stiff.insert(0, rate)
    top = total(*stiff) - bent if stiff else -bent
    sheet.begin({"": "Rate at the wheel"}.get(linkage.mark, sheet.title))
    sheet.step(
        state.name("K"),
        f"rate at the wheel, {linkage.where}",
        top / linkage.slope() ** 2,
        WHEEL_RATE_UNIT,
        statics.wheel_rate,
        found=solved.wheel_rate,
        figure=state.named("wheel_rate"),
        kind=WHEEL_RATE,
    )


def _strokes(state: _State) -> None:
    """Find what is left of the damper's stroke, if the answer says so."""
    sheet, linkage = state.sheet, state.linkage
    if not state.named("damper_length"):
        return
    length = linkage.damper_length()
    closed = sheet.given("s_c", "closed length of the damper", "damper.closed_length")
    opened = sheet.given("s_o", "open length of the damper", "damper.open_length")
    for name, left, what in (
        ("closed", length - closed, "until the damper is closed"),
        ("open", opened - length, "until the damper is open"),
    ):
        sheet.step(
            state.name(f"x_{name[0]}"),
            f"stroke {what}, {linkage.where}",
            left,
            LENGTH_UNIT,
            _GEOMETRY,
            figure=state.named(f"stroke_to_{name}"),
            kind=LENGTH,
        )


def _stress(state: _State) -> None:
    sheet, solved = state.sheet, state.solved
    moment, d = second_moment(sheet), Symbol("d")
    sheet.step(
        state.name("τ"),
        f"shear stress at the surface of the bar's body, {state.linkage.where}",
        Symbol(state.name("T")) * d / (2 * moment),
        STRESS_UNIT,
        torsion.shear_stress,
        found=solved.shear_stress,
        figure=state.named("shear_stress"),
        kind=STRESS,
    )


def _less(whole: Expression, holds: Sequence[SpringHold]) -> Expression:
    for hold in holds:
        whole = whole - hold.torque
    return whole
