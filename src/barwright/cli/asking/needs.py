"""``barwright needs``: what is known of a corner, what is missing, and what to measure next."""

from __future__ import annotations

import functools

import click

from barwright.analysis.across.needs import needs
from barwright.cli.jobs import ask, job_argument, json_option, registry_options, units_option
from barwright.units import System

__all__ = ["command"]


@click.command("needs")
@job_argument
@registry_options
@click.option("--all", "every", is_flag=True, help="Show the figures that are known well, too.")
@units_option
@json_option
def command(job: str, *, every: bool, as_json: bool, system: System) -> int:
    """List the figures that are missing or unsure, with tool and place of measuring.

    The figure that most questions wait for comes first; then the one that makes most of a ±.
    """
    from barwright.report.text.needs import needs_row, needs_text  # noqa: PLC0415 - rich is slow

    return ask(
        job,
        lambda corner: needs(corner.setup),
        functools.partial(needs_text, every=every),
        needs_row,
        as_json=as_json,
        system=system,
        # What is to be measured rests on no figure.
        unmeasured=lambda _, __: (),
    )
