"""Answers to the corners of jobs or vehicles, read as they are answered."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import Any

from barwright.errors import UnknownNameError
from barwright.registry.files.user_cache import Progress
from barwright.registry.importing.arrow import arrow
from barwright.registry.registry import Registry
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.corners.answered_corners import answered_corners
from barwright.tables.corners.corners import (
    JOB_LABELS,
    VEHICLE_LABELS,
    TableCorner,
    job_corners,
    vehicle_corners,
)

__all__ = ["job_reader", "vehicle_reader"]

# Corners that are listed before they are answered together.
_AT_A_TIME = 1024


def job_reader(
    files: Sequence[Path], registry: Registry, asked: AskedOfRows, *, progress: Progress | None
) -> Any:  # noqa: ANN401 - of Arrow
    """Answer a question for all corners of job files, as :func:`barwright.batch_jobs`.

    Parameters
    ----------
    files : sequence of Path
        The files.
    registry : Registry
        Where their vehicles and parts are looked up.
    asked : AskedOfRows
        The question.
    progress : callable, optional
        Called with two counts after each file.

    Returns
    -------
    pyarrow.RecordBatchReader
    """
    return _reader(job_corners(_counted(files, progress), registry, asked), asked, JOB_LABELS)


def vehicle_reader(
    registry: Registry, words: str, asked: AskedOfRows, *, progress: Progress | None
) -> Any:  # noqa: ANN401 - of Arrow
    """Answer a question for all corners of vehicles, as :func:`barwright.batch_vehicles`.

    Parameters
    ----------
    registry : Registry
        Where the vehicles are.
    words : str
        Which of them.
    asked : AskedOfRows
        The question.
    progress : callable, optional
        Called with two counts after each vehicle.

    Returns
    -------
    pyarrow.RecordBatchReader

    Raises
    ------
    UnknownNameError
        L101 if the words describe no vehicle.
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
    return _reader(vehicle_corners(_counted(vehicles, progress)), asked, VEHICLE_LABELS)


def _counted(items: Sequence[Any], progress: Progress | None) -> Iterator[Any]:
    for number, item in enumerate(items, 1):
        yield item
        if progress is not None:
            progress(number, len(items))


def _reader(corners: Iterable[TableCorner], asked: AskedOfRows, labels: Sequence[str]) -> Any:  # noqa: ANN401
    pa = arrow().core
    waiting = iter(corners)
    answered = partial(answered_corners, asked=asked, labels=labels)

    def batches() -> Iterator[Any]:
        while some := list(itertools.islice(waiting, _AT_A_TIME)):
            yield from answered(some).to_batches()

    return pa.RecordBatchReader.from_batches(answered([]).schema, batches())
