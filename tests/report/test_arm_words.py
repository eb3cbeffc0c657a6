"""Tests of `barwright.report.arm_words`: where the arm is to stand, as a length to measure."""

from __future__ import annotations

import math
import re
from typing import Any

import attrs
import pytest

import barwright as bw
from anchors import fixed_socket, on_fixed
from barwright.analysis.model import CornerModel
from barwright.analysis.unloading import way_out
from barwright.report.arm_words import (
    damper_off,
    lifted,
    parted,
    tied_up,
)
from barwright.units import System
from making import double_wishbone_mounting, known, make_setup, swing_arm_mounting

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
HELD = make_setup(damper=SHORT, axle={"droop_stop": "-11 deg"})
HELD_ON, HELD_OFF = bw.reindex(HELD).removal
PARTING = known(way_out(CornerModel(HELD), damper_on=HELD_ON, damper_off=HELD_OFF).parting)
ON_ARM = make_setup(axle={"suspension": swing_arm_mounting()})
ON_WISHBONES = make_setup(axle={"suspension": double_wishbone_mounting()})


def lengths(text: str, unit: str) -> list[float]:
    return [float(number) for number in re.findall(rf"([\d.]+) {unit}\b", text)]


def test_a_drop_is_told_in_the_readers_units() -> None:
    (metric,) = lengths(parted(PARTING, HELD), "mm")
    inch = parted(bw.in_units(PARTING, "inch"), HELD)
    (inches,) = lengths(inch, "in")
    assert inches == pytest.approx(metric / 25.4, abs=0.03)
    assert "mm" not in inch


def test_the_joint_of_two_arms_is_named_for_its_arm() -> None:
    assert "part the lower ball joint, at the outer end of the arm that holds the bar," in parted(
        PARTING, ON_WISHBONES
    )
    assert "part the ball joint at the arm's outer end" in parted(PARTING, HELD)


def test_a_carrier_is_tied_up_where_there_is_one() -> None:
    assert tied_up(ON_ARM) == ""
    for setup in (HELD, ON_WISHBONES):
        assert "Tie up the carrier" in tied_up(setup)
    assert "tie the carrier up" in damper_off(HELD)
    assert "carrier" not in damper_off(ON_WISHBONES)


@pytest.mark.parametrize(("system", "unit", "size"), [("metric", "mm", 1.0), ("inch", "in", 25.4)])
def test_a_lifted_hub_is_measured_to_the_arch(system: System, unit: str, size: float) -> None:
    setup = on_fixed(**DEEP)
    answer = bw.reindex(setup, wanted=bw.Wanted(height="404 mm"))
    on = bw.in_units(answer, system).removal[0]
    hub_to_arch, less = lengths(lifted(on, setup, system), unit)
    loose = bw.rates(setup).figures
    assert loose is not None
    hanging = loose.droop.height.m_as("mm")
    assert less * size == pytest.approx(answer.removal[0].lift.m_as("mm"), abs=0.6 * size)
    assert (hub_to_arch + less) * size == pytest.approx(hanging, abs=1.1 * size)


def test_without_its_strut_a_carrier_is_no_datum_and_the_joint_is() -> None:
    setup = on_fixed(socket={"anchor_angle": "172 deg"}, axle={"droop_stop": "-40 deg"})
    off = bw.reindex(setup).removal[1]
    said = lifted(off, setup, "metric")
    assert "hub" not in said
    (rise,) = lengths(said, "mm")
    free = float((off.arm_angle + off.reserve).m_as("rad"))
    stop = float(off.arm_angle.m_as("rad"))
    assert rise == pytest.approx(338.0 * (math.sin(free) - math.sin(stop)), abs=0.5)
    swinging = attrs.evolve(
        setup, axle=attrs.evolve(setup.axle, suspension=swing_arm_mounting()), tube=fixed_socket()
    )
    assert "so that hub to arch measures" in lifted(off, swinging, "metric")
