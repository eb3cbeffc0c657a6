"""Bench sheets of the demo vehicles: no word of what a van has and a truck or a trailer has not."""

from __future__ import annotations

from pathlib import Path

import pytest

import barwright as bw

EXAMPLES = Path(__file__).parents[3] / "docs/examples"
OVERLOADED = Path(__file__).parents[3] / "tests/specimens/jobs/overloaded-trailer.toml"
VAN, TRUCK, TRAILER = "shorter-dampers", "firmer-bars", "loaded-trailer"


def sheet_of(example: str) -> bw.answers.BenchSheet:
    return bw.bench_sheet(bw.load_job(EXAMPLES / f"{example}.toml", bw.Registry.discover()))


def steps_of(example: str) -> str:
    sheet = sheet_of(example)
    corners = [step for corner in sheet.corners for step in corner.steps]
    return "\n".join(step.text for step in (*sheet.before, *corners, *sheet.after))


@pytest.mark.parametrize("example", [VAN, TRUCK, TRAILER])
def test_no_vehicle_is_called_a_car(example: str) -> None:
    sheet = sheet_of(example)
    words = [*sheet.cautions, *steps_of(example).split("\n")]

    assert all(outcome.is_good for outcome in sheet.outcomes)
    assert not any(" car " in text or " car," in text for text in words)


def test_a_trailer_is_coupled_up_and_has_no_headlamps() -> None:
    trailer, truck = steps_of(TRAILER), steps_of(TRUCK)

    assert "Chock the wheels that stay down. Set the body on stands, its drawbar held so" in trailer
    assert "Check that the trailer stands level" in trailer
    for word in ("headlamp", "alignment", "test drive"):
        assert word not in trailer
    assert "Set the body on stands, let both wheels of the axle hang" in truck
    assert "Check headlamp aim, brake-load valve and alignment; test drive" in truck
    assert "drawbar" not in truck


def test_what_depends_on_the_height_is_a_caution_of_its_own_for_either() -> None:
    truck, trailer = (
        [c for c in sheet_of(example).cautions if "change of height" in c]
        for example in (TRUCK, TRAILER)
    )

    assert truck == [bw.answers.Caution.AFTER_HEIGHT_CHANGE.text]
    assert trailer == [bw.answers.Caution.ON_ITS_COUPLING.text]


def test_no_caution_speaks_of_a_bolt_where_there_is_none() -> None:
    truck, trailer = sheet_of(TRUCK).cautions, sheet_of(TRAILER).cautions

    assert not any("bolt" in caution for caution in trailer)
    assert any("note where the adjusting bolt stands" in caution for caution in truck)
    assert any("Keep the bolt on full thread" in caution for caution in truck)


@pytest.mark.parametrize(
    ("example", "source"),
    [
        (VAN, "fells:drawing-board"),
        (TRUCK, "hodmule:sketch-book"),
        (TRAILER, "trundlet:shed-wall"),
    ],
)
def test_invented_figures_are_the_first_caution(example: str, source: str) -> None:
    first = sheet_of(example).cautions[0]

    assert first.startswith(f"Figures of this sheet are invented ({source}): ")


def test_a_trailer_has_no_drive_shaft() -> None:
    assert "Support the drive shaft, so" in steps_of(VAN)
    assert "Free the brake hose" in steps_of(TRAILER)
    assert "drive shaft" not in steps_of(TRAILER)


def test_a_key_lever_is_held_while_its_bar_is_drawn() -> None:
    truck = steps_of(TRUCK)
    assert truck.index("Support the key lever: it drops") < truck.index("Draw the bar out")
    assert "Support the key lever" not in steps_of(VAN)
    assert "Draw the bar out at the anchor end.\n" in steps_of(VAN)
    assert "Draw the bar out at the arm end.\n" in steps_of(TRAILER)


def test_a_key_lever_that_is_off_is_held_in_its_place_before_the_bar_goes_through_it() -> None:
    steps = steps_of(TRUCK)

    assert "Hold the key lever in its place and slide the bar through it, in at the" in steps
    drawn, back = steps.index("Draw the bar out"), steps.index("Hold the key lever in its place")
    assert "lever" not in steps[drawn:back]


def test_a_bar_in_a_fixed_socket_comes_out_and_goes_in_at_two_places_of_the_arm() -> None:
    steps = steps_of(TRAILER)

    assert steps.index("The bar carries no torque only there") < steps.index("Draw the bar out")
    assert steps.index("The bar goes in only there") < steps.index("Slide the bar in")


@pytest.mark.parametrize(
    ("example", "kind"), [(VAN, "tube"), (TRUCK, "key lever"), (TRAILER, "fixed socket")]
)
def test_what_holds_the_anchor_end_is_called_what_it_is(example: str, kind: str) -> None:
    for corner in sheet_of(example).corners:
        assert [part.kind for part in corner.parts][2] == kind


def test_a_bar_that_every_plan_would_overstress_has_no_steps() -> None:
    job = bw.load_job(OVERLOADED, bw.Registry.discover())
    for corner in bw.bench_sheet(job).corners:
        assert corner.verdict is bw.Verdict.OVERSTRESSED
        assert (corner.plan, corner.steps) == (None, ())


@pytest.mark.parametrize("example", [VAN, TRUCK, TRAILER])
def test_of_a_bar_that_holds_nothing_is_told(example: str) -> None:
    assert not any("overstressed" in text for text in sheet_of(example).cautions)
