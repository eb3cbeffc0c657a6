"""Bench sheets for tests of printed pages, and readers of what was printed."""

from __future__ import annotations

import functools
import io
import unicodedata
from collections.abc import Sequence
from html.parser import HTMLParser
from pathlib import Path

import attrs
import pypdf

import barwright as bw
from barwright.report.page.content import PageDrawing
from sample_packs import discovered_once

__all__ = [
    "DEMO_JOBS",
    "Read",
    "demo_sheet",
    "drawing",
    "pdf_texts",
    "read_html",
    "said",
    "spoiled",
]

_JOBS = Path(__file__).parents[1] / "docs" / "examples"
DEMO_JOBS = ("shorter-dampers", "firmer-bars", "loaded-trailer")


@functools.cache
def demo_sheet(name: str) -> bw.answers.BenchSheet:
    """The sheet of a demo job."""
    return bw.bench_sheet(bw.load_job(_JOBS / f"{name}.toml", discovered_once()))


def spoiled(sheet: bw.answers.BenchSheet, text: str) -> bw.answers.BenchSheet:
    """A sheet with a text in all of its own; those of packs and jobs begin with it."""
    two, within = len(sheet.planned), f"Of {text}"
    row = bw.answers.SheetRow(what=within, values=(text,) * two)
    measured = bw.answers.SheetMeasurement(
        what=within, where=text, tool=text, expected=(text,) * two
    )
    step = bw.answers.SheetStep(text=within, branch=(within, within), refused=True)
    return attrs.evolve(
        sheet,
        title=text,
        vehicle=text,
        headlines=(within,),
        notes=(within,),
        cautions=(within,),
        parts=(row,),
        figures=(row,),
        stages=(bw.answers.SheetStage(title=within, steps=(step,)),),
        measurements=(measured,),
        sources=(text,),
    )


def drawing(alt: str = "A circle.", *, width: int = 2, beside: bool = False) -> PageDrawing:
    """A drawing of a circle."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">'
        '<circle cx="20" cy="20" r="18" fill="none" stroke="black"/></svg>'
    )
    return PageDrawing(title="Circle", alt=alt, svg=svg, width=width, is_beside=beside)


def said(text: str) -> str:
    """Text without what a printed line may change: blanks, line breaks and joined letters."""
    return "".join(unicodedata.normalize("NFKC", text).split())


def pdf_texts(pdf: bytes) -> list[str]:
    """What each page of a PDF says, as :func:`said` gives it."""
    return [said(page.extract_text()) for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


@attrs.frozen
class Read:
    """What a reader of HTML finds in a page: its tags with their attributes, and its texts."""

    tags: list[tuple[str, dict[str, str | None]]] = attrs.field(factory=list)
    texts: list[str] = attrs.field(factory=list)

    def attributes(self, tag: str, name: str) -> list[str | None]:
        """One attribute of all tags of a name."""
        return [found.get(name) for each, found in self.tags if each == tag]


class _Reader(HTMLParser):
    def __init__(self, read: Read) -> None:
        super().__init__()
        self._read, self._inside = read, ""

    def handle_starttag(self, tag: str, attrs: Sequence[tuple[str, str | None]]) -> None:
        self._read.tags.append((tag, dict(attrs)))
        self._inside = tag

    def handle_data(self, data: str) -> None:
        if self._inside != "style":
            self._read.texts.append(data.strip().replace("\N{NO-BREAK SPACE}", " "))


def read_html(text: str) -> Read:
    """Read a page of HTML."""
    read = Read()
    _Reader(read).feed(text)
    return read
