"""Equations in a text: the step, its equation, the figures put in, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.report.equations.content import SetLine, Side
from barwright.report.equations.linear import in_line
from barwright.report.text.layout.grids import Line
from barwright.report.text.layout.tables import Block, spelled
from barwright.report.text.layout.words import wrapped

__all__ = ["Equation", "heading_of", "row_texts"]

_INDENT = 4
_HANGING = "    "


@attrs.frozen
class Equation(Block):
    """A step of a working.

    Parameters
    ----------
    step : SetLine
        What it is made of.
    """

    step: SetLine

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out: no line begins with a sign of equality but that of a new row."""
        words = spelled(heading_of(self.step), ascii_only=ascii_only)
        yield from (((line, ""),) for line in wrapped(words, width))
        for mark, text in row_texts(self.step):
            told = spelled(text, ascii_only=ascii_only)
            room = width - _INDENT - len(mark) - 1
            for number, line in enumerate(wrapped(told, room - len(_HANGING))):
                before = mark if number == 0 else " " * len(mark) + _HANGING
                yield ((f"{' ' * _INDENT}{before}{' ' * bool(before)}{line}", ""),)


def heading_of(step: SetLine) -> str:
    """Say what a step finds, and the number of its source."""
    number = f" [{step.reference}]" if step.reference else ""
    words = f"{step.words[0].upper()}{step.words[1:]}"
    return f"{words}{number}"


def row_texts(step: SetLine) -> Iterator[tuple[str, str]]:
    """Write each row of a step in a line: its mark, and its text."""
    marks = iter(_marks(step))
    for row in step.rows:
        texts = [_text(one) for one in row]
        yield next(marks), (" = " if not step.symbol else "; ").join(texts)


def _marks(step: SetLine) -> Iterator[str]:
    """Yield what stands before each row."""
    if not step.symbol:
        yield from ("", "left:", "right:")
        return
    yield f"{step.symbol} ="
    while True:
        yield f"{' ' * len(step.symbol)} ="


def _text(piece: str | Side) -> str:
    if isinstance(piece, str):
        return piece
    return in_line(piece.tree, piece.writing, in_degrees=piece.in_degrees)
