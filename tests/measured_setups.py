"""Setups whose figures are all measured, but for those that a test invents or estimates."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, TypeAlias

import attrs

import barwright as bw
from barwright.parts.common.record import Record
from barwright.parts.common.source import About
from barwright.units import quantity_of_unit

__all__ = [
    "BENCH",
    "ESTIMATE",
    "INVENTION",
    "estimates_of",
    "with_estimated",
    "with_invented",
]

BENCH = "t:bench"
"""Source of all figures that are measured."""

INVENTION = "t:dream"
"""Source of those that are invented."""


ESTIMATE = "t:usual"
"""Source of those that are estimated."""

_KIND = bw.parts.SourceKind.ESTIMATED.value

_Change: TypeAlias = dict[str, Any]
_MEASURED: _Change = {
    "source": BENCH,
    "source_kind": bw.parts.SourceKind.MEASURED,
    "key": "k",
}


def with_invented(setup: bw.Setup, *paths: str) -> bw.Setup:
    """The corner with figures that are invented, by the fields that lead to them."""
    change = {"source": INVENTION, "source_kind": bw.parts.SourceKind.INVENTED}
    return _known(setup, dict.fromkeys(paths, change))


def with_estimated(setup: bw.Setup, ranges: Mapping[str, str]) -> bw.Setup:
    """The corner with figures that are estimated, each with its range."""
    kind = bw.parts.SourceKind.ESTIMATED
    return _known(
        setup,
        {
            path: {
                "source": ESTIMATE,
                "source_kind": kind,
                "tolerance": _figure(half_width),
            }
            for path, half_width in ranges.items()
        },
    )


def estimates_of(found: Iterable[bw.answers.UnmeasuredSource]) -> list[str]:
    """Figures of the one estimated source among some, none if there is none."""
    named = [[one.figure for one in source.figures] for source in found if source.kind == _KIND]
    assert all(source.source == ESTIMATE for source in found if source.kind == _KIND)
    return named[0] if named else []


def _figure(text: str) -> bw.Quantity:
    number, unit = text.split(" ")
    return quantity_of_unit(float(number), unit)


def _known(setup: bw.Setup, changes: Mapping[str, _Change]) -> bw.Setup:
    known = _sourced(setup, "", changes)
    assert isinstance(known, bw.Setup)
    return known


def _sourced(value: Any, path: str, known: Mapping[str, _Change]) -> Any:
    """A record with a source for each figure in it."""
    if isinstance(value, tuple):
        items = enumerate(value)
        return tuple(_sourced(item, f"{path}.{index}", known) for index, item in items)
    if not attrs.has(type(value)) or path.startswith("chassis"):
        return value
    changes: dict[str, Any] = {}
    for field in attrs.fields(type(value)):
        inner = getattr(value, field.name)
        below = f"{path}.{field.name}".strip(".")
        if field.name != "about" and (attrs.has(type(inner)) or isinstance(inner, tuple)):
            changes[field.name] = _sourced(inner, below, known)
    if isinstance(value, Record):
        changes["about"] = About(
            {
                name: attrs.evolve(one, **(_MEASURED | known.get(f"{path}.{name}".strip("."), {})))
                for name, one in value.about.items()
            }
        )
    return attrs.evolve(value, **{n: c for n, c in changes.items() if c is not getattr(value, n)})
