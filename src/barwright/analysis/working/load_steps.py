"""Steps to the load of a corner, and to the frequency at which it rides."""

from __future__ import annotations

from barwright.analysis.working.expression import PI, PerMetre, Symbol, root
from barwright.analysis.working.working_unit import (
    ACCELERATION,
    FORCE_UNIT,
    FREQUENCY_UNIT,
    MASS_UNIT,
    WHEEL_RATE_UNIT,
)
from barwright.analysis.working.worksheet import Worksheet
from barwright.mechanics.corner import statics
from barwright.mechanics.vehicle import ride
from barwright.parts.load import LoadKind
from barwright.units import FREQUENCY

__all__ = ["frequency_steps", "load_steps"]


def load_steps(sheet: Worksheet) -> Symbol:
    """Find the load that the corner carries."""
    if sheet.has("F"):
        return Symbol("F")
    sheet.begin("Load")
    if sheet.setup.load.kind is LoadKind.SCALE_READING:
        reading = sheet.given("m_s", "reading of the scale under the tyre", "load.mass")
        unsprung = sheet.given("m_u", "unsprung mass of the corner", "axle.unsprung_mass")
        mass = sheet.step(
            "m",
            "sprung mass",
            reading - unsprung,
            MASS_UNIT,
            "definition",
            found=sheet.corner.sprung_mass,
        )
    else:
        mass = sheet.given("m", "sprung mass", "load.mass")
    g = sheet.constant(
        "g",
        "standard acceleration of free fall",
        statics.STANDARD_GRAVITY,
        ACCELERATION,
        "3rd CGPM (1901), exact",
    )
    return sheet.step(
        "F",
        "load that the corner carries",
        mass * g,
        FORCE_UNIT,
        "weight of a mass",
        found=sheet.corner.load,
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
