"""The question which spring a corner really has."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import cast

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.calibration.calibrated_corner import CalibratedCorner, CalibratedReading
from barwright.analysis.calibration.figure_uncertainty import figure_uncertainty
from barwright.analysis.calibration.objections import (
    alike,
    contradiction,
    falling,
    is_implausible,
    missing_uncertainty,
    no_readings,
    odd_loads,
    other_rate,
    residual_height,
    too_few,
    turned_nut,
    unusable,
)
from barwright.analysis.calibration.spring_fit import (
    FEWEST,
    ReadCorner,
    SpringFit,
    free_angle_fit,
    spring_fit,
)
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner
from barwright.analysis.corner.missing import MissingFigures
from barwright.analysis.corner.suspension import metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.tolerance.shifted_answers import COVERAGE_FACTOR
from barwright.errors import QuantityError, SchemaError
from barwright.mechanics.uncertainty.calibration import remaining_rate, shear_modulus_from_rate
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Reading, Setup
from barwright.units import (
    ANGLE,
    LENGTH,
    MASS,
    SHEAR_MODULUS,
    TORQUE,
    TORSIONAL_RATE,
    TURNS,
    Kind,
    Quantity,
    is_unknown,
    quantity,
)

__all__ = ["calibrate"]


@checks_arguments
def calibrate(setup: Setup, readings: Sequence[Reading] | None = None) -> CalibratedCorner:
    """Answer which torsional rate and free angle readings of a corner show.

    Parameters
    ----------
    setup : Setup
        The corner with the parts and teeth that it had at all readings.
    readings : sequence of Reading, optional
        What was measured of it; those of the setup, if left out.

    Returns
    -------
    CalibratedCorner
        From three or more readings under clearly different loads the rate and the free angle;
        from fewer, or from turns of the nut under one load, the free angle alone.  Key angles
        are not needed.

    Raises
    ------
    SchemaError
        S207 for a reading of another corner, or with other parts or teeth.
    QuantityError
        Q302 for a nut that is off its thread.

    References
    ----------
    Least squares with errors in both coordinates
    (:func:`barwright.mechanics.uncertainty.calibration.calibrate`); Student's t where the
    standard errors come from the scatter of the readings, JCGM 100:2008 (GUM), G.3 (from
    memory).

    Examples
    --------
    >>> import barwright as bw
    >>> van = bw.Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> stood = {"300 kg": "407 mm", "340 kg": "389 mm", "380 kg": "371 mm"}
    >>> readings = [
    ...     bw.parts.measured(van, height=f"{height} ± 2 mm", scale_reading=f"{load} ± 1 kg")
    ...     for load, height in stood.items()
    ... ]
    >>> calibrate(van, readings).verdict.value
    'calibrated'
    """
    given = setup.readings if readings is None else tuple(readings)
    read = setup.with_readings(given)
    _refuse_other_parts(read)
    missing = MissingFigures(read)
    found = missing.tried(lambda: _calibrated(Corner(read)))
    if found is not None:
        return found
    needed = missing.findings("needed to find rate and free angle")
    return CalibratedCorner(verdict=Verdict.NEEDS_FIGURES, findings=needed)


def _calibrated(corner: Corner) -> CalibratedCorner:
    """Answer of a corner with its readings."""
    given = corner.setup.readings
    if corner.torsional_rates is None or not corner.lever_closes:
        return CalibratedCorner(verdict=Verdict.DOES_NOT_FIT, findings=fit_of(corner).reasons)
    if not given:
        return CalibratedCorner(verdict=Verdict.NEEDS_FIGURES, findings=(no_readings(),))
    corners = [corner.beside(one.corner) for one in given]
    odd = tuple(odd_loads(corners))
    if unfit := tuple(unusable(corners, given)):
        return CalibratedCorner(verdict=Verdict.NEEDS_FIGURES, findings=(*unfit, *odd))
    return _answered(ReadCorner.of(corner), odd)


def _refuse_other_parts(setup: Setup) -> None:
    """Refuse a reading with other parts or teeth: it is of another spring."""
    if setup.reading is not None and setup.reading.setup.spring != setup.spring:
        raise SchemaError(
            "S207",
            value="readings with other parts or teeth",
            expected="readings of the corner with the parts and teeth that it has",
            remedy="calibrate each spring by its own readings",
            key="readings",
        )


def _answered(read: ReadCorner, odd: tuple[Finding, ...]) -> CalibratedCorner:
    """Answer from readings that a corner with these parts can have."""
    further = (*odd, *turned_nut(read.corners), *missing_uncertainty(read))
    if not read.tells_rate:
        reason = too_few(read) if len(read.points) < FEWEST else alike(read)
        found = free_angle_fit(read)
        known = _answer(read, found, (reason, *further), Verdict.FREE_ANGLE_ALONE)
        _, left_open = figure_uncertainty(read.corner, free_angle_fit)
        return _with_free_angle(known, read, found, left_open)
    try:
        found = spring_fit(read)
    except QuantityError:
        return _answer(read, None, (falling(), *further), Verdict.CONTRADICTORY)
    doubted = (other_rate(read, found),) if is_implausible(read, found) else ()
    if doubted and odd:
        return _answer(read, None, (*doubted, *further), Verdict.NEEDS_FIGURES)
    known = _answer(read, found, (*doubted, *further), Verdict.CALIBRATED)
    rate_open, left_open = figure_uncertainty(read.corner, spring_fit)
    return _with_rate(_with_free_angle(known, read, found, left_open), read, found, rate_open)


def _answer(
    read: ReadCorner, found: SpringFit | None, findings: tuple[Finding, ...], verdict: Verdict
) -> CalibratedCorner:
    """Answer with the readings; no, if they contradict the spring that was found."""
    contradicted = () if found is None else tuple(contradiction(read, found))
    # A slip in a load explains what else is wrong.
    ordered = sorted((*contradicted, *findings), key=lambda found: found.topic is not Topic.LOAD)
    return CalibratedCorner(
        verdict=Verdict.CONTRADICTORY if contradicted else verdict,
        findings=tuple(ordered),
        expected_system_rate=quantity(read.expected_rate, TORSIONAL_RATE),
        readings=tuple(_reading(read, found, index) for index in range(len(read.points))),
    )


def _with_free_angle(
    answer: CalibratedCorner, read: ReadCorner, found: SpringFit, left_open: float
) -> CalibratedCorner:
    """Add the free angle that was found, and what its figures leave open of it [rad]."""
    error, factor = found.clocked_error, found.coverage_factor
    known = math.isfinite(error)
    freedom = found.degrees_of_freedom
    return attrs.evolve(
        answer,
        free_angle=quantity(found.clocked_angle + read.corner.nut_lever, ANGLE),
        free_angle_standard_error=_known(math.hypot(error, left_open / COVERAGE_FACTOR), ANGLE),
        free_angle_uncertainty=_known(math.hypot(factor * error, left_open), ANGLE),
        degrees_of_freedom=int(freedom) if known and math.isfinite(freedom) else None,
        coverage_factor=factor if known else None,
    )


def _with_rate(
    answer: CalibratedCorner, read: ReadCorner, found: SpringFit, left_open: float
) -> CalibratedCorner:
    """Add the rate that was found, what the figures leave open of it [N·m/rad], and the bar's."""
    error = cast("float", found.rate_error)
    half = math.hypot(found.coverage_factor * error, left_open)
    bar = _bar_rate(read, found.rate)
    # The tube is as its figures have it, so the bar takes the whole error of the compliance.
    bar_half = half * (bar / found.rate) ** 2
    return attrs.evolve(
        answer,
        system_rate=quantity(found.rate, TORSIONAL_RATE),
        system_rate_standard_error=_known(
            math.hypot(error, left_open / COVERAGE_FACTOR), TORSIONAL_RATE
        ),
        system_rate_uncertainty=quantity(half, TORSIONAL_RATE),
        bar_rate=_known(bar, TORSIONAL_RATE),
        bar_rate_uncertainty=_known(bar_half, TORSIONAL_RATE),
        shear_modulus=_known(_shear_modulus(read.corner, bar), SHEAR_MODULUS),
    )


def _shear_modulus(corner: Corner, rate: float) -> float:
    """Return the shear modulus [Pa] by which a bar of its sizes has a rate; NaN without one."""
    bar, length = corner.setup.bar, corner.seated_length
    if math.isnan(rate) or length is None or is_unknown(bar.diameter) or is_unknown(bar.bore):
        return math.nan
    found = shear_modulus_from_rate(
        rate, diameter=metres(bar.diameter), bore=metres(bar.bore), active_length=length
    )
    return float(found)


def _bar_rate(read: ReadCorner, rate: float) -> float:
    """Return what a rate of the whole [N·m/rad] leaves to the bar; NaN if the tube is softer."""
    tube = cast("TorsionalRates", read.corner.torsional_rates).tube
    if tube is None:
        return rate
    return float(remaining_rate(rate, other_rate=tube)) if rate < tube else math.nan


def _reading(read: ReadCorner, found: SpringFit | None, index: int) -> CalibratedReading:
    """Show a reading beside the spring that was found."""
    corner, point = read.corners[index], read.points[index]
    off = None if found is None else residual_height(read, found, index)
    return CalibratedReading(
        sprung_mass=quantity(corner.sprung_mass, MASS),
        nut_turns=quantity(corner.turns_now, TURNS),
        height=quantity(float(corner.height(point.arm_angle)), LENGTH),
        arm_angle=quantity(point.arm_angle, ANGLE),
        torque=quantity(point.torque, TORQUE),
        residual_height=None if off is None else quantity(off, LENGTH),
    )


def _known(value: float, kind: Kind) -> Quantity | None:
    """Return a figure; none for NaN."""
    return quantity(value, kind) if math.isfinite(value) else None
