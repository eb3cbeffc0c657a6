"""Tests of `barwright.report.unloading`: which way is safe is known before anything is touched."""

from __future__ import annotations

from typing import Any

import attrs
import pytest

import barwright as bw
from anchors import fixed_socket, on_fixed, on_key_lever
from barwright.analysis.model import CornerModel
from barwright.analysis.unloading import way_out
from barwright.report.step import NO_WAY
from barwright.report.unloading import UnloadingSteps
from making import make_bar, make_setup

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}


def unloading(present: bw.Setup) -> UnloadingSteps:
    answer = bw.reindex(present, wanted=bw.Wanted(height="404 mm"))
    on, off = answer.removal
    found = way_out(CornerModel(present), damper_on=on, damper_off=off)
    return UnloadingSteps(present, found, tolerance=answer.free_angle_tolerance, system="metric")


def held(droop_stop: str) -> bw.Setup:
    """A corner with the damper too short for the old clocking."""
    return make_setup(damper=SHORT, axle={"droop_stop": droop_stop})


LOOSE = make_setup(bar=make_bar(diameter="24.6 mm"))


def test_a_bar_is_proved_loose_on_every_way() -> None:
    for present in (LOOSE, held("-20 deg"), held("-11 deg"), on_key_lever(), on_fixed(**DEEP)):
        steps = list(unloading(present).steps())
        assert steps[-1].text.startswith("Prove it: ")
        assert not steps[-1].refused


def test_a_bar_that_binds_is_unloaded_by_what_is_left_to_do() -> None:
    on, off, parted, fixed = (
        list(unloading(present).steps())[-1].text
        for present in (LOOSE, held("-20 deg"), held("-11 deg"), on_fixed(**DEEP))
    )
    slack = "turn the nut back to the slack end of its thread. If it binds there too, the damper"
    assert slack in on
    assert on.index("Free the brake hose") < on.index("take the damper off")
    assert "goes on again before the wheel" in on
    assert "stop: the nut is slack and the damper off" in off
    assert "let the arm down a little more" in parted
    assert "move the arm up or down" in fixed


def test_what_would_be_left_is_said_before_a_refusal() -> None:
    now = attrs.evolve(held("-9 deg"), arm_tooth=-1)
    said, no_way = unloading(now).refusal()
    residual = bw.reindex(now).removal[1].residual_torque.m_as("N*m")
    assert f"a torque of {residual:.0f} N·m" in said.text
    assert "with the nut at the slack end of its thread and the damper off" in said.text
    assert said.refused
    assert no_way is NO_WAY


def test_of_a_fixed_socket_no_nut_is_named() -> None:
    wound = attrs.evolve(on_fixed(**DEEP), tube=fixed_socket(anchor_angle="222 deg"))
    said, _ = unloading(wound).refusal()
    assert said.text.startswith("Do not touch the bar: with the damper off a torque of")


@pytest.mark.parametrize("tooth", range(-8, 9))
def test_a_sheet_that_knows_no_way_asks_for_nothing(tooth: int) -> None:
    job = bw.load_job("examples/loaded-trailer.toml", bw.Registry.discover())
    corner = job.corners[0]
    present = attrs.evolve(corner.present, arm_tooth=tooth)
    changed = attrs.evolve(job, corners=(attrs.evolve(corner, present=present),))
    (sheet,) = bw.bench_sheet(changed).corners
    assert sheet.plan is not None
    refuses = NO_WAY in sheet.steps
    assert refuses == (not any(way.slides for way in sheet.reindex.removal))
    if refuses:
        assert all(step.refused for step in sheet.steps)
        assert (sheet.settings, sheet.measurements) == ((), ())
        assert sheet.verdict is bw.Verdict.CANNOT_BE_ASSEMBLED
