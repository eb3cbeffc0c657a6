"""``barwright fit``: whether the bar fits between its sockets."""

from __future__ import annotations

import click

from barwright.analysis.fit import length_fit
from barwright.cli.asking import ask, job_argument, json_option, units_option
from barwright.units import System

__all__ = ["command"]


@click.command("fit")
@job_argument
@units_option
@json_option
def command(job: str, *, as_json: bool, system: System) -> int:
    """Answer whether the bar fits, where it lies and how long its active part is."""
    from barwright.report.text import fit_text  # noqa: PLC0415 - rich is slow to load

    return ask(
        job,
        lambda corner: length_fit(corner.setup),
        fit_text,
        lambda answer: answer.verdict,
        as_json=as_json,
        system=system,
    )
