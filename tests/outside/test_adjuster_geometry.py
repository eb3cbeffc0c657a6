"""The adjuster's triangle against points in the plane, root finding and moments."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
import scipy.optimize
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from barwright.errors import GeometryError
from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from draws import draws
from each_case import each_case

BOLTS = st.builds(
    SwivellingBolt,
    pivot_distance=st.floats(0.05, 0.30),
    pivot_angle=st.floats(-3.0, 3.0),
    lever_radius=st.floats(0.05, 0.30),
    lever_side=st.sampled_from([-1, 1]),
)
# How far the triangle is open at the bar axis, from the bolt's pivot to the lever.
OPENINGS = st.floats(0.1, 3.0)


def _point(radius: float, angle: float) -> NDArray[np.float64]:
    """Place of a point at a radius from the bar axis."""
    return radius * np.array([math.cos(angle), math.sin(angle)])


def _distance(bolt: SwivellingBolt, angle: float) -> float:
    """From the bolt's pivot to the lever's pin, by their coordinates."""
    pin = _point(bolt.lever_radius, angle)
    return math.dist(pin, _point(bolt.pivot_distance, bolt.pivot_angle))


@settings(max_examples=draws(60))
@given(bolt=BOLTS, opening=OPENINGS)
def test_lever_stands_where_its_pin_is_at_the_distance(
    bolt: SwivellingBolt, opening: float
) -> None:
    distance = _distance(bolt, bolt.pivot_angle + bolt.lever_side * opening)
    root = scipy.optimize.brentq(
        lambda open_: _distance(bolt, bolt.pivot_angle + bolt.lever_side * open_) - distance,
        0.0,
        math.pi,
        xtol=1e-14,
    )
    angle = bolt.lever_angle(distance)

    assert angle == pytest.approx(bolt.pivot_angle + bolt.lever_side * root, abs=1e-10)
    assert bolt.pin_distance(angle) == pytest.approx(distance, rel=1e-12)


@settings(max_examples=draws(60))
@given(bolt=BOLTS, opening=OPENINGS)
def test_slope_is_that_of_differences(bolt: SwivellingBolt, opening: float) -> None:
    angle, step = bolt.pivot_angle + bolt.lever_side * opening, 1e-3
    weights = np.array([1.0, -8.0, 8.0, -1.0]) / (12.0 * step)
    around = [_distance(bolt, angle + n * step) for n in (-2, -1, 1, 2)]

    # The fourth-order error stays below 1e-8 m/rad for a side of 5 mm or more.
    assert bolt.slope(angle) == pytest.approx(weights @ np.array(around), abs=2e-8)


@settings(max_examples=draws(60))
@given(bolt=BOLTS, opening=OPENINGS, torque=st.floats(-3000.0, 3000.0))
def test_bolt_holds_the_lever_in_balance(
    bolt: SwivellingBolt, opening: float, torque: float
) -> None:
    angle = bolt.pivot_angle + bolt.lever_side * opening
    pin = _point(bolt.lever_radius, angle)
    pull = _point(bolt.pivot_distance, bolt.pivot_angle) - pin
    tension = float(bolt.effort(torque, lever_angle=angle))
    force = tension * pull / math.hypot(*pull)
    # The arm is pushed down by the torque, so that the lever is turned in the bump sense.
    moment = pin[0] * force[1] - pin[1] * force[0]

    assert moment + torque == pytest.approx(0.0, abs=1e-9 * max(1.0, abs(torque)))


@settings(max_examples=draws(30))
@given(bolt=BOLTS)
def test_longer_bolt_opens_the_triangle(bolt: SwivellingBolt) -> None:
    shortest = abs(bolt.pivot_distance - bolt.lever_radius)
    longest = bolt.pivot_distance + bolt.lever_radius
    distances = shortest + (longest - shortest) * np.linspace(0.05, 0.95, 20)

    assert np.all(bolt.lever_side * np.diff(bolt.lever_angle(distances)) > 0.0)


@each_case(
    "side, distance", itertools.product([-1, 1], [0.049, 0.05, 0.25, 0.251, math.nan, -0.01])
)
def test_refuses_lengths_that_form_no_triangle(side: int, distance: float) -> None:
    bolt = SwivellingBolt(pivot_distance=0.15, pivot_angle=0.3, lever_radius=0.10, lever_side=side)
    with pytest.raises(GeometryError) as caught:
        bolt.lever_angle(distance)

    assert caught.value.code == "G102"
    assert caught.value.expected == "50.0 mm to 250.0 mm"


def test_refuses_an_array_with_one_distance_that_forms_no_triangle() -> None:
    bolt = SwivellingBolt(pivot_distance=0.15, pivot_angle=0.3, lever_radius=0.10, lever_side=1)
    with pytest.raises(GeometryError):
        bolt.lever_angle(np.array([0.1, 0.2, 0.3]))


LINES = st.builds(
    FixedLineBolt,
    line_distance=st.floats(0.05, 0.15),
    foot_angle=st.floats(-3.0, 3.0),
    foot_position=st.floats(0.10, 0.20),
    lever_radius=st.floats(0.16, 0.30),
    lever_side=st.sampled_from([-1, 1]),
)


def _on_line(bolt: FixedLineBolt, distance: float) -> tuple[float, float]:
    """A pin on the fixed line, built from the foot of the perpendicular."""
    along = bolt.lever_side * (distance - bolt.foot_position)
    foot = _point(bolt.line_distance, bolt.foot_angle)
    unit = _point(1.0, bolt.foot_angle + math.pi / 2.0)
    return foot[0] + along * unit[0], foot[1] + along * unit[1]


@given(bolt=LINES, share=st.floats(0.02, 0.98))
def test_a_lever_points_at_its_pin_on_the_fixed_line(bolt: FixedLineBolt, share: float) -> None:
    low, high = bolt.reach
    distance = low + share * (high - low)
    lever = float(bolt.lever_angle(distance))
    pin = _on_line(bolt, distance)
    assert math.hypot(*pin) <= bolt.lever_radius + 1e-12
    across = math.cos(lever) * pin[1] - math.sin(lever) * pin[0]
    assert math.isclose(across, 0.0, abs_tol=1e-12)
    assert math.isclose(float(bolt.pin_distance(lever)), distance, rel_tol=1e-9)


@given(bolt=LINES, share=st.floats(0.05, 0.95), torque=st.floats(100.0, 3000.0))
def test_a_bolt_on_a_fixed_line_is_in_equilibrium_with_a_smooth_pin(
    bolt: FixedLineBolt, share: float, torque: float
) -> None:
    low, high = bolt.reach
    distance = low + share * (high - low)
    lever = float(bolt.lever_angle(distance))
    pin = _on_line(bolt, distance)
    # The pin pushes square to the lever; along the bolt goes only a part of that.
    normal = torque / math.hypot(*pin)
    push = (-math.sin(lever) * normal, math.cos(lever) * normal)
    unit = _point(1.0, bolt.foot_angle + math.pi / 2.0)
    along = bolt.lever_side * (push[0] * unit[0] + push[1] * unit[1])
    assert math.isclose(
        float(bolt.slope(lever)), bolt.lever_side * _slope(bolt, lever), rel_tol=1e-6
    )
    by_work = float(bolt.effort(torque, lever_angle=lever))
    # Square to its own line the bolt is held by its bracket, and the lever's
    # pin slides: the axial force is what the pin's push has along the line.
    assert math.isclose(by_work, along, rel_tol=1e-9)


def _slope(bolt: FixedLineBolt, lever: float) -> float:
    step = 1e-6
    ends = (float(bolt.pin_distance(lever + side * step)) for side in (1.0, -1.0))
    high, low = ends
    return bolt.lever_side * (high - low) / (2.0 * step)


def test_a_lever_short_of_the_line_has_no_reach() -> None:
    bolt = FixedLineBolt(
        line_distance=0.2, foot_angle=0.0, foot_position=0.1, lever_radius=0.1, lever_side=1
    )
    assert bolt.reach == (0.1, 0.1)
