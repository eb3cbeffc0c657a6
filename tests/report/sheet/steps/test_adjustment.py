"""Tests of `adjustment`: the slack end of a thread can be found on the bench."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.assembly.loose_bar import loose_bar
from barwright.analysis.corner.corner import Corner
from barwright.report.sheet.steps.adjustment import adjusted, datum, slackened, stand, words_for
from barwright.report.sheet.steps.step import together
from barwright.units import System
from sample_records import fixed_line, known, make_setup

WANTED = bw.Wanted(height="380 mm")
CORNERS = [
    make_setup(),
    make_setup(side=bw.parts.Side.RIGHT),
    make_setup(adjuster={"mounting": fixed_line()}),
    on_key_lever(),
]


def slackened_on(setup: bw.Setup) -> str:
    return slackened_in(setup, "metric")


def slackened_in(setup: bw.Setup, system: System) -> str:
    loose = bw.in_units(loose_bar(Corner(setup)), system)
    return together({"front left": slackened(setup, known(words_for(setup)), loose)}).text


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
    slackest = max(model.turns_span, key=model.lever_at_turns)
    assert float(model.lever_at_turns(slackest)) == pytest.approx(model.lever_span[1])
    (sense, distance), *_ = re.findall(
        r"^Turn the [a-z]+ ([a-z-]+), .* to its slack end: ([\d.]+) mm from", slackened_on(setup)
    )
    assert sense == ("clockwise" if slackest > 0.0 else "counter-clockwise")
    end = 1e3 * float(model.setting_at_turns(slackest))
    assert float(distance) == pytest.approx(end, abs=0.051)


def test_a_slack_end_is_told_in_the_readers_units() -> None:
    inch = slackened_in(make_setup(), "inch")
    assert " mm" not in inch
    ((millimetres,), (inches,)) = (
        re.findall(rf": ([\d.]+) {unit} from", said)
        for unit, said in (("mm", slackened_on(make_setup())), ("in", inch))
    )
    assert float(inches) == pytest.approx(float(millimetres) / 25.4, abs=0.003)


def test_the_end_of_a_thread_is_measured_to_what_is_turned() -> None:
    nut, bolt = slackened_on(make_setup()), slackened_on(on_key_lever())
    assert "seen from the bolt's free end, to its slack end: " in nut
    assert nut.endswith(" from the bolt's pivot to the lever's pin.")
    assert bolt.startswith("Turn the bolt counter-clockwise, seen from the bolt's head, to its")
    assert bolt.endswith(" from the cross-member to the bolt's end.")
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
