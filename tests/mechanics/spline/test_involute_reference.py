"""Laws of `barwright.mechanics.spline.involute_reference`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import involute_reference

SIZED: list[Callable[..., Real]] = [
    involute_reference.external_minor_diameter,
    involute_reference.internal_minor_diameter,
    involute_reference.external_major_diameter,
]
TOOTHED: list[Callable[..., Real]] = [
    involute_reference.addendum_modification,
    involute_reference.pitch_tooth_thickness,
]
SPLINES: dict[str, Any] = {
    "reference_diameter": st.floats(0.006, 0.5),
    "module": st.floats(0.0005, 0.010),
}


@given(**SPLINES)
def test_diameters_lie_in_order_inside_the_reference_circle(
    reference_diameter: float, module: float
) -> None:
    spline = {"reference_diameter": reference_diameter, "module": module}
    root, inside, over = (float(diameter(**spline)) for diameter in SIZED)

    assert root < inside < over < reference_diameter
    # In modules: 0.1 of clearance at the hub's tips and at its roots, 0.9 of contact.
    assert (inside - root) / module == pytest.approx(0.2, rel=1e-9)
    assert (reference_diameter - over) / module == pytest.approx(0.2, rel=1e-9)
    assert (over - inside) / module == pytest.approx(1.8, rel=1e-9)


@given(teeth=st.integers(6, 80), **SPLINES)
def test_one_tooth_less_moves_the_rack_out_by_half_a_module(
    teeth: int, reference_diameter: float, module: float
) -> None:
    spline = {"reference_diameter": reference_diameter, "module": module}
    less, more = (
        float(involute_reference.addendum_modification(teeth=n, **spline))
        for n in (teeth - 1, teeth)
    )
    thinner, thicker = (
        float(involute_reference.pitch_tooth_thickness(teeth=n, **spline))
        for n in (teeth, teeth - 1)
    )

    assert less - more == pytest.approx(0.5, rel=1e-9)
    assert thicker - thinner == pytest.approx(module * math.tan(math.radians(30.0)), rel=1e-7)


def test_spline_that_fills_its_circle_without_a_shift_has_even_teeth() -> None:
    spline = {"reference_diameter": 0.0211, "module": 0.001, "teeth": 20}

    assert involute_reference.addendum_modification(**spline) == pytest.approx(0.0, abs=1e-12)
    thickness = involute_reference.pitch_tooth_thickness(**spline)
    assert thickness == pytest.approx(math.pi * 0.0005, rel=1e-9)


def test_pressure_angle_is_thirty_degrees() -> None:
    assert math.degrees(involute_reference.PRESSURE_ANGLE) == pytest.approx(30.0, rel=1e-14)


def test_sizes_of_a_table_are_those_of_its_elements() -> None:
    circles, modules = np.array([0.025, 0.030]), np.array([[0.8e-3], [1.25e-3]])
    for size in (*SIZED, *TOOTHED):
        teeth: dict[str, Any] = {"teeth": 22} if size in TOOTHED else {}
        table = np.asarray(size(reference_diameter=circles, module=modules, **teeth))
        assert table.shape == (2, 2)
        for (row, column), entry in np.ndenumerate(table):
            alone = {"reference_diameter": circles[column], "module": modules[row, 0]}
            assert entry == pytest.approx(size(**alone, **teeth), rel=1e-14)


@pytest.mark.parametrize("size", [*SIZED, *TOOTHED])
def test_arguments_are_keyword_only(size: Callable[..., Real]) -> None:
    with pytest.raises(TypeError):
        size(0.030, 0.00125, 22)
