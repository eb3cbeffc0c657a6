"""Tests of `corner_steps`: those of a corner come in an order that is safe to follow."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import key_lever, on_key_lever
from sample_packs import discovered_once
from sample_records import (
    adjuster_of,
    double_wishbone_mounting,
    fixed_line,
    known,
    make_bar,
    make_end,
    make_setup,
    swing_arm_mounting,
)
from sheet_corners import place, sheet_of, texts

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
HELD_ON = {"open_length": "640 mm", "closed_length": "480 mm"}
WISHBONE = {"open_length": "480 mm", "closed_length": "340 mm"}
LONG = {"open_length": "720 mm", "closed_length": "480 mm"}
TIED = ("Tie the wheel carrier", "Tie up the wheel carrier")
AS_IT_IS, BACK_UP = bw.Wanted(height="404 mm"), bw.Wanted(height="340 mm")


def plan_of(sheet: bw.answers.BenchSheet) -> bw.answers.Plan:
    return known(sheet.corners[0].plan)


def plan_sheet(setup: bw.Setup, height: str, *, plan: int) -> bw.answers.BenchSheet:
    """Sheet of one of the plans for a height."""
    corner = bw.JobCorner(setup=setup, present=setup, wanted=bw.Wanted(height=height))
    return bw.bench_sheet(bw.Job(title="t", corners=(corner,)), plan=plan)


def damper_off(sheet: bw.answers.BenchSheet) -> int:
    """Number of the one step that takes the damper off, whatever may bind."""
    return place(sheet, "Jack the arm up", "take the damper off")


def test_a_tooth_that_shows_nothing_is_painted_before_the_bar_comes_out() -> None:
    bar = make_bar(arm_end=make_end(39, blanks=()), anchor_end=make_end(42, blanks=()))
    setup = make_setup(bar=bar, arm_keyed=False, anchor_keyed=False).with_reading(height="404 mm")
    plans = bw.reindex(setup, wanted=bw.Wanted(height="330 mm")).plans
    (number, *_) = (n for n, plan in enumerate(plans, start=1) if plan.disturbed)
    sheet = plan_sheet(setup, "330 mm", plan=number)
    painted = [
        place(sheet, "Arm end: it has no blank. Paint one tooth, and the arm beside it."),
        place(sheet, "Anchor end: it has no blank. Paint one tooth, and the tube beside it."),
    ]
    assert max(painted) < place(sheet, "Pull the bar out")
    place(sheet, "Count every tooth position, gaps too. Beside the painted tooth is tooth 1.")
    place(sheet, "paint L or R")


def hanging(sheet: bw.answers.BenchSheet) -> list[int]:
    """Numbers of the steps that let the arm hang with its damper on."""
    words = "et the arm hang as low as it goes."
    return [n for n, step in enumerate(sheet.steps) if step.text.endswith(words)]


def stage_of(sheet: bw.answers.BenchSheet, number: int) -> str:
    """Title of the stage that a step belongs to."""
    titles = [stage.title for stage in sheet.stages for _ in stage.steps]
    return titles[number]


# -- The order ------------------------------------------------------------------------------


def test_a_held_bar_is_unloaded_and_proved_before_it_is_drawn() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    sheet = bw.bench_sheet(job)
    marked_as_it_was = place(sheet, "Mark bar, arm, tube and lever together")
    why = place(sheet, "Do not take the nut off: at its slack end the bar still carries")
    slack = place(sheet, "Turn the nut", "to its slack end")
    off = damper_off(sheet)
    down = place(sheet, "Let the arm down slowly until the chassis stops it.")
    proof = place(sheet, "Check that the bar is loose")
    drawn = place(sheet, "Pull the bar out")
    marked = place(sheet, "Arm end: paint X on tooth 1")
    cut = place(sheet, "Remove each tooth marked X")
    goes_in = place(sheet, "Slide the bar in")
    set_to = place(sheet, "Set the nut: ")
    on = place(sheet, "until the damper goes on")
    back = place(sheet, "Refit hose and cables")
    order = [marked_as_it_was, why, slack, off, down, proof, drawn]
    order += [marked, cut, goes_in, set_to, on, back]
    assert order == sorted(order)
    assert [stage_of(sheet, n) for n in (why, cut, goes_in, back + 1)] == [
        "Only if a tooth must go: take apart",
        *("The bar", "Put together", "Back on its wheels"),
    ]
    assert not any(step.refused for step in sheet.steps)


def test_a_wheel_carrier_is_tied_up_before_its_strut_comes_off_and_untied_with_it_on() -> None:
    sheet = bw.bench_sheet(bw.load_job("docs/examples/shorter-dampers.toml", discovered_once()))
    hose = place(sheet, "Free the brake hose and the cables")
    tied = place(sheet, "Tie the wheel carrier up loosely")
    assert [hose, tied] == [damper_off(sheet) - 2, damper_off(sheet) - 1]
    assert place(sheet, "until the damper goes on", "Untie the wheel carrier.") > tied
    # A damper beside the carrier holds none.
    now = make_setup(axle={"suspension": swing_arm_mounting()}, damper=HELD_ON)
    other = attrs.evolve(now.arm, id="t:arm/two")
    beside = sheet_of(now.with_parts(arm=other), now, BACK_UP)
    assert damper_off(beside) < place(beside, "until the damper goes on")
    assert "wheel carrier" not in texts(beside)


@pytest.mark.rare
def test_what_is_tied_up_is_untied_and_nothing_else() -> None:
    """Without strut, joint or arm a carrier is tied; a damper beside it leaves it as it was."""
    strut, loose = make_setup(), make_setup(bar=make_bar(diameter="24.6 mm"))
    joint = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    two = {"droop_stop": "-11 deg", "suspension": double_wishbone_mounting()}
    wishbone = make_setup(damper=WISHBONE, axle=two)
    swinging = make_setup(axle={"suspension": swing_arm_mounting()}, damper=HELD_ON)
    swapped = attrs.evolve(strut.arm, id="t:arm/two")
    met = set()
    for now in (strut, loose, joint, wishbone, swinging):
        for setup in (now, now.with_parts(arm=swapped)):
            for height in ("340 mm", "349 mm", "360 mm", "404 mm"):
                steps = sheet_of(setup, now, bw.Wanted(height=height)).steps
                tied = [n for n, s in enumerate(steps) if s.text.startswith(TIED)]
                untied = [
                    n for n, s in enumerate(steps) if s.text.endswith("Untie the wheel carrier.")
                ]
                assert len(untied) == (1 if tied else 0)
                assert max(tied, default=0) <= min(untied, default=0)
                met.add(bool(tied))
    assert met == {True, False}


def test_a_bar_that_is_loose_with_the_damper_on_is_drawn_with_it_on() -> None:
    sheet = sheet_of(make_setup(bar=make_bar(diameter="24.6 mm")))
    assert sheet.corners[0].reindex.removal[0].slides
    hangs = hanging(sheet)
    drawn = place(sheet, "Pull the bar out")
    assert hangs[0] < place(sheet, "Check that the bar is loose") < drawn
    assert drawn < hangs[1] < place(sheet, "Slide the bar in")
    assert not any(step.text.startswith("Jack the arm up") for step in sheet.steps)
    assert not any(step.refused for step in sheet.steps)
    # Nothing was freed, and nothing is put back.
    assert "cables back" not in texts(sheet)
    assert "Untie" not in texts(sheet)


def test_a_bar_that_is_held_without_its_damper_too_parts_the_joint_and_joins_it_again() -> None:
    sheet = sheet_of(make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"}))
    why = place(sheet, "Do not take the nut off: at its slack end the bar still carries")
    parted, proof = place(sheet, "Break the taper"), place(sheet, "Check that the bar is loose")
    joined = place(sheet, "put the ball joint together again")
    order = [
        why,
        parted,
        proof,
        place(sheet, "Pull the bar out"),
        joined,
        place(sheet, "Slide the bar in"),
    ]
    assert order == sorted(order)


def test_a_wishbone_has_a_ball_joint_to_part() -> None:
    on_two = {"droop_stop": "-11 deg", "suspension": double_wishbone_mounting()}
    sheet = sheet_of(make_setup(damper=WISHBONE, axle=on_two), wanted=bw.Wanted(height="360 mm"))
    parted = "nut of the lower ball joint, at the outer end of the arm that holds the bar,"
    assert damper_off(sheet) < place(sheet, parted)


def test_a_joint_is_put_together_where_it_was_parted_and_nowhere_else() -> None:
    now = make_setup()
    donor = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    held = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    for setup, present in ((now, now), (now.with_parts(arm=donor), now), (held, held)):
        for height in ("349 mm", "404 mm"):
            said = texts(sheet_of(setup, present, bw.Wanted(height=height)))
            assert ("the ball joint together again" in said) is ("Break the taper" in said)


def test_a_swapped_adjuster_is_changed_with_the_bar_proved_loose() -> None:
    now = make_setup()
    other = attrs.evolve(adjuster_of(now), id="t:adjuster/two", title="Other bolt")
    sheet = sheet_of(now.with_parts(adjuster=other), now, AS_IT_IS)
    old, new = place(sheet, "Take off: Adjuster."), place(sheet, "Fit: Other bolt.")
    first, again = [n for n, step in enumerate(sheet.steps) if "to its slack end" in step.text]
    proof = place(sheet, "Check that the bar is loose")
    order = [first, proof, old, new, again, place(sheet, "Set the nut")]
    assert order == sorted(order)
    assert "Pull the bar out" not in texts(sheet)


def test_a_swapped_adjuster_still_joins_the_ball_joint_and_says_where_the_nut_starts() -> None:
    now = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    # Its longer thread can be slackened further than the present one.
    long = {"thread_start": "120 mm", "thread_end": "221.5 mm", "title": "Long bolt"}
    other = make_setup(adjuster=long | {"id": "t:adjuster/long"}).adjuster
    sheet = sheet_of(now.with_parts(adjuster=other), now, AS_IT_IS)
    assert plan_of(sheet).disturbed == ()
    parted, new = place(sheet, "Break the taper"), place(sheet, "Fit: Long bolt.")
    joined = place(sheet, "With the nut at its slack end, put the ball joint together")
    started = [n for n, step in enumerate(sheet.steps) if "to its slack end" in step.text][-1]
    order = [parted, new, joined, started, place(sheet, "Set the nut")]
    assert order == sorted(order)


def test_a_swap_of_dampers_alone_leaves_the_bar_in() -> None:
    now = make_setup()
    setup = now.with_parts(damper=make_setup(damper=SHORT | {"id": "t:damper/short"}).damper)
    sheet = sheet_of(setup, now, AS_IT_IS)
    assert plan_of(sheet).disturbed == ()
    off, on = damper_off(sheet), place(sheet, "until the damper goes on")
    assert place(sheet, "Turn the nut until") < off < on
    assert "Pull" not in texts(sheet)
    assert [stage.title for stage in sheet.stages][1:3] == ["Take apart", "Put together"]


def test_a_change_of_dampers_with_the_bar_comes_between_drawing_and_fitting() -> None:
    now = make_setup(bar=make_bar(diameter="22.2 mm"))
    setup = now.with_parts(damper=make_setup(damper=SHORT | {"id": "t:damper/short"}).damper)
    sheet = sheet_of(setup, now, bw.Wanted(height="320 mm"))
    assert plan_of(sheet).disturbed
    assert damper_off(sheet) < place(sheet, "until the damper goes on")


def test_nothing_to_do_but_turn_the_nut() -> None:
    sheet = sheet_of(make_setup(), wanted=AS_IT_IS)
    work = [step.text for stage in sheet.stages[1:-1] for step in stage.steps]
    assert len(work) == 2
    assert "bushings" in work[0]
    assert work[1].startswith("Turn the nut until")
    # A bar that stays in is nothing to look at.
    assert bw.answers.Caution.SCRAP_ON_NICKS.text not in sheet.cautions


def test_a_swapped_swing_arm_is_freed_from_its_damper_first() -> None:
    now = make_setup(axle={"suspension": swing_arm_mounting()}, damper=HELD_ON)
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    sheet = sheet_of(now.with_parts(arm=other), now, BACK_UP)
    old, new = place(sheet, "Take off: Arm."), place(sheet, "Fit: Other arm.")
    order = [damper_off(sheet), old, new, place(sheet, "damper goes on")]
    assert order == sorted(order)


def test_an_arm_under_its_damper_is_freed_of_it_even_if_the_bar_was_loose_with_it_on() -> None:
    now = make_setup(axle={"suspension": swing_arm_mounting()}, damper=LONG)
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    sheet = sheet_of(now.with_parts(arm=other), now, BACK_UP)
    assert sheet.corners[0].reindex.removal[0].slides
    drawn, off = place(sheet, "Pull the bar out"), damper_off(sheet)
    assert hanging(sheet)[0] < drawn < off < place(sheet, "Take off: Arm.")


def test_a_swapped_arm_is_freed_of_hose_and_shaft_though_its_damper_is_on() -> None:
    now = make_setup(bar=make_bar(diameter="24.6 mm"))
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    sheet = sheet_of(now.with_parts(arm=other), now, AS_IT_IS)
    assert sheet.corners[0].reindex.removal[0].is_sure
    hose = place(sheet, "Free the brake hose and the cables from the arm")
    tied, off = (
        place(sheet, "Tie up the wheel carrier: it must not"),
        place(sheet, "Take off: Arm."),
    )
    back = place(sheet, "Refit hose and cables")
    assert hose < tied < off < place(sheet, "Fit: Other arm.") < back
    # An arm that carries its wheel has no carrier, and takes the brake with it.
    swinging = make_setup(axle={"suspension": swing_arm_mounting()}, damper=HELD_ON)
    sheet = sheet_of(swinging.with_parts(arm=other), swinging, BACK_UP)
    parted = place(sheet, "Part the brake hose, the cables and the drive shaft (if there is one)")
    joined = place(sheet, "Join the brake hose, the cables and the drive shaft")
    assert parted < place(sheet, "Take off: Arm.") < place(sheet, "Fit: Other arm.") < joined
    assert "wheel carrier" not in texts(sheet)


def test_a_donor_tube_brings_its_changes_into_the_steps() -> None:
    van = discovered_once().setup("fells:chassis/short", corner="front left")
    donor = discovered_once().setup("fells:chassis/middle", corner="front left")
    setup = van.with_parts(anchor=donor.anchor, bar=donor.bar)
    sheet = sheet_of(setup, van, bw.Wanted())
    drawn, put_in = place(sheet, "Pull the bar out"), place(sheet, "Slide the bar in")
    old, new = (
        place(sheet, "Take off: Torque tube, short"),
        place(sheet, "Fit: Torque tube, middle"),
    )
    holes = place(sheet, "new holes in the chassis for the tube's cap: 86.0 mm toward the anchor")
    order = [drawn, old, holes, new, put_in]
    assert order == sorted(order)
    # What is on the car already is no step.
    assert "new holes" not in texts(sheet_of(setup, setup, bw.Wanted()))


def test_what_secures_the_bar_comes_off_before_it_is_pulled_and_goes_back_once_it_is_in() -> None:
    sheet = sheet_of(make_setup())
    off = place(sheet, "Only if fitted: take end plug, circlip and clamp bolt off.")
    pulled, stuck = place(sheet, "Pull the bar out"), place(sheet, "Only if a loose bar sticks")
    pushed = place(sheet, "Push it until")
    back = place(sheet, "Only if fitted: refit end plug, circlip")
    # Nothing is pulled before it is proved loose.
    order = [place(sheet, "Check that the bar is loose"), off, pulled, stuck, pushed, back]
    assert order == sorted(order)


def test_every_tooth_is_marked_before_one_comes_off() -> None:
    """The third plan removes one at each end."""
    sheet = plan_sheet(make_setup(), "349 mm", plan=3)
    assert plan_of(sheet).cuts == 2
    order = [
        place(sheet, "Count every tooth position"),
        *(place(sheet, f"{end} end: paint X on tooth") for end in ("Arm", "Anchor")),
        place(sheet, "Remove each tooth marked X"),
    ]
    assert order == sorted(order)


def test_an_arm_in_a_fixed_socket_is_held_where_the_bar_is_loose_not_let_down() -> None:
    sheet = bw.bench_sheet(bw.load_job("docs/examples/loaded-trailer.toml", discovered_once()))
    why = place(sheet, "With the damper on, the bar still carries 67 N·m: the damper comes off.")
    held = [n for n, step in enumerate(sheet.steps) if "The bar is loose only there." in step.text]
    assert why < damper_off(sheet) < held[0] < place(sheet, "Check that the bar is loose: slide it")
    assert "Let the arm down" not in texts(sheet)


def test_a_bolt_that_was_right_back_is_looked_at_on_its_lever() -> None:
    looked = "Check that the bolt's end sits square on the lever's face."
    turned, cut = (plan_sheet(on_key_lever(), "396 mm", plan=number) for number in (1, 2))
    assert place(cut, looked) == place(cut, "Set the bolt") + 1
    # A bolt that is only turned stays on its lever, and a tube's nut has no such end.
    assert plan_of(turned).disturbed == ()
    assert looked not in texts(turned)
    assert looked not in texts(sheet_of(make_setup()))


def test_a_key_lever_that_is_swapped_waits_for_its_bar() -> None:
    now = on_key_lever()
    other = attrs.evolve(key_lever(), id="t:key-lever/two", title="Other lever")
    sheet = sheet_of(now.with_parts(anchor=other), now, bw.Wanted(height="396 mm"))
    old, ready = place(sheet, "Take off: Key lever."), place(sheet, "Lay ready: Other lever.")
    held, in_it_goes = place(sheet, "Hold the key lever in place."), place(sheet, "Slide the bar")
    order = [place(sheet, "Pull the bar out"), old, ready, held, in_it_goes]
    assert order == sorted(order)


# -- What is said where it is needed ----------------------------------------------------------


@pytest.mark.parametrize(("tolerance", "sure"), [("1 deg", True), ("30 deg", False)])
def test_what_a_thin_reserve_asks_for_is_said_where_the_bar_goes_in(
    tolerance: str, *, sure: bool
) -> None:
    now = make_setup(bar=make_bar(diameter="24.6 mm"), damper={"open_length": "760 mm"})
    known_key = bw.parts.Figure(value=now.bar.blank_angle, tolerance=bw.Quantity(tolerance))
    bar = attrs.evolve(now.bar, about=bw.parts.About({"blank_angle": known_key}))
    sheet = sheet_of(now.with_parts(bar=bar), now)
    assert plan_of(sheet).fitting[0].is_sure is sure
    said = [step.text for step in sheet.steps if "Only if the lever pulls on" in step.text]
    assert len(said) == (0 if sure else 1)


def test_a_bolt_on_a_fixed_line_is_measured_from_its_head() -> None:
    sheet = sheet_of(make_setup(adjuster={"mounting": fixed_line()}))
    assert "from the bolt's head" in sheet.steps[place(sheet, "Set the nut")].text


@pytest.mark.parametrize(("spacer", "said"), [("6 mm", True), ("0 mm", False)])
def test_a_spacer_is_asked_for_where_the_adjuster_has_one(spacer: str, *, said: bool) -> None:
    sheet = sheet_of(make_setup(adjuster={"spacer": spacer}))
    nut = sheet.steps[place(sheet, "Keep the whole nut on the thread")].text
    assert ("the spacer in its place" in nut) is said


def test_a_tooth_comes_off_without_harm_to_the_bar_or_whoever_does_it() -> None:
    sheet = sheet_of(make_setup())
    marked, off = place(sheet, "paint X on"), place(sheet, "Remove each tooth marked X")
    deep = place(sheet, "Go no deeper than the roots.")
    assert marked < off < deep < place(sheet, "Coat bare steel again. Grease the splines.")
    whole = sheet_of(make_setup(arm_keyed=False, anchor_keyed=False))
    assert plan_of(whole).cuts == 0
    assert "marked X" not in texts(whole)
    place(whole, "Grease the splines.")


def test_a_bar_that_goes_in_more_than_one_way_is_painted() -> None:
    setup = make_setup()
    cut = bw.carry_out(setup, plan_of(sheet_of(setup)))
    painted = "On the end face, paint L or R and mark the tooth or blank for the key."
    assert painted in texts(sheet_of(setup))
    assert painted in texts(sheet_of(cut, wanted=AS_IT_IS))
    assert painted not in texts(sheet_of(make_setup(arm_keyed=False, anchor_keyed=False)))


def test_the_places_of_a_bar_are_told_in_words() -> None:
    sheet = sheet_of(make_setup())
    pushed = sheet.steps[place(sheet, "Push it until")].text
    assert "is flush with the arm's outer face (allowed: 12.0 mm out to 14.0 mm in)" in pushed
    assert "Engaged: arm 37.0 mm, anchor 36.0 mm." in pushed


def test_what_lies_on_each_key_is_said_where_the_bar_goes_in() -> None:
    sheet = sheet_of(make_setup())
    in_it_goes = sheet.steps[place(sheet, "Slide the bar in at the anchor end.")].text
    assert "Arm end: the new blank on the key; anchor end: the maker's blank on the key." in (
        in_it_goes
    )


def test_a_nut_is_set_from_the_end_at_which_it_stands() -> None:
    """Half the usable thread is 31 mm / 1.75 mm / 2 = 8.9 turns, on 159.5 mm in its middle."""
    sheet = sheet_of(make_setup())
    plan = plan_of(sheet)
    turns, pin = known(plan.nut_turns).magnitude, known(plan.pin_distance).m_as("mm")
    assert sheet.steps[place(sheet, "Turn the nut counter-clockwise")].text == (
        "Turn the nut counter-clockwise, seen from the bolt's free end, to its slack end: "
        f"{159.5 + 31.0 / 2.0:.1f} mm from the bolt's pivot to the lever's pin."
    )
    assert sheet.steps[place(sheet, "Set the nut")].text == (
        f"Set the nut: {pin:.1f} mm from the bolt's pivot to the lever's pin, about "
        f"{31.0 / 1.75 / 2.0 + turns:.1f} turns clockwise from its slack end, seen from the bolt's "
        "free end. Keep the whole nut on the thread, the spacer in its place."
    )


@pytest.mark.parametrize("stated", [True, False])
def test_bushings_are_spoken_of_for_certain_where_the_pack_states_them(*, stated: bool) -> None:
    setup = make_setup(axle={"bushing": bw.parts.ArmBushing(rate="2 N*m/deg")} if stated else {})
    steps = sheet_of(setup).steps
    said = [s.text for s in steps if "bushings" in s.text and "fasteners" not in s.text]
    assert said == (
        [
            "Slacken the rubber bushings that turn with the arm.",
            "Tighten the rubber bushings that turn with the arms now, at this height.",
        ]
        if stated
        else [
            "Only if rubber bushings turn with the arm: slacken them.",
            "Only if rubber bushings turn with the arms: tighten them now.",
        ]
    )


def test_a_damper_that_is_swapped_is_named_where_it_goes_on() -> None:
    now = make_setup()
    setup = now.with_parts(damper=make_setup(damper={"id": "t:d/two", "title": "Two"}).damper)
    place(sheet_of(setup, now), "Jack the arm up until the damper goes on: Two.")


def test_a_nut_that_alone_is_turned_is_turned_from_where_it_is() -> None:
    sheet = sheet_of(make_setup(), wanted=bw.Wanted(height="415 mm"))
    assert known(sheet.corners[0].plan).disturbed == ()
    turned = sheet.steps[place(sheet, "Turn the nut until")].text
    assert "slack end" not in turned
    assert " turns clockwise from mid-thread, seen from the bolt's free end." in turned
    now = attrs.evolve(make_setup(), nut_turns="-2 turn")
    known_place = sheet_of(make_setup(), now, bw.Wanted(height="415 mm"))
    plan = known(known_place.corners[0].plan)
    turns = known(plan.nut_turns).m_as("turn") + 2.0
    place(known_place, f"Turn the nut about {turns:.1f} turns clockwise, seen from")
    down = sheet_of(make_setup(), now, bw.Wanted(height="380 mm"))
    place(down, "turns counter-clockwise, seen from the bolt's free end, until it is")
    there = attrs.evolve(now, nut_turns=known(plan.nut_turns))
    left_alone = sheet_of(make_setup(), there, bw.Wanted(height="415 mm"))
    place(left_alone, "Leave the nut where it is: ")
    at = bw.ride(make_setup()).height
    still = sheet_of(make_setup(), wanted=bw.Wanted(height=at))
    (step,) = [step.text for step in still.steps if step.text.startswith("Turn the nut until")]
    assert "the lever's pin: at mid-thread, seen from" in step


@pytest.mark.parametrize(
    ("made_for", "said"),
    [
        (
            bw.parts.Side.LEFT,
            "Read the side mark on its end: the left bar goes left, the right bar",
        ),
        (None, "Only if its end has a side mark: fit it on that side."),
    ],
)
def test_only_a_bar_that_is_made_for_a_side_must_have_a_mark(
    made_for: bw.parts.Side | None, said: str
) -> None:
    now = make_setup()
    other = now.with_parts(bar=make_bar(id="t:bar/two", made_for=made_for))
    corner = bw.JobCorner(setup=other, present=now, wanted=AS_IT_IS)
    place(bw.bench_sheet(bw.Job(title="t", corners=(corner,))), said)
