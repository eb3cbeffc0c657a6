"""What each plan costs more than the first one."""

from __future__ import annotations

from collections.abc import Sequence

import attrs

from barwright.analysis.reindex.plan.plan import Plan, PlanCost
from barwright.units import quantity_of_unit, unit_spelling

__all__ = ["with_costs"]


def with_costs(plans: Sequence[Plan]) -> tuple[Plan, ...]:
    """Give each plan its cost against the first.

    Parameters
    ----------
    plans : sequence of Plan
        In the order of preference.

    Returns
    -------
    tuple of Plan
    """
    return tuple(
        attrs.evolve(plan, cost=_cost(plan, plans[0]) if place else None)
        for place, plan in enumerate(plans)
    )


def _cost(plan: Plan, first: Plan) -> PlanCost:
    left, most = plan.thread_reserve, first.thread_reserve
    less = None
    if left is not None and most is not None:
        less = quantity_of_unit(left.magnitude - most.magnitude, unit_spelling(left))
    return PlanCost(
        teeth=plan.cuts - first.cuts,
        ends=len(plan.disturbed) - len(first.disturbed),
        thread_reserve=less,
    )
