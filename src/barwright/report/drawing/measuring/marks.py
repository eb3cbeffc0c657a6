"""Letters on a drawing, each with a line to where its figure is taken."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import attrs

from barwright.report.drawing.svg import BODY, GREY, HAIR, INK, SMALL, WHITE, XY, Drawing, polar

__all__ = ["Mark", "Scheme", "angle", "centre_line", "length", "scheme_svg", "spot", "wheelwise"]


@attrs.frozen(kw_only=True)
class Mark:
    """Where a figure is taken, and its letter.

    Parameters
    ----------
    at : (float, float)
        Middle of the letter.
    way : tuple of (float, float)
        What is measured, from end to end; a single point for what stands there.
    lead : (float, float)
        Where the line from the letter ends.
    edges : tuple of ((float, float), (float, float))
        Thin lines that lead from a part to the ends of what is measured.
    """

    at: XY
    way: tuple[XY, ...]
    lead: XY
    edges: tuple[tuple[XY, XY], ...] = ()


@attrs.frozen(kw_only=True)
class Scheme:
    """A drawing, not to scale, that shows where figures are taken.

    Parameters
    ----------
    title : str
        What it shows.
    description : str
        The same as a text, for people who cannot see it.
    size : (float, float)
        Width and height [mm].
    sixths : int
        How many sixths of a page it is wide.
    shows : tuple of str
        Figures, one of which every corner has that looks like this.
    marks : mapping of str to Mark
        By the fields of a setup that lead to the figure.
    draw : callable
        Draws the parts.
    """

    title: str
    description: str
    size: XY
    sixths: int
    shows: tuple[str, ...]
    marks: Mapping[str, Mark]
    draw: Callable[[Drawing], None]


def scheme_svg(scheme: Scheme, letters: Mapping[str, str], *, number: int) -> str:
    """Draw a scheme with the letters of the figures that are asked for.

    Parameters
    ----------
    scheme : Scheme
        The drawing.
    letters : mapping of str to str
        Letter of each figure; those of other drawings are passed over.
    number : int
        Number of the drawing.

    Returns
    -------
    str
        An SVG document.
    """
    marked = {letters[figure]: mark for figure, mark in scheme.marks.items() if figure in letters}
    title = f"Drawing {number}: {scheme.title}"
    out = Drawing(scheme.size, title=title, description=_described(scheme, list(marked)))
    out.text((scheme.size[0] / 2, 4.6), title, size=BODY + 0.3, bold=True)
    out.text((scheme.size[0] / 2, 8.4), "not to scale")
    scheme.draw(out)
    for mark in marked.values():
        _draw_line(out, mark)
    # Letters come last, so that no line crosses one.
    for letter, mark in marked.items():
        out.circle(mark.at, _RADIUS, fill=WHITE, width=HAIR, name="letter")
        size = BODY if len(letter) == 1 else SMALL
        out.text((mark.at[0], mark.at[1] + 0.35 * size), letter, size=size, bold=True)
    return str(out)


_RADIUS = 2.35


def _described(scheme: Scheme, letters: list[str]) -> str:
    return f"{scheme.description} Not to scale. Letters on it: {', '.join(sorted(letters))}."


def _draw_line(out: Drawing, mark: Mark) -> None:
    for p, q in mark.edges:
        out.line(p, q, width=HAIR, ink=GREY)
    if mark.at != mark.lead:
        out.line(mark.at, mark.lead, width=HAIR)
    if len(mark.way) == 1:
        out.circle(mark.way[0], 0.55, fill=INK, width=HAIR)
        return
    out.path(mark.way, width=HAIR, name="measured")
    for tip, before in ((mark.way[0], mark.way[1]), (mark.way[-1], mark.way[-2])):
        head = min(1.8, math.dist(mark.way[0], mark.way[-1]) / 2.5)
        out.head(tip, math.atan2(before[1] - tip[1], tip[0] - before[0]), size=head)


# -- Kinds of mark -----------------------------------------------------------------------


def length(
    p: XY, q: XY, *, at: XY | None = None, of: tuple[XY, ...] = (), share: float = 0.5
) -> Mark:
    """Mark a straight length.

    Parameters
    ----------
    p, q : (float, float)
        Its ends.
    at : (float, float), optional
        Middle of the letter; on the line if left out.
    of : tuple of (float, float)
        Points of the part that its ends belong to, in the same order.
    share : float
        Where on the line the letter stands, or its own line begins.

    Returns
    -------
    Mark
    """
    middle = p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])
    return Mark(
        at=at or middle, way=(p, q), lead=middle, edges=tuple(zip(of, (p, q), strict=False))
    )


def spot(at: XY, point: XY) -> Mark:
    """Mark a place: a count, a diameter or what a data sheet says of a part.

    Parameters
    ----------
    at : (float, float)
        Middle of the letter.
    point : (float, float)
        The place.

    Returns
    -------
    Mark
    """
    return Mark(at=at, way=(point,), lead=point)


def angle(
    centre: XY,
    radius: float,
    *,
    start: float,
    end: float,
    at: XY | None = None,
    share: float = 0.5,
) -> Mark:
    """Mark an angle.

    Parameters
    ----------
    centre : (float, float)
        Its vertex.
    radius : float
        Of its arc [mm].
    start, end : float
        From where to where, counter-clockwise from the right [turns].
    at : (float, float), optional
        Middle of the letter; on the arc if left out.
    share : float
        Where on the arc the letter stands, or its own line begins.

    Returns
    -------
    Mark
    """
    steps = max(3, math.ceil(abs(end - start) * 72.0))
    turned = [math.tau * (start + (end - start) * n / steps) for n in range(steps + 1)]
    arc = tuple(polar(centre, radius=radius, angle=one) for one in turned)
    middle = polar(centre, radius=radius, angle=math.tau * (start + share * (end - start)))
    return Mark(at=at or middle, way=arc, lead=middle)


# -- Parts that several drawings show ----------------------------------------------------


def centre_line(out: Drawing, p: XY, q: XY) -> None:
    """Draw a centreline."""
    out.path([p, q], dash="2.4 0.7 0.5 0.7", width=HAIR)


def wheelwise(out: Drawing, at: XY) -> None:
    """Say on which side the wheel is."""
    out.text(at, "to the wheel", anchor="end")
    out.arrow((at[0] + 0.8, at[1] - 1.0), (at[0] + 5.5, at[1] - 1.0))
