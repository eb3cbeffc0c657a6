"""Vehicles, parts and rows of answers at a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import RenderableType

from barwright.parts.chassis import Chassis
from barwright.parts.record import Part
from barwright.registry.search.distinguish import built_text
from barwright.report.text.tables import table
from barwright.units import shown

__all__ = ["parts_text", "rows_text", "vehicles_text"]


def vehicles_text(vehicles: Sequence[Chassis]) -> RenderableType:
    """Show vehicles."""
    rows = table("vehicle", "title", "built", "codes", "wheelbase", "axles")
    for chassis in vehicles:
        rows.add_row(
            chassis.id,
            chassis.title,
            built_text(chassis),
            ", ".join(chassis.codes),
            shown(chassis.wheelbase, 0),
            ", ".join(axle.place.value for axle in chassis.axles),
        )
    return rows


def parts_text(parts: Sequence[Part]) -> RenderableType:
    """Show parts, with the figures that tell bars, dampers and tubes apart."""
    rows = table("part", "title", "figures")
    for part in parts:
        named = [
            f"{name.replace('_', ' ')} {shown(value, 1)}"
            for name in _TELLING
            if (value := getattr(part, name, None)) is not None
        ]
        rows.add_row(part.id, part.title, ", ".join(named))
    return rows


_TELLING = (
    *("diameter", "bore", "length", "open_length", "closed_length"),
    *("outside_diameter", "socket_position", "radius"),
)


def rows_text(answers: Sequence[dict[str, str]]) -> RenderableType:
    """Show answers as rows of one table; all have the same columns."""
    rows = table(*answers[0])
    # What tells the rows apart stays on one line.
    rows.columns[0].no_wrap = True
    for answer in answers:
        rows.add_row(*answer.values())
    return rows
