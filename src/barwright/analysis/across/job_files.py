"""Which job files there are in what somebody names, and the jobs in each."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from barwright.errors import FileError
from barwright.registry.files.find_files import files_below, is_folder
from barwright.registry.jobs.job import Job
from barwright.registry.jobs.load import load_jobs
from barwright.registry.registry import Registry

__all__ = ["job_files", "jobs_in"]


def job_files(paths: Sequence[Path]) -> list[Path]:
    """List job files: the named ones, and all TOML files in the named folders.

    Parameters
    ----------
    paths : sequence of Path
        Files and folders.

    Returns
    -------
    list of Path
        Each once, those of a folder in the order of their names.  A folder without any,
        and one that cannot be searched, stands for itself, so that its check says so.
    """
    found: dict[Path, None] = {}
    for path in paths:
        found |= dict.fromkeys(_inside(path) or [path])
    return list(found)


def _inside(path: Path) -> list[Path]:
    """List the job files in a folder, and the folders in it that cannot be searched."""
    if not is_folder(path):
        return []
    files, unreadable = files_below(path, lambda name: name.endswith(".toml"))
    return sorted([*files, *unreadable])


def jobs_in(path: Path, registry: Registry) -> tuple[Job, ...]:
    """Read a job file that :func:`job_files` lists.

    Parameters
    ----------
    path : Path
        The file, or a folder that stands among them.
    registry : Registry
        Where vehicles and parts are looked up.

    Returns
    -------
    tuple of Job

    Raises
    ------
    FileError
        F101 for a folder that cannot be searched, F105 for one without job files.
    BarwrightError
        As :func:`barwright.load_jobs`.
    """
    if is_folder(path):
        raise _no_jobs(path)
    return load_jobs(path, registry)


def _no_jobs(folder: Path) -> FileError:
    """Return why a folder stands among the job files: it cannot be searched, or holds none."""
    try:
        os.scandir(folder).close()
    except OSError as error:
        return FileError(
            "F101",
            value=error.strerror,
            expected="a folder that can be read",
            remedy="check its permissions; its job files are skipped",
            file=str(folder),
        )
    return FileError(
        "F105",
        value=str(folder),
        expected="a folder with job files in it",
        remedy="name a folder that contains files ending in .toml",
        file=str(folder),
    )
