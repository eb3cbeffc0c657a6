"""The rows of some vehicles: every bar on each of their corners."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

import attrs
import numpy as np

from barwright.analysis.answer import Verdict
from barwright.errors import BarwrightError
from barwright.family.corner import FamilyCorner
from barwright.family.count import Counted, count_pruned, count_row
from barwright.family.pruning import MEETS_ALL, OTHER_SPLINES, REQUIREMENTS, BarTable, pruned
from barwright.family.row import FITTING, PlainRow, blank_row
from barwright.family.together import FamilyPair, answered_together
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Chassis
from barwright.parts.common.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.units import LENGTH, Quantity, to_kind

__all__ = ["FamilyQuestion", "VehicleRows", "family_question", "rows_of_vehicles"]


@attrs.frozen(kw_only=True)
class FamilyQuestion:
    """What is asked of each pair.

    Parameters
    ----------
    height : Quantity, optional
        Hub to arch, at which all are rated; each axle's standard height if left out.
    clocking : bool
        Whether the teeth are looked for that bring this height.
    with_pruned : bool
        Whether the pairs that are pruned are rows too.
    with_other_splines : bool
        Whether, of these, pairs are rows whose splines do not match.
    """

    height: Quantity | None = None
    clocking: bool = False
    with_pruned: bool = False
    with_other_splines: bool = True


def family_question(*, height: FigureLike | None, clocking: bool, pruned: bool) -> FamilyQuestion:
    """Check what is asked.

    Parameters
    ----------
    height : str or Quantity, optional
        Hub to arch, at which all are rated.
    clocking : bool
        Whether the teeth are looked for that bring this height.
    pruned : bool
        Whether the pairs that are pruned are rows too.

    Returns
    -------
    FamilyQuestion

    Raises
    ------
    QuantityError
        For what is no length above zero.
    """
    if height is not None:
        height = to_kind(height, LENGTH, key="height", allowed="positive")
    return FamilyQuestion(height=height, clocking=clocking, with_pruned=pruned)


@attrs.frozen
class VehicleRows:
    """Rows of one vehicle or of several, and what was counted.

    Parameters
    ----------
    rows : list of dict
        The plain rows.
    counted : Counter
        Pairs by what became of them.
    """

    rows: list[PlainRow] = attrs.field(factory=list)
    counted: Counted = attrs.field(factory=Counter)


def rows_of_vehicles(
    vehicles: Iterable[Chassis], bars: Sequence[Bar], table: BarTable, question: FamilyQuestion
) -> VehicleRows:
    """Put every bar on each corner of some vehicles.

    Parameters
    ----------
    vehicles : iterable of Chassis
        The vehicles.
    bars : sequence of Bar
        The bars.
    table : BarTable
        The same bars.
    question : FamilyQuestion
        What is asked of each pair.

    Returns
    -------
    VehicleRows
        By vehicle, axle, side and bar.
    """
    listed = [
        _Listed.of(
            FamilyCorner(Setup.standard(chassis, axle=axle, side=side), question.height),
            bars,
            table,
            question,
        )
        for chassis in vehicles
        for axle in chassis.axles
        for side in Side
    ]
    answers = iter(answered_together([pair for one in listed for pair in one.pairs]))
    found = VehicleRows()
    for corner in listed:
        known = [next(answers) for _ in corner.pairs]
        corner.add_to(found, known, question)
    return found


@attrs.frozen
class _Listed:
    """A corner with the bars that are rows of it.

    Parameters
    ----------
    corner : FamilyCorner
        The corner.
    bars : tuple of (Bar, int)
        Bars, each with the number of the requirement that it does not meet.
    pruned : Counter
        How many bars do not meet each requirement, by its number.
    """

    corner: FamilyCorner
    bars: tuple[tuple[Bar, int], ...]
    pruned: Counter[int]

    @classmethod
    def of(
        cls, corner: FamilyCorner, bars: Sequence[Bar], table: BarTable, question: FamilyQuestion
    ) -> _Listed:
        """List the bars that meet all requirements, and others that are asked for."""
        missed = pruned(corner.setup, table)
        is_listed = (missed == MEETS_ALL) | question.with_pruned
        if not question.with_other_splines:
            is_listed &= ~np.isin(missed, OTHER_SPLINES)
        rows = np.flatnonzero(is_listed).tolist()
        return cls(
            corner,
            tuple((bars[row], int(missed[row])) for row in rows),
            Counter(missed[missed != MEETS_ALL].tolist()),
        )

    @property
    def pairs(self) -> list[FamilyPair]:
        """The standard bar, to which the others are compared, and those that are asked about."""
        asked = (bar for bar, missed in self.bars if missed == MEETS_ALL)
        return [(self.corner, bar) for bar in (self.corner.setup.bar, *asked)]

    def add_to(
        self, found: VehicleRows, known: Sequence[PlainRow | None], question: FamilyQuestion
    ) -> None:
        """Add the rows of the corner to what was found, with what is known of its pairs."""
        for number, pairs in sorted(self.pruned.items()):
            count_pruned(found.counted, REQUIREMENTS[number], pairs=pairs)
        standard, *others = known
        rate = self._standard_rate(standard) if others else None
        answers = iter(others)
        for bar, missed in self.bars:
            if missed == MEETS_ALL:
                row = self._row(bar, next(answers), standard_rate=rate, clocking=question.clocking)
                count_row(found.counted, row)
            else:
                reason = REQUIREMENTS[missed].value
                named = self.corner.named(bar)
                row = blank_row(**named, fit=Verdict.DOES_NOT_FIT, reason=reason)
            found.rows.append(row)

    def _standard_rate(self, known: PlainRow | None) -> float | None:
        """Rate at the wheel with the standard bar; none where it has none."""
        return self.corner.standard_rate() if known is None else known["wheel_rate"]

    def _row(
        self, bar: Bar, known: PlainRow | None, *, standard_rate: float | None, clocking: bool
    ) -> PlainRow:
        """Answer what is asked of a bar; what an error leaves out is none."""
        found = self.corner.named(bar)
        try:
            for more in self.corner.answers(bar) if known is None else [known]:
                found |= more
            if clocking and found["fit"] in FITTING:
                found |= self.corner.clocking(bar)
        except BarwrightError as error:
            found |= {"error_code": error.code, "error_text": str(error)}
        row = blank_row(**found)
        return row | {"wheel_rate_change": _change(row["wheel_rate"], standard_rate)}


def _change(rate: float | None, standard: float | None) -> float | None:
    """Change of a rate in per cent of that with the standard bar."""
    if rate is None or not standard:
        return None
    return 100.0 * (rate - standard) / abs(standard)
