"""What holds of every drawing: all of it is on the paper, and no word lies on another or a line."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable, Iterator

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.parts import LeverSide
from barwright.report.drawing.adjuster import adjuster_svg, adjuster_view
from barwright.report.drawing.bar_axis import bar_axis_svg
from barwright.report.drawing.bar_axis_view import bar_axis_view
from barwright.report.drawing.nut_curve import nut_curve_svg, nut_curve_view
from barwright.report.drawing.svg import title_and_description
from barwright.report.drawing.weighed_vehicle import weighed_vehicle_svg
from barwright.report.page.drawings import page_drawings, template_drawings
from barwright.report.unit_system import in_units
from drawn import Drawn
from drawn_layout import faults_of
from printed_pages import DEMO_JOBS, demo_sheet
from sample_records import fixed_line, known, make_bar, make_setup, swivelling
from spelling import unknown_words
from weighed_vans import fours, fronts, van, van_on_four


def drawings_of(name: str) -> Iterator[tuple[str, str]]:
    sheet = demo_sheet(name)
    for one in (*page_drawings(sheet), *template_drawings(sheet, "a4")):
        yield one.title, one.svg


ADJUSTED = {
    "pivot": make_setup(),
    "headed": make_setup(adjuster={"lever_lies": LeverSide.BUMPWARD, "mounting": fixed_line()}),
    "pushed": make_setup(
        anchor_key="-1 deg",
        adjuster={
            "lever_lies": LeverSide.DROOPWARD,
            "mounting": swivelling(pivot_angle="277 deg"),
        },
    ),
    "key lever": on_key_lever(),
}
LYING = {
    **ADJUSTED,
    "long bar": make_setup(bar=make_bar(length="921 mm")),
    "short bar": make_setup(bar=make_bar(length="880 mm")),
    "fixed socket": on_fixed(),
    "beside its bolt": make_setup(
        axle={"lever_allowance": "40 mm", "bolt_position": "120 mm", "cap_holes_position": "900 mm"}
    ),
}


def drawings_of_corners() -> Iterator[tuple[str, str]]:
    for name, setup in ADJUSTED.items():
        for height in ("370 mm", "380 mm", "390 mm", "400 mm"):
            for plan in bw.reindex(setup, wanted=bw.Wanted(height=height)).plans[:1]:
                view = known(adjuster_view(setup, plan))
                yield f"adjuster, {name}, {height}", adjuster_svg(view)
        curve = nut_curve_view(bw.nut_table(setup), corner=setup.corner)
        if curve:
            yield f"nut curve, {name}", nut_curve_svg(curve)
    for name, setup in LYING.items():
        yield f"bar, {name}", bar_axis_svg(bar_axis_view(setup, bw.length_fit(setup)))


def drawings_of_weighed() -> Iterator[tuple[str, str]]:
    wanted = [bw.Wanted(height=height) for height in ("395 mm", "395 mm", "400 mm", "400 mm")]
    four = bw.balance(fours(), vehicle=van_on_four(), wanted=wanted)
    answers = {
        "two nuts": bw.balance(fronts(), vehicle=van((306, 341, 268, 230), (385, 403))),
        "four nuts": four,
        "four nuts, in inches": in_units(four, "inch"),
        "none": bw.balance(fronts(), vehicle=van()),
        "no readings": attrs.evolve(four, settings=()),
    }
    for name, answer in answers.items():
        yield name, weighed_vehicle_svg(answer)


GROUPS: dict[str, Callable[[], Iterator[tuple[str, str]]]] = {
    **{name: functools.partial(drawings_of, name) for name in DEMO_JOBS},
    "corners": drawings_of_corners,
    "weighed": drawings_of_weighed,
}


@functools.cache
def drawn_of(group: str) -> dict[str, str]:
    """Draw in a test what is in a group, and not while tests are collected."""
    return dict(GROUPS[group]())


@pytest.mark.parametrize("group", GROUPS)
def test_all_is_on_the_paper_and_nothing_lies_on_words(group: str) -> None:
    faults = {name: faults_of(Drawn(svg)) for name, svg in drawn_of(group).items()}
    assert {name: found for name, found in faults.items() if found} == {}


@pytest.mark.parametrize("group", GROUPS)
def test_its_words_and_what_it_is_said_to_show_are_spelled_as_in_the_pages(group: str) -> None:
    for name, svg in drawn_of(group).items():
        words, said = Drawn(svg).words, title_and_description(svg)
        assert unknown_words(" ".join([*words, *said])) == set(), name
        assert set(said[0].split(": ")) <= {*words, " ".join(words[:2])}


@pytest.mark.parametrize("group", GROUPS)
def test_what_says_how_it_is_drawn_is_what_svg_knows(group: str) -> None:
    """A reader passes over what it does not know, and draws something else."""
    for svg in drawn_of(group).values():
        root = Drawn(svg).root
        assert root.get("font-family") == "sans-serif"
        for element in root:
            assert element.get("text-anchor") in {None, "start", "middle", "end"}
            assert element.get("font-weight") in {None, "bold"}
            assert element.get("stroke-linejoin") in {None, "round"}
            assert re.fullmatch(r"none|#[0-9a-f]{6}", element.get("fill", "none"))
            for length in element.get("stroke-dasharray", "1").split():
                assert float(length) > 0.0
