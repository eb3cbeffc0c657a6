"""What a reading of a corner says of its spring: a point of twist over torque."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import cast

import attrs

from barwright.analysis.corner.geometry import CornerGeometry
from barwright.analysis.corner.suspension import metres, radians
from barwright.errors import QuantityError
from barwright.mechanics.common.types import Real
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.parts.common.record import Record
from barwright.parts.setup import Reading
from barwright.units import ANGLE, LENGTH, TURNS, Kind, Quantity, quantity, shown, si

__all__ = [
    "MeasuredPoint",
    "angle_error",
    "change_over",
    "measured_angle",
    "out_of_travel",
    "setting_error",
    "standard_error",
]


@attrs.frozen(kw_only=True)
class MeasuredPoint:
    """Where a corner stood, and what its bar then carried, SI floats.

    Parameters
    ----------
    arm_angle, lever_angle : float [rad]
        Of the arm above the horizontal, and of the anchor's lever.
    torque : float [N·m]
        Of the bar.
    angle_error : float [rad]
        Standard uncertainty of arm less lever, as it counts for the free angle; NaN where a
        figure has no ±.
    torque_error : float [N·m]
        Standard uncertainty of the torque, from that of the load.
    hub_slope : float [m/rad]
        Change of the hub's height with arm angle.
    followed : float
        Change of the arm's angle at rest with the free angle.
    """

    arm_angle: float
    lever_angle: float
    torque: float
    angle_error: float
    torque_error: float
    hub_slope: float
    followed: float

    @property
    def twist(self) -> float:
        """Arm angle less the lever's [rad]."""
        return self.arm_angle - self.lever_angle

    def error(self, rate: float) -> float:
        """Return the standard uncertainty [rad] of the free angle at a rate [N·m/rad], or NaN."""
        return math.hypot(self.angle_error, self.torque_error / rate)


def standard_error(record: Record, field: str, kind: Kind) -> float:
    """Return the standard uncertainty of a figure from its ±, SI; NaN where it has none.

    Parameters
    ----------
    record : Record
        What holds the figure.
    field : str
        Its field.
    kind : Kind
        What it is.

    Returns
    -------
    float
    """
    known = record.about.get(field)
    half = known.tolerance if known else None
    return math.nan if half is None else float(rectangular_uncertainty(si(half, kind)))


def measured_angle(corner: CornerGeometry, reading: Reading) -> float | None:
    """Arm angle [rad] at a reading; none if it is out of travel."""
    if reading.height is not None:
        return corner.angle_at_height(metres(reading.height))
    angle = radians(cast("Quantity", reading.arm_angle))
    low, high = corner.travel
    return angle if low <= angle <= high else None


def angle_error(reading: Reading, *, hub_slope: float) -> float:
    """Return the standard uncertainty of the arm angle [rad]; NaN where no ± is stated."""
    if reading.height is None:
        return standard_error(reading, "arm_angle", ANGLE)
    return standard_error(reading, "height", LENGTH) / abs(hub_slope)


def setting_error(reading: Reading, *, per_turn: float) -> float:
    """Return the standard uncertainty of the pin's place [m]; 0 where it was not read."""
    if reading.pin_distance is not None:
        return standard_error(reading, "pin_distance", LENGTH)
    if reading.nut_turns is not None:
        return standard_error(reading, "nut_turns", TURNS) * abs(per_turn)
    return 0.0


def change_over(function: Callable[[float], Real], *, at: float, by: float) -> float:
    """Half of what a function changes from so much below a place to so much above it."""
    if math.isnan(by):
        return by
    return abs(float(function(at + by)) - float(function(at - by))) / 2.0


def out_of_travel(corner: CornerGeometry, reading: Reading) -> QuantityError:
    """Return the refusal of a reading at which no corner with these parts stands."""
    if reading.height is None:
        low, high = (shown(quantity(end, ANGLE), 1) for end in corner.travel)
        return QuantityError(
            "Q302",
            value=_shown(reading.arm_angle),
            expected=f"an arm angle within the travel, {corner.setup.corner}: {low} to {high}",
            remedy="measure the arm's centreline against the horizontal, the wheel on the "
            "ground, and name the parts that are on the vehicle",
            key="reading.arm_angle",
        )
    low, high = (
        f"{h * 1e3:.0f} mm" for h in sorted(float(corner.height(e)) for e in corner.travel)
    )
    return QuantityError(
        "Q302",
        value=_shown(reading.height),
        expected=f"a height within the travel, {corner.setup.corner}: {low} to {high}",
        remedy="measure from the hub centre to the edge of the arch, the wheel on the "
        "ground, and name the parts that are on the vehicle",
        key="reading.height",
    )


def _shown(value: Quantity | None) -> str:
    """Show a figure that is known to be there."""
    return shown(cast("Quantity", value))
