"""States of a column of corners, by the names that a described state has."""

from __future__ import annotations

from barwright.analysis.rates.corner_state import CornerState, SolvedState
from barwright.columns.asked.question import Figures, Found
from barwright.columns.column_corner import ColumnCorner
from barwright.units import (
    ANGLE,
    FORCE,
    LENGTH,
    STRESS,
    TORQUE,
    WHEEL_RATE,
    Kind,
    si,
)

__all__ = ["STATE", "state_figures", "state_found"]

STATE: dict[str, Kind | None] = {
    "arm_angle": ANGLE,
    "height": LENGTH,
    "twist": ANGLE,
    "torque": TORQUE,
    "shear_stress": STRESS,
    "wheel_load": FORCE,
    "wheel_rate": WHEEL_RATE,
    "damper_length": LENGTH,
    "stroke_to_closed": LENGTH,
    "stroke_to_open": LENGTH,
}
"""Figures of a state."""


def state_found(corner: ColumnCorner, solved: SolvedState) -> Found:
    """Numbers of a solved state, by the names that a described one has."""
    damper = corner.setup.damper
    return {
        "arm_angle": solved.angle,
        "height": solved.height,
        "twist": solved.twist,
        "torque": solved.torque,
        "shear_stress": solved.shear_stress,
        "wheel_load": solved.wheel_load,
        "wheel_rate": solved.wheel_rate,
        "damper_length": solved.damper_length,
        "stroke_to_closed": solved.damper_length - si(damper.closed_length, LENGTH),
        "stroke_to_open": si(damper.open_length, LENGTH) - solved.damper_length,
    }


def state_figures(state: CornerState) -> Figures:
    """Figures of a described state."""
    return {name: getattr(state, name) for name in STATE}
