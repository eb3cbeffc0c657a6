"""A curve over the thread as text, HTML and Markdown, of one corner and of several."""

from __future__ import annotations

import base64
import re

import attrs
import pytest

import barwright as bw
from anchored_corners import on_key_lever
from barwright.report.drawing.nut_curve import nut_curve_svg, nut_curve_view
from barwright.report.text.layout.charts import NutChart
from barwright.report.text.layout.corners import side_by_side
from barwright.report.text.layout.page import Page
from barwright.report.text.layout.tables import Note, plain_lines
from sample_records import known, make_setup

LOOSE = on_key_lever(
    damper={"open_length": "700 mm", "closed_length": "450 mm"}, axle={"droop_stop": "-34 deg"}
)


def chart(setup: bw.Setup) -> NutChart:
    return NutChart("Height", known(nut_curve_view(bw.nut_table(setup))), "planned")


def page(setup: bw.Setup) -> Page:
    return Page(headlines=(Note("Yes."),), parts=(chart(setup),))


@pytest.mark.parametrize("width", [50, 80, 120])
@pytest.mark.parametrize("ascii_only", [True, False])
def test_it_fits_the_width_and_needs_no_letter_beyond_ascii(
    width: int, *, ascii_only: bool
) -> None:
    lines = list(plain_lines(chart(LOOSE), width, ascii_only=ascii_only))
    assert max(map(len, lines)) <= min(width, 80)
    assert "\n".join(lines).isascii()


def test_it_says_what_its_signs_and_scales_are() -> None:
    here = bw.nut_table(LOOSE).set_row
    lines = list(plain_lines(chart(LOOSE), 80))
    assert lines[:4] == [
        "Height",
        "scale at the left: hub to arch [mm]; at the right: droop to spare [mm]",
        (
            f"S: planned, {here.pin_distance.m_as('mm'):.1f} mm, {here.height.m_as('mm'):.0f} mm "
            f"hub to arch, {here.droop_left.m_as('mm'):.0f} mm of droop to spare"
        ),
        "x: not safe, lever loose at droop",
    ]
    assert lines[-1] == "bolt at [mm], from the cross-member; higher to the right"
    assert not [line for line in plain_lines(chart(make_setup()), 80) if line.startswith("x:")]


def test_where_there_is_no_room_it_is_left_out() -> None:
    assert list(plain_lines(chart(LOOSE), 49)) == []


def test_corners_that_are_alike_share_it() -> None:
    alike = side_by_side({"front left": page(LOOSE), "front right": page(LOOSE)})
    assert alike.parts == (chart(LOOSE),)
    other = attrs.evolve(LOOSE, nut_turns="1 turn")
    each = side_by_side({"front left": page(LOOSE), "front right": page(other)})
    titles = [part.title for part in each.parts if isinstance(part, NutChart)]
    assert titles == ["Height, left", "Height, right"]
    nothing = Page(headlines=(Note("No."),))
    one = side_by_side({"front left": page(LOOSE), "front right": nothing})
    assert [part.title for part in one.parts if isinstance(part, NutChart)] == ["Height, left"]


def test_in_html_it_is_the_drawing_with_its_description() -> None:
    table = bw.nut_table(LOOSE)
    svg = nut_curve_svg(known(nut_curve_view(table)))
    written = bw.html(table)
    (source,) = re.findall(r'<img src="data:image/svg\+xml;base64,([^"]*)"', written)
    assert base64.b64decode(source).decode() == svg
    assert 'alt="Height over the thread, bolt measured from the cross-member. ' in written


def test_in_markdown_its_characters_keep_their_places() -> None:
    table = bw.nut_table(LOOSE)
    fenced = bw.markdown(table).partition("```text\n")[2].partition("\n```")[0]
    made = NutChart("Height over the thread", known(nut_curve_view(table)), "set")
    assert fenced.splitlines() == list(plain_lines(made, 80))[1:]
