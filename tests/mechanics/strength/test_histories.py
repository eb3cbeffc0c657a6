"""Laws and refusals of `barwright.mechanics.strength.histories`."""

from __future__ import annotations

import inspect
import itertools
import math
import sys
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from barwright.errors import MissingExtraError, QuantityError, SchemaError
from barwright.mechanics.strength import histories
from barwright.mechanics.strength.fatigue import goodman_factor
from barwright.mechanics.strength.histories import (
    Cycles,
    basquin_life,
    count_cycles,
    history_damage,
    miner_damage,
    repeats_to_failure,
    reversed_amplitude,
)

ULTIMATE = 1000e6
LINE = {"at_stress": 300e6, "at_life": 1e6, "exponent": 5.0}
STRESSES = st.floats(1e6, 900e6)
HISTORIES = st.lists(st.integers(-50, 50).map(float), max_size=40)


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


def test_a_history_uses_up_the_sum_of_its_cycles_without_their_means() -> None:
    cycles = Cycles(
        ranges=np.array([400e6, 600e6]),
        means=np.array([500e6, -250e6]),
        counts=np.array([1.0, 0.5]),
    )
    # 200 / (1 - 0.5) and 300 / (1 - 0.25) MPa, one whole and one half of a cycle.
    wanted = 1.0 * (400.0 / 300.0) ** 5 / 1e6 + 0.5 * (400.0 / 300.0) ** 5 / 1e6

    assert history_damage(cycles, ultimate=ULTIMATE, **LINE) == pytest.approx(wanted, rel=1e-12)


def test_an_infinite_ultimate_stress_passes_the_means_over() -> None:
    cycles = count_cycles([100e6, 700e6])

    assert history_damage(cycles, ultimate=math.inf, **LINE) == pytest.approx(0.5e-6, rel=1e-12)


def test_cycles_up_to_the_endurance_limit_do_no_harm() -> None:
    cycles = count_cycles([-300e6, 300e6])

    assert history_damage(cycles, ultimate=ULTIMATE, **LINE) == 0.5e-6
    assert history_damage(count_cycles([-0.5, 0.5]), ultimate=ULTIMATE, **LINE) > 0.0
    assert history_damage(cycles, ultimate=ULTIMATE, endurance=299e6, **LINE) == 0.5e-6
    assert history_damage(cycles, ultimate=ULTIMATE, endurance=300e6, **LINE) == 0.0


@pytest.mark.parametrize(("damage", "repeats"), [(0.25, 4.0), (0.0, math.inf), (math.inf, 0.0)])
def test_a_history_is_borne_until_its_damage_is_whole(damage: float, repeats: float) -> None:
    assert repeats_to_failure(damage) == repeats
    assert repeats_to_failure(damage, damage_at_failure=0.5) == repeats / 2.0


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


def test_numbers_of_any_kind_are_counted() -> None:
    history: list[Any] = [Fraction(1, 2), 4, Decimal(1), 3.0]
    cycles = count_cycles(history)

    assert cycles.ranges.tolist() == [3.5, 3.0, 2.0]
    assert cycles.means.tolist() == [2.25, 2.5, 2.0]
    assert cycles.counts.tolist() == [0.5, 0.5, 0.5]


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
        "correct or remove the value there"
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
    grids: list[Any] = [
        reversed_amplitude(amplitude=amplitude, mean=mean, ultimate=ULTIMATE),
        basquin_life(amplitude, at_stress=300e6, at_life=1e6, exponent=mean / 1e8),
        repeats_to_failure(amplitude, damage_at_failure=mean),
    ]

    assert {np.shape(grid) for grid in grids} == {(2, 3)}


@pytest.mark.parametrize("name", ["ultimate", "at_stress", "at_life", "exponent", "endurance"])
def test_damage_has_the_shape_of_the_limits(name: str) -> None:
    cycles = count_cycles([0.0, 400e6, 100e6, 300e6, 0.0])
    usual: dict[str, Any] = LINE | {"ultimate": ULTIMATE, "endurance": 150e6}
    several = np.array([[0.5], [1.0]]) * usual[name]
    grid = np.asarray(history_damage(cycles, **(usual | {name: several})))

    assert grid.shape == (2, 1)
    assert grid[1, 0] == history_damage(cycles, **usual)
    assert grid[0, 0] != grid[1, 0]


@pytest.mark.parametrize("name", sorted(set(histories.__all__) - {"Cycles", "MINER_SCATTER"}))
def test_at_most_one_argument_goes_without_its_name(name: str) -> None:
    kernel: Callable[..., object] = getattr(histories, name)
    kinds = [parameter.kind for parameter in inspect.signature(kernel).parameters.values()]

    assert kinds.count(inspect.Parameter.POSITIONAL_OR_KEYWORD) <= 1
