"""Setups whose figures are all measured, but for those that a test invents."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

import attrs

import barwright as bw
from barwright.parts.record import Record
from barwright.parts.source import About

__all__ = ["BENCH", "INVENTION", "with_invented"]

BENCH = "t:bench"
"""Source of all figures that are measured."""

INVENTION = "t:dream"
"""Source of those that are invented."""


def with_invented(setup: bw.Setup, *paths: str) -> bw.Setup:
    """The corner with figures that are invented, by the fields that lead to them."""
    known = _sourced(setup, "", frozenset(paths))
    assert isinstance(known, bw.Setup)
    return known


def _sourced(value: Any, path: str, invented: Collection[str]) -> Any:
    """A record with a source for each figure in it."""
    if isinstance(value, tuple):
        items = enumerate(value)
        return tuple(_sourced(item, f"{path}.{index}", invented) for index, item in items)
    if not attrs.has(type(value)) or path.startswith("chassis"):
        return value
    changes: dict[str, Any] = {}
    for field in attrs.fields(type(value)):
        inner = getattr(value, field.name)
        below = f"{path}.{field.name}".strip(".")
        if field.name != "about" and (attrs.has(type(inner)) or isinstance(inner, tuple)):
            changes[field.name] = _sourced(inner, below, invented)
    if isinstance(value, Record):
        changes["about"] = About(
            {name: _figure(one, f"{path}.{name}" in invented) for name, one in value.about.items()}
        )
    return attrs.evolve(value, **{n: c for n, c in changes.items() if c is not getattr(value, n)})


def _figure(figure: bw.parts.Figure, is_invented: bool) -> bw.parts.Figure:  # noqa: FBT001 - of one figure
    kind = bw.parts.SourceKind.INVENTED if is_invented else bw.parts.SourceKind.MEASURED
    return attrs.evolve(
        figure, source=INVENTION if is_invented else BENCH, source_kind=kind, key="k"
    )
