"""The bar in its sockets along its axis: arm, lever, tube and cap, and what sticks out."""

from __future__ import annotations

from collections.abc import Sequence

import attrs

from barwright.report.drawing.bar_axis_view import AxialHead, BarAxisView
from barwright.report.drawing.svg import (
    BOLD,
    HAIR,
    PALE,
    SHEET_BODY,
    SHEET_SMALL,
    SHEET_TITLE,
    THIN,
    WHITE,
    XY,
    Drawing,
    spread,
    text_width,
)
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["bar_axis_svg"]


def bar_axis_svg(view: BarAxisView) -> str:
    """Draw a bar in its sockets along its axis, lengths to scale, 180 mm wide.

    Parameters
    ----------
    view : BarAxisView
        The bar.

    Returns
    -------
    str
        An SVG document.
    """
    title = f"{view.corner.capitalize()}, bar in its sockets"
    offsets = _offsets(view)
    size = (_WIDTH, _HEIGHT + len(offsets) * _LEADING)
    out = Drawing(size, title=title, description=_described(view), small=SHEET_SMALL)
    scale = _Scale.of(view)
    out.text((_WIDTH / 2, 5.0), title, size=SHEET_TITLE, bold=True)
    out.text((_WIDTH / 2, 9.8), f"Lengths to scale; {scale.enlarged}")
    _draw_tube(out, view, scale)
    for head in view.axial_heads:
        _draw_socket(out, head, scale)
    _draw_bar(out, view, scale)
    _draw_lever(out, view, scale)
    _draw_cap(out, view, scale)
    _name_parts(out, view, scale)
    _draw_length(out, view, scale)
    for head, x, anchor in zip(
        view.axial_heads, (2.0, _WIDTH - 2.0), ("start", "end"), strict=True
    ):
        end = head.fit.end.value.capitalize()
        out.text((x, _TEXT), end, size=SHEET_BODY, anchor=anchor, bold=True)
        out.lines((x, _TEXT + _LEADING), _end_lines(head), anchor=anchor)
    out.lines((_WIDTH / 2, _TEXT + 3.0 * _LEADING), offsets)
    return str(out)


_WIDTH, _HEIGHT, _LEADING = 180.0, 72.0, 4.8
_AXIS, _NAMES, _TEXT = 35.6, 15.0, 60.0
_LEFT, _RIGHT = 14.0, 166.0
# Half the height of the thickest part; of a socket's wall where no tube is around it [mm].
_HALF, _WALL = 11.0, 4.0


@attrs.frozen(kw_only=True)
class _Scale:
    """From places along a bar, and diameters, to millimetres on paper.

    Parameters
    ----------
    start : float
        Place at the left edge [mm].
    along, across : float
        Millimetres on paper for one along the axis and across it.
    """

    start: float
    along: float
    across: float

    @classmethod
    def of(cls, view: BarAxisView) -> _Scale:
        """Fit a bar and its sockets onto the paper."""
        arm, anchor = view.axial_heads
        start = min(_mm(arm.socket_from), _mm(arm.spline_from) - _mm(arm.nose))
        end = max(_mm(anchor.socket_to), _mm(anchor.spline_to) + _mm(anchor.nose))
        widest = max(_mm(head.major_diameter) for head in view.axial_heads)
        if view.tube_diameter is not None:
            widest = max(widest, _mm(view.tube_diameter))
        return cls(start=start, along=(_RIGHT - _LEFT) / (end - start), across=2.0 * _HALF / widest)

    @property
    def enlarged(self) -> str:
        """Say how much too large diameters are drawn."""
        ratio = self.across / self.along
        return f"diameters drawn {ratio:.1f} times too large."

    def x(self, place: Quantity) -> float:
        """Where a place along the axis lies on paper."""
        return self.at(_mm(place))

    def at(self, place: float) -> float:
        """Where a place [mm] along the axis lies on paper."""
        return _LEFT + (place - self.start) * self.along

    def half(self, diameter: Quantity) -> float:
        """Half a diameter on paper."""
        return self.across * _mm(diameter) / 2.0


def _mm(length: Quantity) -> float:
    return si(length, LENGTH) * 1000.0


# -- Parts -------------------------------------------------------------------------------


def _draw_tube(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    if view.tube_from is None or view.tube_diameter is None:
        return
    left, right = scale.x(view.tube_from), scale.x(view.axial_heads[1].socket_to)
    half = scale.half(view.tube_diameter)
    for side in (-1.0, 1.0):
        out.box((left, _AXIS + side * half), (right, _AXIS + side * (half - 1.0)), fill=PALE)


def _draw_socket(out: Drawing, head: AxialHead, scale: _Scale) -> None:
    left, right = scale.x(head.socket_from), scale.x(head.socket_to)
    inner = scale.half(head.major_diameter)
    outer = max(_HALF - 1.0, inner + _WALL)
    out.hatched_box((left, _AXIS - outer), (right, _AXIS - inner), name="socket")
    out.hatched_box((left, _AXIS + inner), (right, _AXIS + outer))


def _draw_bar(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    """Draw body, cones, splines and noses."""
    arm, anchor = view.axial_heads
    body = scale.half(view.diameter)
    cones = (
        (scale.x(arm.spline_to), scale.x(arm.spline_to + arm.taper), arm),
        (scale.x(anchor.spline_from), scale.x(anchor.spline_from - anchor.taper), anchor),
    )
    _mirrored(out, [(cones[0][1], body), (cones[1][1], body)])
    for edge, end, head in cones:
        _mirrored(out, [(edge, scale.half(head.major_diameter)), (end, body)])
    noses = (
        (scale.x(arm.spline_from), scale.x(arm.spline_from - arm.nose)),
        (scale.x(anchor.spline_to), scale.x(anchor.spline_to + anchor.nose)),
    )
    for head, (edge, tip) in zip(view.axial_heads, noses, strict=True):
        half = scale.half(head.major_diameter)
        _mirrored(out, [(edge, 0.7 * half), (tip, 0.7 * half)], name="nose")
        _draw_spline(out, head, scale)


def _draw_spline(out: Drawing, head: AxialHead, scale: _Scale) -> None:
    left, right = scale.x(head.spline_from), scale.x(head.spline_to)
    half = scale.half(head.major_diameter)
    _mirrored(out, [(left, half), (right, half)], width=BOLD, name="spline")
    for share in (-0.75, -0.45, -0.15, 0.15, 0.45, 0.75):
        out.line((left, _AXIS + share * half), (right, _AXIS + share * half), width=HAIR)


def _mirrored(out: Drawing, edge: Sequence[XY], *, width: float = THIN, name: str = "") -> None:
    """Draw what has an edge at distances from the axis, on both sides of it."""
    upper = [(x, _AXIS - half) for x, half in edge]
    lower = [(x, _AXIS + half) for x, half in reversed(edge)]
    out.path([*upper, *lower], closed=True, fill=WHITE, width=width, name=name)


def _draw_lever(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    if view.lever_place is None or view.lever_offset is None:
        return
    x, bolt = scale.x(view.lever_place), scale.x(view.lever_place - view.lever_offset)
    out.box(
        (x - 1.5, _AXIS - _HALF - 6.0),
        (x + 1.5, _AXIS - _HALF),
        fill=PALE,
        width=BOLD,
        name="lever",
    )
    _centre_line(out, bolt, _AXIS - _HALF - 8.0, _AXIS - _HALF + 1.0)


def _draw_cap(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    if view.cap_place is None or view.cap_offset is None:
        return
    x, holes = scale.x(view.cap_place), scale.x(view.cap_place - view.cap_offset)
    for side in (-1.0, 1.0):
        near, far = _AXIS + side * _HALF, _AXIS + side * (_HALF + 3.0)
        out.box((x - 2.0, near), (x + 2.0, far), fill=PALE, width=BOLD, name="cap")
    _centre_line(out, holes, _AXIS - _HALF - 5.0, _AXIS + _HALF + 5.0)


def _centre_line(out: Drawing, x: float, top: float, bottom: float) -> None:
    out.path([(x, top), (x, bottom)], dash="2.4 0.7 0.5 0.7", width=HAIR)


def _name_parts(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    """Write the names of the parts above them, none over another."""
    arm, anchor = view.axial_heads
    top = _AXIS - _HALF
    # At the outer edges, where neither lever nor cap is in the way.
    named = [
        ("arm", scale.x(arm.socket_from) + 1.0, top + 2.0),
        ("anchor socket", scale.x(anchor.socket_to) - 1.0, top + 2.0),
    ]
    if view.lever_place is not None:
        named.append(("lever", scale.x(view.lever_place), top - 6.0))
    if view.tube_from is not None:
        named.append(("tube", _WIDTH / 2, top))
    if view.cap_place is not None:
        named.append(("cap", scale.x(view.cap_place), top - 3.0))
    named.sort(key=lambda part: part[1])
    widths = [text_width(words, SHEET_SMALL) + 2.0 for words, _, _ in named]
    starts = spread([x for _, x, _ in named], widths, low=0.0, high=_WIDTH)
    for (words, x, y), start, width in zip(named, starts, widths, strict=True):
        middle = start + width / 2.0
        out.text((middle, _NAMES), words)
        out.line((middle, _NAMES + 0.8), (x, y), width=HAIR)


# -- Lengths -----------------------------------------------------------------------------


def _draw_length(out: Drawing, view: BarAxisView, scale: _Scale) -> None:
    """Draw the length over both splines, and over what is engaged."""
    left, right = scale.x(view.axial_heads[0].spline_from), scale.x(view.axial_heads[1].spline_to)
    y = _AXIS + _HALF + 7.0
    for x in (left, right):
        out.line((x, _AXIS), (x, y + 1.5), width=HAIR)
    words = f"{shown(view.length, 1)} over both splines"
    out.dimension((left, y), (right, y), words, size=SHEET_BODY)


def _end_lines(head: AxialHead) -> list[str]:
    fit = head.fit
    out = shown(fit.protrusion, 1) if _mm(fit.protrusion) > _SHOWN else "nothing"
    return [
        f"{shown(fit.engagement, 1)} engaged ({shown(fit.required, 1)} needed)",
        f"{out} sticks out of the socket",
    ]


def _offsets(view: BarAxisView) -> list[str]:
    """Say where lever and cap do not lie at their bolt and their holes."""
    parts = (("lever", view.lever_offset, "bolt"), ("cap", view.cap_offset, "holes"))
    return [
        f"The {part} lies {shown(abs(offset), 1)} from its {to}, toward the "
        f"{'anchor' if offset.magnitude > 0.0 else 'arm'}."
        for part, offset, to in parts
        if offset is not None and abs(_mm(offset)) > _SHOWN
    ]


# What is nearer than this is written as nothing [mm].
_SHOWN = 0.05


def _described(view: BarAxisView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    ends = [f"{head.fit.end.value}: {', '.join(_end_lines(head))}" for head in view.axial_heads]
    return " ".join(
        [
            f"{view.corner.capitalize()}, bar in its sockets along its axis, the arm at the left.",
            f"{shown(view.length, 1)} over both splines. {'. '.join(ends)}.",
            *_offsets(view),
        ]
    )
