"""Keys of a job file for both sides of a vehicle, and tables for one of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from barwright.errors import SchemaError
from barwright.parts.bar import Side
from barwright.registry.jobs.keys import OF_THE_WHOLE_VEHICLE, READ_INTO
from barwright.registry.packs.format.keys import FURTHER_KEYS, OTHER_KEYS

__all__ = ["SIDES", "TABLES", "merged", "replaced", "unused_sides"]

SIDES = {side.value for side in Side}
"""The two sides, as a job file names them."""

TABLES = tuple(table for table in READ_INTO if table not in OF_THE_WHOLE_VEHICLE)
"""Tables of a job file that may hold one for a side."""


def merged(table: Mapping[str, Any], side: Side) -> dict[str, Any]:
    """Keys for both sides, with those of one side on top."""
    shared = {key: value for key, value in table.items() if key not in SIDES}
    own = table.get(side.value, {})
    if not isinstance(own, dict):  # it is left where it is, for the structurer to refuse
        return {**shared, side.value: own}
    return {key: value for key, value in shared.items() if OTHER_KEYS.get(key) not in own} | own


def replaced(table: Mapping[str, Any], side: Side) -> dict[str, Any]:
    """Keys of one side if it has a table of its own, else those for both."""
    own = table.get(side.value)
    if isinstance(own, dict):
        return dict(own)
    return merged(table, side)


def unused_sides(file: Mapping[str, Any], used: set[str]) -> Iterator[SchemaError]:
    """Refuse each table of a side that no corner of the job is on: it would count for nothing.

    Parameters
    ----------
    file : mapping
        The whole file.
    used : set of str
        Sides of its corners.

    Yields
    ------
    SchemaError
        S207.
    """
    for table in (*TABLES, *FURTHER_KEYS.values()):
        for side in sorted(SIDES - used):
            if side in file.get(table, {}):
                yield SchemaError(
                    "S207",
                    value=f"a table for the {side} side",
                    expected=f"tables only for the corners of the job ({', '.join(sorted(used))})",
                    remedy=f"add the {side} corner to corners, or remove the table",
                    key=f"{table}.{side}",
                )
