"""Laws of `barwright.mechanics.involute`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics import involute
from barwright.mechanics.involute import RootForm
from barwright.mechanics.types import Real

METRIC = [
    involute.internal_major_diameter,
    involute.external_major_diameter,
    involute.external_minor_diameter,
]
INCH = [
    involute.inch_external_major_diameter,
    involute.inch_internal_major_diameter,
    involute.inch_internal_minor_diameter,
    involute.inch_external_minor_diameter,
]
TEETH = st.integers(6, 100)
MODULES = st.floats(0.25e-3, 10e-3)
PITCHES = st.sampled_from([2.5, 4.0, 8.0, 12.0, 16.0, 24.0, 48.0]).map(lambda p: p / 0.0254)


def metric(diameter: Callable[..., Real], **spline: Any) -> float:
    return float(diameter(**spline))


@pytest.mark.parametrize("form", RootForm)
@given(teeth=TEETH, module=MODULES)
def test_diameters_of_a_metric_spline_lie_in_order(
    form: RootForm, teeth: int, module: float
) -> None:
    spline = {"teeth": teeth, "module": module, "root_form": form}
    minor = metric(involute.external_minor_diameter, **spline)
    major = metric(involute.external_major_diameter, **spline)
    socket = metric(involute.internal_major_diameter, **spline)

    assert minor < involute.pitch_diameter(teeth=teeth, module=module) < major < socket


@pytest.mark.parametrize("form", RootForm)
@given(teeth=TEETH, module=MODULES)
def test_roots_of_bar_and_socket_lie_equally_far_from_the_pitch_circle(
    form: RootForm, teeth: int, module: float
) -> None:
    spline = {"teeth": teeth, "module": module, "root_form": form}
    minor = metric(involute.external_minor_diameter, **spline)
    socket = metric(involute.internal_major_diameter, **spline)

    assert minor + socket == pytest.approx(
        2.0 * involute.pitch_diameter(teeth=teeth, module=module)
    )


@given(teeth=TEETH, pitch=PITCHES)
def test_diameters_of_an_inch_spline_lie_in_order(teeth: int, pitch: float) -> None:
    spline = {"teeth": teeth, "diametral_pitch": pitch}
    root = involute.inch_external_minor_diameter(**spline)
    inside = involute.inch_internal_minor_diameter(**spline)
    over = involute.inch_external_major_diameter(**spline)
    socket = involute.inch_internal_major_diameter(**spline)
    circle = involute.pitch_diameter(teeth=teeth, module=involute.module_of(pitch))

    assert root < inside < circle < over < socket
    assert inside + over == pytest.approx(2.0 * circle)


def test_roots_are_deeper_in_fine_inch_pitches_and_unknown_between() -> None:
    per_inch = np.array([2.5, 12.0, 12.01, 14.0, 15.99, 16.0, 48.0])
    roots = involute.inch_external_minor_diameter(teeth=30, diametral_pitch=per_inch / 0.0254)
    depth = 30.0 - np.asarray(roots) * per_inch / 0.0254

    np.testing.assert_allclose(depth, [1.8, 1.8, np.nan, np.nan, np.nan, 2.0, 2.0], rtol=1e-11)


@pytest.mark.parametrize("per_inch", [12.0, 16.0])
@pytest.mark.parametrize("rounding", [1.0 - 1e-15, 1.0, 1.0 + 1e-15])
def test_pitches_at_the_limits_are_known_however_they_were_converted(
    per_inch: float, rounding: float
) -> None:
    pitch = per_inch / 0.0254 * rounding

    assert involute.inch_external_minor_diameter(teeth=30, diametral_pitch=pitch) > 0.0


@given(teeth=TEETH, module=MODULES, angle=st.floats(0.01, 1.5))
def test_base_circle_lies_inside_the_pitch_circle_and_meets_it_without_pressure_angle(
    teeth: int, module: float, angle: float
) -> None:
    spline = {"teeth": teeth, "module": module}
    circle = involute.pitch_diameter(**spline)

    assert 0.0 < involute.base_diameter(**spline, pressure_angle=angle) < circle
    assert involute.base_diameter(**spline, pressure_angle=0.0) == pytest.approx(circle)


def test_pressure_angles_are_those_in_the_names() -> None:
    angles = {form.name: math.degrees(form.pressure_angle) for form in RootForm}

    assert angles == pytest.approx(
        {"FLAT_30": 30.0, "FILLET_30": 30.0, "FILLET_37_5": 37.5, "FILLET_45": 45.0}
    )


@given(teeth=st.integers(1, 200))
def test_all_teeth_turn_once_round(teeth: int) -> None:
    assert teeth * involute.angular_pitch(teeth) == pytest.approx(math.tau, rel=1e-14)


@given(pitch=PITCHES)
def test_module_and_diametral_pitch_are_reciprocals(pitch: float) -> None:
    assert involute.module_of(involute.module_of(pitch)) == pytest.approx(pitch, rel=1e-14)


@pytest.mark.parametrize("diameter", METRIC)
def test_metric_diameters_of_a_table_are_those_of_its_elements(
    diameter: Callable[..., Real],
) -> None:
    teeth, modules = np.array([24.0, 40.0]), np.array([[0.5e-3], [0.75e-3], [1.0e-3]])
    table = np.asarray(diameter(teeth=teeth, module=modules, root_form=RootForm.FILLET_45))

    assert table.shape == (3, 2)
    for (row, column), entry in np.ndenumerate(table):
        alone = {"teeth": teeth[column], "module": modules[row, 0]}
        assert entry == pytest.approx(diameter(**alone, root_form=RootForm.FILLET_45), rel=1e-15)


@pytest.mark.parametrize("diameter", INCH)
def test_inch_diameters_of_a_table_are_those_of_its_elements(
    diameter: Callable[..., Real],
) -> None:
    teeth, pitches = np.array([24.0, 40.0]), np.array([[10.0], [24.0]]) / 0.0254
    table = np.asarray(diameter(teeth=teeth, diametral_pitch=pitches))

    assert table.shape == (2, 2)
    for (row, column), entry in np.ndenumerate(table):
        alone = diameter(teeth=teeth[column], diametral_pitch=pitches[row, 0])
        assert entry == pytest.approx(alone, rel=1e-15)


@pytest.mark.parametrize("diameter", [*METRIC, *INCH, involute.pitch_diameter])
def test_arguments_are_keyword_only(diameter: Callable[..., Real]) -> None:
    with pytest.raises(TypeError):
        diameter(40, 0.001)
