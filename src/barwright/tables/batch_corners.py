"""A question put to the corners of many jobs, or of many vehicles, as they are listed."""

from __future__ import annotations

from collections.abc import Sequence
from os import PathLike
from pathlib import Path
from typing import Any

from barwright.analysis.strength.strength_limits import StrengthLimits
from barwright.columns.asked.catalogue import QuestionName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import FigureLike
from barwright.registry.files.user_cache import Progress
from barwright.registry.registry import Registry
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.tables.corners.corner_reader import job_reader, vehicle_reader
from barwright.units import ArrayWithUnit, System

__all__ = ["batch_jobs", "batch_vehicles"]


@checks_arguments
def batch_jobs(
    paths: Sequence[str | PathLike[str]],
    registry: Registry,
    *,
    asked: QuestionName = "rates",
    system: System = "metric",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
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
        What is asked of each, as for :func:`barwright.batch`; at the height that the job wants, if
        it takes one.  A re-indexing is planned for each job as a whole.
    system : {"metric", "inch"}
        Units of the answers.
    limits, travel, history : optional
        Of the strength, for all rows alike, as :func:`barwright.batch` takes them.
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
    to_ask = AskedOfRows(asked, system, {"limits": limits, "travel": travel, "history": history})
    return job_reader([Path(path) for path in paths], registry, to_ask, progress=progress)


@checks_arguments
def batch_vehicles(
    registry: Registry,
    words: str = "",
    *,
    asked: QuestionName = "rates",
    system: System = "metric",
    limits: StrengthLimits | None = None,
    travel: FigureLike | None = None,
    history: Sequence[FigureLike] | ArrayWithUnit | None = None,
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
    limits, travel, history : optional
        Of the strength, for all rows alike, as :func:`barwright.batch` takes them.
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
    to_ask = AskedOfRows(asked, system, {"limits": limits, "travel": travel, "history": history})
    return vehicle_reader(registry, words, to_ask, progress=progress)
