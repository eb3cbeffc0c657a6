"""Say which listed bar a loose one is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Caution, Finding, Topic
from barwright.analysis.identification.candidates import Candidates, Column, standard_error
from barwright.analysis.identification.evidence import Read, Weighed, readings_of, weighed
from barwright.analysis.identification.identification import (
    LEAST_LIKELY,
    AssumedError,
    Identification,
    NextReading,
    OddFigure,
    PossibleBar,
)
from barwright.analysis.identification.next_reading import Candidacy, next_readings
from barwright.errors import SchemaError
from barwright.parts.bar import Bar
from barwright.parts.chassis import Chassis
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.source import Figure
from barwright.parts.measurements.measured_bar import MeasuredBar
from barwright.registry.registry import Registry
from barwright.registry.usual.catalogue import usual_error_of
from barwright.units import quantity

__all__ = ["SURE", "groups_of", "identify"]

SURE = 0.95
"""Probability from which a bar counts as known.  Common practice, no source."""


@checks_arguments
def identify(measured: MeasuredBar, *, registry: Registry) -> Identification:
    """Answer which listed bars a loose one may be, and what to measure next.

    A reading that disagrees with all others makes no bar impossible: it may be a blunder.

    Parameters
    ----------
    measured : MeasuredBar
        What was measured of it.
    registry : Registry
        The bars and vehicles to search.

    Returns
    -------
    Identification

    Raises
    ------
    SchemaError
        S203 if nothing was measured.

    References
    ----------
    See :mod:`barwright.mechanics.uncertainty.hypotheses`.  How many bars are listed nowhere,
    and how many readings are blunders: common practice, no source.

    Examples
    --------
    >>> from barwright.parts.measurements.measured_bar import MeasuredEnd
    >>> found = MeasuredBar(
    ...     diameter="25.0 mm", length="904 mm", ends=[MeasuredEnd(teeth=42), MeasuredEnd(teeth=39)]
    ... )
    >>> answer = identify(found, registry=Registry.discover())
    >>> answer.possible_bars[0].bar_ids, answer.possible_bars[0].arm_end
    (('fells:bar/short-firm',), 2)
    """
    readings = readings_of(measured)
    if not readings and all(end.blanks is None for end in measured.ends):
        raise SchemaError(
            "S203",
            value="a bar of which nothing was measured",
            expected="at least one figure of it",
            remedy="measure its diameter and its length, and count the teeth of both ends",
        )
    candidates = Candidates.of(_bars(registry))
    known = Candidacy(candidates, weighed(candidates, readings, measured), groups_of(candidates))
    return _Identifying(registry, measured, readings, known).answer()


def _bars(registry: Registry) -> list[Bar]:
    return [part for part in registry.parts() if isinstance(part, Bar)]


def groups_of(candidates: Candidates) -> NDArray[np.intp]:
    """Give bars with all figures alike one number."""
    count = len(candidates.bars)
    if count == 0:
        return np.zeros(0, dtype=np.intp)
    arm_first = [column[:count] for column in candidates.expected.values()]
    blanks = [[hash((bar.arm_end.blanks, bar.anchor_end.blanks)) for bar in candidates.bars]]
    rows = np.nan_to_num(np.array([*arm_first, *blanks], dtype=float).T, nan=-1.0)
    _, groups = np.unique(np.round(rows, 9), axis=0, return_inverse=True)
    return np.asarray(groups, dtype=np.intp).reshape(-1)


@attrs.frozen(eq=False)
class _Identifying:
    """Makes the answer of what is known."""

    registry: Registry
    measured: MeasuredBar
    readings: Mapping[Column, Read]
    known: Candidacy

    def answer(self) -> Identification:
        """Return the answer."""
        bars = tuple(self._possible_bars())
        odd = bars[0].odd_figures if bars else ()
        return Identification(
            verdict=self._verdict(bars),
            findings=tuple(_disagreeing(odd)),
            cautions=(Caution.SCRAP_ON_NICKS,),
            possible_bars=bars,
            unlisted=self._weighed.unlisted,
            next_readings=tuple(self._next_readings(odd)),
            assumed=tuple(self._assumed()),
        )

    @property
    def _weighed(self) -> Weighed:
        return self.known.weighed

    def _verdict(self, bars: Sequence[PossibleBar]) -> Verdict:
        if self._weighed.unlisted >= SURE:
            return Verdict.NOT_LISTED
        if bars and bars[0].probability >= SURE:
            return Verdict.IDENTIFIED
        return Verdict.NEEDS_FIGURES

    def _possible_bars(self) -> Iterator[PossibleBar]:
        """List the likely bars, or the nearest one if none is likely."""
        probabilities = self.known.probabilities[:-1]
        order = np.argsort(-probabilities, kind="stable")
        likely = order[probabilities[order] >= LEAST_LIKELY]
        vehicles = _vehicles(self.registry)
        for group in likely if likely.size else order[:1]:
            members = np.flatnonzero(self.known.groups == group)
            bars = [self.known.candidates.bars[one] for one in members]
            ids = tuple(sorted(bar.id for bar in bars))
            claims = [claim for one in ids for claim in self.registry.claims(part=one)]
            yield PossibleBar(
                bar_ids=ids,
                bar_titles=tuple(bar.title for bar in sorted(bars, key=lambda bar: bar.id)),
                probability=float(probabilities[group]),
                arm_end=self._arm_end(members),
                odd_figures=tuple(self._odd_figures(int(members[0]))),
                standard_on=tuple(sorted({on for one in ids for on in vehicles[one]})),
                claimed_for=tuple(sorted({on for claim in claims for on in claim.on})),
            )

    def _arm_end(self, members: NDArray[np.intp]) -> int | None:
        """Tell which measured end is the arm end."""
        first, second = np.sum(self._weighed.ways[:, members], axis=1)
        if not self.measured.ends or first + second == 0.0:
            return None
        share = first / (first + second)
        if 1.0 - SURE < share < SURE:
            return None
        return 1 if share >= SURE else 2

    def _odd_figures(self, bar: int) -> Iterator[OddFigure]:
        """List what was measured otherwise than it is listed of a bar."""
        candidates, count = self.known.candidates, len(self.known.candidates.bars)
        way = bar + count * int(np.argmax(self._weighed.ways[:, bar]))
        for column, read in self.readings.items():
            listed = candidates.expectation(column, error=read.error, reading=read.value)
            own = listed.at(np.array([way]))
            if np.isfinite(own.values[0]) and column.trait.is_blunder(read.value, own):
                yield self._odd(column, read, listed=float(own.values[0]))

    def _odd(self, column: Column, read: Read, *, listed: float) -> OddFigure:
        kind, named = column.trait.kind, self._named(column)
        if kind is None or not isinstance(read.stated, Figure):
            return OddFigure(named=named, observed=int(read.value), listed=int(listed))
        return OddFigure(named=named, observed=read.stated.value, listed=quantity(listed, kind))

    def _named(self, column: Column) -> str:
        """Name a figure, with the end that it is of."""
        if column.end is None:
            return column.trait.words
        return f"{column.trait.words} of {self._end(column.end)}"

    def _end(self, number: int) -> str:
        counts = [end.teeth for end in self.measured.ends]
        if number >= len(counts):
            return "the other end" if counts else "one end"
        if counts[number] is not None and counts.count(counts[number]) == 1:
            return f"the end with {counts[number]} teeth"
        return ("the first end", "the second end")[number]

    def _next_readings(self, odd: Collection[OddFigure]) -> Iterator[NextReading]:
        doubted = {one.named for one in odd}
        settled = [
            column
            for column, read in self.readings.items()
            if self._named(column) not in doubted and not _is_rough(column, read)
        ]
        ranked = next_readings(self.known, settled=settled, ends=len(self.measured.ends))
        for column, certainty in ranked:
            again = " again" if column in self.readings else ""
            yield NextReading(
                asked=f"{self._asked(column)}{again}",
                tool=_TOOLS[column.trait.tool],
                where=column.trait.where,
                is_repeated=column in self.readings,
                certainty=certainty,
            )

    def _asked(self, column: Column) -> str:
        if column.trait.kind is None and column.end is not None:
            return f"count the teeth of {self._end(column.end)}"
        return f"measure the {self._named(column)}"

    def _assumed(self) -> Iterator[AssumedError]:
        """List which ± were taken where none was stated."""
        without: dict[str, list[str]] = defaultdict(list)
        for column, read in self.readings.items():
            if not read.has_own_error:
                without[column.trait.tool].append(self._named(column))
        for tool, readings in without.items():
            within = usual_error_of(tool).within
            yield AssumedError(tool=_TOOLS[tool], within=within, named_figures=tuple(readings))


# A reading is rough if its error is so many times that of the tool that one would take.
_ROUGH = 1.5


def _is_rough(column: Column, read: Read) -> bool:
    return read.error > _ROUGH * standard_error(column.trait, None)


_TOOLS = {"": "count", "calliper": "calliper", "tape": "tape", "key-angle": "protractor"}


def _disagreeing(odd: Sequence[OddFigure]) -> Iterator[Finding]:
    for one in odd:
        yield Finding(
            topic=Topic.ODD_FIGURE,
            text=f"the {one.named} is not as listed; measured",
            figure=one.observed,
        )


def _vehicles(registry: Registry) -> Mapping[str, set[str]]:
    """Vehicles, each with its axle, that left the works with a bar, by the bar's id."""
    found: dict[str, set[str]] = defaultdict(set)
    for chassis in registry.vehicles():
        for bar, place in _standard_bars(chassis):
            found[bar.id].add(f"{chassis.id} {place}")
    return found


def _standard_bars(chassis: Chassis) -> Iterator[tuple[Bar, str]]:
    for axle in chassis.axles:
        for parts in filter(None, (axle.left, axle.right)):
            yield parts.bar, axle.place.value
