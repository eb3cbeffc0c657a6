"""The load and rate curve of a corner, for the terminal and as SVG."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from xml.etree import ElementTree as ET

import attrs
import numpy as np

from barwright.analysis.rates.rates import RateFigures
from barwright.first_use import FIRST_USE
from barwright.parts.arguments import checks_arguments
from barwright.report.printable import one_line
from barwright.units import Quantity, QuantityArray, shown, unit_spelling

__all__ = ["svg_chart", "terminal_chart"]


@attrs.frozen
class _Panel:
    """One curve over height, with the three marked states."""

    title: str
    height: QuantityArray
    values: QuantityArray
    marks: tuple[tuple[str, Quantity, Quantity], ...]


def terminal_chart(figures: RateFigures, *, width: int = 72, rows: int = 14) -> str:
    """Draw load and rate over the travel in characters.

    Parameters
    ----------
    figures : RateFigures
        Of one corner.
    width, rows : int
        Size of each of the two panels, in characters.

    Returns
    -------
    str
        Full droop, ride and full bump are marked D, R and B.
    """
    return "\n\n".join(_drawn(panel, width, rows) for panel in _panels(figures))


@checks_arguments
def svg_chart(figures: RateFigures, *, title: str, note: str = "") -> str:
    """Draw load and rate over the travel as an SVG document.

    Parameters
    ----------
    figures : RateFigures
        Of one corner.
    title : str
        Above the panels.
    note : str
        Below the panels, and the description of the drawing: what it rests on.

    Returns
    -------
    str
        The same bytes for the same figures.

    Examples
    --------
    >>> from barwright.analysis.rates.rates import rates
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> svg_chart(rates(setup).figures, title="Short van").count("<polyline")
    2
    """
    note = one_line(note)
    lines = textwrap.wrap(note, _LETTERS)
    height = _HEIGHT + _LEADING * len(lines)
    svg = ET.Element(
        "svg",
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {_WIDTH} {height}",
        width=str(_WIDTH),
        height=str(height),
    )
    svg.set("font-family", "sans-serif")
    svg.set("font-size", "13")
    title = one_line(title)
    ET.SubElement(svg, "title").text = title
    if note:
        ET.SubElement(svg, "desc").text = note
    ET.SubElement(svg, "rect", width="100%", height="100%", fill="white")
    _label(svg, _LEFT, 24, title, anchor="start", size="16")
    for index, panel in enumerate(_panels(figures)):
        _draw_panel(svg, panel, top=56 + index * (_PANEL + 64))
    for index, line in enumerate(lines):
        _label(svg, _LEFT, _HEIGHT + index * _LEADING, line, anchor="start")
    ET.indent(svg)
    return ET.tostring(svg, encoding="unicode") + "\n"


_WIDTH, _HEIGHT, _LEFT, _RIGHT, _PANEL = 640, 620, 80, 24, 216
_LEADING, _LETTERS = 18, 80
_LINE, _MARK, _GRID, _INK = "#1f5f8b", "#b3401f", "#dddddd", "#222222"


def _panels(figures: RateFigures) -> tuple[_Panel, _Panel]:
    states = (("D", figures.droop), ("R", figures.ride), ("B", figures.bump))
    return (
        _Panel(
            "load at the wheel",
            figures.curve.height,
            figures.curve.wheel_load,
            tuple((name, state.height, state.wheel_load) for name, state in states),
        ),
        _Panel(
            "rate at the wheel",
            figures.curve.height,
            figures.curve.wheel_rate,
            tuple((name, state.height, state.wheel_rate) for name, state in states),
        ),
    )


def _drawn(panel: _Panel, width: int, rows: int) -> str:
    """Draw one panel with braille dots, height falling to the right as the wheel rises."""
    with FIRST_USE:
        import plotille  # noqa: PLC0415 - an optional dependency, and only this form needs it

    heights, values = _numbers(panel.height), _numbers(panel.values)
    figure = plotille.Figure()
    figure.width, figure.height, figure.with_colors = width, rows, False
    # A little to the right of full bump, or its mark would be cut off.
    margin = (float(heights.max()) - float(heights.min())) / width * 2.0
    figure.set_x_limits(min_=-float(heights.max()), max_=-float(heights.min()) + margin)
    low, high = _limits(values)
    figure.set_y_limits(min_=low, max_=high)
    figure.register_label_formatter(float, _plain_number)
    figure.x_label = unit_spelling(panel.height)
    figure.y_label = unit_spelling(panel.values).replace("*", "·")
    figure.plot((-heights).tolist(), values.tolist())
    for name, height, value in panel.marks:
        figure.scatter([-float(height.magnitude)], [float(value.magnitude)], marker=name)
    drawing: str = figure.show(legend=False)
    legend = ", ".join(
        f"{name} {word} {shown(value, 1)}"
        for (name, _, value), word in zip(panel.marks, _WORDS, strict=True)
    )
    return f"{panel.title} over hub to arch; {legend}\n{drawing}"


_WORDS = ("full droop", "ride", "full bump")


def _plain_number(value: float, chars: int, delta: float, *, left: bool = False) -> str:
    """Format a label; heights are drawn negative, since they fall as the wheel rises.

    The labels of heights alone are put to the left.
    """
    places = next((n for n, step in enumerate((10.0, 1.0, 0.1)) if delta >= step), 3)
    text = f"{abs(value) if left else value:.{places}f}"
    return text.ljust(chars) if left else text.rjust(chars)


def _numbers(values: QuantityArray) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.asarray(values.magnitude, dtype=np.float64)


def _limits(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> tuple[float, float]:
    """From zero or the least value to a little above the greatest, or above zero."""
    low, high = min(0.0, float(values.min())), max(0.0, float(values.max()))
    # Without torque over the whole travel all values are zero, and any span will do.
    return low, high + 0.1 * (high - low) or 1.0


def _ticks(low: float, high: float) -> list[float]:
    """Four to eight round numbers within limits."""
    raw = (high - low) / 6.0
    base = 10.0 ** np.floor(np.log10(raw))
    step = float(base * next(m for m in (1.0, 2.0, 5.0, 10.0) if m * base >= raw))
    return [float(x) for x in np.arange(np.ceil(low / step), np.floor(high / step) + 1.0) * step]


def _draw_panel(svg: ET.Element, panel: _Panel, *, top: float) -> None:
    heights, values = _numbers(panel.height), _numbers(panel.values)
    low, high = _limits(values)
    left, right = float(heights.max()), float(heights.min())

    def x(height: float) -> float:
        return _LEFT + (left - height) / (left - right) * (_WIDTH - _LEFT - _RIGHT)

    def y(value: float) -> float:
        return top + (high - value) / (high - low) * _PANEL

    unit = unit_spelling(panel.values).replace("*", "·")
    _label(svg, _LEFT, top - 10, f"{panel.title} [{unit}]", anchor="start")
    for tick in _ticks(low, high):
        _rule(svg, (_LEFT, y(tick)), (_WIDTH - _RIGHT, y(tick)))
        _label(svg, _LEFT - 8, y(tick) + 4, f"{tick:g}", anchor="end")
    for tick in _ticks(right, left):
        _rule(svg, (x(tick), top), (x(tick), top + _PANEL))
        _label(svg, x(tick), top + _PANEL + 18, f"{tick:g}")
    unit = unit_spelling(panel.height)
    _label(svg, _WIDTH - _RIGHT, top + _PANEL + 36, f"hub to arch [{unit}]", anchor="end")
    points = [(x(h), y(v)) for h, v in zip(heights.tolist(), values.tolist(), strict=True)]
    line = ET.SubElement(svg, "polyline", points=" ".join(f"{a:.1f},{b:.1f}" for a, b in points))
    for key, value in (("fill", "none"), ("stroke", _LINE), ("stroke-width", "2")):
        line.set(key, value)
    _mark(svg, panel, [(x(float(h.magnitude)), y(float(v.magnitude))) for _, h, v in panel.marks])


def _mark(svg: ET.Element, panel: _Panel, places: Sequence[tuple[float, float]]) -> None:
    """Mark droop, ride and bump; the curves rise to the right, so their lower right is free."""
    shifts = ((6.0, 20.0, "start"), (6.0, 20.0, "start"), (0.0, -10.0, "end"))
    rows = zip(panel.marks, _WORDS, places, shifts, strict=True)
    for (_, _, value), word, (x, y), (right, down, anchor) in rows:
        ET.SubElement(svg, "circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r="4", fill=_MARK)
        text = f"{word} {shown(value, 1)}"
        _label(svg, x + right, y + down, text, anchor=anchor, fill=_MARK)


def _rule(svg: ET.Element, start: tuple[float, float], end: tuple[float, float]) -> None:
    (x1, y1), (x2, y2) = start, end
    places = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
    ET.SubElement(svg, "line", {k: f"{v:.1f}" for k, v in places.items()} | {"stroke": _GRID})


def _label(
    svg: ET.Element,
    x: float,
    y: float,
    text: str,
    *,
    anchor: str = "middle",
    fill: str = _INK,
    size: str = "13",
) -> None:
    element = ET.SubElement(svg, "text", x=f"{x:.1f}", y=f"{y:.1f}", fill=fill)
    element.set("text-anchor", anchor)
    element.set("font-size", size)
    element.text = text
