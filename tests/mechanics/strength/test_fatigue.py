"""Laws and refusals of `barwright.mechanics.strength.fatigue`."""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import QuantityError
from barwright.mechanics.strength import fatigue
from barwright.mechanics.strength.fatigue import (
    elliptic_factor,
    gerber_factor,
    goodman_amplitude,
    goodman_factor,
    haigh_line,
    mean_and_amplitude,
    soderberg_factor,
    static_factor,
    yield_factor,
)

ENDURANCE, ULTIMATE, YIELD = 350e6, 1000e6, 800e6
FACTORS: dict[str, Callable[..., Any]] = {
    "goodman": lambda a, m: goodman_factor(
        amplitude=a, mean=m, endurance=ENDURANCE, ultimate=ULTIMATE
    ),
    "gerber": lambda a, m: gerber_factor(
        amplitude=a, mean=m, endurance=ENDURANCE, ultimate=ULTIMATE
    ),
    "soderberg": lambda a, m: soderberg_factor(
        amplitude=a, mean=m, endurance=ENDURANCE, shear_yield=YIELD
    ),
    "elliptic": lambda a, m: elliptic_factor(
        amplitude=a, mean=m, endurance=ENDURANCE, shear_yield=YIELD
    ),
    "yield": lambda a, m: yield_factor(amplitude=a, mean=m, shear_yield=YIELD),
}
PURE_SWING = {"yield": YIELD}
STATIC = {"goodman": ULTIMATE, "gerber": ULTIMATE}
EACH = pytest.mark.parametrize("name", FACTORS)
STRESSES = st.floats(1e6, 900e6)


# -- Mean and amplitude -----------------------------------------------------------------


@given(one=st.floats(-1e9, 1e9), other=st.floats(-1e9, 1e9))
def test_mean_and_amplitude_give_the_two_stresses_back(one: float, other: float) -> None:
    mean, amplitude = mean_and_amplitude(one=one, other=other)

    assert mean + amplitude == pytest.approx(max(one, other), abs=1e-6)
    assert mean - amplitude == pytest.approx(min(one, other), abs=1e-6)
    assert mean_and_amplitude(one=other, other=one) == (mean, amplitude)


# -- Safety factors ---------------------------------------------------------------------


@EACH
@given(amplitude=STRESSES, mean=STRESSES, more=st.floats(1.01, 3.0))
def test_safety_falls_with_either_stress(
    name: str, amplitude: float, mean: float, more: float
) -> None:
    factor = FACTORS[name]

    assert factor(more * amplitude, mean) < factor(amplitude, mean) * (1.0 + 1e-12)
    assert factor(amplitude, more * mean) <= factor(amplitude, mean)
    assert factor(more * amplitude, more * mean) == pytest.approx(
        factor(amplitude, mean) / more, rel=1e-12
    )


@EACH
@given(stress=STRESSES)
def test_pure_swing_and_steady_load_meet_the_two_strengths(name: str, stress: float) -> None:
    factor = FACTORS[name]

    swing, steady = PURE_SWING.get(name, ENDURANCE), STATIC.get(name, YIELD)
    assert factor(stress, 0.0) == pytest.approx(swing / stress, rel=1e-13)
    assert factor(0.0, stress) == pytest.approx(steady / stress, rel=1e-13)


@EACH
@given(amplitude=STRESSES, mean=STRESSES)
def test_the_sense_of_a_mean_does_not_matter(name: str, amplitude: float, mean: float) -> None:
    assert FACTORS[name](amplitude, -mean) == FACTORS[name](amplitude, mean)


@EACH
def test_without_stress_nothing_breaks(name: str) -> None:
    assert FACTORS[name](0.0, 0.0) == math.inf


@given(amplitude=STRESSES, mean=STRESSES)
def test_parabola_lies_outside_its_line_and_ellipse_outside_its_own(
    amplitude: float, mean: float
) -> None:
    gerber, goodman, elliptic, soderberg = (
        FACTORS[name](amplitude, mean) for name in ("gerber", "goodman", "elliptic", "soderberg")
    )

    assert gerber >= goodman * (1.0 - 1e-12)
    assert elliptic >= soderberg * (1.0 - 1e-12)
    assert goodman >= soderberg * (1.0 - 1e-12)


@given(amplitude=STRESSES, mean=STRESSES)
def test_the_peak_is_the_sum_of_mean_and_amplitude(amplitude: float, mean: float) -> None:
    peak = YIELD / FACTORS["yield"](amplitude, mean)

    assert peak == pytest.approx(amplitude + mean, rel=1e-13)


@pytest.mark.parametrize(
    ("stress", "factor"), [(350e6, 2.0), (-350e6, 2.0), (0.0, math.inf), (1e-313, math.inf)]
)
def test_a_steady_stress_is_held_against_its_limit(stress: float, factor: float) -> None:
    assert static_factor(stress, limit=700e6) == factor


# -- Haigh's diagram ----------------------------------------------------------------------


@given(mean=st.floats(-2e9, 2e9))
def test_a_pair_on_goodmans_line_has_a_factor_of_one(mean: float) -> None:
    amplitude = goodman_amplitude(mean, endurance=ENDURANCE, ultimate=ULTIMATE)

    if abs(mean) >= ULTIMATE:
        assert amplitude == 0.0
    else:
        assert FACTORS["goodman"](amplitude, mean) == pytest.approx(1.0, rel=1e-12)


def test_the_middle_corner_lies_on_both_lines() -> None:
    means, amplitudes = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE, shear_yield=YIELD)

    assert np.shape(means) == np.shape(amplitudes) == (3,)
    (zero, mean, last), (first, amplitude, nothing) = np.asarray(means), np.asarray(amplitudes)
    assert (zero, last, first, nothing) == (0.0, YIELD, ENDURANCE, 0.0)
    assert FACTORS["goodman"](amplitude, mean) == pytest.approx(1.0, rel=1e-12)
    assert FACTORS["yield"](amplitude, mean) == pytest.approx(1.0, rel=1e-12)
    assert 0.0 < mean < YIELD


@pytest.mark.parametrize(
    ("shear_yield", "means", "amplitudes"),
    [
        # Above the ultimate stress, or not given: Goodman's line alone.
        (math.inf, [0.0, ULTIMATE, ULTIMATE], [ENDURANCE, 0.0, 0.0]),
        (1.2 * ULTIMATE, [0.0, ULTIMATE, ULTIMATE], [ENDURANCE, 0.0, 0.0]),
        # Under the endurance limit: yield alone.
        (300e6, [0.0, 0.0, 300e6], [300e6, 300e6, 0.0]),
    ],
)
def test_where_the_lines_do_not_meet_one_of_them_is_left(
    shear_yield: float, means: list[float], amplitudes: list[float]
) -> None:
    line = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE, shear_yield=shear_yield)

    assert np.asarray(line[0]).tolist() == means
    assert np.asarray(line[1]).tolist() == amplitudes


def test_without_a_yield_stress_goodmans_line_is_drawn() -> None:
    means, amplitudes = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE)

    assert np.asarray(means).tolist() == [0.0, ULTIMATE, ULTIMATE]
    assert np.asarray(amplitudes).tolist() == [ENDURANCE, 0.0, 0.0]


@pytest.mark.parametrize(
    ("endurance", "shown"),
    [(ULTIMATE, "1"), (np.array([0.3e9, 1.25e9]), "1.25"), (math.nan, "nan")],
)
def test_an_endurance_limit_above_the_ultimate_stress_is_refused(
    endurance: float, shown: str
) -> None:
    with pytest.raises(QuantityError) as caught:
        haigh_line(endurance=endurance, ultimate=ULTIMATE)

    assert caught.value.fields == {
        "code": "Q302",
        "value": f"{shown} of the ultimate stress",
        "expected": "an endurance limit below the ultimate stress",
        "remedy": "give the endurance limit as an amplitude in shear",
        "key": "endurance",
        "file": "",
        "line": 0,
    }


# -- All --------------------------------------------------------------------------------


def test_kernels_broadcast_over_arrays() -> None:
    amplitude, mean = np.array([[100e6], [200e6]]), np.array([0.0, 400e6, 1000e6])
    grids: list[Any] = [factor(amplitude, mean) for factor in FACTORS.values()]
    for name, grid in zip(FACTORS, grids, strict=True):
        assert grid[1, 1] == FACTORS[name](200e6, 400e6)
    grids += mean_and_amplitude(one=amplitude, other=mean)
    grids.append(static_factor(amplitude + mean, limit=YIELD))
    grids.append(goodman_amplitude(mean, endurance=amplitude, ultimate=ULTIMATE))

    assert {np.shape(grid) for grid in grids} == {(2, 3)}


def test_lines_broadcast_and_their_corners_come_last() -> None:
    endurance, ultimate = np.array([[300e6], [ENDURANCE]]), np.array([900e6, ULTIMATE, 1200e6])
    grids = haigh_line(endurance=endurance, ultimate=ultimate, shear_yield=YIELD)
    line = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE, shear_yield=YIELD)

    for grid, corners in zip(grids, line, strict=True):
        assert np.shape(grid) == (2, 3, 3)
        assert np.asarray(grid)[1, 1].tolist() == np.asarray(corners).tolist()


@pytest.mark.parametrize("name", fatigue.__all__)
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(fatigue, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
