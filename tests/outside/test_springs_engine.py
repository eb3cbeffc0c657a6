"""Springs beside the bar against a multibody engine, and against energy from raw geometry."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.corner.statics import wheel_load, wheel_rate
from barwright.mechanics.linkage.arm_and_strut import SwingArm
from draws import draws
from outside.corners import Energy, Engine, table_force

ARMS = st.builds(
    SwingArm,
    load_point=st.tuples(st.floats(0.35, 0.6), st.floats(-0.3, 0.1)),
    hub_point=st.tuples(st.floats(0.35, 0.6), st.floats(-0.1, 0.1)),
    damper_foot=st.tuples(st.floats(0.15, 0.35), st.floats(-0.05, 0.05)),
    damper_mount=st.tuples(st.floats(0.05, 0.40), st.floats(0.45, 0.70)),
)
ANGLES = st.floats(-0.5, 0.5)
GASES = st.builds(
    GasForce,
    force=st.floats(0.0, 400.0),
    at_length=st.floats(0.4, 0.6),
    slope=st.floats(-1500.0, -1.0),
)
BUSHINGS = st.builds(Bushing, rate=st.floats(1.0, 400.0), tightened_at=st.floats(-0.5, 0.3))
COILS = st.builds(
    HelperSpring,
    rate=st.floats(5e3, 4e4),
    free_length=st.floats(0.2, 0.45),
    seat_offset=st.floats(0.0, 0.3),
)
OWN_COILS = st.builds(
    HelperSpring,
    rate=st.floats(5e3, 4e4),
    free_length=st.floats(0.2, 0.45),
    arm_point=st.tuples(st.floats(0.1, 0.3), st.floats(-0.05, 0.05)),
    chassis_point=st.tuples(st.floats(-0.1, 0.4), st.floats(0.2, 0.4)),
)


@st.composite
def tables(draw: st.DrawFn) -> dict[str, Any]:
    """Tables of stops, whose rate rises as the engine's tendons can only add up."""
    steps = draw(st.lists(st.floats(0.003, 0.02), min_size=1, max_size=4))
    more = draw(st.lists(st.floats(1e4, 2e5), min_size=len(steps), max_size=len(steps)))
    forces = np.cumsum(np.cumsum(more) * steps)
    return {
        "compressions": (0.0, *(float(c) for c in np.cumsum(steps))),
        "forces": (0.0, *(float(f) for f in forces)),
    }


@st.composite
def stops(draw: st.DrawFn, place: str) -> BumpStop:
    """Stops that meet arm, hub or rod somewhere in their travel."""
    where: dict[str, Any] = {
        "at_length": {"at_length": draw(st.floats(0.4, 0.6))},
        "at_height": {"at_height": draw(st.floats(-0.1, 0.2))},
        "at_angle": {
            "at_angle": draw(st.floats(-0.2, 0.4)),
            "radius": draw(st.floats(0.1, 0.4)),
        },
    }[place]
    return BumpStop(**draw(tables()), **where)


IN_THE_ENGINE = st.one_of(GASES, BUSHINGS, COILS, OWN_COILS, stops("at_length"), stops("at_angle"))
EVERY_KIND = st.one_of(IN_THE_ENGINE, stops("at_height"))


@settings(max_examples=draws(60))
@given(arm=ARMS, spring=IN_THE_ENGINE, angle=ANGLES)
def test_torque_of_a_spring_is_what_the_engine_feels(
    arm: SwingArm, spring: Spring, angle: float
) -> None:
    torque, _ = spring.hold(arm.motion(angle))

    assert float(torque) == pytest.approx(Engine(arm, [spring]).holds(angle), rel=1e-9, abs=1e-9)


@settings(max_examples=draws(60))
@given(arm=ARMS, stop=stops("at_height"), angle=ANGLES)
def test_torque_of_a_stop_at_the_hub_is_its_force_over_the_lever_of_the_engine(
    arm: SwingArm, stop: BumpStop, angle: float
) -> None:
    engine = Engine(arm)
    pressed = max(engine.hub_height(angle) - float(stop.at_height or 0.0), 0.0)
    expected = table_force(stop, pressed) * engine.lever(angle, hub=True)

    assert float(stop.hold(arm.motion(angle))[0]) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@settings(max_examples=draws(60))
@given(arm=ARMS, springs=st.lists(EVERY_KIND, min_size=1, max_size=4), angle=ANGLES)
def test_torque_of_all_springs_is_the_slope_of_their_energy(
    arm: SwingArm, springs: list[Spring], angle: float
) -> None:
    energy = Energy(arm=arm, rate=0.0, free=0.0, load=0.0, springs=springs)
    step = 2e-6
    slope = float(energy(angle + step) - energy(angle - step)) / (2.0 * step)
    held = sum(float(spring.hold(arm.motion(angle))[0]) for spring in springs)

    # A corner of a table within the step is blurred by its change of rate times the step.
    assert held == pytest.approx(slope, rel=1e-6, abs=0.6)


@settings(max_examples=draws(80))
@given(arm=ARMS, spring=EVERY_KIND, angle=ANGLES)
def test_stiffness_of_a_spring_is_the_slope_of_its_torque(
    arm: SwingArm, spring: Spring, angle: float
) -> None:
    step = 1e-5
    beside = [float(spring.hold(arm.motion(angle + n * step))[1]) for n in (-1, 1)]
    low, high = (float(spring.hold(arm.motion(angle + n * step))[0]) for n in (-1, 1))
    slope = (high - low) / (2.0 * step)

    # Where the rate jumps within the step, the slope lies between both.
    assert min(beside) - 0.01 <= slope <= max(beside) + 0.01
    stiffness = float(spring.hold(arm.motion(angle))[1])
    assert min(beside) - 1.0 <= stiffness <= max(beside) + 1.0


@settings(max_examples=draws(40))
@given(arm=ARMS, springs=st.lists(EVERY_KIND, max_size=3), angle=ANGLES, wound=st.floats(0.1, 0.6))
def test_load_and_rate_at_the_wheel_follow_from_energy(
    arm: SwingArm, springs: list[Spring], angle: float, wound: float
) -> None:
    # Along the path of the wheel: what the load does is what is stored.
    rate = 3600.0
    energy = Energy(arm=arm, rate=rate, free=angle - wound, load=0.0, springs=springs)
    angles = angle + 1e-5 * np.arange(-20, 21)
    motions = [arm.motion(float(a)) for a in angles]
    loads = [
        float(wheel_load(m, torque=rate * (a - angle + wound), springs=springs))
        for a, m in zip(angles, motions, strict=True)
    ]
    heights = [float(m.load.height) for m in motions]
    work = np.trapezoid(loads, heights)
    stored = float(energy(angles[-1]) - energy(angles[0]))
    assert work == pytest.approx(stored, rel=1e-5, abs=3e-5)

    rates = [
        float(wheel_rate(m, rate=rate, load=load, springs=springs))
        for m, load in zip(motions, loads, strict=True)
    ]
    secant = (loads[-1] - loads[0]) / (heights[-1] - heights[0])
    assert min(rates) * (1 - 1e-4) - 1.0 <= secant <= max(rates) * (1 + 1e-4) + 1.0
