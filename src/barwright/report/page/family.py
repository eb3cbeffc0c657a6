"""The family chart as a page: HTML that stands alone, PDF."""

from __future__ import annotations

import attrs

from barwright.family.chart import FamilyChart
from barwright.parts.common.arguments import checks_arguments
from barwright.report.family.picture import family_svg
from barwright.report.family.tables import ChartTable, chart_tables, not_offered_lines
from barwright.report.family.words import NOT_OFFERED, notes_of
from barwright.report.page.content import PageDrawing, line_of, lines_of
from barwright.report.page.html import page_html
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf

__all__ = ["FamilyPage", "family_html", "family_page", "family_pdf"]


@attrs.frozen(kw_only=True)
class FamilyPage:
    """What stands on the page of a family chart; no text has a line feed or steers anything.

    Parameters
    ----------
    title, vehicle : str
        What it is, and of which vehicles.
    headlines : tuple of str
        The answer.
    fields : tuple of str
        What to write at the head of the page: nothing.
    picture : PageDrawing
        All bars by all wheelbases.
    tables : tuple of ChartTable
        The figures of each group of lines.
    notes : tuple of str
        What the cells mean, and what is left out.
    not_offered_heading : str
        What stands above what is not offered.
    not_offered : tuple of str
        What is not offered, with the reasons.
    rests_on : str
        Which packs hold invented figures; empty if none does.
    paper : {"a4", "letter"}
        Size of the pages.
    """

    title: str
    vehicle: str
    headlines: tuple[str, ...]
    fields: tuple[str, ...] = ()
    picture: PageDrawing
    tables: tuple[ChartTable, ...]
    notes: tuple[str, ...]
    not_offered_heading: str = NOT_OFFERED
    not_offered: tuple[str, ...]
    rests_on: str
    paper: Paper


@checks_arguments
def family_html(chart: FamilyChart, *, rests_on: str = "") -> str:
    """Write a family chart as a page of HTML, which needs nothing beside it and runs nothing.

    Parameters
    ----------
    chart : FamilyChart
        The chart.
    rests_on : str
        What else to say of its figures, such as that they are invented.

    Returns
    -------
    str

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_html(family_page(chart, rests_on=rests_on), "family.html")


@checks_arguments
def family_pdf(chart: FamilyChart, *, rests_on: str = "", paper: Paper = "a4") -> bytes:
    """Write a family chart as a PDF.

    Parameters
    ----------
    chart : FamilyChart
        The chart.
    rests_on : str
        What else to say of its figures, such as that they are invented.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    bytes
        The same for the same chart.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_pdf(family_page(chart, rests_on=rests_on, paper=paper), "family.typ")


def family_page(chart: FamilyChart, *, rests_on: str = "", paper: Paper = "a4") -> FamilyPage:
    """Lay out a family chart for a page.

    Parameters
    ----------
    chart : FamilyChart
        The chart.
    rests_on : str
        What else to say of its figures.
    paper : {"a4", "letter"}
        Size of the pages.

    Returns
    -------
    FamilyPage
    """
    return FamilyPage(
        title="Family chart",
        vehicle=line_of(chart.family),
        headlines=lines_of([chart.headline]),
        picture=PageDrawing(
            title=line_of(chart.family), alt=line_of(chart.headline), svg=family_svg(chart), width=6
        ),
        tables=tuple(map(_safe, chart_tables(chart))),
        notes=lines_of(notes_of(chart)),
        not_offered=lines_of(not_offered_lines(chart)),
        rests_on=line_of(rests_on),
        paper=paper,
    )


def _safe(table: ChartTable) -> ChartTable:
    return ChartTable(
        title=line_of(table.title),
        columns=lines_of(table.columns),
        units=lines_of(table.units),
        rows=tuple(map(lines_of, table.rows)),
    )
