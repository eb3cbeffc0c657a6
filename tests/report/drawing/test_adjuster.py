"""Tests of `barwright.report.drawing.adjuster`: the bolt is to scale, and as the plan sets it."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.parts import LeverSide
from barwright.report.drawing.adjuster import AdjusterView, adjuster_svg, adjuster_view
from barwright.report.unit_system import in_units
from drawn import Drawn, points_of
from drawn_layout import one_sided, painted
from sample_records import fixed_line, make_setup, swivelling

PULL, PUSH = LeverSide.BUMPWARD, LeverSide.DROOPWARD


def view_of(setup: bw.Setup, height: str = "390 mm") -> AdjusterView:
    plan = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans[0]
    view = adjuster_view(setup, plan)
    assert view is not None
    return view


NUTS = [
    view_of(make_setup(adjuster={"lever_lies": side, "mounting": mounting, "spacer": spacer}))
    for side, mounting in ((PULL, swivelling()), (PULL, fixed_line()))
    for spacer in ("0 mm", "6 mm")
]
PUSHED = view_of(
    make_setup(
        anchor_key="-1 deg",
        adjuster={"lever_lies": PUSH, "mounting": swivelling(pivot_angle="277 deg")},
    )
)
BOLT = view_of(on_key_lever())
# Neither before nor beyond its arrows there is room for words.
NEAR = attrs.evolve(
    NUTS[0],
    pin_distance=bw.Quantity(20.0, "mm"),
    nut_start=bw.Quantity(20.0, "mm"),
    thread_start=bw.Quantity(15.0, "mm"),
)


def mm(length: bw.Quantity | None) -> float:
    assert length is not None
    return float(length.m_as("mm"))


def arrows(drawn: Drawn) -> list[float]:
    """Lengths of the arrows that run straight along the bolt: toward the datum, and away."""
    tips = [points_of(head)[0] for head in drawn.named("arrowhead")]
    left_over = [tip for tip in tips if tip[1] > 40.0]
    return [x for x, _ in sorted(left_over, key=lambda tip: tip[1])]


@pytest.mark.parametrize("view", [*NUTS, PUSHED])
def test_pin_nut_and_thread_lie_to_scale(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))
    (_, end), (left, right) = drawn.spans("thread")[0], drawn.spans("nut")[0]
    (pin, _), (start, _) = drawn.middles("pin")[0], drawn.spans("thread")[0]
    scale = (end - start) / (mm(view.thread_end) - mm(view.thread_start))

    assert right - left == pytest.approx(scale * mm(view.nut_height), abs=0.01)
    assert end - pin == pytest.approx(
        scale * (mm(view.thread_end) - mm(view.pin_distance)), abs=0.01
    )
    assert start <= left + 0.01
    assert right <= end + 0.01


@pytest.mark.parametrize("view", [*NUTS, PUSHED, BOLT])
def test_all_but_the_lever_lies_evenly_about_the_bolts_axis(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))
    thread = drawn.named("thread")[0]
    ys = [y for _, y in points_of(thread)]
    inward, outward = arrows(drawn)
    scale = (outward - inward) / (mm(view.thread_end) - mm(view.thread_start))

    assert max(ys) - min(ys) == pytest.approx(scale * mm(view.thread_diameter), abs=0.01)
    assert len(one_sided(drawn, axis=(max(ys) + min(ys)) / 2.0)) == 1


def test_the_head_of_a_bolt_stands_at_the_beginning_of_its_thread() -> None:
    drawn = Drawn(adjuster_svg(BOLT))
    start, _ = drawn.spans("thread")[0]
    shapes = [one.area.bounds for one in painted(drawn) if one.hides]
    thread_height = 2.0 * max(abs(y - 31.5) for _, y in points_of(drawn.named("thread")[0]))
    heads = [
        (right - left, bottom - top)
        for left, top, right, bottom in shapes
        if right == pytest.approx(start, abs=0.01) and bottom - top > thread_height
    ]
    # Two thirds of the thread high and 1.6 times as wide: common practice, no source.
    assert heads == [pytest.approx((0.65 * thread_height, 1.6 * thread_height), rel=0.01)]


@pytest.mark.parametrize("view", [*NUTS, PUSHED])
def test_the_shank_of_a_bolt_is_as_thick_as_its_thread_and_the_nut_thicker(
    view: AdjusterView,
) -> None:
    drawn = Drawn(adjuster_svg(view))
    (thread,), (nut,) = (drawn.named(name) for name in ("thread", "nut"))
    low, high = (find(y for _, y in points_of(thread)) for find in (min, max))
    start, _ = drawn.spans("thread")[0]
    shanks = [
        one.area.bounds[1::2]
        for one in painted(drawn)
        if not one.is_text and one.area.bounds and abs(one.area.bounds[2] - start) < 0.01
    ]
    assert (low, high) in shanks
    assert max(y for _, y in points_of(nut)) - high == pytest.approx(0.4 * (high - low), abs=0.01)


@pytest.mark.parametrize("view", [*NUTS, PUSHED, BOLT, NEAR])
def test_turns_that_are_left_are_written_level_with_their_arrow(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))
    tips = sorted({points_of(head)[0][1] for head in drawn.named("arrowhead")})[-2:]
    written = [(y, float(e.attrib["font-size"])) for w, (_, y), e in drawn.texts if " turns " in w]

    assert [y - 0.35 * size for y, size in sorted(written)] == pytest.approx(tips, abs=0.3)


@pytest.mark.parametrize("view", [*NUTS, PUSHED, BOLT])
def test_the_arrows_are_as_long_as_the_turns_that_are_left(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))
    inward, outward = arrows(drawn)
    scale = (outward - inward) / (mm(view.thread_end) - mm(view.thread_start))
    faces = drawn.spans("nut")[0] if drawn.named("nut") else (drawn.spans("thread")[0][1],) * 2
    pitch = scale * mm(view.thread_pitch)
    lengths = (faces[0] - inward, outward - faces[1])
    turns = [
        float(t.magnitude) for t in (view.turns_left_clockwise, view.turns_left_counter_clockwise)
    ]
    # The plan counts whole flats.
    flats = pytest.approx(turns if view.clockwise_is_inward else turns[::-1], abs=1.0 / 6.0 + 0.01)

    assert [length / pitch for length in lengths] == flats


@pytest.mark.parametrize("view", [*NUTS, PUSHED, BOLT])
def test_words_name_the_sense_at_the_arrow_that_it_leads_along(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))
    rows = [(y, w) for w, (_, y), _ in drawn.texts if " turns " in w and w[0].isdigit()]
    inward, outward = (words.rpartition(" ")[2] for _, words in sorted(rows))

    assert view.clockwise_is_inward == (inward == "clockwise")
    assert {inward, outward} == {"clockwise", "counter-clockwise"}
    assert bw.units.shown(view.pin_distance, 1) in drawn.words


@pytest.mark.parametrize("view", NUTS)
def test_a_nut_that_pulls_lies_beyond_the_pin_and_its_spacer(view: AdjusterView) -> None:
    drawn = Drawn(adjuster_svg(view))

    assert drawn.spans("nut")[0][0] >= drawn.middles("pin")[0][0] - 0.01


def test_a_nut_that_pushes_lies_short_of_the_pin() -> None:
    drawn = Drawn(adjuster_svg(PUSHED))

    assert drawn.spans("nut")[0][1] <= drawn.middles("pin")[0][0] + 0.01


def test_where_it_is_measured_from_is_said() -> None:
    words = [" ".join(Drawn(adjuster_svg(view)).words) for view in (NUTS[0], NUTS[2], BOLT)]

    assert "from the bolt's pivot to the lever's pin" in words[0]
    assert "from the bolt's head to the lever's pin" in words[1]
    assert "from the cross-member to the bolt's end" in words[2]


def test_a_fixed_socket_has_no_drawing_of_an_adjuster() -> None:
    setup = on_fixed()
    answer = bw.reindex(setup)

    assert adjuster_view(setup, (answer.plans or answer.rejected)[0]) is None


@pytest.mark.parametrize(
    "unknown",
    [
        *("pin_distance", "raising_sense", "height_per_turn"),
        *("turns_left_clockwise", "turns_left_counter_clockwise"),
    ],
)
def test_a_plan_that_lacks_a_figure_of_the_bolt_has_no_drawing_of_it(unknown: str) -> None:
    setup = make_setup()
    plan = bw.reindex(setup, wanted=bw.Wanted(height="390 mm")).plans[0]

    assert adjuster_view(setup, attrs.evolve(plan, **{unknown: None})) is None  # type: ignore[arg-type]


def test_inch_figures_are_drawn_alike() -> None:
    metric, inch = (Drawn(adjuster_svg(v)) for v in (NUTS[0], in_units(NUTS[0], "inch")))

    assert [e.attrib for e in metric.named("nut")] == [e.attrib for e in inch.named("nut")]
    assert any(words.endswith(" in") for words in inch.words)


def test_a_fine_thread_is_not_drawn_as_a_black_field() -> None:
    fine = attrs.evolve(NUTS[0], thread_pitch=bw.Quantity(0.5, "mm"))
    lines = [len(Drawn(adjuster_svg(view)).root) for view in (fine, NUTS[0])]

    assert lines[0] < 1.6 * lines[1]


def test_words_stand_beyond_an_arrow_or_on_it_where_there_is_no_room_before_it() -> None:
    drawn = Drawn(adjuster_svg(NEAR))
    found = [(at[0], e.attrib["text-anchor"]) for w, at, e in drawn.texts if " turns " in w]
    (_, nut_end), (_, thread_end) = drawn.spans("nut")[0], drawn.spans("thread")[0]

    assert [anchor for _, anchor in found] == ["start", "middle"]
    places = [drawn.middles("pin")[0][0] + 1.0, (nut_end + thread_end) / 2.0]
    assert [x for x, _ in found] == pytest.approx(places)
