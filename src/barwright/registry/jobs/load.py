"""From a job file to its jobs, with every problem of the file at once."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from os import PathLike
from pathlib import Path
from typing import Any

from barwright.errors import BarwrightError, DocumentError, JobError, SchemaError
from barwright.parts.arguments import checks_arguments
from barwright.registry.files.document import read_toml
from barwright.registry.files.key_lines import located
from barwright.registry.jobs.job import Job
from barwright.registry.jobs.reader import JobReader
from barwright.registry.jobs.variants import variants
from barwright.registry.packs.refusals import problems_of
from barwright.registry.registry import Registry

__all__ = ["load_job", "load_jobs"]


@checks_arguments
def load_job(path: str | PathLike[str], registry: Registry) -> Job:
    r"""Read a job file that names one vehicle and one of each part.

    Parameters
    ----------
    path : path
        A TOML file; ``docs/job-file.md`` lists its keys.
    registry : Registry
        Where its vehicle and parts are looked up.

    Returns
    -------
    Job

    Raises
    ------
    FileError
        If it cannot be read or is not TOML.
    DocumentError
        D101, with every problem in it, or with J102 if it names several.

    Examples
    --------
    >>> import tempfile
    >>> from barwright.registry.registry import Registry
    >>> text = 'vehicle = "fells short 2014"\ncorners = ["front left"]\nwanted.height = "380 mm"'
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "job.toml"
    ...     _ = file.write_text(text, encoding="utf-8")
    ...     load_job(file, Registry.discover()).corners[0].setup.chassis.id
    'fells:chassis/short'
    """
    jobs = load_jobs(path, registry)
    if len(jobs) > 1:
        several = JobError(
            "J102",
            value=f"{len(jobs)} variants",
            expected="one vehicle and one of each part",
            remedy="name one of each, or write a separate job for each",
            file=str(path),
        )
        raise DocumentError("D101", problems=(several,), file=str(path))
    return jobs[0]


@checks_arguments
def load_jobs(path: str | PathLike[str], registry: Registry) -> tuple[Job, ...]:
    r"""Read a job file that may name several vehicles, or several of a part.

    Parameters
    ----------
    path : path
        A TOML file; ``docs/job-file.md`` lists its keys.
    registry : Registry
        Where its vehicles and parts are looked up.

    Returns
    -------
    tuple of Job
        One for each combination, in the order of the file.

    Raises
    ------
    FileError
        If it cannot be read or is not TOML.
    DocumentError
        D101, with every problem in it.

    Examples
    --------
    >>> import tempfile
    >>> from barwright.registry.registry import Registry
    >>> text = 'vehicle = ["fells:chassis/short", "fells:chassis/long"]\n'
    >>> text += 'corners = ["front left"]\nwanted.keep_standard = true'
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "job.toml"
    ...     _ = file.write_text(text, encoding="utf-8")
    ...     [job.variant for job in load_jobs(file, Registry.discover())]
    ['vehicle fells:chassis/short', 'vehicle fells:chassis/long']
    """
    table = read_toml(Path(path))
    jobs: list[Job] = []
    problems: list[BarwrightError] = []
    for variant, single in variants(table, str(path)):
        try:
            jobs.append(JobReader(str(path), registry, single).job(variant))
        except (BarwrightError, ExceptionGroup) as error:
            problems += problems_of(error)
    problems += () if problems else _twice(jobs)
    if problems:
        found = located([problem.within(file=str(path)) for problem in problems])
        # Sides and variants read the same tables: what they share is said once.
        once = {str(p): p for p in sorted(found, key=lambda p: p.line or math.inf)}
        raise DocumentError("D101", problems=tuple(once.values()), file=str(path))
    return tuple(jobs)


def _twice(jobs: Sequence[Job]) -> Iterator[BarwrightError]:
    """Refuse variants that name one vehicle with the same parts in two ways."""
    seen: dict[tuple[Any, ...], str] = {}
    for job in jobs:
        setups = [corner.setup for corner in job.corners]
        key = tuple((one.chassis.id, *(part.id for part in one.parts.values())) for one in setups)
        if key in seen:
            yield SchemaError(
                "S207",
                value=job.variant,
                expected=f"another vehicle, or other parts, than {seen[key]}",
                remedy="name each vehicle and each part once",
                key=job.variant.partition(" ")[0],
            )
        seen[key] = job.variant
