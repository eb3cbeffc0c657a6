"""Laws and refusals of `barwright.mechanics.fatigue`."""

from __future__ import annotations

import inspect
import itertools
import math
import sys
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import MissingExtraError, QuantityError, SchemaError
from barwright.mechanics import fatigue
from barwright.mechanics.fatigue import (
    basquin_life,
    corrected_endurance,
    count_cycles,
    elliptic_factor,
    gerber_factor,
    goodman_factor,
    mean_and_amplitude,
    miner_damage,
    reversed_amplitude,
    soderberg_factor,
    ultimate_shear,
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
}
STATIC = {"goodman": ULTIMATE, "gerber": ULTIMATE, "soderberg": YIELD, "elliptic": YIELD}
EACH = pytest.mark.parametrize("name", FACTORS)
STRESSES = st.floats(1e6, 900e6)
HISTORIES = st.lists(st.integers(-50, 50).map(float), max_size=40)

NEUTRAL = {
    "surface_factor": 1.0,
    "size_factor": 1.0,
    "loading_factor": 1.0,
    "temperature_factor": 1.0,
    "reliability_factor": 1.0,
    "notch_factor": 1.0,
}


# -- Mean and amplitude -----------------------------------------------------------------


@given(one=st.floats(-1e9, 1e9), other=st.floats(-1e9, 1e9))
def test_mean_and_amplitude_give_the_two_stresses_back(one: float, other: float) -> None:
    mean, amplitude = mean_and_amplitude(one=one, other=other)

    assert mean + amplitude == pytest.approx(max(one, other), abs=1e-6)
    assert mean - amplitude == pytest.approx(min(one, other), abs=1e-6)
    assert mean_and_amplitude(one=other, other=one) == (mean, amplitude)


# -- Strengths --------------------------------------------------------------------------


def test_ultimate_shear_is_the_named_share() -> None:
    assert ultimate_shear(1500e6, shear_ratio=0.8) == 1200e6


def test_factors_of_one_correct_nothing() -> None:
    assert corrected_endurance(400e6, **NEUTRAL) == 400e6


@pytest.mark.parametrize("name", NEUTRAL)
def test_each_factor_is_multiplied_once(name: str) -> None:
    assert corrected_endurance(400e6, **(NEUTRAL | {name: 0.7})) == pytest.approx(280e6, rel=1e-14)


@pytest.mark.parametrize("name", NEUTRAL)
def test_no_factor_is_taken_for_granted(name: str) -> None:
    given_ = {key: value for key, value in NEUTRAL.items() if key != name}

    with pytest.raises(TypeError, match=name):
        corrected_endurance(400e6, **given_)


@pytest.mark.parametrize(
    ("notch", "shown"), [(1.6, "1.6"), (np.array([0.5, 1.25]), "1.25"), (math.nan, "nan")]
)
def test_a_notch_that_strengthens_is_refused(notch: float, shown: str) -> None:
    with pytest.raises(QuantityError) as caught:
        corrected_endurance(400e6, **(NEUTRAL | {"notch_factor": notch}))

    assert caught.value.fields == {
        "code": "Q302",
        "value": shown,
        "expected": "the share that a notch leaves, at most 1",
        "remedy": "give 1 over the fatigue notch factor",
        "key": "notch_factor",
        "file": "",
        "line": 0,
    }


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

    assert factor(stress, 0.0) == pytest.approx(ENDURANCE / stress, rel=1e-13)
    assert factor(0.0, stress) == pytest.approx(STATIC[name] / stress, rel=1e-13)


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


# -- Lives and damage -------------------------------------------------------------------


@given(amplitude=STRESSES, mean=st.floats(-900e6, 900e6))
def test_reversed_amplitude_is_as_safe_by_goodman_at_the_limit(
    amplitude: float, mean: float
) -> None:
    alone = reversed_amplitude(amplitude=amplitude, mean=mean, ultimate=ULTIMATE)

    assert alone >= amplitude
    assert goodman_factor(
        amplitude=amplitude, mean=mean, endurance=alone, ultimate=ULTIMATE
    ) == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize("mean", [ULTIMATE, -ULTIMATE, 2.0 * ULTIMATE])
@pytest.mark.parametrize("amplitude", [0.0, 100e6])
def test_a_mean_that_breaks_leaves_no_life(amplitude: float, mean: float) -> None:
    alone = reversed_amplitude(amplitude=amplitude, mean=mean, ultimate=ULTIMATE)
    life = basquin_life(alone, at_stress=300e6, at_life=1e6, exponent=5.0)

    assert alone == math.inf
    assert life == 0.0
    assert miner_damage(counts=0.5, lives=life) == math.inf


@given(amplitude=STRESSES, exponent=st.floats(2.0, 12.0))
def test_half_the_amplitude_lives_longer_by_the_power(amplitude: float, exponent: float) -> None:
    whole, half = (
        basquin_life(stress, at_stress=300e6, at_life=1e6, exponent=exponent)
        for stress in (amplitude, amplitude / 2.0)
    )

    assert half == pytest.approx(2.0**exponent * whole, rel=1e-10)


def test_line_of_lives_passes_through_its_point() -> None:
    assert basquin_life(300e6, at_stress=300e6, at_life=1e6, exponent=5.0) == 1e6


def test_up_to_the_endurance_limit_life_has_no_end() -> None:
    amplitudes = np.array([0.0, 0.5, 200e6, 201e6])
    limited = basquin_life(amplitudes, at_stress=300e6, at_life=1e6, exponent=5.0, endurance=200e6)
    unlimited = basquin_life(amplitudes, at_stress=300e6, at_life=1e6, exponent=5.0)

    assert list(np.isinf(limited)) == [True, True, True, False]
    assert list(np.isinf(unlimited)) == [True, False, False, False]
    assert np.asarray(limited)[3] == np.asarray(unlimited)[3]


def test_damage_is_summed_over_the_last_axis() -> None:
    counts = np.array([[1.0, 2.0], [4.0, 0.5]])
    damage = miner_damage(counts=counts, lives=np.array([10.0, np.inf]))

    assert np.asarray(damage) == pytest.approx([0.1, 0.4], rel=1e-14)
    assert miner_damage(counts=np.array([5.0, 5.0]), lives=10.0) == pytest.approx(1.0)
    assert miner_damage(counts=5.0, lives=10.0) == 0.5


# -- Counting ---------------------------------------------------------------------------


@given(history=HISTORIES)
def test_points_between_turning_points_and_pauses_change_nothing(history: list[float]) -> None:
    finer = [
        point
        for one, other in itertools.pairwise(history)
        for point in (one, one, (one + other) / 2.0)
    ]
    finer += history[-1:]
    plain, fine = count_cycles(history), count_cycles(finer)

    assert fine.ranges.tolist() == plain.ranges.tolist()
    assert fine.means.tolist() == plain.means.tolist()
    assert fine.counts.tolist() == plain.counts.tolist()


@given(history=HISTORIES)
def test_cycles_cover_all_the_way_travelled(history: list[float]) -> None:
    cycles = count_cycles(history)
    way = sum(abs(other - one) for one, other in itertools.pairwise(history))

    assert np.sum(2.0 * cycles.counts * cycles.ranges) == pytest.approx(way, abs=1e-9)
    assert np.all(cycles.ranges > 0.0)
    assert set(cycles.counts) <= {0.5, 1.0}


@given(history=HISTORIES)
def test_largest_range_is_that_of_the_extremes(history: list[float]) -> None:
    cycles = count_cycles(history)
    span = max(history, default=0.0) - min(history, default=0.0)

    assert np.max(cycles.ranges, initial=0.0) == span
    assert cycles.amplitudes.tolist() == (cycles.ranges / 2.0).tolist()


@pytest.mark.parametrize("history", [[], [3.0], [3.0, 3.0], [3.0] * 5])
def test_a_history_that_never_changes_has_no_cycles(history: list[float]) -> None:
    cycles = count_cycles(history)

    assert [*cycles.ranges, *cycles.means, *cycles.counts] == []
    assert miner_damage(counts=cycles.counts, lives=1.0) == 0.0


def test_two_points_are_half_a_cycle() -> None:
    cycles = count_cycles(np.array([1.0, 5.0]))

    assert cycles.ranges.tolist() == [4.0]
    assert cycles.means.tolist() == [3.0]
    assert cycles.counts.tolist() == [0.5]


def test_without_the_package_the_remedy_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "rainflow", None)
    with pytest.raises(MissingExtraError) as caught:
        count_cycles([0.0, 1.0])

    assert str(caught.value) == (
        "X101: got 'rainflow', expected the package that counts cycles; "
        "pip install 'barwright[fatigue]'"
    )
    assert caught.value.exit_code == 2


def test_the_package_is_met_only_when_it_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "rainflow", None)

    assert miner_damage(counts=1.0, lives=4.0) == 0.25


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf])
def test_a_point_that_is_no_number_is_refused_with_its_place(wrong: float) -> None:
    with pytest.raises(QuantityError) as caught:
        count_cycles([0.0, 1.0, wrong, math.nan])

    assert str(caught.value) == (
        f"Q301: history: got '{wrong} at place 2', expected finite numbers; "
        "mend or cut the record there"
    )


@pytest.mark.parametrize(("shape", "dimensions"), [((), 0), ((2, 3), 2)])
def test_only_one_row_is_a_history(shape: tuple[int, ...], dimensions: int) -> None:
    with pytest.raises(SchemaError) as caught:
        count_cycles(np.zeros(shape))

    assert str(caught.value) == (
        f"S203: history: got 'an array of {dimensions} dimensions', expected one row of numbers "
        "in the order of time; count each channel on its own"
    )


# -- All --------------------------------------------------------------------------------


def test_kernels_broadcast_over_arrays() -> None:
    amplitude, mean = np.array([[100e6], [200e6]]), np.array([0.0, 400e6, 1000e6])
    grids: list[Any] = [factor(amplitude, mean) for factor in FACTORS.values()]
    grids.append(reversed_amplitude(amplitude=amplitude, mean=mean, ultimate=ULTIMATE))
    grids.append(basquin_life(amplitude, at_stress=300e6, at_life=1e6, exponent=mean / 1e8))
    grids += mean_and_amplitude(one=amplitude, other=mean)

    assert {np.shape(grid) for grid in grids} == {(2, 3)}
    for name, grid in zip(FACTORS, grids, strict=False):
        assert np.asarray(grid)[1, 1] == FACTORS[name](200e6, 400e6)


@pytest.mark.parametrize("name", sorted(set(fatigue.__all__) - {"Cycles"}))
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(fatigue, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
