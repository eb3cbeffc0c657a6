"""``barwright rates``: the rate that the bar gives at the wheel."""

from __future__ import annotations

import click

from barwright.analysis.rates.rates import rates
from barwright.cli.jobs import (
    ask,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.units import System

__all__ = ["command"]


@click.command("rates")
@job_argument
@units_option
@json_option
@registry_options
def command(job: str, *, as_json: bool, system: System) -> int:
    """Give rates and stresses at the wanted height and over the travel."""
    from barwright.report.text.rates import rates_row, rates_text  # noqa: PLC0415 - rich is slow

    return ask(
        job,
        lambda corner: rates(corner.setup, wanted=corner.wanted),
        rates_text,
        rates_row,
        as_json=as_json,
        system=system,
    )
