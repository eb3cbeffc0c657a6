"""``barwright batch``: one question for the rows of a table, for jobs, or for vehicles."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any, get_args

import attrs
import click

from barwright.analysis.across.job_files import job_files
from barwright.cli.jobs import (
    installed,
    json_option,
    load_one,
    locating_errors,
    registry_options,
    units_option,
)
from barwright.cli.output import say, say_json
from barwright.cli.packs import ProgressBar
from barwright.columns.asked.catalogue import QuestionName
from barwright.parted.batch_in_parts import BatchWork, write_work
from barwright.parts.setup import Setup
from barwright.registry.files.user_cache import Progress
from barwright.registry.jobs.history import load_history
from barwright.registry.registry import Registry
from barwright.report.safe_text import one_line
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.batch_file import answer_file, no_rows
from barwright.tables.corners.corner_reader import job_reader, vehicle_reader
from barwright.tables.corners.corners import height_of, refuse_other_wishes
from barwright.tables.files.summary import BatchSummary, summary_of
from barwright.tables.files.table_file import FORMS, check_output
from barwright.tables.files.write_answers import write_answers
from barwright.tables.table_question import TableQuestion
from barwright.units import Quantity, System

__all__ = ["command"]


@click.command("batch")
@click.argument(
    "paths", metavar="[TABLE | JOB.toml | FOLDER]...", nargs=-1, type=click.Path(path_type=Path)
)
@click.option(
    "--output",
    required=True,
    type=click.Path(path_type=Path),
    metavar="FILE",
    help=f"File for the rows and their answers: {', '.join(FORMS)}.",
)
@click.option(
    "--asked",
    type=click.Choice(get_args(QuestionName)),
    default="rates",
    show_default=True,
    help="What is asked of each row.",
)
@click.option("--job", metavar="JOB.toml", help="Job whose figures the rows of a table change.")
@click.option("--vehicle", metavar="WORDS", help="Vehicle whose figures the rows change.")
@click.option("--corner", metavar="CORNER", help="Which corner of it, such as 'front left'.")
@click.option(
    "--keep", multiple=True, metavar="COLUMN", help="Carry this column over; may be repeated."
)
@click.option(
    "--vehicles",
    metavar="WORDS",
    help="Ask about all vehicles that these words describe; '' for all.",
)
@click.option("--travel", help="Of the strength: wheel travel above and below ride height.")
@click.option(
    "--history",
    type=click.Path(),
    metavar="FILE",
    help="Of the strength: wheel travels from ride height, one on each line.",
)
@click.option(
    "--processes",
    type=click.IntRange(min=1),
    metavar="NUMBER",
    help="Share the rows of a Parquet table between so many processes, into a Parquet file; what"
    " was interrupted goes on where it was.",
)
@units_option
@json_option
@registry_options
def command(
    paths: tuple[Path, ...],
    *,
    output: Path,
    asked: QuestionName,
    job: str | None,
    vehicle: str | None,
    corner: str | None,
    keep: tuple[str, ...],
    vehicles: str | None,
    travel: str | None,
    history: str | None,
    processes: int | None,
    as_json: bool,
    system: System,
) -> int:
    """Ask one question of many corners, and write a table of the answers.

    The rows are those of a TABLE (Parquet, Arrow or CSV), each of which changes some figures of
    one corner, of --job or of --vehicle; the corners of all jobs that are named or in a FOLDER; or
    those of --vehicles.  A column of a table is a figure, its unit in brackets: "load.mass [kg]".

    Printed are the counts and the first errors.  A row with an error has its code and reason in the
    table, and all other rows are answered.  The exit code is the worst of all.
    """
    check_output(output, inputs=paths)
    points = None if history is None else load_history(history)
    to_ask = AskedOfRows(asked, system, {"travel": travel, "history": points})
    is_table = len(paths) == 1 and paths[0].suffix.lower() in FORMS
    _refuse_mixed(paths, is_table=is_table, of_table=[job, vehicle, corner, *keep], words=vehicles)
    if processes is not None:
        _refuse_shared([*paths, output], is_table=is_table)
    registry = installed()
    with contextlib.ExitStack() as stack:
        bar = ProgressBar(stack, label="answering")
        if is_table:
            setup, height, inputs = _asked_of(
                registry, to_ask, job=job, vehicle=vehicle, corner=corner
            )
            asking = {"setup": setup, "asked": to_ask, "keep": keep, "height": height}
            found = _of_table(
                paths[0], output, asking, inputs=inputs, processes=processes, progress=bar
            )
        elif vehicles is not None:
            answers = vehicle_reader(registry, vehicles, to_ask, progress=bar)
            found = write_answers(answers, output, asked=asked, inputs=[])
        else:
            files = job_files(paths)
            answers = job_reader(files, registry, to_ask, progress=bar)
            found = write_answers(answers, output, asked=asked, inputs=files)
    _tell(found, output, as_json=as_json)
    return found.exit_code


def _refuse_mixed(
    paths: Sequence[Path], *, is_table: bool, of_table: Sequence[str | None], words: str | None
) -> None:
    """Refuse options that do not go together."""
    if bool(paths) == (words is not None):
        message = "give a table, jobs or folders of jobs, or --vehicles"
        raise click.UsageError(message)
    if any(path.suffix.lower() in FORMS for path in paths) and not is_table:
        message = "give one table alone"
        raise click.UsageError(message)
    if not is_table and any(of_table):
        message = "--job, --vehicle, --corner and --keep go with a table"
        raise click.UsageError(message)


def _refuse_shared(files: Sequence[Path], *, is_table: bool) -> None:
    """Refuse what several processes cannot share."""
    if not is_table or any(path.suffix.lower() != ".parquet" for path in files):
        message = "--processes takes a table and an output whose names end in .parquet"
        raise click.UsageError(message)


def _asked_of(
    registry: Registry,
    to_ask: AskedOfRows,
    *,
    job: str | None,
    vehicle: str | None,
    corner: str | None,
) -> tuple[Setup, Quantity | None, list[Path]]:
    """Return the corner whose figures a table changes, the height that is wanted, and its file."""
    if (job is None) == (vehicle is None):
        message = "a table needs --job or --vehicle: whose figures its rows change"
        raise click.UsageError(message)
    if job is None:
        if corner is None:
            message = "--vehicle needs --corner, such as 'front left'"
            raise click.UsageError(message)
        return registry.setup(str(vehicle), corner=corner), None, []
    found = {one.setup.corner: one for one in load_one(job, registry).corners}
    if corner not in found and (corner is not None or len(found) > 1):
        message = f"--corner takes one corner of the job: {', '.join(found)}"
        raise click.UsageError(message)
    one = found[corner or next(iter(found))]
    with locating_errors(job):
        refuse_other_wishes(one, to_ask)
        return one.setup, height_of(one), [Path(job)]


def _of_table(
    source: Path,
    output: Path,
    asking: Mapping[str, Any],
    *,
    inputs: Sequence[Path],
    processes: int | None,
    progress: Progress,
) -> BatchSummary:
    """Answer the rows of a table: by this process piece by piece, or in parts by several."""
    if processes is None:
        question = partial(TableQuestion, **asking)
        return answer_file(source, output, question, inputs=inputs, progress=progress)
    work = BatchWork(source=source, **asking)
    work.check()
    if not work.pieces:
        raise no_rows(source)
    write_work(work, output, inputs=inputs, processes=processes, progress=progress)
    return summary_of(output, asked=work.asked.name)


def _tell(found: BatchSummary, output: Path, *, as_json: bool) -> None:
    """Print the counts first, then the first errors."""
    if as_json:
        document = {
            "rows": len(found),
            "verdict_counts": {
                verdict.value: count for verdict, count in found.verdict_counts.items()
            },
            "error_counts": dict(found.error_counts),
            "first_errors": [attrs.asdict(error) for error in found.first_errors],
            "output": str(output),
        }
        say_json(json.dumps(document, ensure_ascii=False))
        return
    say(one_line(found.headline))
    for error in found.first_errors:
        say(one_line(f"row {error.row}: {error.text}"))
    others = found.errors - len(found.first_errors)
    if others:
        say(f"{others} more row(s) with errors: see the column error")
    say(one_line(f"The answers are in {output}."))
