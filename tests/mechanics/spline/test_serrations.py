"""Laws of `barwright.mechanics.spline.serrations`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.spline.serrations import Serration

TEETH = st.integers(20, 80)
ANGLES = st.floats(40.0, 120.0).map(math.radians)
SHAFT = Serration(teeth=36, pitch_diameter=0.030)


def test_spaces_have_sixty_degrees_if_nothing_is_said() -> None:
    assert math.degrees(float(SHAFT.space_angle)) == pytest.approx(60.0, rel=1e-14)
    assert math.degrees(float(SHAFT.tooth_angle)) == pytest.approx(50.0, rel=1e-14)


@given(teeth=TEETH, angle=ANGLES)
def test_circles_of_a_serration_lie_in_order(teeth: int, angle: float) -> None:
    shaft = Serration(teeth=teeth, pitch_diameter=0.030, space_angle=angle)

    assert 0.0 < shaft.sharp_minor_diameter < 0.030 < shaft.sharp_major_diameter


@given(teeth=TEETH, angle=ANGLES)
def test_teeth_end_in_an_edge_and_spaces_in_another(teeth: int, angle: float) -> None:
    shaft = Serration(teeth=teeth, pitch_diameter=0.030, space_angle=angle)
    pitch = math.pi / teeth

    top, bottom = float(shaft.sharp_major_diameter), float(shaft.sharp_minor_diameter)
    assert shaft.tooth_thickness(top) == pytest.approx(0.0, abs=1e-15)
    assert shaft.tooth_thickness(bottom) == pytest.approx(pitch * bottom, rel=1e-10)
    assert shaft.tooth_thickness(0.030) == pytest.approx(pitch * 0.030 / 2.0, rel=1e-12)
    assert shaft.pitch_tooth_thickness == pytest.approx(pitch * 0.030 / 2.0, rel=1e-14)


def test_truncations_take_twice_their_depth_off_a_diameter() -> None:
    assert SHAFT.sharp_major_diameter - SHAFT.major_diameter(0.0004) == pytest.approx(0.0008)
    assert SHAFT.minor_diameter(0.0003) - SHAFT.sharp_minor_diameter == pytest.approx(0.0006)


@pytest.mark.parametrize("degrees", [10.0, 9.0, 0.0, 180.0, 200.0, math.nan])
def test_angle_that_leaves_no_tooth_is_refused(degrees: float) -> None:
    angles = np.radians([60.0, degrees])
    with pytest.raises(QuantityError) as caught:
        Serration(teeth=36, pitch_diameter=0.030, space_angle=angles)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{degrees:.6g}",
        "expected": "more degrees than the pitch, and less than 180",
        "remedy": "give the angle between the two flanks of a space",
        "key": "space_angle",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("diameter", [0.0277, 0.0328, math.nan, -0.030])
def test_circle_off_the_flanks_is_refused(diameter: float) -> None:
    with pytest.raises(QuantityError) as caught:
        SHAFT.tooth_thickness(np.array([0.030, diameter]))

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{diameter:.6g}",
        "expected": "a circle between the sharp roots and the sharp tips of the teeth",
        "remedy": "give a diameter in the unit of the pitch diameter",
        "key": "diameter",
        "file": "",
        "line": 0,
    }


def test_sizes_of_columns_are_those_of_their_elements() -> None:
    teeth, circles = np.array([30.0, 36.0]), np.array([[0.020], [0.030]])
    shafts = Serration(teeth=teeth, pitch_diameter=circles)
    tables = {
        "major": shafts.major_diameter(0.0003),
        "minor": shafts.minor_diameter(0.0003),
        "thickness": shafts.tooth_thickness(circles * 1.01),
    }
    for (row, column), circle in np.ndenumerate(np.broadcast_to(circles, (2, 2))):
        shaft = Serration(teeth=teeth[column], pitch_diameter=circle)
        alone = {
            "major": shaft.major_diameter(0.0003),
            "minor": shaft.minor_diameter(0.0003),
            "thickness": shaft.tooth_thickness(circle * 1.01),
        }
        for name, table in tables.items():
            found = np.asarray(table)
            assert found.shape == (2, 2), name
            assert found[row, column] == pytest.approx(alone[name], rel=1e-13), name


def test_fields_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        Serration(36, 0.030)  # type: ignore[call-arg]
