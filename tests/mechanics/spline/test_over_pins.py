"""Laws of `barwright.mechanics.spline.over_pins`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.spline.involute import involute_function
from barwright.mechanics.spline.over_pins import involute_angle, size_over_pins
from kernel_grids import COLUMN, ROW, assert_a_grid_is_its_places

USUAL: dict[str, Any] = {
    "teeth": 40,
    "module": 0.75e-3,
    "pressure_angle": math.radians(30.0),
    "tooth_thickness": 1.178e-3,
    "pin_diameter": 1.5e-3,
}


@given(angle=st.floats(0.0, 1.5))
def test_the_angle_of_an_involute_function_is_the_one_it_was_taken_of(angle: float) -> None:
    found = involute_angle(involute_function(angle))

    # The function is so flat at its foot that rounding of its value hides small angles.
    assert found == pytest.approx(angle, abs=1e-5, rel=1e-9)


def test_below_the_base_circle_there_is_no_angle() -> None:
    with pytest.raises(QuantityError, match="involute"):
        involute_angle(-1e-3)


@given(scale=st.floats(0.2, 5.0), teeth=st.integers(12, 90))
def test_all_lengths_grow_alike(scale: float, teeth: int) -> None:
    lengths = ("module", "tooth_thickness", "pin_diameter")
    larger = USUAL | {name: scale * USUAL[name] for name in lengths} | {"teeth": teeth}

    grown = size_over_pins(**larger)

    assert grown == pytest.approx(scale * size_over_pins(**(USUAL | {"teeth": teeth})))


@given(more=st.floats(1e-6, 2e-4))
def test_thicker_teeth_or_pins_stand_further_out(more: float) -> None:
    usual = size_over_pins(**USUAL)

    for name in ("tooth_thickness", "pin_diameter"):
        assert size_over_pins(**(USUAL | {name: USUAL[name] + more})) > usual


def test_a_pin_in_the_middle_of_the_teeth_lies_across_the_pitch_circle() -> None:
    # Where teeth are as thick as spaces, a pin whose flanks it touches on the pitch circle.
    module, teeth, angle = 1e-3, 400, math.radians(30.0)
    pin = math.pi * module / 2.0 / math.cos(angle)

    size = size_over_pins(
        teeth=teeth,
        module=module,
        pressure_angle=angle,
        tooth_thickness=math.pi * module / 2.0,
        pin_diameter=pin,
    )

    # Of so many teeth the flanks are nearly straight, and the pin touches at 30° below its middle.
    assert (size - pin) / 2.0 == pytest.approx(
        module * teeth / 2.0 + pin / 2.0 * math.sin(angle), abs=0.01 * module
    )


def test_an_odd_count_spans_less_than_the_counts_beside_it() -> None:
    around = [float(size_over_pins(**(USUAL | {"teeth": teeth}))) for teeth in (38, 39, 40)]

    assert around[1] < (around[0] + around[2]) / 2.0


def test_a_pin_that_touches_no_flank_is_refused() -> None:
    with pytest.raises(QuantityError, match="thicker"):
        size_over_pins(**(USUAL | {"teeth": 8, "pin_diameter": 1e-5}))


def test_a_grid_is_its_places() -> None:
    arguments = {
        "teeth": np.array([[39.0], [40.0]]),
        "module": 0.75e-3 * ROW,
        "pressure_angle": math.radians(30.0) * COLUMN / COLUMN,
        "tooth_thickness": 1.178e-3 * ROW,
        "pin_diameter": 1.5e-3 * COLUMN,
    }
    assert_a_grid_is_its_places((size_over_pins, arguments))
