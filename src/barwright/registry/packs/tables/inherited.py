"""A table of which another record states a part, and who states each key."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

import attrs

from barwright.computed_once import cached_property
from barwright.registry.packs.format.keys import OTHER_KEYS

__all__ = [
    "AXLES",
    "LIKE",
    "RELATION",
    "WITHOUT",
    "InheritedTable",
    "Statement",
    "axles_by_place",
    "count_of",
    "cut",
    "laid_over",
    "leaving_out",
    "stated_by",
]


LIKE = "like"
"""Key of the id of the record that another one is like."""

WITHOUT = "without"
"""Key of what that record has and this one has not."""

RELATION = (LIKE, WITHOUT)

AXLES = "axles"
"""The list whose tables are matched, by their place."""

# What tells one record from all others, and where its own figures come from.
_NOT_INHERITED = {
    *("id", "title", "numbers", "replaces", "paint", "remarks"),
    *("source", "at"),
    *RELATION,
}


@attrs.frozen
class Statement:
    """Who states what stands under a key.

    Parameters
    ----------
    record : str
        Id of the record, without pack and kind.
    file : str
        File that it stands in.
    source : str
        Id of the source of the table that states it; empty if it names none.
    at : str
        Place in that source.
    """

    record: str
    file: str
    source: str
    at: str


class InheritedTable(dict[str, Any]):
    """A table of a record that is like another one.

    Parameters
    ----------
    table : mapping
        All keys with their values.
    stated : mapping of str to Statement
        Of the keys that another record states, who does.
    """

    def __init__(self, table: Mapping[str, Any], stated: Mapping[str, Statement]) -> None:
        super().__init__(table)
        self.stated = stated

    @cached_property
    def count(self) -> int:
        """How many values it holds, those of tables and lists in it too."""
        return sum(map(count_of, self.values()))


def count_of(value: Any) -> int:  # noqa: ANN401 - whatever a table holds
    """Count the values in a value, which may be a table or a list.

    Parameters
    ----------
    value : object
        As parsed.

    Returns
    -------
    int
    """
    if isinstance(value, InheritedTable):
        return value.count
    return 1 + sum(map(count_of, _inside(value)))


def _inside(value: Any) -> Iterator[Any]:  # noqa: ANN401 - as above
    if isinstance(value, dict):
        yield from value.values()
    elif isinstance(value, list):
        yield from value


def leaving_out(table: Mapping[str, Any], keys: Collection[str]) -> dict[str, Any]:
    """Return a table without some of its keys; who states the others is kept.

    Parameters
    ----------
    table : mapping
        The table.
    keys : collection of str
        What to leave out.

    Returns
    -------
    dict
    """
    kept = {key: value for key, value in table.items() if key not in keys}
    return InheritedTable(kept, table.stated) if isinstance(table, InheritedTable) else kept


def axles_by_place(chassis: Mapping[str, Any]) -> dict[str, InheritedTable]:
    """Return the axles that may be taken of a chassis.

    Parameters
    ----------
    chassis : mapping
        Its table.

    Returns
    -------
    dict of str to InheritedTable
        By their place.
    """
    axles = chassis.get(AXLES)
    found = axles if isinstance(axles, list) else []
    return {str(axle.get("place")): axle for axle in found if isinstance(axle, InheritedTable)}


def laid_over(own: Mapping[str, Any], base: InheritedTable) -> InheritedTable:
    """Lay a table over what it takes of another record, and tables in it over those there.

    Parameters
    ----------
    own : mapping
        The table; in it, a figure with its source and a table of another kind take the place
        of what is there.
    base : InheritedTable
        What it takes.

    Returns
    -------
    InheritedTable
    """
    kept, stated = dict(base), dict(base.stated)
    for key, value in own.items():
        other = OTHER_KEYS.get(key)
        if other is not None and other not in own:
            kept.pop(other, None)
        below = kept.get(key)
        if isinstance(below, InheritedTable) and _adds_to(value, below):
            kept[key] = laid_over(value, below)
        else:
            kept[key] = value
        stated.pop(key, None)
    return InheritedTable(kept, stated)


def _adds_to(value: Any, below: InheritedTable) -> bool:  # noqa: ANN401 - as above
    is_table = isinstance(value, dict) and "is" not in value
    return is_table and value.get("kind") == below.get("kind")


def stated_by(table: Mapping[str, Any], by: Statement) -> InheritedTable:
    """Say of every key of a table that others may take who states it.

    Parameters
    ----------
    table : mapping
        The table.
    by : Statement
        Who states it; the table may name a source of its own.

    Returns
    -------
    InheritedTable
    """
    source = table.get("source", by.source)
    here = attrs.evolve(by, source=source, at=table.get("at", by.at if source == by.source else ""))
    known = table.stated if isinstance(table, InheritedTable) else {}
    kept = {
        key: value if key in known else _stated_inside(value, here)
        for key, value in table.items()
        if key not in _NOT_INHERITED
    }
    return InheritedTable(kept, {key: known.get(key, here) for key in kept})


def _stated_inside(value: Any, by: Statement) -> Any:  # noqa: ANN401 - as above
    if isinstance(value, dict) and "is" not in value:
        return stated_by(value, by)
    return [_stated_inside(item, by) for item in value] if isinstance(value, list) else value


def cut(table: InheritedTable, steps: Sequence[str]) -> InheritedTable:
    """Leave out of a table what fields lead to.

    Parameters
    ----------
    table : InheritedTable
        The table.
    steps : sequence of str
        Fields that lead to it; of axles, their place.

    Returns
    -------
    InheritedTable

    Raises
    ------
    LookupError
        If it is not there.
    """
    step, *rest = steps
    if not rest and step in table:
        return InheritedTable(leaving_out(table, {step}), table.stated)
    inner = table[step]
    if isinstance(inner, InheritedTable):
        changed: Any = cut(inner, rest)
    else:
        changed = list(_axles_without(inner, rest))
    return InheritedTable({**table, step: changed}, table.stated)


def _axles_without(axles: Any, steps: Sequence[str]) -> Iterator[InheritedTable]:  # noqa: ANN401 - as above
    """Leave out one of some axles, or what it has."""
    place, *rest = steps
    if not isinstance(axles, list) or place not in axles_by_place({AXLES: axles}):
        raise LookupError
    for axle in axles:
        if axle.get("place") != place:
            yield axle
        elif rest:
            yield cut(axle, rest)
