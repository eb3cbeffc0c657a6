"""Tests of the measuring sheet's drawings: each figure has one place, each letter can be read."""

from __future__ import annotations

import itertools
import math
import string

import pytest
from shapely import LineString, Point, unary_union

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.registry.measuring.catalogue import figures_of, readings_of
from barwright.report.drawing.measuring import anchor, axis, bar, corner, vehicle
from barwright.report.drawing.measuring.marks import Mark, Scheme, scheme_svg
from barwright.report.drawing.measuring.schemes import schemes_of
from barwright.report.drawing.svg import title_and_description
from drawn import XY, Drawn
from drawn_layout import faults_of, painted
from each_case import each_case
from rare_cases import rarely_after
from sample_records import (
    double_wishbone_mounting,
    fixed_line,
    make_bar,
    make_end,
    make_setup,
    swing_arm_mounting,
)
from spelling import unknown_words

SCHEMES = [
    getattr(module, name)
    for module in (anchor, axis, bar, corner, vehicle)
    for name in module.__all__
]
# Two letters each: the widest that a sheet has.
LETTERS = [f"{first}{second}" for first in "ABCD" for second in string.ascii_uppercase]

FULL_BAR = make_bar(
    bore="8 mm",
    arm_end=make_end(39, nose="5 mm", nose_diameter="12 mm", fillet_radius="3 mm", taper="0 mm"),
)
EXTRAS = {
    "bump_rubber": bw.parts.BumpRubber(
        curve=(bw.parts.BumpRubberForce(compression="5 mm", force="100 N"),),
        contact_angle="10 deg",
        contact_radius="200 mm",
    ),
    "bushing": bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="0 deg"),
    "helper_coil": bw.parts.HelperCoil(rate="20 N/mm", free_length="300 mm"),
    "arm_stop": "-20 mm",
    "anchor_stop": "1200 mm",
}
GAS = bw.parts.GasCharge(force="150 N", at_length="500 mm", slope="-0.2 N/mm")
SETUPS = {
    "strut, tube": make_setup(bar=FULL_BAR, axle=EXTRAS, damper={"gas": GAS}),
    "wishbones, fixed line": make_setup(
        axle={"suspension": double_wishbone_mounting()}, adjuster={"mounting": fixed_line()}
    ),
    "swing arm, key lever": on_key_lever(axle={"suspension": swing_arm_mounting()}),
    "fixed socket": on_fixed(),
}


LONGEST_LEAD = 25.0


def title_of(scheme: Scheme) -> str:
    return scheme.title


def schemes_for(setup: bw.Setup) -> list[Scheme]:
    return schemes_of([one.path for one in (*figures_of(setup), *readings_of(setup))])


def lettered(scheme: Scheme) -> Drawn:
    letters = dict(zip(scheme.marks, LETTERS, strict=False))
    return Drawn(scheme_svg(scheme, letters, number=7))


@pytest.mark.parametrize("name", SETUPS)
def test_each_figure_of_a_corner_has_its_place_on_one_drawing(name: str) -> None:
    setup = SETUPS[name]
    marked = [figure for scheme in schemes_for(setup) for figure in scheme.marks]
    assert len(marked) == len(set(marked))
    asked = {one.path for one in (*figures_of(setup), *readings_of(setup))}
    # Of the two ways to say where a nut stands, the sheet has the one that is measured.
    assert asked - set(marked) == {"nut_turns"}


def test_a_drawing_looks_like_the_corner() -> None:
    titles = {name: [one.title for one in schemes_for(setup)] for name, setup in SETUPS.items()}
    assert titles == {
        "strut, tube": [
            *("vehicle", "bar", "arm and strut", "tube, lever and bolt", "places along the bar")
        ],
        "wishbones, fixed line": [
            *("vehicle", "bar", "double wishbones", "tube, lever and bolt", "places along the bar")
        ],
        "swing arm, key lever": [
            *("vehicle", "bar", "arm and damper", "key lever and bolt", "places along the bar")
        ],
        "fixed socket": [
            *("vehicle", "bar", "arm and strut", "fixed socket", "places along the bar")
        ],
    }


@each_case("scheme", SCHEMES)
def test_no_letter_lies_on_another_or_beside_the_paper(scheme: Scheme) -> None:
    middles = lettered(scheme).middles("letter")
    assert len(middles) == len(scheme.marks)
    for x, y in middles:
        assert 2.3 <= x <= scheme.size[0] - 2.3
        assert 9.0 <= y <= scheme.size[1] - 2.3
    for one, other in itertools.combinations(middles, 2):
        assert math.dist(one, other) >= 4.6


@each_case("scheme", SCHEMES)
def test_a_drawing_says_that_it_is_not_to_scale_and_which_letters_it_has(scheme: Scheme) -> None:
    drawn = lettered(scheme)
    assert drawn.words[:2] == [f"Drawing 7: {scheme.title}", "not to scale"]
    described = drawn.root.findtext("{http://www.w3.org/2000/svg}desc", "")
    for letter in LETTERS[: len(scheme.marks)]:
        assert letter in drawn.words
        assert letter in described
    assert "Not to scale." in described


def test_only_letters_that_are_asked_for_are_drawn() -> None:
    drawn = Drawn(scheme_svg(bar.BAR, {"bar.length": "A", "arm.radius": "B"}, number=1))
    assert [word for word in drawn.words if len(word) == 1] == ["A"]
    assert len(drawn.named("measured")) == 1


@pytest.mark.parametrize("scheme", SCHEMES, ids=title_of)
@pytest.mark.parametrize("has_letters", rarely_after(8, [True, False]))
def test_all_is_on_the_paper_and_nothing_lies_on_words(
    scheme: Scheme, *, has_letters: bool
) -> None:
    letters = dict(zip(scheme.marks, LETTERS, strict=False)) if has_letters else {}
    assert faults_of(Drawn(scheme_svg(scheme, letters, number=7))) == []


@each_case("scheme", SCHEMES)
def test_its_words_are_spelled_as_in_the_pages(scheme: Scheme) -> None:
    svg = scheme_svg(scheme, {}, number=7)
    assert unknown_words(" ".join([*Drawn(svg).words, *title_and_description(svg)])) == set()


@pytest.mark.parametrize("scheme", SCHEMES, ids=title_of)
def test_every_mark_is_taken_at_a_part(scheme: Scheme) -> None:
    parts = [one for one in painted(Drawn(scheme_svg(scheme, {}, number=7))) if not one.is_text]
    drawn = unary_union([shape for one in parts for shape in (one.ink, one.area)])
    for figure, mark in scheme.marks.items():
        # A thin line may end a little before its part, a spot lies on it.
        reach = 1.2 if len(mark.way) > 1 else 0.01
        for end in _taken_at(mark):
            assert drawn.distance(Point(end)) < reach, figure


def _taken_at(mark: Mark) -> list[XY]:
    """Where a mark touches a part: the place itself, or the ends of a length or its thin lines."""
    if len(mark.way) > 2:
        # An arc is taken about its vertex, from a line that runs through it.
        return []
    found = [mark.way[0], mark.way[-1]]
    for number, (start, _) in enumerate(mark.edges):
        found[number] = start
    return found


@each_case("scheme", SCHEMES)
def test_a_thin_line_ends_at_the_end_of_what_is_measured(scheme: Scheme) -> None:
    for figure, mark in scheme.marks.items():
        for (_, to), end in zip(mark.edges, (mark.way[0], mark.way[-1]), strict=False):
            assert to == end, figure


@each_case("scheme", SCHEMES)
def test_a_letter_stands_near_its_mark_and_its_line_begins_there(scheme: Scheme) -> None:
    for figure, mark in scheme.marks.items():
        way = LineString(mark.way) if len(mark.way) > 1 else Point(mark.way[0])
        assert way.distance(Point(mark.lead)) < 0.2, figure
        assert math.dist(mark.at, mark.lead) < LONGEST_LEAD, figure


@each_case("scheme", SCHEMES)
def test_lengths_of_what_lies_level_are_level_or_upright(scheme: Scheme) -> None:
    if "along the bar" in scheme.title or scheme.title in {"bar", "vehicle"}:
        for figure, mark in scheme.marks.items():
            if len(mark.way) == 2:
                (x, y), (other_x, other_y) = mark.way
                assert x == other_x or y == other_y, figure


@each_case("scheme", SCHEMES)
def test_thin_lines_are_square_to_what_is_measured(scheme: Scheme) -> None:
    for figure, mark in scheme.marks.items():
        if len(mark.way) != 2:
            continue
        (x, y), (other_x, other_y) = mark.way
        way = math.dist(*mark.way)
        for start, end in mark.edges:
            along = (end[0] - start[0]) * (other_x - x) + (end[1] - start[1]) * (other_y - y)
            # That of an upright leans a little, since the wheel's does.
            assert abs(along / way) < 0.4, figure


@each_case("scheme", SCHEMES)
def test_a_length_is_as_long_as_its_arrowheads_need(scheme: Scheme) -> None:
    for figure, mark in scheme.marks.items():
        if len(mark.way) == 2:
            assert math.dist(*mark.way) > 4.0, figure


@each_case("scheme", SCHEMES)
def test_letters_are_as_large_on_every_drawing(scheme: Scheme) -> None:
    """A sixth of a page is as wide as a sixth of each drawing, or nearly so."""
    assert 29.0 < scheme.size[0] / scheme.sixths < 31.0


def test_a_length_reaches_what_it_measures() -> None:
    """The bar's length goes over both splines, its diameter over the body."""
    marks = bar.BAR.marks
    (left, _), (right, _) = marks["bar.length"].way
    ends = [marks[f"bar.{end}_end.length"].way for end in ("arm", "anchor")]
    assert (left, right) == (ends[0][0][0], ends[1][0][0])
    major, body = (marks[f"bar.{name}"].way for name in ("arm_end.major_diameter", "diameter"))
    assert major[1][1] - major[0][1] > body[1][1] - body[0][1] > 0.0


def test_what_is_no_corner_has_no_drawing() -> None:
    assert schemes_of([]) == []
