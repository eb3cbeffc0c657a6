"""A question put to the corners of many jobs, or of many vehicles, as they are listed."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from os import PathLike
from pathlib import Path
from typing import Any

from barwright.columns.asked.catalogue import QUESTIONS, QuestionName
from barwright.errors import UnknownNameError
from barwright.parts.arguments import checks_arguments
from barwright.registry.files.user_cache import Progress
from barwright.registry.importing.arrow import arrow
from barwright.registry.registry import Registry
from barwright.tables.answered_corners import answered_corners
from barwright.tables.corners import (
    JOB_LABELS,
    VEHICLE_LABELS,
    TableCorner,
    job_corners,
    vehicle_corners,
)
from barwright.units import System

__all__ = ["batch_jobs", "batch_vehicles"]

# Corners that are listed before they are answered together.
_AT_A_TIME = 1024


@checks_arguments
def batch_jobs(
    paths: Sequence[str | PathLike[str]],
    registry: Registry,
    *,
    asked: QuestionName = "rates",
    system: System = "metric",
    progress: Progress | None = None,
) -> Any:  # noqa: ANN401 - of Arrow
    """Answer one question for all corners of job files, as they are to be.

    Parameters
    ----------
    paths : sequence of path
        The files.
    registry : Registry
        Where their vehicles and parts are looked up.
    asked : str
        What is asked of each, as for :func:`barwright.batch`; rates and ride at the height that
        the job wants.
    system : {"metric", "inch"}
        Units of the answers.
    progress : callable, optional
        Called with two counts after each file: of those read, and of all.

    Returns
    -------
    pyarrow.RecordBatchReader
        A row for each corner, answered as it is read: ``file``, ``variant``, ``vehicle``,
        ``corner``, then the columns of :func:`barwright.batch_table`.  A file that cannot be used
        is a row with its error.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``frames`` is not installed.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> answer = batch_jobs(["no-such-job.toml"], Registry.discover()).read_all()
    >>> answer["error_code"].to_pylist()
    ['F101']
    """
    files = _counted([Path(path) for path in paths], progress)
    corners = job_corners(files, registry, at_height=QUESTIONS[asked].takes_height)
    return _reader(corners, asked, JOB_LABELS, system)


@checks_arguments
def batch_vehicles(
    registry: Registry,
    words: str = "",
    *,
    asked: QuestionName = "rates",
    system: System = "metric",
    progress: Progress | None = None,
) -> Any:  # noqa: ANN401 - of Arrow
    """Answer one question for all corners of vehicles, with their standard parts and load.

    Parameters
    ----------
    registry : Registry
        Where the vehicles are.
    words : str
        Which of them, as for :meth:`Registry.vehicles`; all if left out.
    asked : str
        What is asked of each, as for :func:`barwright.batch`.
    system : {"metric", "inch"}
        Units of the answers.
    progress : callable, optional
        Called with two counts after each vehicle: of those read, and of all.

    Returns
    -------
    pyarrow.RecordBatchReader
        A row for each corner of each axle, answered as it is read: ``vehicle``, ``title``,
        ``corner``, then the columns of :func:`barwright.batch_table`.

    Raises
    ------
    UnknownNameError
        L101 if the words describe no vehicle.
    MissingExtraError
        X101 if the extra ``frames`` is not installed.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> answer = batch_vehicles(Registry.discover(), "fells short").read_all()
    >>> [f"{rate:.1f}" for rate in answer["ride.wheel_rate"].to_pylist()]
    ['21.1', '21.1']
    """
    vehicles = registry.vehicles(words)
    if not vehicles:
        raise UnknownNameError(
            "L101",
            value=words,
            expected="words that describe a vehicle",
            remedy="`barwright vehicles` lists all",
            key="words",
        )
    return _reader(vehicle_corners(_counted(vehicles, progress)), asked, VEHICLE_LABELS, system)


def _counted(items: Sequence[Any], progress: Progress | None) -> Iterator[Any]:
    for number, item in enumerate(items, 1):
        yield item
        if progress is not None:
            progress(number, len(items))


def _reader(
    corners: Iterable[TableCorner], asked: QuestionName, labels: Sequence[str], system: System
) -> Any:  # noqa: ANN401 - of Arrow
    pa = arrow().core
    waiting = iter(corners)
    answered = partial(answered_corners, asked=asked, labels=labels, system=system)

    def batches() -> Iterator[Any]:
        while some := list(itertools.islice(waiting, _AT_A_TIME)):
            yield from answered(some).to_batches()

    return pa.RecordBatchReader.from_batches(answered([]).schema, batches())
