r"""A whole vehicle: a rigid body on four corners, as linear equations.

Corners stand in the order of :data:`CORNERS`, in the last axis of every array; any
axes before it broadcast.  Each corner is a spring between body and hub (the wheel
rate), in series with a tyre on a level road; an anti-roll bar ties the hubs of an
axle and is free where their heights are alike.

Assumed: the body leaves a level *reference position* by a heave, a roll and a pitch
so small that heights change in proportion; wheel forces stay vertical and keep
their distance from the axes of tilt; rates are tangents there.  Gravity's geometric
stiffness :math:`-m g d` is kept in roll and in pitch, :math:`d` being the height of the
centre of gravity above the axis.  Limits: no side force, no curve of rates, no
yaw of an inclined roll axis.
"""

from __future__ import annotations

import attrs
import numpy as np
from numpy.typing import ArrayLike, NDArray

from barwright.errors import QuantityError
from barwright.mechanics.common.requirements import (
    refuse,
    require_finite,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.roll import NO_BAR, AntiRollBar, require_tyre_rates

__all__ = ["CORNERS", "Vehicle"]

CORNERS = ("front left", "front right", "rear left", "rear right")
"""Order of the corners in every array."""

Array = NDArray[np.float64]

# Wheels stand in one line if their plan is this much flatter than long.
_FLAT = 1e-9


def figures(given: ArrayLike) -> Array:
    """Figures as an array of floats."""
    return np.asarray(given, dtype=np.float64)


def corners(given: ArrayLike) -> Array:
    """Figures of the four corners in the last axis; one alone stands for all."""
    array = figures(given)
    return array if array.ndim else np.full(4, array)


def axles(given: ArrayLike) -> Array:
    """Figures of front and rear axle in the last axis; one alone stands for both."""
    array = figures(given)
    return array if array.ndim else np.full(2, array)


@attrs.frozen(eq=False, kw_only=True)
class Vehicle:
    """A rigid body on four corners, in vehicle axes of ISO 8855: x forward, y left, z up.

    The origin lies anywhere on the level road.

    Parameters
    ----------
    mass : float or array [kg]
        Sprung mass.
    centre_of_gravity : array (..., 3) [m]
        Of the sprung mass: forward, left, and above the road.
    wheels : array (..., 4, 2) [m]
        Middle of each tyre's contact: forward, left.
    wheel_rates : float or array (..., 4) [N/m]
        Rate of each corner at the wheel, body against hub.
    tyre_rates : float or array (..., 4) [N/m]
        Vertical rate of each tyre; infinite for a rigid one.
    front_bar, rear_bar : AntiRollBar
        Anti-roll bar of each axle.
    unsprung_masses : float or array (..., 4) [kg]
        What rests on the tyre but not on the spring.
    roll_centres : float or array (..., 2) [m]
        Height of the front and the rear roll centre above the road; 0 for wheels
        that are guided straight up and down.
    pitch_centre : float or array [m]
        Height above the road of the axis about which the body pitches.
    arches : float or array (..., 4) [m]
        Height above the road, in the reference position, of the points on the body
        above the hubs that heights are measured to.
    tyre_radii : float or array (..., 4) [m]
        Height of each hub above the road where the tyre carries nothing.  If this
        and `arches` are left out, heights count from the reference position.

    Raises
    ------
    QuantityError
        Q301 if a figure is no finite number; Q302 if one has a wrong shape, a mass
        or rate is not positive, the wheels do not stand as their names say or lie in
        one line, or the body would topple on its springs.

    References
    ----------
    Derived in this project; checked against a general multibody engine.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.3, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> van.wheel_rates.tolist()
    [25000.0, 25000.0, 25000.0, 25000.0]
    """

    mass: Array = attrs.field(converter=figures)
    centre_of_gravity: Array = attrs.field(converter=figures)
    wheels: Array = attrs.field(converter=figures)
    wheel_rates: Array = attrs.field(converter=corners)
    tyre_rates: Array = attrs.field(converter=corners)
    front_bar: AntiRollBar = NO_BAR
    rear_bar: AntiRollBar = NO_BAR
    unsprung_masses: Array = attrs.field(default=0.0, converter=corners)
    roll_centres: Array = attrs.field(default=0.0, converter=axles)
    pitch_centre: Array = attrs.field(default=0.0, converter=figures)
    arches: Array = attrs.field(default=0.0, converter=corners)
    tyre_radii: Array = attrs.field(default=0.0, converter=corners)

    def __attrs_post_init__(self) -> None:
        """Refuse a vehicle that cannot stand."""
        for name, shape in _SHAPES.items():
            check_shape(getattr(self, name), shape=shape, key=name)
        require_positive(mass=self.mass, wheel_rates=self.wheel_rates)
        require_tyre_rates(self.tyre_rates, key="tyre_rates")
        require_not_negative(unsprung_masses=self.unsprung_masses)
        places = ("wheels", "centre_of_gravity", "roll_centres", "pitch_centre")
        require_finite(**{name: getattr(self, name) for name in places})
        require_finite(arches=self.arches, tyre_radii=self.tyre_radii)
        _check_places(self.wheels)
        _check_upright(self)


_SHAPES = {
    "centre_of_gravity": (3,),
    "wheels": (4, 2),
    "wheel_rates": (4,),
    "tyre_rates": (4,),
    "unsprung_masses": (4,),
    "roll_centres": (2,),
    "arches": (4,),
    "tyre_radii": (4,),
}


@attrs.frozen(eq=False, kw_only=True)
class Equations:
    """Matrices of a vehicle, with its pose as heave, roll and pitch.

    Parameters
    ----------
    rises : array (..., 4, 3)
        Rise of the body at each wheel with the pose.
    springs, hubs : array (..., 4, 4) [N/m]
        Force on the body at each corner with the free heights, and, negative, with
        the heights of the body above the hubs; the latter has the anti-roll bars.
    tyre_compliances : array (..., 4) [m/N]
        Of each tyre.
    passing : array (..., 4, 4)
        Share of a force between body and held hubs that is left where tyres give way.
    tipping : array (..., 3) [N/m, N·m/rad, N·m/rad]
        Gravity's geometric stiffness in heave, roll and pitch, taken off.
    weight : array (..., 3) [N, N·m, N·m]
        What the corners have to carry in the reference position: force, and moments
        against roll and pitch.
    unsprung_weights : array (..., 4) [N]
        What rests on each tyre without the spring.
    """

    rises: Array
    springs: Array
    hubs: Array
    tyre_compliances: Array
    passing: Array
    tipping: Array
    weight: Array
    unsprung_weights: Array

    @property
    def ride(self) -> Array:
        """Force on the body with its fall at each corner, tyres in series [N/m]."""
        return self.passing @ self.hubs

    @property
    def body(self) -> Array:
        """Stiffness of the body's pose; what is not positive does not stand."""
        return transposed(self.rises) @ self.ride @ self.rises - diagonal(self.tipping)


def equations(vehicle: Vehicle) -> Equations:
    """Matrices of a vehicle."""
    x, y = vehicle.wheels[..., 0], vehicle.wheels[..., 1]
    forward, left, _ = np.moveaxis(vehicle.centre_of_gravity, -1, 0)
    springs = diagonal(vehicle.wheel_rates)
    hubs = springs + _tie(vehicle.front_bar, (1, -1, 0, 0)) + _tie(vehicle.rear_bar, (0, 0, 1, -1))
    compliances = 1.0 / vehicle.tyre_rates
    weight = vehicle.mass * STANDARD_GRAVITY
    tipping = weight[..., None] * tilt_levers(vehicle)
    return Equations(
        rises=np.stack([np.ones_like(x), y, -x], axis=-1),
        springs=springs,
        hubs=hubs,
        tyre_compliances=compliances,
        passing=inverse(np.eye(4) + hubs * compliances[..., None, :]),
        tipping=np.concatenate([np.zeros_like(tipping[..., :1]), tipping], axis=-1),
        weight=weight[..., None] * np.stack([np.ones_like(left), left, -forward], axis=-1),
        unsprung_weights=vehicle.unsprung_masses * STANDARD_GRAVITY,
    )


def front_mass_share(vehicle: Vehicle) -> Array:
    """Share of the sprung mass that rests on the front axle."""
    front, rear = (vehicle.wheels[..., axle, 0].mean(axis=-1) for axle in ([0, 1], [2, 3]))
    return figures((vehicle.centre_of_gravity[..., 0] - rear) / (front - rear))


def tilt_levers(vehicle: Vehicle) -> Array:
    """Heights of the centre of gravity above the axes of roll and of pitch [m]."""
    height, share = vehicle.centre_of_gravity[..., 2], front_mass_share(vehicle)
    front_centre, rear_centre = np.moveaxis(vehicle.roll_centres, -1, 0)
    axis = share * front_centre + (1.0 - share) * rear_centre
    return np.stack(np.broadcast_arrays(height - axis, height - vehicle.pitch_centre), axis=-1)


def diagonal(array: Array) -> Array:
    """Matrices with these diagonals."""
    return array[..., None] * np.eye(array.shape[-1])


def transposed(matrix: Array) -> Array:
    """Matrices with rows and columns exchanged."""
    return np.swapaxes(matrix, -1, -2)


def inverse(matrix: Array) -> Array:
    """Inverses of matrices."""
    return figures(np.linalg.inv(matrix))


def times(matrix: Array, vector: Array) -> Array:
    """Matrices times vectors, axes before the last broadcast."""
    return figures((matrix @ vector[..., None])[..., 0])


def solved(matrix: Array, vector: Array) -> Array:
    """Vectors that the matrices turn into the given ones."""
    return solved_columns(matrix, vector[..., None])[..., 0]


def solved_columns(matrix: Array, columns: Array) -> Array:
    """Matrices that the matrices turn into the given ones."""
    # With as many axes as the matrices: one fewer, and numpy 1 takes a matrix for vectors.
    stacked = np.broadcast_shapes(matrix.shape[:-2], columns.shape[:-2])
    columns = np.broadcast_to(columns, (*stacked, *columns.shape[-2:]))
    return figures(np.linalg.solve(matrix, columns))


def _tie(bar: AntiRollBar, between: tuple[int, ...]) -> Array:
    """Stiffness with which a bar holds the heights of two corners together."""
    return figures(bar.one_wheel_rate)[..., None, None] * np.outer(between, between)


def check_shape(array: Array, *, shape: tuple[int, ...], key: str) -> None:
    """Refuse an array whose last axes are not those of the corners or axles."""
    if array.shape[array.ndim - len(shape) :] != shape:
        raise QuantityError(
            "Q302",
            value=f"an array of shape {array.shape}",
            expected=f"an array whose shape ends in {shape}",
            remedy="give the corners front left, front right, rear left, rear right",
            key=key,
        )


def given_corners(given: ArrayLike, *, key: str) -> Array:
    """Figures of the four corners as an array; refused if they are not such."""
    array = corners(given)
    check_shape(array, shape=(4,), key=key)
    require_finite(**{key: array})
    return array


def _check_places(wheels: Array) -> None:
    x, y = wheels[..., 0], wheels[..., 1]
    in_order = (y[..., 0::2] > y[..., 1::2]) & (x[..., :2] > x[..., 2:])
    middle = wheels.mean(axis=-2, keepdims=True)
    spread = np.linalg.svd(wheels - middle, compute_uv=False)
    if not np.all(in_order) or not np.all(spread[..., 1] > _FLAT * spread[..., 0]):
        raise QuantityError(
            "Q302",
            value=wheels.tolist(),
            expected="four wheels, not in one line, each at the place of its name",
            remedy="give x forward and y left, in the order of the corners",
            key="wheels",
        )


def _check_upright(vehicle: Vehicle) -> None:
    """Refuse a body that its springs cannot hold upright."""
    body = equations(vehicle).body
    # Heave is free to follow a tilt, as it does where corners differ.
    following = body[..., 1:, :1] * body[..., :1, 1:] / body[..., :1, :1]
    least = figures(np.linalg.eigvalsh(body[..., 1:, 1:] - following)[..., 0])
    refuse(
        "Q302",
        least,
        where=least <= 0.0,
        expected="a stiffness of which mass times gravity times lever leaves more than 0",
        remedy="check the rates, the wheels and the height of the centre of gravity",
        key="centre_of_gravity",
    )
