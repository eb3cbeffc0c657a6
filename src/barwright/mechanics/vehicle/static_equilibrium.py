r"""How a whole vehicle stands on its four adjusters, and what each adjuster changes.

The adjusters' settings go in as *free heights*: the height of the body above the
hub at which that corner's spring carries nothing.  For a torsion bar at rest it is
the height plus the load over the wheel rate, and it moves as far as the corner's
height would under a constant load, so that figures per metre of free height
become figures per turn of the nut by the corner's height per turn.

Four springs under one body are statically indeterminate: three sums are given by
the weight, and the fourth, the *self-stress*, lies in the free heights.  All is
linear, with the assumptions of :mod:`~barwright.mechanics.vehicle.vehicle`.  Limits: against
rotations in full, loads are off by 0.02 % of the weight at 1° of roll and of pitch; a
wheel that would lift pulls on the road instead, as does a slack spring on the body, and
the answer says so.
"""

from __future__ import annotations

import attrs
import numpy as np
from numpy.typing import ArrayLike, NDArray

from barwright.mechanics.common.types import Real
from barwright.mechanics.vehicle.vehicle import (
    Array,
    Vehicle,
    diagonal,
    equations,
    given_corners,
    solved,
    solved_columns,
    times,
    transposed,
)

__all__ = ["Influence", "Stance", "influence", "settle"]


@attrs.frozen(eq=False, kw_only=True)
class Stance:
    """A vehicle at rest; corners in the order of ``CORNERS``, in the last axis.

    Parameters
    ----------
    heave : array [m]
        Rise of the body at the origin of the vehicle axes from its reference position.
    roll, pitch_angle : array [rad]
        Tilt about x, left side up positive, and about y, nose down positive.
    heights : array (..., 4) [m]
        Body above each hub.
    arches : array (..., 4) [m]
        Body above the road at each wheel.
    loads : array (..., 4) [N]
        Of each tyre on the road, as a scale reads it; negative where the wheel lifts.
    spring_loads : array (..., 4) [N]
        What each corner's own spring carries, without the anti-roll bar; negative
        where it is slack.
    """

    heave: Array
    roll: Array
    pitch_angle: Array
    heights: Array
    arches: Array
    loads: Array
    spring_loads: Array

    @property
    def lifted(self) -> NDArray[np.bool_]:
        """Where a wheel would have to pull on the road, so that this stance cannot occur."""
        return self.loads < 0.0

    @property
    def slack(self) -> NDArray[np.bool_]:
        """Where a corner's spring would have to pull, so that this stance cannot occur."""
        return self.spring_loads < 0.0

    def rise(self, *, forward: Real, leftward: Real) -> Real:
        """Rise [m] of a point of the body from the reference position, by its place [m]."""
        return self.heave + leftward * self.roll - forward * self.pitch_angle


def settle(vehicle: Vehicle, free_heights: ArrayLike) -> Stance:
    r"""Find how a vehicle rests with given settings of its adjusters.

    With the free heights :math:`\ell`, the reference heights :math:`q_0` of unloaded
    springs, the rises :math:`G` of the corners with the pose :math:`p`, and the
    stiffnesses of springs :math:`D` and of springs, bars and tyres :math:`E`:

    .. math:: S = P D \ell - E (q_0 + G p), \qquad G^T S = w - N p

    Here :math:`P` is what tyres leave of a force, :math:`w` the weight and its moments,
    and :math:`N` holds :math:`m g d` for roll and for pitch.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.
    free_heights : float or array (..., 4) [m]
        Height of the body above each hub at which the spring there is unloaded.

    Returns
    -------
    Stance

    Raises
    ------
    QuantityError
        Q301 if a free height is not finite; Q302 if they are not those of four corners.

    References
    ----------
    Minimum of the potential energy; checked against a general multibody engine.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.3, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> level = settle(van, (0.14, 0.14, 0.14, 0.14))
    >>> " ".join(f"{load:.0f}" for load in level.loads)
    '3579 3579 3286 3286'
    """
    free = given_corners(free_heights, key="free_heights")
    found = equations(vehicle)
    sunk = found.tyre_compliances * found.unsprung_weights
    unloaded = vehicle.arches - vehicle.tyre_radii + sunk
    held = times(found.passing @ found.springs, free) - times(found.ride, unloaded)
    pose = solved(found.body, times(transposed(found.rises), held) - found.weight)
    rises = times(found.rises, pose)
    forces = held - times(found.ride, rises)
    heights = unloaded + rises + found.tyre_compliances * forces
    heave, roll, pitch_angle = np.moveaxis(pose, -1, 0)
    return Stance(
        heave=heave,
        roll=roll,
        pitch_angle=pitch_angle,
        heights=heights,
        arches=vehicle.arches + rises,
        loads=forces + found.unsprung_weights,
        spring_loads=vehicle.wheel_rates * (free - heights),
    )


@attrs.frozen(eq=False, kw_only=True)
class Influence:
    """Effect of a metre of free height at each corner (last axis) on each (axis before).

    Parameters
    ----------
    loads : array (..., 4, 4) [N/m]
        Load of each tyre.
    heights : array (..., 4, 4)
        Height of the body above each hub.
    arches : array (..., 4, 4)
        Height of the body above the road at each wheel.
    """

    loads: Array
    heights: Array
    arches: Array


def influence(vehicle: Vehicle) -> Influence:
    r"""Change of loads and heights at every corner per free height at each.

    Times a corner's height per turn of its nut, its column is the effect of a turn.
    A column of loads is a multiple of the one self-stress: it raises one diagonal
    and lowers the other, and leaves the sum of each axle and of each side alone but
    for what the weight of the tilting body adds.

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres.

    Returns
    -------
    Influence

    References
    ----------
    Derivative of :func:`settle`; checked against a general multibody engine.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.3, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> " ".join(f"{load / 1000:+.1f} N/mm" for load in influence(van).loads[:, 0])
    '+4.0 N/mm -4.7 N/mm -6.4 N/mm +7.1 N/mm'
    """
    found = equations(vehicle)
    held = found.passing @ found.springs
    pose = solved_columns(found.body, transposed(found.rises) @ held)
    arches = found.rises @ pose
    loads = held - found.ride @ arches
    return Influence(
        loads=loads,
        heights=arches + diagonal(found.tyre_compliances) @ loads,
        arches=arches,
    )
