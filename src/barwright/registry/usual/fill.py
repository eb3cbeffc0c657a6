"""Usual figures in the place of unknown ones."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias, TypeVar

import attrs

from barwright.parts.record import Record
from barwright.parts.source import About, Figure
from barwright.registry.usual.catalogue import usual_ranges

__all__ = ["IsUnknown", "UsualFigures"]

T = TypeVar("T")

IsUnknown: TypeAlias = Callable[[Record, str], bool]
"""Tells of a record and one of its fields whether the figure is unknown."""


class UsualFigures:
    """Puts usual figures in the place of unknown ones, in records and in whole setups.

    A record that stands in several places stays one, also over several calls.

    Parameters
    ----------
    is_unknown : callable
        Which figures are.
    """

    def __init__(self, is_unknown: IsUnknown) -> None:
        self._is_unknown = is_unknown
        # The value as it was is kept too, so that no other takes its identity.
        self._done: dict[int, tuple[Any, Any]] = {}

    def put_into(self, value: T) -> T:
        """Return a record, setup or tuple of them with usual figures where none is known.

        Parameters
        ----------
        value : object
            Anything that holds records.

        Returns
        -------
        object
            The same, or itself where there is nothing to put in: a figure stays unknown if
            the catalogue has none, or if it grows with another one that is unknown too.
        """
        if id(value) not in self._done:
            self._done[id(value)] = value, self._filled(value)
        filled: T = self._done[id(value)][1]
        return filled

    def _filled(self, value: Any) -> Any:  # noqa: ANN401 - anything that a setup holds
        if isinstance(value, tuple):
            items = tuple(map(self.put_into, value))
            return items if _differ(items, value) else value
        if not attrs.has(type(value)):
            return value
        held = {field.name: getattr(value, field.name) for field in attrs.fields(type(value))}
        inner = {name: self.put_into(one) for name, one in held.items() if name != "about"}
        changes = {name: new for name, new in inner.items() if new is not held[name]}
        usual = self._usual(value) if isinstance(value, Record) else {}
        changes |= {name: figure.value for name, figure in usual.items()}
        if usual:
            changes["about"] = About({**value.about, **usual})
        return attrs.evolve(value, **changes) if changes else value

    def _usual(self, record: Record) -> Mapping[str, Figure]:
        """Return what the catalogue has for the unknown figures of a record, by field."""
        found = {
            one.field: one.figure_of(record)
            for one in usual_ranges()
            if type(record) is one.holder and self._is_unknown(record, one.field)
        }
        return {field: figure for field, figure in found.items() if figure is not None}


def _differ(new: tuple[Any, ...], old: tuple[Any, ...]) -> bool:
    return any(one is not other for one, other in zip(new, old, strict=True))
