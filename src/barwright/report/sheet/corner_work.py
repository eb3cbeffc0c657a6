"""The work on one corner that a bench sheet describes."""

from __future__ import annotations

from typing import cast

import attrs

from barwright.analysis.across.bench_work import BenchWork
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.assembly.loose_bar import LooseBar
from barwright.analysis.assembly.unloading import (
    Unloading,
    bar_is_drawn,
    must_be_unloaded,
    swapped,
)
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.plan.plan import Plan
from barwright.analysis.reindex.plan.uncut_trial import UncutTrial
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.strength.strength import Strength
from barwright.computed_once import cached_property
from barwright.parts.setup import Setup
from barwright.parts.suspension import StrutMounting
from barwright.report.unit_system import in_units
from barwright.units import Quantity, System

__all__ = ["CornerWork", "work_on"]


@attrs.frozen(eq=False, slots=False, kw_only=True)
class CornerWork:
    """One corner with the plan to carry out, and what that asks for.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    answer : Reindex
        The answer that the plan belongs to.
    plan : Plan
        The plan to carry out.
    rates, strength : Rates, Strength
        With the plan carried out.
    nut_table : NutTable, optional
        What each turn of the adjuster gives with the plan carried out.
    loose, loose_now : LooseBar
        What unloads the bar with the plan carried out, and the bar that is in.
    turns_to_make : Quantity, optional
        From where the adjuster is now to where the plan has it; none where that is not known.
    after_trial : CornerWork, optional
        The work that is left after a trial that fits the other damper and leaves the bar in.
    cutting_waits : bool
        Whether no tooth may go before the load of the axle is checked.
    """

    setup: Setup
    present: Setup
    answer: Reindex
    plan: Plan
    rates: Rates
    strength: Strength
    nut_table: NutTable | None
    loose: LooseBar
    loose_now: LooseBar
    turns_to_make: Quantity | None = None
    after_trial: CornerWork | None = None
    cutting_waits: bool = False

    @property
    def unloading(self) -> Unloading:
        """How the bar that is in comes to carry no torque; an answer with a plan knows."""
        return cast("Unloading", self.answer.unloading)

    @cached_property
    def swapped(self) -> tuple[str, ...]:
        """Parts that are not those that are on the corner now."""
        return swapped(self.setup, present=self.present)

    @property
    def draws_bar(self) -> bool:
        """Whether the bar is drawn."""
        return bar_is_drawn(self.swapped, disturbed=self.plan.disturbed)

    @property
    def unloads(self) -> bool:
        """Whether the bar must carry no torque meanwhile."""
        return must_be_unloaded(self.swapped, disturbed=self.plan.disturbed)

    @property
    def frees_arm(self) -> bool:
        """Whether the arm moves by itself, without what joins it to the other side."""
        return self.unloads or "damper" in self.swapped

    @property
    def trial(self) -> UncutTrial | None:
        """What is tried before the plan removes a tooth."""
        return self.answer.trial if self.plan.cuts else None

    @property
    def tries_the_bar_in(self) -> bool:
        """Whether the bar stays in while it is tried."""
        stays = not must_be_unloaded(self.swapped, disturbed=()) and "damper" not in self.swapped
        return self.trial is not None and (stays or self.after_trial is not None)

    @property
    def has_strut(self) -> bool:
        """Whether a strut guides the wheel carrier."""
        return isinstance(self.setup.axle.suspension, StrutMounting)

    @property
    def is_towed(self) -> bool:
        """Whether it is a trailer's corner."""
        return self.setup.chassis.drive == "none"


def work_on(found: BenchWork, system: System) -> CornerWork | None:
    """Gather the work on a corner; there is some where there is a plan to follow.

    Parameters
    ----------
    found : BenchWork
        What was found for the corner.
    system : {"metric", "inch"}
        What the reader wants.

    Returns
    -------
    CornerWork or None
    """
    if found.plan is None or found.loose is None or found.loose_now is None:
        return None
    answer = in_units(found.reindex, system)
    work = CornerWork(
        setup=found.setup,
        present=found.present,
        answer=answer,
        plan=answer.plans[found.number - 1],
        rates=in_units(found.rates, system),
        strength=in_units(found.strength, system),
        nut_table=in_units(found.nut_table, system) if found.nut_table else None,
        loose=in_units(found.loose, system),
        loose_now=in_units(found.loose_now, system),
        turns_to_make=found.turns_to_make,
        cutting_waits=found.cutting_waits,
    )
    if found.tried is None:
        return work
    left = attrs.evolve(
        work,
        present=found.tried.present,
        answer=attrs.evolve(answer, unloading=in_units(found.tried.unloading, system)),
        loose_now=in_units(found.tried.loose, system),
    )
    return attrs.evolve(work, after_trial=left)
