r"""What missing teeth cost: the load of the most loaded tooth of a splined head.

It is computed, not printed: equal teeth on a rigid head that is free to shift in its
socket, with no load but the torque.  A load of the arm across the head, and teeth that are
not cut alike, add to it.

The other factors of the formulas in :mod:`barwright.mechanics.spline.capacity`, for what
drives a spline, for its life and for a load that its length shares unevenly, are the
caller's own.  The printed tables of them are for the couplings of engines and motors: no row
names a wheel, and a bar's heads run far above the stresses that go with them.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from barwright.errors import QuantityError

__all__ = ["missing_tooth_factor"]


def missing_tooth_factor(*, teeth: int, missing: Iterable[int]) -> float:
    r"""Load of the most loaded tooth, divided by the even share of a whole circle.

    The head turns by :math:`\omega` and shifts by :math:`(u, v)`; the tooth at the angle
    :math:`\theta_i` of the circle, of radius 1, takes the share

    .. math:: f_i = \max(0, \omega - u \sin\theta_i + v \cos\theta_i), \qquad
              \sum_i f_i = 1, \qquad \sum_i f_i \sin\theta_i = \sum_i f_i \cos\theta_i = 0

    of the torque, and the factor is :math:`N \max_i f_i`.  No tooth can pull.  The pressure
    angle does not change the shares.

    Parameters
    ----------
    teeth : int
        Teeth :math:`N` of the whole circle.
    missing : iterable of int
        Places of the circle without a tooth that carries, counted from any of them in
        either sense: the maker's blank, teeth that were cut.

    Returns
    -------
    float
        1 for a whole circle; infinite where the teeth that are left stand so much on one
        side that they balance no torque by themselves.

    Raises
    ------
    QuantityError
        If no tooth is left.

    Notes
    -----
    Results are kept, so that many choices of teeth can be compared at little cost.

    References
    ----------
    Balance of a rigid body on equal springs; checked by least complementary energy and
    with a multibody engine.

    Examples
    --------
    >>> for missing in ([0], [0, 1], [0, 20]):
    ...     print(f"{missing_tooth_factor(teeth=40, missing=missing):.3f}")
    1.080
    1.173
    1.053
    """
    gaps = frozenset(place % teeth for place in missing)
    if len(gaps) == teeth:
        raise QuantityError(
            "Q302",
            value=f"{len(gaps)} of {teeth}",
            expected="fewer teeth missing than the circle has",
            remedy="give the teeth of the whole circle and the places of those that are missing",
            key="missing",
        )
    return _greatest_share(teeth, gaps) * teeth


@functools.lru_cache(maxsize=65536)
def _greatest_share(teeth: int, gaps: frozenset[int]) -> float:
    """Greatest share of one tooth in the torque."""
    angles = math.tau / teeth * np.array(sorted(set(range(teeth)) - gaps))
    stretch = np.column_stack([-np.sin(angles), np.cos(angles), np.ones_like(angles)])
    carries = np.ones(angles.size, dtype=bool)
    shares = _shares(stretch, carries)
    # A tooth that would have to pull comes free: without it the others balance anew.
    while shares is not None and np.any(shares[carries] < -_SHARE_ROUNDING):
        carries &= shares >= -_SHARE_ROUNDING
        shares = _shares(stretch, carries)
    return math.inf if shares is None else float(np.max(shares))


def _shares(stretch: NDArray[np.float64], carries: NDArray[np.bool_]) -> NDArray[np.float64] | None:
    """Shares of all teeth when some carry; none where these cannot balance the torque."""
    held = stretch[carries]
    stiffness = held.T @ held
    torque = np.array([0.0, 0.0, 1.0])
    moved, *_ = np.linalg.lstsq(stiffness, torque, rcond=_SHARE_ROUNDING)
    if not np.allclose(stiffness @ moved, torque, rtol=0.0, atol=1e-6):
        return None
    result: NDArray[np.float64] = stretch @ moved
    return result


# Rounding of a share of the torque.
_SHARE_ROUNDING = 1e-9
