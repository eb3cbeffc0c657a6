"""Tests of `loose_bar`: where it says that a bar is loose, the bar carries no torque."""

from __future__ import annotations

import math
from typing import Any

import attrs
import pytest

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.analysis.assembly.loose_bar import loose_bar
from barwright.analysis.corner.corner import Corner
from sample_records import known, make_setup

DEEP: dict[str, Any] = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}


@pytest.mark.parametrize("setup", [make_setup(), on_key_lever()], ids=["nut", "bolt"])
def test_a_thread_ends_slack_where_the_free_angle_is_highest(setup: bw.Setup) -> None:
    loose = loose_bar(Corner(setup))
    there = known(loose.slack_end)
    free = [
        known(bw.ride(attrs.evolve(setup, nut_turns=turns)).free_angle).m_as("deg")
        for turns in (there, 0.0 * there, -1.0 * there)
    ]
    assert free == sorted(free, reverse=True)
    # There is no thread beyond.
    with pytest.raises(bw.QuantityError, match="Q302"):
        bw.ride(attrs.evolve(setup, nut_turns=1.001 * there))
    assert (loose.damper_on, loose.damper_off) == (None, None)


@pytest.mark.parametrize(
    ("setup", "millimetres"),
    [
        (make_setup(), 159.5 + 31.0 / 2.0),
        (make_setup(side=bw.parts.Side.RIGHT), 159.5 + 31.0 / 2.0),
        (on_key_lever(), 20.0),
    ],
    ids=["nut", "right nut", "bolt"],
)
def test_the_slack_end_of_a_thread_is_told_as_it_is_measured(
    setup: bw.Setup, millimetres: float
) -> None:
    """The nut has 31 mm of thread about 159.5 mm; the bolt's begins at 20 mm."""
    loose = loose_bar(Corner(setup))
    assert known(loose.slack_distance).m_as("mm") == pytest.approx(millimetres)
    curve = known(bw.nut_table(setup).nut_curve)
    assert known(loose.slack_distance).m_as("mm") == pytest.approx(curve.pin_distance[0].m_as("mm"))


def test_an_arm_in_a_fixed_socket_is_held_at_the_free_angle() -> None:
    setup = on_fixed(**DEEP)
    loose, free = loose_bar(Corner(setup)), known(bw.ride(setup).free_angle)
    assert (loose.slack_end, loose.slack_distance) == (None, None)
    for held in (known(loose.damper_on), known(loose.damper_off)):
        wanted = bw.Wanted(arm_angle=free)
        assert held.height.m_as("mm") == pytest.approx(
            known(bw.reindex(setup, wanted=wanted).wanted_height).m_as("mm")
        )
    stop, radius = math.radians(-40.0), setup.arm.radius.m_as("mm")
    rise = radius * (math.sin(free.m_as("rad")) - math.sin(stop))
    assert known(loose.damper_off).joint_rise.m_as("mm") == pytest.approx(rise)


def test_an_arm_is_held_no_higher_than_its_stops_let_it() -> None:
    setup = on_fixed(socket={"anchor_angle": "150 deg"})
    held = known(loose_bar(Corner(setup)).damper_off)
    low, high = sorted(
        known(bw.reindex(setup, wanted=bw.Wanted(arm_angle=stop)).wanted_height).m_as("mm")
        for stop in (setup.axle.droop_stop, setup.axle.bump_stop)
    )
    assert held.height.m_as("mm") in (pytest.approx(low), pytest.approx(high))
