"""Bars that a loose one may be, as arrays: what is expected of each figure, and how surely."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.identification.traits import OF_AN_END, OF_THE_BODY, Expected, Trait
from barwright.mechanics.uncertainty.propagation import rectangular_uncertainty
from barwright.parts.bar import Bar
from barwright.parts.common.record import Record
from barwright.parts.spline import BarEnd
from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import Quantity, is_unknown, si

__all__ = ["Candidates", "Column", "columns_of", "standard_error"]

# A blunder may lie anywhere up to so many times the greatest figure that is listed.
_SPAN = 1.25
# Where all bars are solid, or have no nose, it has some width all the same [m].
_LEAST_SPAN = 0.01
# No tool in a shop tells less [m or rad]; a figure without any ± is one too.
_LEAST_ERROR = 1e-6


@attrs.frozen
class Column:
    """A figure that may be measured of a loose bar.

    Parameters
    ----------
    trait : Trait
        Which figure.
    end : int, optional
        Of which end, in the order in which they were measured; none of the body.
    """

    trait: Trait
    end: int | None = None


@attrs.frozen(eq=False)
class Candidates:
    """All bars that a loose one may be, each in both ways round.

    Parameters
    ----------
    bars : tuple of Bar
        The bars.
    expected, errors : mapping of Column to array
        What each column should read and its standard uncertainty [SI units], a value for each
        bar with its arm end as the first end and then for each with its anchor end so; not a
        number where it is not listed.
    """

    bars: tuple[Bar, ...]
    expected: Mapping[Column, NDArray[np.float64]]
    errors: Mapping[Column, NDArray[np.float64]]

    @classmethod
    def of(cls, bars: Sequence[Bar]) -> Candidates:
        """Read what is listed of some bars."""
        expected: dict[Column, NDArray[np.float64]] = {}
        errors: dict[Column, NDArray[np.float64]] = {}
        for trait in OF_THE_BODY.values():
            body = _listed(trait, bars)
            expected[Column(trait)], errors[Column(trait)] = np.tile(body, 2)
        for trait in OF_AN_END.values():
            arm = _listed(trait, [bar.arm_end for bar in bars])
            anchor = _listed(trait, [bar.anchor_end for bar in bars])
            for end, ways in enumerate(((arm, anchor), (anchor, arm))):
                column = Column(trait, end)
                expected[column], errors[column] = np.concatenate(ways, axis=1)
        return cls(tuple(bars), expected, errors)

    def density(
        self, column: Column, readings: NDArray[np.float64], *, error: float = 0.0
    ) -> NDArray[np.float64]:
        """Return how likely readings are on each bar, a row for each, and last on any other.

        Parameters
        ----------
        column : Column
            What was read.
        readings : array
            The readings [SI unit, or a count].
        error : float
            Their own standard uncertainty.

        Returns
        -------
        array
            A row for each bar and way round, and one more; a column for each reading.
        """
        listed = self.expectation(column, error=error, reading=float(np.max(readings)))
        values, errors = listed.values[:, np.newaxis], listed.errors[:, np.newaxis]
        is_listed = np.isfinite(values)
        # Where nothing is listed, any number will do: its density is not taken.
        known = Expected(
            np.where(is_listed, values, 1.0), np.where(is_listed, errors, 1.0), listed.span
        )
        on_each = column.trait.density(readings, known)
        on_any = column.trait.of_any_bar(readings, listed.span)
        return np.vstack([np.where(is_listed, on_each, on_any), on_any])

    def expectation(self, column: Column, *, error: float = 0.0, reading: float = 0.0) -> Expected:
        """Return what a column should read on each bar.

        Parameters
        ----------
        column : Column
            Which figure.
        error : float
            Standard uncertainty of the reading itself.
        reading : float
            A reading, which widens the range of blunders.

        Returns
        -------
        Expected
            A value for each bar and way round; not a number where it is not listed.
        """
        errors = np.hypot(self.errors[column], error)
        return Expected(self.expected[column], errors, self._span(column, reading))

    def _span(self, column: Column, reading: float) -> float:
        """Return the width of the range in which a blunder may lie [SI unit, or a count]."""
        if column.trait.field == "blank_angle":
            return math.tau
        known = self.expected[column][np.isfinite(self.expected[column])]
        return max(_SPAN * float(np.max(np.append(known, reading))), _LEAST_SPAN)


def _listed(trait: Trait, holders: Sequence[Bar | BarEnd]) -> NDArray[np.float64]:
    """Figures of a trait and their standard uncertainties: two rows, a value for each holder."""
    pairs = [_figure(trait, holder) for holder in holders]
    return np.array(pairs, dtype=float).reshape(-1, 2).T


def _figure(trait: Trait, holder: Record) -> tuple[float, float]:
    value = getattr(holder, trait.field)
    if is_unknown(value):
        return math.nan, math.nan
    if trait.kind is None:
        return float(value), 0.0
    if value is None:  # a solid bar has no bore, and that is sure
        return 0.0, standard_error(trait, None)
    known = holder.about.get(trait.field)
    return si(value, trait.kind), standard_error(trait, known.tolerance if known else None)


def standard_error(trait: Trait, tolerance: Quantity | None) -> float:
    """Return the standard uncertainty of a figure [SI unit], that of the usual tool without a ±.

    Parameters
    ----------
    trait : Trait
        Which figure.
    tolerance : Quantity, optional
        Half width of the interval that it lies in.

    Returns
    -------
    float
        0 of a count.
    """
    if trait.kind is None:
        return 0.0
    half = usual_error_of(trait.tool).within if tolerance is None else tolerance
    return max(float(rectangular_uncertainty(si(half, trait.kind))), _LEAST_ERROR)


def columns_of(ends: int) -> Iterator[Column]:
    """List what may be measured where so many ends have been looked at."""
    yield from map(Column, OF_THE_BODY.values())
    for end in range(ends):
        yield from (Column(trait, end) for trait in OF_AN_END.values())
