"""Figures that differ left and right: one table becomes that of each side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from barwright.errors import BarwrightError
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.parts.suspension import (
    ArmBushing,
    BumpRubber,
    DoubleWishboneMounting,
    HelperCoil,
    StrutMounting,
    SwingArmMounting,
)
from barwright.registry.packs.tables.complete import completed
from barwright.registry.packs.tables.in_order import RecordsInOrder
from barwright.registry.packs.tables.inherited import AXLES, InheritedTable
from barwright.registry.packs.tables.refusals import problems_of
from barwright.registry.packs.tables.structure import Structurer

__all__ = ["SIDES", "PartMaker", "each_side", "may_differ"]

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


class PartMaker:
    """Makes parts of the tables of one file.

    Parameters
    ----------
    file : str
        Name of the file.
    sources : sequence of Source
        Those that it may name.
    pack : str
        Id of the pack that the sources belong to.
    parts : mapping
        Records that a table may refer to, by class and id.
    """

    def __init__(
        self,
        *,
        file: str,
        sources: Sequence[Source],
        pack: str,
        parts: Mapping[type, Mapping[str, Any]],
    ) -> None:
        self._in_order = RecordsInOrder(file=file, sources=sources, pack=pack, parts=parts)
        self._structurer = Structurer(file=file, sources=sources, pack=pack, parts=parts)

    def made(self, table: Mapping[str, Any], cls: type[Part], *, key: str) -> Part:
        """Make a part of a table; of a vehicle whose sides differ, one for each side.

        Parameters
        ----------
        table : mapping
            The table.
        cls : type
            Class of the record.
        key : str
            Path of the table in its document.

        Returns
        -------
        Part
            A chassis has the one of its right corners in it.

        Raises
        ------
        ExceptionGroup
            All problems.
        """
        return self._in_order.record(table, cls) or _structured(
            self._structurer, table, cls, key=key
        )


def _structured(
    structurer: Structurer, table: Mapping[str, Any], cls: type[Part], *, key: str
) -> Part:
    if cls is not Chassis or not _differs(table):
        return structurer.structure(table, cls, key=key)
    made, problems = [], dict[str, BarwrightError]()
    for side in SIDES:
        try:
            made.append(structurer.structure(_of_side(table, side), cls, key=key))
        except ExceptionGroup as error:
            problems |= {str(problem): problem for problem in problems_of(error)}
    if problems:
        raise ExceptionGroup(key, list(problems.values()))
    left, right = made
    return completed(left, right_side=right)


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


def _differs(chassis: Any) -> bool:  # noqa: ANN401 - whatever a file holds
    return isinstance(chassis, dict) and any(map(_holds_sides, _values(chassis)))


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
