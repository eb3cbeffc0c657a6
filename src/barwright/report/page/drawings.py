"""Which drawings stand on the page of a bench sheet, in which order and how wide."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any, TypeVar

import attrs

from barwright.errors import NeedsError
from barwright.parts.chassis import BarEndName
from barwright.report.drawing import template
from barwright.report.drawing.adjuster import adjuster_svg
from barwright.report.drawing.bar_axis import bar_axis_svg
from barwright.report.drawing.bar_axis_view import BarAxisView
from barwright.report.drawing.bar_end import bar_end_svg, is_narrow
from barwright.report.drawing.bar_end_view import BarEndView
from barwright.report.drawing.load_curve import load_curve_svg, load_curve_view
from barwright.report.drawing.nut_curve import NutCurveView, nut_curve_svg, nut_curve_view
from barwright.report.drawing.svg import title_and_description
from barwright.report.drawing.template import template_svg, template_views
from barwright.report.page.content import PageDrawing
from barwright.report.page.paper import Paper
from barwright.report.sheet.corner_names import names_of
from barwright.report.sheet.sheet import BenchSheet, CornerSheet

__all__ = ["page_drawings", "template_drawings", "thread_curves"]

D = TypeVar("D")
V = TypeVar("V", BarAxisView, NutCurveView)


def page_drawings(sheet: BenchSheet) -> Iterator[PageDrawing]:
    """Draw what stands on a page: left and right beside each other, one bar for those alike.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.

    Yields
    ------
    PageDrawing
        None of a corner that has no plan.
    """
    drawn = [corner.views for corner in sheet.corners if corner.views]
    adjusters = [views.adjuster for views in drawn if views.adjuster]
    for adjuster in adjusters:
        yield from _drawn(adjuster_svg, adjuster, is_beside=True)
    for end in sorted((end for views in drawn for end in views.bar_ends), key=_place_of):
        yield from _drawn(bar_end_svg, end, width=1 if is_narrow(end) else 2)
    for bar in _alike(views.bar_axis for views in drawn):
        yield from _drawn(bar_axis_svg, bar, width=4)
    for corner in _first_of_each_axle(sheet.corners):
        curve = load_curve_view(corner.rates, corner=corner.corner)
        if curve:
            yield _drawing(load_curve_svg(curve), is_beside=not adjusters)


def thread_curves(sheet: BenchSheet) -> Iterator[PageDrawing]:
    """Draw the curve over each corner's thread, one for corners that are alike.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.

    Yields
    ------
    PageDrawing
        None of a corner that has nothing to turn.
    """
    views = [
        view
        for corner in sheet.corners
        if corner.nut_table and (view := nut_curve_view(corner.nut_table, corner=corner.corner))
    ]
    for view in _alike(views):
        yield _drawing(nut_curve_svg(view), width=3)


def template_drawings(sheet: BenchSheet, paper: Paper) -> Iterator[PageDrawing]:
    """Draw the pages of the marking template.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    paper : {"a4", "letter"}
        Size of the pages.

    Yields
    ------
    PageDrawing
        None where no tooth is removed or marked.
    """
    ends = [end for corner in sheet.corners if corner.views for end in corner.views.bar_ends]
    for view in template_views(ends, title=sheet.title, paper=_SIZES[paper]):
        yield _drawing(template_svg(view))


_SIZES: dict[Paper, template.Paper] = {"a4": template.Paper.A4, "letter": template.Paper.LETTER}


def _place_of(end: BarEndView) -> int:
    return list(BarEndName).index(end.work.end)


def _alike(views: Iterable[V]) -> Iterator[V]:
    """Join the names of corners of which the same is drawn."""
    found: list[tuple[V, list[str]]] = []
    for view in views:
        nameless = attrs.evolve(view, corner="")
        for other, corners in found:
            if other == nameless:
                corners.append(view.corner)
                break
        else:
            found.append((nameless, [view.corner]))
    for view, corners in found:
        yield attrs.evolve(view, corner=names_of(corners))


def _first_of_each_axle(corners: Iterable[CornerSheet]) -> Iterable[CornerSheet]:
    axles: dict[str, CornerSheet] = {}
    for corner in corners:
        if corner.views:
            axles.setdefault(corner.corner.split()[0], corner)
    return axles.values()


def _drawn(draw: Callable[[D], str], view: D, **place: Any) -> Iterator[PageDrawing]:  # noqa: ANN401
    """Draw a view; nothing where it shows a figure that is not known."""
    try:
        svg = draw(view)
    except NeedsError:
        return
    yield _drawing(svg, **place)


def _drawing(svg: str, *, width: int = 2, is_beside: bool = False) -> PageDrawing:
    title, description = title_and_description(svg)
    return PageDrawing(title=title, alt=description, svg=svg, width=width, is_beside=is_beside)
