"""Laws of `barwright.mechanics.anchorage.threads`."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.anchorage.threads import (
    COARSE_PITCH,
    PropertyClass,
    external_stripping_area,
    internal_stripping_area,
    proof_load,
    required_engagement,
    stress_area,
    stripping_load,
    utilisation,
)

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


@pytest.mark.parametrize(("property_class", "stress"), [("8.8", 580e6), ("10.9", 830e6)])
@given(size=st.sampled_from(SIZES[:-1]))
def test_proof_load_is_one_stress_on_the_stress_area(
    property_class: str, stress: float, size: float
) -> None:
    thread = {"diameter": size, "pitch": COARSE_PITCH[size]}
    load = proof_load(PropertyClass(property_class), **thread)

    assert load == pytest.approx(stress * stress_area(**thread), rel=1e-14)


def test_proof_load_of_the_lower_class_is_known_up_to_m16() -> None:
    column = np.array([0.006, 0.014, 0.016, 16.0 * 0.001])
    loads = np.asarray(proof_load(PropertyClass.CLASS_8_8, diameter=column, pitch=0.002))

    areas = np.asarray(stress_area(diameter=column, pitch=0.002))
    np.testing.assert_allclose(loads, 580e6 * areas, rtol=1e-14)


@pytest.mark.parametrize("diameter", [0.0161, 0.020, math.nan])
def test_proof_load_of_the_lower_class_above_m16_is_refused(diameter: float) -> None:
    with pytest.raises(QuantityError) as caught:
        proof_load(PropertyClass.CLASS_8_8, diameter=np.array([0.012, diameter]), pitch=0.002)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{diameter:.6g}",
        "expected": "a size whose proof stress is known for 8.8",
        "remedy": "multiply stress_area by the bolt's own proof stress, or take a 10.9",
        "key": "diameter",
        "file": "",
        "line": 0,
    }


def test_proof_load_of_the_higher_class_is_known_for_all_sizes_but_not_for_none() -> None:
    load = proof_load(PropertyClass.CLASS_10_9, diameter=0.030, pitch=0.0035)

    assert load == pytest.approx(830e6 * stress_area(diameter=0.030, pitch=0.0035), rel=1e-14)
    with pytest.raises(QuantityError, match=r"known for 10\.9; multiply stress"):
        proof_load(PropertyClass.CLASS_10_9, diameter=math.nan, pitch=0.002)


def test_classes_are_called_as_they_are_marked() -> None:
    assert [(c.value, c.proof_stress) for c in PropertyClass] == [("8.8", 580e6), ("10.9", 830e6)]


@given(load=st.floats(-1e6, 1e6), capacity=st.floats(1e3, 1e6))
def test_utilisation_is_a_share_without_a_sign(load: float, capacity: float) -> None:
    share = utilisation(load, capacity=capacity)

    assert share >= 0.0
    assert share == utilisation(-load, capacity=capacity)
    assert share * capacity == pytest.approx(abs(load), rel=1e-14)


@given(load=st.floats(1.0, 1e6), strength=st.floats(1e8, 1e9), each=st.floats(1e-3, 0.1))
def test_thread_of_the_required_engagement_strips_at_the_load(
    load: float, strength: float, each: float
) -> None:
    length = required_engagement(load, area_per_length=each, shear_strength=strength)

    assert stripping_load(each * length, shear_strength=strength) == pytest.approx(load, rel=1e-13)


def test_stripping_load_of_a_column_is_that_of_its_elements() -> None:
    areas, strengths = np.array([1e-4, 2e-4]), np.array([[3e8], [4e8]])

    loads = np.asarray(stripping_load(areas, shear_strength=strengths))
    assert loads.tolist() == [[3e4, 6e4], [4e4, 8e4]]
    lengths = np.asarray(required_engagement(loads, area_per_length=0.02, shear_strength=strengths))
    np.testing.assert_allclose(lengths, [[0.005, 0.01], [0.005, 0.01]], rtol=1e-13)
    shares = np.asarray(utilisation(loads, capacity=np.array([4e4, 8e4])))
    assert shares.tolist() == [[0.75, 0.75], [1.0, 1.0]]


@given(share=st.floats(0.0, 1.0), engagement=st.floats(0.001, 0.03))
def test_stripping_areas_grow_with_engagement_and_with_overlap_of_the_threads(
    share: float, engagement: float
) -> None:
    overlap = 0.0002 + share * 0.0008
    external = {"pitch": 0.00175, "internal_minor_diameter": 0.0103}
    internal = {"pitch": 0.00175, "external_major_diameter": 0.0118}

    def bolt(engaged: float, beyond: float) -> float:
        place = {"engagement": engaged, "external_pitch_diameter": 0.0103 + beyond}
        return float(external_stripping_area(**external, **place))

    def nut(engaged: float, beyond: float) -> float:
        place = {"engagement": engaged, "internal_pitch_diameter": 0.0118 - beyond}
        return float(internal_stripping_area(**internal, **place))

    for area in (bolt, nut):
        assert area(2.0 * engagement, overlap) == pytest.approx(2.0 * area(engagement, overlap))
        assert area(engagement, overlap) > area(engagement, 0.5 * overlap)
    # A nut's threads are cut on the larger cylinder, in the ratio of the two.
    assert nut(engagement, overlap) / bolt(engagement, overlap) == pytest.approx(118.0 / 103.0)


def test_thread_cut_at_its_pitch_line_shears_on_half_the_cylinder() -> None:
    cylinder = math.pi * 0.0108 * 0.012
    bolt = external_stripping_area(
        engagement=0.012,
        pitch=0.00175,
        internal_minor_diameter=0.0108,
        external_pitch_diameter=0.0108,
    )
    nut = internal_stripping_area(
        engagement=0.012,
        pitch=0.00175,
        external_major_diameter=0.0108,
        internal_pitch_diameter=0.0108,
    )

    assert bolt == pytest.approx(cylinder / 2.0, rel=1e-14)
    assert nut == pytest.approx(cylinder / 2.0, rel=1e-14)


def test_stripping_areas_of_a_column_are_those_of_its_elements() -> None:
    lengths = np.array([0.004, 0.008, 0.016])
    minors = np.array([[0.0102], [0.0104]])
    table = np.asarray(
        external_stripping_area(
            engagement=lengths,
            pitch=0.00175,
            internal_minor_diameter=minors,
            external_pitch_diameter=0.0108,
        )
    )

    assert table.shape == (2, 3)
    for row, minor in zip(table, minors[:, 0], strict=True):
        for area, length in zip(row, lengths, strict=True):
            alone = external_stripping_area(
                engagement=float(length),
                pitch=0.00175,
                internal_minor_diameter=float(minor),
                external_pitch_diameter=0.0108,
            )
            assert area == pytest.approx(alone, rel=1e-14)
