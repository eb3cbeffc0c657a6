"""Which bars reach a goal: the answer."""

from __future__ import annotations

import attrs

from barwright.analysis.answer import Answer
from barwright.analysis.finding import Finding
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.strength.strength_limits import StressLimit
from barwright.parts.common.in_short import Summarised
from barwright.parts.wanted import Goal
from barwright.units import Quantity, shown

__all__ = ["BarOption", "Selection", "Sieve", "SizeForGoal"]


@attrs.frozen(kw_only=True, repr=False)
class Sieve(Summarised):
    """A requirement, and what it took out of the search.

    Parameters
    ----------
    requirement : str
        What was asked of each candidate.
    removed, kept : int
        How many it took out, and how many were left.
    nearest : str
        Of those that it took out, the one that was nearest to passing, and by what it failed.
    remedy : str
        What would let that one through.
    """

    requirement: str
    removed: int
    kept: int
    nearest: str = ""
    remedy: str = ""


@attrs.frozen(kw_only=True, repr=False)
class BarOption(Summarised):
    """A bar with the parts that it needs, and what it comes to.

    Parameters
    ----------
    bar_id, bar_title : str
        The bar.
    arm_id, anchor_id, damper_id : str
        The parts beside it.
    swapped : tuple of str
        Which of these are not on the corner now: "arm", "anchor" or "damper".
    swapped_titles : tuple of str
        Their titles.
    changes : tuple of str
        What must be changed so that it fits.
    wheel_rate : Quantity
        At the wheel, at rest at the wanted height.
    rate_change : float
        In per cent more than now.
    ride_frequency : Quantity, optional
        Of the sprung mass; none where the corner has no stiffness.
    miss : float
        How far it misses the goal, in per cent of it; 0 of an extreme.
    bump_stress : Quantity
        Shear stress of the body at full bump.
    limit : StressLimit
        For that stress: the permissible one, or that at yield if it is all that is known.
    factor : float
        The limit over the stress.
    damper_rate : Quantity, optional
        Of a damper with which the corner is damped as now; none where the rate of the present
        damper is not known.
    bump_left : Quantity
        Travel of the hub up to full bump.
    plan : Plan
        How to clock it for the height.
    """

    bar_id: str
    bar_title: str
    arm_id: str
    anchor_id: str
    damper_id: str
    swapped: tuple[str, ...]
    swapped_titles: tuple[str, ...]
    changes: tuple[str, ...]
    wheel_rate: Quantity
    rate_change: float
    ride_frequency: Quantity | None
    miss: float
    bump_stress: Quantity
    limit: StressLimit
    factor: float
    damper_rate: Quantity | None
    bump_left: Quantity
    plan: Plan

    @property
    def named(self) -> str:
        """The bar, with the other parts that it needs."""
        return " with ".join(filter(None, (self.bar_title, " and ".join(self.swapped_titles))))

    def _in_short(self) -> str:
        """Tell the bar and its rate."""
        return f"{self.named}, {shown(self.wheel_rate, 1)} ({self.rate_change:+.0f} %)"


@attrs.frozen(kw_only=True, repr=False)
class SizeForGoal(Summarised):
    """Which diameter would bring the goal, whether a bar has it or not.

    Parameters
    ----------
    diameter : Quantity, optional
        Of a solid bar, else as the present one; none if no size brings it.
    largest : Quantity, optional
        The greatest diameter that goes in and survives; none if none does.
    stopped_by : Finding, optional
        What stops a thicker one; none where nothing does up to twice the present size.
    """

    diameter: Quantity | None
    largest: Quantity | None
    stopped_by: Finding | None

    @property
    def is_too_thick(self) -> bool:
        """Whether the diameter for the goal does not go in, or does not survive."""
        return self.diameter is not None and (
            self.largest is None or bool(self.diameter > self.largest)
        )


@attrs.frozen(kw_only=True, repr=False)
class Selection(Answer):
    """Answer to :func:`~barwright.analysis.selection.choose.choose`.

    Parameters
    ----------
    verdict : Verdict
        Chosen, nothing suits, does not fit, or needs more figures.
    findings : tuple of Finding
        Why there is nothing; what the first option needs.
    cautions : tuple of Caution
        For the work of the first option.
    goal : Goal
        What was asked.
    target : Quantity, optional
        The rate or the frequency that it comes to; none of an extreme.
    present_rate : Quantity
        Rate at the wheel now, at the same height.
    options : tuple of BarOption
        Those that no other beats, the one to prefer first.
    sieves : tuple of Sieve
        What took candidates out, in order.
    untried : int
        Corners with several other parts that were too many to look at; those with the fewest
        other parts come first.
    size : SizeForGoal, optional
        Which diameter would do; none where the present bar has none.
    """

    goal: Goal
    target: Quantity | None
    present_rate: Quantity | None
    options: tuple[BarOption, ...]
    sieves: tuple[Sieve, ...]
    untried: int
    size: SizeForGoal | None

    @property
    def preferred(self) -> BarOption:
        """The first option; raises N201 if there is none."""
        return self._figure(self.options[0] if self.options else None, "an option")

    @property
    def headline(self) -> str:
        """The bar to take, or which requirement left none."""
        if not self.options:
            return self.refused()
        best = self.options[0]
        others = len(self.options) - 1
        further = f" {others} more to choose from." if others else ""
        rate = f"{shown(best.wheel_rate, 1)} at the wheel, {best.rate_change:+.0f} %"
        return f"{best.named}: {rate}. {best.plan.summary}{further}"

    @property
    def has_conditions(self) -> bool:
        """Whether the first option needs a change or a cut."""
        best = self.options[0] if self.options else None
        return best is not None and bool(best.changes or best.swapped or best.plan.cuts)
