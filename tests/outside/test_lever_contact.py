"""Faces that rest on a round, against a multibody engine, tangents, energy and a frame."""

from __future__ import annotations

import math

import attrs
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from barwright.mechanics.anchorage.levers_without_pin import FaceContact, FixedAnchor, KeyLeverBolt
from draws import draws
from outside.anchorages import (
    along_the_face,
    clamped_torque,
    clearance,
    key_lever_frame,
    resting,
)

BOLTS = st.builds(
    KeyLeverBolt,
    line_distance=st.floats(0.04, 0.08),
    foot_angle=st.floats(-3.0, 3.0),
    foot_position=st.floats(0.03, 0.09),
    end_radius=st.floats(0.002, 0.012),
    face_offset=st.floats(-0.010, 0.020),
    face_start=st.floats(0.0, 0.03),
    face_end=st.floats(0.09, 0.12),
    lever_side=st.sampled_from([-1, 1]),
)
SHARES = st.floats(0.05, 0.95)
TORQUES = st.floats(100.0, 3000.0)


def within(anchorage: FaceContact, share: float) -> float:
    """Setting at a share of the reach."""
    low, high = anchorage.reach
    return low + share * (high - low)


def radius_of(anchorage: FaceContact) -> float:
    """Radius of the round."""
    assert isinstance(anchorage, KeyLeverBolt)
    return anchorage.end_radius


@settings(max_examples=draws(40))
@given(anchorage=BOLTS, share=SHARES)
def test_the_lever_stands_where_the_engine_finds_it_tangent(
    anchorage: FaceContact, share: float
) -> None:
    setting = within(anchorage, share)
    lever = resting(anchorage).lever(setting)

    turns = float(anchorage.lever_angle(setting)) - lever
    assert math.remainder(turns, 2.0 * math.pi) == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=draws(40))
@given(anchorage=BOLTS, share=SHARES)
def test_the_face_is_tangent_to_the_round_where_it_is_said_to_be(
    anchorage: FaceContact, share: float
) -> None:
    setting = within(anchorage, share)
    lever = float(anchorage.lever_angle(setting))
    centre = resting(anchorage).centre(setting)
    side, offset = anchorage.lever_side, anchorage.face_offset

    assert clearance(lever, centre, side=side, offset=offset) == pytest.approx(
        radius_of(anchorage), abs=1e-12
    )
    assert anchorage.contact_distance(lever) == pytest.approx(
        along_the_face(lever, centre, side=side, offset=offset), abs=1e-9
    )


@settings(max_examples=draws(40))
@given(anchorage=BOLTS, share=SHARES, torque=TORQUES)
def test_slope_arm_and_effort_are_those_of_the_engines_jacobians(
    anchorage: FaceContact, share: float, torque: float
) -> None:
    setting = within(anchorage, share)
    lever = float(anchorage.lever_angle(setting))
    engine = resting(anchorage)

    assert anchorage.slope(lever) == pytest.approx(engine.slope(lever, setting), rel=1e-8)
    assert anchorage.contact_distance(lever) == pytest.approx(engine.arm(lever, setting), rel=1e-8)
    assert anchorage.effort(torque, lever_angle=lever) == pytest.approx(
        engine.effort(torque, lever, setting), rel=1e-8
    )


@settings(max_examples=draws(15))
@given(anchorage=BOLTS, share=st.floats(0.2, 0.8), torque=TORQUES)
def test_a_spring_at_the_setting_comes_to_rest_under_the_effort(
    anchorage: FaceContact, share: float, torque: float
) -> None:
    """Bar and spring have the least energy together where both are in balance."""
    start = within(anchorage, share)
    there = float(anchorage.lever_angle(start))
    engine, low, high = resting(anchorage), *anchorage.reach
    bar = 20.0 * torque
    # Soft enough to give way by some thousandths of the reach.
    spring = abs(float(anchorage.effort(torque, lever_angle=there))) / (0.01 * (high - low))

    def energy(setting: float) -> float:
        turned = math.remainder(engine.lever(setting) - there, 2.0 * math.pi)
        return 0.5 * bar * (torque / bar - turned) ** 2 + 0.5 * spring * (setting - start) ** 2

    near = 0.05 * (high - low)
    found = minimize_scalar(
        energy, bounds=(start - near, start + near), method="bounded", options={"xatol": 1e-12}
    )
    lever = float(anchorage.lever_angle(found.x))
    left = torque - bar * (lever - there)
    assert spring * (found.x - start) == pytest.approx(
        float(anchorage.effort(left, lever_angle=lever)), rel=1e-4
    )


@settings(max_examples=draws(20))
@given(bolt=BOLTS, share=SHARES, torque=st.floats(-3000.0, 3000.0))
def test_a_key_lever_and_its_bolt_are_in_balance_as_a_frame(
    bolt: KeyLeverBolt, share: float, torque: float
) -> None:
    setting = within(bolt, share)
    lever = float(bolt.lever_angle(setting))
    frame = key_lever_frame(bolt, torque=torque, lever=lever, centre=resting(bolt).centre(setting))
    # Of the frame's matrices, on an arm of at least 10 mm.
    rounding = 1e-9 * max(1.0, abs(torque)) / 0.01

    assert bolt.effort(torque, lever_angle=lever) == pytest.approx(frame.tension, abs=rounding)
    assert bolt.side_thrust(torque, lever_angle=lever) == pytest.approx(frame.thrust, abs=rounding)


@settings(max_examples=draws(30))
@given(
    bolt=BOLTS,
    start=st.floats(0.03, 0.085),
    stretch=st.sampled_from([-1, 1]),
    share=st.floats(0.0, 1.0),
)
def test_within_its_reach_the_contact_is_on_the_face(
    bolt: KeyLeverBolt, start: float, stretch: int, share: float
) -> None:
    cut = attrs.evolve(bolt, face_start=start, stretch=stretch)
    setting = within(cut, share)
    lever = float(cut.lever_angle(setting))
    out = along_the_face(
        lever, resting(cut).centre(setting), side=cut.lever_side, offset=cut.face_offset
    )

    assert start - 1e-9 <= out <= cut.face_end + 1e-9


@settings(max_examples=draws(10))
@given(angle=st.floats(-3.0, 3.0), torque=TORQUES)
def test_a_fixed_anchor_takes_all_of_the_torque(angle: float, torque: float) -> None:
    anchor = FixedAnchor(anchor_angle=angle)
    clamp = clamped_torque(torque, lever=angle, radius=0.1)

    assert clamp == pytest.approx(torque - anchor.effort(torque, lever_angle=angle), rel=1e-9)


def test_arrays_of_all_questions_give_what_the_engine_gives_one_by_one() -> None:
    bolt = KeyLeverBolt(
        line_distance=0.05,
        foot_angle=0.1,
        foot_position=0.06,
        end_radius=0.006,
        face_offset=0.008,
        face_start=0.02,
        face_end=0.07,
        lever_side=-1,
    )
    ends = np.linspace(*bolt.reach, 9)
    engine = resting(bolt)

    assert bolt.lever_angle(ends) == pytest.approx([engine.lever(float(end)) for end in ends])
