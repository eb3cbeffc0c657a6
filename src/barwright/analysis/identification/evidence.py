"""How likely each listed bar is, by what was measured of a loose one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.identification.blanks import OF_ANY_BAR, blanks_probability
from barwright.analysis.identification.candidates import Candidates, Column, standard_error
from barwright.analysis.identification.traits import OF_AN_END, OF_THE_BODY
from barwright.mechanics.uncertainty.hypotheses import posterior
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_bar import MeasuredBar
from barwright.parts.spline import BarEnd
from barwright.units import is_unknown, si

__all__ = ["UNLISTED", "Read", "Weighed", "readings_of", "weighed"]

UNLISTED = 0.1
"""Share of the bars on a shelf that no pack lists.  Common practice, no source."""


@attrs.frozen
class Read:
    """A reading: its value [SI unit, or a count] and its standard uncertainty."""

    value: float
    error: float
    stated: Figure | int

    @property
    def has_own_error(self) -> bool:
        """Whether who measured it said how well, or counted."""
        return not isinstance(self.stated, Figure) or self.stated.tolerance is not None


@attrs.frozen(eq=False)
class Weighed:
    """How likely the bars are.

    Parameters
    ----------
    ways : array
        Probability of each bar with its arm end as the first end, a row, and of each with its
        anchor end so.
    unlisted : float
        Probability that it is none of them.
    """

    ways: NDArray[np.float64]
    unlisted: float

    @property
    def bars(self) -> NDArray[np.float64]:
        """Probability of each bar, either way round."""
        return np.asarray(np.sum(self.ways, axis=0))


def readings_of(measured: MeasuredBar) -> Mapping[Column, Read]:
    """List what was measured of a loose bar.

    Parameters
    ----------
    measured : MeasuredBar
        The bar.

    Returns
    -------
    mapping of Column to Read
    """
    return dict(_readings(measured))


def _readings(measured: MeasuredBar) -> Iterator[tuple[Column, Read]]:
    ends = [(end, number) for number, end in enumerate(measured.ends)]
    holders: list[tuple[object, int | None]] = [(measured, None), *ends]
    for holder, end in holders:
        for field, trait in (OF_THE_BODY if end is None else OF_AN_END).items():
            stated: Figure | int | None = getattr(holder, field)
            if isinstance(stated, Figure) and trait.kind is not None:
                error = standard_error(trait, stated.tolerance)
                yield Column(trait, end), Read(si(stated.value, trait.kind), error, stated)
            elif isinstance(stated, int):
                yield Column(trait, end), Read(float(stated), 0.0, stated)


def weighed(
    candidates: Candidates, readings: Mapping[Column, Read], measured: MeasuredBar
) -> Weighed:
    """Weigh all bars by what was measured.

    Parameters
    ----------
    candidates : Candidates
        The bars.
    readings : mapping of Column to Read
        What was measured.
    measured : MeasuredBar
        The same, for the blanks of its ends.

    Returns
    -------
    Weighed
    """
    count = len(candidates.bars)
    logs = np.log(_of_blanks(candidates, measured))
    for column, read in readings.items():
        density = candidates.density(column, np.array([read.value]), error=read.error)
        logs += np.log(density[:, 0])
    listed = (1.0 - UNLISTED) / max(2 * count, 1)
    prior = np.append(np.full(2 * count, listed), UNLISTED)
    found = posterior(logs, prior=prior)
    return Weighed(found[:-1].reshape(2, count), float(found[-1]))


def _of_blanks(candidates: Candidates, measured: MeasuredBar) -> NDArray[np.float64]:
    """How likely the blanks of all ends are, for each bar and way round, and for any other bar."""
    found = np.ones(2 * len(candidates.bars) + 1)
    for number, end in enumerate(measured.ends):
        if end.blanks is None:
            continue
        arm, anchor = (
            [_seen(end.blanks, getattr(bar, name)) for bar in candidates.bars]
            for name in ("arm_end", "anchor_end")
        )
        ways = (arm, anchor) if number == 0 else (anchor, arm)
        found *= np.array([*ways[0], *ways[1], OF_ANY_BAR])
    return found


def _seen(blanks: tuple[int, ...], end: BarEnd) -> float:
    if is_unknown(end.teeth):
        return OF_ANY_BAR
    return blanks_probability(blanks, listed=end.blanks, teeth=end.teeth)
