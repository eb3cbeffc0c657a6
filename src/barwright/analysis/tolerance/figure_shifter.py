"""A setup with some of its figures shifted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Generic, TypeAlias, TypeVar

import attrs

from barwright.analysis.tolerance.figures import HeldFigure, Key, TolerancedFigure, branches
from barwright.parts.common.record import Record, evolved
from barwright.parts.common.source import About
from barwright.units import Quantity

__all__ = ["FigureShifter"]

S = TypeVar("S", bound=attrs.AttrsInstance)
"""A setup, or another holder of records."""

Steps: TypeAlias = tuple[str, ...]
"""Fields of a setup that lead to a figure, and labels of what stands in tuples."""

_Tree: TypeAlias = "tuple[tuple[str, int | _Tree], ...]"
"""Which figure is to stand where: below each field or label another tree, or its number."""


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
        self._trees: dict[tuple[Key, ...], _Tree] = {}

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
        keys = tuple(way.key for way in shares)
        if keys not in self._trees:
            self._trees[keys] = _tree(
                [(steps, n) for n, key in enumerate(keys) for steps in self._places.get(key, ())]
            )
        to = [way.at(share) for way, share in shares.items()]
        result: S = _Rebuilding(to)(self._setup, self._trees[keys])
        return result


def _tree(moves: Iterable[tuple[Steps, int]]) -> _Tree:
    """Put the places of figures into one tree."""
    below: dict[str, list[tuple[Steps, int]]] = {}
    for steps, number in moves:
        below.setdefault(steps[0], []).append((steps[1:], number))
    return tuple(
        (step, inner[0][1] if inner[0][0] == () else _tree(inner)) for step, inner in below.items()
    )


class _Rebuilding:
    """Sets figures within a setup; a record that stands in it twice stays one."""

    def __init__(self, to: Sequence[Quantity]) -> None:
        self._to = to
        self._done: dict[tuple[int, _Tree], Any] = {}

    def __call__(self, value: Any, tree: int | _Tree) -> Any:  # noqa: ANN401 - any part
        """Return a value with its figures set; of a number, the figure itself."""
        if isinstance(tree, int):
            return self._to[tree]
        if not tree:
            return value
        known = (id(value), tree)
        if known not in self._done:
            self._done[known] = self._set(value, tree)
        return self._done[known]

    def _set(self, value: Any, tree: _Tree) -> Any:  # noqa: ANN401 - any part of a setup
        if isinstance(value, tuple):
            below = dict(tree)
            named = ((name, child) for name, child, _ in branches(value, ()))
            return tuple(self(child, below.get(name, ())) for name, child in named)
        changes = {name: self(getattr(value, name), inner) for name, inner in tree}
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
