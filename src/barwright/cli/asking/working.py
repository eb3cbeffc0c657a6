"""``barwright working``: the calculation behind an answer, as it is written by hand."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import click

from barwright.analysis.working.subjects import SubjectName
from barwright.analysis.working.working import Working, working
from barwright.cli.jobs import (
    installed,
    job_argument,
    load_one,
    locating_errors,
    registry_options,
    units_option,
    with_present_height,
    worst_exit_code,
)
from barwright.cli.output import show, shown_text
from barwright.cli.printing import output_option, put_out
from barwright.registry.jobs.job import JobCorner
from barwright.registry.registry import Registry
from barwright.units import System

__all__ = ["command"]


@click.command("working")
@job_argument
@click.argument("figure", default="")
@click.option(
    "--asked",
    type=click.Choice(list(get_args(SubjectName))),
    default="rates",
    show_default=True,
    help="Question that the calculation is of.",
)
@units_option
@click.option(
    "--form",
    type=click.Choice(["text", "markdown"]),
    default="text",
    show_default=True,
    help="What to write.",
)
@output_option
@registry_options
def command(
    job: str, figure: str, *, asked: SubjectName, system: System, form: str, output: Path | None
) -> int:
    """Show the calculation behind an answer, step by step, to check or to sign.

    Each step is an equation with its source, the figures put in, and what it comes to with its
    ±.  FIGURE is a figure of the answer, named by its JSON keys, like ride.wheel_rate: only what
    it follows from is shown.
    """
    registry = installed()
    loaded = load_one(job, registry)
    with locating_errors(job, {"figure": "FIGURE"}):
        answers = [
            _asked(corner, registry, asked=asked, figure=figure, system=system)
            for corner in loaded.corners
        ]
    from barwright.report.text.layout.markdown import markdown_of  # noqa: PLC0415 - slow to load
    from barwright.report.text.working import workings_text  # noqa: PLC0415

    page = workings_text(answers)
    if form == "text" and output is None:
        show(page)
    else:
        content = f"{shown_text(page)}\n" if form == "text" else markdown_of(page)
        put_out(content, output=output, job=job, title="working")
    return worst_exit_code(answer.outcome for answer in answers)


def _asked(
    corner: JobCorner, registry: Registry, *, asked: SubjectName, figure: str, system: System
) -> Working:
    present = with_present_height(corner)
    return working(
        present.setup,
        asked=asked,
        figure=figure,
        wanted=present.wanted if asked == "rates" else None,
        system=system,
        source=registry.source,
    )
