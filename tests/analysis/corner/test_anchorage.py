"""Tests of corners without a torque tube: key levers on a cross-member, fixed sockets."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import fixed_socket, key_bolt, key_lever, on_fixed, on_key_lever
from barwright.analysis.corner.anchorage import change_per_turn, setting_span, turned
from barwright.analysis.corner.corner import Corner
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from sample_records import known, make_bar, make_setup, swing_arm_mounting

DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}


def deep(**change: Any) -> bw.Setup:
    """A fixed socket, and so much droop that its bar comes loose within the travel."""
    return on_fixed(**(DEEP | change))


def degrees(value: bw.Quantity) -> float:
    return float(value.m_as("degree"))


def si(value: bw.Quantity | None, unit: str) -> float:
    assert value is not None
    return float(value.m_as(unit))


# -- The kernel and its setting ------------------------------------------------------------


def test_a_bolt_against_a_key_lever_is_turned_itself() -> None:
    model = Corner(on_key_lever())
    adjuster = model.setup.adjuster
    assert turned(adjuster) is bw.answers.TurnedPart.BOLT
    assert setting_span(adjuster) == (0.020, 0.044)
    assert change_per_turn(adjuster) == 0.0015
    assert model.turns_span == pytest.approx((-8.0, 8.0))
    # Square to the bolt, the end stands so far short of its foot that the face meets it.
    assert math.degrees(model.lever_middle) == pytest.approx(180.0)
    assert model.turns_at_lever(float(model.lever_at_turns(2.5))) == pytest.approx(2.5)
    assert model.lever_at_turns(1.0) < model.lever_at_turns(0.0)


def test_a_nut_is_turned_on_a_bolt_that_holds_a_pin() -> None:
    adjuster = make_setup().adjuster
    assert turned(adjuster) is bw.answers.TurnedPart.NUT
    assert change_per_turn(adjuster) == -0.00175


def test_the_stretch_beyond_the_foot_is_the_one_that_the_pack_names() -> None:
    # A face that begins beyond the foot's contact, which is at 48 mm.
    face = {"face_start": "55 mm", "face_end": "80 mm"}
    spans = {}
    for stretch in bw.parts.ContactSide:
        adjuster = {"mounting": key_bolt(stretch=stretch)}
        spans[stretch] = Corner(on_key_lever(face, adjuster)).anchorage.reach
    # The bolt goes forward in the droop sense, so that bumpward of its foot it is short.
    assert (
        spans[bw.parts.ContactSide.BUMPWARD][1] < 0.046 < spans[bw.parts.ContactSide.DROOPWARD][0]
    )


def test_a_lever_out_of_a_bolts_reach_is_no_number_of_turns_away() -> None:
    assert Corner(on_key_lever()).turns_at_lever(0.0) == math.inf
    fixed = Corner(on_fixed())
    assert fixed.turns_at_lever(0.0) == math.inf
    assert fixed.turns_at_lever(math.pi) == 0.0


def test_a_fixed_socket_has_one_angle_and_nothing_to_turn() -> None:
    model = Corner(on_fixed())
    assert turned(None) is None
    assert (model.setting_span, change_per_turn(None)) == ((0.0, 0.0), 0.0)
    assert model.turns_span == (0.0, 0.0)
    assert model.lever_span == pytest.approx((math.pi, math.pi))
    assert model.lever_closes


# -- Fit -----------------------------------------------------------------------------------


def test_only_a_tube_has_a_cap_a_bore_and_a_rate() -> None:
    key, fixed = bw.length_fit(on_key_lever()), bw.length_fit(on_fixed())
    assert (si(key.lever_offset, "mm"), key.cap_offset) == (0.0, None)
    assert (fixed.lever_offset, fixed.cap_offset) == (None, None)
    # The anchor socket alone limits what goes in.
    assert key.largest_body == on_key_lever().anchor.socket.minor_diameter
    for setup in (on_key_lever(), on_fixed()):
        figures = bw.rates(setup).figures
        assert figures is not None
        assert figures.tube_rate is None
        assert figures.system_rate == figures.bar_rate


def test_a_key_lever_off_its_bolt_is_named() -> None:
    (reason,) = bw.length_fit(on_key_lever({"lever_position": "40 mm"})).reasons
    assert reason.text == "the key lever is too far from the adjuster's bolt"


def test_a_bolt_that_leaves_the_face_does_not_fit() -> None:
    setup = on_key_lever({"face_end": "49 mm"})
    (reason,) = bw.length_fit(setup).reasons
    assert "leaves the key lever's face" in reason.text
    assert bw.rates(setup).verdict is bw.Verdict.DOES_NOT_FIT


@pytest.mark.parametrize("what", ["key lever", "fixed socket"])
def test_an_anchor_made_for_the_other_side_is_named(what: str) -> None:
    made = {"made_for": bw.parts.Side.RIGHT}
    setup = on_key_lever(made) if what == "key lever" else on_fixed(made)
    (reason,) = bw.length_fit(setup).reasons
    assert reason.text == f"the {what} is made for the other side"


# -- Rates ---------------------------------------------------------------------------------


def test_a_fixed_socket_holds_the_bar_below_its_free_angle_too() -> None:
    answer = bw.rates(deep())
    figures = answer.figures
    assert figures is not None
    assert (figures.bolt, answer.findings) == (None, ())
    rate = si(figures.system_rate, "newton * meter / radian")
    twist = si(figures.droop.twist, "radian")
    assert twist < -0.1
    assert si(figures.droop.torque, "newton * meter") == pytest.approx(rate * twist)
    assert si(figures.droop.shear_stress, "megapascal") < 0.0
    assert si(figures.curve.torque[0], "newton * meter") == pytest.approx(rate * twist)
    # Nowhere is the corner without the bar's rate.
    assert min(figures.curve.wheel_rate.m_as("newton / millimeter")) > 20.0
    slack = bw.rates(make_setup(anchor={"socket": deep().anchor.socket}, **DEEP)).figures
    assert slack is not None
    assert slack.droop.torque.magnitude == 0.0


def test_a_strong_gas_is_pulled_down_by_a_bar_that_a_fixed_socket_holds() -> None:
    gas = bw.parts.GasCharge(force="4000 N", at_length="590 mm")
    setup = deep(damper={"open_length": "760 mm", "gas": gas})
    high = bw.Wanted(height="480 mm")
    answer = bw.rates(setup, wanted=high)
    assert answer.figures is not None
    assert answer.figures.ride.torque.magnitude < 0.0
    # No adjuster could do that.
    usual = make_setup(**(DEEP | {"damper": {"open_length": "760 mm", "gas": gas}}))
    assert bw.rates(usual, wanted=high).verdict is bw.Verdict.OUT_OF_REACH


def test_the_settled_corner_of_a_fixed_socket_is_where_its_forces_meet() -> None:
    gas = bw.parts.GasCharge(force="4000 N", at_length="590 mm")
    setup = deep(damper={"open_length": "760 mm", "gas": gas})
    state = bw.ride(setup).state
    assert state is not None
    assert si(state.torque, "newton * meter") < 0.0
    assert si(state.wheel_load, "newton") == pytest.approx(291.0 * 9.80665)


def test_the_bolt_of_a_key_lever_is_pushed_and_thrust_aside() -> None:
    setup = attrs.evolve(on_key_lever(), nut_turns="4 turn")
    figures = bw.rates(setup).figures
    assert figures is not None
    assert figures.bolt is not None
    model = Corner(setup)
    force, torque = si(figures.bolt.at_bump, "newton"), si(figures.bump.torque, "newton * meter")
    # Force and moment of the contact, which is square to the face.
    turned_by = model.nut_lever - math.pi
    contact = -force / math.cos(turned_by)
    along = 0.05 * math.cos(turned_by) + (0.046 - 0.038) * math.sin(turned_by)
    assert force < 0.0
    assert contact * along == pytest.approx(torque)
    thrust = si(figures.bolt.side_thrust_at_bump, "newton")
    assert thrust == pytest.approx(-contact * math.sin(turned_by))
    assert thrust > 0.0
    tube = bw.rates(make_setup()).figures
    assert tube is not None
    assert tube.bolt is not None
    assert tube.bolt.side_thrust_at_bump is None


def test_the_strength_of_a_bar_that_is_twisted_both_ways_is_told() -> None:
    answer = bw.strength(deep(), limits=bw.StrengthLimits(permissible_shear="900 MPa"))
    assert answer.figures is not None
    factor = answer.figures.droop.factor
    assert factor == pytest.approx(900.0 / abs(si(answer.figures.droop.stress, "megapascal")))


# -- In and out ------------------------------------------------------------------------------


def test_a_bar_in_a_fixed_socket_is_loose_at_its_free_angle_alone() -> None:
    setup = deep()
    on, off = bw.reindex(setup).removal
    model = Corner(setup)
    for way, hang in ((on, model.travel[0]), (off, model.stops[0])):
        assert (way.turned, way.nut_turns, way.pin_distance) == (None, None, None)
        assert (way.slides, way.anywhere) == (True, True)
        lift = float(model.height(hang) - model.height(model.free_angle))
        assert si(way.lift, "meter") == pytest.approx(lift)
        assert degrees(way.unloading_reserve) == pytest.approx(
            math.degrees(model.free_angle - hang)
        )


def test_a_free_angle_beyond_a_stop_leaves_torque_in_the_bar() -> None:
    for angle, stop in (("140 deg", "droop"), ("220 deg", "bump")):
        setup = deep(socket={"anchor_angle": angle})
        model = Corner(setup)
        _, off = bw.reindex(setup).removal
        low, high = model.stops
        beyond = low - model.free_angle if stop == "droop" else model.free_angle - high
        assert beyond > 0.0
        assert (off.slides, off.anywhere) == (False, False)
        assert si(off.unloading_reserve, "radian") == pytest.approx(-beyond)
        figures = bw.rates(setup).figures
        assert figures is not None
        rate = si(figures.system_rate, "newton * meter / radian")
        assert si(off.residual_torque, "newton * meter") == pytest.approx(rate * beyond)


def test_a_bolt_is_slackened_toward_its_head() -> None:
    setup = on_key_lever()
    model = Corner(setup)
    for way in bw.reindex(setup).removal:
        assert way.turned is bw.answers.TurnedPart.BOLT
        assert way.slides
        there = attrs.evolve(setup, nut_turns=known(way.nut_turns))
        twist = degrees(way.arm_angle) - math.degrees(Corner(there).free_angle)
        assert way.anywhere or twist == pytest.approx(0.0, abs=1e-6)
    assert model.lever_at_turns(-8.0) == pytest.approx(model.lever_span[1])


# -- Plans -----------------------------------------------------------------------------------


def test_screwing_the_bolt_in_raises_the_car() -> None:
    for plan in bw.reindex(on_key_lever()).plans:
        assert plan.raising_sense is bw.answers.TurningSense.CLOCKWISE
        assert plan.nut_turns is not None
        assert si(plan.pin_distance, "mm") == pytest.approx(32.0 + 1.5 * plan.nut_turns.magnitude)


def test_a_fixed_socket_is_clocked_to_the_wanted_height_or_not_at_all() -> None:
    setup = deep()
    answer = bw.reindex(setup, wanted=bw.Wanted(height="404 mm"))
    plan, *_ = answer.plans
    assert answer.pin_now is None
    unset = (plan.nut_turns, plan.pin_distance, plan.nut_sense, plan.raising_sense)
    assert unset == (None, None, None, None)
    left = (plan.turns_left_clockwise, plan.turns_left_counter_clockwise, plan.height_per_turn)
    assert left == (None, None, None)
    missed = abs(si(plan.height, "mm") - 404.0)
    assert si(plan.height_rounding, "mm") == pytest.approx(missed, abs=1e-5)
    assert missed < 0.5
    refused = bw.reindex(setup, wanted=bw.Wanted(height="401 mm"))
    assert (refused.verdict, refused.plans) == (bw.Verdict.OUT_OF_REACH, ())
    finding, uncut = refused.findings
    assert (finding.topic, uncut.topic) == (bw.answers.Topic.CLOCKING, bw.answers.Topic.CUTS)
    reported = (finding.figure, finding.limit, finding.upper)
    heights = [si(x, "mm") for x in reported if isinstance(x, bw.Quantity)]
    assert heights == pytest.approx([401.0, 400.2, 404.1], abs=0.06)


def test_the_heights_that_a_refusal_names_can_be_had() -> None:
    setup = deep()
    finding, _ = bw.reindex(setup, wanted=bw.Wanted(height="401 mm")).findings
    for near in (finding.limit, finding.upper):
        assert isinstance(near, bw.Quantity)
        wanted = bw.Wanted(height=f"{near.m_as('mm'):.1f} mm")
        answer = bw.reindex(setup, wanted=wanted)
        assert answer.outcome.is_good
        state = bw.ride(bw.carry_out(setup, answer.plans[0])).state
        assert state is not None
        assert si(state.height, "mm") == pytest.approx(si(near, "mm"), abs=1e-6)


def test_what_the_figures_leave_open_counts_as_reached() -> None:
    sure = deep()
    reported = {"anchor_angle": bw.parts.Figure(value=bw.Quantity(180, "degree"), tolerance=TWO)}
    assert isinstance(sure.anchor, bw.parts.FixedSocket)
    unsure = attrs.evolve(sure, anchor=sure.anchor.described(reported))
    answer = bw.reindex(unsure, wanted=bw.Wanted(height="401 mm"))
    assert answer.outcome.is_good
    # Two standard uncertainties of a rectangle.
    open_by = degrees(known(answer.lever_angle_uncertainty))
    assert open_by == pytest.approx(4.0 / math.sqrt(3.0))
    # What the height needs does not rest on where the socket stands.
    assert degrees(known(answer.free_angle_uncertainty)) == 0.0
    assert answer.enough_thread_reserve is None
    # The fewest cuts come first, since all reach the height within the tolerance.
    cuts = [plan.cuts for plan in answer.plans]
    assert cuts == sorted(cuts)
    assert cuts[0] < 2


TWO = bw.Quantity(2.0, "degree")


def test_a_fixed_socket_whose_bar_stays_wound_cannot_be_assembled() -> None:
    answer = bw.reindex(on_fixed())
    assert answer.verdict is bw.Verdict.CANNOT_BE_ASSEMBLED
    assert "the bar is still twisted with the arm at its stop" in answer.findings[0].text
    assert answer.rejected


def test_little_reserve_is_told_in_words_that_apply() -> None:
    sure = deep()
    assert isinstance(sure.anchor, bw.parts.FixedSocket)
    reported = {
        "anchor_angle": bw.parts.Figure(value=bw.Quantity(180, "degree"), tolerance=20 * TWO)
    }
    unsure = attrs.evolve(sure, anchor=sure.anchor.described(reported))
    plans = bw.reindex(unsure, wanted=bw.Wanted(height="404 mm")).plans
    texts = {bool(p.disturbed): [f.text for f in p.findings] for p in plans}
    assert any(
        "when the bar goes in the margin of the arm's angle is smaller" in text
        for text in texts[True]
    )
    assert not any("is to spare" in text for text in texts[False])


def test_cautions_are_those_that_concern_the_anchor() -> None:
    caution = bw.answers.Caution
    of_nut = {caution.MARK_BOTH_SIDES, caution.FULL_NUT, caution.SPACER}
    of_bolt = {caution.MARK_KEY_LEVER, caution.FULL_BOLT}
    of_socket = {caution.LIFT_UNTIL_LOOSE, caution.MARK_SOCKET}
    for setup, dropped in (
        (deep(), of_nut | of_bolt | {caution.PROVE_LOOSE}),
        (on_key_lever(), of_nut | of_socket),
        (make_setup(), of_bolt | of_socket),
    ):
        plans = bw.reindex(setup, wanted=bw.Wanted(height="404.1 mm")).plans
        reported = {c for plan in plans for c in plan.cautions}
        of_job = {caution.ONE_SIDE, caution.SLACK_AT_DROOP}
        # A plan at standard height, which a bar carries, and which is no table of turns.
        of_others = {caution.CLEARANCE, caution.GUIDE_MOUNT, caution.BOTH_SIDES_BY_TURNS}
        left_out = set(caution) - reported - {caution.FEWER_TEETH} - of_job
        assert left_out == dropped | of_others | {caution.ON_ITS_COUPLING}


@pytest.mark.parametrize(("miss", "reaches"), [(0.49, True), (0.51, False)])
def test_a_tape_reads_to_the_nearer_millimetre(miss: float, *, reaches: bool) -> None:
    # Beyond rounding, each step of this bar's teeth is several millimetres of height.
    setup = deep()
    state = bw.ride(setup).state
    assert state is not None
    wanted = bw.Wanted(height=f"{si(state.height, 'mm') + miss:.6f} mm")
    kept = [p for p in bw.reindex(setup, wanted=wanted).plans if not p.disturbed]
    assert bool(kept) == reaches


# -- Tolerances and donors -------------------------------------------------------------------


def test_the_contact_leaves_the_levers_angle_open() -> None:
    """Ends of both tolerances at the middle of a thread, where the lever is not square."""
    setup = on_key_lever(adjuster={"thread_start": "26 mm", "thread_end": "50 mm"})
    model, half = Corner(setup), bw.Quantity(0.5, "mm")
    assert isinstance(setup.anchor, bw.parts.KeyLever)
    assert setup.adjuster is not None
    mounting = setup.adjuster.mounting
    assert isinstance(mounting, bw.parts.KeyBoltMounting)
    offset = {"face_offset": bw.parts.Figure(value=setup.anchor.face_offset, tolerance=half)}
    radius = {"end_radius": bw.parts.Figure(value=mounting.end_radius, tolerance=half)}
    unsure = attrs.evolve(setup.adjuster, mounting=mounting.described(radius))
    turned_by = model.lever_middle - math.pi
    contact = math.sqrt(50.0**2 + (46.0 - 38.0) ** 2 - 14.0**2)
    assert tolerance_of(setup) == 0.0
    # A face further off is pushed back; a longer radius also brings the end's centre back.
    moved = tolerance_of(attrs.evolve(setup, anchor=setup.anchor.described(offset)))
    assert moved == pytest.approx(0.5 / contact, rel=1e-3)
    moved = tolerance_of(attrs.evolve(setup, adjuster=unsure))
    assert moved == pytest.approx(0.5 * (1.0 - math.cos(turned_by)) / contact, rel=1e-2)


def tolerance_of(setup: bw.Setup) -> float:
    """Half width of the lever's angle, from its uncertainty."""
    return PlanUncertainty(Corner(setup), height=0.38).lever_angle() * math.sqrt(3.0) / 2.0


def test_a_figure_of_the_anchor_has_its_share_in_any_answer() -> None:
    widths = {"anchor.anchor_angle": "0.3 deg", "bar.diameter": "0.05 mm"}
    answer = bw.tolerance(bw.rates, deep(), half_widths=widths)
    (row,) = [row for row in answer.rows if row.figure == "ride.height"]
    assert {share.figure for share in row.shares} == set(widths)


def test_donors_are_of_the_kind_that_the_corner_has() -> None:
    long = make_bar(length="1000 mm")
    lever: dict[str, Any] = {"id": "t:key-lever/long", "socket_position": "868 mm"}
    parts = [key_lever(**lever), fixed_socket(socket_position="868 mm"), make_setup().anchor]
    answer = bw.donors(on_key_lever(bar=long, lever={}), parts=parts)
    assert [donor.anchor_id for donor in answer.combinations] == ["t:key-lever/long"]
    (donor,) = answer.combinations
    assert (donor.tube_rate, donor.fit.cap_offset) == (None, None)
    assert donor.free_angle_change is not None
    assert degrees(donor.free_angle_change) == pytest.approx(0.0)


def test_a_swing_arm_on_a_fixed_socket_works_like_any_other() -> None:
    axle = DEEP["axle"] | {"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB}
    answer = bw.reindex(deep(axle=axle), wanted=bw.Wanted(arm_angle="-5 deg"))
    assert answer.verdict in {bw.Verdict.REACHED, bw.Verdict.OUT_OF_REACH}


@pytest.mark.parametrize(("share", "is_told"), [(0.4, False), (0.6, True)])
def test_what_tells_two_clockings_apart_need_not_be_measured(
    share: float, *, is_told: bool
) -> None:
    # Teeth of 39 and 42 turn a bar by 360 / 546 degrees; half of that tells them apart.  What is
    # open is twice the standard uncertainty, 2 / √3 of a half width.
    half = share * 360.0 / 546.0 * math.sqrt(3.0) / 2.0
    setup = deep()
    assert isinstance(setup.anchor, bw.parts.FixedSocket)
    angle = bw.parts.Figure(value=setup.anchor.anchor_angle, tolerance=bw.Quantity(half, "degree"))
    unsure = attrs.evolve(setup, anchor=setup.anchor.described({"anchor_angle": angle}))
    lower = bw.Wanted(arm_angle=bw.Quantity(-1.0, "degree"))
    answer = bw.reindex(unsure, wanted=lower)
    assert answer.plans[0].disturbed
    told = "before you cut, measure hub to arch, add it to the job as [measured]"

    def said(asked: bw.answers.Reindex) -> bool:
        return any(f.text.startswith(told) for f in asked.findings)

    assert said(answer) is is_told
    # Once it was measured, there is nothing more to ask for.
    measured = unsure.with_reading(height=bw.ride(unsure).height)
    assert not said(bw.reindex(measured, wanted=lower))
