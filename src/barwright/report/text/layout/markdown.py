"""The text of an answer as Markdown, with tables."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator, Sequence

from barwright.report.equations.content import heading_of
from barwright.report.safe_text import one_line
from barwright.report.text.layout.charts import NutChart
from barwright.report.text.layout.equations import Equation, row_texts
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import (
    Block,
    Grid,
    Note,
    Stack,
    is_listed_item,
    plain_lines,
)

__all__ = ["markdown_of"]

# What Markdown, or HTML in it, would take for a sign of its own.
_SIGNS = re.compile(r"([\\`*_\[\]<>|~&#])")
_AT_FIRST = re.compile(r"^(\d*)([+=.)-])(?=\s|[+=-]|$)")


def markdown_of(block: Block) -> str:
    """Write a piece of text as Markdown.

    Parameters
    ----------
    block : Block
        The piece.

    Returns
    -------
    str
        Paragraphs, lists and tables, in which no text is taken for markup.
    """
    return "\n\n".join(_paragraphs([block], level=3)) + "\n"


def _paragraphs(blocks: Iterable[Block | str], *, level: int) -> Iterator[str]:
    for is_listed, group in itertools.groupby(blocks, is_listed_item):
        if is_listed:
            yield "\n".join(f"- {_text(note.text)}" for note in group if isinstance(note, Note))
            continue
        for block in group:
            yield from _block(block, level)


def _block(block: Block | str, level: int) -> Iterator[str]:
    if isinstance(block, Page):
        yield from _paragraphs(block.blocks, level=level)
    elif isinstance(block, Stack):
        yield from _paragraphs(block.parts, level=level)
    elif isinstance(block, Section):
        yield f"{'#' * level} {_text(block.title)}"
        yield from _paragraphs(block.parts, level=level + 1)
    elif isinstance(block, Grid):
        if block.title:
            yield f"{'#' * level} {_text(block.title)}"
        yield "\n".join(_table(block))
    elif isinstance(block, NutChart):
        yield f"{'#' * level} {_text(block.title)}"
        yield "\n".join(_chart(block))
    elif isinstance(block, Equation):
        yield _text(heading_of(block.step))
        yield "\n".join(_equation(block))
    else:
        note = block if isinstance(block, Note) else Note(str(block))
        text = _text(note.text)
        if text:
            yield f"**{text}**" if "bold" in note.style else text


def _chart(chart: NutChart) -> Iterator[str]:
    """Keep the characters of a curve in their places."""
    yield "```text"
    # Its title stands above it.
    yield from itertools.islice(plain_lines(chart, _WIDTH), 1, None)
    yield "```"


def _equation(equation: Equation) -> Iterator[str]:
    """Keep the rows of a step below each other."""
    yield "```text"
    for mark, text in row_texts(equation.step):
        yield one_line(f"{mark} {text}".rstrip())
    yield "```"


_WIDTH = 80


def _table(grid: Grid) -> Iterator[str]:
    """Write a table; Markdown knows none without names of columns, nor a cell across several."""
    count = len(grid.columns) - 1
    yield _row(grid.columns)
    yield _row(["---"] * len(grid.columns), escaped=False)
    for name, *texts in grid.rows:
        yield _row([name, *(texts if len(texts) == count else texts * count)])


def _row(texts: Sequence[str], *, escaped: bool = True) -> str:
    return f"| {' | '.join(map(_text, texts) if escaped else texts)} |"


def _text(text: str) -> str:
    """Escape a line."""
    return _AT_FIRST.sub(r"\1\\\2", _SIGNS.sub(r"\\\1", " ".join(text.split())))
