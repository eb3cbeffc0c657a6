"""An inline table of a job file as the whole table of a record, what it leaves out unknown."""

from __future__ import annotations

import typing
from collections.abc import Mapping
from typing import Any

import attrs

from barwright.parts.adjuster import Adjuster
from barwright.parts.chassis import Axle
from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Part, Record
from barwright.parts.spline import BarEnd, Socket
from barwright.registry.packs.format.keys import has_kinds, key_of, kinds_of
from barwright.units import UNKNOWN

__all__ = ["completed_table"]

# Words that a record must have and that a job may leave out: whoever reads the job asks for
# those that an answer could rest on.
_WORDS: Mapping[type[Record], Mapping[str, Any]] = {
    BarEnd: {"form": UNKNOWN},
    Socket: {"form": UNKNOWN},
    Adjuster: {"lever_lies": "droopward"},
    Axle: {
        "place": "front",
        "bar_axis": [1.0, 0.0, 0.0],
        "arm_direction": [0.0, 1.0, 0.0],
        "entry": "anchor end",
        "suspension": {"kind": "swing-arm"},
        "load_at": "hub",
    },
}


def completed_table(table: Mapping[str, Any], cls: type[Any]) -> dict[str, Any]:
    """Add to a table what makes it that of a record of which nothing else is known.

    A figure that has a default in a pack, like a spacer of 0 mm, is unknown too if it is left
    out: nobody has said that there is none.

    Parameters
    ----------
    table : mapping
        The table, as parsed.
    cls : type
        Class of the record.

    Returns
    -------
    dict
    """
    own = {**_WORDS.get(cls, {}), **table}
    hints = typing.get_type_hints(cls)
    for field in attrs.fields(cls):
        key = key_of(field.name)
        is_optional = field.default is None
        if field.name in known_or_not(cls):
            own |= {} if key in own or is_optional else {key: UNKNOWN}
        elif key in own or not is_optional:
            own |= _inner(key, own, hints[field.name])
    return own


def _inner(key: str, own: Mapping[str, Any], hint: Any) -> dict[str, Any]:  # noqa: ANN401 - a type
    """Complete what stands under a key, if that is a record."""
    cls = _record_of(hint, own.get(key, {}))
    if cls is None:
        return {}
    if issubclass(cls, Part):
        return {key: own.get(key, UNKNOWN)}
    held = own.get(key, {})
    return {key: completed_table(held, cls) if isinstance(held, dict) else held}


def _record_of(hint: Any, held: Any) -> type[Record] | None:  # noqa: ANN401 - a type, a value
    """Return the class of a record under a key; none for anything else."""
    if has_kinds(hint):
        kind = held.get("kind") if isinstance(held, dict) else None
        return kinds_of(hint).get(str(kind))
    members = typing.get_args(hint) or (hint,)
    found = [one for one in members if isinstance(one, type) and issubclass(one, Record)]
    return found[0] if found else None
