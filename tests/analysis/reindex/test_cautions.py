"""Tests of `barwright.analysis.reindex.cautions`: what concerns the work, and nothing else."""

from __future__ import annotations

import attrs
import pytest

import barwright as bw
from barwright.analysis.reindex.cautions import cautions_for, job_cautions
from sample_records import make_setup, swing_arm_mounting


def test_every_caution_says_something_of_its_own() -> None:
    texts = [caution.text for caution in bw.answers.Caution]
    assert len(set(texts)) == len(texts)
    assert all(text.endswith(".") for text in texts)


@pytest.mark.parametrize(("spacer", "reported"), [("6 mm", True), ("0 mm", False)])
def test_a_spacer_is_spoken_of_where_there_is_one(spacer: str, *, reported: bool) -> None:
    setup = make_setup(adjuster={"spacer": spacer})
    assert (bw.answers.Caution.SPACER in cautions_for(setup, cuts=0)) is reported
    assert bw.answers.Caution.FULL_NUT in cautions_for(setup, cuts=0)


@pytest.mark.parametrize("drive", [None, "front", "none"])
def test_a_trailer_has_a_coupling_and_no_headlamps(drive: str | None) -> None:
    usual = make_setup()
    setup = attrs.evolve(usual, chassis=attrs.evolve(usual.chassis, drive=drive))
    reported = {bw.answers.Caution.AFTER_HEIGHT_CHANGE, bw.answers.Caution.ON_ITS_COUPLING} & {
        *cautions_for(setup, cuts=0)
    }
    assert reported == {
        bw.answers.Caution.ON_ITS_COUPLING
        if drive == "none"
        else bw.answers.Caution.AFTER_HEIGHT_CHANGE
    }


def test_teeth_and_struts_are_spoken_of_where_they_are() -> None:
    setup = make_setup(axle={"suspension": swing_arm_mounting()})
    assert bw.answers.Caution.GUIDE_MOUNT not in cautions_for(setup, cuts=1)
    assert bw.answers.Caution.GUIDE_MOUNT in cautions_for(make_setup(), cuts=1)
    assert bw.answers.Caution.FEWER_TEETH in cautions_for(setup, cuts=1)
    assert bw.answers.Caution.FEWER_TEETH not in cautions_for(setup, cuts=0)


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
    assert job_cautions(corners) == ((bw.answers.Caution.ONE_SIDE,) if reported else ())


def test_one_side_of_either_axle_is_one_side() -> None:
    front = make_setup()
    rear = make_setup(side=bw.parts.Side.RIGHT, axle={"place": bw.parts.AxlePlace.REAR})
    assert job_cautions([at_droop(front), at_droop(rear)]) == (bw.answers.Caution.ONE_SIDE,)


@pytest.mark.parametrize(("twist", "reported"), [("0.1 deg", False), ("-0.1 deg", True)])
def test_a_bar_that_goes_slack_is_cautioned(twist: str, *, reported: bool) -> None:
    left, right = make_setup(), make_setup(side=bw.parts.Side.RIGHT)
    found = job_cautions([at_droop(left), at_droop(right, twist)])
    assert found == ((bw.answers.Caution.SLACK_AT_DROOP,) if reported else ())


def test_what_concerns_a_job_is_no_caution_of_a_plan() -> None:
    reported = {*cautions_for(make_setup(), cuts=1)}
    assert not reported & {bw.answers.Caution.ONE_SIDE, bw.answers.Caution.SLACK_AT_DROOP}
