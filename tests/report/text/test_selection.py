"""The text of a choice says what it must."""

from __future__ import annotations

import functools
import re

import attrs

import barwright as bw
from barwright import Goal
from barwright.analysis.selection.selection import Selection
from barwright.report.text.selection import selection_row
from sample_packs import discovered_once
from sample_records import make_bar


@functools.cache
def chosen(goal: Goal) -> Selection:
    registry = discovered_once()
    van = registry.setup("fells:chassis/short", corner="front left")
    return bw.choose(van, goal, parts=registry.parts())


def test_options_come_with_their_work_and_what_was_searched() -> None:
    answer = chosen(Goal(rate_change=30.0))

    shown = bw.text(answer, width=140)

    assert re.search(r"^Firm bar, short van +27\.5 N/mm +\+31 % +655 MPa of", shown, re.MULTILINE)
    assert "Now 21.1 N/mm at the wheel; wanted 27.4 N/mm. Stress is that at full bump." in shown
    assert (
        "For this goal a solid bar as long as the present one needs a diameter of 25.0 mm." in shown
    )
    assert "Up to 26.5 mm goes in and survives. What stops a thicker one: the bar goes" in shown
    assert "Searched 20 bars in 28 combinations with arms and anchors. Removed, by" in shown
    assert selection_row(answer)["bar"] == "Firm bar, short van"


def test_an_extreme_has_no_wanted_figure_and_a_frequency_two_digits() -> None:
    largest = attrs.evolve(chosen(Goal(rate_change=30.0)), target=None)
    frequency = attrs.evolve(largest, target=bw.Quantity(1.41, "Hz"))
    assert "; wanted" not in bw.text(largest, width=140)
    assert "; wanted 1.41 Hz" in bw.text(frequency, width=140)


def test_nothing_shows_what_each_requirement_left() -> None:
    answer = chosen(Goal(rate_change=150.0))

    shown = bw.text(answer, width=140)

    assert "To choose from" not in shown
    assert re.search(r"^a rate within 10 % of the goal +0 +\d+ +", shown, re.MULTILINE)
    assert selection_row(answer) == {"verdict": "nothing suits", "bar": "none"}


def test_what_is_not_known_now_leaves_nothing_to_show() -> None:
    registry = discovered_once()
    van = registry.setup("fells:chassis/short", corner="front left")
    van = van.with_parts(bar=make_bar(diameter="unknown"))

    shown = bw.text(bw.choose(van, Goal(rate_change=30.0), parts=registry.parts()))

    assert "goes in" not in shown
    assert "requirement" not in shown


def test_where_no_size_survives_none_is_said() -> None:
    answer = chosen(Goal(rate_change=30.0))
    none = bw.answers.SizeForGoal(diameter=None, largest=None, stopped_by=None)

    shown = bw.text(attrs.evolve(answer, size=none), width=140)

    assert "No solid bar of that length goes in and survives" in shown
    assert "A solid bar" not in shown


def test_a_goal_that_asks_for_too_thick_a_bar_says_so() -> None:
    answer = chosen(Goal(rate_change=150.0))

    shown = bw.text(answer, width=140)

    assert "needs a diameter of 30.8 mm: too thick.\nUp to 26.5 mm" in shown


def test_nothing_taken_out_and_something_not_tried_are_told() -> None:
    answer = chosen(Goal(rate_change=30.0))
    sieves = tuple(attrs.evolve(one, removed=0) for one in answer.sieves)

    shown = bw.text(attrs.evolve(answer, sieves=sieves, untried=12), width=140)

    assert "Removed, by" not in shown
    assert "12 combinations with several other parts were not tried." in shown
