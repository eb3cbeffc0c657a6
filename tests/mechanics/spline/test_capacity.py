"""Laws of `barwright.mechanics.spline.capacity`."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.spline.capacity import (
    head_shear_stress,
    tooth_bearing_stress,
    tooth_shear_stress,
)

SHEAR: dict[str, Any] = {
    "pitch_diameter": 0.032,
    "teeth": 40,
    "engagement": 0.030,
    "tooth_thickness": 0.00125,
}
BEARING: dict[str, Any] = {
    "pitch_diameter": 0.032,
    "teeth": 40,
    "engagement": 0.030,
    "tooth_depth": 0.001,
}
FORMULAS: tuple[tuple[Any, dict[str, Any]], ...] = (
    (head_shear_stress, {"root_diameter": 0.030, "bore": 0.012}),
    (tooth_shear_stress, SHEAR),
    (tooth_bearing_stress, BEARING),
)


def test_stresses_of_a_thousand_newton_metres_are_worked_by_hand() -> None:
    # 16·1000·0.03/(π(0.03⁴ - 0.01⁴)); 4000/(0.032·40·0.03·0.00125); 2000/(0.032·40·0.03·0.001)
    head = head_shear_stress(1000.0, root_diameter=0.030, bore=0.010)

    assert head == pytest.approx(480.0 / (math.pi * 8.0e-7), rel=1e-13)
    assert tooth_shear_stress(1000.0, **SHEAR) == pytest.approx(4000.0 / 4.8e-5, rel=1e-13)
    assert tooth_bearing_stress(1000.0, **BEARING) == pytest.approx(2000.0 / 3.84e-5, rel=1e-13)


@given(torque=st.floats(-3000.0, 3000.0), scale=st.floats(-3.0, 3.0))
def test_stresses_are_proportional_to_torque(torque: float, scale: float) -> None:
    for stress, head in FORMULAS:
        one, two = stress(torque, **head), stress(scale * torque, **head)

        assert two == pytest.approx(scale * one, rel=1e-12, abs=1e-3)


def test_factors_raise_and_lower_a_stress_as_printed() -> None:
    head = head_shear_stress(
        1.0, root_diameter=0.030, bore=0.010, application_factor=1.2, life_factor=0.5
    )
    shear = tooth_shear_stress(
        1.0, **SHEAR, application_factor=1.2, distribution_factor=1.5, life_factor=0.5
    )
    bearing = tooth_bearing_stress(
        1.0, **BEARING, application_factor=1.2, distribution_factor=1.5, wear_factor=4.5
    )

    plain = head_shear_stress(1.0, root_diameter=0.030, bore=0.010)
    assert head == pytest.approx(plain * 2.4, rel=1e-13)
    assert shear == pytest.approx(tooth_shear_stress(1.0, **SHEAR) * 3.6, rel=1e-13)
    assert bearing == pytest.approx(tooth_bearing_stress(1.0, **BEARING) * 0.4, rel=1e-13)


def test_missing_tooth_and_short_engagement_load_the_teeth_in_proportion() -> None:
    for stress, spline in ((tooth_shear_stress, SHEAR), (tooth_bearing_stress, BEARING)):
        whole = stress(1000.0, **spline)
        cut = stress(1000.0, **(spline | {"missing_tooth_factor": 1.173, "engagement": 0.020}))

        assert cut == pytest.approx(whole * 1.173 * 1.5, rel=1e-13)


@given(bore=st.floats(0.001, 0.029))
def test_bore_raises_the_stress_of_a_head(bore: float) -> None:
    solid = head_shear_stress(1000.0, root_diameter=0.030)

    assert head_shear_stress(1000.0, root_diameter=0.030, bore=bore) > solid


def test_stresses_of_columns_are_those_of_their_elements() -> None:
    torques, lengths = np.array([300.0, 900.0]), np.array([[0.02], [0.03], [0.04]])
    for stress, head in FORMULAS[1:]:
        table = np.asarray(stress(torques, **(head | {"engagement": lengths})))

        assert table.shape == (3, 2)
        for (row, column), found in np.ndenumerate(table):
            alone = stress(torques[column], **(head | {"engagement": lengths[row, 0]}))
            assert found == pytest.approx(alone, rel=1e-14)
    roots = np.array([0.028, 0.030])
    heads = np.asarray(head_shear_stress(900.0, root_diameter=roots))
    one_by_one = [float(head_shear_stress(900.0, root_diameter=root)) for root in roots]
    assert heads.tolist() == pytest.approx(one_by_one, rel=1e-14)


def test_sizes_of_a_head_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        head_shear_stress(1000.0, 0.030, 0.010)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        tooth_shear_stress(1000.0, 0.032, 40, 0.030, 0.00125)  # type: ignore[call-arg]
    with pytest.raises(TypeError):
        tooth_bearing_stress(1000.0, 0.032, 40, 0.030, 0.001)  # type: ignore[call-arg]
