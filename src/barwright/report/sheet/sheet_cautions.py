"""What must not be forgotten on the bench, each caution once and before the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from barwright.analysis.across.bench_work import BenchWork
from barwright.analysis.finding import Caution
from barwright.analysis.reindex.plan.cautions import job_cautions
from barwright.analysis.tolerance.unmeasured import INVENTED
from barwright.report.sheet.corner_work import CornerWork

__all__ = ["SAID_BY_STEPS", "sheet_cautions"]

SAID_BY_STEPS = {
    *(Caution.MARK_BOTH_SIDES, Caution.MARK_KEY_LEVER, Caution.MARK_SOCKET),
    *(Caution.PROVE_LOOSE, Caution.FEWER_TEETH, Caution.SCRAP_ON_NICKS),
    *(Caution.FULL_NUT, Caution.FULL_BOLT, Caution.SPACER),
    *(Caution.CLEARANCE, Caution.AFTER_HEIGHT_CHANGE, Caution.ON_ITS_COUPLING),
}
"""Cautions that concern one step, which says them where they are needed."""


def sheet_cautions(worked_out: Iterable[BenchWork], works: Sequence[CornerWork]) -> Iterator[str]:
    """List the cautions of a sheet.

    Parameters
    ----------
    worked_out : iterable of BenchWork
        All corners.
    works : sequence of CornerWork
        Those that are worked on.

    Yields
    ------
    str
    """
    yield from _of_invented(worked_out)
    yield from _of_work(works)


def _of_invented(corners: Iterable[BenchWork]) -> Iterator[str]:
    """Warn where the work rests on invented figures: no vehicle has them."""
    unmeasured = (found for corner in corners for found in corner.rests_on)
    invented = sorted({found.source for found in unmeasured if found.kind == INVENTED})
    if invented:
        yield (f"Figures invented ({', '.join(invented)}): a demonstration, for no vehicle.")


def _of_work(works: Sequence[CornerWork]) -> Iterable[str]:
    """Collect the cautions of the job and of its plans, each once."""
    of_job = job_cautions([(work.setup, work.plan.droop) for work in works])
    of_plans = (caution for work in works for caution in work.plan.cautions)
    always = (Caution.STORED_ENERGY, Caution.LAW_AND_JUDGEMENT)
    found = (*of_job, *sorted({*of_plans, *always}, key=list(Caution).index))
    return [caution.text for caution in found if caution not in SAID_BY_STEPS]
