"""``barwright reindex``: plan how to re-index the bar for a wanted height."""

from __future__ import annotations

import click

from barwright.analysis.reindex.axle import reindex_job
from barwright.analysis.reindex.work_rests_on import work_rests_on
from barwright.cli.jobs import (
    ask_job,
    job_argument,
    json_option,
    no_cut_option,
    registry_options,
    units_option,
    without_cuts,
)
from barwright.units import System

__all__ = ["command"]


@click.command("reindex")
@job_argument
@no_cut_option
@units_option
@json_option
@registry_options
def command(job: str, *, no_cut: bool, as_json: bool, system: System) -> int:
    """List plans for re-indexing the bar, and how it comes out and goes in.

    Both sides of an axle are planned together.  A plan that removes no tooth comes first,
    if it leaves enough thread.
    """
    from barwright.report.text.reindex import reindex_row, reindex_text  # noqa: PLC0415 - rich is slow

    return ask_job(
        job,
        lambda loaded: reindex_job(without_cuts(loaded) if no_cut else loaded),
        reindex_text,
        reindex_row,
        as_json=as_json,
        system=system,
        unmeasured=lambda corner, _: work_rests_on(corner),
    )
