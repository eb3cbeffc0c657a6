"""Tests of `common_steps`: both sides reach a stage before height is judged."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.units import System
from sample_packs import discovered_once
from sample_records import known, make_setup
from sheet_corners import LOWER, stuck_corner, texts

EXAMPLES = Path(__file__).parents[4] / "docs/examples"
NUT_ALONE = bw.Wanted(height="404 mm")
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
OFF = "Only if a height is more than 3 mm from the expected one"


def corner(setup: bw.Setup, wanted: bw.Wanted = LOWER) -> bw.JobCorner:
    return bw.JobCorner(setup=setup, present=setup, wanted=wanted)


def sheet_of(*corners: bw.JobCorner, system: System = "metric") -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.Job(title="t", corners=corners), system=system)


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
        *("maker's tightening torques", "weigh", "on level ground and let it settle", "Chock"),
        *("Measure hub to arch", "on stands", "Take the wheels off", "anti-roll bar"),
    )
    assert "Measure hub to arch and the nut's position, both sides. Note them below." in before(
        sheet
    )
    assert_in_order(
        after(sheet),
        *("fit its links", "Tighten all fasteners", "fit the wheels", "Tighten the wheel bolts"),
        *("Take the chocks away. Roll it", "settle", "Measure", "Turn the nut", "tighten them now"),
        *("Check headlamp", "Try it on the road"),
    )


def test_the_heights_of_all_corners_are_expected_together() -> None:
    same = after(sheet_of(corner(LEFT), corner(RIGHT)))
    assert "Measure hub to arch on both sides. Expected: 349 mm." in same
    apart = after(sheet_of(corner(LEFT), corner(RIGHT, bw.Wanted(height="352 mm"))))
    assert "Expected: 349 mm (left), 352 mm (right)." in apart


def test_a_height_is_corrected_by_turning_what_raises_it_both_sides_together() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    rise = known(known(sheet.corners[0].plan).height_per_turn).m_as("mm/turn")
    (correct,) = [step for step in sheet.steps if step.text == f"{OFF}:"]
    # A nut is turned while its wheel hangs; the height is judged on the wheels.
    assert correct.branch == (
        "Chock it, lift the body until both wheels hang, and set it on stands.",
        f"Turn the nut clockwise to raise that side: {rise:.1f} mm for one turn.",
        "Work on both sides in turn. Set it down, roll it, and measure both again.",
    )
    bolt = after(sheet_of(corner(on_key_lever(), bw.Wanted(height="380 mm"))))
    assert "Turn the bolt clockwise to raise that side: " in bolt


@pytest.mark.parametrize("stated", [True, False])
def test_rubber_is_tightened_last_at_the_height_that_is_kept(*, stated: bool) -> None:
    setup = make_setup(axle={"bushing": bw.parts.ArmBushing(rate="2 N*m/deg")} if stated else {})
    now = (
        "Tighten the rubber bushings that turn with the arms now, at this height."
        if stated
        else "Only if rubber bushings turn with the arms: tighten them now."
    )
    said = after(sheet_of(corner(setup)))
    assert_in_order(
        said, "except at rubber bushings", "Measure hub to arch", "measure both again", now
    )


@pytest.mark.parametrize("setup", [LEFT, on_fixed(**DEEP)])
def test_what_a_height_may_be_off_is_told_in_the_readers_units(setup: bw.Setup) -> None:
    assert f"{OFF}:" in after(sheet_of(corner(setup, NUT_ALONE)))
    inch = after(sheet_of(corner(setup, NUT_ALONE), system="inch"))
    assert f"{OFF.replace('3 mm', '0.12 in')}:" in inch
    assert " mm" not in inch


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
    assert before(one_moves).count("undo its links") == 1
    assert after(one_moves).count("fit its links") == 1


def test_a_trailer_is_coupled_whenever_its_height_is_taken() -> None:
    trailer = bw.load_job(EXAMPLES / "loaded-trailer.toml", discovered_once())
    sheet = bw.bench_sheet(trailer)
    for said in (before(sheet), after(sheet)):
        assert_in_order(said, "hold its drawbar level", "Measure hub to arch")
    held = "Chock the towing vehicle, or hold the drawbar, so that the trailer cannot tip."
    assert_in_order(before(sheet), "let it settle", held, "on stands")
    assert "Check that the trailer stands level. Check its brakes and its lamps." in after(sheet)
    driven = sheet_of(corner(LEFT), corner(RIGHT))
    assert "drawbar" not in texts(driven)
    assert_in_order(
        before(driven), "let it settle", "Chock the wheels that stay down.", "on stands"
    )


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
    sheet = sheet_of(corner(on_fixed(**DEEP), NUT_ALONE))
    no_way = "nothing adjusts it. Write the measured height into the job, and plan again."
    assert f"{OFF}: {no_way}" in after(sheet)
    assert "Work on both sides" not in after(sheet)
    assert "Measure hub to arch, both sides." in before(sheet)


@pytest.mark.parametrize("height", ["349 mm", "404 mm"])
def test_clearances_are_checked_before_the_vehicle_is_tried(height: str) -> None:
    said = after(sheet_of(corner(LEFT, bw.Wanted(height=height))))
    is_lower = height == "349 mm"
    assert ("Check clearance at full lock and full bump" in said) is is_lower
    if is_lower:
        assert_in_order(said, "Tighten all fasteners", "Check clearance", "Try it on the road")


def test_whoever_begins_has_the_torques_and_whoever_ends_uses_them() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    assert before(sheet).startswith(
        "Get the maker's tightening torques, new locking fasteners and split pins.\n"
    )
    assert "Tighten all fasteners to the maker's torques, except at rubber bushings." in after(
        sheet
    )
    assert after(sheet).endswith("Measure again, and recheck the wheel bolts.")


def test_wheels_come_off_and_go_on_for_work_on_the_bar_alone() -> None:
    turned = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT, NUT_ALONE))
    work = sheet_of(corner(LEFT), corner(RIGHT))
    off, on = "both wheels hang. Take the wheels off.", "fit the wheels and set the vehicle down"
    bolts = "Tighten the wheel bolts to the maker's torque before you roll it."
    for words, steps in ((off, before), (on, after), (bolts, after), ("recheck", after)):
        assert words in steps(work)
        assert words not in steps(turned)
    assert "so that both wheels hang." in before(turned)
    assert after(turned).startswith(
        "Tighten all fasteners to the maker's torques, except at rubber bushings.\n"
        "With every corner done, set the vehicle down.\n"
    )


def test_no_corner_is_lowered_further_than_its_lever_stays_on_its_bolt() -> None:
    truck = bw.bench_sheet(bw.load_job(EXAMPLES / "firmer-bars.toml", discovered_once()))
    lowest = min(known(known(one.nut_table).most_lowering) for one in truck.corners)
    assert lowest == 1
    assert "Never lower it by more than 1 turn." in after(truck)
    assert "Never lower it" not in after(sheet_of(corner(LEFT), corner(RIGHT)))


def test_what_stands_on_chocks_is_not_rolled() -> None:
    trailer = bw.load_job(EXAMPLES / "loaded-trailer.toml", discovered_once())
    # The towing vehicle may have been chocked.
    assert "Take any chocks away. Roll it" in after(bw.bench_sheet(trailer))
    assert "Take the chocks away." in after(sheet_of(corner(LEFT), corner(RIGHT)))


@pytest.mark.parametrize(("setup", "what"), [(LEFT, "nut"), (on_key_lever(), "bolt")])
def test_a_locknut_is_tightened_once_the_height_is_right(setup: bw.Setup, what: str) -> None:
    said = after(sheet_of(corner(setup, NUT_ALONE)))
    locked = f"Only if the {what} has a locknut: hold the {what} and tighten its locknut."
    assert_in_order(said, "Turn the ", locked, "Try it on the road")
    fixed = after(sheet_of(corner(on_fixed(**DEEP), NUT_ALONE)))
    assert "locknut" not in fixed
