"""The text of an answer as HTML: a fragment that needs nothing from elsewhere."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from html import escape

from barwright.report.drawing.nut_curve import nut_curve_svg
from barwright.report.drawing.svg import data_uri, title_and_description
from barwright.report.equations.boxes import boxes, name_box
from barwright.report.equations.content import Side, heading_of
from barwright.report.equations.mathml import mathml
from barwright.report.text.layout.charts import NutChart
from barwright.report.text.layout.equations import Equation
from barwright.report.text.layout.page import Page, Section
from barwright.report.text.layout.tables import Block, Grid, Note, Stack, is_listed_item
from barwright.report.text.layout.words import unbroken

__all__ = ["html_of"]

_NO_BREAK = "\u00a0"


def html_of(block: Block) -> str:
    """Write a piece of text as HTML.

    Parameters
    ----------
    block : Block
        The piece.

    Returns
    -------
    str
        One ``div``, in which all text is escaped.
    """
    return "\n".join(['<div class="barwright">', *_lines([block], level=3), "</div>", ""])


def _lines(blocks: Iterable[Block | str], *, level: int) -> Iterator[str]:
    for is_listed, group in itertools.groupby(blocks, is_listed_item):
        if is_listed:
            items = "".join(
                f"<li>{_text(note.text)}</li>" for note in group if isinstance(note, Note)
            )
            yield f"<ul>{items}</ul>"
            continue
        for block in group:
            yield from _block(block, level)


def _block(block: Block | str, level: int) -> Iterator[str]:
    if isinstance(block, Page):
        yield from _lines(block.blocks, level=level)
    elif isinstance(block, Stack):
        yield from _lines(block.parts, level=level)
    elif isinstance(block, Section):
        yield f"<h{level}>{_text(block.title)}</h{level}>"
        yield from _lines(block.parts, level=level + 1)
    elif isinstance(block, Grid):
        yield from _grid(block, level)
    elif isinstance(block, NutChart):
        yield from _chart(block, level)
    elif isinstance(block, Equation):
        yield from _equation(block)
    else:
        note = block if isinstance(block, Note) else Note(str(block))
        text = f"<strong>{_text(note.text)}</strong>" if "bold" in note.style else _text(note.text)
        if text:
            yield f"<p>{text}</p>"


def _equation(equation: Equation) -> Iterator[str]:
    """Set a step: its words, then its rows in a table."""
    step = equation.step
    yield f"<p>{_text(heading_of(step))}</p>"
    yield "<table><tbody>"
    name = mathml(name_box(step.symbol)) if step.symbol else ""
    between = "; " if step.symbol else " = "
    for row in step.rows:
        told = between.join(map(_piece, row))
        yield f"<tr><td>{name}</td><td>{'=' if step.symbol else ''}</td><td>{told}</td></tr>"
        name = ""
    yield "</tbody></table>"


def _piece(piece: str | Side) -> str:
    if isinstance(piece, str):
        return _text(piece)
    return mathml(boxes(piece.tree, piece.writing, in_degrees=piece.in_degrees))


def _chart(chart: NutChart, level: int) -> Iterator[str]:
    yield f"<h{level}>{_text(chart.title)}</h{level}>"
    svg = nut_curve_svg(chart.view)
    _, description = title_and_description(svg)
    yield f'<img src="{data_uri(svg)}" alt="{escape(description)}" />'


def _grid(grid: Grid, level: int) -> Iterator[str]:
    if grid.title:
        yield f"<h{level}>{_text(grid.title)}</h{level}>"
    yield "<table>"
    if any(grid.columns):
        cells = "".join(f'<th scope="col">{_text(name)}</th>' for name in grid.columns)
        yield f"<thead><tr>{cells}</tr></thead>"
    yield "<tbody>"
    for name, *texts in grid.rows:
        spread = len(grid.columns) - 1 if len(texts) < len(grid.columns) - 1 else 1
        span = f' colspan="{spread}"' if spread > 1 else ""
        cells = "".join(f"<td{span}>{_text(text)}</td>" for text in texts)
        yield f'<tr><th scope="row">{_text(name)}</th>{cells}</tr>'
    yield "</tbody></table>"


def _text(text: str) -> str:
    """Escape a line, and hold its figures to their units."""
    return escape(" ".join(part.replace(" ", _NO_BREAK) for part in unbroken(text)))
