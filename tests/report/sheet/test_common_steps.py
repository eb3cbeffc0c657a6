"""Tests of `common_steps`: both sides reach a stage before height is judged."""

from __future__ import annotations

import io
from pathlib import Path

import attrs
import pytest
from rich.console import Console

import barwright as bw
from anchored_corners import on_fixed
from barwright.report.text.sheet import sheet_text
from sample_records import make_setup
from sheet_corners import stuck_corner

EXAMPLES = Path(__file__).parents[3] / "docs/examples"
LOWER, NUT_ALONE = bw.Wanted(height="349 mm"), bw.Wanted(height="404 mm")


def corner(setup: bw.Setup, wanted: bw.Wanted = LOWER) -> bw.JobCorner:
    return bw.JobCorner(setup=setup, present=setup, wanted=wanted)


def sheet_of(*corners: bw.JobCorner) -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.Job(title="t", corners=corners))


def texts(steps: tuple[bw.answers.SheetStep, ...]) -> str:
    return "\n".join(step.text for step in steps)


LEFT, RIGHT = make_setup(), make_setup(side=bw.parts.Side.RIGHT)


def test_height_is_taken_once_before_all_work_and_once_after_it() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    for steps in (sheet.before, sheet.after):
        assert texts(steps).count("let it settle") == 1
        assert texts(steps).count("Measure hub to arch") == 1
    for each in sheet.corners:
        assert each.steps
        for word in ("settle", "Measure", "hub to arch", "Chock", "wheels", "headlamp"):
            assert word not in texts(each.steps)


def test_the_order_of_the_common_steps_is_that_of_the_work() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    before, after = texts(sheet.before), texts(sheet.after)
    order = ["let it settle", "weigh", "Measure hub to arch", "Chock", "Part the anti-roll bar's"]
    places = [before.index(words) for words in order]
    assert places == sorted(places)
    assert "Measure hub to arch and the nut's place on both sides of the axle" in before
    order = ["join the anti-roll", "wheels on", "settle", "Measure", "Correct", "tighten", "Check"]
    places = [after.index(words) for words in order]
    assert places == sorted(places)


def test_the_heights_of_all_corners_are_expected_together() -> None:
    after = texts(sheet_of(corner(LEFT), corner(RIGHT)).after)
    assert "Expected: front left 349 mm, front right 349 mm." in after
    assert "since each changes the other's load" in after


def test_how_to_correct_is_told_once_where_it_is_the_same_for_all_corners() -> None:
    alike = texts(sheet_of(corner(LEFT), corner(RIGHT)).after)
    assert alike.count("Correct with the nut") == 1
    assert "Front left: " not in alike
    finer = make_setup(side=bw.parts.Side.RIGHT, adjuster={"thread_pitch": "1.5 mm"})
    apart = texts(sheet_of(corner(LEFT), corner(finer)).after)
    assert apart.count("Correct with the nut") == 2
    assert apart.index("Front left: Correct") < apart.index("Front right: Correct")


def test_a_link_is_parted_only_where_an_arm_moves() -> None:
    turned = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT, NUT_ALONE))
    assert "anti-roll" not in texts((*turned.before, *turned.after))
    one_moves = sheet_of(corner(LEFT, NUT_ALONE), corner(RIGHT))
    for steps in (one_moves.before, one_moves.after):
        assert texts(steps).count("anti-roll bar's links") == 1


def test_a_trailer_is_coupled_whenever_its_height_is_taken() -> None:
    trailer = bw.load_job(EXAMPLES / "loaded-trailer.toml", bw.Registry.discover())
    sheet = bw.bench_sheet(trailer)
    for steps in (sheet.before, sheet.after):
        said = texts(steps)
        assert said.index("hold its drawbar level") < said.index("Measure hub to arch")
    assert "Check that the trailer stands level" in texts(sheet.after)
    van = sheet_of(corner(LEFT), corner(RIGHT))
    assert "drawbar" not in texts((*van.before, *van.after))


@pytest.mark.parametrize(("setups", "reported"), [((LEFT,), True), ((LEFT, RIGHT), False)])
def test_a_job_for_one_side_is_cautioned(setups: tuple[bw.Setup, ...], *, reported: bool) -> None:
    sheet = sheet_of(*map(corner, setups))
    assert (bw.answers.Caution.ONE_SIDE.text in sheet.cautions) is reported


def test_a_side_that_cannot_be_done_leaves_the_other_cautioned() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT, bw.Wanted(height="900 mm")))
    assert bw.answers.Caution.ONE_SIDE.text in sheet.cautions
    assert "front right" not in texts(sheet.after)


@pytest.mark.parametrize(
    "only",
    [corner(LEFT, bw.Wanted(height="900 mm")), stuck_corner()],
)
def test_where_nothing_is_done_there_is_nothing_before_and_after(only: bw.JobCorner) -> None:
    sheet = sheet_of(only)
    assert (sheet.before, sheet.after) == ((), ())
    assert bw.answers.Caution.ONE_SIDE.text not in sheet.cautions
    assert "for the whole vehicle" not in printed(sheet)


def test_one_axle_is_finished_before_the_other_is_lifted() -> None:
    axle = attrs.evolve(LEFT.axle, place=bw.parts.AxlePlace.REAR)
    chassis = attrs.evolve(LEFT.chassis, axles=(LEFT.axle, axle))
    front = attrs.evolve(LEFT, chassis=chassis)
    both = sheet_of(corner(front), corner(attrs.evolve(front, axle=axle)))
    assert "Lift one axle at a time" in texts(both.before)
    assert "Lift one axle at a time" not in texts(sheet_of(corner(LEFT)).before)


def test_nothing_is_corrected_where_nothing_can_be_adjusted() -> None:
    fixed = on_fixed(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
    sheet = sheet_of(corner(fixed, NUT_ALONE))
    after = texts(sheet.after)
    assert "Nothing can be adjusted: correct by teeth only" in after
    assert "alternately" not in after
    assert "Measure hub to arch on both sides" in texts(sheet.before)


@pytest.mark.parametrize("stated", [True, False])
def test_bushings_are_spoken_of_for_certain_where_the_pack_states_them(*, stated: bool) -> None:
    setup = make_setup(axle={"bushing": bw.parts.ArmBushing(rate="2 N*m/deg")} if stated else {})
    sheet = sheet_of(corner(setup))
    said = [s.text for s in (*sheet.corners[0].steps, *sheet.after) if "bushings" in s.text]
    assert said == (
        [
            "Slacken the rubber bushings that turn with the arm.",
            "Tighten the rubber bushings that turn with the arms now, at ride height, not before.",
        ]
        if stated
        else [
            "If rubber bushings turn with the arm, slacken them.",
            "If rubber bushings turn with the arms, tighten them now, at ride height, not before.",
        ]
    )


def printed(sheet: bw.answers.BenchSheet) -> str:
    out = io.StringIO()
    Console(width=200, file=out).print(sheet_text(sheet))
    return out.getvalue()


def test_a_sheet_prints_what_is_common_around_the_corners() -> None:
    text = printed(sheet_of(corner(LEFT), corner(RIGHT)))
    order = ("First, for the whole vehicle", "FRONT LEFT", "FRONT RIGHT", "Last, for the whole")
    places = [text.index(words) for words in order]
    assert places == sorted(places)
    assert text.index("  1. Roll the vehicle") > places[0]


def test_what_all_corners_share_is_told_word_by_word() -> None:
    sheet = sheet_of(corner(LEFT), corner(RIGHT))
    assert texts(sheet.before).split("\n") == [
        (
            "Roll the vehicle back and forth and let it settle. With the wheels on the ground, "
            "weigh the load of each corner if scales are to hand."
        ),
        "Measure hub to arch and the nut's place on both sides of the axle, and note all below.",
        (
            "Chock the wheels that stay down. Set the body on stands, let both wheels of the axle "
            "hang, take them off."
        ),
        "Part the anti-roll bar's links, if there are any: they hold the arms.",
    ]
    joined, down, rolled, _, _, alternately, _, last = texts(sheet.after).split("\n")
    assert joined == (
        "Hold both arms of the axle at one height, and join the anti-roll bar's links again if "
        "they were parted."
    )
    assert down == "With the work on every corner done: wheels on, the vehicle on its wheels."
    assert rolled == "Roll the vehicle back and forth and let it settle."
    assert alternately == (
        "Correct both sides of the axle alternately, since each changes the other's load. Roll, "
        "settle and measure both sides after each correction."
    )
    assert last == (
        "Check headlamp aim, brake-load valve and alignment; test drive; measure again."
    )


def test_a_trailer_is_told_word_by_word_how_it_is_coupled_and_tried() -> None:
    trailer = bw.load_job(EXAMPLES / "loaded-trailer.toml", bw.Registry.discover())
    sheet = bw.bench_sheet(trailer)
    level = "or hold its drawbar level at the height of its coupling."
    assert sheet.before[0].text == f"Couple the trailer to a towing vehicle, {level}"
    assert f"\nCouple the trailer again as it was measured before, {level}\n" in texts(sheet.after)
    assert sheet.after[-1].text == (
        "Check that the trailer stands level, its brakes and its lamps; try it on the road; "
        "measure again."
    )
