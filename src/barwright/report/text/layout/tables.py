"""What the texts of all answers are made of: headings, marked lines, tables and pairs.

Each piece is data, which :mod:`.html` and :mod:`.markdown` write in their way; a terminal
is shown its lines.
"""

from __future__ import annotations

import abc
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeAlias

import attrs

from barwright.analysis.answer import Outcome
from barwright.analysis.finding import Finding
from barwright.first_use import FIRST_USE
from barwright.report.safe_text import in_ascii, one_line
from barwright.report.text.layout.grids import Line, grid_lines
from barwright.report.text.layout.words import wrapped
from barwright.units import Quantity, shown

if TYPE_CHECKING:
    from rich.console import Console, ConsoleOptions
    from rich.segment import Segment

__all__ = [
    "Block",
    "Grid",
    "Note",
    "Shown",
    "Stack",
    "finding_lines",
    "heading",
    "is_listed_item",
    "marked",
    "or_none",
    "outcome_style",
    "pairs",
    "plain_lines",
    "spelled",
    "stacked",
    "table",
]

_MARK_WIDTH = 4


class Block(abc.ABC):
    """A piece of text that is laid out in any width."""

    @abc.abstractmethod
    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out in lines of a width, with signs that ASCII has if only these can be shown."""

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Segment]:
        """Show it at a terminal, with styles."""
        with FIRST_USE:
            from rich.segment import Segment  # noqa: PLC0415 - only a terminal needs it

        for line in self.lines(options.max_width, ascii_only=options.ascii_only):
            for text, style in line:
                yield Segment(text, console.get_style(style) if style else None)
            yield Segment.line()


Shown: TypeAlias = Block
"""What a terminal shows: for texts that are made of these alone."""


def spelled(text: str, *, ascii_only: bool) -> str:
    """Spell a text in signs that ASCII has, if only these can be shown."""
    return in_ascii(text) if ascii_only else text


@attrs.frozen
class Note(Block):
    """A line of text, with a mark before it or a style.

    Parameters
    ----------
    text : str
        The line.
    mark : str
        Before it; the lines that it goes on with hang below its text.
    style : str
        How a terminal shows it, such as bold.
    """

    text: str = attrs.field(converter=one_line)
    mark: str | None = None
    style: str = ""

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out."""
        text = spelled(self.text, ascii_only=ascii_only)
        if self.mark is None:
            yield from (((line, self.style),) for line in wrapped(text, width))
            return
        mark = f"{self.mark:>{_MARK_WIDTH}} "
        for number, line in enumerate(wrapped(text, width - len(mark))):
            yield ((mark if number == 0 else " " * len(mark), self.style), (line, self.style))


@attrs.define
class Grid(Block):
    """A table.

    Parameters
    ----------
    columns : tuple of str
        Their names, the most important first: where there is no room, the last ones stand
        beneath their row.  All empty where no names are shown.
    rows : list of tuple of str
        Texts of each row: one a column, or two, of which the second holds for all columns
        after the first.
    title : str
        Above it; empty for none.
    together : bool
        Whether all columns after the first stay beside each other, or none does.
    whole_names : bool
        Whether the texts of the first column stay in one line.
    """

    columns: tuple[str, ...]
    rows: list[tuple[str, ...]] = attrs.field(factory=list)
    title: str = ""
    together: bool = False
    whole_names: bool = False

    def add_row(self, *texts: str) -> None:
        """Add a row, each text of it as one line; what is left out is empty."""
        filled = (*texts, *[""] * (len(self.columns) - len(texts)))
        self.rows.append(tuple(map(one_line, filled)))

    def add_shared(self, name: str, text: str) -> None:
        """Add a row whose one text holds for all columns after the first."""
        self.rows.append((one_line(name), one_line(text)))

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay it out."""
        header, *rows = (
            tuple(spelled(text, ascii_only=ascii_only) for text in row)
            for row in (self.columns, *self.rows)
        )
        if self.title:
            yield from heading(self.title).lines(width, ascii_only=ascii_only)
        if rows:
            yield from grid_lines(
                header,
                rows,
                width=width,
                together=self.together,
                whole_names=self.whole_names,
            )


@attrs.frozen
class Stack(Block):
    """Pieces below each other."""

    parts: tuple[Block | str, ...]

    def lines(self, width: int, *, ascii_only: bool = False) -> Iterator[Line]:
        """Lay them out."""
        for part in self.parts:
            block = Note(part) if isinstance(part, str) else part
            yield from block.lines(width, ascii_only=ascii_only)


def plain_lines(block: Block, width: int, *, ascii_only: bool = False) -> Iterator[str]:
    """Lay a piece out without styles."""
    for line in block.lines(width, ascii_only=ascii_only):
        yield "".join(text for text, _ in line).rstrip()


def heading(text: str) -> Note:
    """Show what the lines below are about."""
    return Note(text, style="bold")


def stacked(*parts: Block | str) -> Stack:
    """Show parts below each other."""
    return Stack(parts)


def is_listed_item(block: Block | str) -> bool:
    """Whether a piece is an item of a list: a line with a mark."""
    return isinstance(block, Note) and block.mark is not None


def finding_lines(label: str, findings: Iterable[Finding]) -> Iterator[Note]:
    """Show findings, each with its label, its figure and its limit."""
    for finding in findings:
        yield marked("*", f"{label}: {finding.line}")


_STYLES = {Outcome.FINE: "bold green", Outcome.FINE_WITH_CHANGES: "bold yellow"}


def outcome_style(outcome: Outcome) -> str:
    """Return the colour of an outcome."""
    return _STYLES.get(outcome, "bold red")


def or_none(value: Quantity | None, digits: int) -> str:
    """Show a quantity that may be missing."""
    return "none" if value is None else shown(value, digits)


def table(*columns: str, title: str = "") -> Grid:
    """Make an empty table with columns, the most important first."""
    return Grid(tuple(map(one_line, columns)), title=one_line(title))


def pairs(*rows: Sequence[str], title: str = "") -> Grid:
    """Make a table of names and figures."""
    made = Grid(("", ""), title=one_line(title))
    for row in rows:
        made.add_row(*row)
    return made


def marked(mark: str, text: str) -> Note:
    """Show a line with a hanging mark before it."""
    return Note(text, mark=mark)
