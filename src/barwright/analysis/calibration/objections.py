"""What keeps readings from saying more of a spring, and what to do about it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import attrs
import numpy as np

from barwright.analysis.calibration.spring_fit import FEWEST, ReadCorner, SpringFit
from barwright.analysis.calibration.usual_error import usual_error
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.measured_point import measured_angle, out_of_travel
from barwright.analysis.corner.out_of_range import unusual_load
from barwright.analysis.finding import Finding, Topic
from barwright.parts.setup import Reading
from barwright.units import LENGTH, MASS, TORSIONAL_RATE, quantity, shown, si

__all__ = [
    "alike",
    "contradiction",
    "falling",
    "is_implausible",
    "missing_uncertainty",
    "no_readings",
    "odd_loads",
    "other_rate",
    "too_few",
    "turned_nut",
    "unusable",
]

# Residuals of more standard uncertainties are no chance: common practice, no source.
_FARTHEST = 3.0

# How far a bar's rate lies from that of its figures, as their ratio, if it is that bar: shear
# modulus and diameter explain less.  Common practice, no source.
_LEAST_SHARE, _MOST_SHARE = 0.8, 1.25

_CALLED = {"arm_angle": "arm angle", "mass": "load"}


def no_readings() -> Finding:
    """Ask for readings where there are none."""
    return Finding(
        topic=Topic.READINGS,
        text=f"nothing was measured of this corner. Take {FEWEST} or more readings under clearly "
        "different loads",
    )


def unusable(corners: Sequence[Corner], readings: Sequence[Reading]) -> Iterator[Finding]:
    """Report each reading at which no corner with these parts stands on its spring."""
    for number, (corner, reading) in enumerate(zip(corners, readings, strict=True), 1):
        if measured_angle(corner, reading) is None:
            refusal = out_of_travel(corner, reading)
            yield _of(number, f"got {refusal.value}, expected {refusal.expected}; {refusal.remedy}")
        elif corner.point_at(reading).torque <= 0.0 and not corner.anchorage.holds_both_ways:
            yield _of(number, "the bar carries nothing there. Measure with the wheel on the ground")


def odd_loads(corners: Sequence[Corner]) -> Iterator[Finding]:
    """Report each load that is far from the vehicle's own, and what it may be instead."""
    for number, corner in enumerate(corners, 1):
        for found in unusual_load(corner):
            yield attrs.evolve(found, text=f"reading {number}: {found.text}")


def turned_nut(corners: Sequence[Corner]) -> Iterator[Finding]:
    """Say that a corner was not weighed again after its nut was turned, if that is so."""
    turns = {round(corner.turns_now, 6) for corner in corners}
    loads = {si(corner.setup.load.mass, MASS) for corner in corners}
    if len(turns) > 1 and len(loads) == 1:
        yield Finding(
            topic=Topic.READINGS,
            text="the nut was turned, and the load is the same: a turned nut changes the load "
            "of its corner. Weigh the corner again after each turn",
        )


def too_few(read: ReadCorner) -> Finding:
    """Say that so few readings tell no rate."""
    return Finding(
        topic=Topic.READINGS,
        text="too few readings for the rate, because a line passes through any two. Take "
        "more, under clearly different loads",
        figure=len(read.points),
        limit=FEWEST,
    )


def alike(read: ReadCorner) -> Finding:
    """Say that readings under such loads cannot tell rate and free angle apart."""
    loads = [corner.sprung_mass for corner in read.corners]
    return Finding(
        topic=Topic.READINGS,
        text="the loads differ too little to tell rate and free angle apart: turns of the nut "
        "at one load tell the free angle alone. Measure again with known ballast over the axle",
        figure=quantity(max(loads) - min(loads), MASS),
    )


def missing_uncertainty(read: ReadCorner) -> Iterator[Finding]:
    """Ask for each ± that is missing, and name a usual one."""
    missing = dict.fromkeys(
        name
        for reading in read.corner.setup.readings
        for record in (reading, reading.corner.load)
        for name, figure in record.about.items()
        if figure.tolerance is None
    )
    if missing:
        usual = ", ".join(f"{_CALLED.get(n, n)} ± {shown(usual_error(n))}" for n in missing)
        yield Finding(
            topic=Topic.UNCERTAINTY,
            text=f"state the ± of each reading, usually: {usual} (common practice, no source). "
            "Without it the interval rests on the scatter of the readings alone",
        )


def contradiction(read: ReadCorner, fit: SpringFit) -> Iterator[Finding]:
    """Report readings that lie further from the best spring than their ± explains."""
    if fit.deviations is None:
        return
    deviations = np.abs(fit.deviations)
    worst = int(np.argmax(deviations))
    if deviations[worst] <= _FARTHEST:
        return
    alone = np.sum(deviations > _NEARLY * deviations[worst]) == 1
    which = f", reading {worst + 1} most of all" if alone else ""
    off = abs(residual_height(read, fit, worst))
    explained = abs(height_of(read, worst, free_angle=float(read.errors(fit.rate)[worst])))
    yield Finding(
        topic=Topic.READINGS,
        text=f"the readings contradict each other by more than the ± explains{which}. Look for "
        "a height, a load or a nut place that was written to the wrong reading, and measure again",
        figure=quantity(off, LENGTH),
        limit=quantity(_FARTHEST * explained, LENGTH),
    )


# Of three readings no single one is to blame, because their deviations are all alike.
_NEARLY = 0.95


def falling() -> Finding:
    """Say that the arm turns less where the load is greater."""
    return Finding(
        topic=Topic.READINGS,
        text="the readings contradict each other: the arm turns less where the load is greater. "
        "Look for heights and loads that were written to the wrong reading",
    )


def is_implausible(read: ReadCorner, fit: SpringFit) -> bool:
    """Whether a rate is not that of the bar in the records."""
    return not _LEAST_SHARE <= fit.rate / read.expected_rate <= _MOST_SHARE


def other_rate(read: ReadCorner, fit: SpringFit) -> Finding:
    """Say that the rate is not that of the bar in the records."""
    expected = read.expected_rate
    low, high = (
        quantity(share * expected, TORSIONAL_RATE) for share in (_LEAST_SHARE, _MOST_SHARE)
    )
    return Finding(
        topic=Topic.READINGS,
        text=f"the torsional rate is {fit.rate / expected:.2f} times that of the figures of bar "
        "and tube. Check the bar that is on the vehicle, and the units of the loads",
        figure=quantity(fit.rate, TORSIONAL_RATE),
        limit=low,
        upper=high,
    )


def residual_height(read: ReadCorner, fit: SpringFit, index: int) -> float:
    """Return how much higher a corner stood than a spring says [m]."""
    return height_of(read, index, free_angle=float(fit.residuals[index]))


def height_of(read: ReadCorner, index: int, *, free_angle: float) -> float:
    """Return the change of height [m] for a change of the free angle [rad] at a reading."""
    point = read.points[index]
    return -free_angle * point.followed * point.hub_slope


def _of(number: int, text: str) -> Finding:
    """Report one reading."""
    return Finding(topic=Topic.READINGS, text=f"reading {number}: {text}")
