"""Whole corners against a general multibody engine, which knows none of our formulas.

The engine's x is outboard and its z up; hinges turn about -y, so that a positive
angle lifts the arm.  The load is a point mass in a field that pulls upward; all
other bodies are taken out of that field.
"""

from __future__ import annotations

import math

import attrs
import mujoco
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.corner.springs import GasForce
from barwright.mechanics.corner.statics import STANDARD_GRAVITY, settle, wheel_load, wheel_rate
from barwright.mechanics.linkage.arm_and_strut import Strut
from barwright.mechanics.vehicle.ride import natural_frequency
from draws import draws
from linkages import ARM, STRUT
from outside.corners import Engine, damping_for

GAS = GasForce(force=260.0, at_length=0.50, slope=-700.0)
SPRINGS: list[list[GasForce]] = [[], [GAS]]
WITHOUT_AND_WITH = pytest.mark.parametrize("springs", SPRINGS, ids=["without gas", "with gas"])


def _at_rest(model: mujoco.MjModel, *, steps: int) -> mujoco.MjData:
    """Let a damped mechanism come to rest."""
    data = mujoco.MjData(model)
    mujoco.mj_step(model, data, steps)
    assert np.max(np.abs(data.qvel)) < 1e-7
    mujoco.mj_forward(model, data)
    return data


@settings(max_examples=draws(10))
@given(
    rate=st.floats(2500.0, 6000.0),
    free=st.floats(-0.6, -0.2),
    load=st.floats(1200.0, 3800.0),
    springs=st.sampled_from(SPRINGS),
)
def test_swing_arm_comes_to_rest_at_the_same_angle(
    rate: float, free: float, load: float, springs: list[GasForce]
) -> None:
    # Near critical damping, so that it comes to rest within five seconds.
    mass = load / STANDARD_GRAVITY
    damping = damping_for(mass, ARM, rate)
    engine = Engine(ARM, springs, rate=rate, free=free, mass=mass, damping=damping)
    rest = _at_rest(engine.model, steps=5000).qpos[0]

    found = settle(
        ARM, free_angle=free, rate=rate, load=load, droop=-0.7, bump=1.5, springs=springs
    )
    assert found.angle == pytest.approx(rest, abs=1e-7)


@WITHOUT_AND_WITH
def test_swing_arm_swings_at_the_frequency_of_its_wheel_rate(springs: list[GasForce]) -> None:
    rate, free, load = 3600.0, -0.35, 2600.0
    angle = settle(
        ARM, free_angle=free, rate=rate, load=load, droop=-0.7, bump=1.0, springs=springs
    ).angle
    engine = Engine(ARM, springs, rate=rate, free=free, mass=load / STANDARD_GRAVITY)
    engine.data.qpos[0] = angle + 1e-4
    swing = np.empty(4000)
    for step in range(swing.size):
        swing[step] = engine.data.qpos[0] - angle
        engine.run(0.001)
    # Moments of falling through the middle, between two samples by a straight line.
    before = np.flatnonzero((swing[:-1] > 0.0) & (swing[1:] <= 0.0))
    moments = 0.001 * (before + swing[before] / (swing[before] - swing[before + 1]))
    counted = (moments.size - 1) / (moments[-1] - moments[0])

    motion = ARM.motion(angle)
    at_the_wheel = load / STANDARD_GRAVITY * (0.42**2 + 0.28**2) / motion.load.slope**2
    stiffness = wheel_rate(motion, rate=rate, load=load, springs=springs)
    assert natural_frequency(rate=stiffness, mass=at_the_wheel) == pytest.approx(counted, rel=1e-5)


def _strut_corner(
    strut: Strut, *, rate: float, free: float, load: float, springs: list[GasForce]
) -> mujoco.MjModel:
    """Build arm and carrier as a closed chain, with the reference position as start."""
    reference = strut.reference_angle
    joint = (
        strut.arm_radius * math.cos(reference),
        strut.arm_radius * math.sin(reference),
    )
    across, up = strut.top_mount[0] - joint[0], strut.top_mount[1] - joint[1]
    length = math.sqrt(across**2 + up**2 - strut.offset**2)
    # The strut's direction, from the right-angled triangle of offset and length.
    square = across**2 + up**2
    along = (
        (length * across - strut.offset * up) / square,
        (length * up + strut.offset * across) / square,
    )
    load_at = (joint[0] + strut.load_point[0], joint[1] + strut.load_point[1])
    hub_at = (joint[0] + strut.hub_point[0], joint[1] + strut.hub_point[1])
    top_x, top_z = strut.top_mount
    # The slide starts at 0 where the damper has its reference length.
    gas = springs[0] if springs else GasForce(force=0.0, at_length=0.0, slope=0.0)
    gas_free = 0.0
    if gas.slope:
        gas_free = float(gas.at_length - gas.force / gas.slope) - (
            length + float(strut.length_below)
        )
    light = 'mass="1" diaginertia="0.01 0.01 0.01"'
    return mujoco.MjModel.from_xml_string(f"""
    <mujoco>
      <compiler angle="radian"/>
      <option gravity="0 0 {STANDARD_GRAVITY!r}" timestep="0.0005" integrator="implicitfast"
              tolerance="1e-14" iterations="200"/>
      <worldbody>
        <body name="arm" gravcomp="1">
          <joint name="bar" type="hinge" axis="0 -1 0" stiffness="{rate!r}"
                 springref="{free - reference!r}" damping="400"/>
          <inertial pos="{joint[0]!r} 0 {joint[1]!r}" {light}/>
        </body>
        <body name="top" pos="{top_x!r} 0 {top_z!r}" gravcomp="1">
          <joint type="hinge" axis="0 -1 0"/>
          <inertial pos="0 0 0" {light}/>
          <body name="carrier" pos="{-top_x!r} 0 {-top_z!r}">
            <joint name="damper" type="slide" axis="{-along[0]!r} 0 {-along[1]!r}"
                   stiffness="{-gas.slope!r}" springref="{gas_free!r}"/>
            <inertial pos="{load_at[0]!r} 0 {load_at[1]!r}"
                      mass="{load / STANDARD_GRAVITY!r}" diaginertia="1 1 1"/>
            <site name="hub" pos="{hub_at[0]!r} 0 {hub_at[1]!r}"/>
          </body>
        </body>
      </worldbody>
      <equality>
        <connect body1="arm" body2="carrier" anchor="{joint[0]!r} 0 {joint[1]!r}"
                 solref="0.001 1" solimp="0.9999 0.9999 0.001"/>
      </equality>
    </mujoco>
    """)


@WITHOUT_AND_WITH
@pytest.mark.parametrize("offset", [-0.04, 0.05])
@pytest.mark.parametrize("free", [-0.5, -0.25])
def test_strut_corner_comes_to_rest_at_the_same_height(
    offset: float, free: float, springs: list[GasForce]
) -> None:
    strut = attrs.evolve(STRUT, offset=offset)
    rate, load = 3800.0, 2700.0
    model = _strut_corner(strut, rate=rate, free=free, load=load, springs=springs)
    data = _at_rest(model, steps=8000)
    angle = settle(
        strut, free_angle=free, rate=rate, load=load, droop=-0.9, bump=0.9, springs=springs
    ).angle
    motion = strut.motion(angle)
    hub = data.site("hub").xpos

    # The engine's closed chain gives way a little under load.
    assert angle == pytest.approx(data.joint("bar").qpos[0] - 0.05, abs=1e-5)
    assert (motion.hub.outboard, motion.hub.height) == pytest.approx((hub[0], hub[2]), abs=1e-5)
    length = strut.motion(-0.05).damper_length + data.joint("damper").qpos[0]
    assert motion.damper_length == pytest.approx(length, abs=1e-5)


def test_load_that_the_engine_needs_is_the_wheel_load() -> None:
    # An arm held still: what bar and gas put on the hinge, over the lever.
    rate, free, angle = 3600.0, -0.35, 0.2
    engine = Engine(ARM, [GAS], rate=rate, free=free)
    needed = engine.holds(angle) / engine.lever(angle)

    motion = ARM.motion(angle)
    assert wheel_load(motion, torque=rate * (angle - free), springs=[GAS]) == pytest.approx(
        needed, rel=1e-12
    )
