"""Tests of `barwright.report.adjustment`: the slack end of a thread can be found on the bench."""

from __future__ import annotations

import re

import attrs
import pytest

import barwright as bw
from anchors import on_key_lever
from barwright.analysis.model import CornerModel
from barwright.report.adjustment import adjusted, place_text
from barwright.report.settings import settings
from making import adjuster_of, fixed_line, known, make_setup

WANTED = bw.Wanted(height="349 mm")
CORNERS = [
    make_setup(),
    make_setup(side=bw.Side.RIGHT),
    make_setup(adjuster={"mounting": fixed_line()}),
    on_key_lever(),
]


@pytest.mark.parametrize("setup", CORNERS)
def test_turns_from_the_slack_end_lead_to_the_slackest_lever(setup: bw.Setup) -> None:
    model = CornerModel(setup)
    plans = bw.reindex(setup, wanted=WANTED).plans
    assert plans
    for plan in plans:
        at = known(adjusted(plan))
        turns, away = float(at.turns.magnitude), float(at.from_slack_end.magnitude)
        back = -1.0 if at.raising_sense is bw.TurningSense.CLOCKWISE else 1.0
        slackest = float(model.lever_at_turns(turns + back * away))
        assert slackest == pytest.approx(model.lever_span[1])


@pytest.mark.parametrize("setup", CORNERS)
def test_thread_from_the_slack_end_is_a_length_on_the_bolt(setup: bw.Setup) -> None:
    plan = bw.reindex(setup, wanted=WANTED).plans[0]
    (row,) = [s for s in settings(setup, plan) if "slack end" in s.what]
    (thread,) = [float(x) for x in re.findall(r"^([\d.]+) mm of thread", row.note)]
    pitch = adjuster_of(setup).thread_pitch.m_as("mm")
    assert thread == pytest.approx(float(row.value.magnitude) * pitch, abs=0.051)
    sense = known(plan.raising_sense).reversed.value
    assert f"turning {sense} leads to that end" in row.note
    (inches,) = [s.note for s in settings(setup, plan, system="inch") if "slack end" in s.what]
    assert " in of thread" in inches


def test_a_place_at_the_slack_end_is_not_counted_from_it() -> None:
    setup = make_setup()
    plan = bw.reindex(setup, wanted=WANTED).plans[0]
    way = plan.fitting[1]
    model = CornerModel(setup)
    low, high = model.turns_span
    slack = model.turns_at_lever(model.lever_span[1])
    assert slack in (pytest.approx(low), pytest.approx(high))
    at_end = attrs.evolve(way, nut_turns=bw.Quantity(slack, "turn"))
    assert "slack end" not in place_text(at_end, setup)
    away = attrs.evolve(way, nut_turns=bw.Quantity(slack / 2.0, "turn"))
    assert f"from the middle, {abs(slack / 2.0):.1f} from the slack end, seen" in place_text(
        away, setup
    )


def test_the_middle_is_called_the_middle() -> None:
    setup = make_setup()
    way = bw.reindex(setup, wanted=WANTED).plans[0].fitting[1]
    for turns in (0.0, 0.04, -0.04):
        middle = attrs.evolve(way, nut_turns=bw.Quantity(turns, "turn"))
        assert place_text(middle, setup).startswith("the middle of its thread, ")
    clockwise = attrs.evolve(way, nut_turns=bw.Quantity(1.0, "turn"))
    assert place_text(clockwise, setup).startswith("1.0 turns clockwise from the middle, ")
