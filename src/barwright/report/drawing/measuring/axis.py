"""The bar in its sockets, seen from the side: where places along its axis are measured."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from barwright.report.drawing.measuring.marks import (
    Mark,
    Scheme,
    centre_line,
    length,
    spot,
)
from barwright.report.drawing.svg import PALE, WHITE, XY, Drawing

__all__ = ["AXIS_OF_FIXED_SOCKET", "AXIS_OF_KEY_LEVER", "AXIS_OF_TUBE"]

_SIZE, _SMALL = (184.0, 72.0), (184.0, 66.0)
_AXIS = 34.0
# Places along the axis: what stops the bar, both sockets, the tube, the lever, the cap.
_ARM_STOP, _ZERO, _ARM, _START, _LEVER, _CAP, _SOCKET, _END, _STOP = (
    *(8.0, 24.0, 46.0, 66.0, 86.0, 122.0),
    *(134.0, 156.0, 176.0),
)
_HALF, _WALL = 5.0, 9.0
# How far below the axis the line at 0 reaches; half the bar, and a little.
_ZERO_LINE, _PAST_BAR = 29.0, 4.0
# A lever without a tube sits at its socket, and the place to count from is the socket's.
_BARE_START, _BARE_LEVER = 118.0, 149.0


def _draw_common(out: Drawing) -> None:
    for x in (_ARM_STOP, _STOP):
        out.hatched_box((x - 1.5, _AXIS - 11.0), (x + 1.5, _AXIS + 11.0))
    _socket(out, _ZERO, _ARM)
    _socket(out, _SOCKET, _END)
    out.box((_ZERO + 6.0, _AXIS - 18.0), (_ARM - 6.0, _AXIS - _WALL), fill=PALE)
    out.text((_ZERO + 11.0, _AXIS - 13.0), "arm")
    out.text((_SOCKET + 1.0, _AXIS - 10.0), "socket", anchor="start")
    out.text((_ARM_STOP - 1.5, _AXIS - 12.5), "stop", anchor="start")
    out.text((_STOP + 1.5, _AXIS - 12.5), "stop", anchor="end")
    out.box((_ZERO - 6.0, _AXIS - 3.2), (_END + 5.0, _AXIS + 3.2), fill=WHITE)
    centre_line(out, (_ARM_STOP, _AXIS), (_STOP, _AXIS))
    out.line((_ZERO, _AXIS - 20.0), (_ZERO, _AXIS + _ZERO_LINE))
    out.text((_ZERO - 1.0, _AXIS - 17.5), "0", anchor="end", bold=True)


def _socket(out: Drawing, left: float, right: float) -> None:
    out.hatched_box((left, _AXIS - _WALL), (right, _AXIS - _HALF))
    out.hatched_box((left, _AXIS + _HALF), (right, _AXIS + _WALL))


def _draw_tube(out: Drawing) -> None:
    for side in (-1.0, 1.0):
        out.box((_START, _AXIS + side * _WALL), (_SOCKET, _AXIS + side * (_WALL - 1.6)), fill=PALE)
        out.box((_CAP - 2.0, _AXIS + side * _WALL), (_CAP + 2.0, _AXIS + side * 13.0), fill=PALE)
    _draw_common(out)
    out.box((_LEVER - 2.0, _AXIS + _WALL), (_LEVER + 2.0, _AXIS + 15.0), fill=PALE)
    out.text((_LEVER - 3.0, _AXIS + 13.5), "lever", anchor="end")
    out.text((_START + 14.0, _AXIS + 7.0), "tube", anchor="end")
    out.text((_CAP - 3.0, _AXIS + 12.5), "cap", anchor="end")


def _draw_key_lever(out: Drawing) -> None:
    _draw_common(out)
    out.box((_BARE_LEVER - 2.0, _AXIS - 15.0), (_BARE_LEVER + 2.0, _AXIS - _WALL), fill=PALE)
    out.text((_BARE_LEVER + 3.0, _AXIS - 10.5), "lever", anchor="start")
    _first_place(out)


def _draw_fixed(out: Drawing) -> None:
    _draw_common(out)
    _first_place(out)


def _first_place(out: Drawing) -> None:
    """Draw where the anchor's own places count from."""
    out.line((_BARE_START, _AXIS - 16.0), (_BARE_START, _AXIS + 20.0))


# -- Marks -------------------------------------------------------------------------------


def _below(start: float, end: float, row: int) -> Mark:
    y = _AXIS + 17.0 + 5.2 * row
    # Letters of rows that end near each other stand apart.
    return length(
        (start, y),
        (end, y),
        of=((start, min(y, _AXIS + _ZERO_LINE)), (end, _AXIS + _PAST_BAR)),
        share=0.62 - 0.08 * row,
    )


def _above(start: float, end: float, row: int, *, share: float = 0.5) -> Mark:
    y = _AXIS - 12.5 - 5.0 * row
    return length(
        (start, y), (end, y), of=((start, _AXIS - _WALL), (end, _AXIS - 4.0)), share=share
    )


def _socket_marks(
    name: str, left: float, right: float, *, at: tuple[XY, XY, XY]
) -> dict[str, Mark]:
    y = _AXIS + 12.0
    return {
        f"{name}.socket.length": length(
            (left, y), (right, y), of=((left, _AXIS + _WALL), (right, _AXIS + _WALL))
        ),
        f"{name}.socket.teeth": spot(at[0], (right - 3.0, _AXIS + _HALF + 0.4)),
        f"{name}.socket.minor_diameter": spot(at[1], (right - 1.0, _AXIS + _HALF)),
        f"{name}.socket.required_engagement": spot(at[2], (right - 2.0, _AXIS - 7.0)),
    }


def _marks(*, start: float, bolt: float, socket: float) -> Mapping[str, Mark]:
    return {
        "axle.tube_position": _below(_ZERO, start, 0),
        "axle.bolt_position": _below(_ZERO, bolt, 1),
        "axle.arm_stop": length(
            (_ARM_STOP + 1.5, _AXIS + 17.0),
            (_ZERO, _AXIS + 17.0),
            of=((_ARM_STOP + 1.5, _AXIS + 11.0),),
        ),
        "axle.space_behind": length(
            (_END, _AXIS + 17.0),
            (_STOP - 1.5, _AXIS + 17.0),
            of=((_END, _AXIS + _WALL), (_STOP - 1.5, _AXIS + 11.0)),
        ),
        **_socket_marks("arm", _ZERO, _ARM, at=((52.0, 46.0), (56.0, 40.5), (52.5, 18.0))),
        **_socket_marks("anchor", _SOCKET, _END, at=((163.0, 41.5), (168.5, 37.0), (167.0, 28.0))),
        "anchor.socket_position": _above(start, socket, 0),
    }


_LEVER_ON_TUBE = {
    **_marks(start=_START, bolt=_LEVER, socket=_SOCKET),
    "axle.anchor_stop": _below(_ZERO, _STOP - 1.5, 3),
    "axle.cap_holes_position": _below(_ZERO, _CAP, 2),
    "anchor.lever_position": _above(_START, _LEVER, 0, share=0.45),
    "anchor.cap_position": _above(_START, _CAP, 1),
    "anchor.socket_position": _above(_START, _SOCKET, 2),
    "axle.lever_allowance": spot((92.0, 46.5), (_LEVER + 1.0, _AXIS + 14.0)),
    "axle.cap_allowance": spot((128.0, 46.0), (_CAP + 1.0, _AXIS + 12.0)),
}
_BARE = {
    **_marks(start=_BARE_START, bolt=_BARE_LEVER, socket=_SOCKET),
    "axle.anchor_stop": _below(_ZERO, _STOP - 1.5, 2),
}
_BARE_KEY_LEVER = {
    **_BARE,
    "anchor.lever_position": _above(_BARE_START, _BARE_LEVER, 1),
    "axle.lever_allowance": spot((157.0, 18.5), (_BARE_LEVER + 1.0, _AXIS - 13.0)),
}


def _scheme(
    kind: str,
    *,
    shows: str,
    marks: Mapping[str, Mark],
    draw: Callable[[Drawing], None],
    size: XY = _SMALL,
) -> Scheme:
    return Scheme(
        title="places along the bar",
        description=(
            f"The bar in its sockets from the side, the arm at the left, {kind} at the right. "
            "Places count from the outer face of the arm's socket toward the anchor."
        ),
        size=size,
        sixths=6,
        shows=(shows,),
        marks=marks,
        draw=draw,
    )


AXIS_OF_TUBE = _scheme(
    "the torque tube",
    shows="anchor.lever_radius",
    marks=_LEVER_ON_TUBE,
    draw=_draw_tube,
    size=_SIZE,
)
"""The drawing of places along a bar in a torque tube."""

AXIS_OF_KEY_LEVER = _scheme(
    "the key lever", shows="anchor.face_offset", marks=_BARE_KEY_LEVER, draw=_draw_key_lever
)
"""The drawing of places along a bar with a key lever."""

AXIS_OF_FIXED_SOCKET = _scheme(
    "the fixed socket",
    shows="anchor.anchor_angle",
    marks=_BARE,
    draw=_draw_fixed,
)
"""The drawing of places along a bar in a fixed socket."""
