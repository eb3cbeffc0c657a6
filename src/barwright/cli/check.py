"""``barwright check``: many job files, a line each, for scripts and build servers."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from importlib import metadata
from pathlib import Path

import click

from barwright.analysis.check import Checked, check_job, job_files
from barwright.cli.asking import installed
from barwright.cli.output import write_whole
from barwright.report.annotations import to_annotations
from barwright.report.json import plain
from barwright.report.junit import to_junit
from barwright.report.sarif import to_sarif

__all__ = ["command"]

# Fewer than this are done before a progress bar could be read.
_MANY = 8


def _json_lines(results: Sequence[Checked]) -> str:
    return "\n".join(json.dumps(plain(r), ensure_ascii=False) for r in results)


def _sarif(results: Sequence[Checked]) -> str:
    return to_sarif(results, version=metadata.version("barwright"))


_FORMS: dict[str, Callable[[Sequence[Checked]], str]] = {
    "json-lines": _json_lines,
    "junit": to_junit,
    "github": to_annotations,
    "sarif": _sarif,
}


@click.command("check")
@click.argument(
    "paths", metavar="PATH...", nargs=-1, required=True, type=click.Path(path_type=Path)
)
@click.option(
    "--form",
    type=click.Choice(["text", *_FORMS]),
    default="text",
    show_default=True,
    help="Form of the output.",
)
@click.option("--output", type=click.Path(path_type=Path), help="Write it to a file instead.")
def command(paths: tuple[Path, ...], *, form: str, output: Path | None) -> int:
    """Check job files, and all job files in folders: a line each, then a count.

    Goes on after a bad one; the exit code is the worst of all.
    """
    registry = installed()
    files = job_files(paths)
    results = []
    for checked in (check_job(path, registry) for path in _with_progress(files)):
        results.append(checked)
        if form == "text" and output is None:
            click.echo(_line(checked))
    text = _FORMS.get(form, _text)(results)
    if output is not None:
        write_whole(output, text + "\n" if text else "")
    elif form == "text":
        click.echo(_count(results))
    elif text:
        click.echo(text)
    return max(checked.exit_code for checked in results)


def _with_progress(files: Sequence[Path]) -> Iterator[Path]:
    """Show a bar on a terminal while many files are checked; nothing elsewhere."""
    if len(files) < _MANY or not sys.stderr.isatty():
        yield from files
        return
    with click.progressbar(files, label="checking", file=sys.stderr) as bar:
        yield from bar


def _line(checked: Checked) -> str:
    """Say in a line what became of a file, and in one more each problem or reason."""
    lines = [f"{checked.mark:<5} {checked.file}"]
    lines += [f"      {p.place}: {p.code} {p.text}" for p in checked.problems]
    lines += [f"      {reason}" for reason in checked.reasons]
    return "\n".join(lines)


def _text(results: Sequence[Checked]) -> str:
    return "\n".join([*map(_line, results), _count(results)])


def _count(results: Sequence[Checked]) -> str:
    marks = Counter(checked.mark for checked in results)
    parts = ", ".join(f"{marks[mark]} {mark}" for mark in ("good", "no", "bad", "fault"))
    return f"{len(results)} job file(s): {parts}"
