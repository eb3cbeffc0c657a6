"""The measuring sheet as a page: HTML that stands alone, PDF, Markdown."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.across.needs import Needs
from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.report.page.html import page_html
from barwright.report.page.markdown import escaped
from barwright.report.page.measuring import (
    MeasuringAxle,
    MeasuringPage,
    MeasuringRow,
    measuring_page,
)
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from barwright.units import System

__all__ = ["needs_html", "needs_markdown", "needs_pdf"]


@checks_arguments
def needs_html(
    answers: Sequence[Needs], *, every: bool = False, paper: Paper = "a4", system: System = "metric"
) -> str:
    """Write a measuring sheet as a page of HTML, which needs nothing beside it and runs nothing.

    Parameters
    ----------
    answers : sequence of Needs
        What is known of each corner of one vehicle.
    every : bool
        Whether figures that are known well are on it too.
    paper : {"a4", "letter"}
        Size of the paper.
    system : {"metric", "inch"}
        Units that are written in.

    Returns
    -------
    str

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_html(_page(answers, every=every, paper=paper, system=system), "measuring.html")


@checks_arguments
def needs_pdf(
    answers: Sequence[Needs], *, every: bool = False, paper: Paper = "a4", system: System = "metric"
) -> bytes:
    """Write a measuring sheet as a PDF.

    Parameters
    ----------
    answers : sequence of Needs
        What is known of each corner of one vehicle.
    every : bool
        Whether figures that are known well are on it too.
    paper : {"a4", "letter"}
        Size of the paper.
    system : {"metric", "inch"}
        Units that are written in.

    Returns
    -------
    bytes
        The same for the same answers.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_pdf(_page(answers, every=every, paper=paper, system=system), "measuring.typ")


@checks_arguments
def needs_markdown(
    answers: Sequence[Needs], *, every: bool = False, system: System = "metric"
) -> str:
    """Write a measuring sheet in Markdown, without its drawings.

    Parameters
    ----------
    answers : sequence of Needs
        What is known of each corner of one vehicle.
    every : bool
        Whether figures that are known well are on it too.
    system : {"metric", "inch"}
        Units that are written in.

    Returns
    -------
    str
        No text of a pack or a job is read as Markdown or HTML.
    """
    return "\n".join(_markdown(_page(answers, every=every, system=system)))


def _page(
    answers: Sequence[Needs], *, every: bool, system: System, paper: Paper = "a4"
) -> MeasuringPage:
    if not answers:
        raise SchemaError(
            "S207",
            value="no answer",
            expected="at least one",
            remedy="pass [needs(setup)]",
            key="answers",
        )
    return measuring_page(answers, every=every, paper=paper, system=system)


# -- Markdown ----------------------------------------------------------------------------


def _markdown(page: MeasuringPage) -> Iterator[str]:
    for headline in page.headlines:
        yield from (f"**{escaped(headline)}**", "")
    yield from (f"# {escaped(f'{page.title}: {page.vehicle}')}", "")
    yield from (f"{' · '.join(f'{field}: {_LINE}' for field in page.fields)}", "")
    yield from (f"- {escaped(line)}" for line in page.advice)
    yield ""
    for axle in page.axles:
        yield from _tables(axle)
    yield from (escaped(page.typing), "")


def _tables(axle: MeasuringAxle) -> Iterator[str]:
    for table in axle.tables:
        title = table.title.partition(" (")[0]
        yield from (f"## {escaped(title)}", "")
        yield f"| figure | where | tool | {' | '.join(axle.corners)} | key |"
        yield f"| --- | --- | --- |{' --- |' * len(axle.corners)} --- |"
        for row in table.rows:
            texts = (row.figure, row.where, row.tool, *_blanks(row), row.key)
            yield f"| {' | '.join(map(escaped, texts))} |"
        yield ""


_LINE = r"\_\_\_\_\_\_\_\_"


def _blanks(row: MeasuringRow) -> Iterator[str]:
    for known in row.known:
        unit = row.written_in
        blank = f"______ {unit} ± ____ {unit}" if unit else "______"
        yield f"{blank} ({known})" if known else blank
