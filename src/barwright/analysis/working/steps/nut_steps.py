"""Steps about the nut: what a turn does, what the bolt carries, where a plan sets it."""

from __future__ import annotations

from typing import cast

from barwright.analysis.working.expression import (
    Expression,
    Symbol,
    cos,
    root,
    sin,
    size,
    total,
)
from barwright.analysis.working.steps.anchor_steps import (
    anchor_angle_steps,
    line_steps,
    middle_of_thread,
)
from barwright.analysis.working.steps.linkage_steps import LinkageSteps
from barwright.analysis.working.steps.spring_steps import spring_steps
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    FORCE_UNIT,
    HEIGHT_PER_TURN_UNIT,
    LENGTH_PER_ANGLE,
    LENGTH_UNIT,
    NO_UNIT,
    TURNS_UNIT,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.levers_without_pin import KeyLeverBolt
from barwright.mechanics.corner import statics
from barwright.parts.adjuster import Adjuster, LeverSide, SwivellingMounting
from barwright.parts.anchor import KeyLever
from barwright.units import FORCE, HEIGHT_PER_TURN

__all__ = ["plan_steps", "turn_steps"]


def turn_steps(state: LinkageSteps, rate: Symbol) -> None:
    """Find what the bolt carries at rest, and what a turn does to the height.

    Parameters
    ----------
    state : LinkageSteps
        The corner at rest, put down already.
    rate : Symbol
        Of bar and tube.
    """
    sheet, corner = state.sheet, state.sheet.corner
    sheet.begin("The nut")
    slope = _slope(sheet, anchor_angle_steps(sheet))
    sheet.step(
        "B",
        "load of the bolt at rest, tension positive",
        Symbol("T") / slope,
        FORCE_UNIT,
        "principle of virtual work",
        found=corner.anchorage.effort(sheet.values["T"], lever_angle=sheet.values["α"]),
        figure="bolt_at_ride",
        kind=FORCE,
    )
    low, high = corner.travel
    if not low < sheet.values["φ"] < high or corner.is_slack(sheet.values["θ"]):
        return
    stiff = total(rate, *(hold.stiffness for hold in spring_steps(state)))
    follows = sheet.step(
        "u",
        "change of the arm angle at rest, per change of the free angle",
        rate / (stiff - Symbol("F") * state.curvature()),
        NO_UNIT,
        statics.arm_per_free_angle,
    )
    pitch = sheet.given("p_t", "pitch of the thread", "adjuster.thread_pitch")
    sheet.step(
        "h_t",
        "rise of the vehicle for a turn in the raising sense",
        size(state.hub_slope() * follows * pitch / slope),
        HEIGHT_PER_TURN_UNIT,
        statics.arm_per_free_angle,
        figure="height_per_turn",
        kind=HEIGHT_PER_TURN,
    )


def _slope(sheet: Worksheet, alpha: Symbol) -> Symbol:
    """Change of the pin's place, or of the bolt's end, with the lever's angle."""
    adjuster = cast("Adjuster", sheet.setup.adjuster)
    equation: Expression
    source: object
    if isinstance(sheet.setup.anchor, KeyLever):
        e, foot, _ = line_steps(sheet)
        face = Symbol("f") + Symbol("ϱ")
        equation = root(e**2 + Symbol("h_b") ** 2 - face**2) / cos(alpha - foot)
        equation, source = _signed(equation, adjuster), KeyLeverBolt
    elif isinstance(adjuster.mounting, SwivellingMounting):
        a, r, pivot = Symbol("a"), Symbol("r_L"), Symbol("α_b")
        equation, source = a * r * sin(alpha - pivot) / Symbol("ℓ"), SwivellingBolt
    else:
        e, foot, _ = line_steps(sheet)
        equation, source = _signed(e / cos(alpha - foot) ** 2, adjuster), FixedLineBolt
    return sheet.step(
        "ℓ'",
        "change of the pin's place along the bolt with the lever's angle"
        if not adjuster.is_screwed
        else "change of the place of the bolt's end with the lever's angle",
        equation,
        LENGTH_PER_ANGLE,
        source,
        found=sheet.corner.anchorage.slope(sheet.values["α"]),
    )


def _signed(equation: Expression, adjuster: Adjuster) -> Expression:
    return equation if adjuster.lever_lies is LeverSide.BUMPWARD else -equation


# -- A plan --------------------------------------------------------------------------


def plan_steps(sheet: Worksheet, wanted: Symbol, free: Symbol) -> None:
    """Find the turns that would bring a wanted free angle exactly: the plan's are nearest.

    Parameters
    ----------
    sheet : Worksheet
        With the plan carried out.
    wanted, free : Symbol
        Free angle for the wanted height, and with the plan carried out.
    """
    sheet.begin("The nut of the plan")
    missed = sheet.step(
        "Δ",
        "free angle of the plan beyond the wanted one",
        free - wanted,
        ANGLE_IN_DEGREES,
        "definition",
    )
    if sheet.setup.adjuster is None:
        return
    alpha = sheet.step(
        "α_w",
        "angle of the lever that would bring the wanted height exactly",
        anchor_angle_steps(sheet) - missed,
        ANGLE_IN_DEGREES,
        "the lever turns the free angle one to one",
    )
    setting = _setting_at(sheet, alpha)
    pitch = sheet.given("p_t", "pitch of the thread", "adjuster.thread_pitch")
    middle = middle_of_thread(sheet, sheet.setup.adjuster)
    along = setting - middle if sheet.setup.adjuster.is_screwed else middle - setting
    turns = sheet.step(
        "n_w",
        "turns from mid-thread that would bring it, clockwise positive",
        along / pitch,
        TURNS_UNIT,
        "a right-handed thread goes one pitch a turn",
        found=sheet.corner.turns_at_lever(sheet.values["α_w"]),
    )
    sheet.step(
        "n_f",
        "the same in flats of a sixth of a turn; the plan's is the nearest",
        6 * turns,
        NO_UNIT,
        "definition",
    )
    sheet.step(
        "n_p",
        "the plan's nut in flats, to compare",
        6 * Symbol("n"),
        NO_UNIT,
        "definition",
    )


def _setting_at(sheet: Worksheet, alpha: Symbol) -> Symbol:
    """Place of the pin, or of the bolt's end, that gives a lever angle."""
    adjuster = cast("Adjuster", sheet.setup.adjuster)
    sign = adjuster.lever_lies is LeverSide.BUMPWARD
    source: object
    equation: Expression
    if not isinstance(sheet.setup.anchor, KeyLever) and isinstance(
        adjuster.mounting, SwivellingMounting
    ):
        a, r, pivot = Symbol("a"), Symbol("r_L"), Symbol("α_b")
        equation = root(a**2 + r**2 - 2 * a * r * cos(alpha - pivot))
        source = SwivellingBolt
    elif isinstance(sheet.setup.anchor, KeyLever):
        e, foot, at = line_steps(sheet)
        standoff = Symbol("f") + Symbol("ϱ")
        turned = alpha - foot
        reach = e * sin(turned) - standoff if sign else e * sin(turned) + standoff
        beyond = reach / cos(turned)
        equation = at + Symbol("ϱ") + beyond if sign else at + Symbol("ϱ") - beyond
        source = KeyLeverBolt
    else:
        e, foot, at = line_steps(sheet)
        beyond = e * sin(alpha - foot) / cos(alpha - foot)
        equation, source = (at + beyond if sign else at - beyond), FixedLineBolt
    return sheet.step(
        "ℓ_w",
        "place along the bolt that gives this angle",
        equation,
        LENGTH_UNIT,
        source,
        found=sheet.corner.anchorage.setting(sheet.values[alpha.name]),
    )
