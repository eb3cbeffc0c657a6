"""A pack's record with the figures of a job in the place of those that it does not know."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, TypeVar

import attrs

from barwright.errors import BarwrightError, JobError
from barwright.parts.common.fields import figure_fields, known_or_not
from barwright.parts.common.record import Record
from barwright.parts.common.source import About
from barwright.registry.jobs.collector import Collector
from barwright.registry.packs.format.keys import KIND_WORDS, key_of
from barwright.registry.packs.format.pack import KINDS
from barwright.units import is_quantity, is_unknown, shown, si

__all__ = ["filled"]

R = TypeVar("R", bound=Record)

# What a pack leaves out of these is not known; of all others, it says that there is none.
_NOT_LOOKED_FOR = ("damping_rate", "property_class")

_KINDS: Mapping[type[Record], str] = {**KIND_WORDS, **{cls: word for word, cls in KINDS.items()}}


def filled(record: R, given: Record, table: Mapping[str, Any], *, key: str) -> R:
    """Put the figures of a job into a record, where it does not know them.

    Parameters
    ----------
    record : Record
        As the pack has it.
    given : Record
        What the table of the job says.
    table : mapping
        That table, which tells what is given.
    key : str
        Where it stands in the job.

    Returns
    -------
    Record
        The same where nothing is new.

    Raises
    ------
    ExceptionGroup
        J105 for each figure that the record knows and the job gives differently.
    """
    read = Collector()
    changes: dict[str, Any] = {}
    if type(record) is not type(given):
        raise _clash(_kind(given), _kind(record), f"{key}.kind")
    for field in attrs.fields(type(record)):
        own = key_of(field.name)
        if own in table:
            place = f"{key}.{own}"
            changes[field.name] = read(_one, record, given, field.name, table[own], place)
    read.raise_problems()
    new = {name: value for name, value in changes.items() if value is not getattr(record, name)}
    known = {name: given.about[name] for name in new if name in given.about}
    try:
        changed: dict[str, Any] = new | {"about": About({**record.about, **known})}
        return attrs.evolve(record, **changed) if new else record
    except BarwrightError as error:
        raise error.within(key=key) from None


def _one(record: Record, given: Record, name: str, written: object, key: str) -> object:
    """Return what a field is to hold."""
    known, own = getattr(record, name), getattr(given, name)
    if isinstance(known, Record) and isinstance(written, Mapping) and isinstance(own, Record):
        return filled(known, own, written, key=key)
    if is_unknown(known) or (known is None and name in _NOT_LOOKED_FOR):
        return known if is_unknown(own) else own
    if is_unknown(own) or _are_same(record, name, known, own):
        return known
    raise _clash(_in_words(own), _in_words(known), key)


def _are_same(record: Record, name: str, known: object, own: object) -> bool:
    if is_quantity(known) and is_quantity(own) and name in known_or_not(type(record)):
        kind, _ = figure_fields(type(record))[name]
        return math.isclose(si(known, kind), si(own, kind), rel_tol=1e-9, abs_tol=1e-12)
    return known == own


def _clash(given: str, known: str, key: str) -> JobError:
    return JobError(
        "J105",
        value=given,
        expected=f"what the vehicle's pack says: {known}",
        remedy="leave it out, or correct the pack with an overlay (barwright explain overlays)",
        key=key,
    )


def _in_words(value: object) -> str:
    if value is None:
        return "none"
    if isinstance(value, Record):
        return _kind(value)
    return shown(value) if is_quantity(value) else str(getattr(value, "value", value))


def _kind(record: Record) -> str:
    """Name a record by what ``kind`` says of it, or else by what it is."""
    return _KINDS.get(type(record), "a table")
