"""``barwright lint``: whether a pack is good, and what is to be done about it."""

from __future__ import annotations

import contextlib
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from barwright.cli.checking.many import (
    form_option,
    output_option,
    paths_argument,
    print_results,
    with_progress,
)
from barwright.cli.packs import ProgressBar
from barwright.lint.finding import PackLint
from barwright.lint.folders import pack_folders
from barwright.lint.linting import lint_pack
from barwright.report.forms.notices import notices

__all__ = ["command"]


@click.command("lint")
@paths_argument("FOLDER...")
@click.option(
    "--over",
    multiple=True,
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="FOLDER",
    help="A pack below the overlay, instead of the installed ones; may be repeated.",
)
@form_option
@output_option
def command(
    paths: tuple[Path, ...], *, over: tuple[Path, ...], form: str, output: Path | None
) -> int:
    """Check packs and overlays: a count, then all findings of each.

    Give a folder to check the pack in it or all packs below it, or a file to check the pack
    that contains it.  An overlay (overlay = true in its pack.toml) is checked on top of the
    installed packs.

    Exit codes: 0 no findings, or only notes; 1 other findings, warnings included; 2 no pack
    that can be read; 3 a fault of the program.
    """
    folders = pack_folders(paths)
    results = (
        _linted(folder, over, is_alone=len(folders) == 1)
        for folder in with_progress(folders, "linting", number=len(folders))
    )
    inputs = [*paths, *over]
    return print_results(results, form=form, output=output, inputs=inputs, rows=_rows, count=_count)


def _linted(folder: Path, over: Sequence[Path], *, is_alone: bool) -> PackLint:
    """Lint a pack, and show how far that is unless the number of packs shows it."""
    with contextlib.ExitStack() as stack:
        bar = ProgressBar(stack, label="linting vehicles") if is_alone else None
        return lint_pack(folder, over=over or None, progress=bar)


def _rows(linted: PackLint) -> Iterator[tuple[str, str]]:
    """Say in a line what became of a pack, and in one more what is found once in a record."""
    yield linted.mark, str(linted.folder)
    alike: dict[object, list[str]] = {}
    for finding, notice in zip(linted.findings, notices(linted), strict=True):
        record, inside, field = finding.key.partition(".")
        same = (finding.file, record, finding.rule, finding.message, finding.remedy)
        told = alike.setdefault(same if inside else finding, [])
        told.append(field if told else notice.line_of_text)
    for line, *others in alike.values():
        yield "", f"{line}; the same for {', '.join(others)}" if others else line


def _count(results: Sequence[PackLint]) -> Sequence[str]:
    marks = Counter(linted.mark for linted in results)
    parts = ", ".join(f"{marks[mark]} {mark}" for mark in ("good", "flaws", "bad", "fault"))
    found = Counter(finding.severity.value for linted in results for finding in linted.findings)
    waived = sum(len(linted.waived) for linted in results)
    notes = [f"{found['note']} note(s)"] if found["note"] else []
    counted = [f"{found['error']} error(s)", f"{found['warning']} warning(s)", *notes]
    return [f"{len(results)} pack(s): {parts}; {', '.join(counted)}, {waived} waived"]
