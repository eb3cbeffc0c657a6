"""Whether a drawing can be read: what lies beside the paper, and on or across its words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree as ET

import attrs
from shapely import LineString, Point, Polygon, affinity, box, unary_union
from shapely.geometry.base import BaseGeometry

from drawn import Drawn, points_of

__all__ = ["Painted", "faults_of", "one_sided", "painted"]

_SVG = "{http://www.w3.org/2000/svg}"
_NOTHING = Polygon()
# An edge may lose so much of its line [mm].
_EDGE = 0.2
# Less of a line on letters is seen by nobody [mm²].
_TOUCHED = 0.05
# Shapes that differ by less are one [mm²].
_ALIKE = 0.05


@attrs.frozen(eq=False)
class Painted:
    """An element of a drawing as it lies on the paper.

    Parameters
    ----------
    name : str
        Its words, or what it is and where.
    ink : geometry
        Its line or letters.
    area : geometry
        What a closed shape goes around.
    hides : bool
        Whether it hides what was drawn before within that area.
    is_text : bool
        Whether it is words.
    """

    name: str
    ink: BaseGeometry
    area: BaseGeometry = _NOTHING
    hides: bool = False
    is_text: bool = False


def faults_of(drawn: Drawn) -> list[str]:
    """Tell what lies beside the paper, which words lie on others, and which lines cross words."""
    width, height = (float(n) for n in drawn.root.attrib["viewBox"].split()[2:])
    paper = box(-_EDGE, -_EDGE, width + _EDGE, height + _EDGE)
    found = painted(drawn)
    beside = [f"{one.name} leaves the paper" for one in found if not _lies_on(one, paper)]
    return [*beside, *_crossed_words(found)]


def _lies_on(one: Painted, paper: BaseGeometry) -> bool:
    return one.ink.is_empty or bool(paper.covers(one.ink))


def _crossed_words(found: list[Painted]) -> Iterator[str]:
    for place, text in enumerate(found):
        others = (
            []
            if not text.is_text
            else [
                (at, one)
                for at, one in enumerate(found)
                if (at > place or not one.is_text) and one is not text
            ]
        )
        for at, other in others:
            shared = other.ink.intersection(text.ink)
            if shared.area < _TOUCHED:
                continue
            later = unary_union([one.area for one in found[at + 1 :] if one.hides])
            if shared.difference(later).area >= _TOUCHED:
                yield f"{other.name} lies on {text.name}"


def one_sided(drawn: Drawn, *, axis: float) -> list[str]:
    """Name the parts that have no like part at the other side of a level axis."""
    parts = [
        one
        for one in painted(drawn)
        if one.hides and not one.ink.is_empty and not one.name.startswith("arrowhead")
    ]
    areas = [one.area for one in parts]
    mirrored = [affinity.scale(one, yfact=-1.0, origin=(0.0, axis)) for one in areas]
    return [
        one.name.partition(" at ")[0]
        for one, image in zip(parts, mirrored, strict=True)
        if not any(image.symmetric_difference(other).area < _ALIKE for other in areas)
    ]


def painted(drawn: Drawn) -> list[Painted]:
    """List all words and shapes of a drawing, as they were drawn one over the other."""
    kinds = {f"{_SVG}text": _words, f"{_SVG}path": _path, f"{_SVG}circle": _circle}
    return [kinds[one.tag](one) for one in drawn.root if one.tag in kinds]


def _path(element: ET.Element) -> Painted:
    points = points_of(element)
    is_closed = element.attrib["d"].endswith("Z")
    line = LineString([*points, points[0]] if is_closed else points)
    return _shape(element, line, Polygon(points).buffer(0.0) if is_closed else _NOTHING)


def _circle(element: ET.Element) -> Painted:
    centre = Point(float(element.attrib["cx"]), float(element.attrib["cy"]))
    area = centre.buffer(float(element.attrib["r"]))
    return _shape(element, area.boundary, area)


def _shape(element: ET.Element, line: BaseGeometry, area: BaseGeometry) -> Painted:
    fill, stroke = element.attrib["fill"], element.attrib["stroke"]
    ink = line.buffer(float(element.attrib["stroke-width"]) / 2.0)
    # White is no ink; black within a line is more of it.
    ink = _NOTHING if stroke == "#ffffff" else ink.union(area) if fill == stroke else ink
    what = element.get("data-name") or element.tag.removeprefix(_SVG)
    name = f"{what} at {line.centroid.x:.1f}, {line.centroid.y:.1f}"
    return Painted(name, ink, area, hides=fill != "none")


def _words(element: ET.Element) -> Painted:
    """Frame letters somewhat narrower and lower than a font has them: to touch is no fault."""
    words = "".join(element.itertext())
    x, y, size = (float(element.attrib[key]) for key in ("x", "y", "font-size"))
    width = 0.46 * size * len(words)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[element.attrib["text-anchor"]] * width
    frame = box(left, y - 0.66 * size, left + width, y)
    turned = re.match(r"rotate\((\S+)", element.get("transform", ""))
    if turned:
        frame = affinity.rotate(frame, float(turned[1]), origin=(x, y))
    return Painted(repr(words), frame, is_text=True)
