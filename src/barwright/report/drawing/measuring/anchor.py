"""What holds the anchor end, seen along the bar: where its figures are taken."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from barwright.report.drawing.measuring.marks import (
    Mark,
    Scheme,
    angle,
    centre_line,
    length,
    spot,
    wheelwise,
)
from barwright.report.drawing.svg import BOLD, HAIR, INK, PALE, WHITE, XY, Drawing, polar

__all__ = ["FIXED_SOCKET", "KEY_LEVER", "TUBE_WITH_FIXED_BOLT", "TUBE_WITH_SWIVELLING_BOLT"]

_SIZE = (90.0, 88.0)


def _head_of_bar(out: Drawing, centre: XY, *, socket: float, key: float) -> None:
    """Draw the socket with the bar in it, and the key that the blank lies on."""
    out.circle(centre, socket, fill=PALE)
    out.circle(centre, 5.2, fill=WHITE)
    for n in range(24):
        turned = math.tau * n / 24.0
        ends = (polar(centre, radius=r, angle=turned) for r in (4.2, 5.2))
        out.line(*ends, width=HAIR)
    tip = polar(centre, radius=6.2, angle=math.tau * key)
    out.line(polar(centre, radius=4.0, angle=math.tau * key), tip, width=BOLD)
    centre_line(out, (centre[0] - socket - 2.0, centre[1]), (centre[0] + 18.0, centre[1]))
    centre_line(out, (centre[0], centre[1] - socket - 2.0), (centre[0], centre[1] + socket + 2.0))


# -- Key lever ---------------------------------------------------------------------------

_KEY = (64.0, 34.0)
_BOLT, _FACE, _CROSS = 24.0, 40.0, (58.0, 63.0)


def _draw_key_lever(out: Drawing) -> None:
    lever = [(12.0, 30.0), (58.0, 26.5), (58.0, 41.5), (40.0, _FACE), (12.0, _FACE)]
    out.path(lever, closed=True, fill=PALE)
    _head_of_bar(out, _KEY, socket=9.0, key=0.694)
    out.line((14.0, _FACE), (38.0, _FACE), width=BOLD)
    centre_line(out, (8.0, _KEY[1]), (_KEY[0], _KEY[1]))
    for low, high in ((12.0, 20.5), (27.5, 56.0)):
        out.hatched_box((low, _CROSS[0]), (high, _CROSS[1]))
    shaft = [(-3.0, 78.0), (-3.0, 42.5), (-1.5, 40.4), (0.0, _FACE), (1.5, 40.4), (3.0, 42.5)]
    out.path([(_BOLT + x, y) for x, y in (*shaft, (3.0, 78.0))], closed=True, fill=WHITE)
    for y in range(46, 76, 2):
        out.line((_BOLT - 3.0, y + 0.6), (_BOLT + 3.0, y - 0.6), width=HAIR)
    out.box((_BOLT - 5.0, 78.0), (_BOLT + 5.0, 83.0), fill=WHITE)
    centre_line(out, (_BOLT, 28.0), (_BOLT, 86.0))
    out.text((29.0, 66.8), "cross-member", anchor="start")
    out.text((39.5, 32.8), "key lever", anchor="start")
    wheelwise(out, (82.0, 52.0))


def _from_cross_member(x: float, end: float, *, of: float) -> Mark:
    return length((x, _CROSS[0]), (x, end), of=((x, _CROSS[0]), (of, end)))


def _square_to_bolt(y: float, *, to: XY) -> Mark:
    return length((_BOLT, y), (to[0], y), of=((_BOLT, 40.0), (to[0], to[1])))


_KEY_LEVER_MARKS = {
    "anchor.face_start": length((38.0, 22.0), (_KEY[0], 22.0), of=((38.0, _FACE), _KEY)),
    "anchor.face_end": length((14.0, 16.5), (_KEY[0], 16.5), of=((14.0, _FACE), _KEY)),
    "anchor.face_offset": length(
        (9.5, 34.0), (9.5, _FACE), at=(9.5, 24.0), of=((9.5, 34.0), (14.0, _FACE)), share=0.0
    ),
    "anchor.socket.key_angle": angle(_KEY, 13.0, start=0.5, end=0.694, share=0.6),
    "adjuster.mounting.line_distance": _square_to_bolt(70.5, to=_KEY),
    "adjuster.mounting.foot_angle": angle(_KEY, 11.0, start=0.0, end=0.5, share=0.22),
    "adjuster.mounting.foot_position": length(
        (5.0, 34.0), (5.0, _CROSS[0]), of=((10.0, 34.0), (12.0, _CROSS[0]))
    ),
    "adjuster.mounting.end_radius": spot((14.0, 47.0), (_BOLT - 2.0, 41.5)),
    "pin_distance": _from_cross_member(34.0, _FACE, of=_BOLT + 2.0),
    "adjuster.thread_start": _from_cross_member(41.5, 50.0, of=_BOLT + 3.0),
    "adjuster.thread_end": _from_cross_member(49.0, 36.5, of=_BOLT),
    "adjuster.thread_diameter": spot((12.0, 70.0), (_BOLT - 3.0, 71.0)),
    "adjuster.thread_pitch": spot((12.0, 76.0), (_BOLT - 2.5, 75.0)),
    "adjuster.spacer": spot((36.0, 77.0), (_BOLT + 4.0, 78.0)),
}


# -- Tube with a lever ------------------------------------------------------------------

_TUBE = (60.0, 62.0)
_PIN: XY = (24.0, 62.0)
_PIVOT: XY = (54.0, 20.0)


def _draw_tube(out: Drawing, centre: XY, pin: XY) -> None:
    left = [(pin[0], pin[1] - 3.5), (centre[0] - 9.0, centre[1] - 6.0)]
    right = [(centre[0] - 9.0, centre[1] + 6.0), (pin[0], pin[1] + 3.5)]
    out.path([*left, *right], closed=True, fill=PALE)
    out.circle(centre, 11.0, fill=PALE)
    _head_of_bar(out, centre, socket=9.4, key=0.833)
    out.circle(pin, 3.5, fill=WHITE)
    centre_line(out, (pin[0] - 5.0, pin[1]), (centre[0] - 11.0, centre[1]))
    out.text((pin[0] + 13.0, pin[1] + 3.3), "lever", anchor="start")


def _draw_swivelling(out: Drawing) -> None:
    _draw_tube(out, _TUBE, _PIN)
    _bolt(out, _PIVOT, _PIN)
    out.circle(_PIVOT, 3.2, fill=WHITE)
    out.circle(_PIVOT, 0.6, fill=INK)
    out.text((_PIVOT[0] + 4.5, _PIVOT[1] - 2.0), "pivot", anchor="start")
    wheelwise(out, (82.0, 80.0))


def _bolt(out: Drawing, start: XY, pin: XY) -> None:
    """Draw the bolt from where its places count from, through the lever's pin, with the nut."""
    along = _along(start, pin)
    out.path(_strip(start, along, 0.0, 62.0, 2.2), closed=True, fill=WHITE)
    for n in range(13):
        here, there = (
            _beside(start, along, 36.0 + 2 * n, 2.2),
            _beside(start, along, 37.0 + 2 * n, -2.2),
        )
        out.line(here, there, width=HAIR)
    out.circle(pin, 2.9, fill=WHITE)
    at = math.dist(start, pin)
    out.path(_strip(start, along, at + 2.9, at + 5.0, 3.0), closed=True, fill=PALE)
    out.path(_strip(start, along, at + 5.0, at + 9.0, 4.2), closed=True, fill=WHITE, width=BOLD)
    out.path(
        [_beside(start, along, -3.0, 0.0), _beside(start, along, 65.0, 0.0)],
        dash="2.4 0.7 0.5 0.7",
        width=HAIR,
    )


def _along(start: XY, end: XY) -> XY:
    way = math.dist(start, end)
    return (end[0] - start[0]) / way, (end[1] - start[1]) / way


def _beside(start: XY, along: XY, far: float, off: float) -> XY:
    """Place so far along a bolt, and so far to its right as seen from where it starts."""
    return start[0] + far * along[0] - off * along[1], start[1] + far * along[1] + off * along[0]


def _strip(start: XY, along: XY, low: float, high: float, half: float) -> list[XY]:
    corners = ((low, half), (high, half), (high, -half), (low, -half))
    return [_beside(start, along, far, off) for far, off in corners]


def _bolt_marks(start: XY, pin: XY) -> dict[str, Mark]:
    along, at = _along(start, pin), math.dist(start, pin)

    def way(end: float, *, off: float, share: float) -> Mark:
        ends = (_beside(start, along, far, off) for far in (0.0, end))
        of = (_beside(start, along, far, math.copysign(2.2, off)) for far in (0.0, end))
        return length(*ends, of=tuple(of), share=share)

    def point(far: float, *, off: float, letter: float) -> Mark:
        return spot(_beside(start, along, far, letter), _beside(start, along, far, off))

    return {
        "pin_distance": way(at, off=8.0, share=0.45),
        "adjuster.thread_start": way(35.0, off=15.0, share=0.6),
        "adjuster.thread_end": way(61.0, off=-8.0, share=0.3),
        "adjuster.thread_diameter": point(59.0, off=2.2, letter=10.0),
        "adjuster.thread_pitch": point(39.0, off=1.5, letter=14.5),
        "adjuster.spacer": point(at + 4.0, off=-3.0, letter=-9.5),
        "adjuster.nut_height": point(at + 8.4, off=-4.2, letter=-13.5),
    }


def _tube_marks(centre: XY, pin: XY) -> dict[str, Mark]:
    x, y = centre
    return {
        "anchor.lever_radius": length((pin[0], y + 20.0), (x, y + 20.0), of=(pin, centre)),
        "anchor.socket.key_angle": angle(centre, 14.5, start=0.5, end=0.833, share=0.55),
        "anchor.outside_diameter": spot((x + 19.0, y + 7.0), (x + 9.6, y + 5.2)),
        "anchor.bore": spot((x + 14.0, y + 13.0), (x + 5.5, y + 7.6)),
        "anchor.material.shear_modulus": spot((x + 20.0, y - 7.0), (x + 9.2, y - 4.3)),
    }


_SWIVELLING_MARKS = {
    **_bolt_marks(_PIVOT, _PIN),
    **_tube_marks(_TUBE, _PIN),
    "adjuster.mounting.pivot_distance": length(
        (_PIVOT[0] + 11.0, _PIVOT[1] - 1.5),
        (_TUBE[0] + 11.0, _TUBE[1] - 1.5),
        of=(_PIVOT, _TUBE),
        share=0.35,
    ),
    "adjuster.mounting.pivot_angle": angle(_TUBE, 17.0, start=0.0, end=0.272, share=0.42),
}


_HEADED: XY = (24.0, 16.0)


def _draw_fixed_line(out: Drawing) -> None:
    _draw_tube(out, _TUBE, _PIN)
    out.hatched_box((_HEADED[0] - 9.0, 16.0), (_HEADED[0] - 2.6, 20.5))
    out.hatched_box((_HEADED[0] + 2.6, 16.0), (_HEADED[0] + 9.0, 20.5))
    _bolt(out, _HEADED, _PIN)
    out.box((_HEADED[0] - 4.5, 12.5), (_HEADED[0] + 4.5, 16.0), fill=WHITE)
    wheelwise(out, (82.0, 80.0))


_FIXED_LINE_MARKS = {
    **_bolt_marks(_HEADED, _PIN),
    **_tube_marks(_TUBE, _PIN),
    "adjuster.mounting.line_distance": length(
        (_HEADED[0], 48.0), (_TUBE[0], 48.0), of=(_HEADED, _TUBE), share=0.6
    ),
    "adjuster.mounting.foot_angle": angle(_TUBE, 17.0, start=0.0, end=0.5, share=0.3),
    "adjuster.mounting.foot_position": length(
        (44.0, 16.0), (44.0, _PIN[1]), of=((_HEADED[0], 16.0), _PIN), share=0.3
    ),
}


# -- Fixed socket ------------------------------------------------------------------------

_SOCKET = (40.0, 32.0)
_SMALL = (90.0, 60.0)


def _draw_fixed_socket(out: Drawing) -> None:
    out.hatched_box((22.0, 16.0), (58.0, 48.0))
    _head_of_bar(out, _SOCKET, socket=9.0, key=0.083)
    mark = [polar(_SOCKET, radius=r, angle=math.tau * 0.278) for r in (5.2, 15.0)]
    out.line(*mark, width=BOLD)
    out.text((31.0, 13.5), "mark on the socket", anchor="end")
    out.line((31.5, 13.0), mark[1], width=HAIR)
    wheelwise(out, (82.0, 56.0))


def _scheme(
    title: str,
    kind: str,
    *,
    shows: tuple[str, ...],
    marks: Mapping[str, Mark],
    draw: Callable[[Drawing], None],
    size: XY = _SIZE,
) -> Scheme:
    description = f"{kind}, seen along the bar; the wheel is at the right."
    return Scheme(
        title=title,
        description=description,
        size=size,
        sixths=3,
        shows=shows,
        marks=marks,
        draw=draw,
    )


KEY_LEVER = _scheme(
    "key lever and bolt",
    "The key lever on the bar's anchor end, and the bolt in the cross-member that pushes its face",
    shows=("anchor.face_offset",),
    marks=_KEY_LEVER_MARKS,
    draw=_draw_key_lever,
)
"""The drawing of a key lever with the bolt that pushes it."""

TUBE_WITH_SWIVELLING_BOLT = _scheme(
    "tube, lever and bolt",
    "The torque tube with its lever, and the bolt that swivels on a pivot of the chassis",
    shows=("anchor.lever_radius", "adjuster.mounting.pivot_distance"),
    marks=_SWIVELLING_MARKS,
    draw=_draw_swivelling,
)
"""The drawing of a tube's lever with a bolt on a pivot."""

TUBE_WITH_FIXED_BOLT = _scheme(
    "tube, lever and bolt",
    "The torque tube with its lever, and the bolt that stays on a fixed line",
    shows=("anchor.lever_radius", "adjuster.mounting.line_distance"),
    marks=_FIXED_LINE_MARKS,
    draw=_draw_fixed_line,
)
"""The drawing of a tube's lever with a bolt on a fixed line."""

FIXED_SOCKET = _scheme(
    "fixed socket",
    "The socket in the chassis that holds the bar's anchor end",
    shows=("anchor.anchor_angle",),
    marks={
        "anchor.anchor_angle": angle(_SOCKET, 20.5, start=0.0, end=0.278, share=0.35),
        "anchor.socket.key_angle": angle(_SOCKET, 12.5, start=0.278, end=0.083, share=0.5),
    },
    draw=_draw_fixed_socket,
    size=_SMALL,
)
"""The drawing of a fixed socket."""
