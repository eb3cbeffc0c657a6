"""What is known of a corner and what to measure, for a person at a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from barwright.analysis.across.needs import FigureState, Needs, NeedsRow
from barwright.report.text.layout.page import Page, page_of
from barwright.report.text.layout.tables import Grid, finding_lines, table
from barwright.units import shown

__all__ = ["needs_row", "needs_text"]


def needs_text(answer: Needs, *, every: bool = False) -> Page:
    """Show what is missing and what is unsure, with tool and place of measuring.

    Parameters
    ----------
    answer : Needs
        The answer.
    every : bool
        Whether the figures that are known well enough are shown too.

    Returns
    -------
    Page
    """
    by_state = {
        "Missing": [row for row in answer.rows if row.state is FigureState.MISSING],
        "Assumed": [row for row in answer.rows if row.state is FigureState.ASSUMED],
        "Worth measuring again; correct with an overlay": [
            row for row in answer.rows if row.state is FigureState.UNSURE
        ],
        "Known": [row for row in answer.rows if every and row.state is FigureState.KNOWN],
    }
    parts = [_grid(title, rows) for title, rows in by_state.items() if rows]
    return page_of(answer, *parts, findings=finding_lines("note", answer.findings))


def needs_row(answer: Needs) -> dict[str, str]:
    """Sum a corner up in a row: how many figures are missing, and which is first."""
    first = next(iter((*answer.missing, *answer.unsure)), None)
    return {
        "missing": str(len(answer.missing)),
        "measure first": first.named if first else "nothing",
        "with": first.tool if first else "",
    }


def _grid(title: str, rows: Iterable[NeedsRow]) -> Grid:
    found = table("figure", "where", "with", "known", "key", title=title)
    for row in rows:
        found.add_row(row.named, row.where, row.tool, _known(row), row.key)
    return found


def _known(row: NeedsRow) -> str:
    """Say what is known of a figure, and the share of a ± that comes from it."""
    if row.value is None:
        return "unknown" if row.state is FigureState.MISSING else ""
    half = "" if row.half_width is None else f" ± {shown(row.half_width)}"
    share = f" ({row.percent:.0f} %)" if row.percent >= 1.0 else ""
    return f"{shown(row.value)}{half}{share}"
