r"""Natural frequencies of a body on its springs: ride, bounce and pitch, roll.

The body is rigid and moves little about its place of rest; springs and tyres are
linear and in series, and the mass between them is left out, since wheel hop lies
an order of magnitude above.  Dampers, bushings, seats and the engine on its
mounts are left out too.

Roll and pitch go about axes that the links fix, at a lever :math:`d` below the
centre of gravity: it swings sideways, which adds :math:`m d^2` to the moment of inertia,
and the leaning weight takes :math:`m g d` off the rate.  Limits: the roll axis
is taken as level here, without the yaw of an inclined one.
"""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.common.requirements import require_positive
from barwright.mechanics.common.types import Real
from barwright.mechanics.vehicle.ride import natural_frequency
from barwright.mechanics.vehicle.roll import upright_roll_rate
from barwright.mechanics.vehicle.vehicle import (
    Array,
    Vehicle,
    equations,
    figures,
    front_mass_share,
    tilt_levers,
    transposed,
)

__all__ = [
    "Modes",
    "body_modes",
    "bounce_and_pitch_frequencies",
    "ride_frequencies",
    "roll_frequency",
]


def bounce_and_pitch_frequencies(
    *,
    front_rate: Real,
    rear_rate: Real,
    front_distance: Real,
    rear_distance: Real,
    mass: Real,
    pitch_inertia: Real,
) -> tuple[Real, Real]:
    r"""Both natural frequencies of a body in its middle plane, the lower one first.

    .. math:: \begin{vmatrix} K_f + K_r - m\omega^2 & K_r b - K_f a \\
              K_r b - K_f a & K_f a^2 + K_r b^2 - I\omega^2 \end{vmatrix} = 0

    Parameters
    ----------
    front_rate, rear_rate : float or array [N/m]
        Rate :math:`K_f`, :math:`K_r` of each axle, both corners, tyres in series.
    front_distance, rear_distance : float or array [m]
        From the centre of gravity forward to the front axle, :math:`a`, and back to
        the rear axle, :math:`b`.
    mass : float or array [kg]
        Sprung mass :math:`m`.
    pitch_inertia : float or array [kg·m²]
        Moment of inertia :math:`I` about the lateral axis through its centre of gravity.

    Returns
    -------
    (float or array, float or array) [Hz]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if one is not above zero.

    Notes
    -----
    Which of the two is bounce depends on the car; :func:`body_modes` tells, and
    keeps the leaning weight, which is left out here as in the textbooks.

    References
    ----------
    W. T. Thomson, *Theory of Vibration with Applications* (from memory); checked
    against scipy.

    Examples
    --------
    >>> low, high = bounce_and_pitch_frequencies(
    ...     front_rate=40_000.0, rear_rate=44_000.0, front_distance=1.2, rear_distance=1.4,
    ...     mass=1300.0, pitch_inertia=2000.0)
    >>> f"{low:.2f} Hz, {high:.2f} Hz"
    '1.22 Hz, 1.40 Hz'
    """
    require_positive(front_rate=front_rate, rear_rate=rear_rate)
    require_positive(front_distance=front_distance, rear_distance=rear_distance)
    require_positive(mass=mass, pitch_inertia=pitch_inertia)
    bounce = (front_rate + rear_rate) / mass
    pitch = (front_rate * front_distance**2 + rear_rate * rear_distance**2) / pitch_inertia
    inertias = mass * pitch_inertia
    coupling = (rear_rate * rear_distance - front_rate * front_distance) / np.sqrt(inertias)
    upper = (bounce + pitch) / 2.0 + np.hypot((bounce - pitch) / 2.0, coupling)
    # Their product is the determinant; a difference would lose the lower one's digits.
    product = front_rate * rear_rate * (front_distance + rear_distance) ** 2 / inertias
    return np.sqrt(product / upper) / (2.0 * np.pi), np.sqrt(upper) / (2.0 * np.pi)


def roll_frequency(*, roll_rate: Real, mass: Real, lever: Real, roll_inertia: Real) -> Real:
    r"""Natural frequency of a body's roll about its roll axis.

    .. math:: f = \frac{1}{2\pi} \sqrt{\frac{K_\varphi - m g d}{I + m d^2}}

    Parameters
    ----------
    roll_rate : float or array [N·m/rad]
        Roll rate :math:`K_\varphi` of both axles together.
    mass : float or array [kg]
        Sprung mass :math:`m`.
    lever : float or array [m]
        Height :math:`d` of its centre of gravity above the roll axis.
    roll_inertia : float or array [kg·m²]
        Moment of inertia :math:`I` about the longitudinal axis through its centre of
        gravity.

    Returns
    -------
    float or array [Hz]

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if a mass or moment of inertia is not
        above zero, or gravity outweighs the roll rate: the body would topple.

    References
    ----------
    Inverted pendulum on a spring; checked against a general multibody engine.

    Examples
    --------
    >>> frequency = roll_frequency(roll_rate=45_000.0, mass=1300.0, lever=0.5,
    ...                            roll_inertia=450.0)
    >>> f"{frequency:.2f} Hz"
    '1.12 Hz'
    """
    require_positive(roll_inertia=roll_inertia)
    upright = upright_roll_rate(mass=mass, lever=lever, roll_rate=roll_rate)
    return natural_frequency(rate=upright, mass=roll_inertia + mass * lever**2)


@attrs.frozen(eq=False, kw_only=True)
class Modes:
    """The three free vibrations of a body, the slowest first.

    Parameters
    ----------
    frequencies : array (..., 3) [Hz]
        Of each mode.
    shares : array (..., 3, 3)
        Share of each mode's kinetic energy (before the last axis) that lies in heave of
        the centre of gravity, in roll and in pitch (last axis); they add up to 1.
    """

    frequencies: Array
    shares: Array


def body_modes(vehicle: Vehicle, *, roll_inertia: Real, pitch_inertia: Real) -> Modes:
    r"""Free vibrations of a vehicle's body: heave, roll and pitch, coupled.

    With the stiffness :math:`C` of the pose, heave taken at the centre of gravity:

    .. math:: \det\left(C - \omega^2 \operatorname{diag}(m,\; I_x + m d_x^2,\;
              I_y + m d_y^2)\right) = 0

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres; unsprung masses do not count.
    roll_inertia, pitch_inertia : float or array [kg·m²]
        Moments of inertia :math:`I_x`, :math:`I_y` of the sprung mass about the
        longitudinal and the lateral axis through its centre of gravity, taken as
        principal.

    Returns
    -------
    Modes

    Raises
    ------
    QuantityError
        Q301 if a moment of inertia is not finite; Q302 if it is not above zero.

    References
    ----------
    Derived in this project; checked against a general multibody engine.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.25, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> modes = body_modes(van, roll_inertia=500.0, pitch_inertia=2200.0)
    >>> for frequency, shares in zip(modes.frequencies, modes.shares):
    ...     print(f"{frequency:.2f} Hz: heave, roll, pitch {shares.round(2).tolist()}")
    0.98 Hz: heave, roll, pitch [0.0, 1.0, 0.0]
    1.09 Hz: heave, roll, pitch [0.0, 0.0, 1.0]
    1.27 Hz: heave, roll, pitch [1.0, 0.0, 0.0]
    """
    require_positive(roll_inertia=roll_inertia, pitch_inertia=pitch_inertia)
    inertias = np.stack(np.broadcast_arrays(roll_inertia, pitch_inertia), axis=-1)
    about = inertias + vehicle.mass[..., None] * tilt_levers(vehicle) ** 2
    mass = np.broadcast_to(vehicle.mass[..., None], (*about.shape[:-1], 1))
    scale = 1.0 / np.sqrt(np.concatenate([mass, about], axis=-1))
    stiffness = scale[..., :, None] * _from_centre(vehicle) * scale[..., None, :]
    squares, vectors = np.linalg.eigh(stiffness)
    return Modes(
        frequencies=np.sqrt(squares) / (2.0 * np.pi),
        shares=transposed(vectors) ** 2,
    )


def ride_frequencies(vehicle: Vehicle) -> Array:
    r"""Ride frequency of each axle: its load on two corners and their tyres.

    .. math:: f = \frac{1}{2\pi} \sqrt{\frac{1}{m_a} \sum \frac{K K_t}{K + K_t}}

    Parameters
    ----------
    vehicle : Vehicle
        Body, springs and tyres; the share :math:`m_a` of its mass on each axle follows
        from the centre of gravity, and tilt is left out.

    Returns
    -------
    array (..., 2) [Hz]
        Front, rear.

    Raises
    ------
    QuantityError
        Q302 if the centre of gravity does not lie between the axles.

    References
    ----------
    T. D. Gillespie, *Fundamentals of Vehicle Dynamics*, ch. 5 (from memory);
    checked against a general multibody engine.

    Examples
    --------
    >>> van = Vehicle(mass=1400.0, centre_of_gravity=(1.25, 0.0, 0.65),
    ...               wheels=((2.5, 0.75), (2.5, -0.75), (0.0, 0.75), (0.0, -0.75)),
    ...               wheel_rates=25_000.0, tyre_rates=200_000.0)
    >>> " ".join(f"{frequency:.2f} Hz" for frequency in ride_frequencies(van))
    '1.27 Hz 1.27 Hz'
    """
    front = front_mass_share(vehicle)
    shares = np.stack([front, 1.0 - front], axis=-1)
    # All corners rise alike; a bar takes part only where those of its axle differ.
    of_corners = equations(vehicle).ride.sum(axis=-1)
    rates = of_corners.reshape(*of_corners.shape[:-1], 2, 2).sum(axis=-1)
    return figures(natural_frequency(rate=rates, mass=shares * vehicle.mass[..., None]))


def _from_centre(vehicle: Vehicle) -> Array:
    """Stiffness of the pose with the heave taken at the centre of gravity."""
    forward, left, _ = np.moveaxis(vehicle.centre_of_gravity, -1, 0)
    moved = np.zeros((*forward.shape, 3, 3)) + np.eye(3)
    moved[..., 0, 1], moved[..., 0, 2] = -left, forward
    return transposed(moved) @ equations(vehicle).body @ moved
