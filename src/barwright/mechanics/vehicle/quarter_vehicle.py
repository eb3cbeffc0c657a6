r"""Quarter vehicle: sprung and unsprung mass of one corner, both free to move.

A sprung mass stands on wheel rate and damper over an unsprung mass, which stands on
the tyre; both move straight up and down and nothing ties this corner to another.
Linear about the height of rest: rates are those of the small movement, the damper
resists in proportion to its speed and alike both ways, the tyre has no damping of
its own and does not leave the road.  The two natural frequencies lie outside those
of each mass with the other held: the body's is lower, wheel hop higher.  With much
damping a mode stops oscillating and the words body and wheel hop lose their sense.
"""

from __future__ import annotations

import math

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.requirements import require_not_negative, require_positive
from barwright.mechanics.common.types import Real

__all__ = ["Mode", "RideModes", "quarter_vehicle_modes"]


@attrs.frozen(eq=False)
class Mode:
    """One way in which masses on springs oscillate.

    Parameters
    ----------
    frequency : float or array [Hz]
        Natural frequency: the size of its eigenvalue, over 2π.
    damping_ratio : float or array
        Share of critical damping; 1 or more where nothing oscillates.
    """

    frequency: Real
    damping_ratio: Real


@attrs.frozen(eq=False)
class RideModes:
    """The two modes of a quarter vehicle.

    Parameters
    ----------
    body_mode : Mode
        The slower one, in which the sprung mass moves most.
    hop : Mode
        The faster one, in which the wheel does.
    """

    body_mode: Mode
    hop: Mode


def quarter_vehicle_modes(
    *,
    sprung_mass: Real,
    unsprung_mass: Real,
    wheel_rate: Real,
    tyre_rate: Real,
    damping: Real = 0.0,
) -> RideModes:
    r"""Both modes of a sprung mass over an unsprung one, both free to move.

    .. math:: m_s \ddot z_s = -K (z_s - z_u) - c (\dot z_s - \dot z_u), \qquad
              m_u \ddot z_u = K (z_s - z_u) + c (\dot z_s - \dot z_u) - K_t z_u

    Parameters
    ----------
    sprung_mass, unsprung_mass : float or array [kg]
        Of the corner, :math:`m_s` and :math:`m_u`.
    wheel_rate : float or array [N/m]
        Rate at the wheel :math:`K`.
    tyre_rate : float or array [N/m]
        Vertical rate of the tyre :math:`K_t`.
    damping : float or array [N·s/m]
        Damping at the wheel :math:`c`, as of
        :func:`barwright.mechanics.corner.damping.wheel_damping`.

    Returns
    -------
    RideModes

    Raises
    ------
    QuantityError
        Q301 if a figure is not finite; Q302 if the damping is negative or anything
        else is not above zero.

    Notes
    -----
    With so much damping that neither mode oscillates, which two of the four decays
    belong together is a convention: here the slow two and the fast two.

    References
    ----------
    Eigenvalues of the equations of motion; checked against the masses' matrices in
    scipy and against integration in time.

    Examples
    --------
    >>> modes = quarter_vehicle_modes(sprung_mass=350.0, unsprung_mass=40.0, wheel_rate=20e3,
    ...                               tyre_rate=200e3, damping=1500.0)
    >>> f"{modes.body_mode.frequency:.2f} Hz, {modes.hop.frequency:.1f} Hz"
    '1.16 Hz, 11.7 Hz'
    """
    require_positive(sprung_mass=sprung_mass, unsprung_mass=unsprung_mass)
    require_positive(wheel_rate=wheel_rate, tyre_rate=tyre_rate)
    require_not_negative(damping=damping)
    motion = _equations(sprung_mass, unsprung_mass, wheel_rate, tyre_rate, damping)
    decays = np.linalg.eigvals(motion).astype(np.complex128)
    # In the order of frequency conjugates come together, and so do decays without any.
    order = np.lexsort((decays.real, np.abs(decays.imag)))
    decays = np.take_along_axis(decays, order, axis=-1)
    pairs = decays[..., ::2], decays[..., 1::2]
    size = np.sqrt((pairs[0] * pairs[1]).real)
    share = -(pairs[0] + pairs[1]).real / (2.0 * size)
    slower = np.argsort(size)
    size, share = (np.take_along_axis(x, slower, axis=-1) for x in (size, share))
    body_mode, hop = (Mode(size[..., i] / math.tau, share[..., i]) for i in (0, 1))
    return RideModes(body_mode, hop)


def _equations(
    sprung: Real, unsprung: Real, wheel_rate: Real, tyre_rate: Real, damping: Real
) -> NDArray[np.float64]:
    """Matrix of the equations of motion: heights of body and wheel, then their speeds."""
    figures = np.broadcast_arrays(sprung, unsprung, wheel_rate, tyre_rate, damping)
    sprung, unsprung, wheel_rate, tyre_rate, damping = figures
    none, one = np.zeros_like(sprung), np.ones_like(sprung)
    rows = [
        [none, none, one, none],
        [none, none, none, one],
        [-wheel_rate / sprung, wheel_rate / sprung, -damping / sprung, damping / sprung],
        [
            wheel_rate / unsprung,
            -(wheel_rate + tyre_rate) / unsprung,
            damping / unsprung,
            -damping / unsprung,
        ],
    ]
    return np.stack([np.stack(row, axis=-1) for row in rows], axis=-2)
