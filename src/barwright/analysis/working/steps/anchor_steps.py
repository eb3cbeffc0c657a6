"""Steps from the nut, the keys and the teeth to the free angle."""

from __future__ import annotations

import math
from typing import cast

from barwright.analysis.working.expression import (
    FULL_TURN,
    Expression,
    Number,
    Symbol,
    arccos,
    arcsin,
    arctan,
    root,
)
from barwright.analysis.working.working_unit import ANGLE_IN_DEGREES, LENGTH_UNIT
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.levers_without_pin import KeyLeverBolt
from barwright.mechanics.spline import clocking
from barwright.parts.adjuster import Adjuster, LeverSide, SwivellingMounting
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.setup import Reading
from barwright.units import ANGLE

__all__ = [
    "FREE_ANGLE",
    "anchor_angle_steps",
    "keyed_steps",
    "less_whole_turns",
    "lever_steps",
    "line_steps",
    "middle_of_thread",
    "setting_at",
    "setting_steps",
    "teeth_of",
]


FREE_ANGLE = "free angle: arm angle at which the bar carries no torque"
"""What it is, in words."""


# -- From the nut to the lever -------------------------------------------------------


def setting_steps(sheet: Worksheet) -> Symbol:
    """Find the place of the lever's pin, or of the bolt's end, as it is set."""
    name, words = "ℓ", "lever's pin along the bolt"
    adjuster = cast("Adjuster", sheet.setup.adjuster)
    if adjuster.is_screwed:
        words = "end of the bolt from the cross-member"
    if sheet.setup.pin_distance is not None:
        return sheet.given(name, words, "pin_distance")
    turns = sheet.given("n", "turns from mid-thread, clockwise positive", "nut_turns")
    pitch = sheet.given("p_t", "pitch of the thread", "adjuster.thread_pitch")
    middle = middle_of_thread(sheet, adjuster)
    return sheet.step(
        name,
        words,
        middle + turns * pitch if adjuster.is_screwed else middle - turns * pitch,
        LENGTH_UNIT,
        "a right-handed thread goes one pitch a turn",
    )


def setting_at(sheet: Worksheet, reading: Reading) -> Symbol:
    """Find that place as it was when the corner was measured.

    Parameters
    ----------
    sheet : Worksheet
        Where the steps are put down.
    reading : Reading
        What was measured, which may say where the nut then stood.

    Returns
    -------
    Symbol
    """
    adjuster = cast("Adjuster", sheet.setup.adjuster)
    words = "the same place, as the corner was measured"
    own = reading.nut_turns is not None or reading.pin_distance is not None
    path = "reading" if own else "reading.setup"
    if (reading if own else reading.setup).pin_distance is not None:
        return sheet.given("ℓ_r", words, f"{path}.pin_distance")
    turns = sheet.given("n_r", "turns from mid-thread when it was measured", f"{path}.nut_turns")
    pitch = sheet.given("p_t", "pitch of the thread", "adjuster.thread_pitch")
    middle = middle_of_thread(sheet, adjuster)
    return sheet.step(
        "ℓ_r",
        words,
        middle + turns * pitch if adjuster.is_screwed else middle - turns * pitch,
        LENGTH_UNIT,
        "a right-handed thread goes one pitch a turn",
    )


def middle_of_thread(sheet: Worksheet, adjuster: Adjuster) -> Symbol:
    """Place of the pin, or of the bolt's end, in the middle of the thread."""
    start = sheet.given("ℓ_1", "first full thread along the bolt", "adjuster.thread_start")
    end = sheet.given("ℓ_2", "last full thread along the bolt", "adjuster.thread_end")
    middle: Expression = (start + end) / 2
    if not adjuster.is_screwed:
        nut = sheet.given("h_n", "height of the nut", "adjuster.nut_height")
        spacer = sheet.given("h_s", "spacer between nut and pin", "adjuster.spacer")
        is_pulled = adjuster.lever_lies is LeverSide.BUMPWARD
        offset = -(nut / 2) - spacer if is_pulled else nut / 2 + spacer
        middle = middle + offset
    return sheet.step(
        "ℓ_0",
        "the same in the middle of the thread, all of a nut on full thread",
        middle,
        LENGTH_UNIT,
        "definition",
        found=sheet.corner.setting_middle,
    )


def lever_steps(sheet: Worksheet, setting: Symbol, *, mark: str = "", where: str = "") -> Symbol:
    """Find the angle of the lever at a place of its pin or of the bolt's end.

    Parameters
    ----------
    sheet : Worksheet
        Where the steps are put down.
    setting : Symbol
        That place.
    mark, where : str
        Index of the symbols, and the state in words; empty as the corner is set now.

    Returns
    -------
    Symbol
    """
    words = f"angle of the lever above the horizontal{where}"
    anchor, side = sheet.setup.anchor, cast("Adjuster", sheet.setup.adjuster).lever_lies
    sign = 1 if side is LeverSide.BUMPWARD else -1
    found = sheet.corner.anchorage.lever_angle(sheet.values[setting.name])
    source: object
    if isinstance(anchor, KeyLever):
        equation, source = _on_key_lever(sheet, setting, sign, mark=mark), KeyLeverBolt
    elif isinstance(cast("Adjuster", sheet.setup.adjuster).mounting, SwivellingMounting):
        equation, source = _swivelling(sheet, setting, sign), SwivellingBolt
    else:
        equation, source = _on_line(sheet, setting, sign), FixedLineBolt
    return sheet.step(marked("α", mark), words, equation, ANGLE_IN_DEGREES, source, found=found)


def _swivelling(sheet: Worksheet, setting: Symbol, sign: int) -> Expression:
    at = "adjuster.mounting"
    a = sheet.given("a", "from the bar axis to the bolt's pivot", f"{at}.pivot_distance")
    pivot = sheet.given("α_b", "angle of that pivot above the horizontal", f"{at}.pivot_angle")
    r = sheet.given("r_L", "from the bar axis to the lever's pin", "anchor.lever_radius")
    corner = arccos((a**2 + r**2 - setting**2) / (2 * a * r))
    return pivot + corner if sign > 0 else pivot - corner


def line_steps(sheet: Worksheet) -> tuple[Symbol, Symbol, Symbol]:
    """Distance of a bolt's fixed line, the angle of its foot, and where along it that is."""
    at = "adjuster.mounting"
    return (
        sheet.given("e_L", "from the bar axis to the bolt's line", f"{at}.line_distance"),
        sheet.given("α_f", "angle of the perpendicular to that line", f"{at}.foot_angle"),
        sheet.given("ℓ_f", "foot of that perpendicular along the bolt", f"{at}.foot_position"),
    )


def _on_line(sheet: Worksheet, setting: Symbol, sign: int) -> Expression:
    e, foot, at = line_steps(sheet)
    leaning = arctan((setting - at) / e)
    return foot + leaning if sign > 0 else foot - leaning


def _on_key_lever(sheet: Worksheet, setting: Symbol, sign: int, *, mark: str) -> Expression:
    e, foot, at = line_steps(sheet)
    rounding = sheet.given("ϱ", "radius of the bolt's rounded end", "adjuster.mounting.end_radius")
    face = sheet.given(
        "f", "lever's centreline to the face that the bolt presses on", "anchor.face_offset"
    )
    beyond = setting - at - rounding
    h = sheet.step(
        marked("h_b", mark),
        "centre of the bolt's end bumpward of that foot",
        beyond if sign > 0 else -beyond,
        LENGTH_UNIT,
        KeyLeverBolt,
    )
    leaning = arcsin((face + rounding) / root(e**2 + h**2))
    base = foot + arctan(h / e)
    return base + leaning if sign > 0 else base - leaning


# -- From the lever to the arm -------------------------------------------------------


def keyed_steps(sheet: Worksheet, *, figure: str = "") -> Symbol:
    """Find the arm angle without torque from keys, teeth and lever."""
    lever = anchor_angle_steps(sheet)
    equation = lever + sheet.given(
        "κ_c",
        "from the lever's centreline to the key of the anchor's socket",
        "anchor.socket.key_angle",
    )
    equation = equation - sheet.given(
        "κ_a", "from the arm's centreline to the key of its socket", "arm.socket.key_angle"
    )
    blank = sheet.given(
        "δ",
        "from the anchor-end blank to the arm-end blank, right-handed about the bar axis",
        "bar.blank_angle",
    )
    if sheet.values["δ"]:
        equation = equation + sense_of(sheet) * blank
    for name, end, sign in (("a", "arm", 1), ("c", "anchor", -1)):
        turned = _turned(sheet, name, end)
        if turned is not None:
            equation = equation + turned if sign > 0 else equation - turned
    found = sheet.corner.free_angle
    return sheet.step(
        "φ_free",
        FREE_ANGLE,
        less_whole_turns(equation, sheet, found),
        ANGLE_IN_DEGREES,
        clocking.free_angle,
        found=found,
        figure=figure,
        kind=ANGLE,
    )


def anchor_angle_steps(sheet: Worksheet) -> Symbol:
    """Find the angle of the lever as it is set, or of a fixed socket."""
    if isinstance(sheet.setup.anchor, FixedSocket):
        return sheet.given(
            "α", "angle of the fixed socket above the horizontal", "anchor.anchor_angle"
        )
    return lever_steps(sheet, setting_steps(sheet))


def sense_of(sheet: Worksheet) -> Symbol:
    """Bump sense about the bar axis."""
    words = "bump sense of this corner about the bar axis"
    return sheet.count("σ", words, "axle.bar_axis", sheet.corner.sense)


def _turned(sheet: Worksheet, name: str, end: str) -> Expression | None:
    """Angle by which the tooth on a key lies off the maker's blank."""
    tooth = getattr(sheet.setup, f"{end}_tooth")
    if not tooth:
        return None
    m = sheet.count(
        f"m_{name}", f"tooth on the {end} end's key, from its blank", f"{end}_tooth", tooth
    )
    return m * FULL_TURN / teeth_of(sheet, name, end)


def teeth_of(sheet: Worksheet, name: str, end: str) -> Symbol:
    """Teeth of an end of the bar, blanks counted."""
    record = getattr(sheet.setup.bar, f"{end}_end")
    return sheet.count(
        f"N_{name}", f"teeth of the {end} end, blanks counted", f"bar.{end}_end.teeth", record.teeth
    )


def less_whole_turns(equation: Expression, sheet: Worksheet, wanted: float) -> Expression:
    """Take off whole turns, which change nothing."""
    turns = round((equation.value(sheet.values) - wanted) / (2.0 * math.pi))
    if not turns:
        return equation
    whole = Number(2.0 * math.pi * abs(turns), f"{360 * abs(turns)}°")
    return equation - whole if turns > 0 else equation + whole
