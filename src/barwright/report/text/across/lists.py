"""Vehicles, parts and rows of answers at a terminal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from barwright.analysis.answer import Outcome
from barwright.parts.chassis import Chassis
from barwright.parts.claim import Claim, Claimed
from barwright.parts.common.record import Part
from barwright.registry.search.distinguish import built_text
from barwright.report.text.layout.page import Page
from barwright.report.text.layout.tables import Note, outcome_style, table
from barwright.units import shown

__all__ = ["parts_text", "rows_text", "vehicles_text"]


def vehicles_text(vehicles: Sequence[Chassis]) -> Page:
    """Show how many vehicles there are, and which."""
    rows = table("vehicle", "title", "built", "codes", "wheelbase", "axles")
    for chassis in vehicles:
        rows.add_row(
            chassis.id,
            chassis.title,
            built_text(chassis),
            ", ".join(chassis.codes),
            _wheelbase(chassis),
            ", ".join(axle.place.value for axle in chassis.axles),
        )
    return Page(headlines=(_how_many(vehicles, "vehicle"),), parts=(rows,))


def _wheelbase(chassis: Chassis) -> str:
    """Show the wheelbase, or that of each side."""
    sides = (chassis, chassis.right_side or chassis)
    return " / ".join(dict.fromkeys(shown(side.wheelbase, 0) for side in sides))


def _how_many(found: Sequence[object], what: str) -> Note:
    return Note(f"{len(found)} {what}{'s' * (len(found) != 1)}.")


def parts_text(parts: Sequence[Part], claims: Sequence[Claim] = ()) -> Page:
    """Show how many parts there are, and which, with the figures that tell them apart."""
    has_names = any(part.ordered_by for part in parts)
    further = (*(["ordered by"] if has_names else []), *(["said to fit"] if claims else []))
    rows = table("part", "title", "figures", *further)
    for part in parts:
        named = [
            f"{name.replace('_', ' ')} {shown(value, 1)}"
            for name in _TELLING
            if (value := getattr(part, name, None)) is not None
        ]
        names = [part.ordered_by] * has_names
        fits = [", ".join(_fitted(part, claims))] if claims else []
        rows.add_row(part.id, part.title, ", ".join(named), *names, *fits)
    return Page(headlines=(_how_many(parts, "part"),), parts=(rows,))


def _fitted(part: Part, claims: Sequence[Claim]) -> Sequence[str]:
    """List the vehicles that a part is said to fit, each once."""
    said = {
        name: claim.claimed is Claimed.FITS_WITH_CHANGES
        for claim in claims
        if part.id in claim.parts
        for name in claim.on
    }
    return [f"{name} with changes" if changes else name for name, changes in sorted(said.items())]


_TELLING = (
    *("diameter", "bore", "length", "open_length", "closed_length"),
    *("outside_diameter", "socket_position", "radius"),
)


def rows_text(answers: Sequence[dict[str, str]], outcomes: Sequence[Outcome]) -> Page:
    """Show answers as rows of one table, with their count; all have the same columns."""
    rows = table(*answers[0])
    # What tells the rows apart stays on one line.
    rows.whole_names = True
    for answer in answers:
        rows.add_row(*answer.values())
    return Page(headlines=(_counted(outcomes),), parts=(rows,))


def _counted(outcomes: Sequence[Outcome]) -> Note:
    """Say how many answers there are of each outcome."""
    count = Counter(outcomes)
    parts = ", ".join(f"{count[outcome]} {outcome.value}" for outcome in Outcome if count[outcome])
    worst = max(outcomes, key=list(Outcome).index)
    return Note(f"{len(outcomes)} answers: {parts}.", style=outcome_style(worst))
