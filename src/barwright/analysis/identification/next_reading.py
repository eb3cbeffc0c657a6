"""Which further figure of a loose bar would tell best which one it is."""

from __future__ import annotations

from collections.abc import Collection, Iterator

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.identification.candidates import (
    Candidates,
    Column,
    columns_of,
    standard_error,
)
from barwright.analysis.identification.evidence import Weighed
from barwright.mechanics.uncertainty.hypotheses import expected_certainty

__all__ = ["Candidacy", "next_readings"]

# Further bars are too unlikely to decide what is measured next.
_MOST_BARS = 200
# A figure that makes the answer surer by less is not worth the walk to the shelf.
_LEAST_GAIN = 0.01


@attrs.frozen(eq=False)
class Candidacy:
    """What is known so far, by groups of bars that no figure tells apart.

    Parameters
    ----------
    candidates : Candidates
        The bars.
    weighed : Weighed
        How likely they are.
    groups : array of int
        Group of each bar.
    """

    candidates: Candidates
    weighed: Weighed
    groups: NDArray[np.intp]

    @property
    def probabilities(self) -> NDArray[np.float64]:
        """Probability of each group, and last that of any other bar."""
        summed = np.bincount(self.groups, weights=self.weighed.bars)
        return np.append(summed, self.weighed.unlisted)


def next_readings(
    known: Candidacy, *, settled: Collection[Column], ends: int
) -> list[tuple[Column, float]]:
    """List the figures that are worth reading, the one that tells most first.

    Parameters
    ----------
    known : Candidacy
        What is known so far.
    settled : collection of Column
        What was read well enough already.
    ends : int
        How many ends of the bar were looked at.

    Returns
    -------
    list of (Column, float)
        Each with the probability that the bar is known after it.
    """
    asked = [column for column in columns_of(min(ends + 1, 2)) if column not in settled]
    certain = float(np.max(known.probabilities))
    found = [(column, one) for column in asked for one in _certainty(known, column)]
    kept = [(column, one) for column, one in found if one >= certain + _LEAST_GAIN]
    return sorted(kept, key=lambda pair: -pair[1])


def _certainty(known: Candidacy, column: Column) -> Iterator[float]:
    """Yield how surely the bar is known after a reading; nothing if no listed bar has one."""
    count = len(known.candidates.bars)
    likely = np.argsort(-known.weighed.bars, kind="stable")[:_MOST_BARS]
    ways = np.concatenate([likely, likely + count])
    error = standard_error(column.trait, None)
    expected = known.candidates.expectation(column, error=error).at(ways)
    expected = expected.at(np.isfinite(expected.values))
    if not expected.values.size:
        return
    outcomes, widths = column.trait.outcomes(expected)
    density = known.candidates.density(column, outcomes, error=error)
    weights = np.append(known.weighed.ways.ravel()[ways], known.weighed.unlisted)
    joint = weights[:, np.newaxis] * density[np.append(ways, 2 * count)]
    _, groups = np.unique(known.groups[likely], return_inverse=True)
    rows = np.concatenate([groups, groups, [np.max(groups) + 1]])
    summed = np.zeros((int(rows[-1]) + 1, len(outcomes)))
    np.add.at(summed, rows, joint)
    probabilities = np.bincount(rows, weights=weights).astype(float)
    yield expected_certainty(summed, widths=widths, probabilities=probabilities)
