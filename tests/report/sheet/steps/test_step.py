"""Tests of `step`: the steps of two corners become one list, and nothing of either is lost."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.report.sheet.steps.step import (
    CornerStep,
    SheetStep,
    forbidden,
    only_if,
    side_by_side,
    steps_together,
    together,
)

LEFT, RIGHT = "front left", "front right"

# Titles are other people's text; what looks like a field of a format is none.
FIGURES = st.sampled_from(["1 mm", "2 mm", "clockwise", "{x}", "{0.__class__}", "}", "", "[b]"])


@st.composite
def corner_steps(draw: st.DrawFn) -> CornerStep:
    """A step in one of a few words, so that two lists share some of them."""
    number = draw(st.integers(0, 4))
    figure = draw(FIGURES)
    if number == 0:
        return CornerStep("Plain.")
    if number == 1:
        return forbidden("Never {this}.", this=figure)
    if number == 2:
        return only_if("it binds", "First {this}.", "Then that.", this=figure)
    return CornerStep(f"Do {number} with {{this}}.", this=figure)


LISTS = st.lists(corner_steps(), max_size=8)


def alone(name: str, steps: list[CornerStep]) -> list[SheetStep]:
    return [together({name: step}) for step in steps]


@given(LISTS, LISTS)
def test_every_step_of_either_corner_is_there_in_its_order(
    lefts: list[CornerStep], rights: list[CornerStep]
) -> None:
    merged = steps_together({LEFT: lefts, RIGHT: rights})
    for name, steps in ((LEFT, lefts), (RIGHT, rights)):
        mine = [step for step in merged if not step.corners or name in step.corners]
        assert len(mine) == len(steps)
        for step, own in zip(mine, steps, strict=True):
            assert step.refused is own.refused
            said = " ".join((step.text, *step.branch))
            assert all(figure in said for figure in own.figures.values())


@given(LISTS, LISTS)
def test_a_step_of_one_corner_names_it_and_one_of_both_names_none(
    lefts: list[CornerStep], rights: list[CornerStep]
) -> None:
    for step in steps_together({LEFT: lefts, RIGHT: rights}):
        assert step.corners in ((), (LEFT,), (RIGHT,))
        named = [name for name in (LEFT, RIGHT) if f"{name.capitalize()}: " in step.line]
        assert named == list(step.corners)


@given(LISTS)
def test_equal_steps_are_written_once(steps: list[CornerStep]) -> None:
    assert steps_together({LEFT: steps, RIGHT: steps}) == tuple(alone(LEFT, steps))


@given(LISTS)
def test_the_steps_of_one_corner_are_its_own(steps: list[CornerStep]) -> None:
    assert steps_together({LEFT: steps}) == tuple(alone(LEFT, steps))
    # Beside a corner of which nothing is asked they say whose they are.
    assert all(step.corners == (LEFT,) for step in steps_together({LEFT: steps, RIGHT: []}))


@given(FIGURES, FIGURES)
def test_a_figure_that_differs_is_told_for_both_sides(left: str, right: str) -> None:
    left_step, right_step = (CornerStep("Set {at}.", at=figure) for figure in (left, right))
    step = together({LEFT: left_step, RIGHT: right_step})
    same = f"Set {left}."
    assert step.text == (same if left == right else f"Set {left} (left), {right} (right).")


def test_corners_of_two_axles_are_told_apart_by_axle_and_side() -> None:
    assert side_by_side({"front left": "1", "rear left": "2"}) == "1 (front left), 2 (rear left)"
    assert side_by_side({"rear left": "1", "rear right": "2"}) == "1 (left), 2 (right)"


def test_the_order_of_shared_steps_holds_around_those_of_one_side() -> None:
    shared, own = CornerStep("Shared."), CornerStep("Own.")
    merged = steps_together({LEFT: [shared, own, shared], RIGHT: [shared] * 2})
    assert [step.line for step in merged] == ["Shared.", "Front left: Own.", "Shared."]


def test_a_case_with_several_actions_is_a_branch_and_one_with_one_a_sentence() -> None:
    one = together({LEFT: only_if("it binds", "stop.")})
    assert (one.text, one.branch) == ("Only if it binds: stop.", ())
    two = together({LEFT: only_if("it binds", "Stop.", "Wait {time}.", time="1 h")})
    assert (two.text, two.branch) == ("Only if it binds:", ("Stop.", "Wait 1 h."))


@pytest.mark.parametrize(
    ("step", "line"),
    [
        (SheetStep(text="Do."), "Do."),
        (SheetStep(text="Do.", corners=(RIGHT,)), "Front right: Do."),
        (SheetStep(text="Do.", corners=(LEFT, "rear left")), "Front left and rear left: Do."),
        (SheetStep(text="Not.", refused=True), "STOP: Not."),
        (SheetStep(text="Not.", corners=(LEFT,), refused=True), "STOP: Front left: Not."),
    ],
)
def test_a_line_says_where_and_whether_to_stop(step: SheetStep, line: str) -> None:
    assert step.line == line
