"""A measured height against the one that the figures give."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import cast

import attrs
import numpy as np

from barwright.analysis.calibration.objections import contradiction, odd_loads
from barwright.analysis.calibration.spring_fit import ReadCorner, free_angle_fit
from barwright.analysis.calibration.usual_error import usual_error
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.measured_point import MeasuredPoint, angle_error
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.ride_height import rest_angle
from barwright.analysis.tolerance.plan_tolerance import PlanUncertainty
from barwright.analysis.tolerance.shifted_answers import COVERAGE_FACTOR
from barwright.parts.setup import Reading
from barwright.units import LENGTH, Quantity, quantity, shown

__all__ = [
    "disagreement",
    "doubt_of",
    "for_the_other_side",
    "odd_readings",
    "off_its_figures",
    "unexplained",
    "unstated_error",
    "unstated_place",
]

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
    if any(map(_place_is_assumed, corner.setup.readings)):
        yield Finding(
            topic=Topic.MEASURED,
            text="the adjuster is assumed to have been at mid-thread when the height was "
            "measured: measure its position first (pin_distance)",
        )


def _place_is_assumed(reading: Reading) -> bool:
    """Whether nobody said where the nut stood at a reading."""
    there = reading.corner
    said = there.pin_distance or there.nut_turns.magnitude or reading.nut_turns is not None
    return there.adjuster is not None and not said


def unstated_error(corner: Corner) -> Iterator[Finding]:
    """Say that a height was read without its ±, if so: no ± of a plan includes it.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    Finding
        One for height and one for arm angle, however many readings lack their ±.
    """
    readings = corner.setup.readings
    for field, called in _READ.items():
        figures = (one.about[field] for one in readings if field in one.about)
        if any(figure.tolerance is None for figure in figures):
            yield Finding(
                topic=Topic.UNCERTAINTY,
                text=f"the ± of the height leaves out how well {called} was measured: write "
                f"{field} with its ±; usual is ± {shown(usual_error(field))}",
            )


_READ = {"height": "the height", "arm_angle": "the arm's angle"}


def odd_readings(corner: Corner) -> Iterator[Finding]:
    """Report each reading whose load is far from the vehicle's own, and what it may be instead.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    Finding
        None if every reading has the load of the corner, which is reported by itself.
    """
    readings = corner.setup.readings
    if any(one.corner.load != corner.setup.load for one in readings):
        yield from odd_loads([corner.beside(one.corner) for one in readings])


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
    readings = corner.setup.readings
    # One that is further off than its ± explains will do.
    yield from itertools.islice(
        itertools.chain.from_iterable(_off(corner, reading) for reading in readings), 1
    )


def disagreement(corner: Corner) -> Iterator[Finding]:
    """Say that several readings do not agree at the rate that the figures give, if so.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    Finding
        No plan may rest on a mean of such readings.
    """
    if len(corner.setup.readings) < 2:  # noqa: PLR2004 - one agrees with itself
        return
    read = ReadCorner.of(corner)
    for found in contradiction(read, free_angle_fit(read)):
        yield attrs.evolve(
            found,
            topic=Topic.MEASURED,
            text="the readings do not agree at the torsional rate of the figures. Measure again, "
            "or find the rate that they show: barwright calibrate",
        )


def _off(corner: Corner, reading: Reading) -> Iterator[Finding]:
    """Report a reading that is not where the figures have it, within the ± of both."""
    there = corner.beside(reading.corner)
    point = there.point_at(reading)
    read = float(there.height(point.arm_angle))
    expected, left_open = _expected(there)
    off = read - expected
    if abs(off) > max(math.hypot(left_open, _left_open(reading, point)), _READ_TO):
        side = "higher" if off > 0.0 else "lower"
        yield Finding(
            topic=Topic.MEASURED,
            text=f"the vehicle stands {side} than its figures say. First find out "
            f"why: clocked otherwise, another bar, or {_USUAL_REASON[side]}",
            figure=reading.height or quantity(read, LENGTH),
            limit=quantity(expected - left_open, LENGTH),
            upper=quantity(expected + left_open, LENGTH),
        )


def doubt_of(findings: Sequence[Finding], *, cuts: int) -> str:
    """Say what to check before anything of a plan is done, as a sentence; empty if nothing.

    Parameters
    ----------
    findings : sequence of Finding
        Of the plan.
    cuts : int
        Teeth that it removes.

    Returns
    -------
    str
    """
    load = next((one for one in findings if one.topic is Topic.LOAD), None)
    if load is not None:
        return f"Check the load first: {load.line}. "
    reason = (unexplained(findings) or for_the_other_side(findings)) if cuts else ""
    return f"Remove no tooth yet: {reason}. " if reason else ""


def for_the_other_side(findings: Iterable[Finding]) -> str:
    """Say, as a clause, that a bar belongs on the other side; empty if it does not.

    Parameters
    ----------
    findings : iterable of Finding
        Of a plan, and of what has to be changed for it.

    Returns
    -------
    str
        There it may need no cut.
    """
    is_so = any(one.topic is Topic.WRONG_SIDE for one in findings)
    return "the bar's blanks are for the other side" if is_so else ""


# A set lowers a vehicle, and rubber that was tightened with the wheel hanging raises it: common
# practice, no source.
_USUAL_REASON = {
    "lower": "one that has taken a set",
    "higher": "rubber bushings tightened with the wheel hanging",
}


def unexplained(findings: Iterable[Finding]) -> str:
    """Say how a measured height contradicts the figures, as a clause; empty if it does not.

    Parameters
    ----------
    findings : iterable of Finding
        Of a plan.

    Returns
    -------
    str
        Why it does so is to be known before a tooth goes; a turn of the adjuster can be undone.
    """
    off = next(filter(_is_off_its_figures, findings), None)
    if off is None:
        return ""
    found, low, high = (cast("Quantity", one) for one in (off.figure, off.limit, off.upper))
    # The figures give the middle of that range.
    apart = found - (low + high) / 2.0
    side = "higher" if apart.magnitude > 0.0 else "lower"
    return f"it stands {shown(abs(apart), 0)} {side} than its figures say"


def _is_off_its_figures(finding: Finding) -> bool:
    """Whether it is a finding of :func:`off_its_figures`."""
    # Of all findings on measured heights it alone has a range.  It has no topic of its own,
    # because programs read the topic in answers.
    return finding.topic is Topic.MEASURED and finding.upper is not None


def _expected(there: Corner) -> tuple[float, float]:
    """Height [m] that the figures give, and its uncertainty [m]."""
    # The height that was read asks for a rate, and has found one.
    spring = cast("TorsionalRates", there.torsional_rates)
    height = float(there.height(rest_angle(there, spring, there.free_angle)))
    known = PlanUncertainty(there, height=height)
    return height, known.height(turns=there.turns_now, clocked_angle=there.clocked_angle)


def _left_open(reading: Reading, point: MeasuredPoint) -> float:
    """Return the uncertainty of a height that was read [m]; 0 without a ±."""
    error = angle_error(reading, hub_slope=point.hub_slope) * abs(point.hub_slope)
    return COVERAGE_FACTOR * float(np.nan_to_num(error))
