"""Plans: their words, their order, and what is said where there is none."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed
from barwright import Verdict
from barwright.analysis.corner.corner import Corner
from barwright.answers import BlankTooth, Caution, EndAction, ToothDatum, Topic, TurningSense
from sample_packs import discovered_once
from sample_records import adjuster_of, known, make_bar, make_end, make_setup, swivelling, tube_of

LOWER = bw.Wanted(height="349 mm")


def one_cut(answer: bw.answers.Reindex) -> bw.answers.Plan:
    return next(plan for plan in answer.plans if plan.cuts == 1)


def test_left_and_right_mirror_by_their_geometry() -> None:
    left, right = (bw.reindex(make_setup(side=side), wanted=LOWER) for side in bw.parts.Side)
    for here, there in zip(left.plans, right.plans, strict=True):
        assert here.arm_tooth == there.arm_tooth
        assert here.nut_turns == there.nut_turns
        for mine, its in zip(here.ends, there.ends, strict=True):
            assert mine.tooth == its.tooth
            if mine.direction is not None:
                assert its.direction is mine.direction.reversed
                assert mine.seen_from is its.seen_from


def test_the_wanted_height_on_the_keys_asks_for_nothing() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="404 mm"))
    first = answer.plans[0]
    assert (first.cuts, first.disturbed) == (0, ())
    assert {work.action for work in first.ends} == {EndAction.STAYS}
    assert Caution.FEWER_TEETH not in first.cautions


@pytest.mark.parametrize(
    ("tooth", "said"),
    [
        (1, ""),
        (6, "the corner rests on its droop stop, not on its spring"),
        (-6, "the bar carries nothing"),
    ],
)
def test_teeth_with_which_no_vehicle_stands_are_doubted(tooth: int, said: str) -> None:
    now = attrs.evolve(make_setup(), anchor_tooth=tooth)
    wanted = bw.Wanted(height="404 mm")
    found = [f.text for f in bw.reindex(make_setup(), wanted=wanted, present=now).findings]
    text = (
        f"with the teeth stated as present {said}: check the teeth on both keys, or measure the "
        "height ([measured])"
    )
    assert (found[:1] == [text]) is bool(said)
    # What was measured is told by its own height.
    read = now.with_reading(height="404 mm", tolerance="2 mm")
    setup = make_setup().with_reading(height="404 mm", tolerance="2 mm")
    assert text not in [f.text for f in bw.reindex(setup, wanted=wanted, present=read).findings]


def test_a_tooth_is_removed_and_its_blank_goes_on_the_key() -> None:
    plan = one_cut(bw.reindex(make_setup(), wanted=LOWER))
    (work,) = [w for w in plan.ends if w.action is EndAction.REMOVE_TOOTH]
    assert (work.tooth, work.on_key, work.key_may_be_cleared) == (1, BlankTooth.NEW, True)
    assert plan.disturbed == (work.end,)
    assert {w.blank_count for w in plan.ends if w is not work} == {1}
    assert work.blank_count == 2
    # Those of other anchors are left out.
    other = {Caution.LIFT_UNTIL_LOOSE, Caution.MARK_KEY_LEVER, Caution.MARK_SOCKET}
    other |= {Caution.FULL_BOLT, Caution.ON_ITS_COUPLING}
    # Those of a whole job are the sheet's.
    other |= {Caution.ONE_SIDE, Caution.SLACK_AT_DROOP, Caution.BOTH_SIDES_BY_TURNS}
    # No coil is in question where the bar holds.
    other |= {Caution.GUIDE_MOUNT}
    assert set(plan.cautions) == set(Caution) - other


def test_a_plan_carried_out_leaves_the_bar_cut_and_its_next_plan_free() -> None:
    setup = make_setup()
    done = bw.carry_out(setup, one_cut(bw.reindex(setup, wanted=LOWER)))
    cut = [end for end in (done.bar.arm_end, done.bar.anchor_end) if len(end.blanks) == 2]
    assert len(cut) == 1
    again = bw.reindex(done, wanted=LOWER).plans[0]
    assert (again.cuts, again.disturbed) == (0, ())
    # Back to the standard height by the maker's blank, which is still there.
    back = bw.reindex(done, wanted=bw.Wanted(height="404 mm")).plans[0]
    assert back.cuts == 0
    (moved,) = [w for w in back.ends if w.action is EndAction.BLANK_ON_KEY]
    assert moved.on_key is BlankTooth.MAKERS
    # And a bar taken back to its keys can use the blank that was cut earlier.
    keyed = attrs.evolve(done, arm_tooth=0, anchor_tooth=0)
    earlier = bw.reindex(keyed, wanted=LOWER).plans[0]
    assert BlankTooth.EARLIER in {w.on_key for w in earlier.ends}
    assert earlier.cuts == 0


def test_a_socket_without_a_key_takes_any_tooth() -> None:
    answer = bw.reindex(make_setup(arm_keyed=False), wanted=LOWER)
    plan = answer.plans[0]
    work = plan.ends[0]
    assert (plan.cuts, work.action, work.on_key) == (0, EndAction.NO_KEY, BlankTooth.NONE)


# -- A bar without blanks -----------------------------------------------------------------

BARE = make_bar(arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()))
FREE = make_setup(bar=BARE, arm_keyed=False, anchor_keyed=False)


def test_with_no_blank_and_no_key_no_tooth_is_ever_removed() -> None:
    read = FREE.with_reading(height="404 mm")
    for height in range(330, 460, 10):
        answer = bw.reindex(read, wanted=bw.Wanted(height=f"{height} mm"))
        assert {plan.cuts for plan in (*answer.plans, *answer.rejected)} <= {0}
    assert {work.tooth_datum for work in answer.plans[0].ends} == {ToothDatum.PRESENT}


def test_an_end_without_a_blank_is_cut_for_the_key_of_another_arm() -> None:
    present = FREE.with_reading(height="404 mm")
    socket = attrs.evolve(present.arm.socket, keyed=True)
    arm = attrs.evolve(present.arm, id="t:arm/two", socket=socket)
    setup = present.with_parts(arm=arm)
    plan = bw.reindex(setup, wanted=LOWER, present=present).plans[0]
    work = plan.ends[0]
    assert (plan.cuts, work.action, work.on_key) == (1, EndAction.REMOVE_TOOTH, BlankTooth.NEW)
    assert work.datum_angle == present.arm.socket.key_angle

    done = bw.carry_out(setup, plan)
    mark = None if plan.arm_tooth == 0 else "paint"
    assert (len(done.bar.arm_end.blanks), done.bar.arm_end.mark) == (1, mark)
    assert abs(bw.ride(done).height - plan.height).m_as("mm") < 1e-6
    again = bw.reindex(done, wanted=LOWER).plans[0]
    assert (again.cuts, again.disturbed) == (0, ())


def test_a_bar_that_shows_nothing_and_is_not_in_needs_a_tooth_marked_at_each_end() -> None:
    present = make_setup(arm_keyed=False, anchor_keyed=False).with_reading(height="404 mm")
    answer = bw.reindex(attrs.evolve(present, bar=BARE), wanted=LOWER, present=present)
    assert answer.verdict is Verdict.NEEDS_FIGURES
    assert "bar blank angle" in answer.headline
    # Even where it was measured when it was in.
    known = attrs.evolve(FREE.with_reading(height="404 mm"))
    again = bw.reindex(known, wanted=LOWER, present=present.with_readings(()))
    assert again.verdict is Verdict.NEEDS_FIGURES
    assert "bar blank angle" in again.headline


def test_a_bar_without_a_blank_is_not_now_in_a_socket_with_a_key() -> None:
    answer = bw.reindex(make_setup(bar=BARE).with_reading(height="404 mm"), wanted=LOWER)
    assert answer.verdict is Verdict.CANNOT_BE_ASSEMBLED
    finding = answer.findings[0]
    assert "has no blank for the socket's key" in finding.text
    assert finding.end is bw.parts.BarEndName.ARM


def test_the_nut_stands_on_a_flat_within_its_thread() -> None:
    for height in range(330, 460, 7):
        for plan in bw.reindex(make_setup(), wanted=bw.Wanted(height=f"{height} mm")).plans:
            turns = float(known(plan.nut_turns).magnitude)
            assert (turns * 6) == pytest.approx(round(turns * 6))
            clockwise = known(plan.turns_left_clockwise)
            other = known(plan.turns_left_counter_clockwise)
            assert (clockwise + other).m_as("turn") == pytest.approx(2 * 8.857142857142857)
            assert clockwise.magnitude >= 0.0
            assert other.magnitude >= 0.0
            sense = {True: TurningSense.CLOCKWISE, False: TurningSense.COUNTER_CLOCKWISE}
            assert plan.nut_sense is (sense[turns > 0] if turns else None)


def test_a_pushing_bolt_raises_the_car_the_other_way() -> None:
    pushing = make_setup(
        adjuster={
            "lever_lies": bw.parts.LeverSide.DROOPWARD,
            "mounting": swivelling(pivot_angle="-113 deg"),
        },
    )
    answer = bw.reindex(pushing, wanted=LOWER)
    assert {p.raising_sense for p in answer.plans} == {TurningSense.COUNTER_CLOCKWISE}
    figures = bw.rates(bw.carry_out(pushing, answer.plans[0])).figures
    assert figures is not None
    assert known(figures.bolt).at_ride.magnitude < 0.0


def test_the_tolerances_of_the_figures_say_how_much_thread_is_enough() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/short", corner="front left")
    known = bw.reindex(van, wanted=LOWER)
    assert known.free_angle_uncertainty is not None
    # The shear modulus outweighs all else: 5 % of some 21 degrees of twist.
    assert known.free_angle_uncertainty.m_as("degree") == pytest.approx(1.3, abs=0.1)
    bare = bw.reindex(make_setup(), wanted=LOWER)
    assert bare.free_angle_uncertainty is not None
    assert bare.free_angle_uncertainty.magnitude == 0.0
    # An eighth of 17.7 turns, up to the next flat.
    assert str(bare.enough_thread_reserve) == "2.33333333333333 turn"


def test_a_height_out_of_the_travel_names_the_range() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="200 mm"))
    assert answer.verdict is Verdict.OUT_OF_REACH
    assert answer.plans == ()
    assert answer.doubt == ""
    assert str(answer.reachable_from) != str(answer.reachable_to)
    assert [f.topic for f in answer.findings] == [Topic.TRAVEL]


def test_teeth_too_coarse_for_the_thread_are_out_of_reach() -> None:
    coarse = make_bar(arm_end=make_end(40, teeth=6), anchor_end=make_end(43, teeth=6))
    # Six teeth at both ends: steps of 60 degrees, on a thread of 17.5.
    answer = bw.reindex(make_setup(bar=coarse, arm_key="40 deg"), wanted=LOWER)
    assert answer.verdict is Verdict.OUT_OF_REACH
    finding, uncut = answer.findings
    assert (finding.topic, uncut.topic) == (Topic.THREAD, Topic.CUTS)
    assert str(finding.figure) == "60.0 degree"


def test_a_plan_that_cannot_be_assembled_is_shown_with_its_reason() -> None:
    # A chassis stop that holds the arm up, so that no nut takes the torque off.
    held = make_setup(
        axle={"droop_stop": "-5.5 deg"},
        bar=make_bar(diameter="20.2 mm"),
        adjuster={"thread_start": "164 mm", "thread_end": "180 mm"},
    )
    answer = bw.reindex(held, wanted=bw.Wanted(height="404 mm"))
    assert answer.verdict is Verdict.CANNOT_BE_ASSEMBLED
    assert answer.plans == ()
    for plan in answer.rejected:
        assert plan.verdict is Verdict.CANNOT_BE_ASSEMBLED
        assert not any(way.slides for way in plan.fitting)
        reason, unloading = [f for f in plan.findings if f.topic is Topic.ASSEMBLY]
        assert "no safe way" in unloading.text
        assert reason.figure == min(way.residual_torque for way in plan.fitting)


def test_the_residual_torque_of_a_shorter_damper() -> None:
    setup = make_setup(damper={"open_length": "616 mm", "closed_length": "452 mm"})
    on, off = bw.reindex(setup, wanted=LOWER).removal
    assert (on.damper_fitted, on.slides, off.damper_fitted, off.slides) == (
        True,
        False,
        False,
        True,
    )
    figures = bw.rates(setup).figures
    assert figures is not None
    rate = float(figures.system_rate.m_as("newton * meter / radian"))
    torque = float(on.residual_torque.magnitude)
    assert on.residual_energy.m_as("J") == pytest.approx(torque**2 / (2 * rate))
    # The nut stands at the end that unloads the bar.
    assert known(on.nut_turns).m_as("turn") == pytest.approx(-8.857142857142857)


def test_a_margin_smaller_than_the_tolerance_is_a_finding() -> None:
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="357 mm"))
    (kept,) = [plan for plan in answer.plans if not plan.disturbed]
    (margin,) = [f for f in kept.findings if f.topic is Topic.NUT_MARGIN]
    # In whole flats of the nut.
    left = known(kept.turns_left_counter_clockwise).m_as("turn")
    assert margin.figure == kept.thread_reserve
    assert known(kept.thread_reserve).m_as("turn") == pytest.approx(math.floor(left * 6) / 6)
    assert str(margin.limit) == "2.33333333333333 turn"


def test_a_bar_that_does_not_fit_gets_no_plan() -> None:
    answer = bw.reindex(make_setup(bar=make_bar(length="946 mm")), wanted=LOWER)
    assert answer.verdict is Verdict.DOES_NOT_FIT
    assert answer.plans == ()
    assert answer.findings == answer.fit.reasons


def test_a_clocking_counted_the_long_way_round_is_the_same_clocking() -> None:
    short, long = (
        bw.reindex(make_setup(arm_tooth=tooth), wanted=bw.Wanted(height="404 mm"))
        for tooth in (-1, 38)
    )
    assert short.plans == long.plans


def test_a_swapped_arm_does_not_take_a_tooth_for_nothing() -> None:
    # The old arm's key was cleared and the bar sits one tooth on; the new arm has its key.
    now = make_setup(arm_tooth=1, damper=SHORT)
    setup = now.with_parts(arm=attrs.evolve(now.arm, id="t:arm/donor"))
    answer = bw.reindex(setup, wanted=bw.Wanted(height="358 mm"), present=now)
    for plan in answer.plans:
        for work in plan.ends:
            assert work.action is not EndAction.STAYS or work.end is bw.parts.BarEndName.ANCHOR
            assert work.on_key is not BlankTooth.NONE


def test_a_cleared_key_can_be_carried_on() -> None:
    setup = make_setup()
    plan = one_cut(bw.reindex(setup, wanted=LOWER))
    cleared = bw.carry_out(setup, plan, clear_keys=True)
    assert cleared.bar == setup.bar
    sockets = (cleared.arm.socket, cleared.anchor.socket)
    assert [socket.keyed for socket in sockets].count(False) == 1
    cut = bw.carry_out(setup, plan)
    assert bw.ride(cleared).state == bw.ride(cut).state


def test_what_cannot_be_on_the_car_now_is_a_finding() -> None:
    now = make_setup(bar=make_bar(length="1200 mm", id="t:bar/other"))
    answer = bw.reindex(make_setup(), wanted=LOWER, present=now)
    assert answer.verdict is Verdict.CANNOT_BE_ASSEMBLED
    assert [f.topic for f in answer.findings] == [Topic.PRESENT]


def test_a_slack_bar_is_loose_and_not_held() -> None:
    # Seven teeth on: the free angle lies above the bump stop.
    now = make_setup(arm_tooth=7)
    answer = bw.reindex(make_setup(), wanted=bw.Wanted(height="380 mm"), present=now)
    on, off = answer.removal
    assert on.slides
    assert off.slides
    assert on.anywhere
    assert on.residual_torque.magnitude == 0.0


def test_little_reserve_is_a_finding() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/short", corner="front left")
    (_, off), *_ = [plan.fitting for plan in bw.reindex(van).plans]
    assert not bw.reindex(van).plans[0].findings
    # A chassis stop that holds the arm up until a fifth of a degree of reserve is left.
    stop = off.arm_angle.m_as("degree") + off.unloading_reserve.m_as("degree") - 0.2
    held = attrs.evolve(van, axle=attrs.evolve(van.axle, droop_stop=f"{stop:.6f} deg"))
    first, *_ = bw.reindex(held).plans
    # A bar that stays in need not come free.
    assert not first.findings
    drawn = bw.reindex(held, present=held.with_parts(arm=attrs.evolve(held.arm, title="Old")))
    (finding,) = drawn.plans[0].findings
    assert finding.topic is Topic.ASSEMBLY
    assert isinstance(finding.figure, bw.Quantity)
    assert finding.figure.m_as("degree") == pytest.approx(0.2, abs=1e-4)


def test_a_bar_that_is_loose_at_its_stop_alone_slides() -> None:
    setup = make_setup()
    off = bw.reindex(setup).removal[1]
    # The arm's stop where the slackest nut puts the free angle: nothing to spare, no torque.
    stop = off.arm_angle + off.unloading_reserve
    held = attrs.evolve(setup, axle=attrs.evolve(setup.axle, droop_stop=stop))
    at_stop = bw.reindex(held).removal[1]
    assert at_stop.unloading_reserve.m_as("deg") == pytest.approx(0.0, abs=1e-9)
    assert at_stop.slides
    assert at_stop.residual_torque.magnitude == 0.0


SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}


# -- In a sentence -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("setup", "height", "work"),
    [
        (make_setup(), "404 mm", "remove no tooth; the bar stays on the same teeth"),
        (make_setup(), "349 mm", "remove 1 tooth at the arm end"),
        (make_setup(), "470 mm", "remove 1 tooth at each end"),
        (
            make_setup(arm_keyed=False),
            "349 mm",
            "remove no tooth; move the arm end to another tooth",
        ),
        (
            make_setup(arm_keyed=False, anchor_keyed=False),
            "349 mm",
            "remove no tooth; move the arm end to another tooth",
        ),
    ],
)
def test_a_plan_is_told_in_whole_sentences(setup: bw.Setup, height: str, work: str) -> None:
    plan = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans[0]
    pin, stands, droop, bump = (
        f"{value.m_as('mm'):.{digits}f}"
        for value, digits in (
            (known(plan.pin_distance), 1),
            *((length, 0) for length in (plan.height, plan.droop_left, plan.bump_left)),
        )
    )
    sure = round(plan.height_rounding.m_as("mm"))
    left_open = f"± {sure} mm from the step of a flat" if sure else "no ± known"
    assert plan.summary == (
        f"{work[0].upper()}{work[1:]}. Set the nut {pin} mm from the bolt's pivot. The corner "
        f"then stands at {stands} mm hub to arch, {left_open}, with {droop} mm of "
        f"droop and {bump} mm of bump left."
    )
    coarse = attrs.evolve(plan, height_rounding=bw.Quantity(2, "mm"))
    assert " hub to arch, ± 2 mm from the step of a flat, with " in coarse.summary
    # An answer of an earlier form does not say from what the nut is measured.
    assert f" Set the nut at {pin} mm. " in attrs.evolve(plan, bolt_datum=None).summary


def test_a_summary_says_what_is_behind_its_uncertainty() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    assert " mm from tolerances, with " in bw.reindex(van).preferred.summary
    fixed = bw.reindex(on_fixed(), wanted=bw.Wanted(height="400 mm"))
    plan = attrs.evolve((*fixed.plans, *fixed.rejected)[0], height_rounding=bw.Quantity(2, "mm"))
    assert " mm from the step of a tooth, with " in plan.summary
    assert "Set the" not in plan.summary


def test_ends_that_both_move_are_told_together() -> None:
    unkeyed = make_setup(arm_keyed=False, anchor_keyed=False)
    plans = bw.reindex(unkeyed, wanted=bw.Wanted(height="470 mm")).plans
    both = "Remove no tooth; move the arm end and the anchor end to other teeth. Set the nut "
    assert any(plan.summary.startswith(both) for plan in plans)


def test_a_new_bar_goes_in_on_its_blanks() -> None:
    now = make_setup(bar=make_bar(id="t:bar/old", diameter="22 mm"))
    plan = bw.reindex(make_setup(), wanted=bw.Wanted(height="404 mm"), present=now).plans[0]
    assert plan.summary.startswith("Remove no tooth; the bar's blanks go on the keys. Set the nut ")


# -- Of another corner -------------------------------------------------------------------


def others(setup: bw.Setup) -> dict[str, bw.Setup]:
    """Corners that a plan of this one was not made for."""
    bar = setup.bar
    return {
        "side": make_setup(side=bw.parts.Side.RIGHT),
        "place": make_setup(axle={"place": bw.parts.AxlePlace.REAR}),
        "chassis": attrs.evolve(setup, chassis=attrs.evolve(setup.chassis, id="t:chassis/two")),
        "arm": setup.with_parts(arm=attrs.evolve(setup.arm, id="t:arm/two")),
        "bar": setup.with_parts(bar=attrs.evolve(bar, id="t:bar/two")),
        "teeth": setup.with_parts(bar=make_bar(40, 42)),
    }


@pytest.mark.parametrize("what", others(make_setup()))
def test_a_plan_is_carried_out_on_its_own_corner_alone(what: str) -> None:
    setup = make_setup()
    plan = bw.reindex(setup).plans[0]

    with pytest.raises(bw.SchemaError) as caught:
        bw.carry_out(others(setup)[what], plan)

    assert (caught.value.code, caught.value.key) == ("S207", "plan")
    assert caught.value.value.startswith("a plan for t:chassis/one front left, t:arm/one")
    assert str(plan.made_for) == (
        "t:chassis/one front left, t:arm/one, t:bar/one, t:tube/one, t:adjuster/one, "
        "39 and 42 teeth"
    )


def test_a_plan_goes_with_any_damper_load_and_clocking() -> None:
    setup = make_setup()
    plan = bw.reindex(setup).plans[0]
    other = attrs.evolve(setup, arm_tooth=2, nut_turns="1 turn").with_load(
        kind=bw.parts.LoadKind.SPRUNG, mass="300 kg"
    )
    other = other.with_parts(damper=attrs.evolve(setup.damper, id="t:damper/two"))

    assert bw.carry_out(other, plan).arm_tooth == plan.arm_tooth


@pytest.mark.parametrize("what", ["side", "place", "chassis"])
def test_what_is_on_another_corner_now_is_refused(what: str) -> None:
    setup = make_setup()

    with pytest.raises(bw.SchemaError) as caught:
        bw.reindex(setup, present=others(setup)[what])

    assert (caught.value.code, caught.value.key) == ("S207", "present")
    assert caught.value.expected.startswith("t:chassis/one front left")


@pytest.mark.parametrize("what", ["arm", "bar", "teeth"])
def test_other_parts_of_this_corner_may_be_on_it_now(what: str) -> None:
    setup = make_setup()

    assert bw.reindex(setup, present=others(setup)[what]).fit.verdict is bw.Verdict.FITS


# -- What is lost ---------------------------------------------------------------------------


def test_the_standard_van_nine_millimetres_lower_loses_no_tooth() -> None:
    van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    lower = van.axle.standard_height - bw.Quantity(9, "mm")
    first = bw.reindex(van, wanted=bw.Wanted(height=lower)).plans[0]
    assert (first.cuts, first.disturbed) == (0, ())
    assert abs(known(first.nut_turns).m_as("turn")) == pytest.approx(1.5, abs=0.4)


@pytest.mark.parametrize("height", ["310 mm", "349 mm", "475 mm"])
def test_without_a_cut_the_nearest_height_is_given(height: str) -> None:
    setup = make_setup()
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height, cuts=0))
    nearest = known(answer.uncut_height)
    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    assert [f.figure for f in answer.findings if f.topic is Topic.CUTS] == [nearest]
    # At one end of the thread, on the keys.
    ends = [
        known(bw.ride(attrs.evolve(setup, nut_turns=bw.Quantity(turns, "turn"))).state).height
        for turns in Corner(setup).turns_span
    ]
    assert min(abs((nearest - end).m_as("mm")) for end in ends) < 1e-6
    assert nearest == known(bw.reindex(setup, wanted=bw.Wanted(height=height)).uncut_height)


def test_a_plan_that_is_refused_though_it_cuts_nothing_gives_no_nearest_height() -> None:
    truck = bw.Registry.discover().setup("hodmule:chassis/short", corner="front left")
    answer = bw.reindex(truck, wanted=bw.Wanted(height="440 mm"))
    assert (answer.verdict, answer.plans) == (bw.Verdict.NOT_SAFE, ())
    assert answer.rejected[0].cuts == 0
    assert answer.uncut_height is None
    assert not [f for f in answer.findings if f.topic is Topic.CUTS]


def test_a_wish_may_allow_one_tooth_and_no_more() -> None:
    height = "470 mm"
    both = bw.reindex(make_setup(), wanted=bw.Wanted(height=height))
    one = bw.reindex(make_setup(), wanted=bw.Wanted(height=height, cuts=1))
    assert max(plan.cuts for plan in both.plans) == 2
    assert max((plan.cuts for plan in (*one.plans, *one.rejected)), default=0) < 2


@pytest.mark.parametrize("cuts", [-1, 3, True, 1.0, "0"])
def test_a_number_of_cuts_that_no_bar_has_is_refused(cuts: Any) -> None:
    with pytest.raises(bw.SchemaError) as caught:
        bw.Wanted(height="349 mm", cuts=cuts)
    assert (caught.value.code, caught.value.key) == ("S203", "cuts")


def test_the_thread_to_be_left_can_be_set() -> None:
    setup, height = make_setup(), "366 mm"
    first = bw.reindex(setup, wanted=bw.Wanted(height=height)).plans[0]
    assert first.cuts == 1
    sparing = bw.reindex(setup, wanted=bw.Wanted(height=height, thread_reserve="1 turn"))
    assert sparing.plans[0].cuts == 0
    assert 1.0 <= known(sparing.plans[0].thread_reserve).m_as("turn") < 2.4
    assert known(sparing.enough_thread_reserve).m_as("turn") == 1.0


def test_a_nut_on_the_last_place_of_its_thread_is_not_lost_by_rounding() -> None:
    """The height at which the keyed bar asks for the very end of the thread."""
    setup = make_setup()
    model = Corner(setup)
    for turns in model.turns_span:
        there = attrs.evolve(setup, nut_turns=bw.Quantity(turns, "turn"))
        angle = known(bw.ride(there).state).arm_angle
        answer = bw.reindex(setup, wanted=bw.Wanted(arm_angle=angle, cuts=0))
        (plan,) = answer.plans
        assert plan.disturbed == ()
        assert known(plan.thread_reserve).magnitude == 0.0


def test_a_plan_says_how_much_droop_and_bump_are_left() -> None:
    setup = make_setup(damper=SHORT)
    plan = bw.reindex(setup, wanted=LOWER).plans[0]
    low, high = (bw.rates(bw.carry_out(setup, plan)).figures, bw.reindex(setup, wanted=LOWER))
    figures = known(low)
    assert (figures.droop.height - plan.height).m_as("mm") == pytest.approx(
        plan.droop_left.m_as("mm"), abs=1e-6
    )
    assert plan.bump_left.m_as("mm") == pytest.approx(
        (plan.height - high.reachable_from).m_as("mm"), abs=1e-6
    )


def test_the_teeth_beside_a_cut_are_told_for_both_ends() -> None:
    plan = one_cut(bw.reindex(make_setup(), wanted=LOWER))
    factors = {work.end: work.missing_tooth_factor for work in plan.ends}
    (cut,) = [w for w in plan.ends if w.action is EndAction.REMOVE_TOOTH]
    (whole,) = [w for w in plan.ends if w.action is EndAction.STAYS]
    assert known(factors[cut.end]) > known(factors[whole.end]) > 1.0


def test_an_overstressed_bar_has_no_plan_and_says_so() -> None:
    weak = attrs.evolve(make_bar().material, permissible_shear="300 MPa")
    setup = make_setup(bar=make_bar(material=weak))
    answer = bw.reindex(setup, wanted=LOWER)
    assert (answer.verdict, answer.plans) == (bw.Verdict.OVERSTRESSED, ())
    assert {plan.verdict for plan in answer.rejected} == {bw.Verdict.OVERSTRESSED}
    assert answer.headline.startswith("Overstressed: the shear stress at full bump is above")
    done = bw.carry_out(setup, answer.rejected[0])
    assert bw.strength(done).verdict is bw.Verdict.OVERSTRESSED


def test_a_bar_of_unknown_strength_is_fine_with_a_finding() -> None:
    answer = bw.reindex(make_setup(), wanted=LOWER)
    assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
    assert [f.topic for f in answer.findings if "strength of the bar is not known" in f.text]


def test_who_knows_less_measures_before_cutting() -> None:
    """Where the figures ask for more thread than there can be, the widest of them is named."""
    reported = {
        "shear_modulus": bw.parts.Figure(
            value=STEEL.shear_modulus, tolerance=bw.Quantity(25, "GPa")
        )
    }
    unsure = make_setup(bar=make_bar(material=STEEL.described(reported)))
    answer = bw.reindex(unsure, wanted=LOWER)
    (finding,) = [f for f in answer.findings if f.topic is Topic.UNCERTAINTY]
    assert finding.text.startswith("measure before you cut: ")
    assert finding.text.endswith("most of it comes from the bar material shear modulus")
    kept = bw.reindex(unsure, wanted=bw.Wanted(height="404 mm"))
    assert any(f.text.startswith("measure before you turn the nut: ") for f in kept.findings)
    # A quarter of the thread is the most that is asked for.
    assert known(answer.enough_thread_reserve).m_as("turn") == pytest.approx(27 / 6)
    sure = bw.reindex(make_setup(bar=make_bar(material=STEEL)), wanted=LOWER)
    assert not [f for f in sure.findings if f.topic is Topic.UNCERTAINTY]


STEEL = make_bar().material


# -- The height stays, the nut comes back ----------------------------------------------------

SAME = bw.Wanted(same_height=True)


def test_a_nut_at_its_end_comes_back_at_the_same_height() -> None:
    now = make_setup(nut_turns="-8.5 turn")
    answer = bw.reindex(now, wanted=SAME)

    assert answer == bw.reindex(now, wanted=bw.Wanted(height=bw.ride(now).height))
    assert abs(known(answer.plans[0].nut_turns).m_as("turn")) < 3.0


def test_a_measured_height_stays_whatever_the_figures_say() -> None:
    now = make_setup(nut_turns="-8 turn").with_reading(height="377 mm")

    assert bw.reindex(now, wanted=SAME) == bw.reindex(now, wanted=bw.Wanted(height="377 mm"))


def test_the_height_that_stays_is_that_of_the_parts_that_are_on_the_car() -> None:
    now = make_setup(nut_turns="-8 turn")
    setup = now.with_parts(bar=make_bar(diameter="25 mm", id="t:bar/firm"))
    answer = bw.reindex(setup, wanted=SAME, present=now)

    assert known(answer.wanted_height) == bw.ride(now).height
    assert answer == bw.reindex(setup, wanted=bw.Wanted(height=bw.ride(now).height), present=now)


def test_no_height_stays_where_the_parts_do_not_go_together() -> None:
    apart = make_setup(bar=make_bar(length="1200 mm", id="t:bar/other"))
    for answer in (
        bw.reindex(make_setup(), wanted=SAME, present=apart),
        bw.reindex(apart, wanted=SAME),
    ):
        assert answer.verdict in {Verdict.CANNOT_BE_ASSEMBLED, Verdict.DOES_NOT_FIT}
        assert answer.wanted_height is None
        assert "wanted, hub to arch" not in bw.text(answer)


def test_a_sheet_of_parts_that_do_not_go_together_has_no_height_to_keep() -> None:
    apart = make_setup(bar=make_bar(length="1200 mm", id="t:bar/other"))
    corner = bw.JobCorner(setup=make_setup(), present=apart, wanted=SAME)
    sheet = bw.bench_sheet(bw.Job(title="Which bar is in?", corners=(corner,)))

    assert [one.verdict for one in sheet.corners] == [Verdict.CANNOT_BE_ASSEMBLED]


# -- Where figures are unknown ---------------------------------------------------------------


def low_without_stop() -> bw.Setup:
    """A corner with its nut near the end of the thread, whose droop stop nobody knows."""
    return make_setup(nut_turns="-8 turn", axle={"droop_stop": "unknown"})


def test_clockings_are_given_where_a_plan_needs_more_figures() -> None:
    answer = bw.reindex(low_without_stop(), wanted=SAME)

    assert answer.verdict is Verdict.NEEDS_FIGURES
    assert answer.plans == ()
    assert [finding.topic for finding in answer.findings] == [
        *(Topic.NEEDED, Topic.ASSEMBLY, Topic.UNCERTAINTY)
    ]
    assert answer.further_findings == answer.findings
    assert answer.headline == (
        "Remove 1 tooth at the anchor end. Set the nut at 158.6 ± 0.1 mm from the bolt's pivot. "
        "The safe way out is not known."
    )
    plans = bw.reindex(make_setup(nut_turns="-8 turn"), wanted=SAME).plans
    assert [one.arm_tooth for one in answer.clockings] == [plan.arm_tooth for plan in plans]
    assert answer.cautions == ()


def test_a_height_that_was_not_measured_asks_for_that() -> None:
    answer = bw.reindex(low_without_stop(), wanted=LOWER)

    assert answer.clockings == ()
    assert [finding.topic for finding in answer.findings] == [Topic.NEEDED, Topic.MEASURED]
    assert answer.headline == "Needed for a plan: droop stop."


@pytest.mark.parametrize("place", ["pin_distance", "nut_turns"])
def test_a_place_of_the_nut_with_its_uncertainty_counts(place: str) -> None:
    at = {"pin_distance": "173.5 mm ± 0.5 mm", "nut_turns": "-8 turn ± 0.3 turn"}[place]
    now = low_without_stop()
    reading = bw.parts.measured(now, height="371 mm", **{place: at})
    answer = bw.reindex(now.with_readings([reading]), wanted=SAME)

    assert Topic.UNCERTAINTY not in [finding.topic for finding in answer.findings]
    for one in answer.clockings:
        assert 0.4 < one.pin_uncertainty.m_as("mm") < 0.8


def test_other_parts_at_the_same_height_ask_for_a_measured_one_too() -> None:
    now = low_without_stop()
    setup = now.with_parts(arm=attrs.evolve(now.arm, id="t:arm/donor"))
    answer = bw.reindex(setup, wanted=SAME, present=now)

    assert [finding.topic for finding in answer.findings] == [Topic.NEEDED, Topic.MEASURED]


def test_a_figure_that_a_clocking_needs_too_is_named_by_itself() -> None:
    now = low_without_stop()
    bolt = attrs.evolve(adjuster_of(now), thread_end="unknown")
    answer = bw.reindex(attrs.evolve(now, adjuster=bolt), wanted=SAME)

    assert answer.clockings == ()
    assert [finding.line for finding in answer.findings][1] == (
        "needed for the teeth on the keys and the place of the nut alone: adjuster thread end"
    )


def test_nothing_is_asked_where_a_measured_height_would_not_help() -> None:
    read = low_without_stop().with_reading(height="371 mm")
    answer = bw.reindex(read, wanted=LOWER)

    assert answer.clockings == ()
    assert [finding.topic for finding in answer.findings] == [Topic.NEEDED]


def test_a_bar_that_does_not_fit_is_not_clocked() -> None:
    setup = low_without_stop()
    short = attrs.evolve(setup, bar=make_bar(length="600 mm"))

    assert bw.reindex(short, wanted=SAME).clockings == ()


def test_a_sheet_gives_no_steps_where_the_safe_way_out_is_not_known() -> None:
    setup = low_without_stop()
    setup = attrs.evolve(setup, adjuster=_bolt_at_unknown_angle(setup))
    corner = bw.JobCorner(setup=setup, present=setup, wanted=SAME)
    sheet = bw.bench_sheet(bw.Job(title="Nut at its end", corners=(corner,)))

    summary = bw.reindex(setup, wanted=SAME).clockings[0].summary
    assert sheet.stages == ()
    assert [line.partition(": ")[2] for line in sheet.headlines] == [
        f"{summary[0].lower()}{summary[1:]} The safe way out is not known."
    ]


def _bolt_at_unknown_angle(setup: bw.Setup) -> bw.parts.Adjuster:
    return attrs.evolve(adjuster_of(setup), mounting=swivelling(pivot_angle="unknown"))


# -- What the ± of the figures ask of the thread at the same height --------------------------


def within(value: bw.Quantity, half: str) -> bw.parts.Figure:
    return bw.parts.Figure(value=value, tolerance=bw.Quantity(half))


def with_loose_keys() -> bw.Setup:
    """A corner whose keys nobody knows well: it may stand anywhere."""
    low = make_setup(nut_turns="-8 turn")
    socket = low.arm.socket.described({"key_angle": within(low.arm.socket.key_angle, "4 deg")})
    return low.with_parts(arm=attrs.evolve(low.arm, socket=socket))


def test_keys_that_nobody_knows_ask_for_no_thread_where_the_height_stays() -> None:
    now = with_loose_keys()
    height = bw.ride(now).height
    stays, elsewhere = (
        bw.reindex(now, wanted=wanted) for wanted in (SAME, bw.Wanted(height=height))
    )

    assert (
        stays.enough_thread_reserve
        == bw.reindex(make_setup(nut_turns="-8 turn"), wanted=SAME).enough_thread_reserve
    )
    assert known(elsewhere.enough_thread_reserve) > known(stays.enough_thread_reserve)
    assert [Topic.UNCERTAINTY in {f.topic for f in one.findings} for one in (stays, elsewhere)] == [
        False,
        True,
    ]


def test_a_lever_that_nobody_knows_is_to_be_measured_where_the_height_stays() -> None:
    now = with_loose_keys()
    lever = tube_of(now).described({"lever_radius": within(tube_of(now).lever_radius, "60 mm")})
    answer = bw.reindex(now.with_parts(anchor=lever), wanted=SAME)

    (finding,) = [one for one in answer.findings if one.topic is Topic.UNCERTAINTY]
    assert "most of it comes from the anchor lever radius" in finding.text


def test_a_load_that_may_be_in_pounds_is_checked_before_anything_is_done() -> None:
    setup = make_setup()
    mass = f"{setup.load.mass.m_as('kg'):.1f} lb"
    pounds = setup.with_load(kind=bw.parts.LoadKind.SPRUNG, mass=mass)
    answer = bw.reindex(pounds, wanted=bw.Wanted(height=setup.axle.standard_height))
    first = answer.findings[0]
    assert first.topic is bw.answers.Topic.LOAD
    assert "kilograms written as pounds" in first.text
    assert "the sprung mass is far from" in answer.headline
    assert bw.reindex(setup).doubt == ""
