"""Tests of `barwright.report.drawing.bar_axis`: lengths along the axis are true."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.drawing.bar_axis import bar_axis_svg
from barwright.report.drawing.bar_axis_view import bar_axis_view
from drawn import XY, Drawn, points_of
from drawn_layout import one_sided
from sample_records import make_bar, make_end, make_setup

NOSED = make_bar(arm_end=make_end(39, nose="5 mm"), anchor_end=make_end(42, nose="9 mm"))
SETUPS = {
    "tube": make_setup(bar=NOSED),
    "long bar": make_setup(bar=make_bar(length="921 mm")),
    "short bar": make_setup(bar=make_bar(length="880 mm")),
    "no overlap": make_setup(bar=make_bar(length="700 mm")),
    "key lever": on_key_lever(),
    "fixed socket": on_fixed(),
}


def drawn_of(setup: bw.Setup) -> tuple[Drawn, bw.answers.LengthFit]:
    fit = bw.length_fit(setup)
    return Drawn(bar_axis_svg(bar_axis_view(setup, fit))), fit


def mm(length: bw.Quantity) -> float:
    return float(length.m_as("mm"))


@pytest.mark.parametrize("name", SETUPS)
def test_engagement_and_what_sticks_out_are_to_scale(name: str) -> None:
    setup = SETUPS[name]
    drawn, fit = drawn_of(setup)
    splines, sockets, noses = (drawn.spans(n) for n in ("spline", "socket", "nose"))
    scale = (splines[1][1] - splines[0][0]) / mm(setup.bar.length)

    for end, spline, socket in zip(fit.ends, splines, sockets, strict=True):
        overlap = min(spline[1], socket[1]) - max(spline[0], socket[0])
        assert max(overlap, 0.0) == pytest.approx(scale * mm(end.engagement), abs=0.01)
    out = (sockets[0][0] - noses[0][0], noses[1][1] - sockets[1][1])
    for end, length in zip(fit.ends, out, strict=True):
        assert max(length, 0.0) == pytest.approx(scale * mm(end.protrusion), abs=0.01)


def test_lever_and_cap_lie_where_the_tube_has_them() -> None:
    setup = SETUPS["tube"]
    drawn, _ = drawn_of(setup)
    (start, end), (zero, _) = drawn.spans("socket")[1], drawn.spans("socket")[0]
    scale = (end - start) / 38.0

    assert drawn.middles("lever")[0][0] - zero == pytest.approx(scale * (96 + 31), abs=0.01)
    assert drawn.middles("cap")[0][0] - zero == pytest.approx(scale * (96 + 789), abs=0.01)


@pytest.mark.parametrize("name", SETUPS)
def test_all_but_the_lever_lies_evenly_about_the_axis(name: str) -> None:
    drawn, _ = drawn_of(SETUPS[name])
    axis = drawn.middles("spline")[0][1]

    assert one_sided(drawn, axis=axis) == ["lever"] * len(drawn.named("lever"))


@pytest.mark.parametrize("name", SETUPS)
def test_splines_are_as_thick_as_they_are_and_their_lines_lie_evenly_within(name: str) -> None:
    setup = SETUPS[name]
    drawn, _ = drawn_of(setup)
    ends = (setup.bar.arm_end, setup.bar.anchor_end)
    thick = [
        max(y for _, y in points_of(e)) - min(y for _, y in points_of(e))
        for e in drawn.named("spline")
    ]
    assert thick[0] / thick[1] == pytest.approx(
        mm(ends[0].major_diameter) / mm(ends[1].major_diameter), abs=0.01
    )
    axis = drawn.middles("spline")[0][1]
    lines = _two([points_of(e) for e in drawn.root if e.tag.endswith("path")])
    for (left, right), height in zip(drawn.spans("spline"), thick, strict=True):
        along = [(p[1], q[1]) for p, q in lines if (p[0], q[0]) == (left, right)]
        assert all(start == end for start, end in along)
        places = sorted(start - axis for start, _ in along)
        assert len(places) == 6
        assert places == pytest.approx([-y for y in reversed(places)], abs=0.01)
        assert height / 4.0 < max(places) < height / 2.0


def test_the_cap_lies_outside_the_tube_on_both_sides() -> None:
    drawn, _ = drawn_of(SETUPS["tube"])
    axis = drawn.middles("spline")[0][1]
    spans = sorted(sorted(y - axis for _, y in points_of(e))[::3] for e in drawn.named("cap"))
    (far, near), (other_near, other_far) = spans
    assert far < near < -10.0
    assert (other_near, other_far) == pytest.approx((-near, -far))


def test_the_line_of_the_bolt_passes_over_the_whole_lever_and_that_of_the_holes_over_the_cap() -> (
    None
):
    drawn, _ = drawn_of(SETUPS["tube"])
    dashed = sorted(points_of(e) for e in drawn.root if e.get("stroke-dasharray"))

    for line, part in zip(dashed, ("lever", "cap"), strict=True):
        heights = [y for one in drawn.named(part) for _, y in points_of(one)]
        assert line[0][1] < min(heights)
        assert line[-1][1] > max(heights)


@pytest.mark.parametrize("name", SETUPS)
def test_a_line_leads_from_the_middle_of_each_name_to_its_part(name: str) -> None:
    drawn, _ = drawn_of(SETUPS[name])
    names = {w: at for w, at, _ in drawn.texts if at[1] == pytest.approx(15.0)}
    lines = [points_of(e) for e in drawn.root if e.tag.endswith("path")]
    leads = {
        word: end for word, (x, _) in names.items() for start, end in _two(lines) if start[0] == x
    }

    assert set(leads) == set(names) >= {"arm", "anchor socket"}
    sockets = drawn.spans("socket")
    for word, (low, high) in zip(("arm", "anchor socket"), sockets, strict=True):
        assert low <= leads[word][0] <= high
    for word in {"lever", "cap"} & set(names):
        assert leads[word][0] == pytest.approx(drawn.middles(word)[0][0], abs=0.01)
    # Names move aside for others only.
    for word, (x, _) in names.items():
        assert leads[word][0] - 25.0 < x < leads[word][0] + 25.0


def _two(lines: list[list[XY]]) -> list[tuple[XY, XY]]:
    return [(line[0], line[1]) for line in lines if len(line) == 2]


def test_figures_of_both_ends_are_written() -> None:
    drawn, fit = drawn_of(SETUPS["tube"])
    words = " ".join(drawn.words)

    for end in fit.ends:
        assert f"{bw.units.shown(end.engagement, 1)} engaged (24.0 mm needed)" in words
        assert f"{bw.units.shown(end.protrusion, 1)} sticks out" in words
    assert "nothing sticks out" in " ".join(drawn_of(SETUPS["short bar"])[0].words)
    assert "times too large" in words


def test_a_lever_off_its_bolt_and_a_cap_off_its_holes_are_told() -> None:
    setup = make_setup(
        axle={"lever_allowance": "40 mm", "bolt_position": "120 mm", "cap_holes_position": "900 mm"}
    )
    words = drawn_of(setup)[0].words

    assert "The lever lies 7.0 mm from its bolt, toward the anchor." in words
    assert "The cap lies 15.0 mm from its holes, toward the arm." in words
    assert not any("from its" in w for w in drawn_of(SETUPS["tube"])[0].words)


@pytest.mark.parametrize(
    ("name", "there", "missing"),
    [
        ("tube", {"arm", "tube", "cap", "lever", "anchor socket"}, set()),
        ("key lever", {"arm", "lever", "anchor socket"}, {"tube", "cap"}),
        ("fixed socket", {"arm", "anchor socket"}, {"tube", "cap", "lever"}),
    ],
)
def test_each_part_has_its_name(name: str, there: set[str], missing: set[str]) -> None:
    words = set(drawn_of(SETUPS[name])[0].words)

    assert there <= words
    assert not missing & words


def test_a_cap_whose_place_is_not_known_is_left_out() -> None:
    setup = make_setup()
    known = bar_axis_view(setup, bw.length_fit(setup))
    assert isinstance(setup.anchor, bw.parts.Tube)
    unmeasured = setup.with_parts(anchor=attrs.evolve(setup.anchor, cap_position="unknown"))
    view = bar_axis_view(unmeasured, bw.length_fit(unmeasured))
    assert known.cap_place is not None
    assert (view.cap_place, view.lever_place) == (None, known.lever_place)
    assert "cap" not in " ".join(Drawn(bar_axis_svg(view)).words)
