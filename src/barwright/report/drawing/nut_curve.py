"""Height and droop left over the place of the adjuster's nut, for the whole thread."""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs

from barwright.analysis.adjusting.nut_rows import NutCurve, NutRow
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.adjusting.unsafe_stretches import UnsafeStretch
from barwright.analysis.corner.anchorage import BoltDatum, TurnedPart
from barwright.mechanics.spline.clocking import TurningSense
from barwright.report.drawing.frame import Frame, ring, round_ticks, tick
from barwright.report.drawing.svg import (
    BOLD,
    HAIR,
    SMALL,
    THIN,
    TITLE,
    WHITE,
    XY,
    Drawing,
    text_width,
)
from barwright.units import QuantityArray, shown, unit_spelling

__all__ = ["NutCurveView", "nut_curve_svg", "nut_curve_view", "unsafe_words"]


@attrs.frozen(kw_only=True)
class NutCurveView:
    """A corner over the whole thread of its adjuster, to be drawn.

    Parameters
    ----------
    corner : str
        Axle and side; empty where no corner is named.
    turned_part : TurnedPart
        What is turned.
    bolt_datum : BoltDatum
        What distances along the bolt are measured from.
    raising_sense : TurningSense
        Sense that raises the vehicle.
    set_row : NutRow
        The corner with its nut where it is set.
    nut_curve : NutCurve
        The corner over the thread.
    """

    corner: str
    turned_part: TurnedPart
    bolt_datum: BoltDatum
    raising_sense: TurningSense
    set_row: NutRow
    nut_curve: NutCurve


def nut_curve_view(table: NutTable, *, corner: str = "") -> NutCurveView | None:
    """Describe the curve of a table over the thread.

    Parameters
    ----------
    table : NutTable
        What each turn of the adjuster gives.
    corner : str
        Axle and side.

    Returns
    -------
    NutCurveView, optional
        None where there is no table.
    """
    curve, part, sense, datum = (
        table.nut_curve,
        table.turned_part,
        table.raising_sense,
        table.bolt_datum,
    )
    if curve is None or part is None or sense is None or datum is None:
        return None
    return NutCurveView(
        corner=corner,
        turned_part=part,
        bolt_datum=datum,
        raising_sense=sense,
        set_row=table.set_row,
        nut_curve=curve,
    )


def unsafe_words(stretch: UnsafeStretch) -> str:
    """Say why the nut must not stand on a stretch of its thread."""
    return "lever loose at droop" if stretch.lever_unheld else "bolt too weak at bump"


def nut_curve_svg(view: NutCurveView) -> str:
    """Draw height and droop left over the place of the nut, 88 mm wide.

    Parameters
    ----------
    view : NutCurveView
        The curve.

    Returns
    -------
    str
        An SVG document.
    """
    out = Drawing(_SIZE, title=_title(view), description=_described(view))
    out.text((_SIZE[0] / 2, 5.0), _title(view), size=TITLE, bold=True)
    frame = _frame_of(view)
    frame.draw(out)
    _draw_unsafe(out, view, frame)
    _draw_droop_scale(out, view, frame)
    pairs = zip(_floats(view.nut_curve.pin_distance), _floats(view.nut_curve.height), strict=True)
    out.path([frame.at(pair) for pair in pairs], width=BOLD, name="curve")
    _draw_set_place(out, view, frame)
    _write_scales(out, view)
    return str(out)


_SIZE = (88.0, 78.0)
_LEFT, _RIGHT, _TOP, _BOTTOM = 14.0, 75.0, 14.0, 59.0
_CAPTION, _LEADING, _LEGEND = 67.6, 3.9, 11.6


def _title(view: NutCurveView) -> str:
    words = "height over the thread"
    return f"{view.corner}, {words}".capitalize() if view.corner else words.capitalize()


def _floats(values: QuantityArray) -> list[float]:
    return [float(value) for value in values.magnitude]


def _frame_of(view: NutCurveView) -> Frame:
    """Fit the thread from its slack end, at the left, to its other end."""
    places, heights = (_floats(v) for v in (view.nut_curve.pin_distance, view.nut_curve.height))
    room = 0.03 * (places[-1] - places[0])
    low, high = min(heights), max(heights)
    # On a stop all over the thread, any span will do.
    spare = 1.0 if math.isclose(low, high) else 0.08 * (high - low)
    return Frame(
        across=(places[0] - room, places[-1] + room),
        up=(low - spare, high + spare),
        low=(_LEFT, _BOTTOM),
        high=(_RIGHT, _TOP),
    )


def _draw_unsafe(out: Drawing, view: NutCurveView, frame: Frame) -> None:
    for stretch in view.nut_curve.unsafe_stretches:
        ends = (float(end.magnitude) for end in (stretch.unsafe_from, stretch.unsafe_to))
        left, right = map(frame.x, ends)
        name = "lever-unheld" if stretch.lever_unheld else "bolt-takes-set"
        out.hatched_box((left, _TOP), (right, _BOTTOM), name=name)


def _draw_droop_scale(out: Drawing, view: NutCurveView, frame: Frame) -> None:
    """Write at the right how much droop is left at a height."""
    droop = float((view.set_row.height + view.set_row.droop_left).magnitude)
    for left in round_ticks(low=max(droop - frame.up[1], 0.0), high=droop - frame.up[0]):
        y = frame.y(droop - left)
        out.line((_RIGHT, y), (_RIGHT + 1.2, y), width=THIN)
        out.text((_RIGHT + 2.0, y + 1.0), tick(left), anchor="start")


def _draw_set_place(out: Drawing, view: NutCurveView, frame: Frame) -> None:
    """Mark where the nut is set, and write its figures."""
    here = view.set_row
    x, y = frame.at((float(here.pin_distance.magnitude), float(here.height.magnitude)))
    out.path([(x, y), (x, _BOTTOM)], width=HAIR, dash="1 0.8")
    ring(out, (x, y), "set")
    words = (
        f"ring: set at {shown(here.pin_distance, 1)}",
        f"hub to arch {shown(here.height, 0)}",
        f"droop to spare {shown(here.droop_left, 0)}",
    )
    left, top = _free_corner(view, frame, width := max(text_width(w, SMALL) for w in words))
    out.box((left, top), (left + width, top + _LEGEND), fill=WHITE, width=0.0)
    out.lines((left + 0.5, top + 3.2), words, anchor="start")


def _free_corner(view: NutCurveView, frame: Frame, width: float) -> XY:
    """Find where words hide nothing of a curve that never falls to the right."""
    left, top = _LEFT + 1.0, _TOP + 1.0
    pairs = zip(_floats(view.nut_curve.pin_distance), _floats(view.nut_curve.height), strict=True)
    if any(x < left + width + 3.0 and y < top + _LEGEND + 3.0 for x, y in map(frame.at, pairs)):
        return _RIGHT - 1.0 - width, _BOTTOM - 1.0 - _LEGEND
    return left, top


def _write_scales(out: Drawing, view: NutCurveView) -> None:
    """Say what the scales are of, and what is hatched."""
    height = unit_spelling(view.set_row.height)
    out.text((1.0, _TOP - 3.0), f"hub to arch [{height}]", anchor="start")
    out.text((_SIZE[0] - 1.0, _TOP - 3.0), f"droop to spare [{height}]", anchor="end")
    for line, words in enumerate(_captions(view)):
        out.text((_SIZE[0] / 2, _CAPTION + line * _LEADING), words)


def _captions(view: NutCurveView) -> Iterator[str]:
    part, unit = view.turned_part.value, unit_spelling(view.set_row.pin_distance)
    yield f"{part} at [{unit}], from the {view.bolt_datum.value}"
    yield f"to the right: {view.raising_sense.value}, which raises"
    if view.nut_curve.unsafe_stretches:
        yield f"hatched: not safe, {_reasons(view)}"


def _reasons(view: NutCurveView) -> str:
    return "; ".join(dict.fromkeys(map(unsafe_words, view.nut_curve.unsafe_stretches)))


def _described(view: NutCurveView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    here, curve, part = view.set_row, view.nut_curve, view.turned_part.value
    unsafe = (
        f" Not safe from {shown(stretch.unsafe_from, 1)} to {shown(stretch.unsafe_to, 1)}: "
        f"{unsafe_words(stretch)}."
        for stretch in curve.unsafe_stretches
    )
    return (
        f"{_title(view)}, {part} measured from the {view.bolt_datum.value}. "
        f"Slack end: {shown(curve.pin_distance[0], 1)}, {shown(curve.height[0], 0)} hub to arch. "
        f"Set: {shown(here.pin_distance, 1)}, {shown(here.height, 0)}, "
        f"{shown(here.droop_left, 0)} of droop to spare. "
        f"Other end: {shown(curve.pin_distance[-1], 1)}, {shown(curve.height[-1], 0)}."
        f"{''.join(unsafe)}"
    )
