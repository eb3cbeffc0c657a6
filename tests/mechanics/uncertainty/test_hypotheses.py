"""Tests of the kernels that weigh hypotheses by readings."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special, stats

from barwright.errors import QuantityError
from barwright.mechanics.uncertainty.hypotheses import (
    blunder_probability,
    count_probability,
    deviations_density,
    expected_certainty,
    posterior,
    reading_density,
)

figures = st.floats(-50.0, 50.0)
errors = st.floats(0.01, 5.0)
shares = st.floats(0.0, 1.0)


@given(reading=figures, expected=figures, error=errors, share=shares, span=st.floats(1.0, 90.0))
def test_a_reading_is_right_or_a_blunder(
    reading: float, expected: float, error: float, share: float, span: float
) -> None:
    density = reading_density(
        reading, expected=expected, uncertainty=error, blunder_share=share, span=span
    )

    near = stats.norm.pdf(reading, loc=expected, scale=error)
    assert density == pytest.approx((1.0 - share) * near + share / span, rel=1e-12)
    if density > 0.0:
        blunder = blunder_probability(
            reading, expected=expected, uncertainty=error, blunder_share=share, span=span
        )
        assert blunder == pytest.approx(share / span / density, rel=1e-12)


def test_neither_an_error_nor_a_span_is_zero() -> None:
    for wrong in ({"uncertainty": 0.0, "span": 1.0}, {"uncertainty": 1.0, "span": 0.0}):
        with pytest.raises(QuantityError):
            reading_density(1.0, expected=1.0, blunder_share=0.1, **wrong)
    with pytest.raises(QuantityError):
        count_probability(3, expected=3, blunder_share=0.1, span=0.0)


@given(expected=st.integers(3, 60), share=shares)
def test_counts_from_one_up_to_the_span_hold_all_but_what_lies_beyond(
    expected: int, share: float
) -> None:
    counts = np.arange(1.0, 101.0)

    found = count_probability(counts, expected=expected, blunder_share=share, span=100.0)

    assert np.sum(found) == pytest.approx(1.0)
    assert np.argmax(found) == expected - 1 or share > 0.8
    near = count_probability(expected + 1, expected=expected, blunder_share=share, span=100.0)
    far = count_probability(expected + 2, expected=expected, blunder_share=share, span=100.0)
    assert near - far == pytest.approx(share / 4.0)


@given(
    logs=st.lists(st.floats(-900.0, 10.0), min_size=1, max_size=6),
    weights=st.lists(st.floats(0.01, 1.0), min_size=6, max_size=6),
)
def test_the_posterior_is_the_softmax_of_densities_and_prior(
    logs: list[float], weights: list[float]
) -> None:
    prior = np.array(weights[: len(logs)])

    found = posterior(np.array(logs), prior=prior)

    np.testing.assert_allclose(found, special.softmax(np.array(logs) + np.log(prior)), atol=1e-15)


def test_a_hypothesis_that_was_ruled_out_stays_out() -> None:
    assert posterior(np.array([0.0, 3.0]), prior=np.array([1.0, 0.0])).tolist() == [1.0, 0.0]


def test_certainty_is_the_share_of_draws_that_the_likeliest_hypothesis_gets_right() -> None:
    chance = np.random.default_rng(5)
    prior, means = np.array([0.5, 0.3, 0.2]), np.array([0.0, 1.5, 4.0])
    edges = np.linspace(-6.0, 10.0, 3201)
    outcomes, widths = (edges[1:] + edges[:-1]) / 2.0, np.diff(edges)
    joint = prior[:, np.newaxis] * stats.norm.pdf(outcomes, loc=means[:, np.newaxis])

    found = expected_certainty(joint, widths=widths, probabilities=prior)

    true = chance.choice(3, size=200_000, p=prior)
    readings = chance.normal(means[true])
    weights = prior[:, np.newaxis] * stats.norm.pdf(readings, loc=means[:, np.newaxis])
    assert found == pytest.approx(np.mean(np.argmax(weights, axis=0) == true), abs=0.004)


def test_what_lies_beyond_the_outcomes_counts_for_the_likeliest_there() -> None:
    joint = np.array([[0.4], [0.1]])

    found = expected_certainty(joint, widths=np.ones(1), probabilities=np.array([0.5, 0.5]))

    assert found == pytest.approx(0.4 + 0.4)


@given(
    deviations=st.lists(figures, min_size=1, max_size=4),
    own=st.lists(errors, min_size=4, max_size=4),
    common=st.floats(0.0, 5.0),
)
def test_deviations_are_those_of_a_normal_distribution_with_a_shared_part(
    deviations: list[float], own: list[float], common: float
) -> None:
    errors_of_each = np.array(own[: len(deviations)])

    found = deviations_density(np.array(deviations), own=errors_of_each, common=common)

    covariance = np.diag(errors_of_each**2) + common**2
    expected = stats.multivariate_normal(np.zeros(len(deviations)), covariance, allow_singular=True)
    assert found == pytest.approx(expected.logpdf(deviations), rel=1e-6, abs=1e-6)
