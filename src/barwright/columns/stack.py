"""A setup with columns of figures in the place of single ones, and one row of it."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any, TypeAlias, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.columns.given import WANTED_HEIGHT, Column
from barwright.errors import BarwrightError
from barwright.parts.setup import Setup
from barwright.units import Quantity

__all__ = ["moved", "row_of", "stacked"]

_Steps: TypeAlias = tuple[tuple[str, ...], ...]
"""Fields that lead to places."""


def stacked(setup: Setup, columns: Iterable[Column], rows: NDArray[np.intp]) -> Setup:
    """Put columns of figures into a setup, unchecked.

    Records check single figures.  What would be refused of a row is looked for by
    :func:`barwright.columns.possible.possible`.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : iterable of Column
        The columns.
    rows : array of int
        Which rows of them.

    Returns
    -------
    Setup
        For the questions of this room alone.
    """
    for column in columns:
        if column.path != WANTED_HEIGHT:
            setup = _put(setup, column.path.split("."), column.figures(rows))
    return setup


def row_of(setup: Setup, columns: Iterable[Column], row: int) -> Setup:
    """Return the setup of one row, checked like any other.

    Parameters
    ----------
    setup : Setup
        The corner.
    columns : iterable of Column
        The columns.
    row : int
        Its number, from 0.

    Returns
    -------
    Setup

    Raises
    ------
    BarwrightError
        If no such setup can be.
    """
    figures = {
        tuple(column.path.split(".")): column.figure(row)
        for column in columns
        if column.path != WANTED_HEIGHT
    }
    return cast("Setup", _with(setup, figures)) if figures else setup


def _with(holder: Any, figures: Mapping[tuple[str, ...], Quantity]) -> Any:  # noqa: ANN401 - as below
    """Put figures into a holder all at once: two that go together may not go with one of old."""
    below: dict[str, dict[tuple[str, ...], Quantity]] = {}
    for (step, *rest), figure in figures.items():
        below.setdefault(step, {})[tuple(rest)] = figure
    if isinstance(holder, tuple):
        return tuple(
            _within(str(number), item, below[str(number)]) if str(number) in below else item
            for number, item in enumerate(holder)
        )
    changes = {
        step: inner[()] if () in inner else _within(step, getattr(holder, step), inner)
        for step, inner in below.items()
    }
    return attrs.evolve(holder, **changes)


def _within(step: str, holder: Any, figures: Mapping[tuple[str, ...], Quantity]) -> Any:  # noqa: ANN401 - as below
    """Put figures into what stands in a field, by whose name errors call them."""
    try:
        return _with(holder, figures)
    except BarwrightError as error:
        raise error.within(key=step) from None


def moved(setup: Setup, paths: Iterable[str], figure: Quantity) -> Setup:
    """Put one figure into a setup at some places, unchecked.

    Parameters
    ----------
    setup : Setup
        The corner, with columns of figures in it.
    paths : iterable of str
        Fields that lead to the places.
    figure : Quantity
        What stands there then.

    Returns
    -------
    Setup
        A record that stands in it twice stays one.
    """
    done: dict[tuple[int, _Steps], Any] = {}

    def at(value: Any, below: _Steps) -> Any:  # noqa: ANN401 - any part of a setup
        if below == ((),):
            return figure
        if (id(value), below) not in done:
            done[id(value), below] = _rebuilt(value, below, at)
        return done[id(value), below]

    return cast("Setup", at(setup, tuple(tuple(path.split(".")) for path in paths)))


def _rebuilt(value: Any, below: _Steps, at: Callable[[Any, _Steps], Any]) -> Any:  # noqa: ANN401
    steps: dict[str, list[tuple[str, ...]]] = {}
    for first, *rest in below:
        steps.setdefault(first, []).append(tuple(rest))
    if isinstance(value, tuple):
        return tuple(
            at(item, tuple(steps[str(number)])) if str(number) in steps else item
            for number, item in enumerate(value)
        )
    other = copy.copy(value)
    for step, rests in steps.items():
        object.__setattr__(other, step, at(getattr(value, step), tuple(rests)))
    return other


def _put(holder: Any, steps: Sequence[str], figure: object) -> Any:  # noqa: ANN401 - of any kind
    # What lies in a list, such as a point of a curve, is asked row by row.
    step, *rest = steps
    inner = _put(getattr(holder, step), rest, figure) if rest else figure
    return _unchecked(holder, step, inner)


def _unchecked(holder: Any, field: str, value: object) -> Any:  # noqa: ANN401 - as above
    other = copy.copy(holder)
    object.__setattr__(other, field, value)
    return other
