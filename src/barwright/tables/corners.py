"""Corners that become the rows of a table: those of jobs, and of the vehicles of a registry."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

import attrs

from barwright.analysis.across.check import jobs_of
from barwright.analysis.corner.corner import Corner
from barwright.analysis.rates.ride_height import wanted_height, with_height
from barwright.errors import BarwrightError
from barwright.parts.bar import Side
from barwright.parts.chassis import Chassis
from barwright.parts.setup import Setup
from barwright.registry.jobs.job import JobCorner
from barwright.registry.registry import Registry
from barwright.units import Quantity

__all__ = [
    "JOB_LABELS",
    "VEHICLE_LABELS",
    "TableCorner",
    "height_of",
    "job_corners",
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
    asked : Setup or BarwrightError
        The corner, or why there is none.
    height : Quantity, optional
        Height that is wanted of it, hub to arch.
    """

    labels: tuple[str, ...]
    asked: Setup | BarwrightError
    height: Quantity | None = None


def job_corners(
    paths: Iterable[Path], registry: Registry, *, at_height: bool
) -> Iterator[TableCorner]:
    """List the corners of job files, as they are to be.

    Parameters
    ----------
    paths : iterable of Path
        The files.
    registry : Registry
        Where their vehicles and parts are looked up.
    at_height : bool
        Whether they are asked about at the height that the job wants.

    Yields
    ------
    TableCorner
        Of a file that cannot be used, one with the reason.
    """
    for path in paths:
        try:
            found = list(_corners_of(path, registry, at_height=at_height))
        except BarwrightError as error:
            found = [TableCorner((_name(path), "", "", ""), error)]
        yield from found


def _corners_of(path: Path, registry: Registry, *, at_height: bool) -> Iterator[TableCorner]:
    for job in jobs_of(path, registry):
        for corner in job.corners:
            setup = corner.setup
            labels = (_name(path), job.variant, setup.chassis.id, setup.corner)
            try:
                yield TableCorner(labels, setup, height_of(corner) if at_height else None)
            except BarwrightError as error:
                yield TableCorner(labels, error)


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
