"""Tables over the adjuster's thread for all corners of a job."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

import attrs

from barwright.analysis.adjusting.nut_table import NutTable, nut_table_of
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Limit, Topic
from barwright.analysis.reindex.axle import PlanNumbers, plans_chosen, plans_together
from barwright.analysis.reindex.plan.setup_after import carried_out
from barwright.analysis.reindex.reindex import CornerTask, Reindex
from barwright.errors import BarwrightError
from barwright.parts.wanted import Wanted
from barwright.registry.jobs.job import Job
from barwright.units import LENGTH, Quantity, si

__all__ = ["NutReading", "planned_nut_tables", "present_nut_tables"]


@attrs.frozen(kw_only=True)
class NutReading:
    """A measured height of a corner, and the wanted one.

    Parameters
    ----------
    measured : Quantity, optional
        Hub to arch.
    wanted : Wanted, optional
        The wanted height; that of the job, if only ``measured`` is given.
    nut_turns : Quantity, optional
        Position of the nut, from mid-thread; if left out, the planned position or the one in
        the job.
    """

    measured: Quantity | None = None
    wanted: Wanted | None = None
    nut_turns: Quantity | None = None


def planned_nut_tables(
    job: Job, numbers: PlanNumbers, readings: Sequence[NutReading]
) -> tuple[NutTable, ...]:
    """Answer :func:`barwright.nut_table` for each corner of a job, after its plan.

    Parameters
    ----------
    job : Job
        The job.
    numbers : int or mapping of str to int
        Number of the plan to follow: for all corners, or by side or corner.
    readings : sequence of NutReading
        Reading of each corner.

    Returns
    -------
    tuple of NutTable
        In the order of the job's corners; where there is no plan, why.

    Raises
    ------
    SchemaError
        S203 or S206 for the number of a plan that cannot be.
    """
    tasks = [CornerTask.of(corner) for corner in job.corners]
    answers = plans_together(tasks)
    return tuple(map(_planned, tasks, answers, plans_chosen(job, answers, numbers), readings))


def present_nut_tables(job: Job, readings: Sequence[NutReading]) -> tuple[NutTable, ...]:
    """Answer :func:`barwright.nut_table` for each corner of a job as it is now.

    Parameters
    ----------
    job : Job
        The job.
    readings : sequence of NutReading
        Reading of each corner.

    Returns
    -------
    tuple of NutTable
        In the order of the job's corners.
    """
    tasks = [CornerTask.of(corner) for corner in job.corners]
    return tuple(map(_present, tasks, readings))


def _present(task: CornerTask, reading: NutReading) -> NutTable:
    try:
        return _table(task.now, task.wanted, reading)
    except BarwrightError as error:
        # What was read off the corner is not what the job says of it.
        raise error if reading.nut_turns is not None else error.within(key="present") from None


def _planned(task: CornerTask, answer: Reindex, number: int, reading: NutReading) -> NutTable:
    if not answer.plans:
        return NutTable(verdict=answer.verdict, findings=answer.findings, fit=answer.fit)
    done = carried_out(task.corner, answer.plans[number - 1])
    table = _table(done, task.wish, reading)
    if reading.measured is None or reading.nut_turns is not None:
        return table
    return attrs.evolve(table, findings=tuple(_read_when(task, reading.measured, table)))


def _read_when(task: CornerTask, measured: Quantity, table: NutTable) -> Iterator[Finding]:
    """Ask whether a height that is far off was read before the work."""
    for one in table.findings:
        if one.topic is Topic.MEASURED and _is_as_now(task, measured, off=one.figure):
            text = (
                "the measured height is that before the work rather than that after it. If it was "
                "read before, ask for the vehicle as it is (--as-it-is)"
            )
            yield attrs.evolve(one, text=text)
        else:
            yield one


def _is_as_now(task: CornerTask, measured: Quantity, *, off: Limit) -> bool:
    """Whether a height is nearer to that of the corner as it is than to that after the work."""
    now = nut_table_of(task.now, measured=None, wanted=None)
    heights = (si(row.height, LENGTH) for row in now.table_rows if row.is_set)
    nearer_than = si(cast("Quantity", off), LENGTH)
    return any(abs(si(measured, LENGTH) - height) < nearer_than for height in heights)


def _table(corner: Corner, wanted: Wanted, reading: NutReading) -> NutTable:
    if reading.nut_turns is not None:
        set_there = attrs.evolve(corner.setup, nut_turns=reading.nut_turns, pin_distance=None)
        corner = corner.beside(set_there)
    is_asked = reading.measured is not None or reading.wanted is not None
    return nut_table_of(
        corner,
        measured=reading.measured,
        wanted=(reading.wanted or wanted) if is_asked else None,
    )
