"""Tests of `barwright.report.drawing.bar_end`: the drawing shows what the plan says."""

from __future__ import annotations

import functools
import math
import re
from typing import Any
from xml.etree import ElementTree as ET

import attrs
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.answers import EndAction, EndWork, ToothDatum, TurningSense
from barwright.parts import BarEndName, Side
from barwright.report.drawing.bar_end import bar_end_svg
from barwright.report.drawing.bar_end_view import BarEndView, bar_end_views
from barwright.units import unknown
from drawn import Drawn, Ring, points_of
from drawn_layout import faults_of, painted
from draws import draws
from sample_records import make_bar, make_end, make_setup
from setup_strategies import corners

UP = np.array([0.0, 0.0, 1.0])
WAYS = {TurningSense.CLOCKWISE: 1, TurningSense.COUNTER_CLOCKWISE: -1, None: 0}


@st.composite
def planned(draw: st.DrawFn) -> tuple[bw.Setup, bw.answers.Plan, bw.Setup]:
    """A corner, a plan for it, and the corner as it is now; an end may be seen from the other."""
    setup, height = draw(corners())
    small = st.integers(-3, 3)
    present = attrs.evolve(setup, arm_tooth=draw(small), anchor_tooth=draw(small))
    plans = bw.reindex(setup, wanted=bw.Wanted(height=height), present=present).plans
    assume(plans)
    plan = draw(st.sampled_from(plans))
    viewers = st.sampled_from(list(BarEndName))
    ends = tuple(seen_from(draw(viewers), work) for work in plan.ends)
    return setup, attrs.evolve(plan, ends=ends), present


def seen_from(viewer: BarEndName, work: EndWork) -> EndWork:
    """The same work as one at either end sees it: from the other, all turns the other way."""
    if viewer is work.seen_from:
        return work
    return attrs.evolve(
        work,
        seen_from=viewer,
        direction=work.direction and work.direction.reversed,
        key_direction=work.key_direction and work.key_direction.reversed,
    )


def right_handed(work: EndWork) -> int:
    """Whether a viewer sees a right-handed count about the axis, anchor to arm, clockwise."""
    # Who looks from the arm end looks against the axis.
    return -1 if work.seen_from is BarEndName.ARM else 1


def bumpward(setup: bw.Setup, work: EndWork) -> int:
    """Whether a viewer sees a bump clockwise, from the vectors of the corner."""
    mirror = np.array([1.0, -1.0 if setup.side is Side.RIGHT else 1.0, 1.0])
    bump = np.cross(mirror * np.array(setup.axle.arm_direction), UP)
    handed = 1 if float(bump @ (mirror * np.array(setup.axle.bar_axis))) > 0.0 else -1
    return handed * right_handed(work)


def end_of(setup: bw.Setup, work: EndWork) -> bw.parts.BarEnd:
    return setup.bar.arm_end if work.end is BarEndName.ARM else setup.bar.anchor_end


def ring_of(view: BarEndView) -> tuple[Drawn, Ring]:
    drawn = Drawn(bar_end_svg(view))
    (ring,) = drawn.rings(view.teeth)
    return drawn, ring


@settings(max_examples=draws(120))
@given(planned())
def test_teeth_blanks_cut_and_keys_are_where_plan_and_parts_have_them(
    case: tuple[bw.Setup, bw.answers.Plan, bw.Setup],
) -> None:
    setup, plan, present = case
    for view in bar_end_views(setup, plan, present=present):
        work, end = view.work, end_of(setup, view.work)
        drawn, ring = ring_of(view)
        missing = {right_handed(work) * b % end.teeth for b in end.blanks}
        after = WAYS[work.direction] * work.tooth % end.teeth
        now = present.arm_tooth if work.end is BarEndName.ARM else present.anchor_tooth
        before = bumpward(setup, work) * now % end.teeth

        assert ring.standing == set(range(end.teeth)) - missing
        assert math.isclose(ring.start, 0.0, abs_tol=1e-6), "the maker's blank is at the top"
        assert {ring.place_of(at) for at in drawn.middles("earlier")} == missing - {0}
        cut = {after} if work.action is EndAction.REMOVE_TOOTH else set()
        assert {ring.place_of(at) for at in drawn.middles("cut")} == cut
        assert {ring.place_of(at) for at in drawn.middles("cut-tooth")} == cut
        assert cut <= ring.standing
        keys = {n: [ring.place_of(at) for at in drawn.middles(n)] for n in KEYS}
        if view.keyed:
            assert keys["key_after"] == [after]
            assert keys["key_before"] == ([] if before == after else [before])
        else:
            assert set(keys["no_key"]) == {before, after}


KEYS = ("key_before", "key_after", "no_key")


@settings(max_examples=draws(120))
@given(planned())
def test_numbers_and_arrow_run_the_way_that_the_plan_counts(
    case: tuple[bw.Setup, bw.answers.Plan, bw.Setup],
) -> None:
    setup, plan, present = case
    for view in bar_end_views(setup, plan, present=present):
        work = view.work
        drawn, ring = ring_of(view)
        numbers = [(int(w), (x, y - 1.3)) for w, (x, y), _ in drawn.texts if w.isdigit()]
        way = WAYS[work.direction]

        assert bool(numbers) == bool(way)
        for number, at in numbers:
            assert ring.place_of(at) == way * number % view.teeth
        assert (work.tooth in dict(numbers)) == bool(way)
        apart = [math.dist(p, q) for _, p in numbers for _, q in numbers if p != q]
        assert min(apart, default=9.0) > 3.2, "numbers touch"
        for arrow in drawn.named("counting"):
            (x, _), *_, (end, _) = points_of(arrow)
            assert (end - x) * way > 0.0


@settings(max_examples=draws(60))
@given(planned())
def test_labels_and_title_say_what_the_plan_says(
    case: tuple[bw.Setup, bw.answers.Plan, bw.Setup],
) -> None:
    setup, plan, present = case
    for view in bar_end_views(setup, plan, present=present):
        work = view.work
        drawn, _ = ring_of(view)
        words = " ".join(drawn.words)
        seen = "arm end" if work.seen_from is BarEndName.ARM else "anchor end"

        assert words.startswith(f"Front {setup.side.value}, {work.end.value}")
        assert f"seen from the {seen}" in words
        assert ("REMOVE" in words) == (work.action is EndAction.REMOVE_TOOTH)
        if work.direction:
            datum = "the maker's blank" if end_of(setup, work).blanks else "the marked tooth"
            counted = f"tooth {work.tooth} {work.direction.value} from {datum}"
            assert counted in words
            assert f"tooth {work.tooth}" in drawn.words


def test_no_word_of_an_end_with_many_marks_lies_on_another_or_on_a_line() -> None:
    for view in many():
        assert faults_of(ring_of(view)[0]) == []


def test_no_label_lies_over_another() -> None:
    for view in many():
        drawn, ring = ring_of(view)
        labels = [
            (at, len(words))
            for words, at, e in drawn.texts
            if e.get("text-anchor") == "start" and abs(at[0] - ring.centre[0]) > ring.tip
        ]
        for (x, y), _ in labels:
            others = [b for (a, b), _ in labels if a == x and b != y]
            assert all(abs(y - other) > 3.0 for other in others)


def test_the_shape_that_a_label_names_stands_just_before_it() -> None:
    named = ("maker's blank", "REMOVE", "blank cut earlier", "key ")
    for view in many():
        drawn, _ = ring_of(view)
        shapes = [
            one.area.centroid
            for one, element in zip(painted(drawn), shown(drawn), strict=True)
            if not one.area.is_empty and element.get("data-name") is None
        ]
        labels = [
            at
            for words, at, e in drawn.texts
            if words.startswith(named) and e.get("text-anchor") == "start"
        ]
        assert labels
        for x, y in labels:
            assert any(1.0 < x - at.x < 3.5 and abs(y - 1.0 - at.y) < 0.5 for at in shapes)


def test_a_line_leads_from_the_middle_of_each_label_beside_an_end_to_its_place() -> None:
    """A label of a single line may stand half a line off it."""
    for view in many():
        drawn, ring = ring_of(view)
        leads = [
            sorted(points_of(e), key=lambda point: math.dist(point, ring.centre))
            for e in drawn.root
            if e.tag.endswith("path") and e.get("stroke-width") == "0.18"
        ]
        beside = [pair for pair in leads if len(pair) == 2 and pair[0][0] != pair[1][0]]
        assert beside
        for near, far in beside:
            assert math.dist(near, ring.centre) < ring.tip + 5.0
            texts = [
                at for _, at, e in drawn.texts if e.get("text-anchor") == "start" and at[1] > 16.0
            ]
            assert any(abs(y - 1.3 - far[1]) < 3.8 for _, y in texts)


def shown(drawn: Drawn) -> list[ET.Element]:
    """Elements that are drawn, in their order."""
    return [e for e in drawn.root if e.tag.rpartition("}")[2] in {"text", "path", "circle"}]


@functools.cache
def usual_view() -> BarEndView:
    """An end with a tooth to remove."""
    setup = make_setup(bar=make_bar(arm_end=make_end(39, blanks=(0, 2, 5))))
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    return bar_end_views(setup, plan, present=setup)[0]


def view_of(**change: object) -> BarEndView:
    """The same end, changed."""
    view = usual_view()
    work = {key: change.pop(key) for key in list(change) if hasattr(view.work, key)}
    return attrs.evolve(view, work=attrs.evolve(view.work, **work), **change)  # type: ignore[arg-type]


def cut(tooth: int, sense: TurningSense = TurningSense.CLOCKWISE, **change: object) -> BarEndView:
    return view_of(
        action=EndAction.REMOVE_TOOTH,
        tooth=tooth,
        direction=sense,
        on_key=bw.answers.BlankTooth.NEW,
        **({"keyed": True} | change),
    )


@functools.cache
def many() -> list[BarEndView]:
    """Ends with a tooth to remove here and there, counted both ways."""
    return [
        cut(tooth, sense, missing_teeth=(0, -1, 2, 3, 4), key_before=key)
        for tooth in (1, 7, 12, 19)
        for sense in TurningSense
        for key in (None, 0, 1, -5)
    ]


def test_a_key_that_another_part_had_is_not_drawn() -> None:
    setup = make_setup()
    other = attrs.evolve(setup.bar, title="Other bar")
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]

    now = bar_end_views(setup.with_parts(bar=other), plan, present=setup)
    assert [view.key_before for view in now] == [None, None]
    assert [view.key_before for view in bar_end_views(setup, plan, present=setup)] == [0, 0]


@pytest.mark.parametrize(
    ("change", "expected"),
    [
        ({"action": EndAction.STAYS, "tooth": 0, "direction": None}, "goes back as it was"),
        (
            {
                "action": EndAction.BLANK_ON_KEY,
                "tooth": 0,
                "direction": None,
                "on_key": bw.answers.BlankTooth.MAKERS,
            },
            "maker's blank goes on the key",
        ),
        (
            {
                "action": EndAction.BLANK_ON_KEY,
                "tooth": 2,
                "direction": TurningSense.COUNTER_CLOCKWISE,
                "on_key": bw.answers.BlankTooth.EARLIER,
            },
            "the earlier blank, tooth 2",
        ),
        (
            {
                "action": EndAction.NO_KEY,
                "tooth": 8,
                "direction": TurningSense.CLOCKWISE,
                "keyed": False,
            },
            "Where a key would be, put tooth 8 clockwise",
        ),
        (
            {"action": EndAction.NO_KEY, "tooth": 0, "direction": None, "keyed": False},
            "Where a key would be, put the maker's blank",
        ),
    ],
)
def test_each_kind_of_work_is_said_and_described(change: dict[str, object], expected: str) -> None:
    drawn = Drawn(bar_end_svg(view_of(**change)))

    assert re.search(expected, " ".join(drawn.words[-3:]))
    assert re.search(expected, drawn.root[1].text or "")
    assert "39 places, 3 blanks" in (drawn.root[1].text or "")


def test_a_bar_that_shows_nothing_is_drawn_with_its_painted_tooth_at_the_top() -> None:
    bar = make_bar(arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()))
    setup = make_setup(bar=bar, arm_keyed=False, anchor_keyed=False).with_reading(height="404 mm")
    plans = bw.reindex(setup, wanted=bw.Wanted(height="330 mm")).plans
    moved = next(plan for plan in plans if plan.disturbed)
    views = bar_end_views(setup, moved, present=setup)
    view = next(one for one in views if one.work.action is EndAction.NO_KEY)
    drawn, ring = ring_of(view)

    assert ring.standing == set(range(view.teeth))
    assert [ring.place_of(at) for at in drawn.middles("datum")] == [0]
    assert {"painted tooth", "socket's paint now", "MARK"} <= set(drawn.words)
    assert "To the paint on the socket goes" in " ".join(drawn.words)
    described = drawn.root[1].text or ""
    assert f"{view.teeth} places, no blank, the painted tooth at the top." in described


def test_the_marked_tooth_may_be_the_one_to_remove() -> None:
    view = cut(0, tooth_datum=ToothDatum.MARK, missing_teeth=(), key_before=None)
    work = attrs.evolve(view.work, direction=None)
    drawn = Drawn(bar_end_svg(attrs.evolve(view, work=work)))
    (at,) = drawn.middles("cut")

    assert at[0] == pytest.approx(float(drawn.root.attrib["width"].removesuffix("mm")) / 2.0)
    assert "REMOVE" in drawn.words
    assert not drawn.named("datum")


def test_the_description_says_which_tooth_faces_the_key_now() -> None:
    texts = [
        Drawn(bar_end_svg(cut(4, key_before=key, keyed=keyed))).root[1].text or ""
        for key, keyed in ((0, True), (-3, True), (3, False), (None, True))
    ]

    assert texts[0].endswith("The key now faces the maker's blank.")
    assert texts[1].endswith("now faces tooth 3 counter-clockwise.")
    assert texts[2].endswith("The socket has no key; its place now faces tooth 3 clockwise.")
    assert "now" not in texts[3]


@pytest.mark.parametrize("field", ["major_diameter", "root_diameter"])
def test_an_end_that_nobody_has_measured_shows_its_teeth_all_the_same(field: str) -> None:
    setup = make_setup()
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    for view in bar_end_views(setup, plan, present=setup):
        change: dict[str, Any] = {field: unknown()}
        _, ring = ring_of(attrs.evolve(view, **change))
        _, measured = ring_of(view)
        assert ring.standing == measured.standing


def test_a_nose_of_unknown_diameter_is_told_like_one_that_is_not_given() -> None:
    end = make_end(39, nose="3 mm", nose_diameter="unknown")
    setup = make_setup(bar=make_bar(arm_end=end))
    plan = bw.reindex(setup, wanted=bw.Wanted(height="380 mm")).plans[0]
    assert bar_end_views(setup, plan, present=setup)[0].nose_diameter is None
