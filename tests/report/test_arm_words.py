"""Tests of `barwright.report.arm_words`: where the arm is to stand, as a length to measure."""

from __future__ import annotations

import math
import re
from typing import Any

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

import barwright as bw
from anchors import fixed_socket, on_fixed
from barwright.report.arm_words import (
    FURTHEST_BELOW_STOP,
    can_be_parted,
    damper_off,
    lifted,
    parted,
    tied_up,
)
from barwright.units import System
from making import double_wishbone_mounting, make_setup, swing_arm_mounting

SHORT = {"open_length": "616 mm", "closed_length": "452 mm"}
DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}
HELD = make_setup(damper=SHORT, axle={"droop_stop": "-9 deg"})
HELD_OFF = bw.reindex(HELD).removal[1]
ON_ARM = make_setup(axle={"suspension": swing_arm_mounting()})
ON_WISHBONES = make_setup(axle={"suspension": double_wishbone_mounting()})


def lengths(text: str, unit: str) -> list[float]:
    return [float(number) for number in re.findall(rf"([\d.]+) {unit}\b", text)]


def below(degrees: float) -> bw.Assembly:
    """A bar that is loose so far below the stop of its arm."""
    return attrs.evolve(HELD_OFF, reserve=bw.Quantity(-degrees, "degree"))


@given(degrees=st.floats(min_value=0.5, max_value=10.0))
def test_how_far_the_joint_comes_down_is_the_arms_own_drop(degrees: float) -> None:
    stop = float(HELD_OFF.arm_angle.m_as("rad"))
    drop = 338.0 * (math.sin(stop) - math.sin(stop - math.radians(degrees)))
    assert drop > 0.0
    assert lengths(parted(below(degrees), HELD, "metric"), "mm") == [round(drop)]


def test_a_drop_is_told_in_the_readers_units() -> None:
    (metric,) = lengths(parted(HELD_OFF, HELD, "metric"), "mm")
    (inches,) = lengths(parted(HELD_OFF, HELD, "inch"), "in")
    assert inches == pytest.approx(metric / 25.4, abs=0.03)
    assert "mm" not in parted(HELD_OFF, HELD, "inch")


def test_an_arm_is_let_down_no_further_than_the_limit() -> None:
    limit = math.degrees(FURTHEST_BELOW_STOP)
    assert can_be_parted(below(limit - 0.1), HELD)
    assert not can_be_parted(below(limit + 0.1), HELD)


def test_no_joint_is_parted_where_there_is_none_or_where_the_arm_would_have_to_rise() -> None:
    assert can_be_parted(HELD_OFF, ON_WISHBONES)
    assert not can_be_parted(HELD_OFF, ON_ARM)
    above = attrs.evolve(HELD_OFF, lift=bw.Quantity(3.0, "mm"))
    assert not can_be_parted(above, HELD)


def test_the_joint_of_two_arms_is_named_for_its_arm() -> None:
    assert "part the lower ball joint, at the outer end of the arm that holds the bar," in parted(
        HELD_OFF, ON_WISHBONES, "metric"
    )
    assert "part the ball joint at the arm's outer end" in parted(HELD_OFF, HELD, "metric")


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
