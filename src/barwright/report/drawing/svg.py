"""A drawing in SVG, element by element, in millimetres of paper.

Black, white and grey alone; every attribute stands at its element, so that the text is good in a
page, in a typesetter and as a file.  The same calls give the same bytes.
"""

from __future__ import annotations

import base64
import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TypeAlias
from xml.etree import ElementTree as ET

from barwright.report.safe_text import one_line

__all__ = [
    "BODY",
    "BOLD",
    "GREY",
    "HAIR",
    "INK",
    "PALE",
    "SHEET_BODY",
    "SHEET_SMALL",
    "SHEET_TITLE",
    "SMALL",
    "THIN",
    "TITLE",
    "WHITE",
    "XY",
    "Drawing",
    "between",
    "data_uri",
    "number",
    "polar",
    "spread",
    "text_width",
    "title_and_description",
]

XY: TypeAlias = tuple[float, float]
"""A point of a drawing, right and down."""

INK, GREY, PALE, WHITE = "#000000", "#666666", "#dddddd", "#ffffff"
HAIR, THIN, BOLD = 0.18, 0.3, 0.6
"""Widths of lines [mm]."""
SMALL, BODY, TITLE = 2.9, 3.3, 4.0
"""Sizes of text [mm]; nothing on paper is smaller than 2.8 mm."""
SHEET_SMALL, SHEET_BODY, SHEET_TITLE = 3.8, 4.1, 4.6
"""The same in drawings that a bench sheet prints at two thirds: at least 7 points on paper."""

# Steps of an arc [rad], and the distance of hatching [mm].
_ARC_STEP, _HATCH = 0.07, 0.9


def polar(centre: XY, *, radius: float, angle: float) -> XY:
    """Return the point at an angle [rad], counter-clockwise from the right (y runs down)."""
    return centre[0] + radius * math.cos(angle), centre[1] - radius * math.sin(angle)


def between(p: XY, q: XY, share: float = 0.5) -> XY:
    """Return a point on the way from one point to another."""
    return p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share


def number(value: float) -> str:
    """Write a length with three decimals at most, and never minus zero."""
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")


def text_width(words: str, size: float) -> float:
    """Estimate the width of a line of text, which depends on the font that a reader has [mm]."""
    return 0.54 * size * len(words)


def spread(
    wanted: Sequence[float], lengths: Sequence[float], *, low: float, high: float
) -> list[float]:
    """Place boxes along a line near where they are wanted, none over another.

    Parameters
    ----------
    wanted : sequence of float
        Their middles, in order.
    lengths : sequence of float
        Their lengths along that line.
    low, high : float
        Between which they stand, if there is room.

    Returns
    -------
    list of float
        Where they begin.
    """
    starts: list[float] = []
    for middle, length in zip(wanted, lengths, strict=True):
        free = starts[-1] + lengths[len(starts) - 1] if starts else low
        starts.append(max(free, middle - length / 2.0))
    below = high
    for index in reversed(range(len(starts))):
        starts[index] = min(starts[index], below - lengths[index])
        below = starts[index]
    return starts


class Drawing:
    """An SVG drawing in millimetres, built element by element.

    Parameters
    ----------
    size : (float, float)
        Width and height [mm].
    title : str
        What it shows, in a line.
    description : str
        The same as a text, for people who cannot see it.
    small : float
        Size of text whose size is not given [mm].
    """

    def __init__(self, size: XY, *, title: str, description: str, small: float = SMALL) -> None:
        self._small = small
        width, height = (number(length) for length in size)
        self._svg = ET.Element(
            "svg",
            {
                "xmlns": _SVG,
                "width": f"{width}mm",
                "height": f"{height}mm",
                "viewBox": f"0 0 {width} {height}",
                "role": "img",
                "font-family": "sans-serif",
            },
        )
        ET.SubElement(self._svg, "title").text = one_line(title)
        ET.SubElement(self._svg, "desc").text = one_line(description)
        ET.SubElement(self._svg, "rect", width=width, height=height, fill=WHITE)

    def __str__(self) -> str:
        """Write the whole file."""
        ET.indent(self._svg)
        return ET.tostring(self._svg, encoding="unicode") + "\n"

    # -- Lines --------------------------------------------------------------------------

    def line(self, p: XY, q: XY, *, width: float = THIN, ink: str = INK, name: str = "") -> None:
        """Draw a straight line."""
        self.path([p, q], width=width, ink=ink, name=name)

    def path(
        self,
        points: Iterable[XY],
        *,
        closed: bool = False,
        fill: str = "none",
        width: float = THIN,
        dash: str = "",
        ink: str = INK,
        name: str = "",
    ) -> None:
        """Draw a line through points; a name tells what it shows to whoever reads the file."""
        text = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        shape = {"d": f"M{text}{'Z' if closed else ''}"}
        self._add("path", shape, fill=fill, width=width, dash=dash, name=name, ink=ink)

    def box(
        self, low: XY, high: XY, *, fill: str = "none", width: float = THIN, name: str = ""
    ) -> None:
        """Draw a rectangle between two corners."""
        self.path(_rectangle(low, high), closed=True, fill=fill, width=width, name=name)

    def hatched_box(self, low: XY, high: XY, *, name: str = "") -> None:
        """Draw a rectangle between two corners as a cut through a part."""
        corners = _rectangle(low, high)
        self.path(corners, closed=True, fill=WHITE, name=name)
        for p, q in _hatching(corners):
            self.line(p, q, width=HAIR, ink=GREY)

    def gap(self, low: XY, high: XY) -> None:
        """Leave a rectangle white, for words on a line."""
        self.path(_rectangle(low, high), closed=True, fill=WHITE, ink=WHITE)

    def circle(
        self,
        centre: XY,
        radius: float,
        *,
        fill: str = "none",
        width: float = THIN,
        dash: str = "",
        name: str = "",
    ) -> None:
        """Draw a circle."""
        x, y = (number(c) for c in centre)
        shape = {"cx": x, "cy": y, "r": number(radius)}
        self._add("circle", shape, fill=fill, width=width, dash=dash, name=name)

    def _add(
        self,
        tag: str,
        shape: Mapping[str, str],
        *,
        fill: str,
        width: float,
        dash: str,
        name: str,
        ink: str = INK,
    ) -> None:
        element = ET.SubElement(self._svg, tag, dict(shape))
        element.set("fill", fill)
        element.set("stroke", ink)
        element.set("stroke-width", number(width))
        element.set("stroke-linejoin", "round")
        if dash:
            element.set("stroke-dasharray", dash)
        if name:
            element.set("data-name", name)

    # -- Arrows -------------------------------------------------------------------------

    def head(self, tip: XY, angle: float, *, size: float = 2.2) -> None:
        """Draw an arrow's head that points in a direction [rad]."""
        wings = [polar(tip, radius=size, angle=angle + math.pi + side) for side in (-0.31, 0.31)]
        self.path([tip, *wings], closed=True, fill=INK, width=HAIR, name="arrowhead")

    def arrow(self, p: XY, q: XY) -> None:
        """Draw an arrow from one point to another."""
        direction = _direction(p, q)
        self.line(p, polar(q, radius=1.2, angle=direction + math.pi))
        self.head(q, direction)

    def arc(self, centre: XY, radius: float, *, start: float, end: float, name: str = "") -> None:
        """Draw an arc from one angle to another [rad], with an arrow's head at its end."""
        way = 1.0 if end > start else -1.0
        stop = end - way * 1.5 / radius
        steps = max(2, math.ceil(abs(stop - start) / _ARC_STEP))
        angles = [start + (stop - start) * i / steps for i in range(steps + 1)]
        self.path([polar(centre, radius=radius, angle=a) for a in angles], width=BOLD, name=name)
        tip = polar(centre, radius=radius, angle=end)
        self.head(tip, end + way * (math.pi / 2.0 - 1.1 / radius), size=3.0)

    def dimension(self, p: XY, q: XY, words: str, *, size: float = BODY) -> None:
        """Draw a level dimension line with heads at both ends and its text above."""
        self.line(p, q, width=HAIR)
        self.head(p, _direction(q, p))
        self.head(q, _direction(p, q))
        x, y = between(p, q)
        self.text((x, y - 1.2), words, size=size, bold=True)

    # -- Text ---------------------------------------------------------------------------

    def text(
        self,
        at: XY,
        words: str,
        *,
        size: float | None = None,
        anchor: str = "middle",
        bold: bool = False,
        turned: float = 0.0,
    ) -> None:
        """Write a line of text; turned, it runs down at an angle [degrees] about its place."""
        x, y = (number(c) for c in at)
        letters = number(size or self._small)
        element = ET.SubElement(self._svg, "text", {"x": x, "y": y, "font-size": letters})
        element.set("text-anchor", anchor)
        element.set("fill", INK)
        if bold:
            element.set("font-weight", "bold")
        if turned:
            element.set("transform", f"rotate({number(turned)} {x} {y})")
        element.text = one_line(words)

    def lines(
        self, at: XY, texts: Sequence[str], *, size: float | None = None, anchor: str = "middle"
    ) -> None:
        """Write lines of text below each other."""
        x, y = at
        leading = 1.25 * (size or self._small)
        for index, words in enumerate(texts):
            self.text((x, y + index * leading), words, size=size, anchor=anchor)


# -- As a picture ------------------------------------------------------------------------


def data_uri(svg: str) -> str:
    """Hold a drawing as a picture: nothing in it can reach the page."""
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"


def title_and_description(svg: str) -> tuple[str, str]:
    """Return what a drawing shows, in a line, and as a text for who cannot see it."""
    root = ET.fromstring(svg)  # noqa: S314 - made here
    title, description = (root.findtext(f"{{{_SVG}}}{tag}", "") for tag in ("title", "desc"))
    return title, description


_SVG = "http://www.w3.org/2000/svg"


def _direction(p: XY, q: XY) -> float:
    """Angle in which one point lies from another [rad]."""
    return math.atan2(p[1] - q[1], q[0] - p[0])


def _rectangle(low: XY, high: XY) -> list[XY]:
    return [low, (high[0], low[1]), high, (low[0], high[1])]


def _hatching(corners: Sequence[XY]) -> list[tuple[XY, XY]]:
    """Lines that rise to the right across an upright rectangle."""
    (left, top), (right, bottom) = corners[0], corners[2]
    found = []
    # On such a line the sum of both coordinates is the same.
    for step in range(1, math.ceil((right - left + bottom - top) / _HATCH)):
        total = left + top + step * _HATCH
        start = (max(left, total - bottom), min(bottom, total - left))
        end = (min(right, total - top), max(top, total - right))
        found.append((start, end))
    return found
