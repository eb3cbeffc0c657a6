"""Work on a corner for tests of the bench sheet's pieces."""

from __future__ import annotations

import barwright as bw
from barwright.analysis.assembly.loose_bar import loose_bar
from barwright.analysis.corner.corner import Corner
from barwright.report.sheet.corner_work import CornerWork

__all__ = ["work_on"]


def work_on(
    setup: bw.Setup, *, present: bw.Setup | None = None, wanted: bw.Wanted, plan: int = 1
) -> CornerWork:
    """Gather the work that a plan asks for."""
    now = present or setup
    answer = bw.reindex(setup, wanted=wanted, present=now)
    followed = answer.plans[plan - 1]
    done = bw.carry_out(setup, followed)
    return CornerWork(
        setup=setup,
        present=now,
        answer=answer,
        plan=followed,
        rates=bw.rates(done),
        nut_table=bw.nut_table(done),
        strength=bw.strength(done),
        loose=loose_bar(Corner(done)),
        loose_now=loose_bar(Corner(now)),
    )
