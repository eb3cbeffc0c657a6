r"""Balance of a whole vehicle: shares of its load, and how its adjusters change them.

Four adjusters move four things: heave, roll and pitch of the body, and the one
*self-stress*, loads that grow on one diagonal and shrink on the other.  Heights of
a rigid body use up three of them, the cross weight the fourth.  The sum of the loads and
the shares of axles and sides belong to the weight, not to the adjusters; of the
other wishes, :func:`nearest_settings` meets as many as it can, within the threads.

Linear, with the assumptions and limits of :mod:`~barwright.mechanics.vehicle.vehicle`.
Cross weight is the share of the front right and rear left wheels; that the trade
means this diagonal is common practice, without a source.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike

from barwright.errors import QuantityError
from barwright.mechanics.common.requirements import refuse, require_finite
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.static_equilibrium import influence
from barwright.mechanics.vehicle.vehicle import (
    Array,
    Vehicle,
    equations,
    figures,
    given_corners,
)

__all__ = [
    "cross_weight",
    "cross_weight_change",
    "front_share",
    "left_share",
    "nearest_settings",
    "self_stress",
]

_CROSS = np.array([0.0, 1.0, 1.0, 0.0])
_FRONT = np.array([1.0, 1.0, 0.0, 0.0])
_LEFT = np.array([1.0, 0.0, 1.0, 0.0])


def cross_weight(loads: ArrayLike) -> Real:
    """Share of the load that rests on the front right and rear left wheels.

    Parameters
    ----------
    loads : array (..., 4) [N, or any unit of load]
        Of the four wheels.

    Returns
    -------
    float or array
        Of the sum; 0.5 where both diagonals carry alike.

    Raises
    ------
    QuantityError
        Q301 if a load is not finite; Q302 if they are not those of four corners, or
        their sum is not above zero.

    References
    ----------
    Definition; common practice, no source.

    Examples
    --------
    >>> f"{cross_weight((3600.0, 3400.0, 3200.0, 3300.0)):.4f}"
    '0.4889'
    """
    return _share(loads, of=_CROSS)


def front_share(loads: ArrayLike) -> Real:
    """Share of the load that rests on the front wheels.

    Parameters
    ----------
    loads : array (..., 4) [N, or any unit of load]
        Of the four wheels.

    Returns
    -------
    float or array

    Raises
    ------
    QuantityError
        Q301 if a load is not finite; Q302 if they are not those of four corners, or
        their sum is not above zero.

    References
    ----------
    Definition.

    Examples
    --------
    >>> f"{front_share((3600.0, 3400.0, 3200.0, 3300.0)):.4f}"
    '0.5185'
    """
    return _share(loads, of=_FRONT)


def left_share(loads: ArrayLike) -> Real:
    """Share of the load that rests on the left wheels.

    Parameters
    ----------
    loads : array (..., 4) [N, or any unit of load]
        Of the four wheels.

    Returns
    -------
    float or array

    Raises
    ------
    QuantityError
        Q301 if a load is not finite; Q302 if they are not those of four corners, or
        their sum is not above zero.

    References
    ----------
    Definition.

    Examples
    --------
    >>> f"{left_share((3600.0, 3400.0, 3200.0, 3300.0)):.4f}"
    '0.5037'
    """
    return _share(loads, of=_LEFT)


def self_stress(vehicle: Vehicle) -> Array:
    r"""Corner loads that balance each other without any weight.

    With the rises :math:`G` of the corners in heave, roll and pitch, the one
    :math:`s` with :math:`G^T s = 0`, from the minors of :math:`G`.

    Parameters
    ----------
    vehicle : Vehicle
        Its wheels count, nothing else.

    Returns
    -------
    array (..., 4)
        Positive on the diagonal of the front left wheel, where they add up to 1, if the
        wheels stand in a quadrilateral without a dent.

    References
    ----------
    Null space of the equilibrium; checked against scipy.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.3, 0.0, 0.65),
    ...               wheels=((2.5, 0.7), (2.5, -0.7), (0.0, 0.8), (0.0, -0.8)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> " ".join(f"{load:+.3f}" for load in self_stress(van))
    '+0.533 -0.533 -0.467 +0.467'
    """
    rises = equations(vehicle).rises
    minors = [np.linalg.det(np.delete(rises, corner, axis=-2)) for corner in range(4)]
    loads = np.stack([minors[0], -minors[1], minors[2], -minors[3]], axis=-1)
    return figures(2.0 * loads / np.sum(np.abs(loads), axis=-1, keepdims=True))


def cross_weight_change(vehicle: Vehicle) -> Array:
    """Change of the cross weight for a change of free height at each corner.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.

    Returns
    -------
    array (..., 4) [1/m]
        Times a corner's height per turn of its nut, the change for a turn there.

    References
    ----------
    Derivative of :func:`cross_weight` after
    :func:`~barwright.mechanics.vehicle.static_equilibrium.settle`.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.3, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> " ".join(f"{change / 1000:+.2%}/mm" for change in cross_weight_change(van))
    '-0.08%/mm +0.08%/mm +0.08%/mm -0.08%/mm'
    """
    crossed = np.sum(_CROSS[:, None] * influence(vehicle).loads, axis=-2)
    return figures(crossed / _total(vehicle)[..., None])


_MOST_NUTS = 6


def nearest_settings(
    influences: ArrayLike, wishes: ArrayLike, *, low: ArrayLike, high: ArrayLike
) -> Array:
    r"""Least-squares settings of some adjusters within their bounds.

    .. math:: \min_{l \le x \le h} \sum_i \left(\sum_j A_{ij} x_j - b_i\right)^2

    Every side of the box is tried: within one, the settings that lie on a bound stay there,
    and the others are free.  Where many settings are as good, the smallest are taken.

    Parameters
    ----------
    influences : array (m, n)
        Change :math:`A` of each wish with each setting, over how far it may be missed.
    wishes : array (m,)
        Wanted change :math:`b`, likewise.
    low, high : array (n,)
        Least and greatest setting; at most six adjusters.

    Returns
    -------
    array (n,)

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if there are more than six adjusters, or a least
        setting is above the greatest.

    References
    ----------
    Enumeration of the active bounds; checked against scipy.

    Examples
    --------
    Two nuts, two heights; the second thread ends too early:

    >>> nearest_settings([[5, 1], [1, 5]], [6, 12], low=[-3, -3], high=[3, 2]).round(3).tolist()
    [0.846, 2.0]
    """
    matrix, aim, least, most = (figures(given) for given in (influences, wishes, low, high))
    require_finite(influences=matrix, wishes=aim, low=least, high=most)
    if least.size > _MOST_NUTS or np.any(least > most):
        raise QuantityError(
            "Q302",
            value=f"{least.size} settings between {least.tolist()} and {most.tolist()}",
            expected=f"at most {_MOST_NUTS}, none below its own least",
            remedy="leave out what no nut sets, and check the ends of the threads",
            key="low",
        )
    best, missed = least, math.inf
    for found in _candidates(matrix, aim, least, most):
        miss = float(np.sum((matrix @ found - aim) ** 2) + _SMALLEST * np.sum(found**2))
        if miss < missed:
            best, missed = found, miss
    return best


# Among settings that are equally good the smaller ones win.
_SMALLEST = 1e-12


def _candidates(matrix: Array, aim: Array, low: Array, high: Array) -> Iterator[Array]:
    """Yield the best settings of each side of the box that lie in it."""
    for sides in itertools.product((None, low, high), repeat=low.size):
        found = np.array([0.0 if side is None else side[i] for i, side in enumerate(sides)])
        free = [i for i, side in enumerate(sides) if side is None]
        if free:
            rest = aim - matrix @ found
            found[free] = np.linalg.lstsq(matrix[:, free], rest, rcond=None)[0]
        if np.all((found >= low - _ROUNDING) & (found <= high + _ROUNDING)):
            yield np.clip(found, low, high)


# Rounding of a setting that lies on its bound.
_ROUNDING = 1e-9


def _share(loads: ArrayLike, *, of: Array) -> Real:
    """Share of the load that some of the wheels carry."""
    array = given_corners(loads, key="loads")
    total = np.sum(array, axis=-1)
    refuse(
        "Q302",
        total,
        where=~(total > 0.0),
        expected="loads whose sum is more than 0",
        remedy="check their signs",
        key="loads",
    )
    result: Real = np.divide(np.sum(of * array, axis=-1), total)
    return result


def _total(vehicle: Vehicle) -> Array:
    """Weight of all that stands on the road [N]."""
    return (vehicle.mass + figures(np.sum(vehicle.unsprung_masses, axis=-1))) * STANDARD_GRAVITY
