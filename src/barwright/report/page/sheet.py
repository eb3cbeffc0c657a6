"""The bench sheet as a page: HTML that stands alone, PDF, Markdown."""

from __future__ import annotations

from barwright.parts.common.arguments import checks_arguments
from barwright.report.page.content import SheetPage, page_of
from barwright.report.page.drawings import page_drawings, template_drawings, thread_curves
from barwright.report.page.html import page_html
from barwright.report.page.markdown import page_markdown
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from barwright.report.sheet.sheet import BenchSheet

__all__ = ["sheet_html", "sheet_markdown", "sheet_pdf"]


@checks_arguments
def sheet_html(
    sheet: BenchSheet, *, template: bool = False, whole_thread: bool = False, paper: Paper = "a4"
) -> str:
    """Write a bench sheet as a page of HTML, which needs nothing beside it and runs nothing.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    template : bool
        Whether the marking template follows, to be printed at its own size.
    whole_thread : bool
        Whether a page follows with every turn of the adjuster's thread, and its curve.
    paper : {"a4", "letter"}
        Size of the template's pages; the sheet prints on either.

    Returns
    -------
    str

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_html(_drawn(sheet, paper, template=template, whole_thread=whole_thread))


@checks_arguments
def sheet_pdf(
    sheet: BenchSheet, *, template: bool = False, whole_thread: bool = False, paper: Paper = "a4"
) -> bytes:
    """Write a bench sheet as a PDF.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    template : bool
        Whether the marking template follows, to be printed at its own size.
    whole_thread : bool
        Whether a page follows with every turn of the adjuster's thread, and its curve.
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
    return page_pdf(_drawn(sheet, paper, template=template, whole_thread=whole_thread))


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


def _drawn(sheet: BenchSheet, paper: Paper, *, template: bool, whole_thread: bool) -> SheetPage:
    pages = tuple(template_drawings(sheet, paper)) if template else ()
    curves = tuple(thread_curves(sheet)) if whole_thread else ()
    return page_of(sheet, tuple(page_drawings(sheet)), pages, curves, paper=paper)
