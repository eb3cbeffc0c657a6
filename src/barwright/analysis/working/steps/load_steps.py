"""Steps to the load of a corner, and to the frequency at which it rides."""

from __future__ import annotations

from barwright.analysis.working.expression import PI, PerMetre, Symbol, root
from barwright.analysis.working.steps.linkage_steps import LinkageSteps
from barwright.analysis.working.working_unit import (
    ACCELERATION,
    DAMPING,
    FORCE_UNIT,
    FREQUENCY_UNIT,
    MASS_UNIT,
    NO_UNIT,
    WHEEL_RATE_UNIT,
)
from barwright.analysis.working.worksheet import Worksheet, marked
from barwright.mechanics.corner import damping, statics
from barwright.mechanics.linkage.arm_and_strut import Motion
from barwright.mechanics.vehicle import ride
from barwright.parts.load import LoadKind
from barwright.parts.setup import Reading
from barwright.units import FREQUENCY

__all__ = ["damping_steps", "frequency_steps", "load_steps"]


def load_steps(sheet: Worksheet, reading: Reading | None = None) -> Symbol:
    """Find the load that the corner carries, or carried when it was measured.

    Parameters
    ----------
    sheet : Worksheet
        Where the steps are put down.
    reading : Reading, optional
        What was measured of it.

    Returns
    -------
    Symbol
    """
    load = sheet.setup.load
    mark, path, where = "", "load.mass", ""
    if reading is not None and reading.setup.load is not load:
        load = reading.setup.load
        mark, path, where = "r", "reading.setup.load.mass", ", as it was measured"
    force = marked("F", mark)
    if sheet.has(force):
        return Symbol(force)
    sheet.begin("Load")
    if load.kind is LoadKind.SCALE_READING:
        weighed = sheet.given(
            marked("m_s", mark), f"reading of the scale under the tyre{where}", path
        )
        unsprung = sheet.given("m_u", "unsprung mass of the corner", "axle.unsprung_mass")
        mass = sheet.step(
            marked("m", mark), f"sprung mass{where}", weighed - unsprung, MASS_UNIT, "definition"
        )
    else:
        mass = sheet.given(marked("m", mark), f"sprung mass{where}", path)
    g = Symbol("g")
    if not sheet.has("g"):
        g = sheet.constant(
            "g",
            "standard acceleration of free fall",
            statics.STANDARD_GRAVITY,
            ACCELERATION,
            "3rd CGPM (1901), exact",
        )
    return sheet.step(
        force,
        f"load that the corner carries{where}",
        mass * g,
        FORCE_UNIT,
        "weight of a mass",
        found=None if mark else sheet.corner.load,
    )


def frequency_steps(sheet: Worksheet, wheel_rate: float) -> None:
    """Put down the ride frequency on wheel rate and tyre in series."""
    if wheel_rate <= 0.0:
        return
    sheet.begin("Ride frequency")
    tyre = sheet.given("K_t", "rate of the tyre", "axle.tyre_rate")
    series = ride.ride_rate(wheel_rate=wheel_rate, tyre_rate=sheet.corner.tyre_rate)
    both = sheet.step(
        "K_r",
        "rate of wheel and tyre in series",
        1 / (1 / Symbol("K") + 1 / tyre),
        WHEEL_RATE_UNIT,
        ride.ride_rate,
        found=series,
    )
    found = ride.natural_frequency(rate=series, mass=sheet.corner.sprung_mass)
    sheet.step(
        "f_r",
        "frequency of the sprung mass on that rate",
        root(PerMetre(both) / Symbol("m")) / (2 * PI),
        FREQUENCY_UNIT,
        ride.natural_frequency,
        found=found,
        figure="ride_frequency",
        kind=FREQUENCY,
    )


def damping_steps(state: LinkageSteps, ratio: float | None) -> None:
    """Put down the damping ratio of the sprung mass, if the answer has one.

    Parameters
    ----------
    state : LinkageSteps
        The corner at rest, whose rate at the wheel is put down already.
    ratio : float, optional
        What the answer has for it.
    """
    sheet = state.sheet
    if ratio is None:
        return
    sheet.begin("Damping")
    rate = sheet.given("c_d", "damping rate of the damper", "damper.damping_rate")
    lever = sheet.step(
        "i_d",
        "shortening of the damper per travel where the load acts, at rest",
        -(state.damper_slope() / state.slope()),
        NO_UNIT,
        Motion.motion_ratio,
        found=state.motion.motion_ratio,
    )
    at_wheel = sheet.step(
        "c_w", "damping at the wheel", rate * lever**2, DAMPING, damping.wheel_damping
    )
    sheet.step(
        "ζ",
        "damping ratio of the sprung mass, body and damper alone",
        at_wheel / (2 * root(PerMetre(Symbol("K")) * Symbol("m"))),
        NO_UNIT,
        damping.damping_ratio,
        found=ratio,
        figure="damping_ratio",
    )
