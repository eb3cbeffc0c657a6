"""Setups and vehicles whose figures are exact, for tests that look at no ±."""

from __future__ import annotations

from typing import Any, TypeVar, cast

import attrs

from barwright.parts.common.record import Record

__all__ = ["exact"]

T = TypeVar("T")


def exact(whole: T, made: dict[int, Any] | None = None) -> T:
    """The same setup, vehicle or record, the ± of each of its figures zero.

    To find an answer's ±, its question is put again at both ends of each figure that has one,
    which takes most of the time.  What was ``made`` for another whole is taken over from there.
    """
    return cast("T", _exact(whole, {} if made is None else made))


def _exact(value: Any, made: dict[int, Any]) -> Any:
    """What stands in several places of a whole is made once, and stands in them again."""
    if isinstance(value, tuple):
        return tuple(_exact(item, made) for item in value)
    if not attrs.has(type(value)):
        return value
    if id(value) not in made:
        fields = {
            field.alias: _exact(getattr(value, field.name), made)
            for field in attrs.fields(type(value))
            if field.init
        }
        if isinstance(value, Record):
            fields["about"] = {name: _without_width(known) for name, known in value.about.items()}
        made[id(value)] = type(value)(**fields)
    return made[id(value)]


def _without_width(known: Any) -> Any:
    """What is known of a figure or a fact; the former exact."""
    width = getattr(known, "tolerance", None)
    return known if width is None else attrs.evolve(known, tolerance=0.0 * width)
