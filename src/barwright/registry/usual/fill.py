"""Usual figures in place of unknown ones."""

from __future__ import annotations

import enum
from collections.abc import Iterator, Mapping
from typing import Any, TypeVar

import attrs

from barwright.errors import BarwrightError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.record import Part, Record
from barwright.parts.common.source import About, Figure
from barwright.parts.setup import Setup
from barwright.registry.usual.catalogue import usual_ranges
from barwright.units import is_unknown

__all__ = ["Assumption", "UsualFigures", "with_usual"]

R = TypeVar("R", bound=Setup | Part)
T = TypeVar("T")


class Assumption(enum.Enum):
    """What may replace unknown figures."""

    USUAL = "usual"


@checks_arguments
def with_usual(record: R) -> R:
    """Return a setup or a part with usual figures in the place of those that are unknown.

    Each is an estimated figure with its range as tolerance, and names the entry of the
    catalogue that it is from.

    Parameters
    ----------
    record : Setup or part
        A corner, or a part by itself.

    Returns
    -------
    Setup or part
        Itself where there is nothing to put in: a figure stays unknown if the catalogue
        has none, if it grows with another figure that is unknown too, or if no such part
        can be.

    Examples
    --------
    >>> import barwright as bw
    >>> old = bw.parts.Damper(
    ...     id="own:damper/old", title="Old", open_length="640 mm", closed_length="unknown"
    ... )
    >>> figure = with_usual(old).about["closed_length"]
    >>> print(f"{figure.value:~P} ± {figure.tolerance:~P}, {figure.source}")
    429.0 mm ± 51.0 mm, standards:usual/closed-damper
    """
    return UsualFigures().put_into(record)


class UsualFigures:
    """Puts usual figures in the place of unknown ones, in records and in whole setups.

    A record that stands in several places stays one, also over several calls.
    """

    def __init__(self) -> None:
        # The value as it was is kept too, so that no other takes its identity.
        self._done: dict[int, tuple[Any, Any]] = {}

    def put_into(self, value: T) -> T:
        """Return a setup or a record with usual figures, or itself if it lacks none.

        Parameters
        ----------
        value : object
            Anything that holds records.

        Returns
        -------
        object
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
        inner = dict(self._changes(value))
        filled = attrs.evolve(value, **inner) if inner else value
        return _with_own(filled) if isinstance(filled, Record) else filled

    def _changes(self, value: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - as above
        """Fields in which something was put in."""
        for field in attrs.fields(type(value)):
            held = getattr(value, field.name)
            filled = self.put_into(held)
            if filled is not held:
                yield field.name, filled


def _with_own(record: Record) -> Record:
    """Put usual figures into the fields of a record, each that it can have."""
    for field, figure in _usual(record).items():
        try:
            changes: dict[str, Any] = {field: figure.value}
            record = attrs.evolve(record, **changes, about=About({**record.about, field: figure}))
        except BarwrightError:
            continue
    return record


def _usual(record: Record) -> Mapping[str, Figure]:
    """Return what the catalogue has for the unknown figures of a record, by field."""
    found = {
        one.field: one.figure_of(record)
        for one in usual_ranges()
        if type(record) is one.holder and is_unknown(getattr(record, one.field))
    }
    return {field: figure for field, figure in found.items() if figure is not None}


def _differ(new: tuple[Any, ...], old: tuple[Any, ...]) -> bool:
    return any(one is not other for one, other in zip(new, old, strict=True))
