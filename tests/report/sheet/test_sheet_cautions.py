"""Tests of `sheet_cautions`: each once, and none that a step says where it is needed."""

from __future__ import annotations

import attrs
import pytest
from hypothesis import HealthCheck, given, settings

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.report.sheet.sheet_cautions import SAID_BY_STEPS
from draws import draws
from rare_cases import rarely_after
from sample_records import known, make_setup
from setup_strategies import corners as drawn_corners
from sheet_corners import LOWER, sheet_of, texts

Caution = bw.answers.Caution
AS_IT_IS, FAR = bw.Wanted(height="404 mm"), bw.Wanted(height="900 mm")


# -- Said by steps --------------------------------------------------------------------------


@settings(max_examples=draws(40), suppress_health_check=[HealthCheck.too_slow])
@given(drawn_corners())
def test_every_caution_that_is_left_out_is_said_by_a_step(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    assert_said_by_steps(setup, bw.Wanted(height=height))


@pytest.mark.parametrize("wanted", ["340 mm", "349 mm", "380 mm", "404 mm"])
@pytest.mark.parametrize("drive", ["front", "none"])
@pytest.mark.parametrize("setup", rarely_after(8, [make_setup(), on_key_lever(), on_fixed()]))
def test_every_caution_of_any_anchor_is_said_by_a_step(
    setup: bw.Setup, drive: str, wanted: str
) -> None:
    driven = attrs.evolve(setup, chassis=attrs.evolve(setup.chassis, drive=drive))
    assert_said_by_steps(driven, bw.Wanted(height=wanted))


SAID = {
    Caution.MARK_BOTH_SIDES: "Mark bar, arm, tube and lever together, left and right",
    Caution.MARK_KEY_LEVER: "Mark bar, arm and key lever together, left and right",
    Caution.MARK_SOCKET: "Mark bar, arm and anchor socket together, left and right",
    Caution.PROVE_LOOSE: "Check that the bar is loose: ",
    Caution.SCRAP_ON_NICKS: "A nick or pit is scrap",
    Caution.FEWER_TEETH: "each one weakens the spline",
    Caution.FULL_NUT: "Keep the whole nut on the thread",
    Caution.FULL_BOLT: "The bolt's thread must reach all the way through its hole",
    Caution.SPACER: "the spacer in its place",
    Caution.CLEARANCE: "Check clearance at full lock and full bump",
    Caution.AFTER_HEIGHT_CHANGE: "Check headlamp aim, brake-load valve and wheel alignment",
    Caution.ON_ITS_COUPLING: "Check that the trailer stands level",
}
"""The words by which a step says a caution."""


def assert_said_by_steps(setup: bw.Setup, wanted: bw.Wanted) -> None:
    assert set(SAID) == SAID_BY_STEPS
    corner = bw.JobCorner(setup=setup, present=setup, wanted=wanted)
    for number in range(1, len(bw.reindex(setup, wanted=wanted).plans) + 1):
        sheet = bw.bench_sheet(bw.Job(title="t", corners=(corner,)), plan=number)
        said = texts(sheet)
        for caution in known(sheet.corners[0].plan).cautions:
            if caution in SAID_BY_STEPS:
                assert caution.text not in sheet.cautions
                assert SAID[caution] in said
            else:
                assert caution.text in sheet.cautions


def test_every_caution_that_steps_say_is_met_somewhere() -> None:
    """Else the tests above would hold of nothing."""
    usual = make_setup()
    towed = attrs.evolve(usual, chassis=attrs.evolve(usual.chassis, drive="none"))
    met: set[bw.answers.Caution] = set()
    for setup in (usual, towed, on_key_lever(), on_fixed()):
        for height in ("340 mm", "349 mm", "380 mm"):
            for plan in bw.reindex(setup, wanted=bw.Wanted(height=height)).plans:
                met |= {*plan.cautions}
    assert met >= SAID_BY_STEPS


# -- Cautions -------------------------------------------------------------------------------


def test_the_cautions_of_a_plan_that_cuts() -> None:
    assert sheet_of(make_setup()).cautions == tuple(
        caution.text
        for caution in (
            *(Caution.ONE_SIDE, Caution.SLACK_AT_DROOP),
            *(Caution.STORED_ENERGY, Caution.STANDS, Caution.BRAKE_HOSE),
            Caution.LAW_AND_JUDGEMENT,
        )
    )


@pytest.mark.parametrize(("wanted", "comes_out"), [(LOWER, True), (AS_IT_IS, False)])
def test_a_nick_is_spoken_of_where_the_bar_comes_out(wanted: bw.Wanted, *, comes_out: bool) -> None:
    sheet = sheet_of(make_setup(), wanted=wanted)
    assert ("A nick or pit is scrap" in texts(sheet)) is comes_out
    assert ("Pull the bar out" in texts(sheet)) is comes_out


@pytest.mark.parametrize("height", ["349 mm", "404 mm", "420 mm"])
def test_clearance_is_checked_where_the_vehicle_stands_lower_than_standard(height: str) -> None:
    setup = make_setup()
    sheet = sheet_of(setup, wanted=bw.Wanted(height=height))
    drop = setup.axle.standard_height - known(sheet.corners[0].plan).height
    assert ("Check clearance" in texts(sheet)) is (drop.m_as("mm") >= 5.0)


def test_a_sheet_of_which_nothing_can_be_done_still_warns() -> None:
    sheet = sheet_of(make_setup(), wanted=FAR)
    assert sheet.cautions == (Caution.STORED_ENERGY.text, Caution.LAW_AND_JUDGEMENT.text)
