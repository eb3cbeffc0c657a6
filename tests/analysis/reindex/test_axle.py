"""Both sides of an axle are planned together."""

from __future__ import annotations

import itertools
from typing import Any

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.analysis.reindex.axle import _Side, _together, reindex_job
from barwright.analysis.reindex.preference import ThreadLeft
from draws import draws
from sample_records import known, make_bar, make_end, make_setup


def corner(side: bw.parts.Side, height: float, **changes: Any) -> bw.JobCorner:
    setup = make_setup(side=side, **changes)
    wanted = bw.Wanted(height=f"{height} mm")
    return bw.JobCorner(setup=setup, present=setup, wanted=wanted)


def job(*corners: bw.JobCorner) -> bw.Job:
    return bw.Job(title="t", corners=corners)


def kind(plan: bw.answers.Plan) -> set[tuple[bw.parts.BarEndName, bool]]:
    return {
        (work.end, work.action is bw.answers.EndAction.REMOVE_TOOTH)
        for work in plan.ends
        if work.end in plan.disturbed
    }


def turns(plan: bw.answers.Plan) -> float:
    return float(known(plan.thread_reserve).m_as("turn"))


@settings(max_examples=draws(25), suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(330, 430), st.integers(-30, 30), st.sampled_from([(), (1,), (2,)]))
def test_no_pair_of_plans_is_better_than_the_pair_that_is_led_by(
    height: int, other: int, blanks: tuple[int, ...]
) -> None:
    bar = make_bar(arm_end=make_end(39, blanks=(0, *blanks)))
    both = job(
        corner(bw.parts.Side.LEFT, height, bar=bar),
        corner(bw.parts.Side.RIGHT, height + other / 10),
    )
    answers = reindex_job(both)
    assume(all(answer.plans for answer in answers))
    least = []
    for answer in answers:
        enough = known(answer.enough_thread_reserve).m_as("turn")
        best = max(map(turns, answer.plans))
        least.append(enough if best >= enough else best - 1.0)
    pairs = [
        pair
        for pair in itertools.product(*(answer.plans for answer in answers))
        if all(turns(p) >= low - 1e-6 for p, low in zip(pair, least, strict=True))
    ]

    def badness(pair: tuple[bw.answers.Plan, ...]) -> tuple[int, int, bool, float]:
        return (
            sum(p.cuts for p in pair),
            sum(len(p.disturbed) for p in pair),
            kind(pair[0]) != kind(pair[1]),
            -round(min(map(turns, pair)), 6),
        )

    chosen = (answers[0].plans[0], answers[1].plans[0])
    assert badness(chosen) == min(map(badness, pairs))
    reported = [
        any(f.topic is bw.answers.Topic.BOTH_SIDES for f in answer.findings) for answer in answers
    ]
    assert reported == [kind(chosen[0]) != kind(chosen[1])] * 2


def test_each_side_has_the_plans_that_it_has_alone_in_another_order() -> None:
    both = job(corner(bw.parts.Side.LEFT, 349), corner(bw.parts.Side.RIGHT, 349))
    for one, answer in zip(both.corners, reindex_job(both), strict=True):
        alone = bw.reindex(one.setup, wanted=one.wanted)
        teeth = [{(p.arm_tooth, p.anchor_tooth) for p in found.plans} for found in (alone, answer)]
        assert teeth[0] == teeth[1]
        assert answer.plans[0].cost is None
        for plan in answer.plans[1:]:
            cost = known(plan.cost)
            assert cost.teeth == plan.cuts - answer.plans[0].cuts
            assert cost.ends == len(plan.disturbed) - len(answer.plans[0].disturbed)
            assert known(cost.thread_reserve).m_as("turn") == pytest.approx(
                turns(plan) - turns(answer.plans[0])
            )


def test_sides_that_differ_say_why() -> None:
    both = job(corner(bw.parts.Side.LEFT, 404), corner(bw.parts.Side.RIGHT, 349))
    left, right = reindex_job(both)
    (why,) = [f for f in left.findings if f.topic is bw.answers.Topic.BOTH_SIDES]
    assert why in right.findings
    assert "left keeps its teeth, right loses a tooth at the" in why.text
    assert (
        "the left does not need it; on the right no plan without a cut keeps as much thread"
        in why.text
    )


@pytest.mark.parametrize("tooth", [0, 1])
def test_a_side_that_need_not_be_drawn_stays_in(tooth: int) -> None:
    """An earlier blank would do the same work on both sides, and draw a bar for nothing."""
    bar = make_bar(arm_end=make_end(39, blanks=(0, 1)))
    left = corner(bw.parts.Side.LEFT, 404, bar=bar, arm_tooth=tooth)
    right = corner(bw.parts.Side.RIGHT, 404)
    answers = reindex_job(job(left, right))
    assert answers[1].plans[0].disturbed == ()
    assert answers[0].plans[0].cuts == 0


def test_a_side_without_a_plan_leaves_the_other_as_it_is() -> None:
    both = job(corner(bw.parts.Side.LEFT, 349), corner(bw.parts.Side.RIGHT, 900))
    left, right = reindex_job(both)
    assert left == bw.reindex(both.corners[0].setup, wanted=both.corners[0].wanted)
    assert right.verdict is bw.Verdict.OUT_OF_REACH


def test_corners_of_two_axles_are_no_pair() -> None:
    front = corner(bw.parts.Side.LEFT, 349)
    rear = attrs.evolve(front, setup=_at_the_rear(front.setup))
    rear = attrs.evolve(rear, present=rear.setup)
    alone = [bw.reindex(c.setup, wanted=c.wanted) for c in (front, rear)]
    assert list(reindex_job(job(front, rear))) == alone


def test_one_corner_that_stands_twice_in_a_job_is_no_pair() -> None:
    left = corner(bw.parts.Side.LEFT, 349)
    alone = bw.reindex(left.setup, wanted=left.wanted)
    assert list(reindex_job(job(left, left))) == [alone, alone]


def _at_the_rear(setup: bw.Setup) -> bw.Setup:
    rear = attrs.evolve(setup.axle, place=bw.parts.AxlePlace.REAR)
    chassis = attrs.evolve(setup.chassis, axles=(setup.axle, rear))
    return attrs.evolve(setup, chassis=chassis, axle=rear)


def test_equal_cuts_of_two_kinds_say_that_no_one_kind_serves() -> None:
    """The socket of one end has no key on the left, that of the other on the right."""
    left = corner(bw.parts.Side.LEFT, 349, arm_keyed=False)
    right = corner(bw.parts.Side.RIGHT, 349, anchor_keyed=False)
    (why,) = [
        f
        for f in reindex_job(job(left, right))[0].findings
        if f.topic is bw.answers.Topic.BOTH_SIDES
    ]
    assert "left is re-indexed at the arm end, right is re-indexed at the anchor end" in why.text
    assert why.text.endswith("no plan for both sides alike keeps enough thread on both")


def test_work_that_serves_both_sides_is_not_done_where_it_disturbs_more_ends() -> None:
    found = bw.reindex(make_setup(), wanted=bw.Wanted(height="349 mm"))
    at = {plan.disturbed: plan for plan in found.plans if plan.cuts == 1}
    arm, anchor = at[(bw.parts.BarEndName.ARM,)], at[(bw.parts.BarEndName.ANCHOR,)]
    both = attrs.evolve(arm, disturbed=tuple(bw.parts.BarEndName))
    sides = [
        _Side(name, attrs.evolve(found, plans=(own, both)), ThreadLeft((30, 30), enough=18))
        for name, own in (("left", arm), ("right", anchor))
    ]
    left, right = _together(*sides)
    assert [side.plans[0].disturbed for side in (left, right)] == [arm.disturbed, anchor.disturbed]
    (why,) = [f for f in left.findings if f.topic is bw.answers.Topic.BOTH_SIDES]
    assert why.text.endswith("the same work on both sides would move more ends to another tooth")
