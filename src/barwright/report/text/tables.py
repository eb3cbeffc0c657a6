"""What the texts of all answers are made of: tables, pairs, marked lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Protocol, TypeAlias

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.style import StyleType
from rich.table import Table
from rich.text import Text

from barwright.analysis.answer import Outcome
from barwright.analysis.finding import Finding
from barwright.report.printable import one_line
from barwright.units import Quantity, shown

__all__ = [
    "Shown",
    "finding_lines",
    "heading",
    "headline_text",
    "marked",
    "or_none",
    "pairs",
    "stacked",
    "table",
]

Shown: TypeAlias = RenderableType
"""What a terminal shows: for texts that are made of these alone."""


def heading(text: str) -> Text:
    """Show what the lines below are about."""
    return Text(one_line(text), style="bold")


def stacked(*parts: Shown) -> Group:
    """Show parts below each other."""
    return Group(*parts)


def finding_lines(label: str, findings: Iterable[Finding]) -> Iterator[RenderableType]:
    """Show findings, each with its label, its figure and its limit."""
    for finding in findings:
        yield marked("*", f"{label}: {finding.line}")


_STYLES = {Outcome.FINE: "bold green", Outcome.FINE_WITH_CHANGES: "bold yellow"}


class _Headed(Protocol):
    """An answer, or what stands for one on a sheet."""

    @property
    def headline(self) -> str: ...
    @property
    def outcome(self) -> Outcome: ...


def headline_text(answer: _Headed) -> Text:
    """Show the headline of an answer in the colour of its outcome."""
    return Text(one_line(answer.headline), style=_STYLES.get(answer.outcome, "bold red"))


def or_none(value: Quantity | None, digits: int) -> str:
    """Show a quantity that may be missing."""
    return "none" if value is None else shown(value, digits)


class _Lines(Table):
    """A table whose texts begin no line of their own but where they are folded."""

    def add_row(
        self,
        *renderables: RenderableType | None,
        style: StyleType | None = None,
        end_section: bool = False,
    ) -> None:
        """Add a row, each text of it as one line."""
        cells = (one_line(cell) if isinstance(cell, str) else cell for cell in renderables)
        super().add_row(*cells, style=style, end_section=end_section)


def table(*columns: str) -> Table:
    """Make an empty table with columns."""
    made = _Lines(box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for column in columns:
        made.add_column(column, overflow="fold")
    return made


def pairs(*rows: tuple[str, str]) -> Table:
    """Make a table of names and figures."""
    made = _Lines(box=None, show_header=False, pad_edge=False, padding=(0, 2, 0, 0))
    made.add_column(style="dim")
    made.add_column(overflow="fold")
    for row in rows:
        made.add_row(*row)
    return made


def marked(mark: str, text: str) -> RenderableType:
    """Show a line with a hanging mark before it."""
    made = Table(box=None, show_header=False, pad_edge=False, padding=(0, 1, 0, 0))
    made.add_column(width=4, justify="right")
    made.add_column(overflow="fold")
    made.add_row(mark, Text(one_line(text)))
    return Padding(made, 0)
