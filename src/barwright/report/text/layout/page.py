"""An answer as a page: its headline, what must be known, then its figures."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

import attrs

from barwright.analysis.answer import Answer
from barwright.report.safe_text import one_line
from barwright.report.text.layout.grids import Line
from barwright.report.text.layout.tables import Block, Grid, Note, outcome_style

__all__ = ["Page", "Section", "page_of"]


@attrs.frozen
class Section(Block):
    """Pieces below a title.

    Parameters
    ----------
    title : str
        Above them.
    parts : tuple of Block
        The pieces.
    """

    title: str = attrs.field(converter=one_line)
    parts: tuple[Block, ...]

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out."""
        yield from Note(self.title, style="bold").lines(width, ascii_only=ascii_only)
        yield from _spaced(self.parts, width, ascii_only=ascii_only)


@attrs.frozen(kw_only=True)
class Page(Block):
    """A page: one to three lines that answer, what must be known, then the figures.

    Parameters
    ----------
    headlines : tuple of Note
        The answer.
    findings : tuple of Note
        What must be known.
    place : tuple of Note
        What the answer is of, and what it rests on.
    parts : tuple of Block
        The figures.
    """

    headlines: tuple[Note, ...]
    findings: tuple[Note, ...] = ()
    place: tuple[Note, ...] = ()
    parts: tuple[Block, ...] = ()

    @property
    def blocks(self) -> tuple[Block, ...]:
        """All of it, in order."""
        return (*self.headlines, *self.findings, *self.place, *self.parts)

    def of(self, *lines: str) -> Page:
        """Say what the answer is of, and what it rests on, in lines; empty ones are left out."""
        return attrs.evolve(self, place=(*self.place, *(Note(line) for line in lines if line)))

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out, with an empty line before each table and section."""
        for note in (*self.headlines, *self.findings, *self.place):
            yield from note.lines(width, ascii_only=ascii_only)
        if self.parts:
            yield ()
        yield from _spaced(self.parts, width, ascii_only=ascii_only)


def _spaced(parts: Sequence[Block], width: int, *, ascii_only: bool) -> Iterator[Line]:
    """Lay pieces out with empty lines between those that are not single lines."""
    last: Block | None = None
    for part in parts:
        if last is not None and not (isinstance(part, Note) and isinstance(last, Note | Grid)):
            yield ()
        yield from part.lines(width, ascii_only=ascii_only)
        last = part


def page_of(answer: Answer, *parts: Block, findings: Iterable[Note] = ()) -> Page:
    """Make the page of an answer.

    Parameters
    ----------
    answer : Answer
        Whose headline it opens with.
    *parts : Block
        Its figures.
    findings : iterable of Note
        What must be known.

    Returns
    -------
    Page
    """
    headline = Note(answer.headline, style=outcome_style(answer.outcome))
    return Page(headlines=(headline,), findings=tuple(findings), parts=parts)
