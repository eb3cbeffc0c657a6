"""The keys at the top of a job file, and what to write where a required one is missing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from barwright.errors import BarwrightError, SchemaError
from barwright.registry.jobs.keys import JobKeys
from barwright.registry.jobs.measured import readings_of_no_side
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["read_head"]


def read_head(table: Mapping[str, Any], structurer: Structurer) -> JobKeys:
    """Read the keys at the top.

    Parameters
    ----------
    table : mapping
        The job, as parsed.
    structurer : Structurer
        Makes the record.

    Returns
    -------
    JobKeys

    Raises
    ------
    ExceptionGroup
        All problems of the keys.
    SchemaError
        S202 for no corner, S207 for one that is named twice.
    """
    if isinstance(table.get("measured"), list):
        raise readings_of_no_side()
    try:
        head = structurer.structure(table, JobKeys)
    except ExceptionGroup as error:
        raise ExceptionGroup("", [_with_example(one) for one in problems_of(error)]) from None
    if not head.corners:
        raise SchemaError(
            "S202",
            value="no corner",
            expected="at least one",
            remedy="write corners = ['front left', 'front right']",
            key="corners",
        )
    if len(set(head.corners)) < len(head.corners):
        raise SchemaError(
            "S207",
            value=", ".join(head.corners),
            expected="each corner once",
            remedy="remove the repeated one",
            key="corners",
        )
    return head


def _with_example(problem: BarwrightError) -> BarwrightError:
    """Show what to write for a required key that is missing."""
    if problem.code == "S202" and problem.key in _EXAMPLES:
        expected, remedy = _EXAMPLES[problem.key]
        missing = SchemaError("S202", value="nothing", expected=expected, remedy=remedy)
        return missing.within(key=problem.key, file=problem.file)
    return problem


# Together with a vehicle, they make the smallest job.
_EXAMPLES = {
    "corners": (
        "a list of the corners to work on",
        "write it above all tables, like corners = ['front left', 'front right']",
    ),
    "wanted": (
        "the table [wanted], with the height at which it is to stand",
        "write [wanted] and below it height = '400 mm', or keep_standard = true",
    ),
}
