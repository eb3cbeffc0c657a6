"""What a drawing shows, read back from the shapes in its SVG."""

from __future__ import annotations

import math
import re
from typing import TypeAlias
from xml.etree import ElementTree as ET

import attrs
from shapely import LinearRing

__all__ = ["XY", "Drawn", "Ring"]

XY: TypeAlias = tuple[float, float]

_SVG = "{http://www.w3.org/2000/svg}"


@attrs.frozen
class Ring:
    """A splined end as it is drawn: where its teeth stand, clockwise from the maker's blank.

    Parameters
    ----------
    centre : (float, float)
        Of the ring.
    tip : float
        Radius over the teeth.
    standing : frozenset of int
        Places with a tooth, in [0, N).
    teeth : int
        Places of the whole circle.
    start : float
        Clockwise angle from the top to the maker's blank [rad].
    """

    centre: XY
    tip: float
    standing: frozenset[int]
    teeth: int
    start: float

    def place_of(self, at: XY) -> int:
        """Place in whose middle a point lies."""
        share = (_clockwise(self.centre, at) - self.start) / math.tau * self.teeth
        assert abs(share - round(share)) < 0.05, "it lies between two teeth"
        return round(share) % self.teeth


class Drawn:
    """An SVG document, parsed."""

    def __init__(self, svg: str) -> None:
        self.root = ET.fromstring(svg)  # noqa: S314 - made by the library under test
        self.texts = [
            ("".join(e.itertext()), (float(e.attrib["x"]), float(e.attrib["y"])), e)
            for e in self.root.iter(f"{_SVG}text")
        ]
        self.words = [words for words, _, _ in self.texts]

    def named(self, name: str) -> list[ET.Element]:
        """List the elements that are said to show something."""
        return [e for e in self.root.iter() if e.get("data-name") == name]

    def middles(self, name: str) -> list[XY]:
        """Middle of each shape that is said to show something."""
        return [_middle(e) for e in self.named(name)]

    def spans(self, name: str) -> list[XY]:
        """Left and right edge of each shape that is said to show something."""
        points = [points_of(e) for e in self.named(name)]
        return [(min(x for x, _ in one), max(x for x, _ in one)) for one in points]

    def rings(self, teeth: int) -> list[Ring]:
        """Read every splined end; each has the mark of what its teeth are counted from."""
        starts = [_middle(e) for e in self.root.iter() if e.get("data-name") in _STARTS]
        return [
            _ring(points_of(e), start, teeth)
            for e, start in zip(self.named("teeth"), starts, strict=True)
        ]


_STARTS = ("makers", "datum")


def points_of(element: ET.Element) -> list[XY]:
    """Corners of a path."""
    numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", element.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def _middle(element: ET.Element) -> XY:
    if element.tag == f"{_SVG}circle":
        return float(element.attrib["cx"]), float(element.attrib["cy"])
    return _mean(points_of(element))


def _mean(points: list[XY]) -> XY:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _clockwise(centre: XY, at: XY) -> float:
    """Clockwise angle from the top to a point."""
    return math.atan2(at[0] - centre[0], centre[1] - at[1])


def _ring(points: list[XY], makers: XY, teeth: int) -> Ring:
    """Find the teeth of an outline by how far its corners are from its middle.

    Every place has two corners at its foot and two at its tip, or at its root if it has no
    tooth; the feet of a whole circle lie around its centre.
    """
    assert len(points) == 4 * teeth
    assert LinearRing(points).is_simple, "the outline crosses itself"
    centre = _mean([p for n, p in enumerate(points) if n % 4 in (0, 3)])
    radii = [math.dist(p, centre) for p in points]
    tip, root = max(radii), min(radii)
    assert all(min(abs(r - tip), abs(r - root)) < 0.01 for r in radii)
    start = _clockwise(centre, makers)
    bare = Ring(centre, tip, frozenset(), teeth, start)
    high = [p for p, r in zip(points, radii, strict=True) if r > (tip + root) / 2.0]
    pairs = zip(high[::2], high[1::2], strict=True)
    standing = [bare.place_of(_mean([one, other])) for one, other in pairs]
    assert len(set(standing)) == len(standing)
    return attrs.evolve(bare, standing=frozenset(standing))
