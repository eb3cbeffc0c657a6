"""``barwright schema``: JSON Schemas of packs, overlays, jobs and answers, for other programs."""

from __future__ import annotations

from pathlib import Path

import click

from barwright.cli.output import say
from barwright.registry.authoring.job_schema import job_schema_text
from barwright.registry.authoring.schema import schema_text
from barwright.registry.files.whole_file import write_whole
from barwright.report.forms.answer_schema import answer_schema_text

__all__ = ["command"]


@click.command("schema")
@click.option("--overlay", is_flag=True, help="Print the schema of an overlay instead.")
@click.option("--job", is_flag=True, help="Print the schema of a job file instead.")
@click.option("--answers", is_flag=True, help="Print the schema of answers in JSON instead.")
@click.option(
    "--output", type=click.Path(path_type=Path), help="Write to this file instead of the screen."
)
def command(*, overlay: bool, job: bool, answers: bool, output: Path | None) -> int:
    """Print the JSON Schema of a pack's files, of a job, or of answers."""
    if overlay + job + answers > 1:
        raise click.UsageError("--overlay, --job and --answers: one schema at a time")
    text = _text(overlay=overlay, job=job, answers=answers)
    if output is None:
        say(text, nl=False)
    else:
        write_whole(output, text, inputs=[])
    return 0


def _text(*, overlay: bool, job: bool, answers: bool) -> str:
    if job:
        return job_schema_text()
    return answer_schema_text() if answers else schema_text(overlay=overlay)
