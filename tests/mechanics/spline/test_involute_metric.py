"""Laws of `barwright.mechanics.spline.involute_metric`."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import involute_metric
from barwright.mechanics.spline.involute import pitch_diameter
from barwright.mechanics.spline.involute_metric import RootForm

DIAMETERS = [
    involute_metric.internal_major_diameter,
    involute_metric.external_major_diameter,
    involute_metric.external_minor_diameter,
]
TEETH = st.integers(6, 100)
MODULES = st.floats(0.25e-3, 10e-3)


@pytest.mark.parametrize("form", RootForm)
@given(teeth=TEETH, module=MODULES)
def test_diameters_lie_in_order(form: RootForm, teeth: int, module: float) -> None:
    spline: dict[str, Any] = {"teeth": teeth, "module": module, "root_form": form}
    socket, major, minor = (float(diameter(**spline)) for diameter in DIAMETERS)

    assert minor < pitch_diameter(teeth=teeth, module=module) < major < socket


@pytest.mark.parametrize("form", RootForm)
@given(teeth=TEETH, module=MODULES)
def test_roots_of_bar_and_socket_lie_equally_far_from_the_pitch_circle(
    form: RootForm, teeth: int, module: float
) -> None:
    spline: dict[str, Any] = {"teeth": teeth, "module": module, "root_form": form}
    socket, _, minor = (float(diameter(**spline)) for diameter in DIAMETERS)

    assert minor + socket == pytest.approx(2.0 * pitch_diameter(teeth=teeth, module=module))


def test_pressure_angles_are_those_in_the_names() -> None:
    angles = {form.value: math.degrees(form.pressure_angle) for form in RootForm}

    assert angles == pytest.approx(
        {
            "flat root, 30°": 30.0,
            "fillet root, 30°": 30.0,
            "fillet root, 37.5°": 37.5,
            "fillet root, 45°": 45.0,
        }
    )


@pytest.mark.parametrize("diameter", DIAMETERS)
def test_diameters_of_a_table_are_those_of_its_elements(diameter: Callable[..., Real]) -> None:
    teeth, modules = np.array([24.0, 40.0]), np.array([[0.5e-3], [0.75e-3], [1.0e-3]])
    table = np.asarray(diameter(teeth=teeth, module=modules, root_form=RootForm.FILLET_45))

    assert table.shape == (3, 2)
    for (row, column), entry in np.ndenumerate(table):
        alone = {"teeth": teeth[column], "module": modules[row, 0]}
        assert entry == pytest.approx(diameter(**alone, root_form=RootForm.FILLET_45), rel=1e-15)


@pytest.mark.parametrize("diameter", DIAMETERS)
def test_arguments_are_keyword_only(diameter: Callable[..., Real]) -> None:
    with pytest.raises(TypeError):
        diameter(40, 0.001, RootForm.FLAT_30)
