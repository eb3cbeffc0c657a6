"""Tests of `adjustment`: the slack end of a thread can be found on the bench."""

from __future__ import annotations

import re

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.loose_bar import loose_bar
from barwright.report.sheet.adjustment import adjusted, slackened, words_for
from barwright.report.sheet.settings import measurements, settings
from sample_records import adjuster_of, fixed_line, known, make_setup

WANTED = bw.Wanted(height="380 mm")
CORNERS = [
    make_setup(),
    make_setup(side=bw.parts.Side.RIGHT),
    make_setup(adjuster={"mounting": fixed_line()}),
    on_key_lever(),
]


def slackened_on(setup: bw.Setup) -> str:
    return slackened(known(words_for(setup)), loose_bar(Corner(setup)))


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


@pytest.mark.parametrize("setup", CORNERS)
def test_an_adjuster_is_slackened_to_the_end_where_its_lever_is_slackest(setup: bw.Setup) -> None:
    model = Corner(setup)
    (sense, turns), *_ = re.findall(
        r"turn it ([a-z-]+), .* \(([\d.]+) turns from", slackened_on(setup)
    )
    signed = float(turns) if sense == "clockwise" else -float(turns)
    low, high = model.turns_span
    assert signed in (pytest.approx(low, abs=0.051), pytest.approx(high, abs=0.051))
    assert float(model.lever_at_turns(signed)) == pytest.approx(model.lever_span[1], abs=0.01)


def test_the_end_of_a_thread_is_told_for_what_is_turned() -> None:
    assert "until the whole nut is only just on full thread" in slackened_on(make_setup())
    bolt = slackened_on(on_key_lever())
    assert bolt.startswith("Slacken the bolt to the slack end of its thread: ")
    assert "over the whole depth of its cross-member" in bolt
    assert words_for(on_fixed()) is None


@pytest.mark.parametrize(
    ("setup", "what", "flat", "measured"),
    [
        (
            make_setup(),
            "nut",
            "the nut",
            ("bolt's pivot", "lever's pin", "centre of the lever's pin"),
        ),
        (
            make_setup(adjuster={"mounting": fixed_line()}),
            *("nut", "the nut"),
            ("bolt's head", "lever's pin", "centre of the lever's pin"),
        ),
        (on_key_lever(), "bolt", "the bolt's head", ("cross-member", *["bolt's end"] * 2)),
    ],
)
def test_what_is_set_is_told_by_the_names_of_its_pieces(
    setup: bw.Setup, what: str, flat: str, measured: tuple[str, str, str]
) -> None:
    answer = bw.reindex(setup, wanted=WANTED)
    plan = answer.plans[0]
    rows = settings(setup, plan)
    start, end, to = measured
    assert [row.what for row in rows] == [
        f"{what} from the middle of its thread, clockwise positive",
        f"{what} from the slack end of its thread",
        f"{start} to {end}",
        "turns left clockwise",
        "turns left counter-clockwise",
        "rise for one turn clockwise",
        "hub to arch",
        "torque left at full droop",
    ]
    assert rows[6].note == f"± {plan.height_rounding.m_as('mm'):.1f} mm to a flat of {flat}"
    assert [
        (one.what, one.where, one.tool, one.expected is not None)
        for one in measurements(setup, setup, answer, plan)
    ] == [
        ("corner load", "under the tyre, before the stands", "wheel scale", False),
        ("height before", "hub centre to the arch's edge above it", "tape", False),
        (f"{what} before", f"{start} to the {to}", "calliper", False),
        (f"{what} after", f"{start} to the {to}", "calliper", True),
        (
            "height after, settled and rolled",
            *("hub centre to the arch's edge above it", "tape", True),
        ),
    ]


def test_a_place_that_a_job_states_is_expected_before() -> None:
    for turns, is_known in (("0 turn", False), ("2 turn", True)):
        setup = make_setup(nut_turns=turns)
        answer = bw.reindex(setup, wanted=WANTED)
        before = measurements(setup, setup, answer, answer.plans[0])[2]
        assert (before.expected is not None) is is_known
