"""The rows of one vehicle: every bar on each of its corners."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Verdict
from barwright.analysis.corner.corner import Corner
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.rates import Rates, rated_corner, rates_of
from barwright.analysis.reindex.reindex import Reindex, reindex
from barwright.analysis.strength.strength import Strength, strength_as_rated
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.family.count import Counted, count_pruned, count_row
from barwright.family.pruning import MEETS_ALL, REQUIREMENTS, BarTable, pruned
from barwright.family.row import PlainRow, blank_row
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Chassis
from barwright.parts.fields import FigureLike
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Quantity, to_kind

__all__ = ["FamilyQuestion", "VehicleRows", "family_question", "rows_of_vehicle"]


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
    """

    height: Quantity | None = None
    clocking: bool = False
    with_pruned: bool = False


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


def rows_of_vehicle(
    chassis: Chassis, bars: Sequence[Bar], table: BarTable, question: FamilyQuestion
) -> VehicleRows:
    """Put every bar on each corner of a vehicle.

    Parameters
    ----------
    chassis : Chassis
        The vehicle.
    bars : sequence of Bar
        The bars.
    table : BarTable
        The same bars.
    question : FamilyQuestion
        What is asked of each pair.

    Returns
    -------
    VehicleRows
        By axle, side and bar.
    """
    found = VehicleRows()
    for axle in chassis.axles:
        for side in Side:
            corner = _FamilyCorner(Setup.standard(chassis, axle=axle, side=side), question)
            _add_corner(found, corner, bars, pruned(corner.setup, table))
    return found


def _add_corner(
    found: VehicleRows, corner: _FamilyCorner, bars: Sequence[Bar], missed: NDArray[np.intp]
) -> None:
    """Add the pairs of a corner to what was found."""
    for number, topic in enumerate(REQUIREMENTS):
        count_pruned(found.counted, topic, pairs=int(np.count_nonzero(missed == number)))
    is_listed = (missed == MEETS_ALL) | corner.question.with_pruned
    for number in np.flatnonzero(is_listed).tolist():
        bar, requirement = bars[number], int(missed[number])
        if requirement == MEETS_ALL:
            row = corner.row(bar)
            count_row(found.counted, row)
        else:
            reason = REQUIREMENTS[requirement].value
            row = blank_row(**corner.named(bar), fit=Verdict.DOES_NOT_FIT, reason=reason)
        found.rows.append(row)


@attrs.frozen(slots=False, eq=False)
class _FamilyCorner:
    """A corner that bars are put on."""

    setup: Setup
    question: FamilyQuestion

    @cached_property
    def _own(self) -> Corner:
        return Corner(self.setup)

    @cached_property
    def _wanted(self) -> Wanted:
        height = self.question.height
        return Wanted(height=self.setup.axle.standard_height if height is None else height)

    @cached_property
    def _standard_rate(self) -> Quantity | None:
        """Rate at the wheel with the standard bar; none where it has none."""
        try:
            figures = rates_of(self._own, self._wanted).figures
        except BarwrightError:
            return None
        return None if figures is None else figures.ride.wheel_rate

    def named(self, bar: Bar) -> PlainRow:
        """Say which pair it is."""
        chassis = self.setup.chassis
        return {
            "vehicle_id": chassis.id,
            "vehicle_title": chassis.title,
            "corner": self.setup.corner,
            "bar_id": bar.id,
            "bar_title": bar.title,
            "is_standard": bar.id == self.setup.bar.id,
        }

    def row(self, bar: Bar) -> PlainRow:
        """Answer what is asked of a bar; what an error leaves out is none."""
        found = self.named(bar)
        try:
            for more in self._answers(bar):
                found |= more
        except BarwrightError as error:
            found |= {"error_code": error.code, "error_text": str(error)}
        return blank_row(**found)

    def _answers(self, bar: Bar) -> Iterator[PlainRow]:
        """Answer one question after the other."""
        setup = self.setup.with_parts(bar=bar)
        corner = self._own.beside(setup)
        fit = fit_of(corner)
        yield _of_fit(fit)
        rated = rated_corner(corner, self._wanted)
        yield self._of_rates(rated.answer)
        yield _of_strength(strength_as_rated(rated))
        if self.question.clocking and fit.outcome.is_good:
            yield _of_clocking(reindex(setup, wanted=self._wanted))

    def _of_rates(self, answer: Rates) -> PlainRow:
        figures = answer.figures
        if figures is None:
            return {"rates": answer.verdict}
        return {
            "rates": answer.verdict,
            "height": figures.ride.height,
            "bar_rate": figures.bar_rate,
            "system_rate": figures.system_rate,
            "wheel_rate": figures.ride.wheel_rate,
            "wheel_rate_change": self._change(figures.ride.wheel_rate),
            "ride_frequency": figures.ride_frequency,
        }

    def _change(self, wheel_rate: Quantity) -> float | None:
        """Change of a rate in per cent of that with the standard bar."""
        standard = self._standard_rate
        if standard is None or not standard.magnitude:
            return None
        return 100.0 * (wheel_rate.magnitude - standard.magnitude) / abs(standard.magnitude)


def _of_fit(fit: LengthFit) -> PlainRow:
    reasons = "; ".join(finding.line for finding in fit.open_findings[:1])
    changes = tuple(dict.fromkeys(change.topic.value for change in fit.changes))
    return {"fit": fit.verdict, "reason": reasons, "changes": changes}


def _of_strength(answer: Strength) -> PlainRow:
    figures = answer.figures
    return {
        "strength": answer.verdict,
        "bump_stress": None if figures is None else figures.bump.stress,
    }


def _of_clocking(answer: Reindex) -> PlainRow:
    if not answer.plans:
        return {"clocking": answer.verdict}
    plan = answer.preferred
    teeth = {"arm_tooth": plan.arm_tooth, "anchor_tooth": plan.anchor_tooth, "cuts": plan.cuts}
    return {"clocking": answer.verdict, **teeth}
