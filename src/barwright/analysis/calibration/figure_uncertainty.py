"""How far the figures of a suspension leave open what readings of it say."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeAlias

import attrs
import numpy as np

from barwright.analysis.calibration.spring_fit import ReadCorner, SpringFit
from barwright.analysis.corner.corner import Corner
from barwright.analysis.tolerance.shifted_answers import half_change, uncertainty
from barwright.analysis.tolerance.shifted_corners import tolerance_ends
from barwright.errors import BarwrightError
from barwright.parts.common.source import About
from barwright.parts.setup import Reading

__all__ = ["figure_uncertainty"]

Fit: TypeAlias = Callable[[ReadCorner], SpringFit]


def figure_uncertainty(
    corner: Corner, fit: Callable[[ReadCorner], SpringFit]
) -> tuple[float, float]:
    """Return what the ± of the suspension's figures leave open of rate and free angle.

    The ± of the readings themselves is in the errors of the fit.

    Parameters
    ----------
    corner : Corner
        With its readings.
    fit : callable
        How the spring is found.

    Returns
    -------
    (float, float) [N·m/rad], [rad]
        Expanded uncertainties, as those of every answer.
    """
    exact = Corner(corner.setup.with_readings(list(map(_exact, corner.setup.readings))))
    ends = tolerance_ends(exact)
    found = np.array([_spring(end, fit) for end in ends.corners])
    changes = half_change(found[:-1:2], found[1:-1:2], middle=found[-1])
    rate, free_angle = (float(one) for one in uncertainty(np.nan_to_num(changes)))
    return rate, free_angle


def _spring(corner: Corner | None, fit: Fit) -> tuple[float, float]:
    """Rate and free angle at one end of a ±; NaN where there is no such corner."""
    if corner is None:
        return math.nan, math.nan
    try:
        found = fit(ReadCorner.of(corner))
    except BarwrightError:
        return math.nan, math.nan
    return found.rate, found.clocked_angle + corner.nut_lever


def _exact(reading: Reading) -> Reading:
    """Return a reading whose own figures have no ±."""
    there = attrs.evolve(reading.setup, load=attrs.evolve(reading.setup.load, about=About()))
    return attrs.evolve(reading, setup=there, about=About())
