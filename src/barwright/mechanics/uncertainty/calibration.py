r"""Calibration: the rate of a corner, from measurements on it.

Bar and tube in series are a straight spring, :math:`T = k (\varphi - \alpha - c)`:
:math:`\varphi` is the arm's angle, :math:`\alpha` the lever's, and :math:`c` what the
clocking adds to the lever's angle to make the free angle.  Heights give
:math:`\varphi`, nut positions :math:`\alpha`, and loads the torque
(:func:`barwright.mechanics.corner.statics.bar_torque`).  A straight line is fitted to
:math:`\varphi - \alpha` over :math:`T`, whose slope is the compliance; both may err.

Limits: turning the nut under a constant load hardly changes the torque, and tells
:math:`c` but no rate; put weight on, or lift the wheel.  Friction of joints and
bushings shows as a difference between loading and unloading: take both, and their
mean.  The rate of the bar follows from that of the whole, and the shear modulus
from it: what spreads most of all in published tables.
"""

from __future__ import annotations

from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.bar.torsion import polar_second_moment
from barwright.mechanics.common.requirements import (
    refuse,
    require_finite,
    require_not_negative,
    require_positive,
)
from barwright.mechanics.common.types import Real

__all__ = [
    "Calibration",
    "calibrate",
    "clocked_angle",
    "remaining_rate",
    "shear_modulus_from_rate",
]

_Column: TypeAlias = NDArray[np.float64]
"""Measured points, or one result of them, along the last axis."""

# Two points are met by any line; a third shows how well they are met.
_FEWEST = 3
# Torques that differ by less of their size tell no rate, only rounding.
_LEAST_SPREAD = 1e-9
_SETTLED = 1e-14
_ITERATIONS = 200


@attrs.frozen(eq=False)
class Calibration:
    r"""A rate and a clocking found from measured points, with their standard errors.

    Parameters
    ----------
    rate : float or array [N·m/rad]
        :math:`k` of bar and tube in series.
    rate_uncertainty : float or array [N·m/rad]
        Its standard error.
    clocked_angle : float or array [rad]
        :math:`c`: free angle less the lever's angle.
    clocked_angle_uncertainty : float or array [rad]
        Its standard error.
    correlation : float or array
        Of the errors of both, between −1 and 1.
    residuals : array [rad]
        What is left of each point's arm angle.
    scatter : float or array
        Root mean square of the residuals, divided by what they are expected to
        be: about 1 if the stated uncertainties are true; with none stated, the
        standard deviation of the angles themselves [rad].
    """

    rate: Real
    rate_uncertainty: Real
    clocked_angle: Real
    clocked_angle_uncertainty: Real
    correlation: Real
    residuals: _Column
    scatter: Real


def calibrate(
    *,
    arm_angle: _Column,
    lever_angle: Real,
    torque: _Column,
    angle_uncertainty: Real = 0.0,
    torque_uncertainty: Real = 0.0,
) -> Calibration:
    r"""Estimate the rate of bar and tube, and the free angle, from measured points.

    .. math:: \sum_i \frac{(\varphi_i - \alpha_i - c - T_i / k)^2}
              {u_{\varphi,i}^2 + (u_{T,i} / k)^2} \to \min

    Parameters
    ----------
    arm_angle : array [rad]
        :math:`\varphi_i`, points along the last axis.
    lever_angle : float or array [rad]
        :math:`\alpha_i`; one for all if only the load was changed.
    torque : array [N·m]
        :math:`T_i`, of the bar.
    angle_uncertainty : float or array [rad]
        Standard uncertainty :math:`u_\varphi` of arm angle less lever angle.
    torque_uncertainty : float or array [N·m]
        Standard uncertainty :math:`u_T` of a torque.  If neither is known, all
        angles weigh the same, torques are taken as exact, and the standard errors
        follow from the scatter.

    Returns
    -------
    Calibration

    Raises
    ------
    QuantityError
        If there are fewer than three points, a figure is not finite, a point has no
        uncertainty while others have, the torques do not differ or fall with the
        twist, or the points lie so far off any line that none is the best.

    References
    ----------
    Straight line with errors in both coordinates: York et al., *American Journal of
    Physics* 72, 2004 (from memory); checked against ``scipy.odr``.

    Examples
    --------
    >>> import numpy as np
    >>> arm = np.radians([-8.0, -4.9, -2.1, 1.2])
    >>> found = calibrate(
    ...     arm_angle=arm, lever_angle=np.radians(-27.0), torque=np.array([820, 951, 1070, 1210.0]),
    ...     angle_uncertainty=np.radians(0.2), torque_uncertainty=4.0,
    ... )
    >>> f"{np.radians(found.rate):.1f} ± {np.radians(found.rate_uncertainty):.1f} N·m/deg"
    '42.4 ± 1.4 N·m/deg'
    """
    points = _Points(
        *np.broadcast_arrays(arm_angle - lever_angle, torque, angle_uncertainty, torque_uncertainty)
    )
    _check(points)
    is_known = bool(np.any(points.angle_error + points.torque_error > 0.0))
    if not is_known:
        points = attrs.evolve(points, angle_error=points.angle_error + 1.0)
    return _calibration(points, _compliance(points), is_known=is_known)


def clocked_angle(
    twist: _Column, *, torque: _Column, rate: Real, uncertainty: Real = 1.0
) -> tuple[Real, Real]:
    r"""Estimate the free angle from measured points where the rate is known.

    .. math:: c = \frac{\sum_i w_i (\varphi_i - \alpha_i - T_i / k)}{\sum_i w_i},
              \qquad w_i = 1 / u_i^2

    Parameters
    ----------
    twist : array [rad]
        :math:`\varphi_i - \alpha_i`, points along the last axis; one will do.
    torque : array [N·m]
        :math:`T_i`, of the bar.
    rate : float or array [N·m/rad]
        :math:`k` of bar and tube in series.
    uncertainty : float or array [rad]
        Standard uncertainty :math:`u_i` of a point; only their ratios move the mean.

    Returns
    -------
    (float or array, float or array) [rad]
        :math:`c`, and the standard error that follows from the uncertainties.

    Examples
    --------
    >>> twist, torque = np.array([0.45, 0.55]), np.array([1000.0, 1250.0])
    >>> angle, error = clocked_angle(twist, torque=torque, rate=2500.0, uncertainty=0.01)
    >>> f"{angle:.3f} ± {error:.4f}"
    '0.050 ± 0.0071'
    """
    weights = 1.0 / np.broadcast_arrays(uncertainty, twist)[0] ** 2
    return _only(_mean(twist - torque / rate, weights)), _only(_sum(weights)) ** -0.5


def remaining_rate(system_rate: Real, *, other_rate: Real) -> Real:
    r"""Find the rate that is left without a spring in series.

    .. math:: \frac{1}{k_\mathrm{bar}} = \frac{1}{k} - \frac{1}{k_\mathrm{tube}}

    Parameters
    ----------
    system_rate : float or array [N·m/rad or N/m]
        Rate :math:`k` of all in series.
    other_rate : float or array
        Rate of the part to remove: the tube, or everything except the bar.

    Returns
    -------
    float or array
        Rate of the rest, in the unit of both.

    Raises
    ------
    QuantityError
        If a rate is not above zero, or what is taken out is no stiffer than the whole.

    References
    ----------
    Compliances in series add: :func:`barwright.mechanics.bar.torsion.series_rate`.

    Examples
    --------
    >>> remaining_rate(2000.0, other_rate=6000.0)
    3000.0
    """
    require_positive(system_rate=system_rate, other_rate=other_rate)
    refuse(
        "Q302",
        other_rate,
        where=np.less_equal(other_rate, system_rate),
        expected="a spring stiffer than the whole series",
        remedy="check which of the two rates is the system's",
        key="other_rate",
    )
    return system_rate * other_rate / (other_rate - system_rate)


def shear_modulus_from_rate(
    rate: Real, *, diameter: Real, active_length: Real, bore: Real = 0.0
) -> Real:
    r"""Find the shear modulus that gives a bar its measured rate.

    .. math:: G = \frac{k L}{J}

    Parameters
    ----------
    rate : float or array [N·m/rad]
        Rate :math:`k` of the bar alone.
    diameter, active_length : float or array [m]
        Diameter, and length :math:`L` that twists.
    bore : float or array [m]
        Bore; 0 for a solid bar.

    Returns
    -------
    float or array [Pa]

    Raises
    ------
    QuantityError
        If the rate, the diameter or the length is not above zero, or the bore
        leaves no wall.

    References
    ----------
    F. L. Singer and A. Pytel, *Strength of Materials*, 4th ed., torsion problem 305.

    Examples
    --------
    >>> modulus = shear_modulus_from_rate(1256.64, diameter=0.020, active_length=1.0)
    >>> f"{modulus / 1e9:.1f} GPa"
    '80.0 GPa'
    """
    require_positive(rate=rate, diameter=diameter, active_length=active_length)
    require_not_negative(bore=bore)
    refuse(
        "Q302",
        bore,
        where=np.greater_equal(bore, diameter),
        expected="a bore smaller than the diameter",
        remedy="check which of the two was measured",
        key="bore",
    )
    return rate * active_length / polar_second_moment(diameter=diameter, bore=bore)


@attrs.frozen(eq=False)
class _Points:
    """Measured points along the last axis, with their standard uncertainties."""

    angle: _Column
    torque: _Column
    angle_error: _Column
    torque_error: _Column

    def weights(self, compliance: _Column) -> _Column:
        """Weight of each point: one over the variance of its distance from a line, as an angle."""
        weights: _Column = 1.0 / (self.angle_error**2 + (compliance * self.torque_error) ** 2)
        return weights

    def deviations(self, compliance: _Column) -> tuple[_Column, _Column, _Column]:
        """Torque, angle, and torque moved onto a line, each from the weighted mean."""
        weights = self.weights(compliance)
        torque, angle = (x - _mean(x, weights) for x in (self.torque, self.angle))
        moved = weights * (self.angle_error**2 * torque + compliance * self.torque_error**2 * angle)
        return torque, angle, moved


def _check(points: _Points) -> None:
    """Refuse points that no line can be put through."""
    require_finite(arm_angle=points.angle, torque=points.torque)
    require_not_negative(
        angle_uncertainty=points.angle_error, torque_uncertainty=points.torque_error
    )
    count = points.torque.shape[-1] if points.torque.ndim else 1
    refuse(
        "Q302",
        count,
        where=count < _FEWEST,
        expected=f"at least {_FEWEST} points",
        remedy="measure at more loads or nut positions",
        key="torque",
    )
    spread = np.ptp(points.torque, axis=-1)
    refuse(
        "Q302",
        spread,
        where=spread <= _LEAST_SPREAD * np.max(np.abs(points.torque), axis=-1),
        expected="torques that differ, in N·m between the least and the greatest",
        remedy="measure under different loads: the nut alone hardly changes the torque",
        key="torque",
    )
    total = points.angle_error + points.torque_error
    refuse(
        "Q302",
        total,
        where=(total == 0.0) & np.any(total > 0.0),
        expected="an uncertainty for every point, or for none of them",
        remedy="estimate the one that is missing",
        key="angle_uncertainty",
    )


def _compliance(points: _Points) -> _Column:
    """Slope of the line that fits best: one over the rate."""
    even = np.ones_like(points.torque)
    torque, angle = (x - _mean(x, even) for x in (points.torque, points.angle))
    slope = _refuse_falling(_sum(torque * angle) / _sum(torque**2))
    for _ in range(_ITERATIONS):
        torque, angle, moved = points.deviations(slope)
        weights = points.weights(slope)
        following = _sum(weights * moved * angle) / _sum(weights * moved * torque)
        if np.all(np.abs(following - slope) <= _SETTLED * np.abs(following)):
            return _refuse_falling(following)
        slope = following
    return _refuse_falling(np.full_like(slope, np.nan))


def _refuse_falling(slope: _Column) -> _Column:
    """Return a slope that a spring can have; refuse others."""
    refuse(
        "Q302",
        slope,
        where=~(slope > 0.0),
        expected="points at which the arm turns further with more torque",
        remedy="check the signs and the points far from the others",
        key="arm_angle",
    )
    return slope


def _calibration(points: _Points, compliance: _Column, *, is_known: bool) -> Calibration:
    """Make the calibration of a fitted line and its standard errors."""
    weights = points.weights(compliance)
    mean_torque, mean_angle = (_mean(x, weights) for x in (points.torque, points.angle))
    clocked = mean_angle - compliance * mean_torque
    residuals = points.angle - clocked - compliance * points.torque
    freedom = residuals.shape[-1] - 2
    scatter = np.sqrt(_sum(weights * residuals**2) / freedom)
    scale = 1.0 if is_known else scatter
    moved = points.deviations(compliance)[2]
    off = moved - _mean(moved, weights)
    middle = mean_torque + _mean(moved, weights)
    slope_error = 1.0 / np.sqrt(_sum(weights * off**2))
    clocked_error = np.hypot(1.0 / np.sqrt(_sum(weights)), middle * slope_error)
    return Calibration(
        rate=_only(1.0 / compliance),
        rate_uncertainty=_only(scale * slope_error / compliance**2),
        clocked_angle=_only(clocked),
        clocked_angle_uncertainty=_only(scale * clocked_error),
        correlation=_only(middle * slope_error / clocked_error),
        residuals=residuals,
        scatter=_only(scatter),
    )


def _sum(values: _Column) -> _Column:
    total: _Column = np.sum(values, axis=-1, keepdims=True)
    return total


def _mean(values: _Column, weights: _Column) -> _Column:
    return _sum(weights * values) / _sum(weights)


def _only(column: _Column) -> Real:
    """Drop the axis of the points, along which a result has one element."""
    only: Real = column[..., 0]
    return only
