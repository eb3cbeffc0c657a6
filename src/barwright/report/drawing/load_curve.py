"""Load at the wheel over the height from hub to arch."""

from __future__ import annotations

import attrs

from barwright.analysis.rates.corner_state import CornerState
from barwright.analysis.rates.rates import Rates
from barwright.parts.in_short import Summarised
from barwright.report.drawing.frame import Frame, ring, square, triangle
from barwright.report.drawing.svg import BOLD, SMALL, TITLE, XY, Drawing, text_width
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
    """Draw the load at the wheel over the height from hub to arch, 88 mm wide.

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
    out.text((_SIZE[0] / 2, 5.0), title, size=TITLE, bold=True)
    frame = _frame_of(view)
    _draw_grid(out, view, frame)
    pairs = zip(_floats(view.height), _floats(view.wheel_load), strict=True)
    out.path([frame.at(pair) for pair in pairs], width=BOLD, name="curve")
    _draw_marks(out, view, frame)
    return str(out)


_SIZE = (88.0, 68.0)
_LEFT, _RIGHT, _TOP, _BOTTOM = 14.0, 85.0, 13.0, 57.0


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
    unit = unit_spelling(view.height)
    out.text(((_LEFT + _RIGHT) / 2.0, _BOTTOM + 8.6), f"hub to arch [{unit}], higher to the right")
    out.text((1.0, _TOP - 2.0), f"load [{unit_spelling(view.wheel_load)}]", anchor="start")


# -- Marks -------------------------------------------------------------------------------


def _draw_marks(out: Drawing, view: LoadCurveView, frame: Frame) -> None:
    """Mark bump, ride and droop, each with a shape of its own and its figures.

    The curve falls to the right, so that there is room above it to the right of a place, and
    below it to the left.
    """
    for words, state, shape in (
        ("full bump", view.bump, square),
        ("ride", view.ride, ring),
        ("full droop", view.droop, triangle),
    ):
        at = frame.at((float(state.height.magnitude), float(state.wheel_load.magnitude)))
        shape(out, at, words.removeprefix("full "))
        _write(out, at, f"{words}: {shown(state.height, 0)}, {shown(state.wheel_load, 0)}")


def _write(out: Drawing, at: XY, words: str) -> None:
    """Write the figures of a mark at its right, or where that has no room at its left."""
    x, y = at
    if x + 2.4 + text_width(words, SMALL) < _RIGHT:
        out.text((x + 2.4, y - 1.6), words, anchor="start")
    else:
        out.text((x - 2.6, min(y + 4.4, _BOTTOM - 1.0)), words, anchor="end")


def _described(view: LoadCurveView) -> str:
    """Say what the drawing shows, for who cannot see it."""
    states = (("full droop", view.droop), ("ride", view.ride), ("full bump", view.bump))
    marks = "; ".join(
        f"{words}: {shown(state.wheel_load, 0)} at {shown(state.height, 0)}"
        for words, state in states
    )
    return f"{view.corner.capitalize()}, load at the wheel over hub to arch. {marks}."
