"""How a vehicle is balanced, for a person at the scales: figures, then a short sheet."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from barwright.analysis.balancing.balance_answer import Balance, per_cent
from barwright.report.sheet.balancing import (
    BalanceTable,
    aims,
    is_turned,
    readings,
    ride_and_roll,
    stages,
)
from barwright.report.text.layout.page import Page, Section, page_of
from barwright.report.text.layout.tables import (
    Block,
    finding_lines,
    marked,
    or_none,
    pairs,
    table,
)
from barwright.units import Quantity, shown

__all__ = ["balance_text"]


def balance_text(answer: Balance) -> Page:
    """Show how a vehicle stands, what each aim costs, and the sheet for the preferred one.

    Parameters
    ----------
    answer : Balance
        The answer.

    Returns
    -------
    Page
    """
    label = "note" if answer.is_answered else "because"
    findings = (
        *finding_lines(label, answer.further_findings),
        *(marked("!", caution.text) for caution in answer.cautions),
    )
    return page_of(
        answer,
        *_standing(answer),
        *_shown(aims(answer)),
        *_sheet(answer),
        *_shown(ride_and_roll(answer.ride_and_roll)),
        findings=findings,
    )


def _standing(answer: Balance) -> Iterator[Block]:
    if not answer.scales:
        return
    now = table("wheel", "scale", "hub to arch", title="As it stands")
    for one in answer.scales:
        now.add_row(one.corner, shown(one.scale_reading, 0), _or_blank(one.height))
    yield now
    shares = [
        ("together", or_none(answer.total, 0)),
        ("front", _share(answer.front_share)),
        ("left", _share(answer.left_share)),
        ("cross weight", f"{_share(answer.cross_weight)} (front right and rear left)"),
    ]
    yield pairs(*shares)


def _share(share: float | None) -> str:
    return "" if share is None else per_cent(share)


def _or_blank(value: Quantity | None) -> str:
    return "" if value is None else shown(value, 0)


def _sheet(answer: Balance) -> Iterator[Block]:
    numbered = itertools.count(1)
    for title, steps in stages(answer):
        yield Section(title, tuple(marked(f"{next(numbered)}.", step) for step in steps))
    if is_turned(answer):
        yield from _shown(readings(answer))


def _shown(found: BalanceTable) -> Iterator[Block]:
    """Show a table, with a line to write on in each column for what is read."""
    if not found.rows:
        return
    made = table(*found.columns, title=found.title)
    for row in found.rows:
        cells = zip(found.columns, row, strict=True)
        made.add_row(*(_ROOM if column == "read" else cell for column, cell in cells))
    yield made


_ROOM = "_____"
