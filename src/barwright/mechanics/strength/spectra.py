r"""A spectrum of strokes: how many of which size, without their order.

Where nobody has recorded a road, strokes are taken to thin out evenly in logarithms: the
number of those that reach a size falls in a straight line from all of them to one of the
greatest.  The form is common practice, no source.

Left out: the order of the strokes, which a sum of damage does not see; that the middle of
small strokes wanders about; and strokes beyond the greatest.  A recorded history replaces
it: :func:`~barwright.mechanics.strength.histories.count_cycles`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.requirements import refuse

__all__ = ["straight_line_spectrum"]


def straight_line_spectrum(
    *, strokes: float, classes: int
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    r"""Sizes and numbers of strokes whose cumulated number is a straight line in logarithms.

    .. math:: H(s) = N^{\,1 - s}, \qquad n_i = H(s_{i-1}) - H(s_i), \quad n_m = H(s_{m-1})

    Parameters
    ----------
    strokes : float
        Strokes :math:`N` of any size, above 1, of which one reaches the greatest.
    classes : int
        Classes :math:`m` of equal width, 1 or more.

    Returns
    -------
    (array, array)
        Shares :math:`s_i` of the greatest stroke, from small to 1, and numbers :math:`n_i`.
        Each stroke counts as large as its class allows, which is on the safe side.

    Raises
    ------
    QuantityError
        If there is no more than one stroke, or no class.

    References
    ----------
    Common practice, no source; checked against the integral of the straight line.

    Examples
    --------
    >>> shares, numbers = straight_line_spectrum(strokes=1e4, classes=4)
    >>> for share, number in zip(shares, numbers):
    ...     print(f"{number:.0f} of {share:.2f}")
    9000 of 0.25
    900 of 0.50
    90 of 0.75
    10 of 1.00
    """
    _refuse_up_to(1.0, strokes=strokes)
    _refuse_up_to(0.0, classes=classes)
    edges = np.linspace(0.0, 1.0, int(classes) + 1)
    reached = strokes ** (1.0 - edges)
    numbers = reached[:-1] - np.append(reached[1:-1], 0.0)
    return edges[1:], numbers


def _refuse_up_to(limit: float, **figures: float) -> None:
    for key, value in figures.items():
        refuse(
            "Q302",
            value,
            where=np.logical_not(np.greater(value, limit)),
            expected=f"more than {limit:g}",
            remedy="check the number",
            key=key,
        )
