"""Plans on key levers and fixed sockets, solved forward and held against plain enumeration.

The forward way (clocking and bolt to free angle to rest) shares with the plan's backward
way only the kernels, which are checked against engines in the files beside this one.  For a
fixed socket every pair of teeth is also clocked and left to settle, one after the other.
"""

from __future__ import annotations

import itertools
import math

import attrs
import numpy as np
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

import barwright as bw
from anchored_corners import key_bolt, on_fixed, on_key_lever
from draws import draws
from sample_records import make_bar, make_end

DEGREES = st.integers(-1800, 1800).map(lambda tenths: f"{tenths / 10} deg")
HEIGHTS = st.integers(360, 440).map(lambda height: f"{height} mm")
SIDES = st.sampled_from(list(bw.parts.Side))
DEEP = {"axle": {"droop_stop": "-40 deg"}, "damper": {"open_length": "760 mm"}}


def with_key(setup: bw.Setup, angle: str) -> bw.Setup:
    """The same with another key angle of its anchor socket."""
    socket = attrs.evolve(setup.anchor.socket, key_angle=angle)
    return attrs.evolve(setup, anchor=attrs.evolve(setup.anchor, socket=socket))


def mm(value: bw.Quantity) -> float:
    return float(value.m_as("millimeter"))


def settled(setup: bw.Setup) -> float:
    """Height at rest [mm]."""
    done = bw.ride(setup)
    assert done.state is not None
    return mm(done.state.height)


@st.composite
def trucks(draw: st.DrawFn) -> bw.Setup:
    """A corner with a key lever, anywhere around its bolt."""
    mounting = key_bolt(
        foot_angle=draw(DEGREES),
        line_distance=f"{draw(st.integers(45, 60))} mm",
        end_radius=f"{draw(st.integers(0, 8))} mm",
    )
    lever = {"face_offset": f"{draw(st.integers(-4, 8))} mm", "face_start": "20 mm"}
    return with_key(
        on_key_lever(
            lever | {"face_end": "95 mm"},
            {"mounting": mounting},
            side=draw(SIDES),
            arm_key=draw(DEGREES),
        ),
        draw(DEGREES),
    )


@settings(max_examples=draws(60), suppress_health_check=[HealthCheck.too_slow])
@given(setup=trucks(), height=HEIGHTS)
def test_a_plan_on_a_key_lever_gives_the_wanted_height(setup: bw.Setup, height: str) -> None:
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    plans = answer.plans + answer.rejected
    assume(plans)
    for plan in plans:
        reached = settled(bw.carry_out(setup, plan))
        assert math.isclose(reached, mm(plan.height), abs_tol=1e-6)
        assert abs(reached - float(height[:-3])) <= mm(plan.height_rounding)


@settings(max_examples=draws(30), suppress_health_check=[HealthCheck.too_slow])
@given(setup=trucks(), height=HEIGHTS)
def test_a_turn_of_the_bolt_raises_the_car_as_the_plan_says(setup: bw.Setup, height: str) -> None:
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    assume(answer.plans)
    plan = answer.plans[0]
    assert plan.nut_turns is not None
    assert plan.height_per_turn is not None
    assert plan.raising_sense is bw.answers.TurningSense.CLOCKWISE
    there, turns = bw.carry_out(setup, plan), float(plan.nut_turns.magnitude)
    heights = [
        settled(attrs.evolve(there, nut_turns=f"{turns + side:.9f} turn")) for side in (-1e-3, 1e-3)
    ]
    slope = (heights[1] - heights[0]) / 2e-3
    assert math.isclose(slope, float(plan.height_per_turn.magnitude), rel_tol=0.03)


@st.composite
def trailers(draw: st.DrawFn) -> bw.Setup:
    """A corner with a fixed socket, few teeth, and keys anywhere."""
    arm, anchor = draw(st.sampled_from([(34, 36), (36, 36), (36, 40), (34, 37), (34, 40)]))
    bar = make_bar(arm_end=make_end(arm), anchor_end=make_end(anchor))
    setup = on_fixed(
        {"anchor_angle": draw(DEGREES)}, bar=bar, side=draw(SIDES), arm_key=draw(DEGREES), **DEEP
    )
    return with_key(setup, draw(DEGREES))


@settings(max_examples=draws(40), suppress_health_check=[HealthCheck.too_slow])
@given(setup=trailers(), height=HEIGHTS)
def test_a_fixed_socket_is_clocked_as_near_as_any_pair_of_teeth(
    setup: bw.Setup, height: str
) -> None:
    """Rotations of all pairs of teeth, and the two that lie about the wanted height."""
    wanted = float(height[:-3])
    answer = bw.reindex(setup, wanted=bw.Wanted(height=height))
    arm, anchor = setup.bar.arm_end.teeth, setup.bar.anchor_end.teeth
    free = bw.ride(setup).free_angle
    assert free is not None
    needed = answer.free_angle
    assert needed is not None
    # How far each pair turns the free angle, and by how much it misses, the short way round.
    pairs = np.array(list(itertools.product(range(arm), range(anchor))))
    turned = free.m_as("degree") + pairs[:, 0] * 360.0 / arm - pairs[:, 1] * 360.0 / anchor
    missed = (turned - needed.m_as("degree") + 180.0) % 360.0 - 180.0
    plans = answer.plans + answer.rejected
    if plans:
        for plan in plans:
            reached = settled(bw.carry_out(setup, plan))
            assert math.isclose(reached, mm(plan.height), abs_tol=1e-6)
            assert abs(reached - wanted) <= mm(plan.height_rounding)
            assert abs(reached - wanted) < 0.6
        return
    # Where none is offered, no pair of teeth comes within half a millimetre.
    assert answer.verdict is bw.Verdict.OUT_OF_REACH
    finding = answer.findings[0]
    below, above = (int(np.argmin(np.where(s * missed > 0, s * missed, 360.0))) for s in (-1, 1))
    heights = sorted(
        settled(attrs.evolve(setup, arm_tooth=int(a), anchor_tooth=int(c)))
        for a, c in (pairs[below], pairs[above])
    )
    assert isinstance(finding.limit, bw.Quantity)
    assert isinstance(finding.upper, bw.Quantity)
    assert np.allclose([mm(finding.limit), mm(finding.upper)], heights, rtol=0.0, atol=1e-5)
    assert min(abs(height - wanted) for height in heights) > 0.49
