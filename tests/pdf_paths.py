"""What is drawn on a page of a PDF, in millimetres of paper, and how large its letters are."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import attrs
import pypdf
from pypdf.generic import ContentStream

__all__ = ["Path", "letter_sizes", "page_size", "paths_of"]

_MM = 25.4 / 72.0

Matrix = Sequence[float]
XY = tuple[float, float]


@attrs.frozen
class Path:
    """A connected line of a drawing.

    Parameters
    ----------
    points : tuple of (float, float)
        Ends of its pieces [mm], from the lower left corner of the page.
    arcs : int
        How many of its pieces are curves.
    """

    points: tuple[XY, ...]
    arcs: int

    @property
    def size(self) -> XY:
        """How wide and how high it is [mm]."""
        across, up = zip(*self.points, strict=True)
        return max(across) - min(across), max(up) - min(up)

    @property
    def middle(self) -> XY:
        """Middle of its width and height [mm]."""
        across, up = zip(*self.points, strict=True)
        return (max(across) + min(across)) / 2.0, (max(up) + min(up)) / 2.0

    @property
    def is_circle(self) -> bool:
        """Whether it is four quarters of a circle, drawn from one of its four extremes."""
        return self.arcs == len(self.points) - 1 == 4


def page_size(page: pypdf.PageObject) -> XY:
    """Width and height of a page [mm]."""
    scale = float(page.get("/UserUnit", 1.0)) * _MM
    return float(page.mediabox.width) * scale, float(page.mediabox.height) * scale


def paths_of(page: pypdf.PageObject) -> list[Path]:
    """All lines that are drawn on a page, in order."""
    scale = float(page.get("/UserUnit", 1.0)) * _MM
    return list(_paths(_operations(page, (scale, 0.0, 0.0, scale, 0.0, 0.0))))


def letter_sizes(page: pypdf.PageObject) -> set[float]:
    """Sizes of all letters on a page [points]."""
    found: set[float] = set()
    size, line = 0.0, _IDENTITY
    for operands, operator, now in _operations(page, _IDENTITY):
        if operator == b"Tf":
            size = float(operands[1])
        elif operator == b"Tm":
            line = [float(x) for x in operands]
        elif operator in (b"Tj", b"TJ"):
            _, _, across, up, _, _ = _after(line, now)
            found.add(round(size * math.hypot(across, up), 2))
    return found


_IDENTITY: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)


def _operations(
    page: pypdf.PageObject, now: Matrix
) -> Iterator[tuple[Sequence[Any], bytes, Matrix]]:
    """What draws on a page, each with the matrix in force there."""
    kept: list[Matrix] = []
    for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
        if operator == b"q":
            kept.append(now)
        elif operator == b"Q":
            now = kept.pop()
        elif operator == b"cm":
            now = _after([float(x) for x in operands], now)
        else:
            yield operands, operator, now


def _paths(operations: Iterable[tuple[Sequence[Any], bytes, Matrix]]) -> Iterator[Path]:
    points: list[XY] = []
    arcs = 0
    for operands, operator, now in operations:
        if operator in (b"m", b"l", b"c"):
            if operator == b"m" and points:
                yield Path(tuple(points), arcs)
            if operator == b"m":
                points, arcs = [], 0
            points.append(_at(float(operands[-2]), float(operands[-1]), now))
            arcs += operator == b"c"
        elif operator in (b"S", b"s", b"f", b"f*", b"B", b"B*", b"b", b"b*", b"n") and points:
            yield Path(tuple(points), arcs)
            points, arcs = [], 0


def _after(first: Matrix, then: Matrix) -> Matrix:
    """One matrix for two, in the order of PDF (ISO 32000-1, 8.3.4)."""
    a, b, c, d, e, f = first
    x, y = _at(e, f, then)
    (ax, ay), (cx, cy) = (
        (p * then[0] + q * then[2], p * then[1] + q * then[3]) for p, q in ((a, b), (c, d))
    )
    return ax, ay, cx, cy, x, y


def _at(x: float, y: float, matrix: Matrix) -> XY:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f
