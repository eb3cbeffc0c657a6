"""The drawing of a weighed vehicle from above: its scales, and which nuts are turned which way."""

from __future__ import annotations

import math
from collections.abc import Iterator

from barwright.analysis.balancing.balance_answer import Balance, NutMove, WheelOnScale
from barwright.mechanics.spline.clocking import TurningSense
from barwright.report.drawing.svg import (
    BOLD,
    HAIR,
    PALE,
    SHEET_BODY,
    SHEET_SMALL,
    SHEET_TITLE,
    WHITE,
    XY,
    Drawing,
)
from barwright.units import Quantity, shown

__all__ = ["weighed_vehicle_svg"]

_SIZE = (160.0, 72.0)
_MIDDLE, _HALF_TRACK, _TYRE = _SIZE[0] / 2.0, 13.0, (4.0, 11.0)
_AXLES = {"front": 23.0, "rear": 55.0}
_RADIUS = 8.0


def weighed_vehicle_svg(answer: Balance) -> str:
    """Draw a vehicle from above, with what its scales read and the turns of its nuts.

    Parameters
    ----------
    answer : Balance
        An answer with scales.  The turns are those of its preferred settings.

    Returns
    -------
    str
        An SVG document, 150 mm wide.
    """
    moves = {} if answer.verdict.is_refusal else _moves(answer)
    title, told = "From above, on the scales", " ".join(_described(answer, moves))
    out = Drawing(_SIZE, title=title, description=told, small=SHEET_SMALL)
    out.text((_MIDDLE, 5.0), title, size=SHEET_TITLE, bold=True)
    _draw_body(out)
    then = answer.preferred.scales if moves else answer.scales
    for now, after in zip(answer.scales, then, strict=True):
        _draw_wheel(out, now, after, moves.get(now.corner))
    if moves:
        seen = " or ".join(dict.fromkeys(one.turned_part.seen_from for one in moves.values()))
        out.text((_MIDDLE, _SIZE[1] - 1.5), f"turns as seen from {seen}")
    return str(out)


def _moves(answer: Balance) -> dict[str, NutMove]:
    """Nuts that are turned, by their corner."""
    return {one.corner: one for found in answer.settings[:1] for one in found.turned}


def _described(answer: Balance, moves: dict[str, NutMove]) -> Iterator[str]:
    for wheel in answer.scales:
        yield f"{wheel.corner.capitalize()}: {shown(wheel.scale_reading, 0)} on the scale."
    for move in moves.values():
        does = "raises" if move.is_raised else "lowers"
        seen = move.turned_part.seen_from
        yield f"Turn {move.in_words}, seen from {seen}; this {does} the corner."


def _draw_body(out: Drawing) -> None:
    left, right = _MIDDLE - 10.0, _MIDDLE + 10.0
    nose = [(left, 17.0), (left + 4.0, 10.0), (right - 4.0, 10.0), (right, 17.0)]
    out.path([*nose, (right, 64.0), (left, 64.0)], closed=True, fill=PALE, width=BOLD, name="body")
    out.line((left + 2.0, 21.0), (right - 2.0, 21.0), width=HAIR)
    out.text((_MIDDLE, 19.0), "front", size=SHEET_SMALL)


def _draw_wheel(out: Drawing, now: WheelOnScale, then: WheelOnScale, move: NutMove | None) -> None:
    place, _, side = now.corner.partition(" ")
    way = -1.0 if side == "left" else 1.0
    hub = (_MIDDLE + way * _HALF_TRACK, _AXLES[place])
    half = (_TYRE[0] / 2.0, _TYRE[1] / 2.0)
    low, high = (hub[0] - half[0], hub[1] - half[1]), (hub[0] + half[0], hub[1] + half[1])
    out.box(low, high, fill=WHITE, width=BOLD, name=now.corner)
    at = (hub[0] + way * 4.0, hub[1] - 6.0)
    anchor = "end" if way < 0.0 else "start"
    out.text(at, now.corner.capitalize(), size=SHEET_BODY, anchor=anchor, bold=True)
    texts = [_from_to(now.scale_reading, then.scale_reading)]
    if now.height is not None and then.height is not None:
        texts.append(_from_to(now.height, then.height))
    out.lines((at[0], at[1] + 5.2), texts, size=SHEET_BODY, anchor=anchor)
    if move is not None and move.correcting_sense is not None:
        _draw_turn(out, (_MIDDLE + way * 61.0, hub[1] - 5.0), move, move.correcting_sense)


def _from_to(now: Quantity, then: Quantity) -> str:
    before, after = shown(now, 0), shown(then, 0)
    return before if before == after else f"{before.partition(' ')[0]} → {after}"


def _draw_turn(out: Drawing, centre: XY, move: NutMove, sense: TurningSense) -> None:
    """Draw an arrow in the sense of the turn around its number, and say what it does."""
    ends = 1.25 * math.pi, -0.25 * math.pi
    start, end = ends if sense is TurningSense.CLOCKWISE else ends[::-1]
    out.arc(centre, _RADIUS, start=start, end=end, name=sense.value)
    count = abs(float(move.correcting_turns.magnitude))
    x, y = centre
    out.text((x, y + 0.6), f"{count:.2f}", size=SHEET_TITLE, bold=True)
    out.text((x, y + 4.8), "turns")
    does = "to raise it" if move.is_raised else "to lower it"
    out.text((x, y + _RADIUS + 5.0), sense.value, size=SHEET_BODY, bold=True)
    out.text((x, y + _RADIUS + 9.8), does)
