"""Tables over the adjuster's thread at a terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.adjusting.nut_rows import NutRow
from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.adjusting.turn_for_height import NutCorrection
from barwright.report.drawing.nut_curve import nut_curve_view
from barwright.report.sheet.steps.adjustment import AdjusterWords, words_of
from barwright.report.sheet.turn_notes import turn_notes
from barwright.report.text.layout.charts import NutChart
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, finding_lines, marked, pairs, table
from barwright.units import shown
from barwright.units.nothing import is_nothing

__all__ = ["nut_row", "nut_text"]


def nut_text(answer: NutTable, *, whole_thread: bool, set_here: str) -> Page:
    """Show a table, whole or near where the nut is set.

    Parameters
    ----------
    answer : NutTable
        The answer.
    whole_thread : bool
        Whether all turns are shown, rather than five to either side.
    set_here : str
        What marks the row in which the nut is set.

    Returns
    -------
    Page
    """
    label = "note" if answer.is_answered else "because"
    findings = (
        *finding_lines(label, answer.further_findings),
        *(marked("!", caution.text) for caution in answer.cautions),
    )
    view = nut_curve_view(answer)
    if view is None or answer.verdict.is_refusal:
        return page_of(answer, findings=findings)
    words = words_of(view.turned_part)
    rows = answer.table_rows if whole_thread else answer.rows_near()
    return page_of(
        answer,
        pairs(
            ("+1", f"one turn {view.raising_sense.value}, seen from {words.seen_from}, raises"),
            (f"{words.what} at", f"{view.bolt_datum.value} to the {words.point}"),
            *_left_open(answer),
            *_correction(answer.correction),
        ),
        _heights(rows, words, set_here),
        _loads(rows, set_here),
        NutChart("Height over the thread", view, set_here),
        findings=findings,
    )


def _left_open(answer: NutTable) -> Iterator[tuple[str, str]]:
    """Say how sure the heights are, where that is known."""
    left_open = answer.height_uncertainty
    if left_open is not None and not is_nothing(left_open, digits=0):
        told = f"± {shown(left_open, 0)} by the tolerances of the figures (about 95 %)"
        yield "hub to arch", told


def _correction(found: NutCorrection | None) -> Iterator[tuple[str, str]]:
    """Say how the turn was found."""
    if found is None:
        return
    stands = shown(found.measured_height, 1)
    if found.height_offset.magnitude:
        higher = "higher" if found.height_offset.magnitude > 0.0 else "lower"
        off = shown(abs(found.height_offset), 1)
        yield "measured", f"{stands}, {off} {higher} than computed; the table is as measured"
    else:
        yield "computed", stands
    yield "wanted", shown(found.wanted_height, 1)


def _heights(rows: Sequence[NutRow], words: AdjusterWords, set_here: str) -> Grid:
    columns = ("turn", f"{words.what} at", "hub to arch", "droop to spare", "bump to spare", "note")
    grid = table(*columns, title="Where it stands")
    for row in rows:
        grid.add_row(
            _turn(row, set_here),
            shown(row.pin_distance, 1),
            shown(row.height, 1),
            shown(row.droop_left, 0),
            shown(row.bump_left, 0),
            ", ".join(turn_notes(row)),
        )
    return grid


def _loads(rows: Sequence[NutRow], set_here: str) -> Grid:
    pushed = any(row.bolt_at_ride.magnitude < 0.0 for row in rows)
    bolt = f"bolt {'pushed' if pushed else 'pulled'}"
    columns = ("turn", "from slack end", "from middle", bolt, "at full bump", "bar torque")
    grid = table(*columns, title="What it carries")
    for row in rows:
        grid.add_row(
            _turn(row, set_here),
            shown(row.from_slack_end, 2),
            shown(row.nut_turns, 2),
            shown(abs(row.bolt_at_ride), 0),
            shown(abs(row.bolt_at_bump), 0),
            shown(row.torque, 0),
        )
    return grid


def _turn(row: NutRow, set_here: str) -> str:
    return set_here if row.is_set else f"{row.raising_turns:+d}"


def nut_row(answer: NutTable) -> dict[str, str]:
    """Sum a table up in a row."""
    here = answer.set_row if answer.table_rows else None
    turn = answer.correction
    return {
        "answer": answer.verdict.value,
        "nut at": "" if here is None else shown(here.pin_distance, 1),
        "hub to arch": "" if here is None else shown(here.height, 1),
        "one turn": "" if here is None else shown(here.height_per_turn, 1),
        "turn": "" if turn is None else shown(turn.correcting_turns, 2),
    }
