r"""Uncertainty of a result from that of its inputs: first-order propagation.

The model is that of the GUM: over the uncertainty of its inputs a function is taken
as straight, so that variances add.  A function takes one array with its inputs
along the first axis and gives a number or an array of outputs; any callable will
do, since slopes are taken by central differences.

Limits: a standard uncertainty stands for all that is known of an input, and a curve
that bends within it is not seen; :mod:`barwright.mechanics.uncertainty.sampling` sees it.  A half
width that nothing more is known of is taken as that of a rectangle, within which no
value is likelier than another; so is the tolerance of a part's figure.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import ArrayLike, NDArray

from barwright.errors import QuantityError
from barwright.mechanics.common.requirements import require_not_negative
from barwright.mechanics.common.types import Real

__all__ = [
    "FirstOrder",
    "Function",
    "combined_uncertainty",
    "first_order",
    "rectangular_uncertainty",
    "sensitivities",
    "standard_uncertainty",
    "variance_shares",
]

Function: TypeAlias = Callable[[NDArray[np.float64]], Real]
"""From inputs along the first axis to an output, or to outputs along the first axis."""

# Far enough for the last digits to tell a slope, near enough for a curve to look straight.
_STEP = 1e-3
_LEAST_STEP = float(np.cbrt(np.finfo(np.float64).eps))

# What rounding may leave a matrix of correlations to lack.
_ROUNDING = 1e-9


@attrs.frozen(eq=False)
class FirstOrder:
    """A function's value with its uncertainty to first order.

    Parameters
    ----------
    value : float or array
        The function at the estimates of its inputs.
    uncertainty : float or array
        Standard uncertainty of the value.
    sensitivities : array
        Slope of the value in each input, inputs along the first axis.
    shares : array
        Share of each input in the variance, inputs along the first axis; with
        correlation a share can be negative.
    """

    value: Real
    uncertainty: Real
    sensitivities: NDArray[np.float64]
    shares: NDArray[np.float64]


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


def standard_uncertainty(expanded: Real, *, coverage_factor: Real) -> Real:
    r"""Find the standard uncertainty behind an expanded one.

    .. math:: u = \frac{U}{k}

    Parameters
    ----------
    expanded : float or array
        Expanded uncertainty :math:`U`, as a certificate states it.
    coverage_factor : float or array
        The factor :math:`k` that it states beside it.

    Returns
    -------
    float or array

    References
    ----------
    JCGM 100:2008 (GUM), 4.3.3 (from memory).

    Examples
    --------
    >>> standard_uncertainty(0.24, coverage_factor=3.0)
    0.08
    """
    return expanded / coverage_factor


def sensitivities(
    function: Function, *, values: ArrayLike, spacings: ArrayLike
) -> NDArray[np.float64]:
    r"""Slopes of a function in each of its inputs, by central differences.

    .. math:: c_i = \frac{f(x_i + h_i) - f(x_i - h_i)}{2 h_i}

    Parameters
    ----------
    function : callable
        From an array of inputs to an output or an array of outputs.
    values : array
        Inputs :math:`x_i` along the first axis.
    spacings : array
        Distances :math:`h_i`, of each input.

    Returns
    -------
    array
        Inputs along the first axis, then the axes of the outputs.

    References
    ----------
    Central differences; checked against derivatives by ``uncertainties``.

    Examples
    --------
    >>> slopes = sensitivities(lambda x: x[0] * x[1], values=[2.0, 3.0], spacings=[0.1, 0.1])
    >>> [round(float(slope), 9) for slope in slopes]
    [3.0, 2.0]
    """
    at = np.asarray(values, dtype=np.float64)
    by = np.broadcast_to(np.asarray(spacings, dtype=np.float64), at.shape)
    return np.stack([_slope(function, at, index, by[index]) for index in range(len(at))])


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


def first_order(
    function: Function,
    *,
    values: ArrayLike,
    uncertainties: ArrayLike,
    correlation: ArrayLike | None = None,
    spacing: float = _STEP,
) -> FirstOrder:
    r"""Propagate standard uncertainties through a function to first order.

    .. math:: u_c^2 = \sum_i \sum_j r_{ij} \, c_i u_i \, c_j u_j, \qquad
              c_i = \frac{\partial f}{\partial x_i}

    Parameters
    ----------
    function : callable
        From an array of inputs to an output or an array of outputs.
    values : array
        Estimates of the inputs :math:`x_i`, along the first axis.
    uncertainties : array
        Their standard uncertainties :math:`u_i`; 0 for an input that is exact.
    correlation : array, optional
        Matrix of correlation coefficients :math:`r_{ij}`; independent if left out.
    spacing : float
        Distance of the two points of a slope from the estimate, in standard
        uncertainties.  A small one gives the slope at the estimate; 1 gives the
        mean slope over one uncertainty either way.

    Returns
    -------
    FirstOrder

    Raises
    ------
    QuantityError
        If an uncertainty is negative, or the matrix is none of correlations.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1.2 and 5.2.2; for a step of 1, 5.1.3 note 2 (from memory).

    Examples
    --------
    Rate of a solid bar of 25.2 mm ± 0.05 mm and 77.2 GPa ± 3.9 GPa:

    >>> from barwright.mechanics.bar.torsion import torsional_rate
    >>> result = first_order(
    ...     lambda x: torsional_rate(diameter=x[0], shear_modulus=x[1], active_length=0.82),
    ...     values=[0.0252, 77.2e9],
    ...     uncertainties=[rectangular_uncertainty(0.05e-3), rectangular_uncertainty(3.9e9)],
    ... )
    >>> f"{result.value:.0f} N·m/rad, u {result.uncertainty:.0f} N·m/rad"
    '3727 N·m/rad, u 110 N·m/rad'
    >>> f"{result.shares[1]:.0%} of the variance by the modulus"
    '98% of the variance by the modulus'
    """
    at = np.asarray(values, dtype=np.float64)
    spread = np.broadcast_to(np.asarray(uncertainties, dtype=np.float64), at.shape)
    require_not_negative(uncertainties=spread)
    slopes = sensitivities(function, values=at, spacings=_steps(at, spread, spacing))
    # Outputs stand between the axis of inputs and those of a grid of inputs.
    contributions = np.stack([slopes[index] * spread[index] for index in range(len(at))])
    return FirstOrder(
        value=function(at),
        uncertainty=combined_uncertainty(contributions, correlation=correlation),
        sensitivities=slopes,
        shares=variance_shares(contributions, correlation=correlation),
    )


def _slope(
    function: Function, at: NDArray[np.float64], index: int, by: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Slope in one input, over the distance that its two points really have."""
    high, low = at.copy(), at.copy()
    high[index] += by
    low[index] -= by
    rise = np.asarray(function(high)) - np.asarray(function(low))
    slope: NDArray[np.float64] = rise / (high[index] - low[index])
    return slope


def _steps(
    at: NDArray[np.float64], spread: NDArray[np.float64], spacing: float
) -> NDArray[np.float64]:
    """Distances for the slopes: in uncertainties, or in the size of an input that is exact."""
    size = np.where(at == 0.0, 1.0, np.abs(at))
    return np.where(spread > 0.0, spacing * spread, _LEAST_STEP * size)


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
