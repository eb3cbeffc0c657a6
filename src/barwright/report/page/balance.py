"""The sheet for corner weights as a page: HTML that stands alone, PDF; one sheet of paper."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import attrs

from barwright.analysis.balancing.balance_answer import Balance, per_cent
from barwright.parts.common.arguments import checks_arguments
from barwright.registry.jobs.job import WorkOrder
from barwright.report.drawing.svg import title_and_description
from barwright.report.drawing.weighed_vehicle import weighed_vehicle_svg
from barwright.report.page.content import PageDrawing, filled_fields, line_of, lines_of
from barwright.report.page.html import page_html
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from barwright.report.sheet.balancing import (
    BalanceTable,
    aims,
    is_turned,
    readings,
    ride_and_roll,
    stages,
    turns,
)

__all__ = ["BalancePage", "balance_html", "balance_page", "balance_pdf"]

_NO_ORDER = WorkOrder()


@attrs.frozen(kw_only=True)
class BalanceStage:
    """Steps below a title.

    Parameters
    ----------
    title : str
        Their title.
    steps : tuple of (int, str)
        Number and text of each.
    """

    title: str
    steps: tuple[tuple[int, str], ...]


@attrs.frozen(kw_only=True)
class BalancePage:
    """What stands on the sheet; no text has a line feed or steers anything.

    Parameters
    ----------
    title, vehicle : str
        What it is, and of which vehicle.
    headlines : tuple of str
        The answer: which nut, how many turns, which way and seen from where.
    fields, noted : tuple of str
        What to write at the head of the page, and what was noted of the vehicle.
    picture : tuple of PageDrawing
        The vehicle from above; none where no scale was read.
    cautions, findings : tuple of str
        What may hurt, and what must be known.
    stages : tuple of BalanceStage
        What is done.
    readings, ride, aims : tuple of BalanceTable
        With room to write; frequencies and roll; what else the nuts can give. None or one each.
    rests_on : str
        What is invented; empty if nothing is.
    paper : {"a4", "letter"}
        Size of the paper.
    """

    title: str
    vehicle: str
    headlines: tuple[str, ...]
    fields: tuple[str, ...]
    noted: tuple[str, ...]
    picture: tuple[PageDrawing, ...]
    cautions: tuple[str, ...]
    findings: tuple[str, ...]
    stages: tuple[BalanceStage, ...]
    readings: tuple[BalanceTable, ...]
    ride: tuple[BalanceTable, ...]
    aims: tuple[BalanceTable, ...]
    rests_on: str
    paper: Paper


@checks_arguments
def balance_html(
    answer: Balance,
    *,
    vehicle: str = "",
    order: WorkOrder = _NO_ORDER,
    rests_on: str = "",
    paper: Paper = "a4",
) -> str:
    """Write the sheet for corner weights as HTML, which needs nothing beside it and runs nothing.

    Parameters
    ----------
    answer : Balance
        The answer.
    vehicle : str
        What the vehicle is called.
    order : WorkOrder
        Whose vehicle it is.
    rests_on : str
        What else to say of its figures, such as that they are invented.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    str

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    page = balance_page(answer, vehicle=vehicle, order=order, rests_on=rests_on, paper=paper)
    return page_html(page, "balance.html")


@checks_arguments
def balance_pdf(
    answer: Balance,
    *,
    vehicle: str = "",
    order: WorkOrder = _NO_ORDER,
    rests_on: str = "",
    paper: Paper = "a4",
) -> bytes:
    """Write the sheet for corner weights as a PDF of one page.

    Parameters
    ----------
    answer : Balance
        The answer.
    vehicle : str
        What the vehicle is called.
    order : WorkOrder
        Whose vehicle it is.
    rests_on : str
        What else to say of its figures, such as that they are invented.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    bytes
        The same for the same answer.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    page = balance_page(answer, vehicle=vehicle, order=order, rests_on=rests_on, paper=paper)
    return page_pdf(page, "balance.typ")


def balance_page(
    answer: Balance,
    *,
    vehicle: str = "",
    order: WorkOrder = _NO_ORDER,
    rests_on: str = "",
    paper: Paper = "a4",
) -> BalancePage:
    """Lay out the sheet for corner weights for a page.

    Parameters
    ----------
    answer : Balance
        The answer.
    vehicle : str
        What the vehicle is called.
    order : WorkOrder
        Whose vehicle it is.
    rests_on : str
        What else to say of its figures, such as that they are invented.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    BalancePage
    """
    numbered = itertools.count(1)
    return BalancePage(
        title="Corner weights",
        vehicle=line_of(vehicle),
        headlines=lines_of(_headlines(answer)),
        fields=tuple(filled_fields(order)),
        noted=lines_of(order.noted),
        picture=tuple(_picture(answer)),
        cautions=lines_of(caution.text for caution in answer.cautions),
        findings=lines_of(finding.line for finding in answer.further_findings),
        stages=tuple(
            BalanceStage(title=title, steps=tuple((next(numbered), line_of(s)) for s in steps))
            for title, steps in stages(answer)
        ),
        readings=tuple(_if_any(readings(answer))) if is_turned(answer) else (),
        aims=tuple(_if_any(aims(answer))),
        ride=tuple(_if_any(ride_and_roll(answer.ride_and_roll))),
        rests_on=line_of(rests_on),
        paper=paper,
    )


def _headlines(answer: Balance) -> Iterator[str]:
    """Give each nut a line of its own, which is read at a glance."""
    if not is_turned(answer):
        yield answer.headline
        return
    *moves, last = turns(answer)
    yield from moves
    then = answer.preferred
    now = "" if answer.cross_weight is None else f" ({per_cent(answer.cross_weight)} now)"
    yield (
        f"{last} Cross weight then {100.0 * then.cross_weight:.1f} ± "
        f"{per_cent(then.cross_uncertainty)}{now}."
    )


def _picture(answer: Balance) -> Iterator[PageDrawing]:
    if answer.scales:
        svg = weighed_vehicle_svg(answer)
        title, description = title_and_description(svg)
        yield PageDrawing(title=line_of(title), alt=line_of(description), svg=svg, width=4)


def _if_any(table: BalanceTable) -> Iterator[BalanceTable]:
    """Return a table that is safe to print, if it has rows."""
    if table.rows:
        yield attrs.evolve(
            table, columns=lines_of(table.columns), rows=tuple(map(lines_of, table.rows))
        )
