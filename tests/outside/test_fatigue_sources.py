"""Fatigue kernels at random against drawn curves, straight lines and pylife's counters.

Single cases, the printed ones among them, are the rows in ``rows/limits.py``,
``rows/fatigue.py`` and ``rows/histories.py``.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest
import rainflow
import scipy.optimize
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st
from pylife.stress.rainflow import (
    AbstractDetector,
    FourPointDetector,
    LoopValueRecorder,
    ThreePointDetector,
)
from shapely import Point, Polygon

from barwright.mechanics.strength.fatigue import (
    elliptic_factor,
    gerber_factor,
    goodman_factor,
    haigh_line,
    mean_and_amplitude,
    soderberg_factor,
)
from barwright.mechanics.strength.histories import (
    basquin_life,
    count_cycles,
    history_damage,
    miner_damage,
    reversed_amplitude,
)
from barwright.mechanics.strength.shear_limits import ultimate_shear
from draws import draws
from outside.rows.histories import COUNTS, HISTORY, counted, damage_by_pylife, whole_by_pylife

AMPLITUDES = st.floats(10e6, 900e6)
MEANS = st.floats(-900e6, 900e6)
STRENGTHS = st.tuples(st.floats(2e8, 6e8), st.floats(7e8, 2e9))


def test_ultimate_shear_of_brown() -> None:
    # Brown, Marks' Calculations for Machine Design (2005), ch. 7, example 3: 0.67 of the
    # tensile strength is 60.3 kpsi.  That it is of 90 kpsi is worked back from these two.
    assert ultimate_shear(90.0, shear_ratio=0.67) == pytest.approx(60.3, rel=1e-12)


# -- Closed forms against their own equations -------------------------------------------


def _gerber(n: float, a: float, m: float) -> float:
    return n * a + (n * m) ** 2 - 1.0


def _elliptic(n: float, a: float, m: float) -> float:
    return (n * a) ** 2 + (n * m) ** 2 - 1.0


def _straight(n: float, a: float, m: float) -> float:
    return n * a + n * abs(m) - 1.0


@pytest.mark.parametrize(
    "case",
    [
        (goodman_factor, "ultimate", _straight),
        (soderberg_factor, "shear_yield", _straight),
        # Gerber, Soderberg, ASME elliptic: Shigley, 8th ed., tables 6-7 to 6-8, from memory.
        (gerber_factor, "ultimate", _gerber),
        (elliptic_factor, "shear_yield", _elliptic),
    ],
)
@settings(max_examples=draws(60))
@given(amplitude=AMPLITUDES, mean=MEANS, strengths=STRENGTHS)
def test_safety_factor_is_the_root_of_its_curve(
    case: tuple[Callable[..., float], str, Callable[[float, float, float], float]],
    amplitude: float,
    mean: float,
    strengths: tuple[float, float],
) -> None:
    factor, strength, curve = case
    endurance, static = strengths
    shares = (amplitude / endurance, mean / static)
    root = scipy.optimize.brentq(curve, 0.0, 1e3, args=shares, xtol=1e-14, rtol=1e-13)
    got = factor(amplitude=amplitude, mean=mean, endurance=endurance, **{strength: static})

    assert got == pytest.approx(root, rel=1e-11)


@settings(max_examples=draws(60))
@given(
    endurance=st.floats(100.0, 600.0), ultimate=st.floats(650.0, 2000.0), y=st.floats(50.0, 2500.0)
)
def test_corners_are_those_of_one_area_clipped_with_the_other(
    endurance: float, ultimate: float, y: float
) -> None:
    line = haigh_line(endurance=endurance, ultimate=ultimate, shear_yield=y)
    means, amplitudes = (np.asarray(corners) for corners in line)
    under_goodman = Polygon([(0.0, 0.0), (ultimate, 0.0), (0.0, endurance)])
    area = under_goodman.intersection(Polygon([(0.0, 0.0), (y, 0.0), (0.0, y)]))
    drawn = Polygon([(0.0, 0.0), *zip(means[::-1], amplitudes[::-1], strict=True)])

    assert drawn.area == pytest.approx(area.area, rel=1e-9)
    for corner in zip(means, amplitudes, strict=True):
        assert area.exterior.distance(Point(*corner)) < 1e-9 * ultimate


@settings(max_examples=draws(60))
@given(amplitude=st.floats(10e6, 300e6), mean=st.floats(0.0, 800e6))
def test_reversed_amplitude_is_as_safe_as_the_pair(amplitude: float, mean: float) -> None:
    def wanted(reversed_: float) -> float:
        with_mean, without = (
            # One line through both: all of the safety is in where it meets the axis.
            scipy.optimize.brentq(
                lambda limit, a=a, m=m: a / limit + m / 1000e6 - 1.0, 1e3, 1e12, xtol=1e-3
            )
            for a, m in ((amplitude, mean), (reversed_, 0.0))
        )
        return float(with_mean - without)

    root = scipy.optimize.brentq(wanted, 1e6, 1e10, xtol=1e-2)

    assert reversed_amplitude(amplitude=amplitude, mean=mean, ultimate=1000e6) == pytest.approx(
        root, rel=1e-6
    )


@settings(max_examples=draws(40))
@given(exponent=st.floats(3.0, 12.0), at_stress=st.floats(1e8, 6e8), life=st.floats(1e3, 1e8))
def test_basquin_is_a_straight_line_in_logarithms(
    exponent: float, at_stress: float, life: float
) -> None:
    amplitudes = at_stress * np.geomspace(0.5, 2.0, 9)
    lives = basquin_life(amplitudes, at_stress=at_stress, at_life=life, exponent=exponent)
    line = scipy.stats.linregress(np.log(amplitudes / at_stress), np.log(lives))

    assert line.slope == pytest.approx(-exponent, rel=1e-9)
    assert np.exp(line.intercept) == pytest.approx(life, rel=1e-9)
    assert line.rvalue == pytest.approx(-1.0, rel=1e-12)


# -- Counting ---------------------------------------------------------------------------


def drawn(seed: int, length: int) -> list[float]:
    """A history of turning points only, without two ranges of one size."""
    size = np.random.default_rng(seed).uniform(0.1, 1.0, length)
    return [float(x) for x in size * np.where(np.arange(length) % 2, 1.0, -1.0)]


def test_counts_of_the_history_of_astm_e1049() -> None:
    assert counted(HISTORY) == COUNTS


def test_the_package_sums_up_the_same_counts() -> None:
    assert dict(rainflow.count_cycles(HISTORY)) == COUNTS


@pytest.mark.parametrize("counter", [FourPointDetector, ThreePointDetector])
@settings(max_examples=draws(60))
@given(seed=st.integers(0, 2**32 - 1), length=st.integers(3, 60))
def test_other_counters_close_the_same_whole_cycles(
    counter: type[AbstractDetector], seed: int, length: int
) -> None:
    history = drawn(seed, length)
    cycles = count_cycles(history)
    whole = cycles.counts == 1.0
    detector = counter(recorder=LoopValueRecorder())
    closed = detector.process(np.array(history)).recorder.collective.to_numpy(dtype=float)
    theirs = zip(np.abs(np.diff(closed)[:, 0]), closed.mean(axis=1), strict=True)

    got = sorted(zip(cycles.ranges[whole], cycles.means[whole], strict=True))
    assert np.allclose(got, sorted(theirs), rtol=1e-12, atol=1e-12)


@settings(max_examples=draws(60))
@given(seed=st.integers(0, 2**32 - 1), length=st.integers(3, 60))
def test_half_cycles_are_the_ranges_of_the_residue_that_others_leave(
    seed: int, length: int
) -> None:
    history = drawn(seed, length)
    cycles = count_cycles(history)
    detector = FourPointDetector(recorder=LoopValueRecorder()).process(np.array(history))

    got = sorted(cycles.ranges[cycles.counts == 0.5])
    assert np.allclose(got, sorted(np.abs(np.diff(detector.residuals))), rtol=1e-12, atol=1e-12)


@given(steps=st.lists(st.integers(1, 6), min_size=2, max_size=30))
def test_ranges_of_one_size_come_to_the_same_sum_however_they_are_paired(steps: list[int]) -> None:
    history = [float(x) for x in np.cumsum([0, *(x * (-1) ** i for i, x in enumerate(steps))])]
    closed, residue = whole_by_pylife(history)
    sums: dict[float, float] = defaultdict(float)
    for start, end in closed.to_numpy(dtype=float):
        sums[abs(end - start)] += 1.0
    for size in np.abs(np.diff(residue)):
        sums[size] += 0.5

    assert counted(history) == sums


@settings(max_examples=draws(30))
@given(seed=st.integers(0, 2**32 - 1), length=st.integers(3, 40), exponent=st.floats(3.0, 9.0))
def test_damage_of_a_random_history_is_that_of_its_cycles(
    seed: int, length: int, exponent: float
) -> None:
    cycles = count_cycles([300.0 * point for point in drawn(seed, length)])
    collective = pd.DataFrame(
        {"range": cycles.ranges, "mean": cycles.means, "cycles": cycles.counts}
    )
    line = {"at_stress": 250.0, "at_life": 2e6, "exponent": exponent}

    assert history_damage(cycles, ultimate=np.inf, **line) == pytest.approx(
        damage_by_pylife(collective, exponent=exponent), rel=1e-9
    )


def test_damage_of_a_history_worked_by_hand() -> None:
    # Amplitudes of 100 MPa a unit of the standard's history, no mean taken into account:
    # at N = 1e6 (200 MPa / τ)³, Σ n τ³ is 8e6 · 1e6 MPa³ times the damage.
    cycles = count_cycles([100e6 * point for point in HISTORY])
    lives = basquin_life(cycles.amplitudes, at_stress=200e6, at_life=1e6, exponent=3.0)
    cubes = sum(count * (size / 2.0) ** 3 for size, count in COUNTS.items())

    assert miner_damage(counts=cycles.counts, lives=lives) == pytest.approx(cubes / 8e6, rel=1e-12)


@settings(max_examples=draws(30))
@given(one=MEANS, other=MEANS)
def test_mean_and_amplitude_are_those_of_a_swing(one: float, other: float) -> None:
    mean, amplitude = mean_and_amplitude(one=one, other=other)
    cycles = count_cycles([one, other])

    if one != other:
        assert cycles.means == pytest.approx([mean], abs=1e-6)
        assert cycles.amplitudes == pytest.approx([amplitude], abs=1e-6)
        assert list(cycles.counts) == [0.5]
