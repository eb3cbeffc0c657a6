"""Figures that identify a bar, and how likely a reading of each is."""

from __future__ import annotations

import abc
import math
from collections.abc import Mapping

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.uncertainty.hypotheses import (
    blunder_probability,
    count_probability,
    reading_density,
)
from barwright.units import ANGLE, LENGTH, Kind

__all__ = [
    "BLUNDERS",
    "OF_AN_END",
    "OF_THE_BODY",
    "Angle",
    "Count",
    "Expected",
    "Size",
    "SizeOrNone",
    "Trait",
]

BLUNDERS = 0.02
"""Share of readings that are blunders, such as a misread scale.  Common practice, no source."""

# Outcomes of a reading lie so many to a standard uncertainty, and so many of these out.
_FINENESS = 2.0
_REACH = 4.0
# Outcomes that are tried at most: far more than tell the listed bars apart.
_MOST_OUTCOMES = 4000

Figures = NDArray[np.float64]


@attrs.frozen(eq=False)
class Expected:
    """What some bars should read.

    Parameters
    ----------
    values, errors : array
        The figures [SI unit, or a count], and their standard uncertainties with that of the
        reading.
    span : float
        Width of the range in which a blunder may lie.
    """

    values: Figures
    errors: Figures
    span: float

    def at(self, kept: NDArray[np.bool_] | NDArray[np.intp]) -> Expected:
        """Keep some of the bars."""
        return Expected(self.values[kept], self.errors[kept], self.span)


@attrs.frozen
class Trait(abc.ABC):
    """A figure that identifies a bar.

    Parameters
    ----------
    field : str
        Of a bar or of one of its ends, where it is measured and where it is listed.
    words : str
        What it is called.
    tool : str
        Which usual error of the catalogue a reading has that states none; empty for a count.
    kind : Kind, optional
        Of its quantity; none for a count.
    where : str
        Where it is measured on a loose bar.
    """

    field: str
    words: str
    tool: str
    kind: Kind | None
    where: str

    @abc.abstractmethod
    def density(self, reading: Figures, of: Expected) -> Figures:
        """Return how likely a reading is where the figure is as expected."""

    @abc.abstractmethod
    def of_any_bar(self, reading: Figures, span: float) -> Figures:
        """Return how likely it is on a bar of which nothing is known."""

    @abc.abstractmethod
    def outcomes(self, of: Expected) -> tuple[Figures, Figures]:
        """Return what a reading may come to, and the width of each outcome."""

    @abc.abstractmethod
    def is_blunder(self, reading: float, of: Expected) -> bool:
        """Answer whether a reading is rather a blunder, where the figure is as expected."""


@attrs.frozen
class Size(Trait):
    """A size that every bar has."""

    def density(self, reading: Figures, of: Expected) -> Figures:
        """Return how likely a reading is where the size is as expected."""
        found = reading_density(
            self._near(reading, of.values),
            expected=of.values,
            uncertainty=of.errors,
            blunder_share=BLUNDERS,
            span=of.span,
        )
        return np.asarray(found)

    def of_any_bar(self, reading: Figures, span: float) -> Figures:
        """Return how likely it is on a bar of which nothing is known."""
        return np.full_like(reading, 1.0 / span)

    def outcomes(self, of: Expected) -> tuple[Figures, Figures]:
        """Lay outcomes about the sizes that are expected."""
        far = _REACH * float(np.max(of.errors))
        low, high = float(np.min(of.values)) - far, float(np.max(of.values)) + far
        finest = float(np.min(of.errors))
        count = min(_MOST_OUTCOMES, math.ceil(_FINENESS * (high - low) / finest))
        edges = np.linspace(low, high, count + 1)
        return (edges[1:] + edges[:-1]) / 2.0, np.diff(edges)

    def is_blunder(self, reading: float, of: Expected) -> bool:
        """Answer whether a reading is rather a blunder than right."""
        found = blunder_probability(
            self._near(np.asarray(reading), of.values),
            expected=of.values,
            uncertainty=of.errors,
            blunder_share=BLUNDERS,
            span=of.span,
        )
        return bool(found > 1.0 - found)

    def _near(self, reading: Figures, expected: Figures) -> Figures:
        """Return the reading to compare with what is expected; a size is compared as it is."""
        del expected
        return reading


@attrs.frozen
class Angle(Size):
    """An angle: whole turns do not count."""

    def _near(self, reading: Figures, expected: Figures) -> Figures:
        """Return the reading the short way round from what is expected."""
        off = np.asarray(reading) - expected
        return np.asarray(expected + off - math.tau * np.round(off / math.tau))


@attrs.frozen
class SizeOrNone(Size):
    """A size that may be missing: 0 is then no reading but something that is seen."""

    def density(self, reading: Figures, of: Expected) -> Figures:
        """Return how likely a reading is, and that there is nothing to read."""
        there = (1.0 - BLUNDERS) * super().density(reading, of)
        seen = np.where(of.values == 0.0, 1.0 - BLUNDERS, BLUNDERS)
        without = np.where(of.values == 0.0, BLUNDERS / of.span, there)
        return np.where(reading == 0.0, seen, without)

    def of_any_bar(self, reading: Figures, span: float) -> Figures:
        """Return how likely it is on a bar of which nothing is known: half have none."""
        return np.where(reading == 0.0, 0.5, 0.5 / span)

    def outcomes(self, of: Expected) -> tuple[Figures, Figures]:
        """Lay outcomes about the sizes that are expected, and one where there is none."""
        is_there = of.values > 0.0
        if not np.any(is_there):
            return np.zeros(1), np.ones(1)
        values, widths = super().outcomes(of.at(is_there))
        kept = values > 0.0
        return np.append(values[kept], 0.0), np.append(widths[kept], 1.0)

    def is_blunder(self, reading: float, of: Expected) -> bool:
        """Answer whether a reading is rather a blunder than right."""
        if reading == 0.0 or of.values == 0.0:
            return bool(reading != of.values)
        return super().is_blunder(reading, of)


@attrs.frozen
class Count(Trait):
    """A count of teeth."""

    def density(self, reading: Figures, of: Expected) -> Figures:
        """Return how likely a count is."""
        return np.asarray(
            count_probability(reading, expected=of.values, blunder_share=BLUNDERS, span=of.span)
        )

    def of_any_bar(self, reading: Figures, span: float) -> Figures:
        """Return how likely it is on a bar of which nothing is known."""
        return np.full_like(reading, 1.0 / span)

    def outcomes(self, of: Expected) -> tuple[Figures, Figures]:
        """List the counts that are expected."""
        counts = np.unique(of.values)
        return counts, np.ones_like(counts)

    def is_blunder(self, reading: float, of: Expected) -> bool:
        """Answer whether a count is another one."""
        return bool(reading != of.values)


OF_THE_BODY: Mapping[str, Trait] = {
    one.field: one
    for one in (
        Size("diameter", "diameter of the body", "calliper", LENGTH, "away from cones and paint"),
        SizeOrNone("bore", "bore", "calliper", LENGTH, "in the face of an end; 0 if it is solid"),
        Size("length", "length over both splines", "tape", LENGTH, "noses left out"),
        Angle(
            "blank_angle",
            "angle between the blanks of both ends",
            "key-angle",
            ANGLE,
            "from the nearer blank to the farther one, clockwise as seen along the bar",
        ),
    )
}
"""Of the bar as a whole."""

OF_AN_END: Mapping[str, Trait] = {
    one.field: one
    for one in (
        Count("teeth", "tooth count", "", None, "round the whole circle, each blank counted too"),
        Size("major_diameter", "diameter over the teeth", "calliper", LENGTH, "over two teeth"),
        Size("root_diameter", "root diameter", "calliper", LENGTH, "with knife edges"),
        Size("length", "length of the spline", "calliper", LENGTH, "its run-out left out"),
        SizeOrNone("taper", "length of the cone", "calliper", LENGTH, "0 if there is a fillet"),
        SizeOrNone("nose", "length of the nose", "calliper", LENGTH, "0 if there is none"),
    )
}
"""Of one of its ends."""
