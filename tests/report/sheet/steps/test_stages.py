"""Tests of `stages`: what all corners share stands around the work on each axle."""

from __future__ import annotations

import attrs

import barwright as bw
from barwright.report.sheet.steps.stages import stages
from sample_records import make_setup
from sheet_corners import LOWER, sheet_of, texts
from uncut_trials import NEARLY, nearly_uncut

NUT_ALONE = bw.Wanted(height="404 mm")
SHORT = {"open_length": "616 mm", "closed_length": "452 mm", "id": "t:damper/short"}
LEFT, RIGHT = make_setup(), make_setup(side=bw.parts.Side.RIGHT)


def of(*corners: tuple[bw.Setup, bw.Wanted]) -> bw.answers.BenchSheet:
    made = tuple(bw.JobCorner(setup=s, present=s, wanted=w) for s, w in corners)
    return bw.bench_sheet(bw.Job(title="t", corners=made))


def titles(sheet: bw.answers.BenchSheet) -> list[str]:
    return [stage.title for stage in sheet.stages]


def on_both_axles() -> tuple[bw.Setup, bw.Setup]:
    rear = attrs.evolve(LEFT.axle, place=bw.parts.AxlePlace.REAR)
    chassis = attrs.evolve(LEFT.chassis, axles=(LEFT.axle, rear))
    front = attrs.evolve(LEFT, chassis=chassis)
    return front, attrs.evolve(front, axle=rear)


def test_nothing_is_done_where_no_corner_is_worked_on() -> None:
    assert list(stages([])) == []


def test_the_stages_of_one_axle_are_those_of_the_work() -> None:
    whole = ["Before you begin", "Take apart", "The bar", "Put together", "Back on its wheels"]
    assert titles(sheet_of(LEFT)) == whole
    assert titles(of((LEFT, LOWER), (RIGHT, LOWER))) == whole


def test_a_stage_in_which_nothing_is_done_is_left_out() -> None:
    assert "The bar" not in titles(sheet_of(LEFT, wanted=NUT_ALONE))
    # A stage in which one side has nothing to do is that of the other.
    mixed = of((LEFT, LOWER), (RIGHT, NUT_ALONE))
    (of_bar,) = [stage for stage in mixed.stages if stage.title == "The bar, front left only"]
    assert {step.corners for step in of_bar.steps} == {()}
    # Where both have something to do, each step that is not shared names its corner.
    (last,) = [stage for stage in mixed.stages if stage.title == "Put together"]
    assert {step.corners for step in last.steps} >= {("front left",)}


def test_one_axle_is_finished_before_the_other_is_begun() -> None:
    front, rear = on_both_axles()
    both = of((front, LOWER), (rear, bw.Wanted(height="350 mm")))
    assert titles(both) == [
        "Before you begin",
        *("Front axle: take apart", "Front axle: the bar", "Front axle: put together"),
        *("Rear axle: take apart", "Rear axle: the bar", "Rear axle: put together"),
        "Back on its wheels",
    ]
    assert "Lift one axle at a time" in texts(both)
    # An axle's steps name no corner: their stage does.
    assert all(step.corners == () for step in both.steps)
    assert "Expected: 349 mm (front left), 350 mm (rear left)." in texts(both)


def test_an_axle_whose_bar_comes_out_is_not_begun_while_the_other_is_tried() -> None:
    front, rear = on_both_axles()
    both = of((front, nearly_uncut(LEFT, by=NEARLY)), (rear, LOWER))
    assert titles(both) == [
        *("Before you begin", "Front axle: try it first", "Lift it again"),
        *("Front axle: take apart", "Front axle: the bar", "Front axle: put together"),
        *("Rear axle: take apart", "Rear axle: the bar", "Rear axle: put together"),
        "Back on its wheels",
    ]


def test_an_axle_is_lifted_again_only_if_a_tooth_must_go_where_both_are_tried() -> None:
    front, rear = on_both_axles()
    wish = nearly_uncut(LEFT, by=NEARLY)
    both = of((front, wish), (rear, wish))
    assert titles(both)[:4] == [
        *("Before you begin", "Front axle: try it first", "Rear axle: try it first"),
        "Only if a tooth must go: lift it",
    ]


def test_the_steps_of_a_sheet_are_those_of_its_stages() -> None:
    sheet = sheet_of(LEFT)
    assert sheet.steps == tuple(step for stage in sheet.stages for step in stage.steps)
    assert all(stage.steps for stage in sheet.stages)
