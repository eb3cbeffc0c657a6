"""A corner of the matrix, on which bars are put one by one."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.analysis.rates.rates import Rates, rated_corner, rates_of
from barwright.analysis.reindex.reindex import reindex
from barwright.analysis.strength.strength import Strength, strength_as_rated
from barwright.computed_once import cached_property
from barwright.errors import BarwrightError
from barwright.family.row import PlainRow
from barwright.parts.bar import Bar
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Quantity

__all__ = ["FamilyCorner"]


@attrs.frozen(slots=False, eq=False)
class FamilyCorner:
    """A corner that bars are put on.

    Parameters
    ----------
    setup : Setup
        The corner in standard trim.
    asked_height : Quantity, optional
        Hub to arch, at which it is rated; its axle's standard height if left out.
    """

    setup: Setup
    asked_height: Quantity | None

    @property
    def height(self) -> Quantity:
        """Height at which it is rated, hub to arch."""
        height = self.asked_height
        return self.setup.axle.standard_height if height is None else height

    @cached_property
    def plain_height(self) -> float:
        """The same in the unit that answers use first."""
        return float(self.height.m_as(LENGTH.units[0]))

    @cached_property
    def _wanted(self) -> Wanted:
        return Wanted(height=self.height)

    @cached_property
    def _own(self) -> Corner:
        return Corner(self.setup)

    def _with(self, bar: Bar) -> Corner:
        return self._own.beside(self.setup.with_parts(bar=bar))

    def named(self, bar: Bar) -> PlainRow:
        """Say which pair it is with a bar."""
        chassis = self.setup.chassis
        return {
            "vehicle_id": chassis.id,
            "vehicle_title": chassis.title,
            "corner": self.setup.corner,
            "bar_id": bar.id,
            "bar_title": bar.title,
            "is_standard": bar.id == self.setup.bar.id,
        }

    def standard_rate(self) -> float | None:
        """Compute the rate at the wheel with the standard bar; none where it has none."""
        try:
            figures = rates_of(self._own, self._wanted).figures
        except BarwrightError:
            return None
        return None if figures is None else float(figures.ride.wheel_rate.magnitude)

    def fit(self, bar: Bar) -> PlainRow:
        """Ask whether a bar fits, and what must be changed."""
        return _of_fit(fit_of(self._with(bar)))

    def answers(self, bar: Bar) -> Iterator[PlainRow]:
        """Ask of a bar whether it fits, for its rates and its strength, one after the other."""
        corner = self._with(bar)
        yield _of_fit(fit_of(corner))
        rated = rated_corner(corner, self._wanted)
        yield _of_rates(rated.answer)
        yield _of_strength(strength_as_rated(rated))

    def clocking(self, bar: Bar) -> PlainRow:
        """Ask for the teeth that bring the height."""
        answer = reindex(self.setup.with_parts(bar=bar), wanted=self._wanted)
        if not answer.plans:
            return {"clocking": answer.verdict}
        plan = answer.preferred
        teeth = {"arm_tooth": plan.arm_tooth, "anchor_tooth": plan.anchor_tooth, "cuts": plan.cuts}
        return {"clocking": answer.verdict, **teeth}


def _of_fit(fit: LengthFit) -> PlainRow:
    reasons = "; ".join(finding.line for finding in fit.open_findings[:1])
    changes = tuple(dict.fromkeys(change.topic.value for change in fit.changes))
    return {"fit": fit.verdict, "reason": reasons, "changes": changes}


def _of_rates(answer: Rates) -> PlainRow:
    figures = answer.figures
    if figures is None:
        return {"rates": answer.verdict}
    return {
        "rates": answer.verdict,
        "height": figures.ride.height,
        "bar_rate": figures.bar_rate,
        "system_rate": figures.system_rate,
        "wheel_rate": figures.ride.wheel_rate,
        "ride_frequency": figures.ride_frequency,
    }


def _of_strength(answer: Strength) -> PlainRow:
    figures = answer.figures
    stress = None if figures is None else figures.bump.stress
    return {"strength": answer.verdict, "bump_stress": stress}
