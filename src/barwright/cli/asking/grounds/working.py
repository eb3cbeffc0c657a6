"""``barwright working``: the calculation behind an answer, as it is written by hand."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, get_args

import click

from barwright.analysis.working.subjects import SubjectName
from barwright.analysis.working.working import Working, working
from barwright.cli.jobs import (
    CornerAnswer,
    installed,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    put_json,
    registry_options,
    units_option,
    with_present_height,
    worst_exit_code,
)
from barwright.cli.output import show, shown_text
from barwright.cli.printing import chosen_form, form_option, output_option, paper_option, put_out
from barwright.registry.jobs.job import JobCorner
from barwright.registry.registry import Registry
from barwright.report.page.paper import Paper
from barwright.report.page.working import working_html, working_pdf
from barwright.units import System

if TYPE_CHECKING:
    from barwright.report.text.layout.tables import Shown

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
@form_option
@paper_option
@output_option
@json_option
@registry_options
def command(
    job: str,
    figure: str,
    *,
    asked: SubjectName,
    system: System,
    form: str | None,
    paper: Paper,
    output: Path | None,
    as_json: bool,
) -> int:
    """Show the calculation behind an answer, step by step, to check or to sign.

    Each step is an equation with its source, the figures put in, and what it comes to with its
    ±.  FIGURE is a figure of the answer, named by its JSON keys, like ride.wheel_rate: only what
    it follows from is shown.
    """
    form = chosen_form(form, as_json=as_json, output=output)
    registry = installed()
    loaded = load_one(job, registry)
    with locating_errors(job, {"figure": "FIGURE"}):
        answers = [
            _asked(corner, registry, asked=asked, figure=figure, system=system)
            for corner in loaded.corners
        ]
    if form == "json":
        asked_of = zip(loaded.corners, answers, strict=True)
        put_json([CornerAnswer(loaded, c, a, a.rests_on) for c, a in asked_of], output, job=job)
    elif form == "text" and output is None:
        show(_text(answers))
    else:
        content = _content(answers, form, paper)
        put_out(content, output=output, job=job, title="working")
    return worst_exit_code(answer.outcome for answer in answers)


def _content(answers: Sequence[Working], form: str, paper: Paper) -> str | bytes:
    """Write the workings in a form, whole."""
    if form == "html":
        return working_html(answers, paper=paper)
    if form == "pdf":
        return working_pdf(answers, paper=paper)
    if form == "text":
        return f"{shown_text(_text(answers))}\n"
    from barwright.report.text.layout.markdown import markdown_of  # noqa: PLC0415 - slow to load

    return markdown_of(_text(answers))


def _text(answers: Sequence[Working]) -> Shown:
    from barwright.report.text.grounds.working import workings_text  # noqa: PLC0415 - rich is slow to load

    return workings_text(answers)


def _asked(
    corner: JobCorner, registry: Registry, *, asked: SubjectName, figure: str, system: System
) -> Working:
    present = with_present_height(corner)
    return working(
        present.setup,
        asked=asked,
        figure=figure,
        wanted=present.wanted if asked in _AT_THE_WISH else None,
        present=present.present if asked == "reindex" else None,
        system=system,
        source=registry.source,
    )


# Questions that a job's wish is part of.
_AT_THE_WISH = ("rates", "strength", "reindex")
