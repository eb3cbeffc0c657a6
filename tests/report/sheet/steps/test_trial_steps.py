"""Tests of `trial_steps`: the bar is tried uncut, and a tooth goes only if that does not do."""

from __future__ import annotations

import attrs

import barwright as bw
from anchored_corners import on_key_lever
from barwright.answers import BenchSheet
from sample_packs import discovered_once
from sample_records import known, make_setup
from sheet_corners import place, sheet_of, texts
from uncut_trials import NEARLY, nearly_uncut

SETUP = make_setup()
LONGER = make_setup(damper={"open_length": "700 mm", "closed_length": "480 mm"}).damper
WISH = nearly_uncut(SETUP, by=NEARLY)


def titles(sheet: BenchSheet) -> list[str]:
    return [stage.title for stage in sheet.stages]


def test_the_bar_that_is_in_is_tried_before_anything_comes_apart() -> None:
    sheet = sheet_of(SETUP, wanted=WISH)
    trial = known(sheet.corners[0].reindex.trial)
    pin = known(trial.plan.pin_distance).m_as("mm")
    height, wanted = (one.m_as("mm") for one in (trial.plan.height, trial.wanted_height))
    (steps,) = [stage.steps for stage in sheet.stages if stage.title == "Try it first"]

    assert [step.text for step in steps] == [
        "Lift the body until both wheels hang, and set it on stands.",
        f"Set the nut, bar uncut: {pin:.1f} mm from the bolt's pivot to the lever's pin.",
        f"Set it down, roll it and measure: about {height:.0f} mm.",
        (
            f"Only if every height comes within 3 mm of {wanted:.0f} mm, the nut turned as "
            'need be: cut nothing; go to "Back on its wheels".'
        ),
    ]
    assert titles(sheet) == [
        *("Before you begin", "Try it first", "Only if a tooth must go: take apart"),
        *("The bar", "Put together", "Back on its wheels"),
    ]
    # The wheels stay on until a tooth must go.
    (apart,) = [stage.steps for stage in sheet.stages if stage.title.endswith("take apart")]
    assert apart[0].text.startswith("Set the body on stands")
    assert sheet.headline.startswith(f"Front left: first try it uncut, nut {pin:.1f} mm from ")
    assert f"Only if more than 3 mm off {wanted:.0f} mm: remove 1 tooth at the" in sheet.headline
    (row,) = [row for row in sheet.measurements if row.what == "height uncut"]
    assert row.expected == (f"{height:.0f} mm",)


def test_another_bar_is_fitted_uncut_first_and_may_come_out_once_more() -> None:
    old = attrs.evolve(SETUP, bar=attrs.evolve(SETUP.bar, id="t:bar/old", title="Old bar"))
    sheet = sheet_of(SETUP, old, WISH)

    assert "Try it first" not in titles(sheet)
    first = place(sheet, "First fit the bar uncut, its blanks on the keys")
    order = [
        *(first, place(sheet, "Set it down, roll it and measure")),
        place(sheet, "Only if every height comes within 3 mm"),
        place(sheet, "Only if it does not: take it apart again, and go on here."),
        *(place(sheet, "Count every tooth"), place(sheet, "Remove each tooth")),
    ]
    assert order == sorted(order)
    assert order[:4] == list(range(first, first + 4))


def test_another_damper_alone_is_fitted_for_the_trial_and_the_bar_stays_in() -> None:
    old = attrs.evolve(SETUP, damper=attrs.evolve(LONGER, id="t:damper/old", title="Old"))
    sheet = sheet_of(SETUP, old, WISH)
    (steps,) = [stage.steps for stage in sheet.stages if stage.title == "Try it first"]
    said = [step.text for step in steps]

    fitted = said.index(
        f"Jack the arm up until the damper goes on: {SETUP.damper.title}. Untie the wheel carrier."
    )
    off = said.index("Jack the arm up under the ball joint and take the damper off.")
    assert said[2] == "Take the wheel off."
    assert (
        off
        < fitted
        < said.index("Fit what you undid and the wheel. Tighten its bolts to the maker's torque.")
    )
    assert said[-1].endswith('cut nothing; go to "Back on its wheels".')
    # The bar comes out with the new damper on, and that damper goes back.
    place(sheet, "Pull the bar out")
    assert "First fit the bar uncut" not in texts(sheet)
    assert texts(sheet).count(f"goes on: {SETUP.damper.title}") == 1


def test_a_key_lever_is_looked_at_where_its_arm_hung_without_the_damper() -> None:
    setup = on_key_lever({"held_by": "a clip"})
    old = attrs.evolve(setup, damper=attrs.evolve(setup.damper, id="t:damper/old", title="Old"))
    sheet = sheet_of(setup, old, nearly_uncut(setup, by=0.5))
    (steps,) = [stage.steps for stage in sheet.stages if stage.title == "Try it first"]
    said = [step.text for step in steps]

    off = said.index("Jack the arm up under the ball joint and take the damper off.")
    assert said.index("Check that the bolt's end sits square on the lever's face.") > off


def test_what_needs_no_trial_is_done_beside_it() -> None:
    right = make_setup(side=bw.parts.Side.RIGHT)
    old = attrs.evolve(right, damper=attrs.evolve(LONGER, id="t:damper/old", title="Old"))
    made = (
        bw.JobCorner(setup=SETUP, present=SETUP, wanted=WISH),
        bw.JobCorner(setup=right, present=old, wanted=bw.Wanted(height="400 mm")),
    )
    sheet = bw.bench_sheet(bw.Job(title="t", corners=made))
    (tried,) = [stage.steps for stage in sheet.stages if stage.title == "Try it first"]
    lines = [step.line for step in tried]

    assert lines[0] == "Lift the body until both wheels hang, and set it on stands."
    assert any(line.startswith("Front right: Jack the arm up until") for line in lines)
    assert any(line.startswith("Set it down, roll it and measure: about ") for line in lines)
    later = "".join(texts(sheet).partition("Only if every height comes")[2])
    assert "Front right: " not in later


def test_a_plan_that_removes_no_tooth_tries_nothing() -> None:
    answer = bw.reindex(SETUP, wanted=WISH)
    uncut = [n for n, plan in enumerate(answer.plans, start=1) if not plan.cuts]
    corner = bw.JobCorner(setup=SETUP, present=SETUP, wanted=WISH)
    for number in (*uncut, 1):
        sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)), plan=number)
        assert ("try it uncut" in sheet.headline) is (number not in uncut)
    assert "uncut" not in texts(sheet_of(SETUP, wanted=bw.Wanted(height="404 mm")))


def test_one_side_alone_is_tried_where_the_other_must_be_cut() -> None:
    right = make_setup(side=bw.parts.Side.RIGHT)
    low = bw.Wanted(height=known(WISH.height) - bw.Quantity(18, "mm"))
    made = tuple(
        bw.JobCorner(setup=setup, present=setup, wanted=wish)
        for setup, wish in ((SETUP, WISH), (right, low))
    )
    sheet = bw.bench_sheet(bw.Job(title="t", corners=made))
    (row,) = [row for row in sheet.measurements if row.what == "height uncut"]

    assert "Try it first, front left only" in titles(sheet)
    place(sheet, "cut nothing, and leave out the steps of this side up to")
    # The other side comes apart in any case.
    assert "Take apart" in titles(sheet)
    assert row.expected[1] == ""
    assert row.expected[0]


# -- A load that is doubted -----------------------------------------------------------------


def doubted(job: str) -> BenchSheet:
    """The sheet of the van's job with a load in pounds on one side."""
    corners = bw.load_job(job, discovered_once()).corners
    left, right = corners
    heavy = left.setup.with_load(kind=bw.parts.LoadKind.SPRUNG, mass="560 kg")
    return bw.bench_sheet(
        bw.Job(title="t", corners=(attrs.evolve(left, setup=heavy, present=heavy), right))
    )


def test_no_tooth_goes_on_either_side_while_a_load_is_doubted() -> None:
    sheet = doubted("docs/examples/shorter-dampers.toml")
    stop = sheet.steps[place(sheet, "Remove no tooth: check the load first, and plan again.")]

    assert stop.refused
    assert "paint X" not in texts(sheet)
    assert "Remove each tooth" not in texts(sheet)
    assert "Front right: check the other side's load first. First try it uncut" in sheet.headline
