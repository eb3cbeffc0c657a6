"""Records for tests with figures that nobody knows."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from barwright.parts.common.fields import known_or_not
from barwright.parts.common.record import Record

__all__ = ["with_only", "without"]


def without(record: Any, path: str) -> Any:
    """A record with one of its figures unknown, by the fields that lead to it."""
    step, _, rest = path.partition(".")
    inner = without(getattr(record, step), rest) if rest else "unknown"
    return attrs.evolve(record, **{step: inner})


def with_only(setup: bw.Setup, keep: set[str]) -> bw.Setup:
    """The corner with every figure unknown but some, by the fields that lead to them."""
    only = {name: _only(getattr(setup, name), name, keep) for name in setup.parts}
    load = _only(setup.load, "load", keep)
    return attrs.evolve(setup, **only, load=load, axle=_only(setup.axle, "axle", keep))


def _only(value: Any, path: str, keep: set[str]) -> Any:
    if not isinstance(value, Record):
        return value
    changes: dict[str, Any] = {}
    for field in attrs.fields(type(value)):
        below, inner = f"{path}.{field.name}", getattr(value, field.name)
        if field.name in known_or_not(type(value)) and inner is not None:
            changes |= {} if below in keep else {field.name: "unknown"}
        elif field.name not in ("left", "right", "about"):
            changes |= {field.name: _only(inner, below, keep)}
    return attrs.evolve(value, **changes)
