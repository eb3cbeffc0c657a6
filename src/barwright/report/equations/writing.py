"""What stands for a symbol in a printed equation: its name, or the number put in."""

from __future__ import annotations

import abc
from collections.abc import Mapping

import attrs

from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    ANGLE_IN_RADIANS,
    WorkingUnit,
)
from barwright.report.equations.numbers import computed, exact
from barwright.units import System

__all__ = ["Figure", "Names", "PutIn", "Writing", "amount"]


@attrs.frozen(kw_only=True)
class Figure:
    """A value of a working, as its equations take it.

    Parameters
    ----------
    value : float
        In SI units.
    unit : WorkingUnit
        What it is written in.
    is_exact : bool
        Whether all its digits are given.
    """

    value: float
    unit: WorkingUnit
    is_exact: bool = False


def amount(figure: Figure, unit: WorkingUnit, system: System) -> str:
    """Write a figure in a unit, as a number alone."""
    number = figure.value / unit.size(system)
    return exact(number) if figure.is_exact and unit == figure.unit else computed(number)


class Writing(abc.ABC):
    """Says what stands for a symbol."""

    system: System

    @abc.abstractmethod
    def of(self, name: str, *, in_degrees: bool) -> str:
        """Return the text of a symbol, in an equation of angles in degrees or of others."""

    @property
    @abc.abstractmethod
    def is_of_names(self) -> bool:
        """Whether symbols stand for themselves."""

    @property
    def lengths(self) -> str:
        """How many units of length are one of those that go with a mass."""
        return {"metric": "1000", "inch": "12"}[self.system]


@attrs.frozen
class Names(Writing):
    """Symbols stand for themselves.

    Parameters
    ----------
    system : {"metric", "inch"}
        Units that they are in.
    """

    system: System

    def of(self, name: str, *, in_degrees: bool) -> str:
        """Return the name of a symbol."""
        del in_degrees
        return name

    @property
    def is_of_names(self) -> bool:
        """Whether symbols stand for themselves."""
        return True


@attrs.frozen
class PutIn(Writing):
    """The figures are put in.

    Parameters
    ----------
    figures : mapping of str to Figure
        By symbol.
    system : {"metric", "inch"}
        Units that they are written in.
    """

    figures: Mapping[str, Figure]
    system: System

    def of(self, name: str, *, in_degrees: bool) -> str:
        """Return the number that a symbol stands for; a degree is told by its sign."""
        figure = self.figures[name]
        if not figure.unit.is_angle:
            return amount(figure, figure.unit, self.system)
        unit = ANGLE_IN_DEGREES if in_degrees else ANGLE_IN_RADIANS
        return amount(figure, unit, self.system) + ("°" if in_degrees else "")

    @property
    def is_of_names(self) -> bool:
        """Whether symbols stand for themselves."""
        return False
