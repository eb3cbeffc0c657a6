"""``barwright sheet``: the bench sheet of a job."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from barwright.cli.jobs import (
    installed,
    job_argument,
    json_option,
    load_one,
    locating_errors,
    no_cut_option,
    plan_numbers,
    plan_option,
    registry_options,
    units_option,
    without_cuts,
    worst_exit_code,
)
from barwright.cli.output import say, show, shown_text
from barwright.cli.printing import chosen_form, form_option, output_option, put_out
from barwright.report.forms.json import to_json
from barwright.report.page.drawings import template_drawings, thread_curves
from barwright.report.page.paper import Paper
from barwright.report.page.sheet import sheet_html, sheet_markdown, sheet_pdf
from barwright.report.safe_text import escaped_json
from barwright.report.sheet.sheet import BenchSheet, bench_sheet
from barwright.units import System

if TYPE_CHECKING:
    from rich.console import RenderableType

__all__ = ["command"]


@click.command("sheet")
@job_argument
@plan_option
@no_cut_option
@units_option
@form_option
@click.option(
    "--paper",
    type=click.Choice(["a4", "letter"]),
    default="a4",
    show_default=True,
    help="Paper size of pdf and template. html prints on either.",
)
@click.option(
    "--template",
    is_flag=True,
    help="Add the marking template to html or pdf; print it at 100 %.",
)
@click.option(
    "--whole-thread",
    is_flag=True,
    help="Add a page to html or pdf: every turn of the nut, and its curve.",
)
@output_option
@json_option
@registry_options
def command(
    job: str,
    *,
    plans: tuple[str, ...],
    no_cut: bool,
    system: System,
    form: str | None,
    paper: Paper,
    template: bool,
    whole_thread: bool,
    output: Path | None,
    as_json: bool,
) -> int:
    """Print parts, cautions, steps in order, figures to set and figures to measure."""
    form = chosen_form(form, as_json=as_json, output=output)
    for option, is_given in (("--template", template), ("--whole-thread", whole_thread)):
        if is_given and form not in _PAGES:
            message = f"{option} needs a page to print: --form html or --form pdf"
            raise click.UsageError(message)
    loaded = load_one(job, installed())
    with locating_errors(job, {"plan": "--plan"}):
        sheet = bench_sheet(
            without_cuts(loaded) if no_cut else loaded, plan=plan_numbers(plans), system=system
        )
    if form == "text" and output is None:
        show(_text(sheet))
    else:
        content = _content(sheet, form, paper, template=template, whole_thread=whole_thread)
        put_out(content, output=output, job=job, title="sheet")
    if template and not any(template_drawings(sheet, paper)):
        say("No tooth is removed or marked, so there is no template.", err=True)
    if whole_thread and not any(thread_curves(sheet)):
        say("Nothing can be turned, so there is no page of turns.", err=True)
    return worst_exit_code(sheet.outcomes)


def _content(
    sheet: BenchSheet, form: str, paper: Paper, *, template: bool, whole_thread: bool
) -> str | bytes:
    """Write the sheet in a form, whole."""
    if form == "text":
        return shown_text(_text(sheet)) + "\n"
    if form == "json":
        return escaped_json(to_json(sheet)) + "\n"
    if form == "markdown":
        return sheet_markdown(sheet)
    return _PAGES[form](sheet, template=template, whole_thread=whole_thread, paper=paper)


_PAGES: dict[str, Callable[..., str | bytes]] = {"html": sheet_html, "pdf": sheet_pdf}


def _text(sheet: BenchSheet) -> RenderableType:
    from barwright.report.text.sheet import sheet_text  # noqa: PLC0415 - rich is slow to load

    return sheet_text(sheet)
