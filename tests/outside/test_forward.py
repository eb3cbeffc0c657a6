"""Every plan, carried out and solved forward again, gives the wanted height.

The forward way (clocking and nut to free angle to rest) shares with the plan's
backward way only the kernels, which are checked in space and by a multibody
engine in the files beside this one.
"""

from __future__ import annotations

import math

import attrs
import pytest
from hypothesis import HealthCheck, assume, given, settings

import barwright as bw
from barwright.analysis.corner.corner import Corner
from draws import draws
from sample_records import known
from setup_strategies import corners


@settings(max_examples=draws(150), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_a_plan_solved_forward_gives_the_wanted_height(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    wanted = bw.Wanted(height=height)
    answer = bw.reindex(setup, wanted=wanted)
    plans = answer.plans + answer.rejected
    assume(plans)
    for plan in plans:
        done = bw.ride(bw.carry_out(setup, plan))
        assert done.within_travel
        assert done.state is not None
        assert math.isclose(mm(done.state.height), mm(plan.height), abs_tol=1e-6)
        assert abs(mm(done.state.height) - float(height[:-3])) <= mm(plan.height_rounding)


@pytest.mark.rare
@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_the_rise_per_turn_is_what_a_small_turn_gives(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    assume(answer.plans)
    plan = answer.plans[0]
    there = bw.carry_out(setup, plan)
    raising = 1.0 if plan.raising_sense is bw.answers.TurningSense.CLOCKWISE else -1.0
    heights = []
    for side in (-1.0, 1.0):
        turns = float(known(plan.nut_turns).magnitude) + side * raising * 1e-3
        state = bw.ride(attrs.evolve(there, nut_turns=f"{turns:.9f} turn")).state
        assert state is not None
        heights.append(mm(state.height))
    # The plan states the rise at the exact height, a fraction of a flat away.
    slope = (heights[1] - heights[0]) / 2e-3
    assert slope > 0.0
    assert math.isclose(slope, float(known(plan.height_per_turn).magnitude), rel_tol=0.02)


@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(corners())
def test_where_the_bar_slides_it_carries_no_torque(drawn: tuple[bw.Setup, str]) -> None:
    setup, height = drawn
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    assume(answer.plans or answer.rejected)
    model = Corner(setup)
    for plan in answer.plans + answer.rejected:
        for way in plan.fitting:
            there = attrs.evolve(bw.carry_out(setup, plan), nut_turns=known(way.nut_turns))
            lowest = model.travel[0] if way.damper_fitted else model.stops[0]
            hang = float(way.arm_angle.m_as("radian"))
            assert math.isclose(hang, lowest, abs_tol=1e-9)
            twist = hang - Corner(there).free_angle
            # At that place of the nut the hanging arm twists the bar by nothing, or
            # by what is left; where the bar is loose anywhere, it is slack there.
            if way.anywhere:
                assert twist <= 1e-8
            elif way.slides:
                assert math.isclose(twist, 0.0, abs_tol=1e-8)
                assert way.residual_energy.magnitude == 0.0
            else:
                figures = bw.rates(setup).figures
                assert figures is not None
                rate = float(figures.system_rate.m_as("newton * meter / radian"))
                residue = float(way.residual_torque.magnitude)
                assert math.isclose(residue, rate * twist, rel_tol=1e-6)
                assert math.isclose(way.unloading_reserve.m_as("radian"), -twist, rel_tol=1e-6)


def mm(value: bw.Quantity) -> float:
    return float(value.m_as("millimeter"))
