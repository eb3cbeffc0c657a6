"""The length fit: where a bar lies, what must change, why it does not fit."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from barwright import Verdict
from barwright.answers import Topic
from sample_records import make_bar, make_end, make_setup


@pytest.fixture(scope="module")
def registry() -> bw.Registry:
    return bw.Registry.discover()


def topics(fit: bw.answers.LengthFit) -> set[Topic]:
    return {reason.topic for reason in fit.reasons}


def mm(value: bw.Quantity | None) -> float:
    assert value is not None
    return float(value.m_as("millimeter"))


# -- A bar longer than its sockets: the three cases of the demo ------------------


def test_splines_that_cover_both_inner_faces_leave_the_sockets_to_govern(
    registry: bw.Registry,
) -> None:
    van = registry.setup("fells:chassis/short", corner="front left")
    fit = bw.length_fit(van.with_parts(bar=bar_of(registry, "short-long-splines")))
    assert fit.verdict is Verdict.FITS
    # Inner faces of the sockets: 38 mm and 96 + 772 mm.
    assert mm(fit.engaged_span) == pytest.approx(868 - 38)
    assert all(mm(end.engagement) == pytest.approx(38) for end in fit.ends)
    assert all(mm(end.bare_head) > 1.0 for end in fit.ends)


def test_splines_that_reach_neither_inner_face_govern_by_their_own_edges(
    registry: bw.Registry,
) -> None:
    van = registry.setup("fells:chassis/short", corner="front left")
    bar = bar_of(registry, "short-reach")
    fit = bw.length_fit(van.with_parts(bar=bar))
    assert fit.verdict is Verdict.FITS
    between_splines = mm(bar.length) - mm(bar.arm_end.length) - mm(bar.anchor_end.length)
    assert mm(fit.engaged_span) == pytest.approx(between_splines)
    assert mm(fit.engaged_span) > 868 - 38
    assert all(mm(end.bare_head) == pytest.approx(0.0) for end in fit.ends)


def test_a_bar_that_cannot_lie_in_both_sockets_is_refused(registry: bw.Registry) -> None:
    van = registry.setup("fells:chassis/short", corner="front left")
    fit = bw.length_fit(van.with_parts(bar=bar_of(registry, "long-standard")))
    assert fit.verdict is Verdict.DOES_NOT_FIT
    assert fit.active_length is None
    assert fit.engaged_span is None
    (reason,) = [r for r in fit.reasons if r.topic is Topic.NO_OVERLAP]
    assert mm(quantity(reason.figure)) == pytest.approx(1075)
    # Anchor socket's outer face at 906 mm, plus both splines of 37 mm.
    assert mm(quantity(reason.limit)) == pytest.approx(906 + 74)


def test_a_bar_too_short_for_both_sockets_is_refused(registry: bw.Registry) -> None:
    van = registry.setup("fells:chassis/long", corner="front right")
    fit = bw.length_fit(van.with_parts(bar=bar_of(registry, "short-standard")))
    assert fit.verdict is Verdict.DOES_NOT_FIT
    (reason,) = [r for r in fit.reasons if r.topic is Topic.NO_OVERLAP]
    assert "too short" in reason.text
    assert mm(quantity(reason.limit)) == pytest.approx(96 + 943 - 38)


# -- Active length ----------------------------------------------------------------


def test_the_active_length_is_body_and_tapers_and_bare_heads() -> None:
    bar = make_bar(
        diameter="20 mm",
        arm_end=make_end(39, root_diameter="40 mm", major_diameter="41 mm", taper="30 mm"),
        anchor_end=make_end(42, root_diameter="25 mm", taper="10 mm"),
    )
    setup = make_setup(bar=bar, anchor={"bore": "60 mm"})
    fit = bw.length_fit(setup)
    q_arm, q_anchor = 20 / 40, 20 / 25
    body = 904 - 37 - 37 - 30 - 10
    cones = sum(length / 3 * q * (1 + q + q * q) for length, q in ((30, q_arm), (10, q_anchor)))
    bare = [mm(end.bare_head) for end in fit.ends]
    expected = body + cones + bare[0] * q_arm**4 + bare[1] * q_anchor**4
    assert mm(fit.active_length) == pytest.approx(expected, rel=1e-12)


def test_a_bore_through_the_bar_counts_in_its_tapers() -> None:
    solid, hollow = (
        bw.length_fit(make_setup(bar=make_bar(bore=bore))).active_length for bore in (None, "14 mm")
    )
    assert mm(hollow) < mm(solid)


# -- Position ---------------------------------------------------------------------


def test_the_bar_rests_against_a_stop_where_there_is_one(registry: bw.Registry) -> None:
    fit = bw.length_fit(registry.setup("fells:chassis/long", corner="front left"))
    # The stop is 6 mm outside the socket, the nose is 3 mm long.
    assert mm(fit.position) == pytest.approx(-3.0)
    assert mm(fit.free_from) == pytest.approx(-3.0)


def test_stops_closer_than_the_bar_is_long_are_a_reason() -> None:
    setup = make_setup(axle={"arm_stop": "0 mm", "anchor_stop": "900 mm"})
    fit = bw.length_fit(setup)
    (reason,) = [r for r in fit.reasons if r.topic is Topic.STOPS]
    assert (mm(quantity(reason.figure)), mm(quantity(reason.limit))) == (904.0, 900.0)


def test_the_noses_count_in_the_overall_length() -> None:
    bar = make_bar(arm_end=make_end(39, nose="3 mm"), anchor_end=make_end(42, nose="5 mm"))
    setup = make_setup(bar=bar, axle={"arm_stop": "-4 mm", "anchor_stop": "907 mm"})
    (reason,) = [r for r in bw.length_fit(setup).reasons if r.topic is Topic.STOPS]
    assert mm(quantity(reason.figure)) == pytest.approx(3 + 904 + 5)
    assert mm(quantity(reason.limit)) == pytest.approx(4 + 907)


@pytest.mark.parametrize(("anchor_stop", "fits"), [("904 mm", True), ("903.9 mm", False)])
def test_a_bar_as_long_as_the_space_between_its_stops_fits(anchor_stop: str, *, fits: bool) -> None:
    setup = make_setup(axle={"arm_stop": "0 mm", "anchor_stop": anchor_stop})
    assert (Topic.STOPS not in topics(bw.length_fit(setup))) is fits


def test_one_stop_leaves_any_room() -> None:
    for stop in ({"arm_stop": "-4 mm"}, {"anchor_stop": "910 mm"}):
        assert bw.length_fit(make_setup(axle=stop)).verdict is Verdict.FITS


def test_stops_that_hold_the_bar_away_from_its_sockets_are_named() -> None:
    setup = make_setup(axle={"arm_stop": "45 mm", "anchor_stop": "2000 mm"})
    (reason,) = [r for r in bw.length_fit(setup).reasons if r.topic is Topic.NO_OVERLAP]
    assert "stops" in reason.text


def test_short_engagement_is_a_reason_with_figure_and_limit() -> None:
    setup = make_setup(bar=make_bar(length="946 mm"))
    fit = bw.length_fit(setup)
    short = [r for r in fit.reasons if r.topic is Topic.ENGAGEMENT]
    assert {r.end for r in short} == {bw.parts.BarEndName.ARM, bw.parts.BarEndName.ANCHOR}
    for reason in short:
        assert mm(quantity(reason.figure)) < mm(quantity(reason.limit)) == 24.0


@pytest.mark.parametrize(("length", "fits"), [("932 mm", True), ("932.2 mm", False)])
def test_an_engagement_as_long_as_it_must_be_is_enough(length: str, *, fits: bool) -> None:
    # Outer faces 906 mm apart, splines of 37 mm: 13 mm stick out at either end, 24 mm engage.
    fit = bw.length_fit(make_setup(bar=make_bar(length=length)))
    assert (Topic.ENGAGEMENT not in topics(fit)) is fits


def test_what_sticks_out_may_fill_its_space() -> None:
    # Outer faces 906 mm apart: a bar of 932 mm lies 13 mm out at either end, and its nose more.
    bar = make_bar(length="932 mm", anchor_end=make_end(42, nose="9 mm"))
    for behind, fits in (("22 mm", True), ("21.9 mm", False)):
        fit = bw.length_fit(make_setup(bar=bar, axle={"space_behind": behind}))
        assert (Topic.SPACE_BEHIND not in topics(fit)) is fits
        assert mm(fit.ends[1].protrusion) == pytest.approx(13 + 9)


def test_what_sticks_out_must_have_its_space() -> None:
    bar = make_bar(anchor_end=make_end(42, nose="60 mm"))
    fit = bw.length_fit(make_setup(bar=bar))
    (reason,) = [r for r in fit.reasons if r.topic is Topic.SPACE_BEHIND]
    assert mm(quantity(reason.figure)) > mm(quantity(reason.limit)) == 44.0


@pytest.mark.parametrize(("length", "word"), [("980 mm", "too long"), ("792 mm", "too short")])
def test_a_bar_that_only_meets_its_sockets_lies_in_neither(length: str, word: str) -> None:
    # Outer faces lie 906 mm apart, with a spline of 37 mm beyond either of them; inner faces
    # 830 mm, with a gap of 38 mm that the arm's socket would have taken.
    (reason,) = [
        r
        for r in bw.length_fit(make_setup(bar=make_bar(length=length))).reasons
        if r.topic is Topic.NO_OVERLAP
    ]
    assert word in reason.text


# -- Mating and the way in ----------------------------------------------------------


def test_counts_and_forms_must_match() -> None:
    setup = make_setup()
    other = make_bar(arm_end=make_end(38), anchor_end=make_end(42, form="serration"))
    fit = bw.length_fit(setup.with_parts(bar=other))
    assert {Topic.TOOTH_COUNT, Topic.TOOTH_FORM} <= topics(fit)
    count = next(r for r in fit.reasons if r.topic is Topic.TOOTH_COUNT)
    assert (count.figure, count.limit, count.end) == (38, 39, bw.parts.BarEndName.ARM)


def test_a_head_that_does_not_pass_the_entry_is_a_reason() -> None:
    setup = make_setup(axle={"entry": bw.parts.BarEndName.ARM})
    fit = bw.length_fit(setup)
    (reason,) = [r for r in fit.reasons if r.topic is Topic.WAY_IN]
    assert reason.end is bw.parts.BarEndName.ANCHOR
    assert mm(quantity(reason.figure)) > mm(quantity(reason.limit))


def test_a_head_of_the_same_spline_passes_with_its_blank_on_the_key() -> None:
    bar = make_bar(arm_end=make_end(42), anchor_end=make_end(42))
    assert Topic.WAY_IN not in topics(bw.length_fit(make_setup(bar=bar)))


def test_a_head_or_body_too_thick_for_the_tube_is_a_reason() -> None:
    narrow = make_setup(anchor={"bore": "29 mm"})
    texts = [r.text for r in bw.length_fit(narrow).reasons if r.topic is Topic.WAY_IN]
    assert texts == ["the arm end does not pass the tube's bore"]
    thick = make_setup(bar=make_bar(diameter="31 mm"), anchor={"bore": "31 mm"})
    body = [r for r in bw.length_fit(thick).reasons if "body" in r.text]
    assert len(body) == 1


def test_what_is_as_thick_as_the_tube_is_wide_does_not_pass() -> None:
    # The head of 39 teeth is 0.75 mm times 40 over its teeth.
    for bore, passes in (("30 mm", False), ("30.1 mm", True)):
        fit = bw.length_fit(make_setup(anchor={"bore": bore}))
        assert (Topic.WAY_IN not in topics(fit)) is passes
    thick = make_bar(diameter="30.3 mm")
    for bore, passes in (("30.3 mm", False), ("30.4 mm", True)):
        fit = bw.length_fit(make_setup(bar=thick, anchor={"bore": bore}))
        assert (Topic.WAY_IN not in topics(fit)) is passes


def test_a_bar_drawn_to_the_arm_passes_the_sockets_of_the_arm() -> None:
    fit = bw.length_fit(make_setup(axle={"entry": bw.parts.BarEndName.ARM}))
    # Roots of the 39 teeth, 0.75 mm times 37.5, and 0.45 mm of clearance.
    assert mm(fit.largest_body) == pytest.approx(28.125 + 0.45)


def test_teeth_that_only_touch_those_of_the_socket_are_too_short() -> None:
    setup = make_setup()
    socket = attrs.evolve(setup.arm.socket, minor_diameter=setup.bar.arm_end.major_diameter)
    fit = bw.length_fit(setup.with_parts(arm=attrs.evolve(setup.arm, socket=socket)))
    assert [r.text for r in fit.reasons] == ["the bar's teeth do not reach the socket's teeth"]


def test_the_largest_body_is_what_socket_and_tube_let_pass() -> None:
    setup = make_setup(anchor={"bore": "30.9 mm"})
    assert mm(bw.length_fit(setup).largest_body) == pytest.approx(30.825)
    setup = make_setup(anchor={"bore": "30.3 mm"})
    assert mm(bw.length_fit(setup).largest_body) == pytest.approx(30.3)


# -- Sides ---------------------------------------------------------------------------


def test_a_preset_bar_fits_one_side_only(registry: bw.Registry) -> None:
    left, right = (
        registry.setup("fells:chassis/short", corner=f"front {side}") for side in ("left", "right")
    )
    bar = bar_of(registry, "short-preset-left")
    assert bw.length_fit(left.with_parts(bar=bar)).verdict is Verdict.FITS
    wrong = bw.length_fit(right.with_parts(bar=bar))
    assert wrong.verdict is Verdict.DOES_NOT_FIT
    assert topics(wrong) == {Topic.WRONG_SIDE}


def test_blanks_set_apart_on_the_wrong_side_err_by_twice_their_angle(
    registry: bw.Registry,
) -> None:
    right = registry.setup("fells:chassis/short", corner="front right")
    bar = bar_of(registry, "short-angled-left")
    fit = bw.length_fit(right.with_parts(bar=bar))
    assert fit.verdict is Verdict.FITS_WITH_CHANGES
    (change,) = fit.changes
    assert quantity(change.figure).m_as("degree") == pytest.approx(2 * 4.3)
    proper = right.with_parts(bar=bar_of(registry, "short-angled-right"))
    free = [bw.ride(s).free_angle for s in (proper, right.with_parts(bar=bar))]
    assert free[0] is not None
    assert free[1] is not None
    assert abs(float((free[1] - free[0]).m_as("degree"))) == pytest.approx(2 * 4.3)


# -- Ends without a blank -----------------------------------------------------------------


def bare_bar(arm: int = 39, anchor: int = 42) -> bw.parts.Bar:
    return make_bar(arm_end=make_end(arm, blanks=()), anchor_end=make_end(anchor, blanks=()))


def test_an_end_without_a_blank_needs_one_cut_for_a_key() -> None:
    fit = bw.length_fit(make_setup(bar=bare_bar(), arm_keyed=False))
    assert fit.verdict is Verdict.FITS_WITH_CHANGES
    (change,) = fit.changes
    assert change.line == (
        "no blank for the socket's key: cut the tooth that the plan names, or clear the key "
        "(anchor end)"
    )
    free = bw.length_fit(make_setup(bar=bare_bar(), arm_keyed=False, anchor_keyed=False))
    assert free.verdict is Verdict.FITS


@pytest.mark.parametrize(
    ("arm_keyed", "anchor_keyed", "passes"),
    [(False, False, True), (False, True, False), (True, True, True), (True, False, True)],
)
def test_the_leading_end_passes_a_key_of_its_own_spline_by_the_tooth_that_is_cut(
    *, arm_keyed: bool, anchor_keyed: bool, passes: bool
) -> None:
    """The arm end goes in at the anchor; it gets its blank only for a key of its own."""
    setup = make_setup(bar=bare_bar(40, 40), arm_keyed=arm_keyed, anchor_keyed=anchor_keyed)
    fit = bw.length_fit(setup)
    assert (fit.verdict is not Verdict.DOES_NOT_FIT) is passes
    if not passes:
        (reason,) = fit.reasons
        assert reason.topic is Topic.WAY_IN
        assert "it has no blank for the key; remove that key or cut a tooth" in reason.text


@pytest.mark.parametrize("kind", ["arm", "anchor"])
def test_a_part_made_for_the_other_side_is_a_reason(kind: str) -> None:
    made: dict[str, Any] = {kind: {"made_for": bw.parts.Side.RIGHT}}
    setup = make_setup(**made)
    (reason,) = bw.length_fit(setup).reasons
    assert (reason.topic, reason.figure, reason.limit) == (Topic.WRONG_SIDE, "right", "left")


# -- Donor parts -----------------------------------------------------------------------


def test_a_longer_tube_asks_for_new_cap_holes(registry: bw.Registry) -> None:
    van = registry.setup("fells:chassis/short", corner="front left")
    donor = registry.setup("fells:chassis/middle", corner="front left")
    fit = bw.length_fit(van.with_parts(anchor=donor.anchor, bar=donor.bar))
    assert fit.verdict is Verdict.FITS_WITH_CHANGES
    assert [c.topic for c in fit.changes] == [Topic.SWAPPED_ANCHOR, Topic.NEW_CAP_HOLES]
    assert mm(fit.cap_offset) == pytest.approx(86.0)
    assert mm(fit.lever_offset) == pytest.approx(0.0)


def test_a_lever_off_its_bolt_is_a_reason() -> None:
    setup = make_setup(anchor={"lever_position": "44 mm"})
    (reason,) = bw.length_fit(setup).reasons
    assert reason.topic is Topic.LEVER_OFF_BOLT
    assert mm(quantity(reason.figure)) == pytest.approx(13.0)


@pytest.mark.parametrize("position", ["44 mm", "18 mm"])
def test_a_lever_may_use_up_its_allowance_either_way(position: str) -> None:
    # On its bolt at 31 mm: 13 mm off.
    for allowance, fits in (("13 mm", True), ("12.9 mm", False)):
        axle = {"lever_allowance": allowance}
        fit = bw.length_fit(make_setup(axle=axle, anchor={"lever_position": position}))
        assert (fit.verdict is Verdict.FITS) is fits


@pytest.mark.parametrize("position", ["795 mm", "783 mm"])
def test_a_cap_may_use_up_its_allowance_either_way(position: str) -> None:
    # On its holes at 789 mm: 6 mm off.
    for allowance, is_change in (("6 mm", False), ("5.9 mm", True)):
        axle = {"cap_allowance": allowance}
        fit = bw.length_fit(make_setup(axle=axle, anchor={"cap_position": position}))
        assert (Topic.NEW_CAP_HOLES in [c.topic for c in fit.changes]) is is_change


def test_a_swapped_arm_is_a_change() -> None:
    setup = make_setup()
    other = make_setup(arm={"id": "t:arm/other"}).arm
    fit = bw.length_fit(setup.with_parts(arm=other))
    assert [c.topic for c in fit.changes] == [Topic.SWAPPED_ARM]


# -- What else must go together ---------------------------------------------------------


def test_a_damper_for_another_suspension_is_a_reason_and_no_error() -> None:
    short = {"open_length": "300 mm", "closed_length": "200 mm"}
    setup = make_setup(damper=short)
    (reason,) = bw.length_fit(setup).reasons
    assert reason.topic is Topic.TRAVEL
    assert bw.reindex(setup).verdict is bw.Verdict.DOES_NOT_FIT


@pytest.mark.parametrize(
    ("damper", "fits"),
    [
        ({"open_length": "900 mm", "closed_length": "800 mm"}, False),  # it never closes so far
        ({"open_length": "900 mm", "closed_length": "486 mm"}, True),
        ({"open_length": "674 mm", "closed_length": "300 mm"}, True),
    ],
)
def test_a_damper_must_work_somewhere_between_the_arms_stops(
    damper: dict[str, str], *, fits: bool
) -> None:
    assert (Topic.TRAVEL not in topics(bw.length_fit(make_setup(damper=damper)))) is fits


def test_a_lever_that_does_not_reach_its_bolt_is_a_reason_and_no_error() -> None:
    setup = make_setup(anchor={"lever_radius": "30 mm"})
    (reason,) = bw.length_fit(setup).reasons
    assert reason.topic is Topic.THREAD
    assert bw.rates(setup).figures is None
    assert bw.ride(setup).free_angle is None
    assert bw.reindex(setup).removal == ()


def test_an_arm_geometry_that_cannot_close_is_an_error_that_names_the_vehicle() -> None:
    setup = make_setup(
        axle={
            "suspension": bw.parts.StrutMounting(
                top_outboard="330 mm", top_up="1 mm", offset="90 mm"
            )
        }
    )
    with pytest.raises(bw.GeometryError) as caught:
        bw.length_fit(setup)
    assert caught.value.code == "G101"
    assert caught.value.key.startswith("t:chassis/one.front left")


def bar_of(registry: bw.Registry, name: str) -> bw.parts.Bar:
    part = registry.part(f"fells:bar/{name}")
    assert isinstance(part, bw.parts.Bar)
    return part


def quantity(value: object) -> bw.Quantity:
    assert isinstance(value, bw.Quantity)
    return value


@pytest.mark.parametrize("end", ["arm", "anchor"])
def test_a_socket_whose_teeth_stand_on_the_roots_of_the_bar_takes_no_bar(end: str) -> None:
    setup = make_setup()
    roots = getattr(setup.bar, f"{end}_end").root_diameter
    part = getattr(setup, end)
    for minor, fits in ((roots, True), (roots - bw.Quantity(0.1, "mm"), False)):
        socket = attrs.evolve(part.socket, minor_diameter=minor)
        answer = bw.length_fit(setup.with_parts(**{end: attrs.evolve(part, socket=socket)}))
        reported = [f for f in answer.reasons if f.topic is bw.answers.Topic.TOOTH_DEPTH]
        assert (reported == []) is fits
        if not fits:
            assert answer.verdict is bw.Verdict.DOES_NOT_FIT
            assert (reported[0].figure, reported[0].limit) == (minor, roots)
            assert reported[0].end is bw.parts.BarEndName(f"{end} end")
