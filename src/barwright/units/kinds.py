"""Kinds of quantity, their units, and what a reader of either system is given.

A *kind* is finer than a dimension: to pint, N·m, N·m/rad and J are one.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal, TypeAlias

import attrs

__all__ = [
    "ANGLE",
    "DAMPING_RATE",
    "DENSITY",
    "DISTANCE",
    "ENERGY",
    "FINER",
    "FORCE",
    "FREQUENCY",
    "GAS_SLOPE",
    "HEIGHT_PER_TURN",
    "KINDS",
    "LENGTH",
    "MASS",
    "PLACES",
    "SHEAR_MODULUS",
    "STRESS",
    "SYSTEMS",
    "TIME",
    "TORQUE",
    "TORSIONAL_RATE",
    "TURNS",
    "UNITS",
    "WHEEL_RATE",
    "Kind",
    "Range",
    "System",
    "Unit",
    "a_kind",
    "listed",
]

System: TypeAlias = Literal["metric", "inch"]
"""Units that a reader wants: metric, or inch, pound and foot-pound."""

Range: TypeAlias = Literal["any", "positive", "zero or more", "zero or less"]
"""Which numbers are physically possible for a figure."""

_INCH = 0.0254
_POUND = 0.45359237
_POUND_FORCE = _POUND * 9.80665
_DEGREE = math.pi / 180.0


@attrs.frozen
class Unit:
    """A unit: how pint calls it, and how many SI units it is."""

    pint_name: str
    factor: float


# Every spelling that is read.  Factors are exact by definition (inch, pound,
# standard gravity) or powers of ten; pint's own are up to one digit off.
UNITS: dict[str, Unit] = {
    "mm": Unit("millimeter", 1e-3),
    "cm": Unit("centimeter", 1e-2),
    "m": Unit("meter", 1.0),
    "in": Unit("inch", _INCH),
    "ft": Unit("foot", 12.0 * _INCH),
    "deg": Unit("degree", _DEGREE),
    "rad": Unit("radian", 1.0),
    "turn": Unit("turn", 1.0),
    "kg": Unit("kilogram", 1.0),
    "lb": Unit("pound", _POUND),
    "N": Unit("newton", 1.0),
    "kN": Unit("kilonewton", 1e3),
    "lbf": Unit("force_pound", _POUND_FORCE),
    "N*m": Unit("newton * meter", 1.0),
    "lbf*ft": Unit("force_pound * foot", _POUND_FORCE * 12.0 * _INCH),
    "lbf*in": Unit("force_pound * inch", _POUND_FORCE * _INCH),
    "N/mm": Unit("newton / millimeter", 1e3),
    "N/m": Unit("newton / meter", 1.0),
    "lbf/in": Unit("force_pound / inch", _POUND_FORCE / _INCH),
    "N*s/m": Unit("newton * second / meter", 1.0),
    "N*s/mm": Unit("newton * second / millimeter", 1e3),
    "lbf*s/in": Unit("force_pound * second / inch", _POUND_FORCE / _INCH),
    "N*m/deg": Unit("newton * meter / degree", 1.0 / _DEGREE),
    "N*m/rad": Unit("newton * meter / radian", 1.0),
    "lbf*ft/deg": Unit("force_pound * foot / degree", _POUND_FORCE * 12.0 * _INCH / _DEGREE),
    "lbf*in/deg": Unit("force_pound * inch / degree", _POUND_FORCE * _INCH / _DEGREE),
    "MPa": Unit("megapascal", 1e6),
    "GPa": Unit("gigapascal", 1e9),
    "psi": Unit("psi", _POUND_FORCE / _INCH**2),
    "ksi": Unit("kpsi", 1e3 * _POUND_FORCE / _INCH**2),
    "J": Unit("joule", 1.0),
    # A unit of its own to pint, so that an energy is not taken for a torque.
    "ft*lbf": Unit("foot_pound", _POUND_FORCE * 12.0 * _INCH),
    "Hz": Unit("hertz", 1.0),
    "kg/m**3": Unit("kilogram / meter ** 3", 1.0),
    "mm/turn": Unit("millimeter / turn", 1e-3),
    "in/turn": Unit("inch / turn", _INCH),
    "km": Unit("kilometer", 1e3),
    "mi": Unit("mile", 63360.0 * _INCH),
    "h": Unit("hour", 3600.0),
    "year": Unit("year", 365.25 * 86400.0),
}


@attrs.frozen
class Kind:
    """A kind of quantity: finer than a dimension.

    Parameters
    ----------
    name : str
        What it is called in messages.
    units : tuple of str
        Spellings that are read for it, the one that answers use first.
    si_unit : str
        Unit of the kernels, as pint reads it.
    angle_power : int
        Power of an angle in its unit, which pint takes for no dimension.
    written : mapping of str to tuple
        Spelling and factor of each unit, by what may be written for it; they follow from the
        units.
    """

    name: str
    units: tuple[str, ...]
    si_unit: str
    angle_power: int = 0
    written: Mapping[str, tuple[str, float]] = attrs.field(init=False, eq=False, repr=False)

    @written.default
    def _written(self) -> Mapping[str, tuple[str, float]]:
        found = {spelling: (spelling, UNITS[spelling].factor) for spelling in self.units}
        return found | {spelling.replace("*", "·"): one for spelling, one in found.items()}


LENGTH = Kind("length", ("mm", "cm", "m", "in", "ft"), "meter")
ANGLE = Kind("angle", ("deg", "rad"), "radian", angle_power=1)
TURNS = Kind("number of nut turns", ("turn",), "turn", angle_power=1)
MASS = Kind("mass", ("kg", "lb"), "kilogram")
FORCE = Kind("force", ("N", "kN", "lbf"), "newton")
TORQUE = Kind("torque", ("N*m", "lbf*ft", "lbf*in"), "newton * meter")
ENERGY = Kind("energy", ("J", "ft*lbf"), "joule")
WHEEL_RATE = Kind("rate at the wheel", ("N/mm", "N/m", "lbf/in"), "newton / meter")
GAS_SLOPE = Kind("change of gas force with length", ("N/mm", "N/m", "lbf/in"), "newton / meter")
DAMPING_RATE = Kind("damping rate", ("N*s/m", "N*s/mm", "lbf*s/in"), "newton * second / meter")
TORSIONAL_RATE = Kind(
    "torsional rate",
    ("N*m/deg", "N*m/rad", "lbf*ft/deg", "lbf*in/deg"),
    "newton * meter / radian",
    angle_power=-1,
)
STRESS = Kind("stress", ("MPa", "GPa", "psi", "ksi"), "pascal")
SHEAR_MODULUS = Kind("shear modulus", ("GPa", "MPa", "psi", "ksi"), "pascal")
DENSITY = Kind("density", ("kg/m**3",), "kilogram / meter ** 3")
FREQUENCY = Kind("frequency", ("Hz",), "hertz")
HEIGHT_PER_TURN = Kind("height per nut turn", ("mm/turn", "in/turn"), "meter / turn", -1)
DISTANCE = Kind("distance on the road", ("km", "mi"), "meter")
TIME = Kind("time in use", ("year", "h"), "second")

KINDS = (
    LENGTH,
    ANGLE,
    TURNS,
    MASS,
    FORCE,
    TORQUE,
    ENERGY,
    WHEEL_RATE,
    GAS_SLOPE,
    DAMPING_RATE,
    TORSIONAL_RATE,
    STRESS,
    SHEAR_MODULUS,
    DENSITY,
    FREQUENCY,
    HEIGHT_PER_TURN,
    DISTANCE,
    TIME,
)
"""Every kind of quantity."""

PLACES = (LENGTH, ANGLE, TURNS)
"""Kinds of which a figure with either sign is a place: where its zero lies is anybody's choice."""

# What a reader of either system is given for each unit that an answer may hold.
SYSTEMS: dict[System, dict[str, str]] = {
    "metric": {
        "cm": "mm",
        "m": "mm",
        "in": "mm",
        "ft": "mm",
        "lb": "kg",
        "lbf": "N",
        "lbf*ft": "N*m",
        "lbf*in": "N*m",
        "lbf/in": "N/mm",
        "lbf*s/in": "N*s/m",
        "lbf*ft/deg": "N*m/deg",
        "lbf*in/deg": "N*m/deg",
        "psi": "MPa",
        "ksi": "MPa",
        "in/turn": "mm/turn",
        "ft*lbf": "J",
        "mi": "km",
    },
    "inch": {
        "mm": "in",
        "cm": "in",
        "m": "in",
        "kg": "lb",
        "N": "lbf",
        "kN": "lbf",
        "N*m": "lbf*ft",
        "N/mm": "lbf/in",
        "N/m": "lbf/in",
        "N*s/m": "lbf*s/in",
        "N*s/mm": "lbf*s/in",
        "N*m/deg": "lbf*ft/deg",
        "N*m/rad": "lbf*ft/deg",
        "MPa": "ksi",
        "GPa": "ksi",
        "J": "ft*lbf",
        "mm/turn": "in/turn",
        "km": "mi",
    },
}

# Digits more than the same figure has in its metric unit.
FINER = {"in": 2, "in/turn": 2, "ksi": 1}


def a_kind(kind: Kind) -> str:
    """Name a kind with its article."""
    return f"an {kind.name}" if kind.name[0] in "aeiou" else f"a {kind.name}"


def listed(kind: Kind) -> str:
    """List the units of a kind for a message."""
    return ", ".join(kind.units[:-1]) + f" or {kind.units[-1]}" if kind.units[1:] else kind.units[0]
