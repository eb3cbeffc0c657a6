r"""Expanded uncertainties: the interval behind a ±, and the factor that widens to it.

An expanded uncertainty is a standard one times a coverage factor.  Either the
factor is chosen and stated (2 as a rule), or it follows from a coverage
probability and from how well the uncertainty itself is known: its degrees of
freedom, in Student's distribution.  Of drawn values the interval is read off
directly, with as many of them beyond either end.

Limits: degrees of freedom hold for a distribution near to the normal one; where one
rectangular input outweighs all others, the factor of a normal distribution is too
large, and an interval of draws is the better one.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from barwright.mechanics.common.requirements import refuse, require_finite, require_positive
from barwright.mechanics.common.solve import rising_root
from barwright.mechanics.common.types import Real

__all__ = [
    "coverage_factor",
    "expanded_uncertainty",
    "symmetric_interval",
]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(64)
# From here on Student's distribution is the normal one to the last digit.
_ENDLESS = 1e15
# Beyond so many standard deviations no floating-point number tells a coverage from 1.
_FARTHEST = 10.0
# Nearer to 1 a coverage is told from it by too few digits.
_MOST = 1.0 - 1e-9
# Logarithm of the gamma functions' ratio at a half apart, less half that of the argument:
# coefficients of its odd inverse powers, from the seventh down to the first.
_GAMMA_SERIES = (17.0 / 14336.0, -1.0 / 640.0, 1.0 / 192.0, -1.0 / 8.0)


def expanded_uncertainty(uncertainty: Real, *, coverage_factor: Real) -> Real:
    r"""Expand a standard uncertainty to the half width of a ±.

    .. math:: U = k \, u_c

    Parameters
    ----------
    uncertainty : float or array
        Standard uncertainty :math:`u_c`.
    coverage_factor : float or array
        The factor :math:`k`, to be stated beside it: 2, or what
        :func:`coverage_factor` gives.

    Returns
    -------
    float or array

    References
    ----------
    JCGM 100:2008 (GUM), 6.2.1 (from memory).

    Examples
    --------
    >>> expanded_uncertainty(32.0, coverage_factor=2.0)
    64.0
    """
    return coverage_factor * uncertainty


def coverage_factor(coverage: Real, *, degrees_of_freedom: Real = math.inf) -> Real:
    r"""Find the factor that widens a standard uncertainty to a coverage probability.

    .. math:: p = \frac{2 \, \Gamma(\frac{\nu + 1}{2})}{\sqrt{\pi} \, \Gamma(\frac{\nu}{2})}
              \int_0^{\arctan (k / \sqrt \nu)} \cos^{\nu - 1} \theta \, \mathrm{d}\theta

    Parameters
    ----------
    coverage : float or array
        Coverage probability :math:`p` of the interval, between 0 and 1.
    degrees_of_freedom : float or array
        Effective degrees of freedom :math:`\nu`, cut to a whole number; infinite
        gives the factor of a normal distribution.

    Returns
    -------
    float or array

    Raises
    ------
    QuantityError
        If the coverage is not between 0 and 1, or there is less than one degree of freedom.

    Notes
    -----
    A whole number of degrees of freedom leaves the integrand without a pole, so that
    64 nodes of Gauss-Legendre quadrature meet it to the last digits.

    References
    ----------
    JCGM 100:2008 (GUM), G.4.1 and table G.2 (from memory); checked against
    Student's distribution of ``scipy``.

    Examples
    --------
    >>> f"{coverage_factor(0.95):.3f}"
    '1.960'
    >>> f"{coverage_factor(0.99, degrees_of_freedom=16.75):.2f}"
    '2.92'
    """
    _refuse_coverage(coverage)
    freedom = np.asarray(degrees_of_freedom, dtype=np.float64)
    _refuse_freedom(freedom, where=~(freedom >= 1.0), expected="1 or more")
    whole = np.minimum(np.floor(freedom), _ENDLESS)
    root, scale = np.sqrt(whole), _student_scale(whole)

    def beyond(width: Real) -> tuple[Real, Real]:
        """Coverage that an angle, given as a width, has over the wanted one, and its slope."""
        angle = np.asarray(width / root)
        inside = _cosine_power(angle[..., None] * (_NODES + 1.0) / 2.0, whole[..., None])
        covered = scale * angle * (inside @ _WEIGHTS) / 2.0
        return covered - coverage, scale * _cosine_power(angle, whole) / root

    width = rising_root(beyond, low=0.0, high=np.minimum(root * np.pi / 2.0, _FARTHEST))
    result: Real = root * np.tan(width / root)
    return result


def symmetric_interval(outputs: ArrayLike, *, coverage: float) -> tuple[Real, Real]:
    """Find the interval of draws with equal numbers below and above it.

    Parameters
    ----------
    outputs : array
        Draws along the last axis, in any order.
    coverage : float
        Share of the draws that it contains, between 0 and 1.

    Returns
    -------
    (float or array, float or array)
        Its lower and upper end, which are draws.

    Raises
    ------
    QuantityError
        If the coverage is not between 0 and 1, a draw is not finite, or there are
        too few.

    References
    ----------
    JCGM 101:2008 (GUM supplement 1), 7.7.2 (from memory).

    Examples
    --------
    >>> low, high = symmetric_interval(range(1, 101), coverage=0.9)
    >>> float(low), float(high)
    (5.0, 95.0)
    """
    ordered, across = _ordered(outputs, coverage)
    first = (ordered.shape[-1] - across + 1) // 2 - 1
    return ordered[..., first], ordered[..., first + across]


def _cosine_power(angle: NDArray[np.float64], freedom: Real) -> NDArray[np.float64]:
    """Cosine to the power of the degrees of freedom less one, to the last digit near 1."""
    power: NDArray[np.float64] = np.exp(-0.5 * (freedom - 1.0) * np.log1p(np.tan(angle) ** 2))
    return power


def _student_scale(freedom: NDArray[np.float64]) -> NDArray[np.float64]:
    """Twice the ratio of gamma functions in Student's distribution, over the root of pi.

    The ratio is that of 40 more degrees of freedom, where a short series has
    every digit, brought down by the recurrence of the gamma function.
    """
    far = (freedom + 40.0) / 2.0
    series = np.polyval(_GAMMA_SERIES, far**-2.0) / far
    down = freedom[..., None] + np.arange(0.0, 40.0, 2.0)
    ratio = np.sqrt(far) * np.exp(series) * np.prod(down / (down + 1.0), axis=-1)
    scale: NDArray[np.float64] = 2.0 / math.sqrt(math.pi) * ratio
    return scale


def _ordered(outputs: ArrayLike, coverage: float) -> tuple[NDArray[np.float64], int]:
    """Draws in order, and over how many steps of that order an interval goes."""
    _refuse_coverage(coverage)
    given = np.asarray(outputs, dtype=np.float64)
    require_finite(outputs=given)
    count = given.shape[-1]
    across = math.floor(coverage * count + 0.5)
    refuse(
        "Q302",
        count,
        where=not 0 < across < count,
        expected=f"more draws, for some to lie within {coverage:g} and some beyond",
        remedy="draw more",
        key="outputs",
    )
    return np.sort(given), across


def _refuse_coverage(coverage: Real) -> None:
    require_positive(coverage=coverage)
    refuse(
        "Q302",
        coverage,
        where=np.greater(coverage, _MOST),
        expected="less than 1 by a part in a thousand million",
        remedy="write 0.95 for 95 %",
        key="coverage",
    )


def _refuse_freedom(
    freedom: NDArray[np.float64], *, where: NDArray[np.bool_], expected: str
) -> None:
    """Refuse degrees of freedom; unlike other figures they may be infinite."""
    refuse(
        "Q302",
        freedom,
        where=where,
        expected=f"{expected} degrees of freedom",
        remedy="give the count of readings less one, or infinity",
        key="degrees_of_freedom",
    )
