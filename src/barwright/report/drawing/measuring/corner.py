"""The suspension seen along the bar: where its figures are taken."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import attrs

from barwright.report.drawing.measuring.marks import (
    Mark,
    Scheme,
    angle,
    centre_line,
    length,
    spot,
)
from barwright.report.drawing.svg import BOLD, HAIR, INK, PALE, WHITE, XY, Drawing, polar

__all__ = ["DOUBLE_WISHBONE", "STRUT", "SWING_ARM"]

_SIZE = (90.0, 88.0)
_DROOP, _BUMP = -0.075, 0.061


@attrs.frozen(kw_only=True)
class _Corner:
    """Points of a suspension on paper.

    Parameters
    ----------
    axis, joint, hub : (float, float)
        The bar, the end of its arm, and the wheel.
    mount, foot : (float, float)
        The damper's upper and lower mount.
    """

    axis: XY
    joint: XY
    hub: XY
    mount: XY
    foot: XY

    @property
    def slope(self) -> float:
        """Angle of the arm above the horizontal [turns]."""
        rise, out = self.axis[1] - self.joint[1], self.joint[0] - self.axis[0]
        return math.atan2(rise, out) / math.tau

    @property
    def radius(self) -> float:
        """Length of the arm."""
        return math.dist(self.axis, self.joint)


def _beside(p: XY, q: XY, off: float) -> tuple[XY, XY]:
    """Move a line sideways, to its right as one goes along it."""
    way = math.dist(p, q)
    x, y = -(q[1] - p[1]) / way * off, (q[0] - p[0]) / way * off
    return (p[0] + x, p[1] + y), (q[0] + x, q[1] + y)


def _towards(p: XY, q: XY, share: float) -> XY:
    return p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])


# -- Parts -------------------------------------------------------------------------------


def _draw_arm(out: Drawing, corner: _Corner) -> None:
    axis = corner.axis
    for end in (_DROOP, _BUMP):
        tip = polar(axis, radius=corner.radius * 0.62, angle=math.tau * end)
        out.path([axis, tip], dash="1.2 0.9", width=HAIR)
    centre_line(out, (axis[0] - 7.0, axis[1]), (axis[0] + corner.radius * 1.02, axis[1]))
    centre_line(out, (axis[0], axis[1] - 9.0), (axis[0], axis[1] + 9.0))
    sides = (*_beside(axis, corner.joint, 2.2), *reversed(_beside(axis, corner.joint, -2.2)))
    out.path(sides, closed=True, fill=PALE)
    out.circle(axis, 4.8, fill=PALE)
    out.circle(axis, 2.8, fill=WHITE)
    key = math.tau / 6.0
    out.line(polar(axis, radius=1.8, angle=key), polar(axis, radius=3.8, angle=key), width=BOLD)
    out.circle(corner.joint, 1.6, fill=WHITE)


def _draw_wheel(out: Drawing, hub: XY) -> None:
    out.box((hub[0] + 4.0, hub[1] - 20.0), (hub[0] + 11.0, hub[1] + 20.0), fill=WHITE, width=BOLD)
    out.line((hub[0], hub[1]), (hub[0] + 10.0, hub[1]), width=BOLD)
    out.circle(hub, 0.8, fill=INK)


def _draw_damper(out: Drawing, corner: _Corner) -> None:
    top, foot = corner.mount, corner.foot
    middle = _towards(top, foot, 0.42)
    out.path([top, middle], width=BOLD)
    body = (*_beside(middle, foot, 2.6), *reversed(_beside(middle, foot, -2.6)))
    out.path(body, closed=True, fill=WHITE)
    rubber = _towards(top, foot, 0.06), _towards(top, foot, 0.14)
    around = (*_beside(*rubber, 1.6), *reversed(_beside(*rubber, -1.6)))
    out.path(around, closed=True, fill=PALE)
    out.line((top[0] - 6.0, top[1]), (top[0] + 6.0, top[1]), width=BOLD)
    out.circle(foot, 1.2, fill=WHITE)


# -- Marks -------------------------------------------------------------------------------


def _arm_marks(corner: _Corner, *, off: float) -> dict[str, Mark]:
    axis, joint, hub, slope = corner.axis, corner.joint, corner.hub, corner.slope
    below = _beside(axis, joint, off)
    level = below[1][1] + 5.5
    return {
        "arm.radius": length(*below, of=(axis, joint)),
        "arm.socket.key_angle": angle(axis, 9.5, start=slope, end=1.0 / 6.0, share=0.62),
        "axle.hub_outboard": length(
            (joint[0], level), (hub[0], level), of=(joint, hub), at=(hub[0] + 5.0, level), share=1.0
        ),
        "axle.hub_up": length((hub[0] + 14.0, joint[1]), (hub[0] + 14.0, hub[1]), of=(joint, hub)),
        "axle.reference_angle": angle(
            axis, 29.0, start=0.0, end=slope, at=(axis[0] + 26.0, axis[1] - 4.0)
        ),
        "axle.measured_angle": angle(
            axis, 33.5, start=0.0, end=slope, at=(axis[0] + 32.0, axis[1] - 4.0)
        ),
        "axle.droop_stop": angle(axis, 19.5, start=0.0, end=_DROOP, share=0.8),
        "axle.bump_stop": angle(axis, 21.0, start=0.0, end=_BUMP, share=0.75),
        "axle.bushing.rate": spot((axis[0] - 8.0, axis[1] + 7.0), (axis[0] - 3.0, axis[1] + 2.5)),
        "axle.bushing.set_angle": spot(
            (axis[0] - 8.0, axis[1] + 13.0), (axis[0] - 1.5, axis[1] + 4.0)
        ),
        "axle.bump_rubber.contact_angle": spot(
            (axis[0] + 33.0, axis[1] + 14.0), _towards(axis, joint, 0.68)
        ),
        "axle.bump_rubber.contact_radius": spot(
            (axis[0] + 38.5, axis[1] + 14.0), _towards(axis, joint, 0.74)
        ),
    }


def _damper_marks(corner: _Corner) -> dict[str, Mark]:
    top, foot = corner.mount, corner.foot

    def lengthwise(off: float, *, share: float) -> Mark:
        ends = _beside(top, foot, -off)
        return length(*ends, of=(top, foot), share=share)

    def on_rod(share: float, to: XY) -> Mark:
        point = _towards(top, foot, share)
        return spot((point[0] + to[0], point[1] + to[1]), point)

    return {
        "damper.open_length": lengthwise(8.5, share=0.2),
        "damper.closed_length": lengthwise(13.5, share=0.32),
        "damper.gas.at_length": lengthwise(18.5, share=0.6),
        "damper.gas.force": on_rod(0.35, (-7.0, -1.0)),
        "damper.gas.slope": on_rod(0.4, (-12.5, 0.0)),
        "damper.damping_rate": on_rod(0.72, (-8.5, -1.0)),
        "axle.bump_rubber.contact_length": on_rod(0.1, (-8.5, 0.0)),
        "axle.helper_coil.rate": on_rod(0.18, (-6.5, 1.0)),
        "axle.helper_coil.free_length": on_rod(0.2, (-11.7, 0.8)),
        "axle.helper_coil.seat_offset": on_rod(0.22, (-16.9, 0.6)),
    }


def _from_axis(corner: _Corner, point: XY, name: str, *, x: float, y: float) -> dict[str, Mark]:
    """Mark how far outboard and up from the bar a point lies."""
    axis = corner.axis
    return {
        f"axle.suspension.{name}_outboard": length((axis[0], y), (point[0], y), of=(axis, point)),
        f"axle.suspension.{name}_up": length(
            (x, axis[1]), (x, point[1]), of=((axis[0] - 4.0, axis[1]), point), share=0.6
        ),
    }


def _on_arm(corner: _Corner) -> dict[str, Mark]:
    """Mark where on the arm the damper stands."""
    axis, joint, foot = corner.axis, corner.joint, corner.foot
    way = math.dist(axis, foot)
    base = _towards(axis, joint, way / corner.radius)
    along = _beside(axis, base, 5.8)
    return {
        "axle.suspension.foot_along": length(*along, of=(axis, base), share=0.3),
        "axle.suspension.foot_above": spot(
            (foot[0] + 12.0, foot[1] - 8.0), _towards(base, foot, 0.8)
        ),
    }


# -- Strut -------------------------------------------------------------------------------

_STRUT = _Corner(
    axis=(16.0, 58.0),
    joint=(58.0, 64.0),
    hub=(70.0, 50.0),
    mount=(51.0, 17.0),
    foot=(62.0, 61.0),
)


def _draw_strut(out: Drawing) -> None:
    _draw_wheel(out, _STRUT.hub)
    out.path([_STRUT.joint, _STRUT.foot, _STRUT.hub], width=BOLD)
    _draw_arm(out, _STRUT)
    _draw_damper(out, _STRUT)


_STRUT_MARKS = {
    **_arm_marks(_STRUT, off=15.0),
    **_damper_marks(_STRUT),
    **_from_axis(_STRUT, _STRUT.mount, "top", x=5.0, y=13.0),
    "axle.suspension.offset": spot((66.0, 73.0), _towards(_STRUT.joint, _STRUT.foot, 0.5)),
    "axle.suspension.length_below": spot((60.0, 73.0), (61.0, 61.75)),
}


# -- Double wishbone ---------------------------------------------------------------------

_WISHBONE = _Corner(
    axis=(16.0, 64.0),
    joint=(60.0, 69.0),
    hub=(70.0, 52.0),
    mount=(38.0, 17.0),
    foot=(47.0, 65.5),
)
_UPPER: XY = (28.0, 37.0)
_UPPER_JOINT: XY = (58.0, 33.0)


def _draw_wishbone(out: Drawing) -> None:
    _draw_wheel(out, _WISHBONE.hub)
    out.path([_WISHBONE.joint, (63.0, 52.0), _UPPER_JOINT], width=BOLD)
    out.path([(63.0, 52.0), _WISHBONE.hub], width=BOLD)
    _draw_arm(out, _WISHBONE)
    sides = (*_beside(_UPPER, _UPPER_JOINT, 1.4), *reversed(_beside(_UPPER, _UPPER_JOINT, -1.4)))
    out.path(sides, closed=True, fill=PALE)
    for point in (_UPPER, _UPPER_JOINT):
        out.circle(point, 1.6, fill=WHITE)
    _draw_damper(out, _WISHBONE)


_WISHBONE_MARKS = {
    **_arm_marks(_WISHBONE, off=10.5),
    **_damper_marks(_WISHBONE),
    **_on_arm(_WISHBONE),
    **_from_axis(_WISHBONE, _WISHBONE.mount, "mount", x=4.0, y=13.0),
    **_from_axis(_WISHBONE, _UPPER, "upper", x=9.5, y=45.0),
    "axle.suspension.upper_radius": length(
        *_beside(_UPPER, _UPPER_JOINT, 6.0), of=(_UPPER, _UPPER_JOINT), share=0.25
    ),
    "axle.suspension.upright": length(
        (66.0, 33.0), (67.5, 69.0), of=(_UPPER_JOINT, _WISHBONE.joint), share=0.8
    ),
}


# -- Swing arm ---------------------------------------------------------------------------

_SWING = _Corner(
    axis=(16.0, 58.0),
    joint=(60.0, 64.0),
    hub=(70.0, 57.0),
    mount=(33.0, 17.0),
    foot=(42.0, 59.0),
)


def _draw_swing_arm(out: Drawing) -> None:
    out.circle(_SWING.hub, 17.0, fill=WHITE, width=BOLD)
    out.circle(_SWING.hub, 0.8, fill=INK)
    out.path([_SWING.joint, _SWING.hub], width=BOLD)
    _draw_arm(out, _SWING)
    _draw_damper(out, _SWING)


_SWING_MARKS = {
    **_arm_marks(_SWING, off=14.0),
    **_damper_marks(_SWING),
    **_on_arm(_SWING),
    **_from_axis(_SWING, _SWING.mount, "mount", x=4.5, y=13.0),
}


def _scheme(
    kind: str, *, shows: str, marks: Mapping[str, Mark], draw: Callable[[Drawing], None]
) -> Scheme:
    return Scheme(
        title=kind,
        description=f"The {kind}, seen along the bar: the bar at the left, the wheel at the right.",
        size=_SIZE,
        sixths=3,
        shows=(shows,),
        marks=marks,
        draw=draw,
    )


STRUT = _scheme(
    "arm and strut", shows="axle.suspension.top_up", marks=_STRUT_MARKS, draw=_draw_strut
)
"""The drawing of an arm with a strut."""

DOUBLE_WISHBONE = _scheme(
    "double wishbones",
    shows="axle.suspension.upper_up",
    marks=_WISHBONE_MARKS,
    draw=_draw_wishbone,
)
"""The drawing of two wishbones, the damper on the lower one."""

SWING_ARM = _scheme(
    "arm and damper", shows="axle.suspension.mount_up", marks=_SWING_MARKS, draw=_draw_swing_arm
)
"""The drawing of an arm that carries the wheel."""
