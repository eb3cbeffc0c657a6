"""``barwright tolerance``: how sure the rates are, and which figure makes them unsure."""

from __future__ import annotations

import contextlib
import functools

import click

from barwright.analysis.rates.rates import rates
from barwright.analysis.tolerance.tolerance import Tolerance, tolerance
from barwright.analysis.tolerance.unmeasured import rests_on
from barwright.cli.jobs import (
    ask,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.cli.packs import ProgressBar
from barwright.registry.jobs.job import JobCorner
from barwright.units import System

__all__ = ["command"]


@click.command("tolerance")
@job_argument
@click.option(
    "--draws",
    type=int,
    default=0,
    show_default=True,
    help="Also draw this many random sets of figures, 100 to 100000.",
)
@click.option("--seed", type=int, default=0, show_default=True, help="Seed of the random draws.")
@click.option("--all", "whole", is_flag=True, help="Show every figure, each with its causes.")
@units_option
@json_option
@registry_options
def command(job: str, *, draws: int, seed: int, whole: bool, as_json: bool, system: System) -> int:
    """Show the uncertainty of each rate at the wanted height, and its causes.

    The tolerance of a figure is a half width; every value within it is equally likely.  Each ±
    is two standard uncertainties, about 95 %, as on plans and sheets.
    """
    from barwright.report.text.grounds.tolerance import (  # noqa: PLC0415 - rich is slow to load
        tolerances_row,
        tolerances_text,
    )

    def question(corner: JobCorner) -> Tolerance:
        with contextlib.ExitStack() as stack:
            return tolerance(
                lambda setup: rates(setup, wanted=corner.wanted),
                corner.setup,
                draws=draws,
                seed=seed,
                progress=ProgressBar(stack, label="drawing"),
            )

    return ask(
        job,
        question,
        functools.partial(tolerances_text, whole=whole),
        tolerances_row,
        as_json=as_json,
        system=system,
        options={"draws": "--draws", "seed": "--seed"},
        unmeasured=lambda corner, _: rests_on(
            corner.setup, questions=[lambda setup: rates(setup, wanted=corner.wanted)]
        ),
    )
