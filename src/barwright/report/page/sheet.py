"""The bench sheet as a page: HTML that stands alone, PDF, Markdown."""

from __future__ import annotations

from barwright.parts.arguments import checks_arguments
from barwright.report.page.content import page_of
from barwright.report.page.drawings import page_drawings
from barwright.report.page.html import page_html
from barwright.report.page.markdown import page_markdown
from barwright.report.page.pdf import Paper, page_pdf
from barwright.report.sheet.sheet import BenchSheet

__all__ = ["sheet_html", "sheet_markdown", "sheet_pdf"]


@checks_arguments
def sheet_html(sheet: BenchSheet) -> str:
    """Write a bench sheet as a page of HTML, which needs nothing beside it and runs nothing.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.

    Returns
    -------
    str
        It prints on A4 and on Letter.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_html(page_of(sheet, tuple(page_drawings(sheet))))


@checks_arguments
def sheet_pdf(sheet: BenchSheet, *, paper: Paper = "a4") -> bytes:
    """Write a bench sheet as a PDF.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    bytes
        The same for the same sheet.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_pdf(page_of(sheet, tuple(page_drawings(sheet))), paper)


@checks_arguments
def sheet_markdown(sheet: BenchSheet) -> str:
    """Write a bench sheet in Markdown, with tables and a box to tick for each step.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.

    Returns
    -------
    str
        No text of a pack or a job is read as Markdown or HTML.
    """
    return page_markdown(page_of(sheet))
