"""``barwright sheet``: the bench sheet of a job."""

from __future__ import annotations

import re

import click

from barwright.analysis.reindex.axle import PlanNumbers
from barwright.cli.jobs import (
    installed,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    no_cut_option,
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
@click.option(
    "--plan",
    "plans",
    multiple=True,
    metavar="[SIDE=]NUMBER",
    help="Plan to follow on all corners or on one: 2, left=2, 'front left=2'; may be repeated.",
)
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
            without_cuts(loaded) if no_cut else loaded, plan=_numbers(plans), system=system
        )
    if as_json:
        say_json(to_json(sheet))
    else:
        from barwright.report.text.sheet import sheet_text  # noqa: PLC0415 - rich is slow to load

        show(sheet_text(sheet))
    return worst(sheet.outcomes)


def _numbers(given: tuple[str, ...]) -> PlanNumbers:
    """Read the numbers of plans: one for all corners, or one for each that is named."""
    found: dict[str, int] = {}
    for text in given:
        name, mark, number = text.rpartition("=")
        is_number = re.fullmatch(r" *[0-9]{1,4} *", number) is not None
        if not is_number or (mark and not name.strip()) or name.strip() in found:
            message = f"--plan takes NUMBER or SIDE=NUMBER, each side once, and not {text!r}"
            raise click.UsageError(message)
        found[name.strip()] = int(number)
    if "" not in found:
        return found
    if len(found) > 1:
        message = "--plan takes one number for all corners, or one for each that is named"
        raise click.UsageError(message)
    return found[""]
