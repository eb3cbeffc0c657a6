"""Laws of `barwright.mechanics.spline.involute_inch`."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import involute_inch
from barwright.mechanics.spline.involute import module_of, pitch_diameter

DIAMETERS = [
    involute_inch.external_minor_diameter,
    involute_inch.internal_minor_diameter,
    involute_inch.external_major_diameter,
    involute_inch.internal_major_diameter,
]
TEETH = st.integers(6, 100)
PITCHES = st.sampled_from([2.5, 4.0, 8.0, 12.0, 16.0, 24.0, 48.0]).map(lambda p: p / 0.0254)


@given(teeth=TEETH, pitch=PITCHES)
def test_diameters_lie_in_order(teeth: int, pitch: float) -> None:
    spline = {"teeth": teeth, "diametral_pitch": pitch}
    root, inside, over, socket = (float(diameter(**spline)) for diameter in DIAMETERS)
    circle = pitch_diameter(teeth=teeth, module=module_of(pitch))

    assert root < inside < circle < over < socket
    assert inside + over == pytest.approx(2.0 * circle)


def test_roots_are_deeper_in_fine_pitches() -> None:
    per_inch = np.array([2.5, 12.0, 16.0, 48.0])
    roots = involute_inch.external_minor_diameter(teeth=30, diametral_pitch=per_inch / 0.0254)
    depth = 30.0 - np.asarray(roots) * per_inch / 0.0254

    np.testing.assert_allclose(depth, [1.8, 1.8, 2.0, 2.0], rtol=1e-11)


@pytest.mark.parametrize("per_inch", [12.0, 16.0])
@pytest.mark.parametrize("rounding", [1.0 - 1e-15, 1.0, 1.0 + 1e-15])
def test_pitches_at_the_limits_are_known_however_they_were_converted(
    per_inch: float, rounding: float
) -> None:
    pitch = per_inch / 0.0254 * rounding

    assert involute_inch.external_minor_diameter(teeth=30, diametral_pitch=pitch) > 0.0


@pytest.mark.parametrize("per_inch", [12.001, 14.0, 15.999, math.nan])
def test_pitch_of_which_the_source_says_nothing_is_refused(per_inch: float) -> None:
    pitches = np.array([10.0, per_inch]) / 0.0254
    with pytest.raises(QuantityError) as caught:
        involute_inch.external_minor_diameter(teeth=30, diametral_pitch=pitches)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{per_inch:.6g}",
        "expected": "a pitch up to 12 teeth per inch, or from 16",
        "remedy": "measure the bar at the roots of its teeth",
        "key": "diametral_pitch",
        "file": "",
        "line": 0,
    }


@pytest.mark.parametrize("diameter", DIAMETERS)
def test_diameters_of_a_table_are_those_of_its_elements(diameter: Callable[..., Real]) -> None:
    teeth, pitches = np.array([24.0, 40.0]), np.array([[10.0], [24.0]]) / 0.0254
    table = np.asarray(diameter(teeth=teeth, diametral_pitch=pitches))

    assert table.shape == (2, 2)
    for (row, column), entry in np.ndenumerate(table):
        alone = diameter(teeth=teeth[column], diametral_pitch=pitches[row, 0])
        assert entry == pytest.approx(alone, rel=1e-15)


@pytest.mark.parametrize("diameter", DIAMETERS)
def test_arguments_are_keyword_only(diameter: Callable[..., Real]) -> None:
    with pytest.raises(TypeError):
        diameter(40, 1000.0)
