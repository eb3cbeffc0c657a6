"""Load at the wheel over the height from hub to arch."""

from __future__ import annotations

import attrs

from barwright.analysis.rates.corner_state import CornerState
from barwright.analysis.rates.rates import Rates
from barwright.parts.common.in_short import Summarised
from barwright.report.drawing.frame import Frame, ring, square, triangle
from barwright.report.drawing.svg import BODY, BOLD, Drawing
from barwright.units import QuantityArray, same, shown, unit_spelling

__all__ = ["LoadCurveView", "load_curve_svg", "load_curve_view"]


@attrs.frozen(kw_only=True, repr=False)
class LoadCurveView(Summarised):
    """The load of a corner over its travel, to be drawn.

    Parameters
    ----------
    corner : str
        Axle and side.
    height, wheel_load : QuantityArray
        Hub to arch, and vertical load at the wheel, from full droop to full bump.
    droop, ride, bump : CornerState
        What is marked.
    """

    corner: str
    height: QuantityArray = attrs.field(eq=same)
    wheel_load: QuantityArray = attrs.field(eq=same)
    droop: CornerState
    ride: CornerState
    bump: CornerState


def load_curve_view(rates: Rates, *, corner: str) -> LoadCurveView | None:
    """Describe the load curve of a corner.

    Parameters
    ----------
    rates : Rates
        What the corner gives at the wheel.
    corner : str
        Axle and side.

    Returns
    -------
    LoadCurveView, optional
        None where it has no rates.
    """
    figures = rates.figures
    if figures is None:
        return None
    return LoadCurveView(
        corner=corner,
        height=figures.curve.height,
        wheel_load=figures.curve.wheel_load,
        droop=figures.droop,
        ride=figures.ride,
        bump=figures.bump,
    )


def load_curve_svg(view: LoadCurveView) -> str:
    """Draw the load at the wheel over the height from hub to arch, 60 mm wide.

    Parameters
    ----------
    view : LoadCurveView
        The curve.

    Returns
    -------
    str
        An SVG document.
    """
    title = f"{view.corner.capitalize()}, load at the wheel"
    out = Drawing(_SIZE, title=title, description=_described(view))
    out.text((_SIZE[0] / 2, 4.2), title, size=BODY, bold=True)
    frame = _frame_of(view)
    _draw_grid(out, view, frame)
    pairs = zip(_floats(view.height), _floats(view.wheel_load), strict=True)
    out.path([frame.at(pair) for pair in pairs], width=BOLD, name="curve")
    _draw_marks(out, view, frame)
    return str(out)


# As wide as on the page, so that its letters are not made smaller there.
_SIZE = (60.0, 47.5)
_LEFT, _RIGHT, _TOP, _BOTTOM = 11.5, 58.0, 10.5, 31.0
_LEGEND, _LEADING = 39.4, 3.6


def _floats(values: QuantityArray) -> list[float]:
    return [float(value) for value in values.magnitude]


def _frame_of(view: LoadCurveView) -> Frame:
    """Fit a curve and what is marked, with a little room around; higher to the right."""
    heights, loads = _floats(view.height), _floats(view.wheel_load)
    room = 0.04 * (max(heights) - min(heights))
    low, high = min(0.0, *loads), max(0.0, *loads)
    return Frame(
        across=(min(heights) - room, max(heights) + room),
        # Without any load, any span will do.
        up=(low, high + 0.12 * (high - low) or 1.0),
        low=(_LEFT, _BOTTOM),
        high=(_RIGHT, _TOP),
    )


def _draw_grid(out: Drawing, view: LoadCurveView, frame: Frame) -> None:
    """Draw the frame, and say what its scales are of."""
    frame.draw(out)
    load, height = unit_spelling(view.wheel_load), unit_spelling(view.height)
    out.text((_SIZE[0] / 2, _TOP - 2.0), f"load [{load}] over hub to arch [{height}]")


def _draw_marks(out: Drawing, view: LoadCurveView, frame: Frame) -> None:
    """Mark bump, ride and droop, each with a shape of its own; below, write their figures."""
    for line, (words, state, shape) in enumerate(
        (
            ("full bump", view.bump, square),
            ("ride", view.ride, ring),
            ("full droop", view.droop, triangle),
        )
    ):
        at = frame.at((float(state.height.magnitude), float(state.wheel_load.magnitude)))
        shape(out, at, words.removeprefix("full "))
        y = _LEGEND + line * _LEADING
        shape(out, (_LEFT - 4.0, y - 1.0), "")
        figures = f"{shown(state.height, 0)}, {shown(state.wheel_load, 0)}"
        out.text((_LEFT, y), f"{words}: {figures}", anchor="start")


def _described(view: LoadCurveView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    states = (("full droop", view.droop), ("ride", view.ride), ("full bump", view.bump))
    marks = "; ".join(
        f"{words}: {shown(state.wheel_load, 0)} at {shown(state.height, 0)}"
        for words, state in states
    )
    return f"{view.corner.capitalize()}, load at the wheel over hub to arch. {marks}."
