"""Corners that become the rows of a table: those of jobs, and of the vehicles of a registry."""

from __future__ import annotations

import itertools
import os
from collections.abc import Iterable, Iterator
from pathlib import Path

import attrs

from barwright.analysis.across.job_files import jobs_in
from barwright.analysis.answer import Answer
from barwright.analysis.corner.corner import Corner
from barwright.analysis.rates.ride_height import wanted_height, with_height
from barwright.analysis.reindex.axle import reindex_job
from barwright.errors import BarwrightError, JobError
from barwright.parts.bar import Side
from barwright.parts.chassis import Chassis
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import JobCorner
from barwright.registry.registry import Registry
from barwright.tables.asked_of_rows import AskedOfRows
from barwright.units import Quantity

__all__ = [
    "JOB_LABELS",
    "VEHICLE_LABELS",
    "TableCorner",
    "height_of",
    "job_corners",
    "refuse_other_wishes",
    "vehicle_corners",
]

JOB_LABELS = ("file", "variant", "vehicle", "corner")
"""Columns that tell a corner of a job."""

VEHICLE_LABELS = ("vehicle", "title", "corner")
"""Columns that tell a corner of a vehicle."""


@attrs.frozen(eq=False)
class TableCorner:
    """A corner that gives a row.

    Parameters
    ----------
    labels : tuple of str
        What tells it from the others.
    asked : Setup, Answer or BarwrightError
        The corner, what is answered of it already, or why there is none.
    height : Quantity, optional
        Height that is wanted of it, hub to arch.
    """

    labels: tuple[str, ...]
    asked: Setup | Answer | BarwrightError
    height: Quantity | None = None


def job_corners(
    paths: Iterable[Path], registry: Registry, asked: AskedOfRows
) -> Iterator[TableCorner]:
    """List the corners of job files, as they are to be.

    Parameters
    ----------
    paths : iterable of Path
        The files.
    registry : Registry
        Where their vehicles and parts are looked up.
    asked : AskedOfRows
        The question, which says whether they are asked about at the height that the job wants;
        plans are made for the whole job.

    Yields
    ------
    TableCorner
        Of a file that cannot be used, one with the reason.
    """
    for path in paths:
        try:
            found = list(_corners_of(path, registry, asked))
        except BarwrightError as error:
            found = [TableCorner((_name(path), "", "", ""), error)]
        yield from found


def _corners_of(path: Path, registry: Registry, asked: AskedOfRows) -> Iterator[TableCorner]:
    for job in jobs_in(path, registry):
        plans = reindex_job(job) if asked.is_planned else ()
        for corner, plan in itertools.zip_longest(job.corners, plans):
            setup = corner.setup
            labels = (_name(path), job.variant, setup.chassis.id, setup.corner)
            yield TableCorner(labels, plan) if plan else _at_height(labels, corner, asked)


def _at_height(labels: tuple[str, ...], corner: JobCorner, asked: AskedOfRows) -> TableCorner:
    try:
        height = height_of(corner) if asked.question.takes_height else None
    except BarwrightError as error:
        return TableCorner(labels, error)
    return TableCorner(labels, corner.setup, height)


def _name(path: Path) -> str:
    """Name of a file as a text, though the system may hold bytes that are none."""
    return os.fsencode(path).decode("utf-8", "replace")


def height_of(corner: JobCorner) -> Quantity | None:
    """Return the height that is wanted of a corner of a job.

    Parameters
    ----------
    corner : JobCorner
        The corner.

    Returns
    -------
    Quantity, optional
        None if its present height is wanted and it has none, since its parts do not fit together.
    """
    wanted = with_height(corner.wanted, now=Corner(corner.present))
    return None if wanted.same_height else wanted_height(Corner(corner.setup), wanted)


def refuse_other_wishes(corner: JobCorner, asked: AskedOfRows) -> None:
    """Refuse a corner whose plan depends on more than the height, to which columns plan.

    Parameters
    ----------
    corner : JobCorner
        The corner.
    asked : AskedOfRows
        The question.

    Raises
    ------
    JobError
        S207.
    """
    wanted = corner.wanted
    others = {
        "wanted.cuts": wanted.cuts is not None,
        "wanted.thread_reserve": wanted.thread_reserve is not None,
        "present": corner.present is not corner.setup,
    }
    for key, is_given in others.items():
        if asked.is_planned and is_given:
            raise JobError(
                "S207",
                value=key,
                expected="a job that wants a height and nothing else, to plan for each row",
                remedy="leave it out, or plan for this job alone: `barwright reindex`",
                key=key,
            )


def vehicle_corners(vehicles: Iterable[Chassis]) -> Iterator[TableCorner]:
    """List the corners of vehicles as they left the works.

    Parameters
    ----------
    vehicles : iterable of Chassis
        The vehicles.

    Yields
    ------
    TableCorner
        Of each axle the left one and the right one.
    """
    for chassis in vehicles:
        for axle in chassis.axles:
            for side in Side:
                setup = Setup.standard(chassis, axle=axle, side=side)
                yield TableCorner((chassis.id, chassis.title, setup.corner), setup)
