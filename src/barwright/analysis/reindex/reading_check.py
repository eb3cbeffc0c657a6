"""A measured height against the one that the figures give."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import cast

import numpy as np

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.torsional_rates import TorsionalRates
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.ride_height import rest_angle
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.analysis.tolerance.shifted_answers import uncertainty
from barwright.parts.setup import Reading
from barwright.units import LENGTH, quantity, shown, si

__all__ = ["off_its_figures", "unstated_place"]

_READ_TO = 1e-3
"""Height [m] that a tape is read to: common practice, no source."""


def unstated_place(corner: Corner) -> Iterator[Finding]:
    """Say that the adjuster's place was not given with a reading, if it was not.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    Finding
    """
    now = None if corner.setup.reading is None else corner.setup.reading.setup
    if now is None or now.adjuster is None or now.pin_distance is not None:
        return
    if not now.nut_turns.magnitude:
        yield Finding(
            topic=Topic.MEASURED,
            text="the adjuster is taken to have stood mid-thread when the height was measured: "
            "measure its place first (pin_distance)",
        )


def off_its_figures(corner: Corner) -> Iterator[Finding]:
    """Report a measured height that contradicts the figures.

    A plan from a reading is right all the same: it takes keys and blanks from where they
    are.  But what moved them, a wrong tooth, another bar or a bar that has sagged, is to be
    known before a tooth goes.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    Finding
        That the height is not within both its ± and that of the figures, if it is not.  None
        without a reading.
    """
    reading = corner.setup.reading
    if reading is None:
        return
    there = corner.beside(reading.setup)
    expected, left_open = _expected(there)
    off = metres(reading.height) - expected
    if abs(off) > max(math.hypot(left_open, _left_open(reading)), _READ_TO):
        side = "higher" if off > 0.0 else "lower"
        apart = shown(quantity(abs(off), LENGTH), 0)
        yield Finding(
            topic=Topic.MEASURED,
            text=f"the vehicle stands {apart} {side} than its figures say. First find out "
            "why: clocked otherwise, another bar, or one that has taken a set",
            figure=reading.height,
            limit=quantity(expected - left_open, LENGTH),
            upper=quantity(expected + left_open, LENGTH),
        )


def _expected(there: Corner) -> tuple[float, float]:
    """Height [m] that the figures give, and its uncertainty [m]."""
    # The height that was read asks for a rate, and has found one.
    spring = cast("TorsionalRates", there.torsional_rates)
    height = float(there.height(rest_angle(there, spring, there.free_angle)))
    known = PlanUncertainty(there, height=height)
    return height, known.height(turns=there.turns_now, clocked_angle=there.clocked_angle)


def _left_open(reading: Reading) -> float:
    """Return the uncertainty of a reading [m]."""
    half = reading.about["height"].tolerance if "height" in reading.about else None
    return 0.0 if half is None else float(uncertainty(np.array([si(half, LENGTH)])))
