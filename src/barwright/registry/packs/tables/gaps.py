"""Figures that a record of a file may leave out: they are unknown then."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from typing import Any

import attrs

from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Record
from barwright.units import UNKNOWN

__all__ = ["gaps_of", "may_be_left_out"]


def may_be_left_out(cls: type) -> AbstractSet[str]:
    """List the figures of a record that are unknown where its table does not give them.

    Parameters
    ----------
    cls : type
        Class of the record.

    Returns
    -------
    set of str
        Fields; none for what is no record of a part or a vehicle.
    """
    return _left_out_of(cls)


def gaps_of(table: Mapping[str, Any], cls: type[Any]) -> dict[str, str]:
    """List the figures that a table leaves out or says to be unknown, with the word for it.

    Parameters
    ----------
    table : dict
        The table, as parsed.
    cls : type
        Class of the record.

    Returns
    -------
    dict
    """
    if not _may_have_gaps(cls):
        return {}
    left_out = may_be_left_out(cls) - table.keys()
    said = (name for name in known_or_not(cls) if table.get(name) == UNKNOWN)
    return dict.fromkeys((*left_out, *said), UNKNOWN)


def _may_have_gaps(cls: type[Any]) -> bool:
    return issubclass(cls, Record) and cls.MAY_HAVE_GAPS


@functools.cache
def _left_out_of(cls: Any) -> AbstractSet[str]:  # noqa: ANN401 - a class
    if not _may_have_gaps(cls):
        return frozenset()
    needed = {field.name for field in attrs.fields(cls) if field.default is attrs.NOTHING}
    return frozenset(known_or_not(cls) & needed)
