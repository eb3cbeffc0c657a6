"""Equations in a text: the step, its equation, the figures put in, and what it comes to."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.report.equations.content import SetLine, Side, heading_of
from barwright.report.equations.linear import in_line
from barwright.report.text.layout.grids import Line
from barwright.report.text.layout.tables import Block, spelled
from barwright.report.text.layout.words import wrapped

__all__ = ["Equation", "row_texts"]

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


def row_texts(step: SetLine) -> Iterator[tuple[str, str]]:
    """Write each row of a step in a line: its mark, and its text."""
    name, between = step.symbol, "; " if step.symbol else " = "
    marks: tuple[str, ...] = ("", "left:", "right:")
    if name:
        marks = (f"{name} =", *[f"{' ' * len(name)} ="] * 2)
    for mark, row in zip(marks, step.rows, strict=False):
        yield mark, between.join(map(_text, row))


def _text(piece: str | Side) -> str:
    if isinstance(piece, str):
        return piece
    return in_line(piece.tree, piece.writing, in_degrees=piece.in_degrees)
