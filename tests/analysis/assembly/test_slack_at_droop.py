"""Tests of `slack_at_droop`: a bar that lets go of its lever before full droop."""

from __future__ import annotations

import math

import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.assembly.slack_at_droop import goes_slack, unheld_lever
from sample_records import make_setup

WOUND, SLACK = math.radians(1.0), math.radians(-2.0)


@pytest.mark.parametrize(("twist", "slack"), [(WOUND, False), (0.0, True), (SLACK, True)])
def test_a_bar_goes_slack_where_its_twist_ends(twist: float, *, slack: bool) -> None:
    for setup in (make_setup(), on_key_lever()):
        assert goes_slack(setup, droop_twist=twist) is slack
    # A fixed socket holds the bar both ways.
    fixed = on_fixed()
    assert not goes_slack(fixed, droop_twist=twist)


def test_a_key_lever_that_only_a_slack_bar_holds_is_not_safe() -> None:
    setup = on_key_lever()
    (finding,) = unheld_lever(setup, droop_twist=SLACK)
    assert finding.topic is bw.answers.Topic.SLACK
    assert finding.line == (
        "only the bar holds the key lever on its bolt, and it goes slack before full droop: the "
        "lever may drop off. A damper that opens less would keep it on; found -2.0°, limit 0.0°"
    )
    assert unheld_lever(setup, droop_twist=WOUND) == ()


def test_a_lever_that_something_else_holds_may_lose_its_bar_s_hold() -> None:
    for setup in (on_key_lever({"held_by": "a clip"}), make_setup()):
        assert unheld_lever(setup, droop_twist=SLACK) == ()


def test_a_plan_that_lets_a_key_lever_drop_is_not_offered() -> None:
    low = bw.Wanted(height="349 mm")
    answer = bw.reindex(on_key_lever(), wanted=low)
    assert (answer.plans, answer.verdict) == ((), bw.Verdict.NOT_SAFE)
    assert not answer.outcome.is_good
    assert any("only the bar holds the key lever" in f.text for f in answer.findings)
    # Where something else holds it, the plan is offered and the job is cautioned.
    setup = on_key_lever({"held_by": "a clip"})
    corner = bw.JobCorner(setup=setup, present=setup, wanted=low)
    sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)))
    assert sheet.corners[0].plan is not None
    assert bw.answers.Caution.SLACK_AT_DROOP.text in sheet.cautions
