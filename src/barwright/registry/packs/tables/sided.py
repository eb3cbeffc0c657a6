"""Figures that differ left and right: one table becomes that of each side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from barwright.parts.chassis import Axle, Chassis
from barwright.parts.common.record import Part
from barwright.parts.suspension import (
    ArmBushing,
    BumpRubber,
    DoubleWishboneMounting,
    HelperCoil,
    StrutMounting,
    SwingArmMounting,
)
from barwright.registry.packs.tables.inherited import AXLES, InheritedTable

__all__ = ["SIDES", "each_side", "may_differ", "tables_of_sides"]

SIDES = ("left", "right")
"""Keys of a table that gives a figure for each side."""

# Of an axle: which one it is, and its standard parts, which have a side of their own.
_SAME = {"place", *SIDES}

_OF_A_CORNER = (
    *(Axle, ArmBushing, BumpRubber, HelperCoil),
    *(DoubleWishboneMounting, StrutMounting, SwingArmMounting),
)

_WHEELBASE = "wheelbase"


def may_differ(cls: type[Any], field: str) -> bool:
    """Tell whether a figure or a fact may differ left and right.

    Parameters
    ----------
    cls : type
        Class of its record.
    field : str
        Its name.

    Returns
    -------
    bool
    """
    if cls is Chassis:
        return field == _WHEELBASE
    return cls in _OF_A_CORNER and not (cls is Axle and field in _SAME)


def tables_of_sides(chassis: Any) -> tuple[dict[str, Any], ...]:  # noqa: ANN401 - whatever a file holds
    """Make the table of each side of a vehicle.

    Parameters
    ----------
    chassis : dict
        Table of the vehicle, as parsed.

    Returns
    -------
    tuple of dict
        Those of left and right; none if the sides are alike.
    """
    if not isinstance(chassis, dict) or not any(map(_holds_sides, _values(chassis))):
        return ()
    return tuple(_of_side(chassis, side) for side in SIDES)


def each_side(part: Part) -> tuple[Part, ...]:
    """List a record, and of a vehicle whose sides differ that of its right corners.

    Parameters
    ----------
    part : Part
        The record.

    Returns
    -------
    tuple of Part
    """
    right = part.right_side if isinstance(part, Chassis) else None
    return (part,) if right is None else (part, right)


def _values(chassis: Mapping[str, Any]) -> Iterator[Any]:
    """List what may differ of a vehicle's table."""
    yield chassis.get(_WHEELBASE)
    axles = chassis.get(AXLES)
    for axle in axles if isinstance(axles, list) else ():
        if isinstance(axle, dict):
            yield from (value for key, value in axle.items() if key not in _SAME)


def _holds_sides(value: Any) -> bool:  # noqa: ANN401 - as above
    if isinstance(value, dict):
        return _is_by_side(value) or any(map(_holds_sides, value.values()))
    return isinstance(value, list) and any(map(_holds_sides, value))


def _is_by_side(value: Any) -> bool:  # noqa: ANN401 - as above
    return isinstance(value, dict) and bool(value) and value.keys() <= {*SIDES}


def _of_side(chassis: Mapping[str, Any], side: str) -> dict[str, Any]:
    """Return the table of a vehicle as the corners of one side have it."""
    axles = chassis.get(AXLES)
    if isinstance(axles, list):
        of_side = [_resolved(axle, side, keep=_SAME) for axle in axles]
        chassis = _with(chassis, {AXLES: of_side})
    keep = chassis.keys() - {_WHEELBASE}
    made: dict[str, Any] = _resolved(chassis, side, keep=keep)
    return made


def _with(table: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    stated = table.stated if isinstance(table, InheritedTable) else {}
    return InheritedTable({**table, **changes}, stated)


def _resolved(value: Any, side: str, *, keep: Any = ()) -> Any:  # noqa: ANN401 - as above
    """Put the value of one side in the place of every table of both; without one, nothing."""
    if isinstance(value, list):
        return [_resolved(item, side) for item in value]
    if not isinstance(value, dict):
        return value
    stated = dict(value.stated) if isinstance(value, InheritedTable) else {}
    found = {}
    for key, inner in value.items():
        if key in keep or not _is_by_side(inner):
            found[key] = inner if key in keep else _resolved(inner, side)
        elif side in inner:
            found[key] = inner[side]
            if isinstance(inner, InheritedTable) and side in inner.stated:
                stated[key] = inner.stated[side]
    return InheritedTable(found, stated)
