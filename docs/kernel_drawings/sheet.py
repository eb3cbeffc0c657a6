"""What the figures of several kernels share: where charts stand, scales, small drawings."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import ArrayLike

from svg import XY, Chart, Drawing, between, polar

Frame: TypeAlias = tuple[float, float, float, float]
"""Left, top, right and bottom edge of a chart in its drawing."""

Figures: TypeAlias = dict[str, Callable[[], Drawing]]
"""What draws the figure of each kernel, by the kernel's name."""

LEFT: Frame = (70.0, 34.0, 360.0, 244.0)
RIGHT: Frame = (440.0, 34.0, 730.0, 244.0)
WIDE: Frame = (70.0, 34.0, 730.0, 264.0)

_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@attrs.frozen
class Plane:
    """A plane of a part, outboard and up in metres, placed in a drawing.

    Parameters
    ----------
    origin : (float, float)
        Where its origin is drawn.
    scale : float
        Pixels for a metre.
    """

    origin: XY
    scale: float

    def at(self, outboard: object, up: object) -> XY:
        """Place of a point in the drawing."""
        across, above = float(np.asarray(outboard)), float(np.asarray(up))
        return self.origin[0] + self.scale * across, self.origin[1] - self.scale * above


@attrs.frozen
class Space:
    """The vehicle axes of ISO 8855 (x forward, y left, z up), seen from a direction.

    Parameters
    ----------
    origin : (float, float)
        Where their origin is drawn.
    scale : float
        Pixels for a metre.
    azimuth, elevation : float
        Whence they are seen [deg]: round the vertical from straight ahead toward the
        left, and above the horizontal.
    """

    origin: XY
    scale: float
    azimuth: float = 35.0
    elevation: float = 24.0

    def at(self, point: Iterable[float]) -> XY:
        """Place of a point in the drawing."""
        x, y, z = (float(one) for one in point)
        turn, rise = math.radians(self.azimuth), math.radians(self.elevation)
        across = y * math.cos(turn) - x * math.sin(turn)
        nearer = x * math.cos(turn) + y * math.sin(turn)
        above = z * math.cos(rise) - nearer * math.sin(rise)
        return self.origin[0] + self.scale * across, self.origin[1] - self.scale * above

    def axes(self, out: Drawing, length: float) -> None:
        """Draw the three axes with their names."""
        for name, end in (("x", (1, 0, 0)), ("y", (0, 1, 0)), ("z", (0, 0, 1))):
            tip = self.at(length * one for one in end)
            out.arrow(self.at((0.0, 0.0, 0.0)), tip, "thin", "grey")
            out.text(beyond(self.at((0.0, 0.0, 0.0)), tip, 11.0, drop=4.0), name, "small")


def beyond(start: XY, tip: XY, by: float, drop: float = 0.0) -> XY:
    """Point so far beyond the end of a line, where a text is set lower by its half height."""
    x, y = between(start, tip, 1.0 + by / max(math.dist(start, tip), 1.0))
    return x, y + drop


def legend(out: Drawing, at: XY, entries: Iterable[tuple[str, str]], step: float = 18.0) -> None:
    """Say what lines of several styles show, one below the other."""
    for index, (style, words) in enumerate(entries):
        y = at[1] + index * step
        out.line((at[0], y), (at[0] + 24.0, y), style)
        out.text((at[0] + 30.0, y + 4.0), words, "small", "start")


def power_of_ten(exponent: int) -> str:
    """Write a power of ten."""
    return f"10{str(exponent).translate(_RAISED)}"


def decades(out: Drawing, chart: Chart, frame: Frame, exponents: Sequence[int]) -> None:
    """Write powers of ten below a scale that shows logarithms, with thin lines up."""
    for exponent in exponents:
        x, _ = chart.at(float(exponent), 0.0)
        out.line((x, frame[3]), (x, frame[1]), "grid")
        out.text((x, frame[3] + 16.0), power_of_ten(exponent), "small")


def area(out: Drawing, corners: Iterable[XY], style: str = "tube pale") -> None:
    """Fill a shape."""
    out.path(corners, style, closed=True)


def ring(centre: XY, radius: float, span: XY) -> list[XY]:
    """Points of an arc from one angle to another (degrees)."""
    steps = max(2, math.ceil(abs(span[1] - span[0]) / 2.0))
    return [
        polar(centre, radius, span[0] + (span[1] - span[0]) * i / steps) for i in range(steps + 1)
    ]


def coil(p: XY, q: XY, *, turns: int = 6, width: float = 9.0) -> list[XY]:
    """Points of a coil spring between two points."""
    long = math.dist(p, q)
    along = ((q[0] - p[0]) / long, (q[1] - p[1]) / long)
    shares = [
        0.0,
        0.12,
        *(0.12 + 0.76 * (i + 0.5) / (2 * turns) for i in range(2 * turns)),
        0.88,
        1.0,
    ]
    sides = [0.0, 0.0, *(width * (-1) ** i for i in range(2 * turns)), 0.0, 0.0]
    return [
        (
            p[0] + along[0] * long * s - along[1] * aside,
            p[1] + along[1] * long * s + along[0] * aside,
        )
        for s, aside in zip(shares, sides, strict=True)
    ]


def curve_up_to(chart: Chart, top: float, xs: ArrayLike, ys: ArrayLike, style: str = "new") -> None:
    """Draw a curve as far as it stays in the chart."""
    across, up = np.ravel(np.asarray(xs)), np.ravel(np.asarray(ys))
    chart.curve(across[up <= top], up[up <= top], style)


def ground(out: Drawing, left: float, right: float, y: float) -> None:
    """Draw the road or a part of the chassis: a line with strokes below it."""
    out.line((left, y), (right, y))
    for x in np.arange(left + 6.0, right, 12.0):
        out.line((float(x), y), (float(x) - 6.0, y + 7.0), "thin")


def signed(value: float, digits: int = 0) -> str:
    """Write a number with its sign, and a true minus."""
    return f"{value:+.{digits}f}".replace("-", "−")
