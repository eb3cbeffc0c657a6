"""A drawing in SVG, the same bytes on every run, and a chart to draw curves in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from pathlib import Path
from xml.sax.saxutils import escape

import numpy as np
from numpy.typing import ArrayLike

from barwright.report.drawing import svg as shared
from barwright.report.drawing.svg import XY, between

__all__ = ["XY", "Chart", "Drawing", "between", "kept", "number", "polar"]

STYLE = """
text { font: 13px 'DejaVu Sans', Verdana, Arial, sans-serif; fill: #222 }
.small { font-size: 11.5px } .bold { font-weight: bold }
.line { stroke: #222; stroke-width: 1.2; fill: none }
.thin { stroke: #777; stroke-width: 0.9; fill: none }
.grid { stroke: #ddd; stroke-width: 0.7; fill: none }
.dash { stroke: #777; stroke-width: 1; stroke-dasharray: 5 4; fill: none }
.bar { stroke: #7d2e1f; stroke-width: 1.2; fill: #d9755f }
.rod { stroke: #b5472f; stroke-width: 5; fill: none; stroke-linecap: round }
.tube { stroke: #555; stroke-width: 1.1; fill: #d5d9de }
.part { stroke: #2b3a4d; stroke-width: 1.2; fill: #aebfd2 }
.arm { stroke: #34506e; stroke-width: 7; fill: none; stroke-linecap: round }
.lever { stroke: #8a6a1c; stroke-width: 7; fill: none; stroke-linecap: round }
.bolt { stroke: #444; stroke-width: 3; fill: none; stroke-linecap: round }
.damper { stroke: #2f7d5b; stroke-width: 5; fill: none; stroke-linecap: round }
.pale { opacity: 0.35 }
.key { stroke: #7a5a00; stroke-width: 1; fill: #f0b429 }
.void { stroke: #222; stroke-width: 1.2; fill: #fff }
.old { stroke: #b5472f; stroke-width: 2.2; fill: none }
.end { stroke: #b5472f; stroke-width: 2; stroke-dasharray: 7 5; fill: none }
.new { stroke: #2c5fa8; stroke-width: 2.2; fill: none }
.red { fill: #a23a24 } .blue { fill: #244f8d } .green { fill: #1f6b4b } .brown { fill: #7a5a00 }
.solid { fill: #222 } .grey { fill: #777 }
"""


def polar(centre: XY, radius: float, degrees: float) -> XY:
    """Point at an angle, counter-clockwise from the right, in a drawing (y down)."""
    return shared.polar(centre, radius=radius, angle=math.radians(degrees))


def number(value: float) -> str:
    """Write a number with one decimal at most, and never minus zero."""
    return f"{round(value, 1) + 0.0:.1f}".removesuffix(".0")


def kept(path: Path, drawing: str) -> None:
    """Write a drawing, unless the file holds it: tests may read it while the site is built."""
    if not path.exists() or path.read_text(encoding="utf-8") != drawing:
        path.write_text(drawing, encoding="utf-8", newline="\n")


class Drawing:
    """An SVG drawing, built element by element."""

    def __init__(self, width: int, height: int, title: str) -> None:
        self._size = (width, height)
        self._title = title
        self._elements: list[str] = []

    def __str__(self) -> str:
        """Write the whole file."""
        width, height = self._size
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            f'width="{width}" height="{height}" role="img">\n<title>{escape(self._title)}</title>\n'
            f'<style>{STYLE}</style>\n<rect width="{width}" height="{height}" fill="#fff"/>\n'
        )
        return head + "\n".join(self._elements) + "\n</svg>\n"

    def line(self, p: XY, q: XY, style: str = "line") -> None:
        """Draw a straight line."""
        self.path([p, q], style)

    def path(self, points: Iterable[XY], style: str = "line", *, closed: bool = False) -> None:
        """Draw a line through points."""
        text = "L".join(f"{number(x)} {number(y)}" for x, y in points)
        self._elements.append(f'<path class="{style}" d="M{text}{"Z" if closed else ""}"/>')

    def box(self, left: float, right: float, top: float, bottom: float, style: str) -> None:
        """Draw a rectangle."""
        corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
        self.path(corners, style, closed=True)

    def circle(self, centre: XY, radius: float, style: str = "line") -> None:
        """Draw a circle."""
        x, y = (number(c) for c in centre)
        self._elements.append(f'<circle class="{style}" cx="{x}" cy="{y}" r="{number(radius)}"/>')

    def text(self, at: XY, words: str, style: str = "", anchor: str = "middle") -> None:
        """Write a line of text; ``_x_`` sets x as a subscript."""
        pieces = escape(words).split("_")
        inner = pieces[0]
        for index, piece in enumerate(pieces[1:], start=1):
            low = index % 2
            size = ' font-size="9.5"' if low else ""
            inner += f'<tspan dy="{4 if low else -4}"{size}>{piece}</tspan>' if piece else ""
        x, y = (number(c) for c in at)
        self._elements.append(
            f'<text class="{style}" x="{x}" y="{y}" text-anchor="{anchor}">{inner}</text>'
        )

    def head(self, tip: XY, direction: float, style: str = "solid", size: float = 9.0) -> None:
        """Draw an arrow's head that points in a direction (degrees)."""
        wings = [polar(tip, size, direction + 180.0 + side) for side in (-17.0, 17.0)]
        self.path([tip, *wings], style, closed=True)

    def arrow(self, p: XY, q: XY, style: str = "line", fill: str = "solid") -> None:
        """Draw an arrow from one point to another."""
        direction = math.degrees(math.atan2(p[1] - q[1], q[0] - p[0]))
        self.line(p, polar(q, 6.0, direction + 180.0), style)
        self.head(q, direction, fill)

    def arc(
        self, centre: XY, radius: float, span: XY, style: str = "line", fill: str = "solid"
    ) -> None:
        """Draw an arc from one angle to another (degrees), with an arrow's head at its end."""
        start, end = span
        way = 1.0 if end > start else -1.0
        stop = end - way * math.degrees(5.0 / radius)
        steps = max(2, math.ceil(abs(stop - start) / 4.0))
        angles = [start + (stop - start) * i / steps for i in range(steps + 1)]
        self.path([polar(centre, radius, a) for a in angles], style)
        turned = way * (90.0 - math.degrees(4.5 / radius))
        self.head(polar(centre, radius, end), end + turned, fill)

    def dimension(self, p: XY, q: XY, words: str, above: float = 5.0) -> None:
        """Draw a dimension line with heads at both ends and its text above or below."""
        for tip, other in ((p, q), (q, p)):
            direction = math.degrees(math.atan2(other[1] - tip[1], tip[0] - other[0]))
            self.head(tip, direction, "solid", 7.0)
        self.line(p, q, "thin")
        x, y = between(p, q)
        self.text((x, y - above), words, "small")

    def label(self, words: str, at: XY, to: XY, anchor: str = "middle", style: str = "") -> None:
        """Write a label with a thin line to what it names."""
        self.line((at[0], at[1] - 4.0 if to[1] < at[1] else at[1] + 4.0), to, "thin")
        self.circle(to, 1.8, "solid")
        y = at[1] + 10.0 if to[1] < at[1] else at[1] - 1.0
        self.text((at[0], y), words, style, anchor)


class Chart:
    """A frame with two scales that curves are drawn in.

    Parameters
    ----------
    out : Drawing
        What to draw on.
    frame : (float, float, float, float)
        Left, top, right and bottom edge in the drawing.
    across, up : (float, float)
        Values at the ends of both scales.
    """

    def __init__(
        self, out: Drawing, frame: tuple[float, float, float, float], *, across: XY, up: XY
    ) -> None:
        self._out, self._frame, self._across, self._up = out, frame, across, up
        left, top, right, bottom = frame
        out.box(left, right, top, bottom, "thin")

    def at(self, x: float, y: float) -> XY:
        """Place of a pair of values in the drawing."""
        left, top, right, bottom = self._frame
        share = (x - self._across[0]) / (self._across[1] - self._across[0])
        rise = (y - self._up[0]) / (self._up[1] - self._up[0])
        return left + share * (right - left), bottom - rise * (bottom - top)

    def curve(self, xs: ArrayLike, ys: ArrayLike, style: str = "new") -> None:
        """Draw a line through pairs of values."""
        pairs = zip(np.ravel(xs), np.ravel(ys), strict=True)
        self._out.path([self.at(float(x), float(y)) for x, y in pairs], style)

    def point(self, x: float, y: float, style: str = "solid") -> None:
        """Mark a pair of values."""
        self._out.circle(self.at(x, y), 3.5, style)

    def ticks(self, xs: Sequence[float], ys: Sequence[float]) -> None:
        """Write values at both scales, with thin lines across."""
        left, _, _, bottom = self._frame
        for x in xs:
            place = self.at(x, self._up[0])
            self._out.line(place, self.at(x, self._up[1]), "grid")
            self._out.text((place[0], bottom + 16), _signed(x), "small")
        for y in ys:
            place = self.at(self._across[0], y)
            self._out.line(place, self.at(self._across[1], y), "grid")
            self._out.text((left - 6, place[1] + 4), _signed(y), "small", "end")

    def names(self, across: str, up: str) -> None:
        """Write what the scales show, with units."""
        left, top, right, bottom = self._frame
        self._out.text(((left + right) / 2.0, bottom + 34), across, "small")
        self._out.text((left, top - 8), up, "small", "start")


def _signed(value: float) -> str:
    """Write a number with a true minus sign."""
    return f"{value:g}".replace("-", "−")
