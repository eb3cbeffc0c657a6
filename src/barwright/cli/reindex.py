"""``barwright reindex``: how to clock the bar so that the adjuster sits mid-thread."""

from __future__ import annotations

import click

from barwright.analysis.reindex import reindex
from barwright.cli.asking import (
    ask,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.units import System

__all__ = ["command"]


@click.command("reindex")
@job_argument
@registry_options
@units_option
@json_option
def command(job: str, *, as_json: bool, system: System) -> int:
    """List the plans that no other plan beats, and how the bar comes out and goes in."""
    from barwright.report.text import reindex_row, reindex_text  # noqa: PLC0415 - rich is slow

    return ask(
        job,
        lambda corner: reindex(corner.setup, wanted=corner.wanted, present=corner.present),
        reindex_text,
        reindex_row,
        as_json=as_json,
        system=system,
    )
