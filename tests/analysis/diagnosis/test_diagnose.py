"""Why a van sits wrong: known faults, known noise, and what is to be done."""

from __future__ import annotations

import functools
from typing import Any

import attrs
import numpy as np
import pytest

import barwright as bw
from barwright.analysis.diagnosis.hypotheses import PRIOR
from barwright.analysis.diagnosis.hypotheses import standing as resting_height
from barwright.answers import CauseKind
from barwright.parts import BarEndName, measured
from sample_packs import discovered_once
from sample_records import make_bar
from wrong_corners import drawn, van_hypotheses

VAN = "fells:chassis/short"


def corner(side: str = "left", **change: Any) -> bw.Setup:
    setup = discovered_once().setup(VAN, corner=f"front {side}")
    return attrs.evolve(setup, **change)


def read(setup: bw.Setup, height: float, **given: Any) -> bw.Setup:
    """A corner as it should be, read at a height [mm]."""
    return attrs.evolve(setup, reading=measured(setup, height=f"{height} mm ± 2 mm", **given))


def standing(setup: bw.Setup) -> float:
    return bw.ride(setup).height.m_as("mm")


@functools.cache
def found(left: float, right: float) -> bw.answers.Diagnosis:
    both = [read(corner("left"), left), read(corner("right"), right)]
    return bw.diagnose(both, registry=discovered_once())


EXPECTED = 403.5


def test_what_stands_as_its_figures_have_it_is_left_alone() -> None:
    answer = found(404.0, 403.0)

    assert answer.verdict is bw.Verdict.AS_EXPECTED
    assert answer.outcome is bw.Outcome.FINE
    assert answer.causes[0].kind is CauseKind.NOTHING
    assert answer.headline.startswith("Stands as expected: front left ")
    assert answer.cautions == ()


@pytest.mark.rare
def test_both_sides_low_alike_are_within_what_the_figures_leave_open() -> None:
    assert found(396.0, 395.0).causes[0].kind is CauseKind.NOTHING
    assert found(396.0, 411.0).causes[0].kind is not CauseKind.NOTHING


@pytest.mark.parametrize("by", [-1, 1])
def test_a_bar_that_was_clocked_wrongly_is_found_and_put_right_without_a_cut(by: int) -> None:
    wrong = standing(corner(anchor_tooth=by))

    answer = found(round(wrong), EXPECTED)

    cause = answer.causes[0]
    assert (cause.kind, cause.corner) == (CauseKind.ANCHOR_TOOTH, "front left")
    assert cause.height_change.m_as("mm") == pytest.approx(wrong - EXPECTED, abs=1.0)
    assert cause.plan is not None
    assert cause.plan.cuts == 0
    assert cause.plan.disturbed == (BarEndName.ANCHOR,)
    assert cause.plan.height.m_as("mm") == pytest.approx(EXPECTED, abs=1.0)
    assert cause.kind.check in answer.headline
    if answer.verdict is bw.Verdict.DIAGNOSED:
        assert answer.outcome is bw.Outcome.FINE_WITH_CHANGES
        assert answer.cautions == cause.plan.cautions


def test_a_few_millimetres_leave_several_causes_and_say_what_to_check_first() -> None:
    answer = found(384.0, 404.0)

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    kinds = {one.kind for one in answer.causes}
    assert {CauseKind.SET, CauseKind.OTHER_BAR, CauseKind.LOAD} <= kinds
    assert " or front left: " in answer.headline
    (other,) = (one for one in answer.causes if "Soft bar" in one.named)
    assert other.plan is not None
    assert other.plan.cuts == 0
    (taken_set,) = (one for one in answer.causes if one.kind is CauseKind.SET)
    assert taken_set.plan is not None
    assert taken_set.plan.disturbed == ()
    assert "about 3°" in taken_set.in_words
    assert repr(taken_set).startswith("<Cause: front left: a bar that has taken a set (about 3°)")


LOW = 357.0


def test_plans_are_for_the_wanted_height_where_one_is_stated() -> None:
    both = [read(corner("left"), LOW), read(corner("right"), EXPECTED)]
    wishes = [bw.Wanted(height="412 mm", cuts=0), bw.Wanted(same_height=True)]

    answer = bw.diagnose(both, registry=discovered_once(), wanted=wishes)

    left, right = answer.corners
    assert (left.planned_height, left.wanted_height) == (wishes[0].height, wishes[0].height)
    assert (right.planned_height, right.wanted_height) == (right.expected_height, None)
    plan = answer.causes[0].plan
    assert plan is not None
    assert plan.height.m_as("mm") == pytest.approx(412.0, abs=1.0)
    text = bw.text(answer, width=140)
    assert "(1 tooth in the droop sense), for the wanted 412 mm: Remove no tooth" in text


def test_a_wanted_height_out_of_reach_is_refused_with_the_reason() -> None:
    low = read(corner("left"), LOW)
    answer = bw.diagnose([low], registry=discovered_once(), wanted=[bw.Wanted(arm_angle="30 deg")])

    first = answer.causes[0]
    assert first.plan is None
    assert "outside the travel" in first.refusal
    assert f": {first.refusal}" in " ".join(bw.text(answer, width=140).split())
    assert answer.cautions == ()


def test_without_another_wish_the_standard_height_is_wanted() -> None:
    setup = corner("left", nut_turns="-2 turn")
    answer = bw.diagnose([read(setup, LOW)], registry=discovered_once(), wanted=[bw.Wanted()])

    (left,) = answer.corners
    assert left.wanted_height == setup.axle.standard_height
    assert left.expected_height < left.wanted_height


def test_a_corner_that_was_weighed_is_hardly_loaded_otherwise() -> None:
    stated = corner("left")
    unsprung = stated.axle.unsprung_mass
    weighed = stated.with_load(
        kind=bw.parts.LoadKind.SCALE_READING, mass=stated.load.mass + unsprung
    )
    shares = [
        {one.kind: one.probability for one in answer.causes}.get(CauseKind.LOAD, 0.0)
        for answer in (
            bw.diagnose([read(one, 384.0)], registry=discovered_once()) for one in (stated, weighed)
        )
    ]
    assert shares[0] > 0.1
    assert shares[1] < shares[0] / 3.0


def test_each_corner_has_a_wish_or_none_has() -> None:
    with pytest.raises(bw.JobError, match="2 wishes for 1 corners"):
        bw.diagnose(
            [read(corner("left"), LOW)],
            registry=discovered_once(),
            wanted=[bw.Wanted(), bw.Wanted()],
        )


def test_causes_come_likeliest_first_and_no_surer_than_one() -> None:
    for heights in ((404.0, 403.0), (384.0, 404.0), (357.0, 403.0)):
        shares = [one.probability for one in found(*heights).causes]
        assert shares == sorted(shares, reverse=True)
        assert 0.9 < sum(shares) <= 1.0 + 1e-9


def test_how_a_corner_stands_is_told_with_its_errors() -> None:
    left, right = found(384.0, 404.0).corners

    assert left.deviation.m_as("mm") == pytest.approx(384.0 - EXPECTED, abs=0.1)
    assert left.expected_height.m_as("mm") == pytest.approx(EXPECTED, abs=0.1)
    assert right.own_uncertainty == left.own_uncertainty
    assert left.common_uncertainty > left.own_uncertainty
    assert "front left 20 mm low" in found(384.0, 404.0).headline


@pytest.mark.rare
def test_one_corner_alone_is_told_less_surely() -> None:
    alone = bw.diagnose([read(corner(), 392.0)], registry=discovered_once())
    both = found(392.0, EXPECTED)

    nothing = [
        next((one.probability for one in answer.causes if one.kind is CauseKind.NOTHING), 0.0)
        for answer in (alone, both)
    ]
    assert nothing[0] > nothing[1]


def handed(side: str) -> bw.Setup:
    bar = discovered_once().bar(f"fells:bar/short-angled-{side}")
    return corner(side).with_parts(bar=bar)


def test_bars_that_were_exchanged_are_seen_on_both_sides() -> None:
    swapped = [
        handed(side).with_parts(bar=handed(other).bar)
        for side, other in (("left", "right"), ("right", "left"))
    ]
    heights = [standing(one) for one in swapped]

    both = [
        read(handed(side), round(height))
        for side, height in zip(("left", "right"), heights, strict=True)
    ]
    answer = bw.diagnose(both, registry=discovered_once())

    assert answer.causes[0].kind is CauseKind.SWAPPED_SIDES
    assert answer.causes[0].corner == ""
    assert answer.causes[0].in_words == "left and right bar exchanged"


def test_a_spacer_left_out_counts_where_turns_say_where_the_nut_is() -> None:
    adjuster = corner().adjuster
    assert adjuster is not None
    spaced = corner().with_parts(adjuster=attrs.evolve(adjuster, spacer="9 mm"))
    bare = standing(spaced.with_parts(adjuster=attrs.evolve(adjuster, spacer="0 mm")))

    by_turns = bw.diagnose([read(spaced, round(bare))], registry=discovered_once())
    pin = read(spaced, round(bare), pin_distance="159.5 mm")
    by_pin = bw.diagnose([pin], registry=discovered_once())

    assert CauseKind.SPACER in {one.kind for one in by_turns.causes}
    assert CauseKind.SPACER not in {one.kind for one in by_pin.causes}


def test_a_load_that_leaves_no_more_than_the_wheel_is_not_tried() -> None:
    setup = corner().with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="45 kg")

    answer = bw.diagnose([read(setup, round(standing(setup)))], registry=discovered_once())

    assert answer.causes


def test_a_corner_that_cannot_stand_says_why() -> None:
    gap = read(corner().with_parts(bar=make_bar(diameter="unknown")), 400.0)

    answer = bw.diagnose([gap], registry=discovered_once())

    assert answer.verdict is bw.Verdict.NEEDS_FIGURES
    assert "bar diameter" in answer.headline


@pytest.mark.parametrize("setups", [(), (corner(),)])
def test_what_was_not_measured_is_asked_for(setups: tuple[bw.Setup, ...]) -> None:
    with pytest.raises(bw.JobError, match="measured"):
        bw.diagnose(setups, registry=discovered_once())


def test_an_angle_of_the_arm_is_no_height() -> None:
    setup = corner()
    angle = attrs.evolve(setup, reading=measured(setup, arm_angle="2 deg"))

    with pytest.raises(bw.JobError, match="hub to arch"):
        bw.diagnose([angle], registry=discovered_once())


def test_a_bar_that_lies_in_no_socket_stands_nowhere() -> None:
    long = corner().with_parts(bar=discovered_once().bar("fells:bar/long-standard"))

    assert resting_height(long) is None
    assert resting_height(corner()) == pytest.approx(1e-3 * EXPECTED, abs=1e-4)


def test_priors_are_shares_of_one() -> None:
    assert sum(PRIOR.values()) == pytest.approx(1.0)
    assert sum(one.prior for one in van_hypotheses()) == pytest.approx(1.0)


def test_stated_probabilities_hold() -> None:
    done = drawn(3000, seed=2)

    for low in np.arange(0.2, 1.0, 0.1):
        own = (done.certainty > low) & (done.certainty <= low + 0.1)
        number = int(np.sum(own))
        if number >= 150:
            stated, share = np.mean(done.certainty[own]), np.mean(done.is_right[own])
            assert abs(stated - share) < 0.02 + 3.0 * np.sqrt(stated * (1.0 - stated) / number)


def test_a_cause_that_counts_as_found_is_the_right_one() -> None:
    done = drawn(2000, seed=3)

    assert np.mean(done.is_right[done.certainty >= 0.8]) > 0.87
