"""Tests of `common_steps`: both sides reach a stage before height is judged."""

from __future__ import annotations

from pathlib import Path

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from sample_packs import discovered_once
from sample_records import known, make_setup
from sheet_corners import LOWER, stuck_corner, texts

EXAMPLES = Path(__file__).parents[3] / "docs/examples"
NUT_ALONE = bw.Wanted(height="404 mm")


def corner(setup: bw.Setup, wanted: bw.Wanted = LOWER) -> bw.JobCorner:
    return bw.JobCorner(setup=setup, present=setup, wanted=wanted)


def sheet_of(*corners: bw.JobCorner) -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.Job(title="t", corners=corners))


def stage(sheet: bw.answers.BenchSheet, number: int) -> str:
    """All that a stage says, a line each."""
    steps = sheet.stages[number].steps
    return "\n".join(line for step in steps for line in (step.line, *step.branch))


def before(sheet: bw.answers.BenchSheet) -> str:
    assert sheet.stages[0].title == "Before you begin"
    return stage(sheet, 0)


def after(sheet: bw.answers.BenchSheet) -> str:
    assert sheet.stages[-1].title == "Back on its wheels"
    return stage(sheet, -1)


def assert_in_order(text: str, *order: str) -> None:
    places = [text.index(words) for words in order]
    assert places == sorted(places)


LEFT, RIGHT = make_setup(), make_setup(side=bw.parts.Side.RIGHT)


def test_height_is_taken_once_before_all_work_and_once_after_it() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    for said in (before(sheet), after(sheet)):
        assert said.count("let it settle") == 1
        assert said.count("Measure hub to arch") == 1
    work = "\n".join(stage(sheet, number) for number in range(1, len(sheet.stages) - 1))
    for word in ("settle", "Measure", "hub to arch", "Chock", "wheels", "headlamp"):
        assert word not in work


def test_the_order_of_the_common_steps_is_that_of_the_work() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    assert_in_order(
        before(sheet),
        *("maker's torques", "let it settle", "weigh", "Measure hub to arch", "Chock"),
        *("on stands", "anti-roll bar"),
    )
    assert "Measure hub to arch and the nut's place, both sides. Note them below." in before(sheet)
    assert_in_order(
        after(sheet),
        *("join its links", "fit the wheels", "settle", "Measure", "Correct", "tighten them now"),
        *("Tighten all fasteners", "Check headlamp", "Try it on the road"),
    )


def test_the_heights_of_all_corners_are_expected_together() -> None:
    same = after(sheet_of(corner(LEFT), corner(RIGHT)))
    assert "Measure hub to arch on both sides. Expected: 349 mm." in same
    apart = after(sheet_of(corner(LEFT), corner(RIGHT, bw.Wanted(height="352 mm"))))
    assert "Expected: 349 mm (left), 352 mm (right)." in apart


def test_a_height_is_corrected_by_turning_what_raises_it_both_sides_together() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    rise = known(known(sheet.corners[0].plan).height_per_turn).m_as("mm/turn")
    (correct,) = [step for step in sheet.steps if step.text == "Only if a height is off:"]
    assert correct.branch == (
        f"Turn the nut clockwise to raise that side: {rise:.1f} mm for one turn.",
        "Correct both sides alternately, since each changes the other's load.",
        "Roll, settle and measure both sides again.",
    )
    bolt = after(sheet_of(corner(on_key_lever(), bw.Wanted(height="380 mm"))))
    assert "Turn the bolt clockwise to raise that side: " in bolt


def test_a_rise_that_differs_is_told_for_both_sides() -> None:
    finer = make_setup(side=bw.parts.Side.RIGHT, adjuster={"thread_pitch": "1.5 mm"})
    said = after(sheet_of(corner(LEFT), corner(finer)))
    assert said.count("Turn the nut") == 1
    assert " mm (left), " in said
    assert " mm (right) for one turn." in said


def test_a_link_is_parted_only_where_an_arm_moves() -> None:
    turned = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT, NUT_ALONE))
    assert "anti-roll" not in texts(turned)
    one_moves = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT))
    assert before(one_moves).count("part its links") == 1
    assert after(one_moves).count("join its links") == 1


def test_a_trailer_is_coupled_whenever_its_height_is_taken() -> None:
    trailer = bw.load_job(EXAMPLES / "loaded-trailer.toml", discovered_once())
    sheet = bw.bench_sheet(trailer)
    for said in (before(sheet), after(sheet)):
        assert_in_order(said, "hold its drawbar level", "Measure hub to arch")
    assert_in_order(before(sheet), "Hold the drawbar, so that the trailer cannot tip.", "on stands")
    assert "Check that the trailer stands level. Check its brakes and its lamps." in after(sheet)
    assert "drawbar" not in texts(sheet_of(corner(LEFT), corner(RIGHT)))


@pytest.mark.parametrize(("setups", "reported"), [((LEFT,), True), ((LEFT, RIGHT), False)])
def test_a_job_for_one_side_is_cautioned(setups: tuple[bw.Setup, ...], *, reported: bool) -> None:
    sheet = sheet_of(*map(corner, setups))
    assert (bw.answers.Caution.ONE_SIDE.text in sheet.cautions) is reported


def test_a_side_that_cannot_be_done_leaves_the_other_cautioned() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT, bw.Wanted(height="900 mm")))
    assert bw.answers.Caution.ONE_SIDE.text in sheet.cautions
    assert "Expected: 349 mm." in after(sheet)
    assert "right" not in after(sheet)


@pytest.mark.parametrize("only", [corner(LEFT, bw.Wanted(height="900 mm")), stuck_corner()])
def test_where_nothing_is_done_there_is_nothing_before_and_after(only: bw.JobCorner) -> None:
    sheet = sheet_of(only)
    assert all(step.refused for step in sheet.steps)
    assert bw.answers.Caution.ONE_SIDE.text not in sheet.cautions


def test_one_axle_is_lifted_at_a_time() -> None:
    axle = attrs.evolve(LEFT.axle, place=bw.parts.AxlePlace.REAR)
    chassis = attrs.evolve(LEFT.chassis, axles=(LEFT.axle, axle))
    front = attrs.evolve(LEFT, chassis=chassis)
    both = sheet_of(corner(front), corner(attrs.evolve(front, axle=axle)))
    assert "Lift one axle at a time" in before(both)
    assert "Lift one axle at a time" not in before(sheet_of(corner(LEFT)))


def test_nothing_is_corrected_where_nothing_can_be_adjusted() -> None:
    fixed = on_fixed(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
    sheet = sheet_of(corner(fixed, NUT_ALONE))
    assert "Only if a height is off: nothing can be adjusted. Plan other teeth for it." in (
        after(sheet)
    )
    assert "alternately" not in after(sheet)
    assert "Measure hub to arch, both sides." in before(sheet)


@pytest.mark.parametrize("height", ["349 mm", "404 mm"])
def test_clearances_are_checked_before_the_vehicle_is_tried(height: str) -> None:
    said = after(sheet_of(corner(LEFT, bw.Wanted(height=height))))
    is_lower = height == "349 mm"
    assert ("Check clearance at both locks and full bump" in said) is is_lower
    if is_lower:
        assert_in_order(said, "Tighten all fasteners", "Check clearance", "Try it on the road")


def test_whoever_begins_has_the_torques_and_whoever_ends_uses_them() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    assert before(sheet).startswith(
        "Get the maker's torques, new locking fasteners and new split pins.\n"
    )
    assert "Tighten all fasteners and the wheel bolts to the maker's torques." in after(sheet)
    assert after(sheet).endswith("Measure again, and recheck the wheel bolts.")


def test_wheels_come_off_and_go_on_for_work_on_the_bar_alone() -> None:
    turned = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT, NUT_ALONE))
    work = sheet_of(corner(LEFT), corner(RIGHT))
    off, on = "hanging. Take them off.", "fit the wheels and set the vehicle down"
    bolts = "Tighten all fasteners and the wheel bolts"
    for words, steps in ((off, before), (on, after), (bolts, after), ("recheck", after)):
        assert words in steps(work)
        assert words not in steps(turned)
    assert "With every corner done, set the vehicle down." in after(turned)
    assert "Tighten all fasteners to the maker's torques." in after(turned)
