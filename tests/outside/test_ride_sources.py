"""Ride, damping and anti-roll bars against print, engines and integration in time.

A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import scipy.linalg
import scipy.optimize
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from barwright.mechanics.corner.damping import damping_ratio, required_damper_rate, wheel_damping
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from barwright.mechanics.vehicle.quarter_vehicle import quarter_vehicle_modes
from barwright.mechanics.vehicle.ride import (
    anti_roll_bar,
    natural_frequency,
    ride_rate,
)
from draws import draws
from outside.corners import Engine
from outside.oscillations import AntiRollFrame, Decay, roots

RATES = st.floats(8e3, 6e4)
TYRES = st.floats(1e5, 4e5)
BODIES = st.floats(100.0, 800.0)
WHEELS = st.floats(15.0, 90.0)


def test_wheel_hop_of_barton_and_fieldhouse() -> None:
    # Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 213: 20.63 kN/m and
    # 300 kN/m hold 40 kg, hop 14.25 Hz with the body held, as one of a million tonnes is.
    held = quarter_vehicle_modes(
        sprung_mass=1e9, unsprung_mass=40.0, wheel_rate=20.63e3, tyre_rate=300e3
    )

    assert held.hop.frequency == pytest.approx(14.25, abs=0.005)


@settings(max_examples=draws(10))
@given(rate=RATES, mass=BODIES)
def test_mass_swings_at_its_natural_frequency(rate: float, mass: float) -> None:
    swing = Decay(rate=rate, mass=mass)

    assert natural_frequency(rate=rate, mass=mass) == pytest.approx(swing.frequency(), rel=1e-9)


@settings(max_examples=draws(10))
@given(rate=RATES, mass=BODIES, damping=st.floats(100.0, 3000.0))
def test_swing_dies_away_as_its_damping_ratio_says(
    rate: float, mass: float, damping: float
) -> None:
    ratio = damping_ratio(damping=damping, rate=rate, mass=mass)
    assume(ratio < 0.6)

    assert ratio == pytest.approx(Decay(rate=rate, mass=mass, damping=damping).ratio(), rel=1e-8)


@settings(max_examples=draws(5))
@given(ratio=st.floats(0.1, 0.5), motion=st.floats(0.4, 1.2))
def test_damper_that_a_search_in_time_finds_is_the_one_required(
    ratio: float, motion: float
) -> None:
    rate, mass = 20_000.0, 350.0

    def too_much(damper: float) -> float:
        return Decay(rate=rate, mass=mass, damping=damper * motion**2).ratio() - ratio

    found = scipy.optimize.brentq(too_much, 10.0, 3400.0 / motion**2, xtol=1e-7)
    needed = required_damper_rate(damping_ratio=ratio, rate=rate, mass=mass, motion_ratio=motion)
    assert needed == pytest.approx(found, rel=1e-7)


@settings(max_examples=draws(20))
@given(angle=st.floats(-0.3, 0.4), rate=st.floats(500.0, 5000.0))
def test_damper_at_the_wheel_takes_the_engine_s_power(angle: float, rate: float) -> None:
    arm = SwingArm(
        load_point=(0.42, -0.28),
        hub_point=(0.42, 0.01),
        damper_foot=(0.31, -0.03),
        damper_mount=(0.24, 0.52),
    )
    engine = Engine(arm, damper=rate)
    at_wheel = wheel_damping(damper_rate=rate, motion_ratio=arm.motion(angle).motion_ratio)

    assert at_wheel == pytest.approx(engine.damping(angle) / engine.lever(angle) ** 2, rel=1e-9)


@given(wheel=RATES, tyre=TYRES, mass=BODIES)
def test_ride_frequency_is_that_of_an_eigenvalue(wheel: float, tyre: float, mass: float) -> None:
    # Sprung mass and a wheel without mass, on wheel rate and tyre.
    stiffness = np.array([[wheel, -wheel], [-wheel, wheel + tyre]])
    # As a flexibility problem the wheel may have no mass at all.
    flexibility = scipy.linalg.inv(stiffness) @ np.diag([mass, 0.0])
    slowest = np.max(scipy.linalg.eigvals(flexibility).real)
    frequency = natural_frequency(rate=ride_rate(wheel_rate=wheel, tyre_rate=tyre), mass=mass)

    assert frequency == pytest.approx(1.0 / (math.tau * math.sqrt(slowest)), rel=1e-10)


@given(sprung=BODIES, unsprung=WHEELS, wheel=RATES, tyre=TYRES)
def test_undamped_modes_are_those_of_mass_and_stiffness(
    sprung: float, unsprung: float, wheel: float, tyre: float
) -> None:
    modes = quarter_vehicle_modes(
        sprung_mass=sprung, unsprung_mass=unsprung, wheel_rate=wheel, tyre_rate=tyre
    )
    stiffness = np.array([[wheel, -wheel], [-wheel, wheel + tyre]])
    squares = scipy.linalg.eigh(stiffness, np.diag([sprung, unsprung]), eigvals_only=True)

    found = [float(mode.frequency) for mode in (modes.body_mode, modes.hop)]
    assert found == pytest.approx(list(np.sqrt(squares) / math.tau), rel=1e-10)


@settings(max_examples=draws(25))
@given(sprung=BODIES, unsprung=WHEELS, wheel=RATES, tyre=TYRES, damping=st.floats(0.0, 9e3))
def test_damped_modes_are_the_roots_of_the_lagrangian(
    sprung: float, unsprung: float, wheel: float, tyre: float, damping: float
) -> None:
    modes = quarter_vehicle_modes(
        sprung_mass=sprung,
        unsprung_mass=unsprung,
        wheel_rate=wheel,
        tyre_rate=tyre,
        damping=damping,
    )
    mine = [
        math.tau
        * float(mode.frequency)
        * complex(-float(mode.damping_ratio), math.sqrt(1.0 - float(mode.damping_ratio) ** 2))
        for mode in (modes.body_mode, modes.hop)
        if float(mode.damping_ratio) < 1.0
    ]
    swinging = [root for root in roots(sprung, unsprung, wheel, tyre, damping) if root.imag > 1e-6]
    swinging.sort(key=abs)

    # Next to critical a root goes with the square root of what it is asked of.
    assume(all(root.imag > 1e-2 for root in swinging))
    assert sorted(mine, key=abs) == pytest.approx(swinging, rel=1e-6)


# -- Anti-roll bar ------------------------------------------------------------------------

FRAMES = st.builds(
    AntiRollFrame,
    span=st.floats(0.7, 1.2),
    arm=st.floats(0.15, 0.40),
    body_diameter=st.floats(0.016, 0.030),
    arm_diameter=st.floats(0.014, 0.030),
)


@settings(max_examples=draws(10))
@given(frame=FRAMES)
def test_anti_roll_bar_is_as_stiff_as_a_frame_of_beams(frame: AntiRollFrame) -> None:
    bar = anti_roll_bar(
        torsional_rate=frame.torsional_rate, arm_length=frame.arm, arm_rate=frame.arm_rate
    )
    up = 1e-3

    assert bar.one_wheel_rate == pytest.approx(frame.link_force(up, 0.0) / up, rel=1e-9)
    assert bar.both_wheels_rate == pytest.approx(frame.link_force(up, -up) / up, rel=1e-9)
    assert frame.link_force(up, up) / up == pytest.approx(0.0, abs=1e-6 * frame.arm_rate)


@settings(max_examples=draws(10))
@given(frame=FRAMES, motion=st.floats(0.4, 1.0), track=st.floats(1.2, 1.7))
def test_moment_in_roll_is_that_of_both_wheels(
    frame: AntiRollFrame, motion: float, track: float
) -> None:
    bar = anti_roll_bar(
        torsional_rate=frame.torsional_rate,
        arm_length=frame.arm,
        arm_rate=frame.arm_rate,
        motion_ratio=motion,
    )
    # A body that rolls by a milliradian moves each wheel by half of the track times it.
    roll = 1e-3
    travel = roll * track / 2.0
    force = motion * frame.link_force(motion * travel, -motion * travel)

    assert bar.roll_rate(track=track) == pytest.approx(force * track / roll, rel=1e-9)


def test_stiff_arms_are_those_of_a_frame_that_hardly_bends() -> None:
    frame = AntiRollFrame(span=1.0, arm=0.3, body_diameter=0.020, arm_diameter=0.4)
    bar = anti_roll_bar(torsional_rate=frame.torsional_rate, arm_length=0.3)

    assert bar.one_wheel_rate == pytest.approx(frame.link_force(1e-3, 0.0) / 1e-3, rel=1e-4)
