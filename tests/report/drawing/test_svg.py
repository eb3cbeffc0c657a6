"""Tests of what all drawings share: safe text, plain attributes, legible print, the same bytes."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.drawing.adjuster import adjuster_svg, adjuster_view
from barwright.report.drawing.bar_axis import bar_axis_svg
from barwright.report.drawing.bar_axis_view import bar_axis_view
from barwright.report.drawing.bar_end import bar_end_svg
from barwright.report.drawing.bar_end_view import bar_end_views
from barwright.report.drawing.load_curve import load_curve_svg, load_curve_view
from barwright.report.drawing.nut_curve import nut_curve_svg, nut_curve_view
from barwright.report.drawing.svg import Drawing, number, spread
from barwright.report.drawing.template import template_svg, template_views
from drawn import Drawn, points_of
from each_case import each_case
from sample_records import make_bar, make_end, make_setup, swivelling

HOSTILE = "<script>alert(1)</script>&\"'\x1b[31m\u202e]]>"
NOSED = make_bar(arm_end=make_end(39, nose="3 mm", blanks=(0, 4)))


PUSHED = make_setup(
    anchor_key="-1 deg",
    adjuster={
        "lever_lies": bw.parts.LeverSide.DROOPWARD,
        "mounting": swivelling(pivot_angle="277 deg"),
    },
)


def drawings(setup: bw.Setup, corner: str | None = None) -> dict[str, str]:
    """Every drawing of a corner, under another name if one is given."""
    wish = "380 mm" if setup.adjuster else "400 mm"
    answer = bw.reindex(setup, wanted=bw.Wanted(height=wish))
    plans = (*answer.plans, *answer.rejected)
    plan = next((p for p in plans if p.cuts), plans[0])
    ends = bar_end_views(setup, plan, present=setup)
    curve = load_curve_view(bw.rates(setup), corner=setup.corner)
    views: list[tuple[str, Any, Callable[..., str]]] = [
        ("arm", ends[0], bar_end_svg),
        ("anchor", ends[1], bar_end_svg),
        ("adjuster", adjuster_view(setup, plan), adjuster_svg),
        ("axis", bar_axis_view(setup, answer.fit), bar_axis_svg),
        ("curve", curve, load_curve_svg),
        ("thread", nut_curve_view(bw.nut_table(setup)), nut_curve_svg),
    ]
    found = {
        name: draw(attrs.evolve(view, corner=corner or setup.corner))
        for name, view, draw in views
        if view is not None
    }
    named = [attrs.evolve(end, corner=corner or end.corner) for end in ends]
    for page in template_views(named, title=corner or "A job"):
        found[f"page {page.page}"] = template_svg(page)
    return found


MANY = {
    f"{kind}: {name}": svg
    for kind, setup in (
        ("tube", make_setup(bar=NOSED)),
        ("right", make_setup(bar=NOSED, side=bw.parts.Side.RIGHT, anchor_keyed=False)),
        ("lever", on_key_lever()),
        ("pushed", PUSHED),
        ("turned", attrs.evolve(make_setup(bar=NOSED), arm_tooth=4, anchor_tooth=-1)),
        ("socket", on_fixed()),
    )
    for name, svg in drawings(setup).items()
}


def test_every_kind_of_drawing_is_tried() -> None:
    kinds = {name.partition(": ")[2] for name in MANY}

    assert kinds == {"arm", "anchor", "adjuster", "axis", "curve", "thread", "page 1"}


@each_case("name", MANY)
def test_a_drawing_has_texts_for_who_cannot_see_it(name: str) -> None:
    root = Drawn(MANY[name]).root

    assert root.attrib["role"] == "img"
    assert root[0].tag.endswith("title")
    assert len(root[0].text or "") > 10
    assert root[1].tag.endswith("desc")
    assert len(root[1].text or "") > 40


@each_case("name", MANY)
def test_a_drawing_is_grey_and_needs_nothing_but_itself(name: str) -> None:
    elements = list(Drawn(MANY[name]).root.iter())
    inks = {e.get(key) for e in elements for key in ("fill", "stroke")} - {None, "none"}

    assert all(re.fullmatch(r"#(\w\w)\1\1", str(ink)) for ink in inks)
    assert {e.tag.rpartition("}")[2] for e in elements} <= {
        *("svg", "title", "desc", "rect", "path", "circle", "text"),
    }
    assert not {key for e in elements for key in e.attrib} & {"class", "style", "id", "href"}
    assert "url(" not in MANY[name]


@each_case("name", MANY)
def test_text_is_legible_and_lies_within_the_paper(name: str) -> None:
    drawn = Drawn(MANY[name])
    width, height = (float(drawn.root.attrib[k].removesuffix("mm")) for k in ("width", "height"))
    for words, (x, y), element in drawn.texts:
        size = float(element.attrib["font-size"])
        share = {"start": 0.0, "middle": 0.5, "end": 1.0}[element.attrib["text-anchor"]]
        # An average letter of a wide font.
        long = 0.54 * size * len(words)
        assert size >= 2.8, words
        assert size < y < height - 0.5, words
        if "transform" not in element.attrib:
            assert x - share * long > -0.5, words
            assert x + (1.0 - share) * long < width + 0.5, words


def test_the_same_view_gives_the_same_bytes() -> None:
    again = drawings(make_setup(bar=NOSED))

    assert again == {n.partition(": ")[2]: svg for n, svg in MANY.items() if n.startswith("tube")}


def test_hostile_names_are_text_and_nothing_else() -> None:
    for svg in drawings(make_setup(bar=NOSED), HOSTILE).values():
        words = " ".join(["".join(Drawn(svg).root.itertext())])
        assert "<script" not in svg
        assert "alert(1)" in words.lower()
        assert "\x1b" not in svg
        assert "\u202e" not in svg


@given(st.floats(-1e6, 1e6))
def test_a_length_is_written_short_and_close(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.00051 + 1e-9 * abs(value)
    assert number(value) != "-0"


@given(st.lists(st.tuples(st.floats(0.0, 100.0), st.floats(1.0, 12.0)), max_size=6))
def test_what_is_spread_lies_within_the_limits_and_apart(boxes: list[tuple[float, float]]) -> None:
    boxes.sort()
    lengths = [length for _, length in boxes]
    starts = spread([middle for middle, _ in boxes], lengths, low=0.0, high=100.0)
    ends = [start + length for start, length in zip(starts, lengths, strict=True)]

    assert all(start >= -1e-9 for start in starts)
    assert all(end <= 100.0 + 1e-9 for end in ends)
    assert all(end <= start + 1e-9 for end, start in zip(ends, starts[1:], strict=False))


def test_hatching_stays_within_its_box() -> None:
    out = Drawing((30.0, 30.0), title="A box", description="A hatched box")
    out.hatched_box((5.0, 7.0), (12.0, 10.0))
    drawn = Drawn(str(out))
    points = [
        tuple(map(float, p.split()))
        for e in drawn.root.iter()
        if "d" in e.attrib
        for p in e.attrib["d"][1:].rstrip("Z").split("L")
    ]

    assert len(points) > 20
    assert all(5.0 <= x <= 12.0 and 7.0 <= y <= 10.0 for x, y in points)


@pytest.mark.parametrize("high", [(12.0, 10.0), (8.0, 25.0), (29.0, 9.0)])
def test_hatching_fills_its_box_with_lines_at_one_distance(high: tuple[float, float]) -> None:
    out = Drawing((30.0, 30.0), title="A box", description="A hatched box")
    low = (5.0, 7.0)
    out.hatched_box(low, high)
    lines = [points_of(e) for e in Drawn(str(out)).root if e.get("stroke") == "#666666"]
    sums = [x + y for (x, y), _ in lines]
    steps = [b - a for a, b in itertools.pairwise([sum(low), *sums])]

    assert steps == pytest.approx([steps[0]] * len(steps), abs=0.002)
    assert 0.0 <= sum(high) - sums[-1] <= steps[0]
    assert all(sum(p) == pytest.approx(sum(q), abs=0.002) for p, q in lines)


def test_a_turned_text_says_by_how_much() -> None:
    out = Drawing((30.0, 30.0), title="A text", description="A text that is turned")
    out.text((10.0, 20.0), "up", turned=-90.0)

    assert 'transform="rotate(-90 10 20)"' in str(out)
