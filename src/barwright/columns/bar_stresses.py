"""Stresses of a column of bars against the limits that are known of them."""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np

from barwright.analysis.corner.bar.fillets import fillets_of
from barwright.analysis.strength.presetting import left_by_presetting
from barwright.analysis.strength.strength_limits import (
    LimitsInPascals,
    StrengthLimits,
    limits_in_pascals,
)
from barwright.columns.column_corner import Flags
from barwright.columns.possible import any_of
from barwright.computed_once import cached_property
from barwright.mechanics.common.types import Real
from barwright.mechanics.strength import fatigue
from barwright.parts.bar import Bar
from barwright.parts.chassis import BarEndName

__all__ = ["BarStresses", "Check", "finite"]


@attrs.frozen(eq=False)
class Check:
    """Stresses and their limits [Pa]; not a number where no limit is known.

    Parameters
    ----------
    stress, limit : array of float
        The stresses and their limits.
    """

    stress: Any
    limit: Any

    @property
    def factor(self) -> Any:  # noqa: ANN401 - one number or a column
        """Limit over stress; not a number without a limit or a stress."""
        return finite(fatigue.static_factor(self.stress, limit=self.limit))

    @property
    def is_exceeded(self) -> Flags:
        """Whether a stress lies beyond its limit."""
        return np.asarray(np.less(self.factor, 1.0))


@attrs.frozen(eq=False, slots=False)
class BarStresses:
    """A column of bars, whose stresses are judged as those of single ones are.

    Parameters
    ----------
    bar : Bar
        The bars.
    limits : StrengthLimits
        What the caller knows of their strength.
    """

    bar: Bar
    limits: StrengthLimits

    @cached_property
    def applied(self) -> LimitsInPascals:
        """Limits that apply [Pa]."""
        return limits_in_pascals(self.bar, self.limits)

    @property
    def is_judged(self) -> bool:
        """Whether any limit is known, and the stress in all fillets."""
        applied = self.applied
        if applied.permissible_shear is None and applied.shear_yield is None:
            return False
        return self._fillets_are_known

    @cached_property
    def left(self) -> Real | None:
        """Stress that pre-setting left at the surface [Pa]; none where that is not known."""
        shear_yield = self.applied.shear_yield
        return (
            None if shear_yield is None else left_by_presetting(self.bar, shear_yield=shear_yield)
        )

    def permissible(self, stress: Real) -> Check:
        """Compare stresses [Pa] with the permissible ones."""
        limit: Any = _number(self.applied.permissible_shear)
        if self.limits.permissible_shear is None:
            limit = np.where(self._is_against(stress), np.nan, limit)
        return Check(stress, limit)

    def at_yield(self, stress: Real) -> Check:
        """Compare stresses [Pa] with those at which the bodies yield."""
        limit: Any = _number(self.applied.shear_yield)
        if self.left is not None:
            limit = np.where(self._is_against(stress), limit + self.left, limit - self.left)
        return Check(stress, limit)

    def exceeded(self, *, droop: Real, bump: Real, ride: Real | None = None) -> Flags:
        """Tell which bars are overstressed at full droop, at rest or at full bump [Pa]."""
        places = (droop, bump) if ride is None else (droop, ride, bump)
        return any_of(
            (
                *(self.permissible(stress).is_exceeded for stress in places),
                *(self.at_yield(stress).is_exceeded for stress in (droop, bump)),
                *self._yielding(droop=droop, bump=bump),
            )
        )

    def fillet_stress(self, end: BarEndName, *, droop: Real, bump: Real) -> Any:  # noqa: ANN401 - as above
        """Greatest stress in the fillet of an end [Pa]; not a number where none is known."""
        return self._concentrations.get(end, np.nan) * _greatest(droop, bump)

    def _yielding(self, *, droop: Real, bump: Real) -> list[Any]:
        if self.bar.preset:
            return []
        shear_yield = _number(self.applied.shear_yield)
        return [
            np.greater(factor * _greatest(droop, bump), shear_yield)
            for factor in self._concentrations.values()
        ]

    @cached_property
    def _concentrations(self) -> dict[BarEndName, float]:
        """Stress concentrations in the fillets, as far as they are known."""
        found = {fillet.end: fillet.concentration for fillet in fillets_of(self.bar)}
        return {end: factor for end, factor in found.items() if factor is not None}

    @property
    def _fillets_are_known(self) -> bool:
        return self.bar.preset or len(self._concentrations) == len(fillets_of(self.bar))

    def _is_against(self, stress: Real) -> Any:  # noqa: ANN401 - one flag or a column
        """Whether pre-set bars are twisted against the sense that they were pre-set in."""
        return self.bar.preset & np.less(stress, 0.0)


def finite(factor: Any) -> Any:  # noqa: ANN401 - one number or a column
    """Keep factors that are finite."""
    return np.where(np.isfinite(factor), factor, np.nan)


def _greatest(droop: Real, bump: Real) -> Any:  # noqa: ANN401 - as above
    return np.maximum(np.abs(droop), np.abs(bump))


def _number(limit: Real | None) -> Real:
    return np.nan if limit is None else limit
