"""Which drawings a printed sheet has, and where."""

from __future__ import annotations

import io
import re

import attrs
import pypdf
import pytest

import barwright as bw
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings, template_drawings
from barwright.report.page.paper import Paper
from barwright.units import unknown
from printed_pages import DEMO_JOBS, demo_sheet, drawing, pdf_texts, read_html
from rare_cases import rarely_after

ENDS = [f"Front {side}, {end} end" for end in ("arm", "anchor") for side in ("left", "right")]


def test_the_van_has_ends_adjusters_bar_and_curve_of_both_sides() -> None:
    drawn = list(page_drawings(demo_sheet("shorter-dampers")))
    beside = [each.title for each in drawn if each.is_beside]
    below = [(each.title, each.width) for each in drawn if not each.is_beside]
    assert beside == ["Front left, adjuster", "Front right, adjuster"]
    assert below == [
        *zip(ENDS, (2, 2, 1, 1), strict=True),
        ("Front left and right, bar in its sockets", 4),
        ("Front left, load at the wheel", 2),
    ]
    assert all(each.alt.startswith(each.title.split(",")[0]) for each in drawn)


def test_where_nothing_is_adjusted_the_curve_stands_beside_the_figures() -> None:
    drawn = list(page_drawings(demo_sheet("loaded-trailer")))
    assert [each.title for each in drawn if each.is_beside] == ["Rear left, load at the wheel"]


def test_bars_that_lie_otherwise_are_drawn_each() -> None:
    sheet = demo_sheet("shorter-dampers")
    left, right = sheet.corners
    assert right.views is not None
    bar = attrs.evolve(right.views.bar_axis, length=bw.Quantity("950 mm"))
    other = attrs.evolve(right, views=attrs.evolve(right.views, bar_axis=bar))
    titles = [each.title for each in page_drawings(attrs.evolve(sheet, corners=(left, other)))]
    assert "Front left, bar in its sockets" in titles
    assert "Front right, bar in its sockets" in titles


def test_without_a_plan_nothing_is_drawn(refused: bw.answers.BenchSheet) -> None:
    assert list(page_drawings(refused)) == []
    assert list(template_drawings(refused, "a4")) == []


def test_a_corner_without_rates_has_no_curve() -> None:
    sheet = demo_sheet("shorter-dampers")
    bare = (
        attrs.evolve(corner, rates=attrs.evolve(corner.rates, figures=None))
        for corner in sheet.corners
    )
    titles = [each.title for each in page_drawings(attrs.evolve(sheet, corners=tuple(bare)))]
    assert len(titles) == 7
    assert not [title for title in titles if "load" in title]


def test_drawings_fill_rows_of_six() -> None:
    widths = (1, 1, 1, 1, 4, 2, 2)
    page = page_of(demo_sheet("firmer-bars"), [drawing(width=width) for width in widths])
    assert [[each.width for each in row] for row in page.below] == [[1, 1, 1, 1, 2], [4, 2]]


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_every_drawing_of_a_page_has_an_alternative_text(name: str) -> None:
    sheet = demo_sheet(name)
    alternatives = read_html(bw.sheet_html(sheet)).attributes("img", "alt")
    assert sorted(map(str, alternatives)) == sorted(each.alt for each in page_drawings(sheet))
    assert all(alternatives)


# -- The marking template ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("paper", "size"), rarely_after(1, [("a4", (210.0, 297.0)), ("letter", (215.9, 279.4))])
)
def test_the_template_follows_the_sheet_on_pages_of_its_own_at_its_own_size(
    paper: Paper, size: tuple[float, float]
) -> None:
    pdf = bw.sheet_pdf(demo_sheet("shorter-dampers"), template=True, paper=paper)
    texts = pdf_texts(pdf)
    assert len(texts) == 3
    assert "Markingtemplate" in texts[2]
    box = pypdf.PdfReader(io.BytesIO(pdf)).pages[2].mediabox
    found = (float(box.width) * 25.4 / 72.0, float(box.height) * 25.4 / 72.0)
    assert found == pytest.approx(size, abs=0.1)
    page = bw.sheet_html(demo_sheet("shorter-dampers"), template=True, paper=paper)
    assert re.search(rf"@page template {{ margin: 0; size: {paper}; }}", page)
    assert read_html(page).attributes("img", "class")[-1] == "template"


def test_where_nothing_is_marked_there_is_no_template() -> None:
    sheet = demo_sheet("firmer-bars")
    assert bw.sheet_html(sheet, template=True) == bw.sheet_html(sheet)
    assert len(pdf_texts(bw.sheet_pdf(sheet, template=True))) == 2


def test_a_bar_whose_heads_nobody_has_measured_is_not_drawn_along_its_axis() -> None:
    sheet = demo_sheet("shorter-dampers")
    corners = []
    for corner in sheet.corners:
        assert corner.views is not None
        axis = corner.views.bar_axis
        heads = tuple(attrs.evolve(h, major_diameter=unknown()) for h in axis.axial_heads)
        views = attrs.evolve(corner.views, bar_axis=attrs.evolve(axis, axial_heads=heads))
        corners.append(attrs.evolve(corner, views=views))
    titles = [each.title for each in page_drawings(sheet)]
    left = [each.title for each in page_drawings(attrs.evolve(sheet, corners=tuple(corners)))]
    assert set(titles) - set(left) == {"Front left and right, bar in its sockets"}
