"""Tests of `barwright.analysis.reindex.plan.cautions`: what concerns the work, and nothing else."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.reindex.plan.cautions import cautions_for, job_cautions
from sample_records import make_setup, swing_arm_mounting

Caution = bw.answers.Caution


def of_plan(
    setup: bw.Setup,
    *,
    verdict: bw.Verdict = bw.Verdict.REACHED,
    cuts: int = 0,
    height: str = "404 mm",
    bar_comes_out: bool = True,
) -> set[bw.answers.Caution]:
    """Cautions of a plan that comes to these figures."""
    return {
        *cautions_for(
            setup,
            verdict=verdict,
            cuts=cuts,
            height=bw.Quantity(height),
            bar_comes_out=bar_comes_out,
        )
    }


def test_every_caution_says_something_of_its_own() -> None:
    texts = [caution.text for caution in Caution]
    assert len(set(texts)) == len(texts)
    assert all(text.endswith(".") for text in texts)


@pytest.mark.parametrize(("spacer", "reported"), [("6 mm", True), ("0 mm", False)])
def test_a_spacer_is_spoken_of_where_there_is_one(spacer: str, *, reported: bool) -> None:
    setup = make_setup(adjuster={"spacer": spacer})
    assert (Caution.SPACER in of_plan(setup)) is reported
    assert Caution.FULL_NUT in of_plan(setup)


@pytest.mark.parametrize("drive", [None, "front", "none"])
def test_a_trailer_has_a_coupling_and_no_headlamps(drive: str | None) -> None:
    usual = make_setup()
    setup = attrs.evolve(usual, chassis=attrs.evolve(usual.chassis, drive=drive))
    reported = of_plan(setup) & {Caution.AFTER_HEIGHT_CHANGE, Caution.ON_ITS_COUPLING}
    assert reported == {Caution.ON_ITS_COUPLING if drive == "none" else Caution.AFTER_HEIGHT_CHANGE}


def test_teeth_are_spoken_of_where_one_is_removed() -> None:
    setup = make_setup()
    assert Caution.FEWER_TEETH in of_plan(setup, cuts=1)
    assert Caution.FEWER_TEETH not in of_plan(setup)


@pytest.mark.parametrize("verdict", bw.Verdict)
def test_a_coil_is_spoken_of_where_a_bar_on_a_strut_is_too_weak(verdict: bw.Verdict) -> None:
    on_strut, on_arm = make_setup(), make_setup(axle={"suspension": swing_arm_mounting()})
    too_weak = verdict is bw.Verdict.OVERSTRESSED
    assert (Caution.GUIDE_MOUNT in of_plan(on_strut, verdict=verdict)) is too_weak
    assert Caution.GUIDE_MOUNT not in of_plan(on_arm, verdict=verdict)


@pytest.mark.parametrize("setup", [make_setup(), on_key_lever(), on_fixed()])
def test_a_bar_that_stays_in_is_neither_marked_nor_proved_nor_scrap(setup: bw.Setup) -> None:
    drawn, left_in = of_plan(setup), of_plan(setup, bar_comes_out=False)
    of_bar = drawn - left_in
    assert left_in < drawn
    assert Caution.SCRAP_ON_NICKS in of_bar
    assert len(of_bar & {Caution.PROVE_LOOSE, Caution.LIFT_UNTIL_LOOSE}) == 1
    marks = {Caution.MARK_BOTH_SIDES, Caution.MARK_KEY_LEVER, Caution.MARK_SOCKET}
    assert len(of_bar & marks) == 1
    assert len(of_bar) == 3


@pytest.mark.parametrize(
    ("below", "reported"), [("-20 mm", False), ("0 mm", False), ("4.9 mm", False), ("5 mm", True)]
)
def test_clearances_are_looked_at_below_standard_height(below: str, *, reported: bool) -> None:
    """A tape reads half a centimetre for certain: common practice, no source."""
    setup = make_setup()
    height = setup.axle.standard_height - bw.Quantity(below)
    found = of_plan(setup, height=f"{height.m_as('mm')} mm")
    assert (Caution.CLEARANCE in found) is reported


def at_droop(setup: bw.Setup, twist: str = "5 deg") -> tuple[bw.Setup, bw.answers.CornerState]:
    figures = bw.rates(setup).figures
    assert figures is not None
    return setup, attrs.evolve(figures.droop, twist=bw.Quantity(twist))


@pytest.mark.parametrize(
    ("sides", "reported"),
    [
        ((), False),
        ((bw.parts.Side.LEFT,), True),
        ((bw.parts.Side.RIGHT,), True),
        ((bw.parts.Side.LEFT, bw.parts.Side.RIGHT), False),
    ],
)
def test_work_on_one_side_of_an_axle_is_cautioned(
    sides: tuple[bw.parts.Side, ...], *, reported: bool
) -> None:
    corners = [at_droop(make_setup(side=side)) for side in sides]
    assert job_cautions(corners) == ((Caution.ONE_SIDE,) if reported else ())


def test_one_side_of_either_axle_is_one_side() -> None:
    front = make_setup()
    rear = make_setup(side=bw.parts.Side.RIGHT, axle={"place": bw.parts.AxlePlace.REAR})
    assert job_cautions([at_droop(front), at_droop(rear)]) == (Caution.ONE_SIDE,)


@pytest.mark.parametrize(("twist", "reported"), [("0.1 deg", False), ("-0.1 deg", True)])
def test_a_bar_that_goes_slack_is_cautioned(twist: str, *, reported: bool) -> None:
    left, right = make_setup(), make_setup(side=bw.parts.Side.RIGHT)
    found = job_cautions([at_droop(left), at_droop(right, twist)])
    assert found == ((Caution.SLACK_AT_DROOP,) if reported else ())


def test_what_concerns_a_job_is_no_caution_of_a_plan() -> None:
    reported = of_plan(make_setup(), cuts=1)
    assert not reported & {Caution.ONE_SIDE, Caution.SLACK_AT_DROOP}
