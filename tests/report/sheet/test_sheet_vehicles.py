"""Bench sheets of the demo vehicles: no word of what a van has and a truck or a trailer has not."""

from __future__ import annotations

import functools
import io
from pathlib import Path

import pytest
from rich.console import Console

import barwright as bw
from barwright.report.text.sheet import sheet_text
from sample_packs import discovered_once
from sheet_corners import place, texts

EXAMPLES = Path(__file__).parents[3] / "docs/examples"
OVERLOADED = Path(__file__).parents[3] / "tests/specimens/jobs/overloaded-trailer.toml"
VAN, TRUCK, TRAILER = "shorter-dampers", "firmer-bars", "loaded-trailer"
ALL = (VAN, TRUCK, TRAILER)


@functools.cache
def sheet_of(example: str) -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.load_job(EXAMPLES / f"{example}.toml", discovered_once()))


def steps_of(example: str) -> str:
    return texts(sheet_of(example))


def lines_of(example: str, width: int) -> list[str]:
    out = io.StringIO()
    Console(width=width, file=out).print(sheet_text(sheet_of(example)))
    return [line.rstrip() for line in out.getvalue().splitlines()]


@pytest.mark.parametrize("example", ALL)
def test_a_sheet_of_two_sides_has_at_most_110_lines_of_80_columns(example: str) -> None:
    lines = lines_of(example, 80)
    assert len(lines) <= 110
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("example", ALL)
def test_the_answer_stands_in_the_first_three_lines(example: str) -> None:
    (answer,) = sheet_of(example).headlines
    first = " ".join(lines_of(example, 80)[:3])
    assert first.startswith(answer)


@pytest.mark.parametrize("example", ALL)
def test_most_steps_fit_one_line(example: str) -> None:
    """A line of 80 columns has 75 for a step."""
    steps = sheet_of(example).steps
    long = [step.line for step in steps if len(step.line) > 75]
    assert len(long) <= len(steps) / 4


@pytest.mark.parametrize("example", ALL)
def test_both_sides_share_every_step(example: str) -> None:
    sheet = sheet_of(example)
    lines = [step.line for step in sheet.steps]
    assert all(step.corners == () for step in sheet.steps)
    # What comes twice is what is done twice: the vehicle settles, and the bar is let go.
    twice = {line for line in lines if lines.count(line) > 1}
    assert all(line.startswith(("Roll", "Let the arm hang")) for line in twice)


@pytest.mark.parametrize("example", ALL)
def test_no_vehicle_is_called_a_car(example: str) -> None:
    words = [*sheet_of(example).cautions, *steps_of(example).split("\n")]
    assert all(outcome.is_good for outcome in sheet_of(example).outcomes)
    assert not any(" car " in text or " car," in text for text in words)


def test_a_trailer_is_coupled_up_and_has_no_headlamps() -> None:
    trailer, truck = steps_of(TRAILER), steps_of(TRUCK)
    assert "or hold the drawbar, so that the trailer cannot tip." in trailer
    assert "Check that the trailer stands level" in trailer
    for word in ("headlamp", "alignment"):
        assert word not in trailer
    assert "Set the body on stands so that both wheels hang. Take the wheels off." in truck
    assert "Check headlamp aim, brake-load valve and wheel alignment." in truck
    assert "drawbar" not in truck


def test_what_depends_on_the_height_is_said_once_by_a_step() -> None:
    for example in ALL:
        assert not any("change of height" in text for text in sheet_of(example).cautions)


def test_no_word_of_a_bolt_where_there_is_none() -> None:
    assert not any("bolt" in caution for caution in sheet_of(TRAILER).cautions)
    trailer = steps_of(TRAILER).replace("wheel bolts", "").replace("clamp bolt", "")
    for word in ("bolt", "nut", "lever", "thread"):
        assert word not in trailer
    assert "The bolt's thread must reach all the way through its hole." in steps_of(TRUCK)
    assert " nut" not in steps_of(TRUCK)


@pytest.mark.parametrize(
    ("example", "source"),
    [
        (VAN, "fells:drawing-board"),
        (TRUCK, "hodmule:sketch-book"),
        (TRAILER, "trundlet:shed-wall"),
    ],
)
def test_invented_figures_are_the_first_caution(example: str, source: str) -> None:
    assert sheet_of(example).cautions[0] == (
        f"Figures invented ({source}): a demonstration, for no vehicle."
    )


def test_a_trailer_has_no_drive_shaft() -> None:
    assert "support the drive shaft." in steps_of(VAN)
    assert "Free the brake hose and the cables." in steps_of(TRAILER)
    assert "drive shaft" not in steps_of(TRAILER)


def test_a_key_lever_is_held_while_its_bar_is_drawn() -> None:
    truck = steps_of(TRUCK)
    assert truck.index("Support the key lever: it drops") < truck.index("Pull the bar out")
    assert "Support the key lever" not in steps_of(VAN)
    assert "Pull the bar out at the anchor end.\n" in steps_of(VAN)
    assert "Pull the bar out at the arm end.\n" in steps_of(TRAILER)


def test_a_key_lever_that_is_off_is_held_in_its_place_before_the_bar_goes_through_it() -> None:
    sheet = sheet_of(TRUCK)
    drawn, back = place(sheet, "Pull the bar out"), place(sheet, "Hold the key lever in place")
    assert drawn < back < place(sheet, "Slide the bar in")
    assert not any("lever" in step.text for step in sheet.steps[drawn:back])


def test_a_bar_in_a_fixed_socket_comes_out_and_goes_in_at_two_places_of_the_arm() -> None:
    sheet = sheet_of(TRAILER)
    held = [n for n, step in enumerate(sheet.steps) if "The bar is loose only there." in step.text]
    out, back_in = held
    assert out < place(sheet, "Pull the bar out") < back_in < place(sheet, "Slide the bar in")
    assert sheet.steps[out].text != sheet.steps[back_in].text


@pytest.mark.parametrize(
    ("example", "kind"), [(VAN, "tube"), (TRUCK, "key lever"), (TRAILER, "fixed socket")]
)
def test_what_holds_the_anchor_end_is_called_what_it_is(example: str, kind: str) -> None:
    sheet = sheet_of(example)
    assert [row.what for row in sheet.parts][2] == kind
    for corner in sheet.corners:
        assert [part.kind for part in corner.parts][2] == kind


def test_a_bar_that_every_plan_would_overstress_has_no_steps() -> None:
    sheet = bw.bench_sheet(bw.load_job(OVERLOADED, discovered_once()))
    assert sheet.steps == ()
    for corner in sheet.corners:
        assert (corner.plan, corner.verdict) == (None, bw.Verdict.OVERSTRESSED)


@pytest.mark.parametrize("example", ALL)
def test_of_a_bar_that_holds_nothing_is_told(example: str) -> None:
    assert not any("overstressed" in text for text in sheet_of(example).cautions)
    assert not any("top mount" in text for text in sheet_of(example).cautions)
