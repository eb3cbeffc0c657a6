"""Through which records a record comes to what it takes of another one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from barwright.registry.packs.format.entry import Entry
from barwright.registry.packs.tables.inherited import AXLES, LIKE, WITHOUT

__all__ = ["lineage", "says_like"]


def says_like(table: Mapping[str, Any]) -> bool:
    """Tell whether a table, or one of its axles, is like another one.

    Parameters
    ----------
    table : mapping
        As it stands in its file.

    Returns
    -------
    bool
    """
    return LIKE in table or any(LIKE in axle for axle in _axles(table).values())


def lineage(full_id: str, figure: str, entry: Callable[[str], Entry | None]) -> tuple[str, ...]:
    """List the records through which a record comes to a figure, or to an axle.

    Parameters
    ----------
    full_id : str
        Of the record.
    figure : str
        Fields that lead to the figure; of axles, their place.
    entry : callable
        Returns the entry of a full id.

    Returns
    -------
    tuple of str
        Full ids: of the record, then each of the one that the one before is like, as far as
        none of them states the figure or leaves it out.
    """
    return tuple(_lineage(full_id, figure.split("."), entry))


def _lineage(
    full_id: str, steps: Sequence[str], entry: Callable[[str], Entry | None]
) -> Iterator[str]:
    named: str | None = full_id
    while named is not None:
        yield named
        found = entry(named)
        named = _next(found, steps) if found else None


def _next(entry: Entry, steps: Sequence[str]) -> str | None:
    """Return the record of which a record takes a figure; none if it has its own say in it."""
    table, like = entry.table, entry.table.get(LIKE)
    if steps[0] == AXLES:
        axle = _axles(table).get(steps[1], {})
        if _decides(axle, steps[2:]) or _decides_without(table, steps):
            return None
        like = axle.get(LIKE, like)
    elif _decides(table, steps):
        return None
    return None if like is None else _full(str(like), entry.id)


def _decides(table: Mapping[str, Any], steps: Sequence[str]) -> bool:
    return _states(table, steps) or _decides_without(table, steps)


def _states(value: Any, steps: Sequence[str]) -> bool:  # noqa: ANN401 - whatever a file holds
    """Tell whether a table states what some fields lead to; without any, it is all of it."""
    if not steps:
        return False
    for step in steps:
        if not isinstance(value, dict) or "is" in value:
            return True  # of both sides
        if step not in value:
            return False
        value = value[step]
    return True


def _decides_without(table: Mapping[str, Any], steps: Sequence[str]) -> bool:
    left_out = [path.split(".") for path in table.get(WITHOUT, ())]
    return any(list(steps[: len(path)]) == path for path in left_out)


def _axles(table: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    return {str(axle.get("place")): axle for axle in table.get(AXLES, ())}


def _full(like: str, holder: str) -> str:
    return like if ":" in like else f"{holder.partition(':')[0]}:{like}"
