"""The marking template: a page to print 1:1, with a disc for each bar end that is worked on."""

from __future__ import annotations

import enum
import math
import textwrap
from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.reindex.plan.plan import EndAction, ToothDatum
from barwright.analysis.reindex.plan.tooth_places import place_on_key
from barwright.parts.common.in_short import Summarised
from barwright.report.drawing.bar_end_view import (
    BarEndView,
    counted,
    datum_of,
    name_of,
    short_way,
    viewer,
)
from barwright.report.drawing.splined_end import Mark, SplinedEnd
from barwright.report.drawing.svg import (
    BODY,
    HAIR,
    PALE,
    TITLE,
    WHITE,
    XY,
    Drawing,
    polar,
)
from barwright.units import LENGTH, is_unknown, si

__all__ = ["Paper", "TemplateView", "template_svg", "template_views"]


class Paper(enum.Enum):
    """A size of paper."""

    A4 = "A4"
    LETTER = "Letter"


_SIZES: dict[Paper, XY] = {Paper.A4: (210.0, 297.0), Paper.LETTER: (215.9, 279.4)}


@attrs.frozen(kw_only=True, repr=False)
class TemplateView(Summarised):
    """A page of the marking template.

    Parameters
    ----------
    title : str
        What it is for: the job, or its vehicle.
    paper : Paper
        Size of the page.
    ends : tuple of BarEndView
        Bar ends that have a disc on it.
    page, pages : int
        Its number, from 1, and how many there are.
    """

    title: str
    paper: Paper
    ends: tuple[BarEndView, ...]
    page: int
    pages: int

    @property
    def missing(self) -> tuple[str, ...]:
        """Figures that the page lacks, each with the end that it belongs to."""
        return tuple(
            f"diameter of the nose, {name_of(view).lower()}"
            for view in self.ends
            if si(view.nose, LENGTH) and view.nose_diameter is None
        )

    @property
    def notes(self) -> tuple[str, ...]:
        """What is not drawn as it is, and what to do instead."""
        too_large = ", ".join(name_of(v) for v in self.ends if not _has_room(v, self.paper))
        found = []
        if too_large:
            found.append(f"A disc has no room on {self.paper.value} paper: {too_large}.")
        if self.missing:
            found.append(f"Not known: {'; '.join(self.missing)}. {_MEASURE_NOSE}")
        return tuple(found)


_MEASURE_NOSE = "Measure it, and cut out the first dashed circle that is larger."


def _has_room(view: BarEndView, paper: Paper) -> bool:
    width, height = _SIZES[paper]
    across, down = width - 2.0 * (_MARGIN + _BESIDE), height - _HEAD - _FOOT - _ABOVE - _BELOW
    return _diameter(view) <= min(across, down)


def template_views(
    ends: Iterable[BarEndView], *, title: str, paper: Paper = Paper.A4
) -> tuple[TemplateView, ...]:
    """Lay out the pages of the marking template for the bar ends of a job.

    Parameters
    ----------
    ends : iterable of BarEndView
        All ends; those on which no tooth is removed or marked are left out, and those
        whose diameters are not known.
    title : str
        What the template is for.
    paper : Paper
        Size of the pages.

    Returns
    -------
    tuple of TemplateView
        None where there is nothing to remove or to mark.
    """
    worked_on = [view for view in ends if _is_marked(view) and _is_measured(view)]
    pages = list(_paged(worked_on, paper))
    return tuple(
        TemplateView(title=title, paper=paper, ends=tuple(page), page=number, pages=len(pages))
        for number, page in enumerate(pages, start=1)
    )


def _is_marked(view: BarEndView) -> bool:
    """Whether a tooth of an end is removed, or marked because its socket has no key."""
    if view.work.action is EndAction.REMOVE_TOOTH:
        return True
    return view.work.action is EndAction.NO_KEY and view.work.direction is not None


def _is_measured(view: BarEndView) -> bool:
    """Whether a disc can be drawn to the size of an end."""
    return not any(map(is_unknown, (view.major_diameter, view.root_diameter, view.nose)))


# -- Layout ------------------------------------------------------------------------------

# Above the discs: title, instructions and control line; below them: what is not known [mm].
_MARGIN, _HEAD, _FOOT = 10.0, 64.0, 20.0
# Around a disc: labels beside it, its name above, its tab below [mm].
_BESIDE, _ABOVE, _BELOW = 23.0, 20.0, 38.0
# Room for the line that says from where an end is seen [mm].
_NARROWEST = 84.0


def _paged(ends: Sequence[BarEndView], paper: Paper) -> Iterator[Sequence[BarEndView]]:
    """Part ends into pages, as many on each as have room."""
    across, down = _room(ends, paper)
    for first in range(0, len(ends), across * down):
        yield ends[first : first + across * down]


def _room(ends: Sequence[BarEndView], paper: Paper) -> tuple[int, int]:
    """How many discs stand beside and below each other; the largest sets it."""
    width, height = _SIZES[paper]
    widest = max(map(_diameter, ends), default=0.0)
    across = int((width - 2.0 * _MARGIN) / max(_NARROWEST, widest + 2.0 * _BESIDE))
    down = int((height - _HEAD - _FOOT) / (widest + _ABOVE + _BELOW))
    return max(1, across), max(1, down)


def _diameter(view: BarEndView) -> float:
    return si(view.major_diameter, LENGTH) * 1000.0


# -- The page ----------------------------------------------------------------------------


def template_svg(view: TemplateView) -> str:
    """Draw a page of the marking template, in millimetres of paper.

    Parameters
    ----------
    view : TemplateView
        The page.

    Returns
    -------
    str
        An SVG document of the size of the paper.
    """
    size = _SIZES[view.paper]
    out = Drawing(size, title=f"Marking template: {view.title}", description=_described(view))
    _draw_head(out, view)
    across, down = _room(view.ends, view.paper)
    wide = (size[0] - 2.0 * _MARGIN) / across
    high = (size[1] - _HEAD - _FOOT) / down
    for index, end in enumerate(view.ends):
        left, top = _MARGIN + index % across * wide, _HEAD + index // across * high
        if _has_room(end, view.paper):
            _draw_disc(out, end, (left + wide / 2.0, top + _ABOVE + _diameter(end) / 2.0))
    lines = [line for words in view.notes for line in textwrap.wrap(words, _LETTERS)]
    out.lines((_MARGIN, size[1] - _FOOT + 2.0), lines, anchor="start")
    return str(out)


# Letters of a line over the whole page.
_LETTERS = 112


def _draw_head(out: Drawing, view: TemplateView) -> None:
    """Write what the page is, how to use it, and the lines that show whether it is true."""
    width = _SIZES[view.paper][0]
    number = f", page {view.page} of {view.pages}" if view.pages > 1 else ""
    out.text((_MARGIN, 14.0), f"Marking template{number}", size=5.5, anchor="start", bold=True)
    title = textwrap.shorten(view.title, _LETTERS - 20, placeholder=" …")
    out.text((_MARGIN, 20.0), title, size=BODY, anchor="start")
    out.lines((_MARGIN, 26.5), _instructions(view), size=BODY, anchor="start")
    middle = width / 2.0
    _draw_control_line(out, (middle - 50.0, 56.0), (middle + 50.0, 56.0))
    out.text((middle, 54.0), "this line must measure 100 mm", bold=True)
    _draw_control_line(out, (5.5, 110.0), (5.5, 210.0))
    out.text((8.9, 160.0), "this line must measure 100 mm", bold=True, turned=-90.0)


def _instructions(view: TemplateView) -> tuple[str, ...]:
    """Say how the page is used."""
    has_blanks = all(end.work.tooth_datum is ToothDatum.BLANK for end in view.ends)
    on = "its gap on the maker's blank" if has_blanks else "on the blank or tooth that it names"
    return (*_CUT_OUT, f"3. Lay it on the end face of the bar, print toward you, {on}.", _CHECK)


_CUT_OUT = (
    "1. Print at 100 %; do not fit to the page. Both control lines must measure 100 mm.",
    "2. Cut out each disc with its tab along the outer line, and the hole if it has one.",
)
_CHECK = (
    "4. Check that every tooth lines up. Then mark the black tooth with paint, and count again."
)


def _draw_control_line(out: Drawing, p: XY, q: XY) -> None:
    """Draw a line with a cross line at either end."""
    out.line(p, q, name="control-line")
    across = (1.8, 0.0) if p[0] == q[0] else (0.0, 1.8)
    for x, y in (p, q):
        out.line((x - across[0], y - across[1]), (x + across[0], y + across[1]))


# -- A disc ------------------------------------------------------------------------------


def _draw_disc(out: Drawing, view: BarEndView, centre: XY) -> None:
    """Draw the disc of an end, turned so that its marks lie above and its tab below."""
    place = short_way(place_on_key(view.work), teeth=view.teeth)
    radius = _diameter(view) / 2.0
    end = SplinedEnd(
        centre=centre,
        tip=radius,
        root=si(view.root_diameter, LENGTH) * 500.0,
        teeth=view.teeth,
        top=place / 2.0,
    )
    top = centre[1] - radius
    out.text((centre[0], top - 14.5), name_of(view), size=TITLE, bold=True)
    out.text((centre[0], top - 10.3), viewer(view.work))
    out.text((centre[0], top - 6.5), counted(view.work))
    _draw_tab(out, view, end)
    out.circle(centre, radius, fill=PALE, width=HAIR, name="disc")
    end.outline(out, gaps=view.missing_teeth)
    if view.nose_diameter is not None:
        out.circle(centre, si(view.nose_diameter, LENGTH) * 500.0, name="hole")
    elif si(view.nose, LENGTH):
        _draw_nose(out, end)
    _draw_marks(out, view, end, place)


def _draw_tab(out: Drawing, view: BarEndView, end: SplinedEnd) -> None:
    """Draw a tab to hold the disc by, with the names of its corner and its end."""
    (x, y), half = end.centre, min(_TAB_HALF, 0.8 * end.tip)
    start, stop = y + math.sqrt(end.tip**2 - half**2), y + end.tip + _TAB
    out.path(
        [(x - half, start), (x - half, stop), (x + half, stop), (x + half, start)],
        name="tab",
    )
    middle = (y + end.tip + stop) / 2.0
    words = (view.corner.upper(), view.work.end.value, "print toward you")
    for line, across in zip(words, (-3.2, 0.7, 4.6), strict=True):
        out.text((x + across, middle), line, bold=line.isupper(), turned=-90.0)


_TAB, _TAB_HALF = 32.0, 6.5


def _draw_nose(out: Drawing, end: SplinedEnd) -> None:
    """Draw circles to choose the hole for a nose from, whose diameter is not known."""
    diameters = [d for d in range(10, 200, 5) if d / 2.0 < end.root - 3.0]
    for diameter in diameters:
        out.circle(end.centre, diameter / 2.0, width=HAIR, dash="1 0.7", name="nose")
    for index, diameter in enumerate(diameters):
        x, y = polar(end.centre, radius=diameter / 2.0, angle=3.4 + 0.9 * index)
        out.box((x - 2.0, y - 1.4), (x + 2.0, y + 1.4), fill=WHITE, width=HAIR)
        out.text((x, y + 1.0), str(diameter))
    for dx, dy in ((2.0, 0.0), (0.0, 2.0)):
        x, y = end.centre
        out.line((x - dx, y - dy), (x + dx, y + dy), width=HAIR)


def _draw_marks(out: Drawing, view: BarEndView, end: SplinedEnd, place: int) -> None:
    """Mark the tooth and what it is counted from, each named at its own side of the disc."""
    mark = Mark.CUT if view.work.action is EndAction.REMOVE_TOOTH else Mark.PAINT
    end.black_tooth(out, place, name="tooth")
    mark.draw(out, end.at(place, radius=end.root - 3.8), name=mark.name.lower())
    word = "REMOVE" if mark is Mark.CUT else "MARK"
    side = 1.0 if place > 0 else -1.0
    named = f"tooth {view.work.tooth}" if place else "this tooth"
    labels: list[tuple[int, float, Sequence[str]]] = [(place, side, (word, named))]
    if place:
        start = Mark.MAKERS if view.work.tooth_datum is ToothDatum.BLANK else Mark.DATUM
        start.draw(out, end.at(0, radius=end.root - 1.3), name=start.name.lower())
        labels.append((0, -side, datum_of(view.work).split(" ")[1:]))
    for at, turn, lines in labels:
        x = end.centre[0] + turn * (end.tip + 6.0)
        y = end.at(at, radius=end.tip)[1] - 2.0
        out.line(end.at(at, radius=end.tip + 0.6), (x - turn * 0.8, y - 1.0), width=HAIR)
        anchor = "start" if turn > 0 else "end"
        for line, words in enumerate(lines):
            out.text((x, y + 3.6 * line), words, anchor=anchor, bold=words.isupper())


def _described(view: TemplateView) -> str:
    """Say what the page shows, for who cannot see it."""
    ends = [f"{name_of(end)}, {viewer(end.work)}: {counted(end.work)}." for end in view.ends]
    return " ".join(["A disc of true size for each bar end that is worked on.", *ends, *view.notes])
