"""Steps to the free angle as a corner is clocked and set: from its keys, or as it was measured."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.analysis.working.expression import FULL_TURN, Expression, Symbol
from barwright.analysis.working.steps.anchor_steps import (
    FREE_ANGLE,
    anchor_angle_steps,
    keyed_steps,
    less_whole_turns,
    lever_steps,
    setting_at,
    teeth_of,
)
from barwright.analysis.working.steps.load_steps import load_steps
from barwright.analysis.working.steps.spring_steps import arch_height, spring_steps
from barwright.analysis.working.steps.suspension_steps import linkage_steps
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    ANGLE_IN_RADIANS,
    LENGTH_UNIT,
    TORQUE_UNIT,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.mechanics.corner import statics
from barwright.parts.setup import Reading, Setup
from barwright.units import ANGLE

__all__ = ["free_angle_steps"]

_WHERE = "as it was measured"
_PARTS = ("axle", "arm", "anchor", "adjuster", "damper")


def free_angle_steps(sheet: Worksheet, rate: Symbol, *, figure: str = "") -> Symbol:
    """Find the arm angle without torque, as the corner is clocked and set.

    Parameters
    ----------
    sheet : Worksheet
        Where the steps are put down.
    rate : Symbol
        Of bar and tube.
    figure : str
        Figure of the answer that it is.

    Returns
    -------
    Symbol
    """
    sheet.begin("Free angle, as clocked and set")
    reading = sheet.setup.reading
    if reading is None:
        return keyed_steps(sheet, figure=figure)
    if _is_of_these_parts(sheet, reading):
        return _read_steps(sheet, reading, rate, figure=figure)
    return sheet.solved(
        "φ_free",
        FREE_ANGLE,
        sheet.corner.free_angle,
        ANGLE_IN_DEGREES,
        "from what was measured with other parts or several times: φ - T / k there, and what keys, "
        "lever and teeth have changed since",
        figure=figure,
        kind=ANGLE,
    )


def _is_of_these_parts(sheet: Worksheet, reading: Reading) -> bool:
    """Whether one reading shows all, and was taken with the parts that the corner has now."""
    setup, then = sheet.setup, reading.setup
    return (
        not setup.further_readings
        and all(getattr(setup, name) is getattr(then, name) for name in _PARTS)
        and setup.bar.blank_angle is then.bar.blank_angle
        and sheet.corner.torsional_rates == _then(sheet, reading).torsional_rates
    )


def _then(sheet: Worksheet, reading: Reading) -> Corner:
    return sheet.corner.beside(reading.corner)


def _read_steps(sheet: Worksheet, reading: Reading, rate: Symbol, *, figure: str) -> Symbol:
    """Put down the free angle of then, and what lever and teeth have changed since."""
    then = _free_then(sheet, reading, rate)
    sheet.begin("Free angle, as clocked and set")
    equation: Expression = then
    if sheet.setup.adjuster is not None:
        now = anchor_angle_steps(sheet)
        was = lever_steps(sheet, setting_at(sheet, reading), mark="r", where=f", {_WHERE}")
        equation = then + now - was
    for name, end, sign in (("a", "arm", 1), ("c", "anchor", -1)):
        turned = _turned_since(sheet, reading.setup, name, end)
        if turned is not None:
            equation = equation + turned if sign > 0 else equation - turned
    found = sheet.corner.free_angle
    return sheet.step(
        "φ_free",
        FREE_ANGLE,
        less_whole_turns(equation, sheet, found),
        ANGLE_IN_DEGREES,
        "the lever and the teeth turn the free angle one to one",
        found=found,
        figure=figure,
        kind=ANGLE,
    )


def _turned_since(sheet: Worksheet, then: Setup, name: str, end: str) -> Expression | None:
    """Angle by which the tooth on a key has changed since then."""
    now, was = getattr(sheet.setup, f"{end}_tooth"), getattr(then, f"{end}_tooth")
    if now == was:
        return None
    words = f"tooth on the {end} end's key, from its blank"
    m = sheet.count(f"m_{name}", words, f"{end}_tooth", now)
    m_r = sheet.count(f"m_{name}r", f"{words}, {_WHERE}", f"reading.setup.{end}_tooth", was)
    return (m - m_r) * FULL_TURN / teeth_of(sheet, name, end)


def _free_then(sheet: Worksheet, reading: Reading, rate: Symbol) -> Symbol:
    """Find the free angle that a reading shows: what the bar carried there, by its rate."""
    sheet.begin("The corner as it was measured")
    load = load_steps(sheet, reading)
    sheet.begin("The corner as it was measured")
    point = _then(sheet, reading).point_at(reading)
    angle = _angle_then(sheet, reading, point.arm_angle)
    state = linkage_steps(sheet, angle, mark="r", where=_WHERE)
    if reading.height is not None:
        sheet.balance(
            angle,
            "height hub to arch, which is the one that was measured",
            left=arch_height(sheet) - state.hub_height(),
            right=sheet.given("H_r", "height hub to arch that was measured", "reading.height"),
            unit=LENGTH_UNIT,
            source="definition",
        )
    torque: Expression = load * state.slope()
    for hold in spring_steps(state):
        torque = torque - hold.torque
    carried = sheet.step(
        "T_r",
        f"torque of the bar, {_WHERE}",
        torque,
        TORQUE_UNIT,
        statics.bar_torque,
        found=point.torque,
    )
    twist = sheet.step(
        "θ_r",
        f"twist of bar and tube, {_WHERE}",
        carried / rate,
        ANGLE_IN_RADIANS,
        statics.bar_hold,
        also=ANGLE_IN_DEGREES,
    )
    return sheet.step(
        "φ_free_r", f"free angle, {_WHERE}", angle - twist, ANGLE_IN_DEGREES, statics.bar_torque
    )


def _angle_then(sheet: Worksheet, reading: Reading, found: float) -> Symbol:
    if reading.arm_angle is not None:
        return sheet.given("φ_r", "arm angle that was measured", "reading.arm_angle")
    how = "solved for the height that was measured; put in below"
    return sheet.solved("φ_r", f"arm angle, {_WHERE}", found, ANGLE_IN_DEGREES, how)
