"""First order and Monte Carlo against `uncertainties`, GTC, scipy, and each other.

A number marked "from memory" was recalled, not read in its source.
"""

from __future__ import annotations

from typing import Any

import GTC
import numpy as np
import pytest
import scipy.stats
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st

import barwright as bw
from barwright.mechanics.bar.torsion import series_rate, shear_stress, torsional_rate
from barwright.mechanics.uncertainty.coverage import (
    coverage_factor,
    effective_degrees_of_freedom,
    expanded_uncertainty,
    shortest_interval,
    symmetric_interval,
)
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    first_order,
    rectangular_uncertainty,
    variance_shares,
)
from barwright.mechanics.uncertainty.sampling import Distribution, draw_inputs, monte_carlo
from draws import draws
from outside.rows.propagation import GAUGE, gauge_by_gtc, gauge_contributions
from outside.rows.sampling import end_by_scipy, four_rectangles
from sample_packs import discovered_once

FREEDOMS = st.one_of(st.integers(1, 200).map(float), st.floats(1e3, 1e9), st.just(np.inf))


def corner(x: Any) -> list[Any]:
    """Rates of bar and of both in series, and stress at a twist, of any kind of number."""
    diameter, length, modulus, tube, twist = x
    bar = np.pi / 32.0 * modulus * diameter**4 / length
    whole = 1.0 / (1.0 / bar + 1.0 / tube)
    torque = whole * twist
    return [bar, whole, 16.0 * torque / (np.pi * diameter**3)]


def by_kernels(x: Any) -> Any:
    """The same by the kernels."""
    diameter, length, modulus, tube, twist = x
    bar = torsional_rate(diameter=diameter, active_length=length, shear_modulus=modulus)
    whole = series_rate(bar, tube)
    return np.stack([bar, whole, shear_stress(whole * twist, diameter=diameter)])


CORNER = np.array([0.0233, 0.813, 77.2e9, 24_200.0, 0.5])


@settings(max_examples=draws(30))
@given(spread=st.lists(st.floats(1e-5, 0.03), min_size=5, max_size=5))
def test_first_order_is_that_of_uncertainties(spread: list[float]) -> None:
    own = first_order(by_kernels, values=CORNER, uncertainties=spread * CORNER)
    inputs = [
        uncertainties.ufloat(value, u * value)
        for value, u in zip(CORNER.tolist(), spread, strict=True)
    ]

    for index, outside in enumerate(corner(inputs)):
        assert np.asarray(own.value)[index] == pytest.approx(outside.nominal_value, rel=1e-12)
        assert np.asarray(own.uncertainty)[index] == pytest.approx(outside.std_dev, rel=1e-6)
        for place, one in enumerate(inputs):
            slope = outside.derivatives.get(one, 0.0)
            assert own.sensitivities[place, index] == pytest.approx(slope, rel=1e-6, abs=1e-12)
            share = (slope * one.std_dev / outside.std_dev) ** 2
            assert own.shares[place, index] == pytest.approx(share, rel=1e-5, abs=1e-12)


@settings(max_examples=draws(30))
@given(
    spread=st.lists(st.floats(1e-4, 0.03), min_size=5, max_size=5),
    factors=st.lists(st.floats(-1.0, 1.0), min_size=5, max_size=5),
)
def test_correlation_is_that_of_uncertainties(spread: list[float], factors: list[float]) -> None:
    correlation = 0.5 * np.outer(factors, factors)
    np.fill_diagonal(correlation, 1.0)
    u = spread * CORNER
    own = first_order(by_kernels, values=CORNER, uncertainties=u, correlation=correlation)
    inputs = uncertainties.correlated_values(CORNER, correlation * np.outer(u, u))

    for index, outside in enumerate(corner(inputs)):
        assert np.asarray(own.uncertainty)[index] == pytest.approx(outside.std_dev, rel=1e-5)


def test_the_end_gauge_of_the_gum_comes_out() -> None:
    # JCGM 100:2008, H.1: 50 000 838 nm, u 32 nm, 16 degrees of freedom, U99 93 nm (from memory).
    own = first_order(GAUGE.length, values=GAUGE.values, uncertainties=GAUGE.uncertainties)
    contributions = gauge_contributions()
    freedom = effective_degrees_of_freedom(contributions, degrees_of_freedom=GAUGE.freedom)
    factor = coverage_factor(0.99, degrees_of_freedom=freedom)
    found, inputs = gauge_by_gtc()

    assert own.value == GTC.value(found) == 50_000_838.0
    assert own.uncertainty == pytest.approx(31.664, abs=0.0005)
    assert freedom == pytest.approx(GTC.dof(found), rel=1e-6)
    assert factor == pytest.approx(GTC.rp.k_factor(16, 99), rel=1e-9)
    # The book multiplies rounded figures: 2.92 × 32 nm.
    assert expanded_uncertainty(own.uncertainty, coverage_factor=factor) == pytest.approx(
        92.5, abs=0.05
    )
    assert np.abs(contributions) == pytest.approx(
        [GTC.component(found, one) for one in inputs], rel=1e-6, abs=1e-9
    )


@settings(max_examples=draws(60))
@given(share=st.floats(0.01, 0.9999), freedom=FREEDOMS)
def test_factors_are_quantiles_of_students_distribution(share: float, freedom: float) -> None:
    held = scipy.stats.norm if freedom == np.inf else scipy.stats.t(np.floor(freedom))

    assert coverage_factor(share, degrees_of_freedom=freedom) == pytest.approx(
        held.ppf((1.0 + share) / 2.0), rel=1e-9
    )


@settings(max_examples=draws(40))
@given(
    inputs=st.lists(st.tuples(st.floats(0.01, 9.0), st.floats(1.0, 60.0)), min_size=1, max_size=6)
)
def test_degrees_of_freedom_are_those_of_gtc(inputs: list[tuple[float, float]]) -> None:
    numbers = [GTC.ureal(0.0, u, df) for u, df in inputs]
    contributions, freedom = zip(*inputs, strict=True)

    assert effective_degrees_of_freedom(contributions, degrees_of_freedom=freedom) == pytest.approx(
        GTC.dof(sum(numbers[1:], numbers[0])), rel=1e-9
    )


@pytest.mark.parametrize(
    ("kind", "held"),
    [
        (Distribution.NORMAL, scipy.stats.norm(5.0, 0.2)),
        (Distribution.RECTANGULAR, scipy.stats.uniform(5.0 - 0.2 * 3**0.5, 0.4 * 3**0.5)),
        (Distribution.TRIANGULAR, scipy.stats.triang(0.5, 5.0 - 0.2 * 6**0.5, 0.4 * 6**0.5)),
    ],
)
def test_draws_are_of_the_distribution_that_scipy_knows(kind: Distribution, held: Any) -> None:
    (drawn,) = draw_inputs(
        values=[5.0], uncertainties=[0.2], distributions=kind, draws=20_000, seed=11
    )

    assert scipy.stats.kstest(drawn, held.cdf).pvalue > 0.01


def test_four_rectangles_are_narrower_than_a_first_order_has_it() -> None:
    # JCGM 101:2008, 9.2.3: ±3.88 by Monte Carlo and ±3.92 by first order (from memory).
    low, high = symmetric_interval(four_rectangles().outputs, coverage=0.95)
    own = first_order(lambda x: x.sum(axis=0), values=[0.0] * 4, uncertainties=[1.0] * 4)
    stated = expanded_uncertainty(own.uncertainty, coverage_factor=coverage_factor(0.95))

    assert end_by_scipy(0.95) == pytest.approx(3.8794, abs=5e-5)
    assert [low, high] == pytest.approx([-3.88, 3.88], abs=0.02)
    assert stated == pytest.approx(3.92, abs=0.005)


def test_first_order_and_draws_agree_where_the_function_is_nearly_straight() -> None:
    u = rectangular_uncertainty(np.array([0.05e-3, 0.4e-3, 3.9e9, 300.0, 0.004]))
    own = first_order(by_kernels, values=CORNER, uncertainties=u)
    drawn = monte_carlo(by_kernels, values=CORNER, uncertainties=u, draws=200_000, seed=5)

    assert drawn.mean == pytest.approx(own.value, rel=1e-3)
    assert drawn.uncertainty == pytest.approx(own.uncertainty, rel=1e-2)


@pytest.mark.parametrize("held", [scipy.stats.expon, scipy.stats.lognorm(0.5)])
def test_the_shortest_interval_is_that_of_the_highest_density(held: Any) -> None:
    ranks = (np.arange(100_000) + 0.5) / 100_000
    low, high = (float(end) for end in shortest_interval(held.ppf(ranks), coverage=0.9))

    assert held.cdf(high) - held.cdf(low) == pytest.approx(0.9, abs=2e-5)
    # Both ends are equally likely, unless the distribution begins with its most likely value.
    at_ends = held.pdf(low), held.pdf(high)
    assert low < 2e-5 or at_ends[0] == pytest.approx(at_ends[1], rel=5e-3)


@pytest.mark.parametrize("diameter", [0.020, 0.0233, 0.028, 0.032])
def test_a_modulus_of_five_percent_outweighs_a_diameter_of_a_twentieth_millimetre(
    diameter: float,
) -> None:
    # It has 96 to 98.5 % of the variance of the rate.  In half widths, which do not add so,
    # the two stand at 5 to 1 for a bar of 20 mm and at 88 to 12 for one of 29 mm.
    values = np.array([diameter, 77.2e9])
    half_widths = np.array([0.05e-3, 0.05 * 77.2e9])
    own = first_order(
        lambda x: torsional_rate(diameter=x[0], shear_modulus=x[1], active_length=0.82),
        values=values,
        uncertainties=rectangular_uncertainty(half_widths),
    )
    d, g = (uncertainties.ufloat(v, w) for v, w in zip(values, half_widths, strict=True))
    rate = g * d**4
    by_modulus = rate.error_components()[g] / rate.std_dev

    assert own.shares[1] == pytest.approx(by_modulus**2, rel=1e-6)
    assert 0.96 < own.shares[1] < 0.985
    alone = np.abs(own.sensitivities) * half_widths
    assert alone[1] / alone[0] == pytest.approx(0.05 * diameter / (4.0 * 0.05e-3), rel=1e-6)


def test_a_bar_of_29_mm_has_eighty_eight_to_twelve_in_half_widths() -> None:
    contributions = [4.0 * 0.05 / 29.0, 0.05]

    assert contributions[1] / sum(contributions) == pytest.approx(0.88, abs=0.002)
    assert variance_shares(contributions)[1] == pytest.approx(0.981, abs=0.001)
    assert combined_uncertainty(contributions) == pytest.approx(0.0505, abs=1e-4)


def test_an_answer_is_as_unsure_as_uncertainties_has_it() -> None:
    setup = discovered_once().setup("fells:chassis/short", corner="front left")
    tube = setup.anchor
    assert isinstance(tube, bw.parts.Tube)
    modulus = uncertainties.ufloat(79.3e9, 1.6e9 / 3.0**0.5)
    outside = uncertainties.ufloat(0.046, 0.1e-3 / 3.0**0.5)
    assert str(tube.material.about["shear_modulus"].tolerance) == "1.6 gigapascal"
    assert str(tube.about["outside_diameter"].tolerance) == "0.1 millimeter"
    length = (tube.socket_position - tube.lever_position).m_as("m")
    rate = modulus * np.pi / 32.0 * (outside**4 - tube.bore.m_as("m") ** 4) / length
    answer = bw.tolerance(bw.rates, setup)
    (row,) = [row for row in answer.rows if row.figure == "tube_rate"]

    assert row.nominal.m_as("N*m/rad") == pytest.approx(rate.nominal_value, rel=1e-12)
    assert row.uncertainty is not None
    # Moved to both ends of a tolerance, a fourth power bends by some millionths.
    assert row.uncertainty.m_as("N*m/rad") == pytest.approx(2.0 * rate.std_dev, rel=1e-5)
    share = (rate.error_components()[modulus] / rate.std_dev) ** 2
    assert row.shares[0].figure == "anchor.material.shear_modulus"
    assert row.shares[0].percent == pytest.approx(100.0 * share, rel=1e-4)
