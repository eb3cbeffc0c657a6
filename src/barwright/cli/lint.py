"""``barwright lint``: whether a pack is good, and what is to be done about it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import click

from barwright.cli.many import form_option, output_option, paths_argument, tell, with_progress
from barwright.lint.finding import Linted
from barwright.lint.folders import pack_folders
from barwright.lint.linting import lint_pack
from barwright.report.notices import notices

__all__ = ["command"]


@click.command("lint")
@paths_argument("FOLDER...")
@form_option
@output_option
def command(paths: tuple[Path, ...], *, form: str, output: Path | None) -> int:
    """Lint packs: all findings of each, then a count.

    A folder may hold several packs below it; a file stands for the pack that it lies in.
    Exit codes: 0 nothing found; 1 findings, warnings among them; 2 no pack that can be
    read; 3 a fault of the program.
    """
    folders = with_progress(pack_folders(paths), "linting")
    return tell(map(lint_pack, folders), form=form, output=output, line=_line, count=_count)


def _line(linted: Linted) -> str:
    """Say in a line what became of a pack, and in one more each finding."""
    lines = [f"{linted.mark:<5} {linted.folder}"]
    lines += [f"      {notice.line_of_text}" for notice in notices(linted)]
    return "\n".join(lines)


def _count(results: Sequence[Linted]) -> str:
    marks = Counter(linted.mark for linted in results)
    parts = ", ".join(f"{marks[mark]} {mark}" for mark in ("good", "flaws", "bad", "fault"))
    found = Counter(finding.severity.value for linted in results for finding in linted.findings)
    waived = sum(len(linted.waived) for linted in results)
    told = f"{found['error']} error(s), {found['warning']} warning(s), {waived} waived"
    return f"{len(results)} pack(s): {parts}; {told}"
