"""What calibrated corners say of the bars that are on them, to be kept for that vehicle."""

from __future__ import annotations

import math
from collections.abc import Sequence

import attrs

from barwright.analysis.calibration.calibrated_corner import CalibratedCorner, with_uncertainty
from barwright.analysis.tolerance.shifted_answers import COVERAGE_FACTOR
from barwright.errors import JobError
from barwright.parts.setup import Setup
from barwright.units import TORSIONAL_RATE, Quantity, quantity, si

__all__ = ["MeasuredRate", "measured_rates"]

# Half width of an interval in which a figure may lie anywhere, over its standard uncertainty.
_RECTANGULAR = math.sqrt(3.0)


@attrs.frozen(kw_only=True)
class MeasuredRate:
    """The torsional rate of a bar, measured on a vehicle.

    Parameters
    ----------
    bar : str
        Id of the bar.
    rate : Quantity
        Its rate as it lies in its sockets.
    tolerance : Quantity
        Its ± as a record has it: a figure anywhere within it has the standard error that was
        found, so that every answer carries that on.
    place : str
        The corners and how many readings of each.
    """

    bar: str
    rate: Quantity
    tolerance: Quantity
    place: str


def measured_rates(
    corners: Sequence[Setup], answers: Sequence[CalibratedCorner]
) -> tuple[MeasuredRate, ...]:
    """Return the rates of the bars that were calibrated, one for each bar.

    Parameters
    ----------
    corners : sequence of Setup
        The corners of a vehicle as they are now.
    answers : sequence of CalibratedCorner
        What :func:`barwright.calibrate` answered for each.

    Returns
    -------
    tuple of MeasuredRate

    Raises
    ------
    JobError
        J104 if no corner has a rate, if the readings of one are refused, or if both sides have
        one bar and two rates.
    """
    asked = list(zip(corners, answers, strict=True))
    for setup, answer in asked:
        if setup.reading is not None and not answer.is_answered:
            raise _not_calibrated(f"{setup.corner}: {answer.verdict.value}")
    sides = [
        _Side(
            setup=setup,
            readings=len(answer.readings),
            rate=si(answer.bar_rate, TORSIONAL_RATE),
            half=si(answer.bar_rate_uncertainty, TORSIONAL_RATE),
        )
        for setup, answer in asked
        if answer.bar_rate is not None and answer.bar_rate_uncertainty is not None
    ]
    if not sides:
        raise _not_calibrated("no rate of a bar")
    bars = dict.fromkeys(side.setup.bar.id for side in sides)
    return tuple(_joined(bar, [one for one in sides if one.setup.bar.id == bar]) for bar in bars)


@attrs.frozen(kw_only=True)
class _Side:
    """A corner, how often it was read, and the rate of its bar with half of its interval."""

    setup: Setup
    readings: int
    rate: float
    half: float


def _joined(bar: str, sides: Sequence[_Side]) -> MeasuredRate:
    """Join what both sides say of one bar, by their weighted mean."""
    rates = [side.rate for side in sides]
    if len(sides) > 1 and max(rates) - min(rates) > math.hypot(*(side.half for side in sides)):
        raise _two_rates(sides)
    total = sum(side.half**-2.0 for side in sides)
    rate = sum(side.rate / side.half**2.0 for side in sides) / total
    # What the suspension's figures leave open is the same on both sides, so it does not shrink.
    half = sum(side.half / side.half**2.0 for side in sides) / total
    return MeasuredRate(
        bar=bar,
        rate=quantity(rate, TORSIONAL_RATE),
        tolerance=quantity(half / COVERAGE_FACTOR * _RECTANGULAR, TORSIONAL_RATE),
        place="; ".join(f"{side.setup.corner}, {side.readings} readings" for side in sides),
    )


def _not_calibrated(value: str) -> JobError:
    return JobError(
        "J104",
        value=value,
        expected="readings that give a torsional rate and do not contradict each other",
        remedy="read the findings without --output, and measure again",
        key="measured",
    )


def _two_rates(sides: Sequence[_Side]) -> JobError:
    rates = ((quantity(side.rate, TORSIONAL_RATE), side) for side in sides)
    told = (
        f"{side.setup.corner} "
        + with_uncertainty(rate, quantity(side.half, TORSIONAL_RATE), digits=2)
        for rate, side in rates
    )
    return JobError(
        "J104",
        value=", ".join(told),
        expected="one rate for a bar that is on both sides, within the ± of both",
        remedy="find out which side has another bar, or calibrate one side by itself",
        key="measured",
    )
