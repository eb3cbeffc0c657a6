"""Content of a record without its name, to find copies and counterparts."""

from __future__ import annotations

from typing import Any

import attrs

from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Chassis, StandardParts
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import NOT_IN_FILES, Part, Record
from barwright.parts.common.source import Fact, Figure
from barwright.parts.spline import BarEnd
from barwright.units import Kind, Quantity, si, unit_spelling

__all__ = ["OTHER_SIDE", "as_written", "content", "made_for", "mirrored", "same_figure"]

OTHER_SIDE = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}

# Digits that writing a figure in another unit does not change.
_DIGITS = 12

# What names a part, and tells it in a store: a copy of it may have other numbers.
_NAMES = {"id", "title", "numbers", "replaces", "paint", "remarks"} | (
    NOT_IN_FILES - {"right_side"}
)


def content(part: Record) -> tuple[object, ...]:
    """Return all that a record says beside its id and title, figures in SI units.

    Parameters
    ----------
    part : Record
        The record.

    Returns
    -------
    tuple
        Can be compared and hashed.
    """
    figures = figure_fields(type(part))
    said: list[object] = [type(part).__name__]
    for field in attrs.fields(type(part)):
        value = getattr(part, field.name)
        if field.name in figures and value is not None:
            said.append(_number(value, figures[field.name][0]))
        elif isinstance(part, BarEnd) and field.name == "blanks":
            said.append(_places(part))
        elif field.name not in _NAMES:
            said.append(_plain(value))
    return tuple(said)


def as_written(record: Record) -> tuple[object, ...]:
    """Return all that answers about a record can rest on, as it is written.

    Parameters
    ----------
    record : Record
        The record, without an id.

    Returns
    -------
    tuple
        Can be compared and hashed: each figure with its unit, tolerance and source, and the
        id of each part that the record refers to.
    """
    known = record.about
    said: list[object] = [type(record).__name__]
    for field in attrs.fields(type(record)):
        figure = known.get(field.name)
        if figure is not None and not isinstance(figure, Fact):
            said.append(_known(figure))
        elif field.name != "about":
            said.append(_written(getattr(record, field.name)))
    return tuple(said)


def same_figure(one: Quantity | None, other: Quantity | None, kind: Kind) -> bool:
    """Tell whether two figures are the same, whatever unit each is written in.

    Parameters
    ----------
    one, other : Quantity, optional
        The figures.
    kind : Kind
        Of both.

    Returns
    -------
    bool
    """
    if one is None or other is None:
        return one is other
    return _number(one, kind) == _number(other, kind)


def mirrored(part: Part, side: Side) -> Part:
    """Return the counterpart of a record that is made for one side of the vehicle.

    Parameters
    ----------
    part : Part
        The record; of a bar, the blanks of each end and between the ends are counted the
        other way too.
    side : Side
        That the counterpart is made for.

    Returns
    -------
    Part
    """
    changed: dict[str, Any] = {"made_for": side}
    if isinstance(part, Bar):
        changed["blank_angle"] = -part.blank_angle
        changed |= {
            name: attrs.evolve(end, blanks=tuple(-blank for blank in end.blanks))
            for name, end in (("arm_end", part.arm_end), ("anchor_end", part.anchor_end))
        }
    return attrs.evolve(part, **changed)


def made_for(part: Part) -> Side | None:
    """Return the side that a record is made for, if it is made for one.

    Parameters
    ----------
    part : Part
        The record.

    Returns
    -------
    Side, optional
    """
    side: Side | None = getattr(part, "made_for", None)
    return side


def _places(end: BarEnd) -> tuple[int, ...]:
    """List an end's blanks, however each is counted: -1 of 39 teeth is 38."""
    return tuple(sorted(blank % end.teeth for blank in end.blanks))


def _known(figure: Figure) -> tuple[object, ...]:
    """List what counts of a figure, wherever it stands."""
    tolerance = None if figure.tolerance is None else _exactly(figure.tolerance)
    return (*_exactly(figure.value), tolerance, figure.source, figure.source_kind)


def _exactly(value: Quantity) -> tuple[float, str]:
    return value.magnitude, unit_spelling(value)


def _written(value: object) -> object:
    if isinstance(value, Part):
        return value.id
    if isinstance(value, StandardParts):
        return tuple(_written(getattr(value, f.name)) for f in attrs.fields(StandardParts))
    if isinstance(value, Record):
        return as_written(value)
    return tuple(map(_written, value)) if isinstance(value, tuple) else value


def _number(value: Quantity, kind: Kind) -> float:
    return float(f"{si(value, kind):.{_DIGITS}g}")


def _plain(value: object) -> object:
    if isinstance(value, Part) and not isinstance(value, Chassis):
        return value.id
    if isinstance(value, StandardParts):
        return tuple(_plain(getattr(value, f.name)) for f in attrs.fields(StandardParts))
    if isinstance(value, Record):
        return content(value)
    return tuple(map(_plain, value)) if isinstance(value, tuple) else value
