"""The load and rate curve of a corner, for the terminal and as SVG; its curve over the thread."""

from __future__ import annotations

import itertools
import math
import textwrap
from collections.abc import Iterator, Sequence
from xml.etree import ElementTree as ET

import attrs
import numpy as np

from barwright.analysis.rates.rate_figures import RateFigures
from barwright.first_use import FIRST_USE
from barwright.parts.common.arguments import checks_arguments
from barwright.report.drawing.nut_curve import NutCurveView
from barwright.report.safe_text import one_line
from barwright.units import Quantity, QuantityArray, shown, unit_spelling

__all__ = ["nut_chart", "svg_chart", "terminal_chart"]


@attrs.frozen
class _Panel:
    """One curve over height, with the three marked states."""

    title: str
    height: QuantityArray
    values: QuantityArray
    marks: tuple[tuple[str, Quantity, Quantity], ...]


def terminal_chart(figures: RateFigures, *, width: int = 80, rows: int = 14) -> str:
    """Draw load and rate over the travel in characters.

    Parameters
    ----------
    figures : RateFigures
        Of one corner.
    width : int
        Of the whole drawing, in characters.
    rows : int
        Of each of the two panels.

    Returns
    -------
    str
        Full droop, ride and full bump are marked D, R and B.
    """
    return "\n\n".join("\n".join(_drawn(panel, width, rows)) for panel in _panels(figures))


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
        Sources of the figures, shown below the panels and in the description.

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


def _drawn(panel: _Panel, width: int, rows: int) -> Iterator[str]:
    """Draw one panel with braille dots, height falling to the right as the wheel rises."""
    with FIRST_USE:
        import plotille  # noqa: PLC0415 - an optional dependency, and only this form needs it

    yield f"{panel.title} [{_unit(panel.values)}] over hub to arch [{_unit(panel.height)}]"
    yield from _legend(panel, width)
    heights, values = _numbers(panel.height), _numbers(panel.values)
    levels, places = _round_span(values), _round_span(heights)
    names = [f"{level:g}" for level in levels]
    margin = max(map(len, names))
    wide = width - margin - len(_AXIS)
    # What lies on the very edge of a canvas is not on it.
    left, right = _widened(-places[-1], -places[0], dots=2 * wide)
    low, high = _widened(levels[0], levels[-1], dots=4 * rows)
    canvas = plotille.Canvas(wide, rows, left, low, right, high)
    points = list(zip((-heights).tolist(), values.tolist(), strict=True))
    for start, end in itertools.pairwise(points):
        canvas.line(*start, *end)
    for name, height, value in panel.marks:
        canvas.text(-float(height.magnitude), float(value.magnitude), name)
    labels = _set_out(names[::-1], rows)
    for label, dots in zip(labels, canvas.plot().splitlines(), strict=True):
        yield f"{label:>{margin}}{_AXIS}{dots}".replace(_NO_DOTS, " ").rstrip()
    ticks = _set_out(["+"] * len(places), wide)
    yield " " * margin + " -" + "".join(tick or "-" for tick in ticks)
    yield " " * (margin + len(_AXIS)) + _below([f"{place:g}" for place in places[::-1]], wide)


_AXIS = " |"
_NO_DOTS = "\u2800"


def _widened(low: float, high: float, *, dots: int) -> tuple[float, float]:
    little = 0.51 * (high - low) / dots
    return low - little, high + little


def _legend(panel: _Panel, width: int) -> list[str]:
    """Say what is marked, in lines that part no figure from its unit."""
    said = ", ".join(
        f"{name} {word} {shown(value, 1)}".replace(" ", "\xa0")
        for (name, _, value), word in zip(panel.marks, _WORDS, strict=True)
    )
    return [line.replace("\xa0", " ") for line in textwrap.wrap(said, width)]


_WORDS = ("full droop", "ride", "full bump")


def _set_out(texts: Sequence[str], length: int) -> list[str]:
    """Put texts at even distances from the first of so many places to the last."""
    places = [""] * length
    for number, text in enumerate(texts):
        places[round(number * (length - 1) / (len(texts) - 1))] = text
    return places


def _below(texts: Sequence[str], length: int) -> str:
    """Write texts below even distances, none beyond the first and the last."""
    line = ""
    for number, text in enumerate(texts):
        place = round(number * (length - 1) / (len(texts) - 1)) - len(text) // 2
        start = min(max(place, 0), length - len(text))
        line = line.ljust(start) + text if start > len(line) or not line else line
    return line


def _unit(values: Quantity | QuantityArray) -> str:
    return unit_spelling(values).replace("*", "·")


def _numbers(values: QuantityArray) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.asarray(values.magnitude, dtype=np.float64)


def _round_span(values: np.ndarray[tuple[int], np.dtype[np.float64]]) -> list[float]:
    """Round numbers at even distances, from just below the values to just above them."""
    low, high = float(values.min()), float(values.max())
    if math.isclose(low, high):
        # Without torque over the whole travel, or on a stop over the whole thread.
        high = low + 1.0
    step = _step(low, high)
    first, last = math.floor(low / step), math.ceil(high / step)
    return [number * step for number in range(first, last + 1)]


def _ticks(low: float, high: float) -> list[float]:
    """Round numbers within limits."""
    step = _step(low, high)
    first, last = math.ceil(low / step), math.floor(high / step)
    return [number * step for number in range(first, last + 1)]


def _step(low: float, high: float) -> float:
    """Choose a distance of 1, 2 or 5 and zeros that fits four to six times between limits."""
    raw = (high - low) / 6.0
    base = 10.0 ** math.floor(math.log10(raw))
    return next(m * base for m in (1.0, 2.0, 5.0, 10.0) if m * base >= raw)


def _draw_panel(svg: ET.Element, panel: _Panel, *, top: float) -> None:
    heights, values = _numbers(panel.height), _numbers(panel.values)
    levels = _round_span(values)
    low, high = levels[0], levels[-1]
    left, right = float(heights.max()), float(heights.min())

    def x(height: float) -> float:
        return _LEFT + (left - height) / (left - right) * (_WIDTH - _LEFT - _RIGHT)

    def y(value: float) -> float:
        return top + (high - value) / (high - low) * _PANEL

    _label(svg, _LEFT, top - 10, f"{panel.title} [{_unit(panel.values)}]", anchor="start")
    for tick in levels:
        _rule(svg, (_LEFT, y(tick)), (_WIDTH - _RIGHT, y(tick)))
        _label(svg, _LEFT - 8, y(tick) + 4, f"{tick:g}", anchor="end")
    for tick in _ticks(right, left):
        _rule(svg, (x(tick), top), (x(tick), top + _PANEL))
        _label(svg, x(tick), top + _PANEL + 18, f"{tick:g}")
    below = f"hub to arch [{_unit(panel.height)}]"
    _label(svg, _WIDTH - _RIGHT, top + _PANEL + 36, below, anchor="end")
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


# -- Over the thread -----------------------------------------------------------------------


def nut_chart(view: NutCurveView, *, width: int = 80) -> Iterator[str]:
    """Draw height and droop left over the place of the adjuster's nut in plain characters.

    Parameters
    ----------
    view : NutCurveView
        The curve.
    width : int
        Of the whole drawing, in characters.

    Yields
    ------
    str
        A line, with hub to arch at the left and droop left at the right.  The curve is made of
        stars, of ``x`` where the nut must not stand; ``S`` is where it is set.
    """
    levels = _round_span(_numbers(view.nut_curve.height))
    names = [f"{level:g}" for level in levels]
    droops = [_droop_at(view, level) for level in levels]
    margin, beside = max(map(len, names)), max(map(len, droops))
    wide = width - margin - len(_AXIS) - 2 - beside
    places = _raised_to_the_right(view)
    rows = _starred(view, places=(places[0], places[-1]), levels=(levels[0], levels[-1]), wide=wide)
    labels, droops = (_set_out(texts[::-1], _NUT_ROWS) for texts in (names, droops))
    for label, row, droop in zip(labels, rows, droops, strict=True):
        yield f"{label:>{margin}}{_AXIS}{row}| {droop:>{beside}}".rstrip()
    ticks = "".join(tick or "-" for tick in _set_out(["+"] * len(places), wide))
    yield f"{'':{margin}} -{ticks}-"
    yield " " * (margin + len(_AXIS)) + _below([f"{place:g}" for place in places], wide)


_NUT_ROWS = 13


def _droop_at(view: NutCurveView, height: float) -> str:
    """Write how much droop is left at a height; nothing beyond full droop."""
    left = float((view.set_row.height + view.set_row.droop_left).magnitude) - height
    return f"{left:.0f}" if left > -_HALF else ""


# Less is written as nothing.
_HALF = 0.5


def _raised_to_the_right(view: NutCurveView) -> list[float]:
    """Round places of the nut, in the order in which it raises the vehicle."""
    found = _numbers(view.nut_curve.pin_distance)
    places = _round_span(found)
    return places if found[-1] > found[0] else places[::-1]


def _starred(
    view: NutCurveView, *, places: tuple[float, float], levels: tuple[float, float], wide: int
) -> Iterator[str]:
    """Draw the curve into so many columns, row by row."""
    curve, here = view.nut_curve, view.set_row
    distances, heights = _numbers(curve.pin_distance), _numbers(curve.height)
    rising = np.argsort(distances)
    grid = [[" "] * wide for _ in range(_NUT_ROWS)]

    def put(sign: str, column: int, *, height: float) -> None:
        share = (levels[1] - height) / (levels[1] - levels[0])
        grid[round(share * (_NUT_ROWS - 1))][column] = sign

    half = abs(places[1] - places[0]) / (wide - 1) / 2.0
    for column, place in enumerate(np.linspace(*places, wide).tolist()):
        if distances.min() - half <= place <= distances.max() + half:
            height = float(np.interp(place, distances[rising], heights[rising]))
            put("x" if _is_unsafe(view, place) else "*", column, height=height)
    set_at = (float(here.pin_distance.magnitude) - places[0]) / (places[1] - places[0])
    put("S", round(set_at * (wide - 1)), height=float(here.height.magnitude))
    yield from map("".join, grid)


def _is_unsafe(view: NutCurveView, place: float) -> bool:
    stretches = (
        sorted(float(end.magnitude) for end in (stretch.unsafe_from, stretch.unsafe_to))
        for stretch in view.nut_curve.unsafe_stretches
    )
    return any(low <= place <= high for low, high in stretches)
