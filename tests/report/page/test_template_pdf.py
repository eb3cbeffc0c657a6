"""The marking template as it is printed: its disc is measured on the page of the PDF itself."""

from __future__ import annotations

import io
import math

import attrs
import pypdf
import pytest

import barwright as bw
from barwright.answers import BarEndView
from barwright.report.drawing import template
from barwright.report.drawing.template import template_svg, template_views
from barwright.report.page.content import page_of
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from pdf_paths import Path, page_size, paths_of
from printed_pages import demo_sheet, drawing
from rare_cases import rarely_after

PAPERS = pytest.mark.parametrize(
    ("paper", "size"), [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))]
)
# What a person could still see of a disc that is laid on the end of a bar [mm].
TRUE = 0.1
# The arm end of the van's bars, as its pack gives it [mm].
TEETH, TIP, ROOT = 39, 30.0, 28.1


@PAPERS
def test_discs_and_control_lines_are_true(paper: Paper, size: tuple[float, float]) -> None:
    """Each disc measures what the pack says of the bar's end, with its count of teeth."""
    page = last_page(bw.sheet_pdf(demo_sheet("shorter-dampers"), template=True, paper=paper))
    paths = paths_of(page)

    assert page_size(page) == pytest.approx(size, abs=TRUE)
    assert control_lines(paths) == pytest.approx([100.0, 100.0], abs=TRUE)
    discs = [ring for ring in paths if is_ring_of(ring, TEETH)]
    assert len(discs) == 2
    for ring in discs:
        assert diameters(ring, paths) == pytest.approx((TIP, ROOT), abs=TRUE)
        assert circle_about(ring, paths).size == pytest.approx((TIP, TIP), abs=TRUE)


@PAPERS
@pytest.mark.parametrize(
    ("diameter", "teeth"), rarely_after(2, [(18.0, 24), (41.3, 39), (63.5, 48)])
)
def test_a_disc_of_any_size_is_true(
    paper: Paper, size: tuple[float, float], diameter: float, teeth: int
) -> None:
    end = attrs.evolve(end_of(diameter), teeth=teeth, missing_teeth=(0,))
    page = printed(end, drawn_for=paper, on=paper)
    paths = paths_of(page)

    assert page_size(page) == pytest.approx(size, abs=TRUE)
    (ring,) = (path for path in paths if is_ring_of(path, teeth))
    assert diameters(ring, paths) == pytest.approx((diameter, 0.93 * diameter), abs=TRUE)
    assert circle_about(ring, paths).size == pytest.approx((diameter, diameter), abs=TRUE)


def test_a_page_that_is_fitted_to_other_paper_is_not_true() -> None:
    """The reader sees a scale: what is drawn for A4 and printed on Letter measures wrongly."""
    paths = paths_of(printed(end_of(60.0), drawn_for="a4", on="letter"))

    assert all(abs(length - 100.0) > TRUE for length in control_lines(paths))
    (ring,) = (path for path in paths if is_ring_of(path, TEETH))
    assert abs(diameters(ring, paths)[0] - 60.0) > TRUE


def end_of(diameter: float) -> BarEndView:
    """The arm end of the van's bar, at a diameter over the teeth [mm]."""
    views = demo_sheet("shorter-dampers").corners[0].views
    assert views is not None
    return attrs.evolve(
        views.bar_ends[0],
        major_diameter=bw.Quantity(diameter, "mm"),
        root_diameter=bw.Quantity(0.93 * diameter, "mm"),
    )


def printed(end: BarEndView, *, drawn_for: Paper, on: Paper) -> pypdf.PageObject:
    """The page of a template that is drawn for one paper and set on another."""
    papers = {"a4": template.Paper.A4, "letter": template.Paper.LETTER}
    (view,) = template_views([end], title="A job", paper=papers[drawn_for])
    svg = attrs.evolve(drawing(), svg=template_svg(view))
    page = page_of(demo_sheet("firmer-bars"), template=[svg], paper=on)
    return last_page(page_pdf(page))


def last_page(pdf: bytes) -> pypdf.PageObject:
    return pypdf.PdfReader(io.BytesIO(pdf)).pages[-1]


def control_lines(paths: list[Path]) -> list[float]:
    """Lengths of the straight lines that are longer than any other [mm]."""
    lengths = [sum(path.size) for path in paths if len(path.points) == 2 and 0.0 in path.size]
    return sorted(lengths)[-2:]


def is_ring_of(path: Path, teeth: int) -> bool:
    """Whether a path is the outline of a splined end: four corners for each of its places."""
    return not path.arcs and len(path.points) == 4 * teeth


def circle_about(ring: Path, paths: list[Path]) -> Path:
    """The largest circle about a splined end: the line to cut out along."""
    return max(
        (path for path in paths if path.is_circle and math.dist(path.middle, ring.middle) < 1.0),
        key=lambda path: path.size,
    )


def diameters(ring: Path, paths: list[Path]) -> tuple[float, float]:
    """Over the teeth and of the root circle, both about the middle of the disc [mm]."""
    middle = circle_about(ring, paths).middle
    radii = [math.dist(middle, point) for point in ring.points]
    return 2.0 * max(radii), 2.0 * min(radii)
