"""Tests of `slack_at_droop`: a bar that lets go of its lever before full droop."""

from __future__ import annotations

import math

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.assembly.slack_at_droop import goes_slack, unheld_lever
from barwright.analysis.corner.corner import Corner
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
    corner = Corner(on_key_lever())
    (finding,) = unheld_lever(corner, droop_twist=SLACK)
    assert finding.topic is bw.answers.Topic.SLACK
    assert finding.line == (
        "only the bar holds the key lever on its bolt, and it goes slack before full droop: the "
        "lever may drop off. A damper with less open length keeps it on; found 674.0 mm, "
        "limit 662.0 mm"
    )
    assert unheld_lever(corner, droop_twist=WOUND) == ()


def test_a_lever_that_something_else_holds_may_lose_its_bar_s_hold() -> None:
    for setup in (on_key_lever({"held_by": "a clip"}), make_setup()):
        assert unheld_lever(Corner(setup), droop_twist=SLACK) == ()


@pytest.mark.parametrize(("more", "verdict"), [(0.0, "can be reached"), (1.2, "not safe")])
def test_a_damper_of_the_length_that_is_named_keeps_the_lever_on(more: float, verdict: str) -> None:
    low = bw.Wanted(height="349 mm")
    setup = on_key_lever()
    (least, *_) = (f.limit for f in bw.reindex(setup, wanted=low).findings)
    assert isinstance(least, bw.Quantity)
    opened = bw.Quantity(least.m_as("mm") + more, "mm")
    closed = bw.Quantity(400.0, "mm")
    damper = attrs.evolve(setup.damper, open_length=opened, closed_length=closed)
    answer = bw.reindex(setup.with_parts(damper=damper), wanted=low)
    assert answer.verdict.value == verdict


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
