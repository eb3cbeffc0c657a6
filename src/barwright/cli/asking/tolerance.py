"""``barwright tolerance``: how sure the rates are, and which figure makes them unsure."""

from __future__ import annotations

import contextlib

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
@registry_options
@click.option(
    "--draws",
    type=int,
    default=0,
    show_default=True,
    help="Draw so many sets of figures (Monte Carlo), 100 to 100000; 0: first order.",
)
@click.option("--seed", type=int, default=0, show_default=True, help="Where the draws start.")
@units_option
@json_option
def command(job: str, *, draws: int, seed: int, as_json: bool, system: System) -> int:
    """Answer how sure the rates at the wanted height are, and by which figures they are not.

    The tolerance of a figure is a half width, within which any value is as likely. A ± is
    two standard uncertainties, about 95 %, as on plans and sheets.
    """
    from barwright.report.text.tolerance import (  # noqa: PLC0415 - rich is slow to load
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
        tolerances_text,
        tolerances_row,
        as_json=as_json,
        system=system,
        options={"draws": "--draws", "seed": "--seed"},
        unmeasured=lambda corner, _: rests_on(
            corner.setup, questions=[lambda setup: rates(setup, wanted=corner.wanted)]
        ),
    )
