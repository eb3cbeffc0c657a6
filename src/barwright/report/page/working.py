"""A working on paper: HTML that stands alone, and PDF, with its equations set."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.working.working import Working
from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.report.equations.boxes import Box, boxes, name_box, pieces
from barwright.report.equations.content import (
    GivenRow,
    PageSection,
    SetLine,
    Side,
    WorkingPage,
    heading_of,
    working_pages,
)
from barwright.report.equations.mathml import mathml
from barwright.report.page.html import page_html
from barwright.report.page.paper import Paper
from barwright.report.page.pdf import page_pdf
from barwright.report.safe_text import one_line

__all__ = ["working_html", "working_pdf"]

_FIELDS = ("Computed for", "Checked by", "Date", "Signature")


def _lines(texts: Iterable[str]) -> tuple[str, ...]:
    """Make what packs and jobs say safe to show."""
    return tuple(map(one_line, texts))


@attrs.frozen
class PaperPiece:
    """A piece of a row: text, or an equation's side in boxes and as MathML."""

    text: str = ""
    boxes: tuple[Box, ...] = ()
    mathml: str = ""


@attrs.frozen
class PaperRow:
    """A row of a step: what stands before it, and its pieces, equal to each other."""

    mark: str
    pieces: tuple[PaperPiece, ...]


@attrs.frozen
class PaperStep:
    """A step of the working."""

    heading: str
    symbol: PaperPiece
    rows: tuple[PaperRow, ...]


@attrs.frozen
class PaperGiven:
    """A figure that is put in."""

    symbol: PaperPiece
    words: str
    value: str
    origin: str = attrs.field(converter=one_line)


@attrs.frozen
class PaperSection:
    """A section of the working."""

    title: str
    given: tuple[PaperGiven, ...]
    steps: tuple[PaperStep, ...]


@attrs.frozen
class PaperCorner:
    """The working of one corner, or of corners that have the same."""

    title: str = attrs.field(converter=one_line)
    headline: str = attrs.field(converter=one_line)
    findings: tuple[str, ...] = attrs.field(converter=_lines)
    sections: tuple[PaperSection, ...]
    sources: tuple[str, ...]


@attrs.frozen(kw_only=True)
class WorkingOnPaper:
    """What stands on the sheets.

    Parameters
    ----------
    title, vehicle : str
        What it is, and of what.
    headlines : tuple of str
        What it comes to.
    fields : tuple of str
        Lines to write and to sign on.
    paper : {"a4", "letter"}
        Size of the paper.
    notes : tuple of str
        How it is to be read.
    corners : tuple of PaperCorner
        The workings.
    """

    title: str
    vehicle: str = attrs.field(converter=one_line)
    headlines: tuple[str, ...] = attrs.field(converter=_lines)
    fields: tuple[str, ...]
    paper: Paper
    notes: tuple[str, ...]
    corners: tuple[PaperCorner, ...]


@checks_arguments
def working_html(answers: Sequence[Working], *, paper: Paper = "a4") -> str:
    """Write workings as a page of HTML with MathML, which needs nothing and runs nothing.

    Parameters
    ----------
    answers : sequence of Working
        The working of each corner of one vehicle.
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
    return page_html(_on_paper(answers, paper), "working.html")


@checks_arguments
def working_pdf(answers: Sequence[Working], *, paper: Paper = "a4") -> bytes:
    """Write workings as a PDF.

    Parameters
    ----------
    answers : sequence of Working
        The working of each corner of one vehicle.
    paper : {"a4", "letter"}
        Size of the paper.

    Returns
    -------
    bytes
        The same for the same answers.

    Raises
    ------
    MissingExtraError
        X101 if the extra ``report`` is not installed.
    """
    return page_pdf(_on_paper(answers, paper), "working.typ")


def _on_paper(answers: Sequence[Working], paper: Paper) -> WorkingOnPaper:
    if not answers:
        raise SchemaError(
            "S207",
            value="no answer",
            expected="at least one",
            remedy="pass [working(setup)]",
            key="answers",
        )
    pages = working_pages(answers)
    first = pages[0]
    return WorkingOnPaper(
        title="Working",
        vehicle=first.answer.vehicle,
        headlines=tuple(dict.fromkeys(page.answer.headline for page in pages)),
        fields=_FIELDS,
        paper=paper,
        notes=first.notes,
        corners=tuple(map(_corner, pages)),
    )


def _corner(page: WorkingPage) -> PaperCorner:
    return PaperCorner(
        title=page.title,
        headline=page.answer.headline,
        findings=tuple(finding.line for finding in page.answer.further_findings),
        sections=tuple(map(_section, page.sections)),
        sources=page.sources,
    )


def _section(section: PageSection) -> PaperSection:
    given = tuple(map(_given, section.given))
    return PaperSection(section.title, given, tuple(map(_step, section.lines)))


def _given(row: GivenRow) -> PaperGiven:
    return PaperGiven(_piece_of(name_box(row.symbol)), row.words, row.value, row.origin)


def _step(line: SetLine) -> PaperStep:
    symbol = _piece_of(name_box(line.symbol)) if line.symbol else PaperPiece()
    return PaperStep(heading_of(line), symbol, tuple(_rows(line)))


def _rows(line: SetLine) -> Iterator[PaperRow]:
    marks = ("", "left: ", "right: ") if not line.symbol else ("=",) * len(line.rows)
    for mark, row in zip(marks, line.rows, strict=True):
        yield PaperRow(mark, tuple(map(_piece, row)))


def _piece(piece: str | Side) -> PaperPiece:
    if isinstance(piece, str):
        return PaperPiece(text=piece)
    return _piece_of(boxes(piece.tree, piece.writing, in_degrees=piece.in_degrees))


def _piece_of(box: Box) -> PaperPiece:
    return PaperPiece(boxes=tuple(pieces(box)), mathml=mathml(box))
