"""``barwright check``: many job files, a line each, for scripts and build servers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from barwright.analysis.across.check import JobCheck, check_packs
from barwright.analysis.across.check_many import check_jobs
from barwright.analysis.across.job_files import job_files
from barwright.cli.checking.many import (
    FORMS,
    form_option,
    output_option,
    paths_argument,
    print_results,
    with_progress,
)
from barwright.cli.jobs import installed, registry_options, units_option
from barwright.registry.lock import check_lock, read_lock
from barwright.registry.registry import Registry
from barwright.report.forms.notices import notices
from barwright.report.unit_system import in_units
from barwright.units import System

__all__ = ["command"]


@click.command("check")
@paths_argument("PATH...")
@form_option
@output_option
@click.option(
    "--locked",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Refuse packs that differ from this lock.",
)
@click.option(
    "--require",
    "required",
    type=click.Choice(["strength", "no-cuts"]),
    multiple=True,
    help="Refuse a job if the strength of a bar is not known, or if it goes only with a cut; "
    "may be repeated.",
)
@click.option(
    "--max-stress", metavar="FIGURE", help="Refuse a bar above this shear stress, like '750 MPa'."
)
@click.option("--quiet", is_flag=True, help="In text, list only files that are not good.")
@click.option(
    "--processes",
    type=click.IntRange(min=1),
    metavar="NUMBER",
    help="The most processes to share the work; on Linux all processors if left out.",
)
@units_option
@registry_options
def command(
    paths: tuple[Path, ...],
    *,
    form: str,
    output: Path | None,
    locked: Path | None,
    required: tuple[str, ...],
    max_stress: str | None,
    quiet: bool,
    processes: int | None,
    system: System,
) -> int:
    """Check job files and folders of them: a count, then one line for each file.

    Sources that are invented, estimated, recalled or missing are listed below the count.  A
    bad file or an unreadable folder is reported, and the rest is still checked.  The exit code
    is the worst of all.
    """
    registry = installed()
    files = job_files(paths)
    inputs = [*files, *([locked] if locked else [])]
    refused = None if locked is None else _refused(registry, locked, form=form)
    checked = check_jobs(
        files,
        registry,
        require_strength="strength" in required,
        require_no_cuts="no-cuts" in required,
        max_stress=max_stress,
        processes=processes,
    )
    results = (
        [refused]  # what other packs say of the jobs would only mislead
        if refused
        else (
            in_units(one, system) for one in with_progress(checked, "checking", number=len(files))
        )
    )
    return print_results(
        results,
        form=form,
        output=output,
        inputs=inputs,
        rows=_rows_if_not_good if quiet else _rows,
        count=_nothing if quiet else _count,
    )


def _refused(registry: Registry, locked: Path, *, form: str) -> JobCheck | None:
    """Return why other packs than the locked ones are refused; to people, an error says it."""
    if form in FORMS:
        return check_packs(locked, registry)
    check_lock(registry, read_lock(locked), file=str(locked))
    return None


def _nothing(results: Sequence[JobCheck]) -> Sequence[str]:  # noqa: ARG001 - in place of a count
    return ()


def _rows_if_not_good(checked: JobCheck) -> Iterator[tuple[str, str]]:
    return iter(()) if checked.exit_code == 0 else _rows(checked)


def _rows(checked: JobCheck) -> Iterator[tuple[str, str]]:
    """Say in a line what became of a file, and in one more each problem or reason."""
    yield checked.mark, checked.file
    yield from (("", notice.line_of_text) for notice in notices(checked))
    yield from (("", f"note: {remark}") for remark in checked.remarks)


def _count(results: Sequence[JobCheck]) -> Sequence[str]:
    """Count the answers, and say what they rest on, if that is doubtful."""
    from barwright.report.text.grounds.trail import rests_on_text  # noqa: PLC0415 - for people alone

    marks = Counter(checked.mark for checked in results)
    parts = ", ".join(f"{marks[mark]} {mark}" for mark in ("good", "no", "bad", "fault"))
    unmeasured = rests_on_text(found for checked in results for found in checked.rests_on)
    return (f"{len(results)} job file(s): {parts}", *filter(None, [unmeasured]))
