"""A splined end seen onto its face: teeth, gaps, and the marks at its places.

A place is counted clockwise from the maker's blank, or from the tooth that is its datum.
"""

from __future__ import annotations

import enum
import math
from collections.abc import Collection

import attrs

from barwright.report.drawing.svg import BOLD, INK, WHITE, XY, Drawing, polar

__all__ = ["Mark", "SplinedEnd"]

# Half widths of an involute tooth with flanks of 30°, at its tip and at its foot, in pitches.
_TIP, _FOOT = 0.16, 0.36


@attrs.frozen(kw_only=True)
class SplinedEnd:
    """A splined end in a drawing.

    Parameters
    ----------
    centre : (float, float)
        Where its axis is [mm].
    tip, root : float
        Radii over the teeth and of their roots [mm].
    teeth : int
        Tooth count of the whole circle.
    top : float
        Place that is drawn at the top.
    """

    centre: XY
    tip: float
    root: float
    teeth: int
    top: float = 0.0

    def angle(self, place: float) -> float:
        """Direction of a place on paper [rad], counter-clockwise from the right."""
        return math.tau * (0.25 - (place - self.top) / self.teeth)

    def at(self, place: float, *, radius: float) -> XY:
        """Return the point of a place at a radius."""
        return polar(self.centre, radius=radius, angle=self.angle(place))

    @property
    def tip_top(self) -> float:
        """Where the topmost tooth ends."""
        return self.centre[1] - self.tip

    def outline(self, out: Drawing, *, gaps: Collection[int]) -> None:
        """Draw the outline of all teeth but those that are missing."""
        missing = {gap % self.teeth for gap in gaps}
        points = [
            point
            for place in range(self.teeth)
            for point in self._corners(place, self.root if place in missing else self.tip)
        ]
        out.path(points, closed=True, fill=WHITE, name="teeth")

    def black_tooth(self, out: Drawing, place: int, *, name: str) -> None:
        """Fill a tooth."""
        out.path(self._corners(place, self.tip), closed=True, fill=INK, name=name)

    def _corners(self, place: int, tip: float) -> list[XY]:
        ring = ((-_FOOT, self.root), (-_TIP, tip), (_TIP, tip), (_FOOT, self.root))
        return [self.at(place + shift, radius=radius) for shift, radius in ring]


class Mark(enum.Enum):
    """What stands at a place; each has a shape of its own."""

    MAKERS = "maker's blank"
    DATUM = "tooth to count from"
    EARLIER = "blank cut earlier"
    CUT = "tooth to remove"
    PAINT = "tooth to mark"
    KEY_BEFORE = "key now"
    KEY_AFTER = "key after"
    NO_KEY = "where a key would be"

    def draw(self, out: Drawing, at: XY, *, angle: float = -math.pi / 2.0, name: str = "") -> None:
        """Draw its shape around a point; a key points in a direction."""
        if self in _KEYS:
            fill, dash = _KEYS[self]
            out.path(_wedge(at, angle), closed=True, fill=fill, dash=dash, name=name)
        else:
            _SHAPES[self](out, at, name)


def _wedge(at: XY, angle: float) -> list[XY]:
    """Corners of a short bar with a point in a direction."""
    point, back = (polar(at, radius=1.5, angle=a) for a in (angle, angle + math.pi))
    left, right = (polar(back, radius=1.1, angle=angle + s) for s in (math.pi / 2, -math.pi / 2))
    ahead = [polar(corner, radius=1.5, angle=angle) for corner in (left, right)]
    return [point, ahead[0], left, right, ahead[1]]


def _ring(out: Drawing, at: XY, name: str) -> None:
    out.circle(at, 1.0, fill=WHITE, name=name)


def _diamond(out: Drawing, at: XY, name: str) -> None:
    points = [polar(at, radius=1.2, angle=math.tau * n / 4.0) for n in range(4)]
    out.path(points, closed=True, fill=WHITE, name=name)


def _cross(out: Drawing, at: XY, name: str) -> None:
    out.circle(at, 1.5, fill=WHITE, name=name)
    corners = [polar(at, radius=1.5, angle=math.tau * (n + 0.5) / 4.0) for n in range(4)]
    out.line(corners[0], corners[2], width=BOLD)
    out.line(corners[1], corners[3], width=BOLD)


def _square(out: Drawing, at: XY, name: str) -> None:
    out.box((at[0] - 1.0, at[1] - 1.0), (at[0] + 1.0, at[1] + 1.0), fill=WHITE, name=name)


def _dot(out: Drawing, at: XY, name: str) -> None:
    out.circle(at, 1.1, fill=INK, name=name)


_SHAPES = {
    Mark.MAKERS: _ring,
    Mark.DATUM: _square,
    Mark.EARLIER: _diamond,
    Mark.CUT: _cross,
    Mark.PAINT: _dot,
}
# Fill and dashes of a wedge.
_KEYS = {
    Mark.KEY_BEFORE: (WHITE, ""),
    Mark.KEY_AFTER: (INK, ""),
    Mark.NO_KEY: (WHITE, "0.5 0.4"),
}
