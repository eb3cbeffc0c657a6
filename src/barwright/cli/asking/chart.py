"""``barwright chart``: load and rate over the travel, drawn."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.analysis.rates.rates import Rates, rates
from barwright.analysis.tolerance.unmeasured import rests_on
from barwright.cli.jobs import (
    installed,
    job_argument,
    load_one,
    locating_errors,
    registry_options,
    units_option,
    with_present_height,
)
from barwright.cli.output import say, show, text_width
from barwright.parts.setup import Setup
from barwright.registry.files.whole_file import write_whole
from barwright.report.chart import svg_chart, terminal_chart
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("chart")
@job_argument
@click.option("--corner", help="Corner to draw, like 'front left'. Default: the first.")
@click.option("--svg", type=click.Path(path_type=Path), help="Write the drawing to this SVG file.")
@units_option
@registry_options
def command(job: str, *, corner: str | None, svg: Path | None, system: System) -> int:
    """Draw load and rate at the wheel over the travel, and mark droop, ride and bump."""
    corners = {c.setup.corner: c for c in load_one(job, installed()).corners}
    name = corner or next(iter(corners))
    if name not in corners:
        message = f"the job has no corner {name!r}; it has {', '.join(corners)}"
        raise click.UsageError(message)
    chosen = corners[name]

    def question(setup: Setup) -> Rates:
        return rates(setup, wanted=with_present_height(chosen).wanted)

    with locating_errors(job):
        answer = in_units(question(chosen.setup), system)
    if answer.figures is None:
        say(answer.headline, err=True)
        return answer.outcome.exit_code
    from barwright.report.text.grounds.trail import rests_on_text  # noqa: PLC0415 - rich is slow to load
    from barwright.report.text.layout.tables import Note  # noqa: PLC0415 - as below

    setup = chosen.setup
    note = rests_on_text(rests_on(setup, questions=[question]))
    if svg is None:
        show(Note(f"{name.capitalize()}: {answer.headline}"))
        say("\n".join(filter(None, (note, "", terminal_chart(answer.figures, width=text_width())))))
    else:
        title = f"{setup.chassis.title}, {name}, {setup.bar.title}"
        write_whole(svg, svg_chart(answer.figures, title=title, note=note), inputs=[Path(job)])
    if answer.verdict.is_refusal:
        say(answer.headline, err=True)
    return answer.outcome.exit_code
