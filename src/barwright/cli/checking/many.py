"""What commands share that look at many files: one form for people, the others for programs."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from importlib import metadata
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

import click

from barwright.analysis.across.check import JobCheck
from barwright.cli.output import say, show, shown_text
from barwright.lint.finding import PackLint
from barwright.registry.files.whole_file import refuse_input, write_whole
from barwright.report.forms.annotations import to_annotations
from barwright.report.forms.json import plain
from barwright.report.forms.junit import to_junit
from barwright.report.forms.sarif import to_sarif
from barwright.report.safe_text import escaped_json

__all__ = [
    "FORMS",
    "form_option",
    "output_option",
    "paths_argument",
    "print_results",
    "with_progress",
]

T = TypeVar("T")
R = TypeVar("R", JobCheck, PackLint)
Command: TypeAlias = Callable[..., int]

# Fewer than this are done before a progress bar could be read.
_MANY = 8

# A finding in a pipe is a line, for programs that go to its place.
_A_LINE_EACH = 1_000_000


def _json_lines(results: Sequence[Any]) -> str:
    return "\n".join(escaped_json(json.dumps(plain(r), ensure_ascii=False)) for r in results)


def _sarif(results: Sequence[Any]) -> str:
    return to_sarif(results, version=metadata.version("barwright"))


FORMS: Mapping[str, Callable[[Sequence[Any]], str]] = {
    "json-lines": _json_lines,
    "junit": to_junit,
    "github": to_annotations,
    "sarif": _sarif,
}
"""Forms for programs, by the name that an option gives them."""

form_option = click.option(
    "--form",
    type=click.Choice(["text", *FORMS]),
    default="text",
    show_default=True,
    help="Form of the output.",
)
output_option = click.option(
    "--output", type=click.Path(path_type=Path), help="Write to this file instead of the screen."
)


def paths_argument(metavar: str) -> Callable[[Command], Command]:
    """Take any number of files and folders, but at least one."""
    return click.argument(
        "paths", metavar=metavar, nargs=-1, required=True, type=click.Path(path_type=Path)
    )


def print_results(
    results: Iterable[R],
    *,
    form: str,
    output: Path | None,
    inputs: Sequence[Path],
    rows: Callable[[R], Iterable[tuple[str, str]]],
    count: Callable[[Sequence[R]], Sequence[str]],
) -> int:
    """Print results, those for people below their count, and return the worst exit code.

    ``inputs`` are the files that the results are of, which ``output`` may not be.
    """
    if output is not None:
        # Not only when all is done, which may take minutes.
        refuse_input(output, inputs)
    found = list(results)
    if form in FORMS:
        text = FORMS[form](found)
    else:
        from barwright.report.text.layout.tables import pairs, stacked  # noqa: PLC0415 - for people alone

        lines, listed = count(found), [row for result in found for row in rows(result)]
        shown = stacked(*lines, pairs(*listed)) if lines or listed else None
        if output is None:
            if shown is not None:
                show(shown, pipe_width=_A_LINE_EACH)
            return max(result.exit_code for result in found)
        text = shown_text(shown, pipe_width=_A_LINE_EACH) if shown is not None else ""
    if output is not None:
        write_whole(output, text + "\n" if text else "", inputs=inputs)
    elif text:
        say(text)
    return max(result.exit_code for result in found)


def with_progress(items: Iterable[T], label: str, *, number: int) -> Iterator[T]:
    """Show a bar on a terminal while so many are looked at; nothing elsewhere."""
    if number < _MANY or not sys.stderr.isatty():
        yield from items
        return
    with click.progressbar(items, length=number, label=label, file=sys.stderr) as bar:
        yield from bar
