"""``barwright trail``: where the figures come from, and which of them move an answer."""

from __future__ import annotations

import click

from barwright.analysis.rates.rates import Rates, rates
from barwright.analysis.trail import Trail, trail
from barwright.cli.jobs import (
    ask,
    installed,
    job_argument,
    json_option,
    registry_options,
    units_option,
)
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import JobCorner
from barwright.units import System

__all__ = ["command"]


@click.command("trail")
@job_argument
@click.argument("figure", default="")
@units_option
@json_option
@registry_options
def command(job: str, figure: str, *, as_json: bool, system: System) -> int:
    """List all figures of a corner with their sources, or those that affect one rate.

    FIGURE is a figure of `barwright rates`, named by its JSON keys, like ride.wheel_rate.
    Each figure of the corner is then changed alone, by 1 % or by one degree.  Those that
    affect FIGURE are listed, the largest effect first.
    """
    from barwright.report.text.grounds.trail import trail_row, trail_text  # noqa: PLC0415 - rich is slow

    registry = installed()

    def question(corner: JobCorner) -> Trail:
        def at_the_wanted_height(setup: Setup) -> Rates:
            return rates(setup, wanted=corner.wanted)

        return trail(
            corner.setup,
            figure=figure,
            question=at_the_wanted_height,
            source=registry.source,
            preferences=registry.preferences,
        )

    return ask(
        job,
        question,
        trail_text,
        trail_row,
        as_json=as_json,
        system=system,
        registry=registry,
        options={"figure": "FIGURE"},
        unmeasured=lambda _, answer: answer.rests_on,
    )
