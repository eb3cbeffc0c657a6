"""Laws of `barwright.mechanics.spline.involute`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.spline import involute

TEETH = st.integers(6, 100)
MODULES = st.floats(0.25e-3, 10e-3)
ANGLES = st.floats(0.1, 1.0)


@given(teeth=TEETH, module=MODULES, angle=st.floats(0.01, 1.5))
def test_base_circle_lies_inside_the_pitch_circle_and_meets_it_without_pressure_angle(
    teeth: int, module: float, angle: float
) -> None:
    spline = {"teeth": teeth, "module": module}
    circle = involute.pitch_diameter(**spline)

    assert 0.0 < involute.base_diameter(**spline, pressure_angle=angle) < circle
    assert involute.base_diameter(**spline, pressure_angle=0.0) == pytest.approx(circle)


@given(teeth=st.integers(1, 200))
def test_all_teeth_turn_once_round(teeth: int) -> None:
    assert teeth * involute.angular_pitch(teeth) == pytest.approx(math.tau, rel=1e-14)


@given(pitch=st.floats(50.0, 2000.0))
def test_module_and_diametral_pitch_are_reciprocals(pitch: float) -> None:
    assert involute.module_of(involute.module_of(pitch)) == pytest.approx(pitch, rel=1e-14)


@given(teeth=TEETH, module=MODULES)
def test_teeth_and_equal_spaces_fill_the_pitch_circle(teeth: int, module: float) -> None:
    around = math.pi * involute.pitch_diameter(teeth=teeth, module=module)

    assert 2 * teeth * involute.circular_tooth_thickness(module) == pytest.approx(around)


@given(angle=st.floats(0.01, 1.4))
def test_involute_function_rises_from_nothing_with_the_cube_of_the_angle(angle: float) -> None:
    assert involute.involute_function(0.0) == 0.0
    assert involute.involute_function(-angle) == -involute.involute_function(angle)
    # tan a - a = a³/3 + 2 a⁵/15 + …, all terms positive.
    assert involute.involute_function(angle) > angle**3 / 3.0
    assert involute.involute_function(0.01) == pytest.approx(0.01**3 / 3.0, rel=1e-4)


@given(base=st.floats(0.005, 0.1), angle=st.floats(0.0, 1.5))
def test_pressure_angle_undoes_the_base_circle(base: float, angle: float) -> None:
    found = involute.pressure_angle_at(base / math.cos(angle), base_diameter=base)

    assert math.cos(float(found)) == pytest.approx(math.cos(angle), rel=1e-12)


def test_pressure_angle_is_nothing_on_the_base_circle_itself() -> None:
    assert involute.pressure_angle_at(0.026, base_diameter=0.026) == 0.0


@pytest.mark.parametrize(
    ("diameter", "shown"), [(0.0259, "0.0259"), (-0.03, "-0.03"), (math.nan, "nan")]
)
def test_circle_without_an_involute_is_refused(diameter: float, shown: str) -> None:
    with pytest.raises(QuantityError) as caught:
        involute.pressure_angle_at(np.array([0.030, diameter]), base_diameter=0.026)

    assert caught.value.fields == {
        "code": "Q302",
        "value": shown,
        "expected": "a circle that does not lie inside the base circle",
        "remedy": "give a diameter on the flanks of the teeth",
        "key": "diameter",
        "file": "",
        "line": 0,
    }


@given(teeth=TEETH, module=MODULES, angle=ANGLES, thickness=st.floats(0.2, 1.4))
def test_tooth_is_as_thick_as_said_on_the_pitch_circle_and_thinner_outside(
    teeth: int, module: float, angle: float, thickness: float
) -> None:
    tooth = {"teeth": teeth, "module": module, "pressure_angle": angle}
    t, circle = thickness * module, teeth * module

    here = involute.tooth_thickness_at(circle, tooth_thickness=t, **tooth)
    outside = involute.tooth_thickness_at(circle * 1.02, tooth_thickness=t, **tooth)
    assert here == pytest.approx(t, rel=1e-9)
    assert outside / (circle * 1.02) < t / circle


def test_flank_of_a_tooth_leaves_the_base_circle_along_the_radius() -> None:
    tooth = {"teeth": 40, "module": 0.75, "pressure_angle": math.radians(30.0)}
    base = float(involute.base_diameter(**tooth))
    angles = [
        float(involute.tooth_thickness_at(base * out, tooth_thickness=1.2, **tooth)) / (base * out)
        for out in (1.0, 1.0001, 1.0004)
    ]

    # Half of the angle goes with the power 3/2 of the way out, hence 8 times for 4.
    assert (angles[0] - angles[2]) / (angles[0] - angles[1]) == pytest.approx(8.0, rel=1e-3)


@given(inner=st.floats(0.01, 0.05), outer=st.floats(0.01, 0.05))
def test_gap_and_contact_are_one_length_with_two_signs(inner: float, outer: float) -> None:
    gap = involute.radial_clearance(inner_diameter=inner, outer_diameter=outer)
    depth = involute.contact_depth(major_diameter=inner, minor_diameter=outer)

    assert inner + 2.0 * gap == pytest.approx(outer, rel=1e-14)
    assert depth == -gap


def test_gap_and_contact_are_half_of_the_difference() -> None:
    assert involute.radial_clearance(inner_diameter=30.0, outer_diameter=30.5) == 0.25
    assert involute.contact_depth(major_diameter=30.5, minor_diameter=29.0) == 0.75


def test_lengths_of_a_table_are_those_of_its_elements() -> None:
    teeth, modules = np.array([24.0, 40.0]), np.array([[0.5e-3], [0.75e-3], [1.0e-3]])
    angle = math.radians(30.0)

    def thickness(**spline: Any) -> Any:
        circle = involute.pitch_diameter(**spline)
        tooth = {"pressure_angle": angle, "tooth_thickness": 0.001}
        return involute.tooth_thickness_at(1.01 * circle, **spline, **tooth)

    def base(**spline: Any) -> Any:
        return involute.base_diameter(**spline, pressure_angle=angle)

    for length in (thickness, base, involute.pitch_diameter):
        table = np.asarray(length(teeth=teeth, module=modules))
        assert table.shape == (3, 2)
        for (row, column), entry in np.ndenumerate(table):
            alone = length(teeth=teeth[column], module=modules[row, 0])
            assert entry == pytest.approx(alone, rel=1e-14)


@pytest.mark.parametrize(
    "length", [involute.pitch_diameter, involute.radial_clearance, involute.contact_depth]
)
def test_arguments_are_keyword_only(length: Callable[..., Any]) -> None:
    with pytest.raises(TypeError):
        length(40, 0.001)
