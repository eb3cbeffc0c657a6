r"""Balance of a whole vehicle: shares of its load, and the settings for wanted ones.

Four adjusters move four things: heave, roll and pitch of the body, and the one
*self-stress*, loads that grow on one diagonal and shrink on the other.  Heights of
a rigid body use up three of them, the cross weight the fourth.  What is beyond is
refused with its reason: the sum of the loads and the shares of axles and sides
belong to the weight, not to the adjusters.

Linear, with the assumptions and limits of :mod:`~barwright.mechanics.vehicle.vehicle`.
Cross weight is the share of the front right and rear left wheels; that the trade
means this diagonal is common practice, without a source.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from barwright.errors import QuantityError
from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.static_equilibrium import influence, settle
from barwright.mechanics.vehicle.vehicle import (
    Array,
    Vehicle,
    equations,
    figures,
    given_corners,
    solved,
    times,
    transposed,
)

__all__ = [
    "cross_weight",
    "cross_weight_change",
    "free_heights_for_cross_weight",
    "free_heights_for_heights",
    "free_heights_for_loads",
    "front_share",
    "left_share",
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


def free_heights_for_heights(vehicle: Vehicle, heights: ArrayLike) -> Array:
    """Free heights that give wanted heights at all four corners; the loads follow.

    A rigid body has three heights to give.  That the fourth can be had as well is
    owed to the tyres, at the cost of cross weight: ask
    :func:`~barwright.mechanics.vehicle.static_equilibrium.settle` what the wish does to the loads.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.
    heights : float or array (..., 4) [m]
        Body above each hub.

    Returns
    -------
    array (..., 4) [m]

    Raises
    ------
    QuantityError
        Q301 if a height is not finite; Q302 if the tyres are rigid, or the heights
        are not those of four corners.

    References
    ----------
    Inverse of :func:`~barwright.mechanics.vehicle.static_equilibrium.settle`.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.25, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0, arches=0.7, tyre_radii=0.32)
    >>> " ".join(f"{height:.4f} m" for height in free_heights_for_heights(van, 0.39))
    '0.5273 m 0.5273 m 0.5273 m 0.5273 m'
    """
    wanted = given_corners(heights, key="heights")
    giving = equations(vehicle).tyre_compliances * self_stress(vehicle)
    if not np.all(np.any(giving != 0.0, axis=-1)):
        raise QuantityError(
            "Q302",
            value="a wish for all four heights of a body on rigid tyres",
            expected="tyres that give way, since a rigid body has only three heights to give",
            remedy="give the tyres' rates, or ask for a cross weight",
            key="tyre_rates",
        )
    return solved(influence(vehicle).heights, wanted - settle(vehicle, 0.0).heights)


def free_heights_for_cross_weight(
    vehicle: Vehicle, heights: ArrayLike, *, cross_weight: Real
) -> Array:
    """Free heights that give a wanted cross weight, and heave, roll and pitch of wanted heights.

    The cross weight takes the adjusters' fourth freedom.  A warp among the four
    heights gives way to it, up on one diagonal and down on the other in the
    proportion of the self-stress.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.
    heights : float or array (..., 4) [m]
        Body above each hub.
    cross_weight : float or array
        Share of the load on the front right and rear left wheels.

    Returns
    -------
    array (..., 4) [m]

    Raises
    ------
    QuantityError
        Q301 if a height is not finite; Q302 if the cross weight is no share, or the
        heights are not those of four corners.

    References
    ----------
    Inverse of :func:`~barwright.mechanics.vehicle.static_equilibrium.settle`, heights by
    least squares.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.25, 0.05, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0, arches=0.7, tyre_radii=0.32)
    >>> free = free_heights_for_cross_weight(van, 0.39, cross_weight=0.51)
    >>> " ".join(f"{load:.0f} N" for load in settle(van, free).loads)
    '3597 N 3268 N 3734 N 3130 N'
    """
    wanted, share = given_corners(heights, key="heights"), figures(cross_weight)
    refuse(
        "Q302",
        share,
        where=~((share > 0.0) & (share < 1.0)),
        expected="a share of the load, between 0 and 1",
        remedy="give 0.5 where both diagonals are to carry alike",
        key="cross_weight",
    )
    level, moved = settle(vehicle, 0.0), influence(vehicle)
    poses = transposed(equations(vehicle).rises)
    crossed = np.sum(_CROSS[:, None] * moved.loads, axis=-2, keepdims=True)
    pose = times(poses, wanted - level.heights)
    cross = share * _total(vehicle) - np.sum(_CROSS * level.loads, axis=-1)
    return solved(
        np.concatenate([poses @ moved.heights, crossed], axis=-2),
        np.stack(np.broadcast_arrays(*np.moveaxis(pose, -1, 0), cross), axis=-1),
    )


def free_heights_for_loads(
    vehicle: Vehicle, heights: ArrayLike, *, loads: ArrayLike, tolerance: Real = 1.0
) -> Array:
    """Free heights that give wanted loads, and heave, roll and pitch of wanted heights.

    Of four loads only the cross weight can be chosen.  Their sum is the weight,
    the share of the axles and of the sides is given by the centre of gravity, and
    no adjuster changes them.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.
    heights : float or array (..., 4) [m]
        Body above each hub.
    loads : array (..., 4) [N]
        Of each tyre on the road.
    tolerance : float or array [N]
        By how much the sums of all, of front and of left wheels may miss the weight's.

    Returns
    -------
    array (..., 4) [m]

    Raises
    ------
    QuantityError
        Q302 if the loads are impossible, with the sum that is; or as
        :func:`free_heights_for_cross_weight`.

    References
    ----------
    Inverse of :func:`~barwright.mechanics.vehicle.static_equilibrium.settle`.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.25, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0, arches=0.7, tyre_radii=0.32)
    >>> try:
    ...     free_heights_for_loads(van, 0.39, loads=(3600.0, 3500.0, 3300.0, 3329.0))
    ... except QuantityError as error:
    ...     print(f"{error.value} N; {error.expected}")
    7100 N; 6864.66 N on the front wheels, as weight and centre of gravity have it
    """
    wanted = figures(loads)
    free = free_heights_for_cross_weight(vehicle, heights, cross_weight=cross_weight(wanted))
    given = settle(vehicle, free).loads
    for wheels, of in (("four", np.ones(4)), ("front", _FRONT), ("left", _LEFT)):
        asked, possible = np.broadcast_arrays(np.sum(of * wanted, -1), np.sum(of * given, -1))
        refuse(
            "Q302",
            asked,
            where=~(np.abs(asked - possible) <= tolerance),
            expected=(
                f"{np.ravel(possible)[0]:.6g} N on the {wheels} wheels, as weight and "
                "centre of gravity have it"
            ),
            remedy="choose a cross weight; adjusters change nothing else of the loads",
            key="loads",
        )
    return free


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
