"""``barwright sheet``: the bench sheet of a job."""

from __future__ import annotations

import click

from barwright.cli.jobs import (
    installed,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    no_cut_option,
    plan_numbers,
    plan_option,
    registry_options,
    units_option,
    without_cuts,
    worst,
)
from barwright.cli.output import say_json, show
from barwright.report.forms.json import to_json
from barwright.report.sheet.sheet import bench_sheet
from barwright.units import System

__all__ = ["command"]


@click.command("sheet")
@job_argument
@registry_options
@plan_option
@no_cut_option
@units_option
@json_option
def command(
    job: str, *, plans: tuple[str, ...], no_cut: bool, as_json: bool, system: System
) -> int:
    """Print parts, cautions, steps in order, figures to set and figures to measure."""
    loaded = load_one(job, installed())
    with locating_errors(job, {"plan": "--plan"}):
        sheet = bench_sheet(
            without_cuts(loaded) if no_cut else loaded, plan=plan_numbers(plans), system=system
        )
    if as_json:
        say_json(to_json(sheet))
    else:
        from barwright.report.text.sheet import sheet_text  # noqa: PLC0415 - rich is slow to load

        show(sheet_text(sheet))
    return worst(sheet.outcomes)
