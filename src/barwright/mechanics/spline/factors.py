r"""Factors of the spline formulas: from a handbook, and for missing teeth.

The formulas of :mod:`barwright.mechanics.spline.capacity` raise a torque by what drives
the spline and by a load that its length shares unevenly, and lower the stress by
the cycles that it has to last.  Their tables are those of D. W. Dudley, "When Splines
Need Stress Control", *Product Engineering*, 1957, as reprinted in *Machinery's
Handbook*, 27th ed., p. 2171 to 2175.  They were made for the couplings of engines
and motors.  A torsion bar is driven by a wheel, which no row of them names, and its
heads run far above the stresses that go with them: they are for comparison with
figures from elsewhere, and for nothing else.  Nothing is extrapolated: outside a
table the factor is the caller's own.

:func:`missing_tooth_factor` is computed, not printed: equal teeth on a rigid head that is
free to shift in its socket, with no load but the torque.  A load of the arm across the
head, and teeth that are not cut alike, add to it.
"""

from __future__ import annotations

import enum
import functools
import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from barwright.errors import QuantityError
from barwright.mechanics.common.requirements import refuse
from barwright.mechanics.common.types import Real

__all__ = [
    "APPLICATION_FACTORS",
    "FIXED_SPLINE_WEAR",
    "LIFE_FACTORS",
    "LIFE_FACTORS_REVERSED",
    "LOAD_DISTRIBUTION_FACTORS",
    "PowerSource",
    "ServiceLoad",
    "application_factor",
    "distribution_factor",
    "life_factor",
    "missing_tooth_factor",
]


class PowerSource(enum.Enum):
    """What drives a spline."""

    TURBINE_OR_MOTOR = "turbine or electric motor"
    HYDRAULIC_MOTOR = "hydraulic motor"
    COMBUSTION_ENGINE = "combustion engine"


class ServiceLoad(enum.Enum):
    """How the load on a spline varies.

    That the last three are shocks is from memory.
    """

    UNIFORM = "uniform"
    LIGHT_SHOCK = "light shock"
    INTERMITTENT_SHOCK = "intermittent shock"
    HEAVY_SHOCK = "heavy shock"


APPLICATION_FACTORS = {
    PowerSource.TURBINE_OR_MOTOR: dict(zip(ServiceLoad, (1.0, 1.2, 1.5, 1.8), strict=True)),
    PowerSource.HYDRAULIC_MOTOR: dict(zip(ServiceLoad, (1.2, 1.3, 1.8, 2.1), strict=True)),
    PowerSource.COMBUSTION_ENGINE: dict(zip(ServiceLoad, (2.0, 2.2, 2.4, 2.8), strict=True)),
}
"""Application factor by power source and load."""

LIFE_FACTORS = {1e3: 1.8, 1e4: 1.0, 1e5: 0.5, 1e6: 0.4, 1e7: 0.3}
"""Fatigue life factor by cycles of torque, the torque always of one sense."""

LIFE_FACTORS_REVERSED = {1e3: 1.8, 1e4: 1.0, 1e5: 0.4, 1e6: 0.3, 1e7: 0.2}
"""Fatigue life factor by cycles of torque, the torque fully reversed."""

FIXED_SPLINE_WEAR = 9.0
"""What the life factor is multiplied with to be the wear factor of a fixed spline."""

LOAD_DISTRIBUTION_FACTORS = {
    0.001: {0.012: 1.0, 0.025: 1.0, 0.050: 1.0, 0.100: 1.5},
    0.002: {0.012: 1.0, 0.025: 1.0, 0.050: 1.5, 0.100: 2.0},
    0.004: {0.012: 1.0, 0.025: 1.5, 0.050: 2.0, 0.100: 2.5},
    0.008: {0.012: 1.5, 0.025: 2.0, 0.050: 2.5, 0.100: 3.0},
}
"""Load distribution factor by misalignment [rad] and face width [m]."""

# With the rounding of a conversion.
_MISALIGNMENTS = np.array(list(LOAD_DISTRIBUTION_FACTORS)) * (1.0 + 1e-9)
_FACE_WIDTHS = np.array(list(LOAD_DISTRIBUTION_FACTORS[0.001])) * (1.0 + 1e-9)
_DISTRIBUTION = np.array([list(row.values()) for row in LOAD_DISTRIBUTION_FACTORS.values()])


def application_factor(*, power_source: PowerSource, service_load: ServiceLoad) -> float:
    """Look up the factor on the torque for what drives a spline, and how its load acts.

    Parameters
    ----------
    power_source : PowerSource
        What drives the spline.
    service_load : ServiceLoad
        How the load acts.

    Returns
    -------
    float
        Factor :math:`K_a`.

    References
    ----------
    Dudley 1957, as reprinted in *Machinery's Handbook*, 27th ed. (read).

    Examples
    --------
    >>> application_factor(power_source=PowerSource.HYDRAULIC_MOTOR,
    ...                    service_load=ServiceLoad.UNIFORM)
    1.2
    """
    return APPLICATION_FACTORS[power_source][service_load]


def life_factor(cycles: Real, *, reverses: bool = False) -> Real:
    r"""Factor on what a spline may carry: above 1 for few cycles, below 1 for many.

    .. math:: \log L_f = \log L_i + \log\frac{L_{i+1}}{L_i} \,
              \frac{\log (N / N_i)}{\log (N_{i+1} / N_i)}

    between the printed lives :math:`N_i`, at which the printed :math:`L_i` is met.

    Parameters
    ----------
    cycles : float or array
        Cycles :math:`N` of torque, from 1e3 to 1e7.
    reverses : bool
        Whether the torque reverses; else it is always of one sense.

    Returns
    -------
    float or array
        Factor :math:`L_f`.

    Raises
    ------
    QuantityError
        If there are fewer or more cycles than the table has.

    References
    ----------
    Dudley 1957, as reprinted in *Machinery's Handbook*, 27th ed. (read), for the five
    printed lives; the straight line in logarithms between them, which is how lines
    of lives are drawn, is a choice of this project.

    Examples
    --------
    >>> f"{life_factor(1e5):.2f} one way, {life_factor(1e5, reverses=True):.2f} reversed"
    '0.50 one way, 0.40 reversed'
    """
    table = LIFE_FACTORS_REVERSED if reverses else LIFE_FACTORS
    _refuse_beyond(cycles, low=1e3, high=1e7, key="cycles")
    lives, factors = np.log(list(table)), np.log(list(table.values()))
    result: Real = np.exp(np.interp(np.log(cycles), lives, factors))
    return result


def distribution_factor(*, misalignment: Real, face_width: Real) -> Real:
    """Load of the worst place along a spline, as a multiple of the mean.

    Parameters
    ----------
    misalignment : float or array [rad]
        Of the two axes, from 0 to 0.008: how far they diverge for each length.
    face_width : float or array [m]
        Engaged length of the spline, from 0 to 0.1 m.

    Returns
    -------
    float or array
        Factor :math:`K_m`: that of the printed misalignment and face width which
        are just as large, or next larger.

    Raises
    ------
    QuantityError
        If misalignment or face width is negative or beyond the table.

    References
    ----------
    Dudley 1957, as reprinted in *Machinery's Handbook*, 27th ed. (read); to go up to
    the next printed figure is a choice of this project.

    Examples
    --------
    >>> float(distribution_factor(misalignment=0.003, face_width=0.030))
    2.0
    """
    _refuse_beyond(misalignment, low=0.0, high=_MISALIGNMENTS[-1], key="misalignment")
    _refuse_beyond(face_width, low=0.0, high=_FACE_WIDTHS[-1], key="face_width")
    row = np.searchsorted(_MISALIGNMENTS, misalignment)
    column = np.searchsorted(_FACE_WIDTHS, face_width)
    result: Real = _DISTRIBUTION[row, column]
    return result


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


def _refuse_beyond(value: Real, *, low: float, high: float, key: str) -> None:
    """Refuse what a table does not reach, and what is not a number."""
    refuse(
        "Q302",
        value,
        where=np.logical_not(np.greater_equal(value, low) & np.less_equal(value, high)),
        expected=f"from {low:g} to {high:g}, as far as the table goes",
        remedy="give the formula your own factor",
        key=key,
    )
