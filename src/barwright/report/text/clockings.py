"""Clockings at a terminal, where a whole plan needs more figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.reindex.clocking import Clocking, EndClocking
from barwright.analysis.tolerance.shifted_answers import COVERAGE_TEXT
from barwright.report.drawing.bar_end_view import viewer
from barwright.report.sheet.steps.adjustment import words_of
from barwright.report.text.layout.tables import Grid, pairs
from barwright.units import shown

__all__ = ["clocking_tables"]


def clocking_tables(clockings: Sequence[Clocking]) -> Iterator[Grid]:
    """Show each clocking under its number."""
    for number, clocking in enumerate(clockings, start=1):
        yield pairs(*_rows(clocking), title=f"Clocking {number}")


def _rows(clocking: Clocking) -> Iterator[tuple[str, str]]:
    yield "teeth to remove", str(clocking.cuts)
    for end in clocking.ends:
        yield from _end(end)
    words = words_of(clocking.turned_part)
    yield f"{words.what} from the middle, clockwise positive", shown(clocking.nut_turns, 2)
    yield f"{words.what}, measured to the {words.point}", shown(clocking.pin_distance, 1)
    yield "to the nearest flat", f"± {shown(clocking.pin_rounding, 2)}"
    if clocking.pin_uncertainty.magnitude != 0.0:
        open_by = f"± {shown(clocking.pin_uncertainty, 2)}"
        yield f"by the tolerances, {COVERAGE_TEXT}", open_by
    yield "turns to spare clockwise", shown(clocking.turns_left_clockwise, 1)
    yield "turns to spare counter-clockwise", shown(clocking.turns_left_counter_clockwise, 1)
    raising = f"one turn {clocking.raising_sense.value} raises by"
    rise = clocking.height_per_turn
    yield raising, "not known" if rise is None else shown(rise, 2).removesuffix("/turn")


def _end(end: EndClocking) -> Iterator[tuple[str, str]]:
    """Say which tooth of an end goes on the key."""
    name = end.end.value
    yield name, end.action.value
    if end.direction is not None:
        yield f"{name}, counted from", end.tooth_datum.value
        yield f"{name}, tooth to go on the key", f"{end.tooth} {end.direction.value}"
        yield f"{name}, seen", viewer(end).removeprefix("seen ")
