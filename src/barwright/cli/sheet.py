"""``barwright sheet``: the bench sheet of a job."""

from __future__ import annotations

import click

from barwright.cli.asking import (
    blaming,
    installed,
    job_argument,
    json_option,
    load_one,
    registry_options,
    units_option,
    worst,
)
from barwright.cli.output import say_json, show
from barwright.report.json import to_json
from barwright.report.sheet import bench_sheet
from barwright.units import System

__all__ = ["command"]


@click.command("sheet")
@job_argument
@registry_options
@click.option(
    "--plan", type=click.IntRange(min=1), default=1, show_default=True, help="Plan to follow."
)
@units_option
@json_option
def command(job: str, *, plan: int, as_json: bool, system: System) -> int:
    """Print parts, steps in order, figures to set, what to measure, and cautions."""
    loaded = load_one(job, installed())
    with blaming(job):
        sheet = bench_sheet(loaded, plan=plan, system=system)
    if as_json:
        say_json(to_json(sheet))
    else:
        from barwright.report.sheet_text import sheet_text  # noqa: PLC0415 - rich is slow to load

        show(sheet_text(sheet))
    return worst(sheet.outcomes)
