"""Corners that differ in nothing but figures, so that they can be asked about as columns."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

import attrs

from barwright.parts.common.record import NOT_IN_FILES, Record
from barwright.parts.setup import Setup
from barwright.units import is_quantity, is_unknown, unit_spelling

__all__ = ["TakenApart", "part_taken_apart", "taken_apart"]

Piece: TypeAlias = tuple[str, Any]
"""What stands at a place of a corner, by the fields that lead to it."""

# What tells a part from others, and decides no answer in columns; the axle has the figures of
# its vehicle, and the setup the parts that are on it.
_NAMES = NOT_IN_FILES | {
    "id",
    "title",
    "numbers",
    "replaces",
    "paint",
    "remarks",
    "chassis",
    "left",
    "right",
}


@attrs.frozen(eq=False)
class TakenApart:
    """A corner, its figures apart from all else.

    Parameters
    ----------
    frame : tuple
        All but the numbers of the figures; the same for corners that are alike.
    figures : mapping of str to float
        Numbers of its figures by the fields that lead to them.
    units : mapping of str to str
        Their units.
    """

    frame: tuple[Piece, ...]
    figures: Mapping[str, float]
    units: Mapping[str, str]

    def without(self, field: str) -> TakenApart:
        """Leave out a field and all below it."""

        def stays(path: str) -> bool:
            return path != field and not path.startswith(f"{field}.")

        return TakenApart(
            frame=tuple(piece for piece in self.frame if stays(piece[0])),
            figures={path: one for path, one in self.figures.items() if stays(path)},
            units={path: one for path, one in self.units.items() if stays(path)},
        )


def taken_apart(setup: Setup) -> TakenApart | None:
    """Take a corner apart.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    TakenApart, optional
        None for a corner with readings, or with figures that are unknown: it is asked about by
        itself.
    """
    return None if setup.readings else _taken_apart(setup, "")


def part_taken_apart(part: Record, field: str) -> TakenApart | None:
    """Take a part apart as it stands in a corner.

    Parameters
    ----------
    part : Record
        The part.
    field : str
        The field that it stands in.

    Returns
    -------
    TakenApart, optional
        None for a part with figures that are unknown.
    """
    return _taken_apart(part, field)


def _taken_apart(value: Any, path: str) -> TakenApart | None:  # noqa: ANN401 - a corner or a part
    pieces = list(_pieces(value, path))
    if any(is_unknown(value) for _, value in pieces):
        return None
    figures = {path: value for path, value in pieces if is_quantity(value)}
    units = {path: unit_spelling(value) for path, value in figures.items()}
    return TakenApart(
        frame=tuple((path, units.get(path, value)) for path, value in pieces),
        figures={path: float(value.magnitude) for path, value in figures.items()},
        units=units,
    )


def _pieces(value: Any, path: str) -> Iterator[Piece]:  # noqa: ANN401 - any part
    if isinstance(value, tuple):
        yield path, len(value)
        for number, item in enumerate(value):
            yield from _pieces(item, f"{path}.{number}")
    elif attrs.has(cls := type(value)):
        yield path, cls
        for name in _fields(cls):
            # Without an adjuster there is no nut to turn.
            if not (name == "nut_turns" and value.adjuster is None):
                yield from _pieces(getattr(value, name), f"{path}.{name}".strip("."))
    else:
        yield path, value


@functools.cache
def _fields(cls: type[Any]) -> tuple[str, ...]:
    names = (field.name for field in attrs.fields(cls))
    return tuple(name for name in names if name not in _NAMES)
