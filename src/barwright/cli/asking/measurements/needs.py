"""``barwright needs``: what is known of a corner, what is missing, and what to measure next."""

from __future__ import annotations

import functools
from collections.abc import Callable, Sequence
from pathlib import Path

import click

from barwright.analysis.across.needs import Needs, needs
from barwright.cli.jobs import (
    ask,
    installed,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    registry_options,
    units_option,
    worst_exit_code,
)
from barwright.cli.printing import chosen_form, form_option, output_option, paper_option, put_out
from barwright.registry.jobs.job import JobCorner
from barwright.report.page.needs import needs_html, needs_markdown, needs_pdf
from barwright.report.page.paper import Paper
from barwright.units import System

__all__ = ["command"]


@click.command("needs")
@job_argument
@click.option("--all", "every", is_flag=True, help="Show the figures that are known well, too.")
@units_option
@form_option
@paper_option
@output_option
@json_option
@registry_options
def command(
    job: str,
    *,
    every: bool,
    system: System,
    form: str | None,
    paper: Paper,
    output: Path | None,
    as_json: bool,
) -> int:
    """List the figures that are missing or unsure, with tool and place of measuring.

    The figure that most questions wait for comes first; then the one that causes most of a ±.
    In html, pdf and markdown it is a measuring sheet: a line to write on for each figure and,
    in html and pdf, drawings that show where it is taken.
    """
    form = chosen_form(form, as_json=as_json, output=output)
    if form in _PAGES:
        answers = _answers(job)
        page = _PAGES[form](answers, every=every, paper=paper, system=system)
        put_out(page, output=output, job=job, title="measuring sheet")
        return worst_exit_code(answer.outcome for answer in answers)
    from barwright.report.text.measurements.needs import needs_row, needs_text  # noqa: PLC0415 - rich is slow

    return ask(
        job,
        _asked,
        functools.partial(needs_text, every=every),
        needs_row,
        as_json=form == "json",
        system=system,
        # What is to be measured rests on no figure.
        unmeasured=lambda _, __: (),
        output=output,
    )


def _asked(corner: JobCorner) -> Needs:
    return needs(corner.setup)


def _answers(job: str) -> list[Needs]:
    loaded = load_one(job, installed())
    with locating_errors(job):
        return [_asked(corner) for corner in loaded.corners]


def _markdown(answers: Sequence[Needs], *, every: bool, paper: Paper, system: System) -> str:
    """Write the sheet for no paper of any size."""
    del paper
    return needs_markdown(answers, every=every, system=system)


_PAGES: dict[str, Callable[..., str | bytes]] = {
    "html": needs_html,
    "pdf": needs_pdf,
    "markdown": _markdown,
}
