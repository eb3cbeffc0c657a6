"""The spring that fits the readings of a corner best, SI floats."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Self, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.calibration.usual_error import usual_error
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.measured_point import MeasuredPoint
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.uncertainty import calibration
from barwright.mechanics.uncertainty.coverage import coverage_factor
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.units import LENGTH, MASS, si

__all__ = ["FEWEST", "ReadCorner", "SpringFit", "free_angle_fit", "spring_fit"]

Array: TypeAlias = NDArray[np.float64]

FEWEST = 3
"""Readings from which a rate is found: two lie on any line."""

# With a rate less certain than this part of it, the readings do not tell it.
_CERTAIN_ENOUGH = 0.3

_COVERAGE = 0.95


@attrs.frozen(eq=False)
class ReadCorner:
    """A corner, as it was at each of its readings.

    Parameters
    ----------
    corner : Corner
        As its setup has it now, with its readings.
    corners : tuple of Corner
        As it was at each of them.
    points : tuple of MeasuredPoint
        Where it stood, and what its bar carried.
    """

    corner: Corner
    corners: tuple[Corner, ...]
    points: tuple[MeasuredPoint, ...]

    @classmethod
    def of(cls, corner: Corner) -> Self:
        """Take a corner at all of its readings; Q302 for one that is out of travel."""
        readings = corner.setup.readings
        corners = tuple(corner.beside(reading.corner) for reading in readings)
        return cls(corner, corners, tuple(map(Corner.point_at, corners, readings)))

    @property
    def torque(self) -> Array:
        """Torques of the bar [N·m]."""
        return self._array(lambda point: point.torque)

    @property
    def twist(self) -> Array:
        """Arm angles less the lever's [rad]."""
        return self._array(lambda point: point.twist)

    @property
    def angle_error(self) -> Array:
        """Standard uncertainties of the twists [rad]; NaN where a ± is missing."""
        return self._array(lambda point: point.angle_error)

    @property
    def torque_error(self) -> Array:
        """Standard uncertainties of the torques [N·m]; NaN where a ± is missing."""
        return self._array(lambda point: point.torque_error)

    @property
    def expected_rate(self) -> float:
        """Torsional rate that the figures of bar and tube give [N·m/rad]."""
        # Whatever was read of the corner has asked for it.
        return cast("TorsionalRates", self.corner.torsional_rates).system

    @property
    def has_uncertainties(self) -> bool:
        """Whether every reading states its ±."""
        return bool(np.all(self.errors(self.expected_rate) > 0.0))

    def errors(self, rate: float) -> Array:
        """Return the standard uncertainties of the points at a rate [N·m/rad], as angles [rad]."""
        return self._array(lambda point: point.error(rate))

    @property
    def tells_rate(self) -> bool:
        """Whether there are enough readings, under loads that differ enough for a rate."""
        if len(self.points) < FEWEST:
            return False
        rate = self.expected_rate
        errors = self.errors(rate)
        weights = np.where(errors > 0.0, errors, self._usual_errors(rate)) ** -2.0
        off = self.torque - np.average(self.torque, weights=weights)
        # Of the compliance, over the compliance itself.
        relative = rate / math.sqrt(max(float(np.sum(weights * off**2)), _NEXT_TO_NONE))
        return relative * float(coverage_factor(_COVERAGE)) <= _CERTAIN_ENOUGH

    def _usual_errors(self, rate: float) -> Array:
        """Return the standard uncertainties [rad] with the usual ± of height and load."""
        slopes = self._array(lambda point: abs(point.hub_slope))
        height = si(usual_error("height"), LENGTH)
        load = si(usual_error("mass"), MASS) * STANDARD_GRAVITY
        usual = np.hypot(height / slopes, load * slopes / rate)
        return np.asarray(rectangular_uncertainty(usual))

    def _array(self, figure: Callable[[MeasuredPoint], float]) -> Array:
        return np.array([figure(point) for point in self.points])


# A sum of squares that no readings under different loads have.
_NEXT_TO_NONE = 1e-300


@attrs.frozen(eq=False, kw_only=True)
class SpringFit:
    """A spring found from readings, with its standard errors, from the readings alone.

    Parameters
    ----------
    rate : float [N·m/rad]
        Of bar and tube in series: found, or that of their figures.
    rate_error : float, optional [N·m/rad]
        Its standard error; none where the rate is that of the figures.
    clocked_angle : float [rad]
        Free angle less the lever's.
    clocked_error : float [rad]
        Its standard error; NaN for a single reading without ±.
    residuals : array [rad]
        What is left of each twist.
    degrees_of_freedom : float
        Of the scatter that the errors come from; infinite where they come from the stated ±.
    deviations : array, optional
        Residuals over their own standard uncertainties; none where no ± is stated.
    """

    rate: float
    rate_error: float | None
    clocked_angle: float
    clocked_error: float
    residuals: Array
    degrees_of_freedom: float
    deviations: Array | None

    @property
    def coverage_factor(self) -> float:
        """Standard errors in half of the 95 % interval, by Student's t; NaN if there is none."""
        if not self.degrees_of_freedom:
            return math.nan
        return float(coverage_factor(_COVERAGE, degrees_of_freedom=self.degrees_of_freedom))


def spring_fit(read: ReadCorner) -> SpringFit:
    """Find rate and free angle from three or more readings under different loads.

    Parameters
    ----------
    read : ReadCorner
        The corner at its readings.

    Returns
    -------
    SpringFit

    Raises
    ------
    QuantityError
        Q302 if the arm turns less where the torque is greater.

    References
    ----------
    :func:`barwright.mechanics.uncertainty.calibration.calibrate`.
    """
    known = read.has_uncertainties
    found = calibration.calibrate(
        arm_angle=read.twist,
        lever_angle=0.0,
        torque=read.torque,
        angle_uncertainty=read.angle_error if known else 0.0,
        torque_uncertainty=read.torque_error if known else 0.0,
    )
    rate = float(found.rate)
    return SpringFit(
        rate=rate,
        rate_error=float(found.rate_uncertainty),
        clocked_angle=float(found.clocked_angle),
        clocked_error=float(found.clocked_angle_uncertainty),
        residuals=found.residuals,
        degrees_of_freedom=math.inf if known else len(read.points) - 2.0,
        deviations=_deviations(found.residuals, read, rate, slope=True) if known else None,
    )


def free_angle_fit(read: ReadCorner) -> SpringFit:
    """Find the free angle alone, at the rate that the figures give.

    Parameters
    ----------
    read : ReadCorner
        The corner at its readings.

    Returns
    -------
    SpringFit

    References
    ----------
    :func:`barwright.mechanics.uncertainty.calibration.clocked_angle`.
    """
    known, rate, count = read.has_uncertainties, read.expected_rate, len(read.points)
    clocked, error = calibration.clocked_angle(
        read.twist,
        torque=read.torque,
        rate=rate,
        uncertainty=read.errors(rate) if known else 1.0,
    )
    residuals = read.twist - read.torque / rate - clocked
    if not known:
        scatter = math.sqrt(float(np.sum(residuals**2)) / (count - 1.0)) if count > 1 else math.nan
        error = scatter / math.sqrt(count)
    return SpringFit(
        rate=rate,
        rate_error=None,
        clocked_angle=float(clocked),
        clocked_error=float(error),
        residuals=residuals,
        degrees_of_freedom=math.inf if known else count - 1.0,
        deviations=_deviations(residuals, read, rate, slope=False) if known else None,
    )


def _deviations(residuals: Array, read: ReadCorner, rate: float, *, slope: bool) -> Array:
    """Residuals over their own standard uncertainties, which the fit itself has made smaller."""
    weights = read.errors(rate) ** -2.0
    off = read.torque - np.average(read.torque, weights=weights)
    held = weights / np.sum(weights)
    if slope:
        held = held + weights * off**2 / np.sum(weights * off**2)
    left = np.clip(1.0 - held, _ROUNDING, 1.0)
    return np.where(left > _ROUNDING, residuals * np.sqrt(weights / left), 0.0)


# A residual that the fit itself leaves no room tells nothing.
_ROUNDING = 1e-9
