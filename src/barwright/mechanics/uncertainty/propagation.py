r"""Uncertainty of a result from that of its inputs: first-order propagation.

The model is that of the GUM: over the uncertainty of its inputs a result is taken to
change along a straight line, so that variances add.  What each input contributes is
that change, for one standard uncertainty of it.

Limits: a standard uncertainty stands for all that is known of an input, and a curve
that bends within it is not seen; :mod:`barwright.mechanics.uncertainty.sampling` sees it.  A half
width that nothing more is known of is taken as that of a rectangle, within which no
value is likelier than another; so is the tolerance of a part's figure.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real

__all__ = [
    "combined_uncertainty",
    "rectangular_uncertainty",
    "variance_shares",
]

# What rounding may leave a matrix of correlations to lack.
_ROUNDING = 1e-9


def rectangular_uncertainty(half_width: Real) -> Real:
    r"""Return the standard uncertainty of a value that lies evenly within a half width.

    .. math:: u = \frac{a}{\sqrt 3}

    Parameters
    ----------
    half_width : float or array
        Half width :math:`a`: the tolerance in ``25.2 mm ± 0.05 mm``.

    Returns
    -------
    float or array

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.7 (from memory).

    Examples
    --------
    >>> f"{rectangular_uncertainty(0.05):.5f} mm"
    '0.02887 mm'
    """
    return half_width / math.sqrt(3.0)


def combined_uncertainty(contributions: ArrayLike, *, correlation: ArrayLike | None = None) -> Real:
    r"""Combine the inputs' contributions to one standard uncertainty.

    .. math:: u_c^2 = \sum_i \sum_j r_{ij} \, c_i u_i \, c_j u_j

    Parameters
    ----------
    contributions : array
        Slope times standard uncertainty :math:`c_i u_i` with its sign, inputs
        along the first axis.
    correlation : array, optional
        Matrix of correlation coefficients :math:`r_{ij}`; independent if left out.

    Returns
    -------
    float or array

    Raises
    ------
    QuantityError
        If the matrix is none of correlations.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.2 and 5.2.2 (from memory).

    Examples
    --------
    >>> float(combined_uncertainty([3.0, 4.0]))
    5.0
    """
    each = np.asarray(contributions, dtype=np.float64)
    variance: Real = np.sum(_variances(each, correlation), axis=0)
    # Inputs that cancel leave a variance of zero, which rounding may take below it.
    result: Real = np.sqrt(np.maximum(variance, 0.0))
    return result


def variance_shares(
    contributions: ArrayLike, *, correlation: ArrayLike | None = None
) -> NDArray[np.float64]:
    r"""Share of each input in the variance; the shares add up to 1.

    .. math:: s_i = \frac{c_i u_i}{u_c^2} \sum_j r_{ij} \, c_j u_j

    Parameters
    ----------
    contributions : array
        Slope times standard uncertainty :math:`c_i u_i` with its sign, inputs
        along the first axis.
    correlation : array, optional
        Matrix of correlation coefficients :math:`r_{ij}`; independent if left out.

    Returns
    -------
    array
        As the contributions; 0 where nothing contributes.

    Raises
    ------
    QuantityError
        If the matrix is none of correlations.

    References
    ----------
    Terms of the variance in JCGM 100:2008 (GUM), 5.2.2 (from memory).

    Examples
    --------
    >>> [round(float(share), 2) for share in variance_shares([3.0, 4.0])]
    [0.36, 0.64]
    """
    terms = _variances(np.asarray(contributions, dtype=np.float64), correlation)
    variance = np.sum(terms, axis=0)
    # Where the variance is zero all of its terms are; what is not a number stays so.
    shares: NDArray[np.float64] = terms / np.where(variance == 0.0, 1.0, variance)
    return shares


def _variances(
    contributions: NDArray[np.float64], correlation: ArrayLike | None
) -> NDArray[np.float64]:
    """Each input's term of the variance, with its half of those that it shares."""
    if correlation is None:
        return contributions**2
    matrix = np.asarray(correlation, dtype=np.float64)
    _refuse_no_correlations(matrix, len(contributions))
    terms: NDArray[np.float64] = contributions * np.tensordot(matrix, contributions, axes=1)
    return terms


def _refuse_no_correlations(matrix: NDArray[np.float64], count: int) -> None:
    """Refuse a matrix that no set of inputs can have; one with no number in it fails too."""
    possible = (
        matrix.shape == (count, count)
        and np.all(np.abs(matrix - matrix.T) <= _ROUNDING)
        and np.all(np.abs(np.diag(matrix) - 1.0) <= _ROUNDING)
        and np.linalg.eigvalsh(matrix)[0] >= -_ROUNDING
    )
    if not possible:
        raise QuantityError(
            "Q302",
            value=f"a matrix of shape {matrix.shape}",
            expected=f"correlations of {count} inputs: symmetric, 1 on the diagonal, and no "
            "combination of inputs with a negative variance",
            remedy="check the coefficients, each between -1 and 1",
            key="correlation",
        )
