"""Laws of `barwright.mechanics.threads`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.mechanics.threads import COARSE_PITCH, stress_area

SIZES = sorted(COARSE_PITCH)


@given(size=st.sampled_from(SIZES), scale=st.floats(0.2, 5.0))
def test_area_grows_with_the_square_of_the_size(size: float, scale: float) -> None:
    pitch = COARSE_PITCH[size]
    scaled = stress_area(diameter=scale * size, pitch=scale * pitch)

    assert scaled == pytest.approx(scale**2 * stress_area(diameter=size, pitch=pitch), rel=1e-13)


@given(size=st.sampled_from(SIZES), finer=st.floats(0.1, 0.95))
def test_finer_thread_leaves_more_area_and_no_thread_all_of_it(size: float, finer: float) -> None:
    pitch = COARSE_PITCH[size]
    fine = stress_area(diameter=size, pitch=finer * pitch)

    assert stress_area(diameter=size, pitch=pitch) < fine < math.pi / 4.0 * size**2
    assert stress_area(diameter=size, pitch=0.0) == pytest.approx(math.pi / 4.0 * size**2)


def test_coarse_pitch_never_falls_with_size() -> None:
    assert np.all(np.diff([COARSE_PITCH[size] for size in SIZES]) >= 0.0)


def test_areas_of_a_column_are_those_of_its_elements() -> None:
    pitches = np.array([COARSE_PITCH[size] for size in SIZES])
    column = np.asarray(stress_area(diameter=np.array(SIZES), pitch=pitches))

    for size, area in zip(SIZES, column, strict=True):
        assert area == pytest.approx(stress_area(diameter=size, pitch=COARSE_PITCH[size]))


def test_diameter_and_pitch_are_keyword_only() -> None:
    with pytest.raises(TypeError):
        stress_area(0.010, 0.0015)  # type: ignore[call-arg]
