"""The bench sheet: its steps come in an order that is safe to follow."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.loose_bar import loose_bar
from barwright.report.sheet.bar_ends import work_text
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps import steps
from sample_records import (
    adjuster_of,
    double_wishbone_mounting,
    fixed_line,
    known,
    make_bar,
    make_setup,
    swing_arm_mounting,
)
from sheet_corners import stuck_corner

LOWER = bw.Wanted(height="349 mm")
SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}


def sheet_of(
    setup: bw.Setup, present: bw.Setup | None = None, wanted: bw.Wanted = LOWER
) -> bw.answers.CornerSheet:
    corner = bw.JobCorner(setup=setup, present=present or setup, wanted=wanted)
    return bw.bench_sheet(bw.Job(title="t", corners=(corner,))).corners[0]


def place(sheet: bw.answers.CornerSheet, *words: str) -> int:
    """Number of the one step that holds all words."""
    found = [n for n, step in enumerate(sheet.steps) if all(w in step.text for w in words)]
    assert len(found) == 1, (words, [step.text for step in sheet.steps])
    return found[0]


def damper_off(sheet: bw.answers.CornerSheet) -> int:
    """Number of the one step that takes the damper off, whatever may bind."""
    found = [n for n, step in enumerate(sheet.steps) if step.text.startswith("Hold the arm up")]
    assert len(found) == 1
    return found[0]


def test_the_demo_job_needs_one_tooth_and_says_how_the_old_bar_comes_out() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    sheet = bw.bench_sheet(job)
    assert all(outcome.is_good for outcome in sheet.outcomes)
    for corner in sheet.corners:
        assert corner.plan is not None
        assert (corner.plan.cuts, len(corner.plan.disturbed)) == (1, 1)
        why = place(corner, "The damper comes off first: with the nut right back the bar still")
        slack = place(corner, "Slacken the nut to the slack end")
        off = damper_off(corner)
        proof = place(corner, "Prove it:")
        drawn = place(corner, "Draw the bar out")
        cut = place(corner, "remove tooth 1")
        goes_in = place(corner, "Slide the bar in")
        damper_on = place(corner, "until the damper goes on")
        assert why < slack < off < proof < drawn < cut < goes_in < damper_on
        assert not any(step.refused for step in corner.steps)
    senses = [c.plan.ends[0].direction for c in sheet.corners if c.plan]
    assert senses == [bw.answers.TurningSense.COUNTER_CLOCKWISE, bw.answers.TurningSense.CLOCKWISE]


def test_all_cautions_come_with_a_plan_that_cuts() -> None:
    setup = make_setup()
    job = bw.Job(title="t", corners=(bw.JobCorner(setup=setup, present=setup, wanted=LOWER),))
    other = {
        bw.answers.Caution.LIFT_UNTIL_LOOSE,
        bw.answers.Caution.MARK_KEY_LEVER,
        bw.answers.Caution.MARK_SOCKET,
    }
    other |= {bw.answers.Caution.FULL_BOLT, bw.answers.Caution.ON_ITS_COUPLING}
    other.add(bw.answers.Caution.BOTH_SIDES_BY_TURNS)
    of_job = (bw.answers.Caution.ONE_SIDE, bw.answers.Caution.SLACK_AT_DROOP)
    reported = [c for c in bw.answers.Caution if c not in other and c not in of_job]
    assert bw.bench_sheet(job).cautions == tuple(c.text for c in (*of_job, *reported))


def test_a_bar_that_is_loose_with_the_damper_on_is_drawn_with_it_on() -> None:
    sheet = sheet_of(make_setup(bar=make_bar(diameter="24.6 mm")))
    assert sheet.reindex.removal[0].slides
    assert place(sheet, "With the damper on") < place(sheet, "Prove it:")
    assert not any(step.refused for step in sheet.steps)


def test_a_removal_that_is_held_even_without_damper_parts_the_joint_and_joins_it_again() -> None:
    now = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    corner = sheet_of(now)
    assert "with the nut right back the bar still holds" in corner.steps[2].text
    parted, proof = place(corner, "break the taper"), place(corner, "Prove it:")
    joined = place(corner, "put the ball joint together again")
    assert parted < proof < place(corner, "Draw") < joined < place(corner, "Slide the bar in")


def test_without_a_ball_joint_the_sheet_stops_where_it_knows_no_way() -> None:
    stuck = stuck_corner()
    corner = sheet_of(stuck.setup, stuck.present, stuck.wanted)
    assert corner.plan is None
    assert corner.verdict is bw.Verdict.NO_SAFE_WAY
    assert not corner.outcome.is_good
    # Nothing is to be touched: no step stands beside the refusal, and nothing is to be set.
    touched, no_way = corner.steps
    assert touched.refused
    assert "Do not touch the bar: with the nut right back and the damper off" in touched.text
    assert no_way.refused
    assert "knows no safe way" in no_way.text
    assert (corner.settings, corner.measurements) == ((), ())


WISHBONE = {"open_length": "480 mm", "closed_length": "340 mm"}


def test_a_wishbone_has_a_ball_joint_to_part() -> None:
    now = make_setup(
        damper=WISHBONE,
        axle={"droop_stop": "-11 deg", "suspension": double_wishbone_mounting()},
    )
    corner = sheet_of(now, wanted=bw.Wanted(height="360 mm"))
    assert corner.plan is not None
    parted = "nut of the lower ball joint, at the outer end of the arm that holds the bar,"
    assert damper_off(corner) < place(corner, parted)


def test_bushings_that_are_not_tightened_at_the_height_are_a_note_of_the_sheet() -> None:
    bushing = bw.parts.ArmBushing(rate="2 N*m/deg", set_angle="-12 deg")
    corner = sheet_of(make_setup(axle={"bushing": bushing}), wanted=bw.Wanted(height="404 mm"))
    assert corner.plan is not None
    (said,) = [f.line for f in corner.plan.findings if f.topic is bw.answers.Topic.BUSHING]
    assert "not tightened at this height" in said
    assert said.endswith("found 14.0 N·m")


def test_a_swapped_adjuster_is_changed_with_the_bar_proved_loose() -> None:
    now = make_setup()
    other = attrs.evolve(adjuster_of(now), id="t:adjuster/two", title="Other bolt")
    corner = sheet_of(now.with_parts(adjuster=other), now, bw.Wanted(height="404 mm"))
    old, new = place(corner, "Take off: Adjuster."), place(corner, "Fit: Other bolt.")
    loose = [n for n, step in enumerate(corner.steps) if step.text.startswith("Slacken the nut")][1]
    assert place(corner, "Prove it:") < old < new < loose < place(corner, "Set the nut to")
    assert not any("Draw the bar out" in step.text for step in corner.steps)


def test_a_swap_of_dampers_alone_leaves_the_bar_in() -> None:
    now = make_setup()
    setup = now.with_parts(damper=make_setup(damper=SHORT | {"id": "t:damper/short"}).damper)
    corner = sheet_of(setup, now, bw.Wanted(height="404 mm"))
    assert corner.plan is not None
    assert corner.plan.disturbed == ()
    off, on = damper_off(corner), place(corner, "until the damper goes on")
    assert place(corner, "Set the nut to") < off < on
    assert not any("Draw" in step.text for step in corner.steps)


def test_a_change_of_dampers_with_the_bar_comes_between_drawing_and_fitting() -> None:
    now = make_setup(bar=make_bar(diameter="22.2 mm"))
    setup = now.with_parts(damper=make_setup(damper=SHORT | {"id": "t:damper/short"}).damper)
    corner = sheet_of(setup, now, bw.Wanted(height="340 mm"))
    assert corner.plan is not None
    assert corner.plan.disturbed
    takes_off = damper_off(corner)
    puts_on = place(corner, "until the damper goes on")
    assert takes_off < puts_on
    names = {line.kind: line.replaces for line in corner.parts}
    assert names["damper"] == "Damper"
    assert names["bar"] == ""


def test_nothing_to_do_but_turn_the_nut() -> None:
    corner = sheet_of(make_setup(), wanted=bw.Wanted(height="404 mm"))
    assert not any("bar" in step.text and "Mark" not in step.text for step in corner.steps[3:])
    place(corner, "Set the nut to")


def test_the_figures_to_set_are_the_plan_s() -> None:
    corner = sheet_of(make_setup())
    plan = corner.plan
    assert plan is not None
    values = {setting.what: setting.value for setting in corner.settings}
    assert values["hub to arch"] == plan.height
    assert values["bolt's pivot to lever's pin"] == plan.pin_distance
    expected = {m.what: m.expected for m in corner.measurements}
    assert expected["nut after"] == plan.pin_distance
    assert expected["height after, settled and rolled"] == plan.height
    # Where a job does not say where the nut stands, there is nothing to expect.
    assert expected["nut before"] is None
    turned = sheet_of(make_setup(nut_turns="2 turn"))
    before = {m.what: m.expected for m in turned.measurements}["nut before"]
    assert before is not None
    # 159.5 mm from its pivot in the middle, less two turns of 1.75 mm.
    assert before.m_as("mm") == pytest.approx(159.5 - 3.5)


def test_a_nut_in_the_middle_is_turned_neither_way() -> None:
    setup = make_setup()
    answer = bw.reindex(setup, wanted=bw.Wanted(height="404 mm"))
    middle = attrs.evolve(answer.plans[0], nut_sense=None, nut_turns=bw.Quantity("0 turn"))
    loose = loose_bar(Corner(setup))
    work = CornerWork(
        setup=setup,
        present=setup,
        answer=answer,
        plan=middle,
        loose=loose,
        loose_now=loose,
        system="metric",
    )
    assert any("Set the nut to the middle of its thread, " in step.text for step in steps(work))


def test_a_wish_out_of_reach_has_no_steps() -> None:
    corner = sheet_of(make_setup(), wanted=bw.Wanted(height="900 mm"))
    assert corner.verdict is bw.Verdict.OUT_OF_REACH
    assert (corner.plan, corner.steps, corner.settings) == (None, (), ())


def test_the_sheet_names_its_sources_and_what_is_invented() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    assert bw.bench_sheet(job).sources == (
        "fells:drawing-board (invented)",
        "standards:teaching-table (published)",
    )


def test_a_nut_beyond_its_thread_is_refused_even_where_nothing_else_depends_on_it() -> None:
    with pytest.raises(bw.QuantityError) as caught:
        sheet_of(make_setup(), make_setup(nut_turns="40 turn"))
    assert caught.value.key == "present.nut_turns"


def test_the_sheet_says_what_the_tolerances_leave_open() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    corner = bw.bench_sheet(job).corners[0]
    assert corner.plan is not None
    (height,) = [s for s in corner.settings if s.what == "hub to arch"]
    assert "to a flat of the nut; the parts' tolerances leave ± 7 mm (about 95 %)" in height.note
    # The nut can make it up: enough thread is left for it.
    turns, per_turn = corner.plan.thread_reserve, corner.plan.height_per_turn
    by_turns = known(turns).magnitude * known(per_turn).magnitude
    assert corner.plan.height_uncertainty.m_as("mm") < by_turns


def test_steps_in_inches_hold_no_metric_figure() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    for corner in bw.bench_sheet(job, system="inch").corners:
        for step in corner.steps:
            assert " mm" not in step.text
            assert "N·m" not in step.text
        assert any(" in " in step.text for step in corner.steps)


def test_a_socket_without_a_key_is_said_to_have_none() -> None:
    corner = sheet_of(make_setup(arm_keyed=False))
    place(corner, "Arm end: nothing to cut; the socket has no key, and tooth 1", "will go where")
    assert "arm end: no key; as said above" in corner.steps[place(corner, "Slide")].text


def test_blanks_that_are_there_are_named_for_what_they_are() -> None:
    setup = make_setup()
    cut = bw.carry_out(setup, next(p for p in sheet_of(setup).reindex.plans if p.cuts == 1))
    back = sheet_of(cut, wanted=bw.Wanted(height="404 mm"))
    place(back, "nothing to cut; the maker's blank will go on the key")
    place(back, "The bar can now be fitted in more ways than one. Mark on its end face left,")
    keyed = attrs.evolve(cut, arm_tooth=0, anchor_tooth=0)
    place(sheet_of(keyed), "nothing to cut; the blank cut earlier will go on the key: tooth 1")


def test_a_donor_tube_brings_its_changes_into_the_steps() -> None:
    registry = bw.Registry.discover()
    van = registry.setup("fells:chassis/short", corner="front left")
    donor = registry.setup("fells:chassis/middle", corner="front left")
    setup = van.with_parts(anchor=donor.anchor, bar=donor.bar)
    corner = sheet_of(setup, van, bw.Wanted())
    drawn, put_in = place(corner, "Draw the bar out"), place(corner, "Slide the bar in")
    old, new = (
        place(corner, "Take off: Torque tube, short"),
        place(corner, "Fit: Torque tube, middle"),
    )
    holes = place(corner, "new holes in the chassis for the tube's cap: 86.0 mm toward the anchor")
    assert drawn < old < holes < new < put_in
    # What is on the car already is no step.
    there = sheet_of(setup, setup, bw.Wanted())
    assert not any("new holes" in step.text for step in there.steps)


def test_a_bolt_on_a_fixed_line_is_measured_from_its_head() -> None:
    corner = sheet_of(make_setup(adjuster={"mounting": fixed_line()}))
    assert "from the bolt's head" in corner.steps[place(corner, "Set the nut to")].text


def test_the_steps_can_follow_another_plan() -> None:
    setup = make_setup()
    corner = bw.JobCorner(setup=setup, present=setup, wanted=LOWER)
    job = bw.Job(title="t", corners=(corner,))
    first, second = (bw.bench_sheet(job, plan=n).corners[0] for n in (1, 2))
    assert first.plan == first.reindex.plans[0]
    assert second.plan == second.reindex.plans[1]
    assert (first.plan_number, second.plan_number) == (1, 2)
    assert first.steps != second.steps


def test_the_rates_are_those_of_the_bar_as_it_will_be() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    figures = bw.bench_sheet(job).corners[0].rates.figures
    assert figures is not None
    assert [head.teeth_left for head in figures.heads] == [37, 41]


def test_a_swapped_swing_arm_is_freed_from_its_damper_first() -> None:
    now = make_setup(axle={"suspension": swing_arm_mounting()}, damper=SWING)
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    corner = sheet_of(now.with_parts(arm=other), now, bw.Wanted(height="340 mm"))
    off = damper_off(corner)
    old, new = place(corner, "Take off: Arm."), place(corner, "Fit: Other arm.")
    assert off < old < new < place(corner, "damper goes on")


SWING = {"open_length": "640 mm", "closed_length": "480 mm"}


def test_what_a_thin_reserve_asks_for_is_said_where_the_bar_goes_in() -> None:
    now = make_setup(bar=make_bar(diameter="24.6 mm"), damper={"open_length": "760 mm"})
    for tolerance, sure in (("1 deg", True), ("30 deg", False)):
        known_key = bw.parts.Figure(value=now.bar.blank_angle, tolerance=bw.Quantity(tolerance))
        bar = attrs.evolve(now.bar, about=bw.parts.About({"blank_angle": known_key}))
        corner = sheet_of(now.with_parts(bar=bar), now)
        assert corner.plan is not None
        assert corner.plan.fitting[0].is_sure is sure
        said = [step.text for step in corner.steps if "Only if the lever pulls on" in step.text]
        assert len(said) == (0 if sure else 1)
        assert not any("may still hold" in step.text for step in corner.steps)


def test_a_swapped_adjuster_still_joins_the_ball_joint_and_says_where_the_nut_starts() -> None:
    now = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    # Its longer thread can be slackened further than the present one.
    long = {"thread_start": "120 mm", "thread_end": "221.5 mm", "title": "Long bolt"}
    other = make_setup(adjuster=long | {"id": "t:adjuster/long"}).adjuster
    corner = sheet_of(now.with_parts(adjuster=other), now, bw.Wanted(height="404 mm"))
    assert corner.plan is not None
    assert corner.plan.disturbed == ()
    parted, new = place(corner, "break the taper"), place(corner, "Fit: Long bolt.")
    joined = place(corner, "With the nut right back, put the ball joint together")
    started = [n for n, step in enumerate(corner.steps) if "Slacken the nut to" in step.text][-1]
    assert parted < new < joined < started < place(corner, "Set the nut to")


def test_an_arm_under_its_damper_is_freed_of_it_even_if_the_bar_was_loose_with_it_on() -> None:
    long = {"open_length": "720 mm", "closed_length": "480 mm"}
    now = make_setup(axle={"suspension": swing_arm_mounting()}, damper=long)
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    corner = sheet_of(now.with_parts(arm=other), now, bw.Wanted(height="340 mm"))
    assert corner.reindex.removal[0].slides
    drawn, off = place(corner, "Draw the bar out"), damper_off(corner)
    assert place(corner, "With the damper on") < drawn < off < place(corner, "Take off: Arm.")


def test_a_part_of_the_same_id_that_differs_is_in_the_place_of_the_other() -> None:
    now = make_setup()
    worn = attrs.evolve(now.damper, open_length="670 mm")
    corner = sheet_of(now.with_parts(damper=worn), now, bw.Wanted())
    assert {line.kind: line.replaces for line in corner.parts}["damper"] == "Damper"


def test_plans_are_counted_from_one() -> None:
    setup = make_setup()
    job = bw.Job(title="t", corners=(bw.JobCorner(setup=setup, present=setup, wanted=LOWER),))
    with pytest.raises(bw.SchemaError) as caught:
        bw.bench_sheet(job, plan=0)
    assert (caught.value.code, caught.value.key) == ("S203", "plan")


def test_an_end_that_stays_without_a_blank_on_the_key_names_its_tooth() -> None:
    setup = make_setup(arm_keyed=False, arm_tooth=1)
    plans = bw.reindex(setup, wanted=LOWER).plans
    stays = [
        work for plan in plans for work in plan.ends if work.action is bw.answers.EndAction.STAYS
    ]
    said = {work_text(work) for work in stays if work.tooth == 1}
    where = "no key: tooth 1 counter-clockwise where it was"
    assert said == {f"Arm end: nothing to cut; it goes back as it was ({where})."}


def test_a_cleared_key_is_thought_of_wherever_the_new_blank_is() -> None:
    corner = sheet_of(make_setup())
    reported = [step.text for step in corner.steps if "the new blank" in step.text]
    assert len(reported) == 2
    assert all("the new blank (or the tooth marked in its stead)" in text for text in reported)


@pytest.mark.parametrize(("spacer", "said"), [("6 mm", True), ("0 mm", False)])
def test_a_spacer_is_asked_for_where_the_adjuster_has_one(spacer: str, *, said: bool) -> None:
    corner = sheet_of(make_setup(adjuster={"spacer": spacer}))
    nut = corner.steps[place(corner, "Set the nut to")].text
    assert "The whole nut must be on full thread" in nut
    assert ("the spacer in its place" in nut) is said


def test_the_load_is_the_first_thing_to_measure() -> None:
    assert sheet_of(make_setup()).measurements[0].what == "corner load"


def test_the_hose_is_free_before_the_arm_goes_lower_than_its_damper_lets_it() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    for corner in bw.bench_sheet(job).corners:
        assert place(corner, "Free the brake hose and the leads") == damper_off(corner) - 1


def test_a_swapped_arm_is_freed_of_hose_and_shaft_though_its_damper_is_on() -> None:
    now = make_setup(bar=make_bar(diameter="24.6 mm"))
    other = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    corner = sheet_of(now.with_parts(arm=other), now, bw.Wanted(height="404 mm"))
    assert corner.reindex.removal[0].is_sure
    off = corner.steps[place(corner, "Take off: Arm.")].text
    assert off.startswith("Free the brake hose and the leads from the arm. Support the drive shaft")
    assert "Tie up the carrier, " in off
    back = place(corner, "Put the brake hose and the leads back")
    assert place(corner, "Fit: Other arm.") < back == len(corner.steps) - 1
    # An arm that carries its wheel has no carrier, and takes the brake with it.
    swinging = make_setup(axle={"suspension": swing_arm_mounting()}, damper=SWING)
    corner = sheet_of(swinging.with_parts(arm=other), swinging, bw.Wanted(height="340 mm"))
    off = corner.steps[place(corner, "Take off: Arm.")].text
    assert off.startswith("Part the brake hose, the leads and the drive shaft (if there is one)")
    assert corner.steps[-1].text.startswith("Join the brake hose, the leads and the drive shaft")


def test_a_hose_that_was_freed_goes_back_and_no_other() -> None:
    job = bw.load_job("docs/examples/shorter-dampers.toml", bw.Registry.discover())
    for corner in bw.bench_sheet(job).corners:
        assert corner.steps[-1].text.startswith("Put the brake hose and the leads back")
    loose = sheet_of(make_setup(bar=make_bar(diameter="24.6 mm")))
    assert not any("hose and the leads back" in step.text for step in loose.steps)


def test_the_places_of_a_bar_are_told_in_words() -> None:
    corner = sheet_of(make_setup())
    pushed = corner.steps[place(corner, "Push it until")].text
    assert "(it may stand " in pushed
    assert " -" not in pushed


# -- Word by word ---------------------------------------------------------------------------


def test_a_whole_corner_is_told_word_by_word() -> None:
    """A tooth at the arm end: half the usable thread is 31 mm / 1.75 mm / 2 = 8.9 turns."""
    corner = sheet_of(make_setup())
    plan = known(corner.plan)
    turns, pin = known(plan.nut_turns).magnitude, known(plan.pin_distance).m_as("mm")
    assert [step.text for step in corner.steps] == [
        "If rubber bushings turn with the arm, slacken them.",
        "Mark bar, arm, tube and lever against each other on their end faces; mark left and right.",
        (
            "Slacken the nut to the slack end of its thread: turn it counter-clockwise, seen from "
            "the bolt's free end, until the whole nut is only just on full thread (8.9 turns from "
            "the middle)."
        ),
        "With the damper on and the arm hanging at its stop, the bar now carries no torque.",
        "Prove it: turn the lever and slide the bar a little, by hand.",
        (
            "Only if it binds: do not force it. Free the brake hose and the leads, so that "
            "nothing pulls on them where the arm goes lower than the damper lets it. Support the "
            "drive shaft (if there is one), so that no joint of it is pulled apart. Hold the arm "
            "up with a jack under the ball joint, take the damper off, and let the arm down "
            "slowly to its own stop while the carrier is steadied, and tie the carrier up so that "
            "it cannot tip. Prove it again. Refit the damper before the wheel."
        ),
        "Draw the bar out at the anchor end.",
        (
            "Inspect the bar you are fitting in good light (Bar): a nick, a grinding mark or a "
            "rust pit scraps it."
        ),
        "Count every tooth position, gaps included; the one next to the maker's blank is 1.",
        (
            "Arm end: remove tooth 1 counter-clockwise from the maker's blank, seen from the arm "
            "end, looking toward the anchor end. This new blank will go on the key. Or clear the "
            "key in the socket instead, and mark that tooth, which will go where the key was: the "
            "bar then stays whole."
        ),
        "Anchor end: nothing to cut; it goes back as it was (the maker's blank on the key).",
        (
            "The bar can now be fitted in more ways than one. Mark on its end face left, and what "
            "goes where the key is: arm end: the new blank (or the tooth marked in its stead)."
        ),
        "Leave the nut at the slack end of its thread.",
        (
            "Let the arm hang at its stop with the damper on. Turn the lever by hand until the "
            "teeth line up."
        ),
        (
            "Slide the bar in at the anchor end. On the keys: arm end: the new blank (or the tooth "
            "marked in its stead) on the key; anchor end: the maker's blank on the key."
        ),
        (
            "Push it until its arm-end spline is flush with the arm socket's outer face (it may "
            "stand 12.0 mm out to 14.0 mm in); engaged are 37.0 mm at the arm end and 36.0 mm at "
            "the anchor end."
        ),
        (
            f"Set the nut to {-turns:.2f} turns counter-clockwise from the middle of its thread, "
            f"{31.0 / 1.75 / 2.0 + turns:.2f} from its slack end, seen from the bolt's free end: "
            f"{pin:.1f} mm from the bolt's pivot to the lever's pin. The whole nut must be on full "
            "thread, the spacer in its place."
        ),
    ]


def test_what_is_done_at_an_end_is_told_for_each_kind_of_work() -> None:
    viewed = "seen from the arm end, looking toward the anchor end"
    first, second = (
        f"tooth 1 counter-clockwise from the maker's blank, {viewed}",
        "the maker's blank",
    )
    setup = make_setup()
    cut = known(sheet_of(setup).plan)
    done = bw.carry_out(setup, cut)
    unkeyed = make_setup(arm_keyed=False)
    for now, height, said in (
        (
            attrs.evolve(done, arm_tooth=0),
            "349 mm",
            f"the blank cut earlier will go on the key: {first}.",
        ),
        (done, "404 mm", f"{second} will go on the key."),
        (
            unkeyed,
            "349 mm",
            (
                f"the socket has no key, and {first} will go where it would be: 17.5° "
                "counter-clockwise from the arm's centreline."
            ),
        ),
        (
            attrs.evolve(unkeyed, arm_tooth=1),
            "404 mm",
            (
                f"the socket has no key, and {second} will go where it would be: 17.5° "
                "counter-clockwise from the arm's centreline."
            ),
        ),
    ):
        work, _ = bw.reindex(now, wanted=bw.Wanted(height=height)).plans[0].ends
        assert work_text(work) == f"Arm end: nothing to cut; {said}"


def test_a_joint_is_put_together_where_it_was_parted_and_nowhere_else() -> None:
    now = make_setup()
    donor = attrs.evolve(now.arm, id="t:arm/two", title="Other arm")
    held = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
    for setup, present in ((now, now), (now.with_parts(arm=donor), now), (held, held)):
        for height in ("349 mm", "404 mm"):
            corner = sheet_of(setup, present, bw.Wanted(height=height))
            said = " ".join(step.text for step in corner.steps)
            assert ("the ball joint together again" in said) is ("break the taper" in said)


def test_a_headline_begins_with_the_corner_and_its_work() -> None:
    corner = sheet_of(make_setup())
    assert corner.headline == f"R{known(corner.plan).summary[1:]}"
    far = sheet_of(make_setup(), wanted=bw.Wanted(height="900 mm"))
    assert far.headline == far.reindex.headline
