"""From a job file, its text or its tables to the jobs, with every problem at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from os import PathLike
from pathlib import Path
from typing import Any

from barwright.errors import BarwrightError, DocumentError, JobError, SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.registry.files.document import parse_toml, read_toml, refuse_too_large
from barwright.registry.files.key_lines import located, text_of_file
from barwright.registry.files.plain_table import plain_table
from barwright.registry.jobs.job import Job
from barwright.registry.jobs.reader import JobReader
from barwright.registry.jobs.variants import variants
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.registry import Registry

__all__ = ["job_of", "jobs_of", "load_job", "load_jobs"]


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
    return _only(load_jobs(path, registry), file=str(path))


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
    return _jobs(read_toml(Path(path)), registry, file=str(path), text_of=text_of_file)


@checks_arguments
def job_of(told: str | Mapping[str, Any], registry: Registry, *, name: str = "job") -> Job:
    """Make a job of text or of tables, as :func:`load_job` does of a file.

    Parameters
    ----------
    told : str or mapping
        The text of a job file, or its tables: what a request or a database holds.
    registry : Registry
        Where its vehicle and parts are looked up.
    name : str
        What to call it in messages.

    Returns
    -------
    Job

    Raises
    ------
    FileError
        If the text is not TOML, or too large or too deep to be a job.
    SchemaError
        S203 if a table contains what TOML cannot.
    DocumentError
        D101, with every problem in it, or with J102 if it names several.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> request = {"vehicle": "fells:chassis/short", "corners": ["front left"],
    ...            "wanted": {"keep_standard": True}}
    >>> job_of(request, Registry.discover()).corners[0].setup.corner
    'front left'
    """
    return _only(jobs_of(told, registry, name=name), file=name)


@checks_arguments
def jobs_of(
    told: str | Mapping[str, Any], registry: Registry, *, name: str = "job"
) -> tuple[Job, ...]:
    r"""Make jobs of text or of tables that may name several vehicles, or several of a part.

    Parameters
    ----------
    told : str or mapping
        The text of a job file, or its tables.
    registry : Registry
        Where vehicles and parts are looked up.
    name : str
        What to call it in messages.

    Returns
    -------
    tuple of Job
        One for each combination, in their order.

    Raises
    ------
    FileError
        If the text is not TOML, or too large or too deep to be a job.
    SchemaError
        S203 if a table contains what TOML cannot.
    DocumentError
        D101, with every problem in it.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> text = 'vehicle = "fells:chassis/short"\ncorners = ["front left"]'
    >>> len(jobs_of(f"{text}\nwanted.keep_standard = true", Registry.discover()))
    1
    """
    if isinstance(told, str):
        table = parse_toml(_bytes_of(told, name), shown_as=name)
        return _jobs(table, registry, file=name, text_of=lambda _: told)
    table = plain_table(told, shown_as=name)
    return _jobs(table, registry, file=name, text_of=lambda _: "")


def _bytes_of(text: str, name: str) -> bytes:
    """Return a text as a file has it, no longer than a file may be."""
    data = text.encode("utf-8", "surrogatepass")  # what is no text is refused when it is read
    refuse_too_large(len(data), shown_as=name)
    return data


def _only(jobs: tuple[Job, ...], *, file: str) -> Job:
    """Return the only job, and refuse several."""
    if len(jobs) > 1:
        several = JobError(
            "J102",
            value=f"{len(jobs)} variants",
            expected="one vehicle and one of each part",
            remedy="name one of each, or write a separate job for each",
            file=file,
        )
        raise DocumentError("D101", problems=(several,), file=file)
    return jobs[0]


def _jobs(
    table: Mapping[str, Any], registry: Registry, *, file: str, text_of: Callable[[str], str]
) -> tuple[Job, ...]:
    """Make the jobs of a table; `text_of` gives the text in which problems have their lines."""
    jobs: list[Job] = []
    problems: list[BarwrightError] = []
    for variant, single in variants(table, file, text_of):
        try:
            jobs.append(JobReader(file, registry, single).job(variant))
        except (BarwrightError, ExceptionGroup) as error:
            problems += problems_of(error)
    problems += () if problems else _twice(jobs)
    if problems:
        found = located([problem.within(file=file) for problem in problems], text_of)
        # Sides and variants read the same tables: what they share is said once.
        once = {str(p): p for p in sorted(found, key=lambda p: p.line or math.inf)}
        raise DocumentError("D101", problems=tuple(once.values()), file=file)
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
