"""How the corners of a column ride: their frequencies, and load against height over the travel."""

from __future__ import annotations

from typing import Any

import numpy as np

from barwright.analysis.rates.curve import POINTS, loads_and_rates
from barwright.analysis.rates.rates import Rates, rates
from barwright.columns.asked.frequencies import Oscillation
from barwright.columns.asked.question import Figures, Found, Question
from barwright.columns.asked.rates import rated_verdicts
from barwright.columns.column_corner import ColumnCorner
from barwright.columns.verdicts import Verdicts, where
from barwright.units import FORCE, FREQUENCY, LENGTH, WHEEL_RATE, Kind

__all__ = ["RIDE"]

_FREQUENCIES: dict[str, Kind | None] = {
    "ride_frequency": FREQUENCY,
    "damping_ratio": None,
    "wheel_hop_frequency": FREQUENCY,
    "wheel_hop_damping": None,
}

_CURVE: dict[str, Kind | None] = {
    "height": LENGTH,
    "wheel_load": FORCE,
    "wheel_rate": WHEEL_RATE,
    "motion_ratio": None,
}


def _of_column(corner: ColumnCorner) -> tuple[Verdicts, Found]:
    rated = corner.rated
    oscillation = Oscillation(corner, rated.states.ride)
    found = oscillation.of_body() | oscillation.of_wheel()
    figures = {name: where(rated.has_figures, number) for name, number in found.items()}
    return rated_verdicts(corner), figures | _curve_found(corner)


def _curve_found(corner: ColumnCorner) -> Found:
    """Follow the corners over their travel: a row each, from full droop to full bump."""
    rated = corner.rated
    # Limits that all rows have in common stand in a column of their own beside the rows.
    low, high = (np.atleast_1d(limit) for limit in corner.travel)
    motion = corner.linkage.motion(np.linspace(low, high, POINTS))
    _, load, wheel_rate = loads_and_rates(corner, corner.spring, rated.free, motion)
    found: dict[str, Any] = {
        "height": corner.height(motion.angle),
        "wheel_load": load,
        "wheel_rate": wheel_rate,
        "motion_ratio": motion.motion_ratio,
    }
    return {
        f"curve.{name}": np.transpose(where(rated.has_figures, number))
        for name, number in found.items()
    }


def _figures(answer: Rates) -> Figures:
    figures = answer.figures
    if figures is None:
        return {}
    return {name: getattr(figures, name) for name in _FREQUENCIES} | {
        f"curve.{name}": getattr(figures.curve, name) for name in _CURVE
    }


RIDE = Question(
    kinds=_FREQUENCIES | {f"curve.{name}": kind for name, kind in _CURVE.items()},
    of_column=_of_column,
    of_row=lambda setup, wanted: rates(setup, wanted=wanted),
    figures=_figures,
    takes_height=True,
    points={f"curve.{name}": POINTS for name in _CURVE},
)
"""What :func:`barwright.rates` says of the ride."""
