"""Fatigue kernels against a printed example, a standard's history and root finding.

A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import numpy as np
import pytest
import rainflow
import scipy.constants
import scipy.optimize
import scipy.stats
from hypothesis import given, settings
from hypothesis import strategies as st

from barwright.mechanics.fatigue import (
    basquin_life,
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

KPSI = 1e3 * scipy.constants.psi
AMPLITUDES = st.floats(10e6, 900e6)
MEANS = st.floats(-900e6, 900e6)
STRENGTHS = st.tuples(st.floats(2e8, 6e8), st.floats(7e8, 2e9))


@pytest.mark.parametrize(
    ("endurance", "printed", "half_digit"), [(6.2, 0.847, 0.0005), (12.4, 1.12, 0.005)]
)
def test_safety_by_goodman_of_brown(endurance: float, printed: float, half_digit: float) -> None:
    # Brown, Marks' Calculations for Machine Design (2005), ch. 7, example 3.
    factor = goodman_factor(
        amplitude=3.6 * KPSI, mean=36.2 * KPSI, endurance=endurance * KPSI, ultimate=60.3 * KPSI
    )

    assert factor == pytest.approx(printed, abs=half_digit)


def test_ultimate_shear_of_brown() -> None:
    # The same example: 0.67 of the tensile strength is 60.3 kpsi, hence of 90 kpsi.
    assert ultimate_shear(90.0 * KPSI, shear_ratio=0.67) == pytest.approx(60.3 * KPSI, rel=1e-12)


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
@settings(max_examples=60)
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


@settings(max_examples=60)
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


@settings(max_examples=40)
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

# ASTM E1049-85, 5.4.4, history and counts from memory.
HISTORY = [-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]
COUNTS = {3.0: 0.5, 4.0: 1.5, 6.0: 0.5, 8.0: 1.0, 9.0: 0.5}


def counted(history: list[float]) -> dict[float, float]:
    cycles = count_cycles(history)
    sums: Counter[float] = Counter()
    for size, count in zip(cycles.ranges, cycles.counts, strict=True):
        sums[float(size)] += count
    return dict(sums)


def test_counts_of_the_history_of_astm_e1049() -> None:
    assert counted(HISTORY) == COUNTS


def test_the_package_sums_up_the_same_counts() -> None:
    assert dict(rainflow.count_cycles(HISTORY)) == COUNTS


def _four_point(history: list[float]) -> list[tuple[float, float]]:
    """Whole cycles by the four-point method: an inner range within both its neighbours."""
    stack: list[float] = []
    closed = []
    for point in history:
        stack.append(point)
        while len(stack) >= 4:
            before, inner, after = np.abs(np.diff(stack[-4:]))
            if inner > min(before, after):
                break
            closed.append((float(inner), (stack[-3] + stack[-2]) / 2.0))
            del stack[-3:-1]
    return closed


@settings(max_examples=60)
@given(seed=st.integers(0, 2**32 - 1), length=st.integers(3, 60))
def test_four_points_close_the_same_whole_cycles(seed: int, length: int) -> None:
    # Points between turning points are no turning points, so only those go in.
    size = np.random.default_rng(seed).uniform(0.1, 1.0, length)
    history = list(size * np.where(np.arange(length) % 2, 1.0, -1.0))
    cycles = count_cycles(history)
    whole = cycles.counts == 1.0
    got = sorted(zip(cycles.ranges[whole], cycles.means[whole], strict=True))

    assert np.allclose(got, sorted(_four_point(history)), rtol=1e-12, atol=1e-12)


def test_damage_of_a_history_worked_by_hand() -> None:
    # Amplitudes of 100 MPa a unit of the standard's history, no mean taken into account:
    # at N = 1e6 (200 MPa / τ)³, Σ n τ³ is 8e6 · 1e6 MPa³ times the damage.
    cycles = count_cycles([100e6 * point for point in HISTORY])
    lives = basquin_life(cycles.amplitudes, at_stress=200e6, at_life=1e6, exponent=3.0)
    cubes = sum(count * (size / 2.0) ** 3 for size, count in COUNTS.items())

    assert miner_damage(counts=cycles.counts, lives=lives) == pytest.approx(cubes / 8e6, rel=1e-12)


@settings(max_examples=30)
@given(one=MEANS, other=MEANS)
def test_mean_and_amplitude_are_those_of_a_swing(one: float, other: float) -> None:
    mean, amplitude = mean_and_amplitude(one=one, other=other)
    cycles = count_cycles([one, other])

    if one != other:
        assert cycles.means == pytest.approx([mean], abs=1e-6)
        assert cycles.amplitudes == pytest.approx([amplitude], abs=1e-6)
        assert list(cycles.counts) == [0.5]
