"""Rows whose figures no record takes: the records check single figures, this whole columns."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Any, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.suspension import metres, radians
from barwright.columns.given import Column
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import KeyLever
from barwright.parts.bar import Bar
from barwright.parts.chassis import Axle
from barwright.parts.common.record import Record
from barwright.parts.damper import Damper
from barwright.parts.load import LoadKind
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.suspension import BumpRubber
from barwright.parts.tube import Tube
from barwright.units import FORCE, LARGEST, MASS, TURNS, Quantity, si

__all__ = ["any_of", "possible"]

Flags: TypeAlias = NDArray[np.bool_]

_SMALLEST = 1e-12

_IN_RANGE: dict[str, Callable[[Any], Any]] = {
    "any": np.isfinite,
    "positive": lambda number: number >= _SMALLEST,
    "zero or more": lambda number: number >= 0.0,
    "zero or less": lambda number: number <= 0.0,
}


def possible(setup: Setup, columns: Sequence[Column], rows: NDArray[np.intp]) -> Flags:
    """Tell which rows the records would take.

    Parameters
    ----------
    setup : Setup
        The corner with the columns in it.
    columns : sequence of Column
        The columns.
    rows : array of int
        Which rows of them.

    Returns
    -------
    array of bool
        False for each row that is refused, and perhaps for others that are not.
    """
    in_range = [_in_range(column, rows) for column in columns]
    refused = [found for record in _records(setup) for found in _refused(record)]
    found: Flags = np.logical_and.reduce(in_range) & ~any_of(refused)
    return found


def any_of(flags: Iterable[Any]) -> Flags:
    """Tell whether any of some flags is raised, each one for all rows or one a row.

    Parameters
    ----------
    flags : iterable of bool or array of bool
        The flags.

    Returns
    -------
    array of bool
    """
    return functools.reduce(np.logical_or, flags, np.asarray(False))


def _in_range(column: Column, rows: NDArray[np.intp]) -> Flags:
    numbers = si(cast("Quantity", column.figures(rows)), column.kind)
    found: Flags = (np.abs(numbers) <= LARGEST) & _IN_RANGE[column.allowed](numbers)
    return found


def _records(holder: Any) -> Iterator[Record]:  # noqa: ANN401 - a setup, a record or a tuple
    """List the records of a setup that a corner is computed from, the setup first."""
    if isinstance(holder, tuple):
        for item in holder:
            yield from _records(item)
    elif isinstance(holder, Record):
        yield holder
        for field in attrs.fields(type(holder)):
            if field.name not in ("about", "chassis", "left", "right"):
                yield from _records(getattr(holder, field.name))


def _refused(record: Record) -> Iterable[Any]:
    """Tell what would be refused of a record: flags, or arrays of them."""
    look: Callable[[Any], Iterable[Any]] = _LOOKS.get(type(record), lambda _: ())
    return look(record)


def _of_bar(bar: Bar) -> Iterator[Any]:
    heads = sum(
        metres(end.length) + metres(end.taper) + metres(end.fillet_radius)
        for end in (bar.arm_end, bar.anchor_end)
    )
    yield heads >= metres(bar.length)
    if bar.bore is not None:
        for outside in (bar.diameter, bar.arm_end.root_diameter, bar.anchor_end.root_diameter):
            yield metres(bar.bore) >= metres(outside)


def _of_end(end: BarEnd) -> Iterator[Any]:
    yield metres(end.root_diameter) >= metres(end.major_diameter)
    if end.fillet_radius is not None:
        yield np.not_equal(metres(end.taper), 0.0)
    if end.nose_diameter is not None:
        yield np.equal(metres(end.nose), 0.0)
        yield metres(end.nose_diameter) >= metres(end.major_diameter)


def _of_socket(socket: Socket) -> Iterator[Any]:
    yield metres(socket.required_engagement) > metres(socket.length)


def _of_tube(tube: Tube) -> Iterator[Any]:
    yield metres(tube.bore) >= metres(tube.outside_diameter)
    yield metres(tube.lever_position) >= metres(tube.socket_position)


def _of_key_lever(lever: KeyLever) -> Iterator[Any]:
    yield metres(lever.face_end) <= metres(lever.face_start)


def _of_adjuster(adjuster: Adjuster) -> Iterator[Any]:
    yield metres(adjuster.thread_pitch) >= metres(adjuster.thread_diameter) / 2.0
    usable = metres(adjuster.thread_end) - metres(adjuster.thread_start)
    yield usable <= metres(adjuster.nut_height)
    if adjuster.is_screwed:
        yield np.not_equal(metres(adjuster.spacer), 0.0)


def _of_damper(damper: Damper) -> Iterator[Any]:
    yield metres(damper.closed_length) >= metres(damper.open_length)


def _of_axle(axle: Axle) -> Iterator[Any]:
    droop, bump = radians(axle.droop_stop), radians(axle.bump_stop)
    yield (droop <= -np.pi / 2.0) | (droop >= bump) | (bump >= np.pi / 2.0)


def _of_bump_rubber(rubber: BumpRubber) -> Iterator[Any]:
    compressions = [metres(point.compression) for point in rubber.curve]
    forces = [si(point.force, FORCE) for point in rubber.curve]
    for figures in (compressions, forces):
        yield np.equal(figures[0], 0.0)
        for one, following in pairwise(figures):
            yield np.greater_equal(one, following)


def _of_setup(setup: Setup) -> Iterator[Any]:
    if setup.load.kind is LoadKind.SCALE_READING:
        yield si(setup.load.mass, MASS) <= si(setup.axle.unsprung_mass, MASS)
    if setup.pin_distance is not None:
        yield np.not_equal(si(setup.nut_turns, TURNS), 0.0) & _is_given(setup.pin_distance)


def _is_given(place: Quantity) -> Any:  # noqa: ANN401 - a flag or an array of them
    return np.not_equal(metres(place), 0.0)


_LOOKS: dict[type[Record], Callable[[Any], Iterable[Any]]] = {
    Bar: _of_bar,
    BarEnd: _of_end,
    Socket: _of_socket,
    Tube: _of_tube,
    KeyLever: _of_key_lever,
    Adjuster: _of_adjuster,
    Damper: _of_damper,
    Axle: _of_axle,
    BumpRubber: _of_bump_rubber,
    Setup: _of_setup,
}
