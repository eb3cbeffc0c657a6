"""Units that a working is written in: those in which its equations hold number for number."""

from __future__ import annotations

import math

import attrs

from barwright.units import System
from barwright.units.kinds import UNITS

__all__ = [
    "ACCELERATION",
    "ANGLE_IN_DEGREES",
    "ANGLE_IN_RADIANS",
    "AREA",
    "DAMPING",
    "FORCE_UNIT",
    "FREQUENCY_UNIT",
    "HEIGHT_PER_TURN_UNIT",
    "LENGTH_PER_ANGLE",
    "LENGTH_PER_ANGLE_SQUARED",
    "LENGTH_UNIT",
    "MASS_UNIT",
    "NO_UNIT",
    "PER_ANGLE",
    "SECOND_MOMENT",
    "STRESS_UNIT",
    "TORQUE_PER_ANGLE",
    "TORQUE_UNIT",
    "TURNS_UNIT",
    "WHEEL_RATE_UNIT",
    "WorkingUnit",
]


@attrs.frozen
class WorkingUnit:
    """A unit of a working in both systems.

    Parameters
    ----------
    metric, inch : (str, float)
        Its name, and how many SI units it is.
    """

    metric: tuple[str, float]
    inch: tuple[str, float]

    def name(self, system: System) -> str:
        """Spell it."""
        return (self.metric if system == "metric" else self.inch)[0]

    def size(self, system: System) -> float:
        """Return how many SI units it is."""
        return (self.metric if system == "metric" else self.inch)[1]

    @property
    def is_angle(self) -> bool:
        """Whether it is one of an angle, which equations take in degrees or in radians."""
        return self in (ANGLE_IN_DEGREES, ANGLE_IN_RADIANS)


def _unit(pattern: str, *, force: int = 0, length: int = 0) -> WorkingUnit:
    """Make a unit of forces and lengths; F and L in the pattern are their names."""
    metric, inch = (
        (
            pattern.replace("F", of_force).replace("L", of_length),
            UNITS[of_force].factor ** force * UNITS[of_length].factor ** length,
        )
        for of_force, of_length in (("N", "mm"), ("lbf", "in"))
    )
    return WorkingUnit(metric, inch)


def _of_both(name: str, size: float = 1.0) -> WorkingUnit:
    return WorkingUnit((name, size), (name, size))


_FOOT, _POUND_FORCE = UNITS["ft"].factor, UNITS["lbf"].factor

NO_UNIT = _of_both("")
LENGTH_UNIT = _unit("L", length=1)
AREA = _unit("L²", length=2)
SECOND_MOMENT = _unit("L⁴", length=4)
FORCE_UNIT = _unit("F", force=1)
TORQUE_UNIT = _unit("F·L", force=1, length=1)
TORQUE_PER_ANGLE = _unit("F·L/rad", force=1, length=1)
STRESS_UNIT = _unit("F/L²", force=1, length=-2)
WHEEL_RATE_UNIT = _unit("F/L", force=1, length=-1)
LENGTH_PER_ANGLE = _unit("L/rad", length=1)
LENGTH_PER_ANGLE_SQUARED = _unit("L/rad²", length=1)
PER_ANGLE = _of_both("1/rad")
ANGLE_IN_DEGREES = _of_both("°", math.pi / 180.0)
ANGLE_IN_RADIANS = _of_both("rad")
TURNS_UNIT = _of_both("turn")
HEIGHT_PER_TURN_UNIT = _unit("L/turn", length=1)
FREQUENCY_UNIT = _of_both("Hz")

# Those of masses in motion, in which a force is a mass times an acceleration.
MASS_UNIT = WorkingUnit(("kg", 1.0), ("slug", _POUND_FORCE / _FOOT))
ACCELERATION = WorkingUnit(("m/s²", 1.0), ("ft/s²", _FOOT))
DAMPING = WorkingUnit(("N·s/m", 1.0), ("lbf·s/ft", _POUND_FORCE / _FOOT))
