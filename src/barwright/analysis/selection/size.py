"""Which diameter would bring a goal, and what stops a thicker bar."""

from __future__ import annotations

import math
from collections.abc import Callable

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import fit_of
from barwright.analysis.rates.rates import rated_corner, rates_of
from barwright.analysis.selection.selection import SizeForGoal
from barwright.analysis.selection.target import Target
from barwright.analysis.strength.strength import strength_as_rated
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.units import LENGTH, Quantity, quantity, si

__all__ = ["size_for"]

# Sizes are looked for between these shares of the present one.
_LEAST, _MOST = 0.4, 2.0
# Halvings of that range: to far less than a bar is turned to.
_HALVINGS = 16
# Steps between the sizes that are tried: a thin bar is overstressed, and so is a thick one.
_TRIED = 32


def size_for(target: Target | None, present: Setup, wanted: Wanted) -> SizeForGoal:
    """Return the diameter that brings a target, and the greatest that goes in and survives.

    Parameters
    ----------
    target : Target, optional
        What to reach; none for the greatest diameter alone.
    present : Setup
        The corner, whose bar is taken as solid and of another diameter.
    wanted : Wanted
        The height.

    Returns
    -------
    SizeForGoal
    """
    sizes = _Sizes(present, wanted)
    diameter = None if target is None else sizes.bringing(target)
    largest, stopped_by = sizes.largest(diameter)
    return SizeForGoal(diameter=diameter, largest=largest, stopped_by=stopped_by)


@attrs.frozen
class _Sizes:
    """The corner with bars of other diameters."""

    present: Setup
    wanted: Wanted

    def _corner(self, diameter: float) -> Corner:
        bar = attrs.evolve(
            self.present.bar,
            diameter=quantity(diameter, LENGTH),
            bore=None,
            measured_rate=None,
        )
        return Corner(self.present.with_parts(bar=bar))

    @property
    def _now(self) -> float:
        return si(self.present.bar.diameter, LENGTH)

    def bringing(self, target: Target) -> Quantity | None:
        """Return the diameter that brings a target; none if none does."""

        def is_short(diameter: float) -> bool:
            return self._reached(target, diameter) < 1.0

        low, high = self._now * _LEAST, self._now * _MOST
        if not is_short(low) or is_short(high):
            return None
        return quantity(_changing(is_short, low, high), LENGTH)

    def _reached(self, target: Target, diameter: float) -> float:
        """Return what a diameter reaches over the target: nothing if it carries no such load."""
        try:
            return target.reached(rates_of(self._corner(diameter), self.wanted))
        except BarwrightError:
            return 0.0 if diameter < self._now else math.inf

    def largest(self, also: Quantity | None) -> tuple[Quantity | None, Finding | None]:
        """Return the greatest diameter that goes in and survives, and what stops a greater one.

        Beside a series of sizes, the present one is tried, and another: few sizes may do.
        """
        span = (_MOST - _LEAST) / _TRIED
        tried = [self._now * (_LEAST + span * one) for one in range(_TRIED + 1)]
        tried = sorted({*tried, self._now, *([] if also is None else [si(also, LENGTH)])})
        good = [number for number, size in enumerate(tried) if self._against(size) is None]
        if not good:
            return None, self._against(self._now)
        if good[-1] == len(tried) - 1:
            return quantity(tried[-1], LENGTH), None
        low, high = tried[good[-1]], tried[good[-1] + 1]
        least = _changing(lambda size: self._against(size) is None, low, high)
        return quantity(least, LENGTH), self._against(least + (high - low) / 2**_HALVINGS)

    def _against(self, diameter: float) -> Finding | None:
        """Say what speaks against a diameter: it does not go in, is overstressed, goes slack."""
        try:
            rated = rated_corner(self._corner(diameter), self.wanted)
        except BarwrightError as error:
            return Finding(topic=Topic.WAY_IN, text=str(error))
        for answer in (fit_of(rated.corner), rated.answer, strength_as_rated(rated)):
            if answer.verdict.is_refusal:
                return answer.findings[0]
        slack = (one for one in rated.answer.findings if one.topic is Topic.SLACK)
        return next(slack, None)


def _changing(holds: Callable[[float], bool], low: float, high: float) -> float:
    """Return where something that holds at the lower end ceases to hold."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
