"""Tests of `barwright.analysis.reindex.plan.uncut_trial`: no tooth goes that a turn could spare."""

from __future__ import annotations

import attrs
import pytest
from hypothesis import given, settings

import barwright as bw
from barwright.analysis.corner.corner import Corner
from barwright.analysis.reindex.plan.uncut_trial import CLOSE_ENOUGH, worth_a_trial
from draws import draws
from sample_packs import discovered_once
from sample_records import known, make_setup
from setup_strategies import corners
from uncut_trials import NEARLY, OFF, nearly_uncut

CLOSE = CLOSE_ENOUGH * 1000.0


def test_a_height_that_an_uncut_bar_nearly_brings_is_tried_uncut_first() -> None:
    setup = make_setup()
    answer = bw.reindex(setup, wanted=nearly_uncut(setup, by=NEARLY))
    trial, first = known(answer.trial), answer.plans[0]

    assert first.cuts > 0
    assert (trial.plan.cuts, trial.plan.disturbed) == (0, ())
    assert answer.headline.startswith("First try it uncut, nut 1")
    assert repr(trial).startswith("<UncutTrial: First try it uncut, nut 1")
    assert "Only if more than 3 mm off " in answer.headline
    assert answer.headline.index("Only if") < answer.headline.index("remove 1 tooth")
    # What is tried is no finding besides.
    assert "nearest height with no tooth removed" not in answer.headline
    assert not [one for one in answer.findings if one.topic is bw.answers.Topic.CUTS]


def test_a_height_that_an_uncut_bar_misses_is_not_tried() -> None:
    setup = make_setup()
    answer = bw.reindex(setup, wanted=nearly_uncut(setup, by=OFF))

    assert answer.plans[0].cuts > 0
    assert answer.trial is None
    assert answer.headline.startswith("Remove 1 tooth")
    assert [one for one in answer.findings if one.topic is bw.answers.Topic.CUTS]


def test_nothing_is_tried_where_nothing_is_cut_or_much_thread_is_asked_for() -> None:
    setup = make_setup()
    wish = nearly_uncut(setup, by=NEARLY)

    assert bw.reindex(setup).trial is None
    asked = attrs.evolve(wish, thread_reserve=bw.Quantity(4.0, "turn"))
    assert bw.reindex(setup, wanted=asked).plans[0].cuts > 0
    assert bw.reindex(setup, wanted=asked).trial is None


def test_the_tolerances_of_the_figures_say_how_far_off_is_worth_a_trial() -> None:
    """The van's uncut bar ends 3 mm above the wish, and its figures leave 7 mm open."""
    job = bw.load_job("docs/examples/shorter-dampers.toml", discovered_once())
    for answer in bw.reindex_job(job):
        trial, first = known(answer.trial), answer.plans[0]
        missed = abs((trial.plan.height - trial.wanted_height).m_as("mm"))
        assert CLOSE < missed < first.height_left_open.m_as("mm")


@settings(max_examples=draws(60))
@given(corners())
def test_a_trial_is_the_plan_of_the_bar_as_it_is_and_may_be_carried_out(
    case: tuple[bw.Setup, str],
) -> None:
    setup, height = case
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    if answer.trial is None:
        return
    plan = answer.trial.plan

    assert answer.plans[0].cuts > 0
    assert (plan.cuts, plan.disturbed, plan.verdict) == (0, (), bw.Verdict.REACHED)
    # Solved forward, the corner stands where the trial says.
    done = bw.carry_out(setup, plan)
    assert known(bw.ride(done).state).height.m_as("mm") == pytest.approx(
        plan.height.m_as("mm"), abs=0.01
    )
    # The nut is at the end of its thread, or brings the wanted height.
    turns = known(plan.nut_turns).m_as("turn")
    low, high = Corner(setup).turns_span
    missed = abs((plan.height - answer.trial.wanted_height).m_as("mm"))
    at_end = min(turns - low, high - turns) < 1.0 / 6.0 + 1e-6
    assert at_end or missed <= plan.height_rounding.m_as("mm") + 0.01


def test_a_trial_that_must_not_be_carried_out_is_none() -> None:
    setup = make_setup()
    plan = bw.reindex(setup).plans[0]
    wanted = plan.height.m_as("m")
    refused = attrs.evolve(plan, verdict=bw.Verdict.OVERSTRESSED)

    assert worth_a_trial(plan, wanted_height=wanted, open_by=0.0) is not None
    assert worth_a_trial(refused, wanted_height=wanted, open_by=0.0) is None
    for off, found in ((0.9, True), (1.1, False)):
        there = wanted + off * CLOSE_ENOUGH
        assert (worth_a_trial(plan, wanted_height=there, open_by=0.0) is not None) is found
    beyond = wanted + 2.0 * CLOSE_ENOUGH
    assert worth_a_trial(plan, wanted_height=beyond, open_by=2.1 * CLOSE_ENOUGH) is not None
