"""Rows of `barwright.mechanics.uncertainty.hypotheses`.

Mixtures of a normal and a uniform distribution by scipy; counts by its discrete distributions.
"""

from __future__ import annotations

import numpy as np
import scipy.integrate
import scipy.special
import scipy.stats

from barwright.mechanics.uncertainty.hypotheses import (
    blunder_probability,
    count_probability,
    deviations_density,
    expected_certainty,
    posterior,
    reading_density,
)
from validation import Kind, Row

READING = 24.27
NEAR = scipy.stats.norm(24.2, 0.05)
ANYWHERE = scipy.stats.uniform(0.0, 30.0)
SHARE = 0.02
GIVEN = "24.27 mm where 24.2 mm ± 0.05 mm is expected, 2 % blunders within 30 mm"


def density_by_scipy() -> float:
    """Density of the mixture."""
    return float((1.0 - SHARE) * NEAR.pdf(READING) + SHARE * ANYWHERE.pdf(READING))


def blunder_by_scipy() -> float:
    """Share of the uniform part in it."""
    return float(SHARE * ANYWHERE.pdf(READING) / density_by_scipy())


def count_by_scipy() -> float:
    """Probability of 40 where 39 teeth are: half of the wrong counts are 38 or 40."""
    one_off = scipy.stats.rv_discrete(values=([38, 40], [0.5, 0.5])).pmf(40)
    anything = scipy.stats.randint(1, 61).pmf(40)
    return float(SHARE * (0.5 * one_off + 0.5 * anything))


def certainty_by_scipy() -> float:
    """Chance that the nearer of two means is the right one, by adaptive integration."""
    low, high = scipy.stats.norm(0.0, 1.0), scipy.stats.norm(1.5, 1.0)
    found, _ = scipy.integrate.quad(
        lambda x: max(0.6 * low.pdf(x), 0.4 * high.pdf(x)), -9.0, 11.0, points=[1.02], limit=200
    )
    return float(found)


def certainty() -> float:
    """The same by the kernel."""
    edges = np.linspace(-9.0, 11.0, 20_001)
    outcomes = (edges[1:] + edges[:-1]) / 2.0
    prior = np.array([0.6, 0.4])
    joint = prior[:, np.newaxis] * np.exp(-0.5 * (outcomes - [[0.0], [1.5]]) ** 2)
    joint /= np.sqrt(2.0 * np.pi)
    return expected_certainty(joint, widths=np.diff(edges), probabilities=prior)


ROWS = [
    Row(
        of="hypotheses.reading_density",
        source="scipy: normal and uniform distribution",
        given=GIVEN,
        unit="1/mm",
        expected=density_by_scipy,
        got=lambda: float(
            reading_density(
                READING, expected=24.2, uncertainty=0.05, blunder_share=SHARE, span=30.0
            )
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="hypotheses.blunder_probability",
        source="scipy: normal and uniform distribution",
        given=GIVEN,
        unit="",
        expected=blunder_by_scipy,
        got=lambda: float(
            blunder_probability(
                READING, expected=24.2, uncertainty=0.05, blunder_share=SHARE, span=30.0
            )
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="hypotheses.count_probability",
        source="scipy: discrete distributions",
        given="40 counted where 39 are, 2 % wrong counts, up to 60",
        unit="",
        expected=count_by_scipy,
        got=lambda: float(count_probability(40, expected=39, blunder_share=SHARE, span=60)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="hypotheses.deviations_density",
        source="scipy: multivariate normal distribution",
        given="−12, 1 and 3 mm, own 2, 2 and 3 mm, common 8 mm",
        unit="",
        expected=lambda: float(
            scipy.stats.multivariate_normal(np.zeros(3), np.diag([4.0, 4.0, 9.0]) + 64.0).logpdf(
                [-12.0, 1.0, 3.0]
            )
        ),
        got=lambda: float(
            deviations_density(
                np.array([-12.0, 1.0, 3.0]), own=np.array([2.0, 2.0, 3.0]), common=8.0
            )
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="hypotheses.posterior",
        source="scipy: softmax",
        given="log densities −2.1, −0.7 and −3.0; priors 0.5, 0.3 and 0.2: the second",
        unit="",
        expected=lambda: float(
            scipy.special.softmax(np.array([-2.1, -0.7, -3.0]) + np.log([0.5, 0.3, 0.2]))[1]
        ),
        got=lambda: float(
            posterior(np.array([-2.1, -0.7, -3.0]), prior=np.array([0.5, 0.3, 0.2]))[1]
        ),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="hypotheses.expected_certainty",
        source="scipy: adaptive integration over normal distributions",
        given="means 0 and 1.5, both ± 1, with 60 % and 40 % before",
        unit="",
        expected=certainty_by_scipy,
        got=certainty,
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
]
