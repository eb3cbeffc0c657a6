"""The frame of a curve: from two figures to a place on paper, with round values at its edges."""

from __future__ import annotations

import math
from collections.abc import Callable

import attrs

from barwright.report.drawing.svg import (
    BOLD,
    HAIR,
    INK,
    PALE,
    SMALL,
    WHITE,
    XY,
    Drawing,
    polar,
    text_width,
)

__all__ = ["Frame", "ring", "round_ticks", "square", "tick", "triangle"]


@attrs.frozen(kw_only=True)
class Frame:
    """From two figures to a place on paper.

    Parameters
    ----------
    across, up : (float, float)
        The figures at its left and right edge, and at its lower and upper edge; the first may
        be the greater.
    low, high : (float, float)
        Its lower left and its upper right corner on paper [mm].
    """

    across: XY
    up: XY
    low: XY
    high: XY

    def at(self, pair: XY) -> XY:
        """Place of two figures."""
        return self.x(pair[0]), self.y(pair[1])

    def x(self, figure: float) -> float:
        """How far to the right a figure lies."""
        return _placed(figure, self.across, (self.low[0], self.high[0]))

    def y(self, figure: float) -> float:
        """How far down a figure lies."""
        return _placed(figure, self.up, (self.low[1], self.high[1]))

    def draw(self, out: Drawing) -> None:
        """Draw it, with a line and a number at round figures."""
        (left, bottom), (right, top) = self.low, self.high
        for figure in _apart(_ticks(self.up), self.y, least=1.2 * SMALL):
            y = self.y(figure)
            out.line((left, y), (right, y), width=HAIR, ink=PALE)
            out.text((left - 1.0, y + 1.0), tick(figure), anchor="end")
        places = _ticks(self.across)
        widest = max(text_width(tick(figure), SMALL) for figure in places)
        for figure in _apart(places, self.x, least=widest):
            x = self.x(figure)
            out.line((x, top), (x, bottom), width=HAIR, ink=PALE)
            out.text((x, bottom + 4.0), tick(figure))
        out.box((left, top), (right, bottom))


def _ticks(limits: XY) -> list[float]:
    return round_ticks(low=min(limits), high=max(limits))


def _apart(ticks: list[float], placed: Callable[[float], float], *, least: float) -> list[float]:
    """Leave every second one out where their numbers would not be so far apart [mm]."""
    is_dense = abs(placed(ticks[1]) - placed(ticks[0])) < least
    return ticks[::2] if is_dense else ticks


def _placed(figure: float, figures: XY, places: XY) -> float:
    share = (figure - figures[0]) / (figures[1] - figures[0])
    return places[0] + share * (places[1] - places[0])


def tick(value: float) -> str:
    """Write a round figure."""
    return f"{value:g}".replace("-", "−")


def round_ticks(*, low: float, high: float) -> list[float]:
    """Choose three to eight round numbers within limits.

    Parameters
    ----------
    low, high : float
        The limits, the lower one first.

    Returns
    -------
    list of float
    """
    # The step is 1 to 2.5 times this, so that the limits are 3 to 7.5 steps apart.
    raw = (high - low) / 7.5
    base = 10.0 ** math.floor(math.log10(raw))
    step = next(m * base for m in (1.0, 2.0, 5.0, 10.0) if m * base >= raw)
    first, last = math.ceil(low / step), math.floor(high / step)
    return [n * step for n in range(first, last + 1)]


# -- Marks -------------------------------------------------------------------------------


def square(out: Drawing, at: XY, name: str) -> None:
    """Mark a place with a black square."""
    out.box((at[0] - 1.2, at[1] - 1.2), (at[0] + 1.2, at[1] + 1.2), fill=INK, name=name)


def ring(out: Drawing, at: XY, name: str) -> None:
    """Mark a place with a ring."""
    out.circle(at, 1.4, fill=WHITE, width=BOLD, name=name)


def triangle(out: Drawing, at: XY, name: str) -> None:
    """Mark a place with a triangle that stands on its point."""
    points = [polar(at, radius=1.7, angle=math.tau * (n / 3.0 - 0.25)) for n in range(3)]
    out.path(points, closed=True, fill=WHITE, width=BOLD, name=name)
