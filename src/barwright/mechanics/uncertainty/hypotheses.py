r"""Which of several hypotheses holds, by readings that err a little, or altogether.

A reading :math:`x` of a figure that should be :math:`\mu` lies near it, within the combined
standard uncertainty :math:`u` of both; or it is a blunder, which says nothing: a misread scale,
the wrong end of a part, a worn place.  Readings are independent of one another.

Limits: a share of blunders and a span are assumptions, not measurements; they decide how soon
a reading that disagrees is doubted rather than the hypothesis.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.requirements import require_positive
from barwright.mechanics.common.types import Real

__all__ = [
    "blunder_probability",
    "count_probability",
    "deviations_density",
    "expected_certainty",
    "posterior",
    "reading_density",
]


def reading_density(
    observed: Real, *, expected: Real, uncertainty: Real, blunder_share: Real, span: Real
) -> Real:
    r"""Density of a reading where its figure is as expected.

    .. math:: p(x) = \frac{1 - \varepsilon}{u \sqrt{2\pi}}
              \exp \left( -\frac{(x - \mu)^2}{2 u^2} \right) + \frac{\varepsilon}{S}

    Parameters
    ----------
    observed : float or array
        :math:`x`.
    expected : float or array
        :math:`\mu`.
    uncertainty : float or array
        Standard uncertainty :math:`u` of reading and expectation together.
    blunder_share : float or array
        Share :math:`\varepsilon` of readings that are blunders, from 0 to 1.
    span : float or array
        Width :math:`S` of the range in which a blunder may lie anywhere.

    Returns
    -------
    float or array
        In the inverse unit of the reading.

    Raises
    ------
    QuantityError
        If the uncertainty or the span is not above zero.

    References
    ----------
    Readings with outliers as a mixture of two distributions: Box and Tiao, *Biometrika* 55,
    1968 (from memory); checked against ``scipy.stats``.

    Examples
    --------
    >>> density = reading_density(
    ...     24.2, expected=24.1, uncertainty=0.05, blunder_share=0.02, span=30.0
    ... )
    >>> f"{density:.3f} per mm"
    '1.059 per mm'
    """
    require_positive(uncertainty=uncertainty, span=span)
    off = (np.asarray(observed) - expected) / uncertainty
    near = np.exp(-0.5 * off**2) / (uncertainty * math.sqrt(math.tau))
    return (1.0 - blunder_share) * near + blunder_share / span


def blunder_probability(
    observed: Real, *, expected: Real, uncertainty: Real, blunder_share: Real, span: Real
) -> Real:
    r"""Probability that a reading is a blunder, where its figure is as expected.

    .. math:: P = \frac{\varepsilon / S}{p(x)}

    Parameters
    ----------
    observed, expected, uncertainty, blunder_share, span : float or array
        As for :func:`reading_density`.

    Returns
    -------
    float or array
        From 0 to 1.

    Raises
    ------
    QuantityError
        If the uncertainty or the span is not above zero.

    References
    ----------
    As for :func:`reading_density`, by Bayes' theorem.

    Examples
    --------
    >>> blunder = blunder_probability(
    ...     25.0, expected=24.1, uncertainty=0.05, blunder_share=0.02, span=30.0
    ... )
    >>> f"{blunder:.3f}"
    '1.000'
    """
    density = reading_density(
        observed,
        expected=expected,
        uncertainty=uncertainty,
        blunder_share=blunder_share,
        span=span,
    )
    return blunder_share / span / density


def count_probability(counted: Real, *, expected: Real, blunder_share: Real, span: Real) -> Real:
    r"""Probability of a count where there are as many as expected.

    Half of the miscounts are one off, either way; the other half may be anything.

    .. math:: P(n) = (1 - \varepsilon) [n = m]
              + \frac{\varepsilon}{4} [|n - m| = 1] + \frac{\varepsilon}{2 S}

    Parameters
    ----------
    counted, expected : float or array
        :math:`n` and :math:`m`.
    blunder_share : float or array
        Share :math:`\varepsilon` of counts that are wrong, from 0 to 1.
    span : float or array
        Number :math:`S` of counts that a wrong one may be.

    Returns
    -------
    float or array
        From 0 to 1.

    Raises
    ------
    QuantityError
        If the span is not above zero.

    References
    ----------
    Common practice, no source: who miscounts teeth is mostly off by one.

    Examples
    --------
    >>> f"{count_probability(39, expected=39, blunder_share=0.02, span=60):.4f}"
    '0.9802'
    >>> f"{count_probability(40, expected=39, blunder_share=0.02, span=60):.4f}"
    '0.0052'
    """
    require_positive(span=span)
    off = np.abs(np.asarray(counted) - expected)
    right, near = np.asarray(off == 0.0, float), np.asarray(off == 1.0, float)
    return (1.0 - blunder_share) * right + blunder_share * (near / 4.0 + 0.5 / span)


def deviations_density(
    deviations: NDArray[np.float64],
    *,
    own: NDArray[np.float64],
    common: float,
) -> NDArray[np.float64]:
    r"""Natural logarithm of the density of deviations that partly share their error.

    .. math:: \ln p = -\tfrac{1}{2} \left( \sum_i \frac{d_i^2}{u_i^2}
              - \frac{\left( \sum_i d_i / u_i^2 \right)^2}{u_0^{-2} + \sum_i u_i^{-2}}
              + \sum_i \ln u_i^2 + \ln \left( 1 + u_0^2 \sum_i u_i^{-2} \right)
              + n \ln 2\pi \right)

    Parameters
    ----------
    deviations : array
        :math:`d_i` along the last axis.
    own : array
        Standard uncertainty :math:`u_i` of each that it shares with no other.
    common : float
        Standard uncertainty :math:`u_0` of what moves all of them alike; may be 0.

    Returns
    -------
    array

    Raises
    ------
    QuantityError
        If an own uncertainty is not above zero.

    References
    ----------
    Normal distribution with the covariance :math:`u_i^2 \delta_{ij} + u_0^2`, inverted by the
    formula of Sherman and Morrison, 1950 (from memory); checked against ``scipy.stats``.

    Examples
    --------
    >>> both_low = np.array([-12.0, -11.0])
    >>> one_low = np.array([-12.0, 1.0])
    >>> own = np.array([2.0, 2.0])
    >>> bool(deviations_density(both_low, own=own, common=8.0)
    ...      > deviations_density(one_low, own=own, common=8.0))
    True
    """
    require_positive(own=own)
    weights = 1.0 / own**2
    together = 1.0 + common**2 * np.sum(weights)
    pulled = np.sum(deviations * weights, axis=-1) ** 2 * common**2 / together
    square = np.sum(deviations**2 * weights, axis=-1) - pulled
    logs = np.log(together) - np.sum(np.log(weights)) + len(own) * math.log(math.tau)
    return np.asarray(-0.5 * (square + logs))


def posterior(
    log_densities: NDArray[np.float64], *, prior: NDArray[np.float64]
) -> NDArray[np.float64]:
    r"""Probability of each hypothesis after the readings.

    .. math:: P_h = \frac{\pi_h \prod_i p_{h,i}}{\sum_k \pi_k \prod_i p_{k,i}}

    Parameters
    ----------
    log_densities : array
        Natural logarithm of each hypothesis' density of all readings,
        :math:`\sum_i \ln p_{h,i}`, along the last axis.
    prior : array
        Probability :math:`\pi_h` before them.

    Returns
    -------
    array
        Along the last axis, with the sum 1.

    References
    ----------
    Bayes' theorem; checked against ``scipy.special.softmax``.

    Examples
    --------
    >>> print(posterior(np.log([0.3, 0.1]), prior=np.array([0.5, 0.5])))
    [0.75 0.25]
    """
    with np.errstate(divide="ignore"):
        weights = log_densities + np.log(prior)
    weights = np.exp(weights - np.max(weights, axis=-1, keepdims=True))
    return np.asarray(weights / np.sum(weights, axis=-1, keepdims=True))


def expected_certainty(
    joint: NDArray[np.float64],
    *,
    widths: NDArray[np.float64],
    probabilities: NDArray[np.float64],
) -> float:
    r"""Probability that the likeliest hypothesis is the true one, after one more reading.

    .. math:: C = \sum_x \max_h (P_h \, p_h(x)) \, \Delta x
              + \max_h \left( P_h - \sum_x P_h \, p_h(x) \, \Delta x \right)

    The second term takes all that lies beyond the outcomes for one more outcome.

    Parameters
    ----------
    joint : array
        :math:`P_h \, p_h(x)`: a row for each hypothesis, a column for each outcome.
    widths : array
        :math:`\Delta x` of each outcome; 1 for a count.
    probabilities : array
        :math:`P_h` before that reading.

    Returns
    -------
    float
        From the greatest of the probabilities to 1.

    References
    ----------
    Probability of a right decision by the greatest posterior: Berger, *Statistical Decision
    Theory and Bayesian Analysis*, 1985 (from memory); checked against draws.

    Examples
    --------
    >>> even = np.array([0.5, 0.5])
    >>> tells = np.array([[0.9, 0.1], [0.1, 0.9]])
    >>> expected_certainty(even[:, np.newaxis] * tells, widths=np.ones(2), probabilities=even)
    0.9
    """
    shares = joint * widths
    beyond = np.max(np.maximum(probabilities - np.sum(shares, axis=1), 0.0))
    return float(np.sum(np.max(shares, axis=0)) + beyond)
