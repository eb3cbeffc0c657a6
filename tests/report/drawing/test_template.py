"""Tests of `barwright.report.drawing.template`: what is printed at 100 % is true."""

from __future__ import annotations

import itertools
import math
from typing import Any

import attrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.answers import BarEndView, BlankTooth, EndAction, Paper, ToothDatum, TurningSense
from barwright.parts import BarEndName, Side
from barwright.report.drawing.bar_end_view import bar_end_views
from barwright.report.drawing.template import template_svg, template_views
from barwright.units import unknown
from drawn import Drawn, points_of
from drawn_layout import faults_of, painted
from draws import draws
from each_case import each_case
from sample_records import make_bar, make_end, make_setup

SETUPS = {side: make_setup(side=side, bar=make_bar()) for side in Side}


def view_of(
    tooth: int,
    sense: TurningSense | None = TurningSense.CLOCKWISE,
    *,
    teeth: int = 39,
    end: BarEndName = BarEndName.ARM,
    side: Side = Side.LEFT,
    action: EndAction = EndAction.REMOVE_TOOTH,
    diameter: float = 30.0,
    nose: float = 0.0,
    nose_diameter: float | None = None,
) -> BarEndView:
    """An end on which a tooth is removed, or whatever a case says."""
    setup = SETUPS[side]
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    view = bar_end_views(setup, plan, present=setup)[end is BarEndName.ANCHOR]
    work = attrs.evolve(
        view.work, action=action, tooth=tooth, direction=sense, on_key=BlankTooth.NEW
    )
    return attrs.evolve(
        view,
        work=work,
        teeth=teeth,
        major_diameter=bw.Quantity(diameter, "mm"),
        root_diameter=bw.Quantity(0.93 * diameter, "mm"),
        nose=bw.Quantity(nose, "mm"),
        nose_diameter=None if nose_diameter is None else bw.Quantity(nose_diameter, "mm"),
    )


def one_page(*ends: BarEndView, paper: Paper = Paper.A4) -> Drawn:
    (page,) = template_views(ends, title="A job", paper=paper)
    return Drawn(template_svg(page))


@settings(max_examples=draws(60))
@given(
    st.integers(1, 19),
    st.sampled_from(list(TurningSense)),
    st.integers(200, 700).map(lambda tenths: tenths / 10.0),
    st.sampled_from(list(Paper)),
)
def test_disc_and_tooth_are_true(
    tooth: int, sense: TurningSense, diameter: float, paper: Paper
) -> None:
    drawn = one_page(view_of(tooth, sense, diameter=diameter), paper=paper)
    (disc,), (ring,) = drawn.named("disc"), drawn.rings(39)
    way = 1 if sense is TurningSense.CLOCKWISE else -1

    assert 2.0 * float(disc.attrib["r"]) == pytest.approx(diameter, abs=0.01)
    assert 2.0 * ring.tip == pytest.approx(diameter, abs=0.01)
    assert ring.standing == set(range(1, 39))
    assert [ring.place_of(at) for at in drawn.middles("tooth")] == [way * tooth % 39]
    assert [ring.place_of(at) for at in drawn.middles("cut")] == [way * tooth % 39]
    # Blank and tooth lie at equal angles beside the top, the tab below.
    assert ring.start == pytest.approx(-way * math.pi * tooth / 39, abs=1e-3)
    assert bottom_of_tab(drawn) > ring.centre[1] + ring.tip


@pytest.mark.parametrize(
    ("datum", "words"),
    [(ToothDatum.MARK, ["marked", "tooth"]), (ToothDatum.PRESENT, ["painted", "tooth"])],
)
def test_an_end_without_a_blank_is_laid_on_the_tooth_that_it_is_counted_from(
    datum: ToothDatum, words: list[str]
) -> None:
    view = view_of(3)
    bare = attrs.evolve(view, work=attrs.evolve(view.work, tooth_datum=datum), missing_teeth=())
    drawn = one_page(bare)
    (ring,) = drawn.rings(39)

    assert [ring.place_of(at) for at in drawn.middles("datum")] == [0]
    assert not drawn.named("makers")
    assert set(words) <= set(drawn.words)
    assert any(words.endswith("on the blank or tooth that it names.") for words in drawn.words)


def test_where_the_tooth_to_count_from_is_removed_the_disc_names_it_once() -> None:
    view = view_of(0, None)
    work = attrs.evolve(view.work, tooth_datum=ToothDatum.MARK)
    drawn = one_page(attrs.evolve(view, work=work, missing_teeth=()))

    assert "this tooth" in drawn.words
    assert not drawn.named("datum")


def bottom_of_tab(drawn: Drawn) -> float:
    (tab,) = drawn.named("tab")
    return max(y for _, y in points_of(tab))


@pytest.mark.parametrize(
    ("paper", "width", "height"), [(Paper.A4, 210.0, 297.0), (Paper.LETTER, 215.9, 279.4)]
)
def test_a_page_is_in_millimetres_of_its_paper(paper: Paper, width: float, height: float) -> None:
    drawn = one_page(view_of(3), paper=paper)

    assert drawn.root.attrib["width"] == f"{width:g}mm"
    assert drawn.root.attrib["height"] == f"{height:g}mm"
    assert drawn.root.attrib["viewBox"] == f"0 0 {width:g} {height:g}"


def test_control_lines_are_100_mm_across_and_down() -> None:
    lines = one_page(view_of(3)).named("control-line")
    lengths = []
    for line in lines:
        (x1, y1), (x2, y2) = (map(float, p.split()) for p in line.attrib["d"][1:].split("L"))
        lengths.append((abs(x2 - x1), abs(y2 - y1)))

    assert lengths == [(100.0, 0.0), (0.0, 100.0)]


def test_what_a_control_line_must_measure_stands_at_its_middle() -> None:
    drawn = one_page(view_of(3))
    across, down = (points_of(line) for line in drawn.named("control-line"))
    words = [at for text, at, _ in drawn.texts if text == "this line must measure 100 mm"]

    assert words[0][0] == (across[0][0] + across[1][0]) / 2.0
    assert words[1][1] == (down[0][1] + down[1][1]) / 2.0


def test_a_control_line_ends_in_lines_square_to_it() -> None:
    drawn = one_page(view_of(3))
    lines = [points_of(e) for e in drawn.root if e.tag.endswith("path")]
    pairs = [line for line in lines if len(line) == 2]
    for p, q in (points_of(line) for line in drawn.named("control-line")):
        for end in (p, q):
            across = [
                (one, other)
                for one, other in pairs
                if math.dist(((one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0), end) < 0.001
            ]
            ((one, other),) = across
            square = (q[0] - p[0]) * (other[0] - one[0]) + (q[1] - p[1]) * (other[1] - one[1])
            assert (square, math.dist(one, other) > 3.0) == (0.0, True)


@pytest.mark.parametrize("paper", Paper)
def test_what_is_not_known_stands_below_the_room_of_all_discs(paper: Paper) -> None:
    drawn = one_page(view_of(2, nose=3.0), paper=paper)
    (at,) = [at for words, at, _ in drawn.texts if words.startswith("Not known")]
    assert at[1] - 2.9 > float(drawn.root.attrib["viewBox"].split()[3]) - 21.0


def test_the_words_of_a_tab_stand_on_it() -> None:
    drawn = one_page(view_of(3))
    (tab,) = drawn.named("tab")
    corners = points_of(tab)
    turned = [at for _, at, e in drawn.texts if "transform" in e.attrib][1:]
    assert len(turned) == 3
    for x, y in turned:
        assert corners[0][0] < x < corners[2][0]
        assert corners[0][1] < y < corners[1][1]


def test_ends_that_are_not_worked_on_have_no_disc() -> None:
    ends = [
        view_of(0, None, action=EndAction.STAYS),
        view_of(0, None, action=EndAction.BLANK_ON_KEY),
        view_of(0, None, action=EndAction.NO_KEY),
    ]

    assert template_views(ends, title="A job") == ()
    drawn = one_page(*ends, view_of(2), view_of(5, action=EndAction.NO_KEY, side=Side.RIGHT))
    assert len(drawn.named("disc")) == 2
    assert {"REMOVE", "MARK"} <= set(drawn.words)


def test_left_and_right_and_both_ends_are_named_on_the_disc_and_above_it() -> None:
    ends = [view_of(2, side=side, end=end) for side in Side for end in BarEndName]
    drawn = one_page(*ends)

    for side in Side:
        assert drawn.words.count(f"FRONT {side.value.upper()}") == 2
        for end in BarEndName:
            assert f"Front {side.value}, {end.value}" in drawn.words
    assert sum("toward the anchor end" in words for words in drawn.words) == 2


def test_discs_and_tabs_do_not_reach_each_other_or_the_edge() -> None:
    drawn = one_page(*(view_of(19, side=side, end=end) for side in Side for end in BarEndName))
    middles = drawn.middles("disc")
    tabs = [max(y for _, y in points_of(tab)) for tab in drawn.named("tab")]

    assert all(math.dist(p, q) > 70.0 for p in middles for q in middles if p != q)
    assert max(tabs) < 275.0
    assert all(x > 40.0 for x, _ in middles)


def test_more_ends_than_a_page_holds_make_more_pages() -> None:
    pages = template_views([view_of(2)] * 9, title="A job")
    drawn = [Drawn(template_svg(page)) for page in pages]

    assert sum(len(one.named("disc")) for one in drawn) == 9
    assert [(page.page, page.pages) for page in pages] == [(1, 3), (2, 3), (3, 3)]
    assert "Marking template, page 2 of 3" in drawn[1].words


def test_a_nose_whose_diameter_is_not_known_is_told_with_circles_to_choose_from() -> None:
    (page,) = template_views([view_of(2, nose=3.0), view_of(2, side=Side.RIGHT)], title="A job")
    drawn = Drawn(template_svg(page))
    radii = [float(circle.attrib["r"]) for circle in drawn.named("nose")]

    assert page.missing == ("diameter of the nose, front left, arm end",)
    assert "Not known: diameter of the nose, front left, arm end." in " ".join(drawn.words)
    assert radii == [5.0, 7.5, 10.0]
    assert template_views([view_of(2)], title="A job")[0].missing == ()


def test_a_nose_of_known_diameter_has_a_hole_of_that_size() -> None:
    (page,) = template_views([view_of(2, nose=3.0, nose_diameter=21.4)], title="A job")
    (hole,) = Drawn(template_svg(page)).named("hole")

    assert 2.0 * float(hole.attrib["r"]) == pytest.approx(21.4, abs=0.01)
    assert page.missing == ()
    assert not Drawn(template_svg(page)).named("nose")


def test_a_disc_that_is_too_large_is_told_and_the_rest_drawn() -> None:
    (first, second) = template_views(
        [view_of(2, diameter=180.0), view_of(3, side=Side.RIGHT)], title="A job"
    )
    words = " ".join(Drawn(template_svg(first)).words)

    assert "A disc has no room on A4 paper: Front left, arm end." in words
    assert not Drawn(template_svg(first)).named("disc")
    assert len(Drawn(template_svg(second)).named("disc")) == 1


@each_case(
    "paper, diameter", itertools.product(Paper, [*range(50, 190, 10), 137, 138, 143, 145, 149])
)
def test_a_disc_of_any_size_is_on_the_paper_or_is_told_to_have_no_room(
    diameter: float, paper: Paper
) -> None:
    tooth = view_of(19, diameter=diameter)
    (page,) = template_views([tooth], title="A job", paper=paper)
    drawn = Drawn(template_svg(page))
    has_room = not page.notes

    assert len(drawn.named("disc")) == has_room
    # Labels take 23 mm on either side, name and tab 58 mm, the head 64 mm, the foot 20 mm.
    width, height = (float(n) for n in drawn.root.attrib["viewBox"].split()[2:])
    assert has_room == (diameter <= min(width - 66.0, height - 142.0))
    assert faults_of(drawn) == []


@pytest.mark.parametrize("paper", Paper)
def test_discs_of_any_size_and_number_keep_clear_of_each_other(paper: Paper) -> None:
    for diameter in (20.0, 60.0, 84.0, 100.0):
        pages = template_views([view_of(19, diameter=diameter)] * 5, title="A job", paper=paper)
        drawn = [Drawn(template_svg(page)) for page in pages]
        assert sum(len(one.named("disc")) for one in drawn) == 5
        for one in drawn:
            assert faults_of(one) == []
            (_, height) = (float(n) for n in one.root.attrib["viewBox"].split()[2:])
            assert all(
                max(y for _, y in points_of(tab)) < height - 20.0 for tab in one.named("tab")
            )
            for (x, y), (other_x, other_y) in itertools.combinations(one.middles("disc"), 2):
                if y == other_y:
                    assert abs(x - other_x) >= max(84.0, diameter + 46.0)
                else:
                    assert abs(y - other_y) >= diameter + 58.0


def test_a_long_title_is_shortened() -> None:
    (page,) = template_views([view_of(2)], title="long " * 60)

    assert any(words.endswith("…") for words in Drawn(template_svg(page)).words)


@pytest.mark.parametrize("diameter", [8.0, 30.0])
def test_the_tab_hangs_straight_down_from_the_middle_of_its_disc(diameter: float) -> None:
    drawn = one_page(view_of(2, diameter=diameter))
    (tab,) = drawn.named("tab")
    (x, y) = drawn.middles("disc")[0]
    (left, high), (left_too, low), (right, low_too), (right_too, high_too) = points_of(tab)

    assert (left, low, right, high) == (left_too, low_too, right_too, high_too)
    assert (left + right) / 2.0 == pytest.approx(x, abs=0.001)
    assert math.dist((left, high), (x, y)) == pytest.approx(diameter / 2.0, abs=0.002)


def test_the_diameter_of_a_circle_to_choose_stands_in_a_box_on_it() -> None:
    (page,) = template_views([view_of(2, nose=3.0)], title="A job")
    drawn = Drawn(template_svg(page))
    numbers = [one for one in painted(drawn) if one.name.strip("'") in {"10", "15", "20"}]
    boxes = [one.area for one in painted(drawn) if one.hides and not one.is_text]
    (disc,) = drawn.middles("disc")

    for one in numbers:
        assert any(area.covers(one.ink) for area in boxes if area.area < 15.0)
        radius = float(one.name.strip("'")) / 2.0
        middle = one.ink.centroid
        assert math.dist(disc, (middle.x, middle.y)) == pytest.approx(radius, abs=0.2)
    assert len(numbers) == 3


def test_a_small_disc_has_a_tab_within_it() -> None:
    drawn = one_page(view_of(2, diameter=8.0))
    (tab,) = drawn.spans("tab")

    assert tab[1] - tab[0] < 8.0


def test_an_end_as_it_is_made_has_its_own_diameters() -> None:
    bar = make_bar(arm_end=make_end(36, nose="3 mm", nose_diameter="20 mm"))
    setup = make_setup(bar=bar, anchor_keyed=False)
    plan = next(
        p
        for p in bw.reindex(setup, wanted=bw.Wanted(height="365 mm")).plans
        if any(work.direction for work in p.ends)
    )
    (page,) = template_views(bar_end_views(setup, plan, present=setup), title="A job")
    radii = {2.0 * float(disc.attrib["r"]) for disc in Drawn(template_svg(page)).named("disc")}

    assert radii <= {27.75, 32.25}
    assert radii
    assert page.missing == ()


def test_an_end_that_nobody_has_measured_has_no_disc() -> None:
    measured = view_of(2)
    for field in ("major_diameter", "root_diameter", "nose"):
        change: dict[str, Any] = {field: unknown()}
        unmeasured = attrs.evolve(measured, **change)
        assert template_views([unmeasured], title="A job") == ()
        (page,) = template_views([measured, unmeasured], title="A job")
        assert page.ends == (measured,)
