"""Tests of `adjustment`: the slack end of a thread can be found on the bench."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.loose_bar import loose_bar
from barwright.report.sheet.adjustment import adjusted, datum, slackened, stand, words_for
from barwright.report.sheet.step import together
from sample_records import fixed_line, known, make_setup

WANTED = bw.Wanted(height="380 mm")
CORNERS = [
    make_setup(),
    make_setup(side=bw.parts.Side.RIGHT),
    make_setup(adjuster={"mounting": fixed_line()}),
    on_key_lever(),
]


def slackened_on(setup: bw.Setup) -> str:
    step = slackened(known(words_for(setup)), loose_bar(Corner(setup)))
    return together({"front left": step}).text


@pytest.mark.parametrize("setup", CORNERS)
def test_turns_from_the_slack_end_lead_to_the_slackest_lever(setup: bw.Setup) -> None:
    model = Corner(setup)
    plans = bw.reindex(setup, wanted=WANTED).plans
    assert plans
    for plan in plans:
        at = known(adjusted(plan))
        turns, away = float(at.turns.magnitude), float(at.from_slack_end.magnitude)
        back = -1.0 if at.raising_sense is bw.answers.TurningSense.CLOCKWISE else 1.0
        slackest = float(model.lever_at_turns(turns + back * away))
        assert slackest == pytest.approx(model.lever_span[1])


@pytest.mark.parametrize("setup", CORNERS)
def test_an_adjuster_is_slackened_to_the_end_where_its_lever_is_slackest(setup: bw.Setup) -> None:
    model = Corner(setup)
    (sense, turns), *_ = re.findall(
        r"^Turn the [a-z]+ ([a-z-]+), .*: ([\d.]+) turns from mid-thread", slackened_on(setup)
    )
    signed = float(turns) if sense == "clockwise" else -float(turns)
    low, high = model.turns_span
    assert signed in (pytest.approx(low, abs=0.051), pytest.approx(high, abs=0.051))
    assert float(model.lever_at_turns(signed)) == pytest.approx(model.lever_span[1], abs=0.01)


def test_the_end_of_a_thread_is_told_for_what_is_turned() -> None:
    nut, bolt = slackened_on(make_setup()), slackened_on(on_key_lever())
    assert "seen from the bolt's free end, to its slack end: " in nut
    assert nut.endswith(", the whole nut still on the thread.")
    assert bolt.startswith("Turn the bolt counter-clockwise, seen from the bolt's head, to its")
    assert bolt.endswith(", the cross-member still full of thread.")
    assert words_for(on_fixed()) is None


@pytest.mark.parametrize(
    ("setup", "said"),
    [
        (make_setup(), "bolt's pivot"),
        (make_setup(adjuster={"mounting": fixed_line()}), "bolt's head"),
        (on_key_lever(), "cross-member"),
    ],
)
def test_a_place_is_counted_from_what_holds_the_bolt(setup: bw.Setup, said: str) -> None:
    assert datum(setup) == said


def test_a_plan_of_a_fixed_socket_sets_nothing() -> None:
    setup = on_fixed(axle={"droop_stop": "-40 deg"}, damper={"open_length": "760 mm"})
    answer = bw.reindex(setup, wanted=bw.Wanted(height="404 mm"))
    assert adjusted(answer.plans[0]) is None
    assert stand(answer.removal[0]) is None


def test_the_adjuster_stands_where_the_bar_is_loose() -> None:
    way = bw.reindex(make_setup(), wanted=WANTED).removal[0]
    at = known(stand(way))
    assert (at.turns, at.distance) == (way.nut_turns, way.pin_distance)
    assert at.words.what == "nut"
