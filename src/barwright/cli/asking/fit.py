"""``barwright fit``: whether the bar fits between its sockets, and what would make it fit."""

from __future__ import annotations

import click

from barwright.analysis.fit.length_fit import length_fit
from barwright.analysis.tolerance.unmeasured import rests_on
from barwright.cli.jobs import (
    ask,
    installed,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.units import System

__all__ = ["command"]


@click.command("fit")
@job_argument
@click.option(
    "--donors",
    "with_donors",
    is_flag=True,
    help="If it does not fit, look for an arm or anchor that makes it fit.",
)
@units_option
@json_option
@registry_options
def command(job: str, *, with_donors: bool, as_json: bool, system: System) -> int:
    """Say whether the bar fits, how it lies and how long its active part is."""
    from barwright.report.text.fit import (  # noqa: PLC0415 - rich is slow to load
        donors_row,
        donors_text,
        fit_row,
        fit_text,
    )

    if not with_donors:
        return ask(
            job,
            lambda corner: length_fit(corner.setup),
            fit_text,
            fit_row,
            as_json=as_json,
            system=system,
        )
    from barwright.analysis.across.donors import donors  # noqa: PLC0415 - the fit needs no plans

    parts = installed().parts()
    return ask(
        job,
        lambda corner: donors(corner.setup, parts=parts),
        donors_text,
        donors_row,
        as_json=as_json,
        system=system,
        # Which other parts there are moves no figure of this corner.
        unmeasured=lambda corner, _: rests_on(corner.setup, questions=[length_fit]),
    )
