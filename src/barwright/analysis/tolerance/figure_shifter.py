"""A setup with some of its figures shifted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Generic, TypeAlias, TypeVar

import attrs

from barwright.analysis.tolerance.figures import HeldFigure, Key, TolerancedFigure, branches
from barwright.parts.record import Record, evolved
from barwright.parts.source import About
from barwright.units import Quantity

__all__ = ["FigureShifter"]

S = TypeVar("S", bound=attrs.AttrsInstance)
"""A setup, or another holder of records."""

Steps: TypeAlias = tuple[str, ...]
"""Fields of a setup that lead to a figure, and labels of what stands in tuples."""

_Move: TypeAlias = tuple[Steps, int]
"""Where a figure stands, and which of those that are moved it is."""


class FigureShifter(Generic[S]):
    """Shifts figures of one setup repeatedly, each in all its places.

    Parameters
    ----------
    setup : Setup or other holder of records
        The corner, or parts of none.
    places : iterable of HeldFigure
        Where figures are to be moved; elsewhere they stay.
    """

    def __init__(self, setup: S, places: Iterable[HeldFigure]) -> None:
        self._setup = setup
        self._places: dict[Key, list[Steps]] = {}
        for held in places:
            self._places.setdefault(held.key, []).append(tuple(held.path.split(".")))

    def replaced(self, way: TolerancedFigure) -> frozenset[int]:
        """Return what another stands for where a figure is moved: it and all that holds it.

        Parameters
        ----------
        way : TolerancedFigure
            The figure.

        Returns
        -------
        frozenset of int
            Identities of figures and records of the setup, the setup itself among them.
        """
        found = {id(self._setup)}
        for steps in self._places.get(way.key, ()):
            value: Any = self._setup
            for step in steps:
                value = _child(value, step)
                found.add(id(value))
        return frozenset(found)

    def moved(self, shares: Mapping[TolerancedFigure, float]) -> S:
        """Return the setup with figures moved within their tolerances, which they keep.

        Parameters
        ----------
        shares : mapping of TolerancedFigure to float
            How far each figure lies from its nominal value, in half widths.

        Returns
        -------
        Setup or other holder of records

        Raises
        ------
        BarwrightError
            If no such setup can be.
        """
        to = [way.at(share) for way, share in shares.items()]
        moves = [
            (steps, index)
            for index, way in enumerate(shares)
            for steps in self._places.get(way.key, ())
        ]
        result: S = _Rebuilding(to)(self._setup, tuple(moves))
        return result


class _Rebuilding:
    """Sets figures within a setup; a record that stands in it twice stays one."""

    def __init__(self, to: Sequence[Quantity]) -> None:
        self._to = to
        self._done: dict[tuple[int, tuple[_Move, ...]], Any] = {}

    def __call__(self, value: Any, moves: tuple[_Move, ...]) -> Any:  # noqa: ANN401 - any part
        """Return a value with its figures set, or itself where none of them is."""
        if not moves:
            return value
        if moves[0][0] == ():
            return self._to[moves[0][1]]
        known = (id(value), moves)
        if known not in self._done:
            self._done[known] = self._set(value, moves)
        return self._done[known]

    def _set(self, value: Any, moves: tuple[_Move, ...]) -> Any:  # noqa: ANN401 - any part
        below: dict[str, list[_Move]] = {}
        for steps, index in moves:
            below.setdefault(steps[0], []).append((steps[1:], index))
        if isinstance(value, tuple):
            named = ((name, child) for name, child, _ in branches(value, ()))
            return tuple(self(child, tuple(below.get(name, ()))) for name, child in named)
        changes = {name: self(getattr(value, name), tuple(own)) for name, own in below.items()}
        if isinstance(value, Record):
            changes["about"] = _about(value, changes)
        return evolved(value, changes)


def _child(value: Any, step: str) -> Any:  # noqa: ANN401 - any part of a setup
    if isinstance(value, tuple):
        return next(child for name, child, _ in branches(value, ()) if name == step)
    return getattr(value, step)


def _about(record: Record, changes: Mapping[str, Any]) -> About:
    """Keep what is known of a record's figures, those that were set at their new values."""
    about = record.about
    now = {n: evolved(about[n], {"value": value}) for n, value in changes.items() if n in about}
    return About(dict(about.items()) | now) if now else about
