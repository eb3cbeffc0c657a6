"""What stands on the page of a bench sheet: lines of text, tables and drawings, ready to print."""

from __future__ import annotations

import re
import string
from collections.abc import Iterable, Iterator, Sequence
from itertools import count

import attrs

from barwright.registry.jobs.job import WorkOrder
from barwright.report.page.paper import Paper
from barwright.report.page.turns import PageTurns, page_turns
from barwright.report.safe_text import one_line
from barwright.report.sheet.alternatives import ALTERNATIVES, alternatives
from barwright.report.sheet.sheet import BenchSheet
from barwright.report.sheet.steps.step import SheetStage, SheetStep, side_by_side

__all__ = [
    "FIELDS",
    "PageDrawing",
    "SheetPage",
    "filled_fields",
    "in_rows",
    "line_of",
    "lines_of",
    "page_of",
]

FIELDS = ("Date", "Vehicle, plate", "Odometer", "Done by")
"""What whoever does the work writes on the page."""


SIXTHS = 6
"""How many parts a row of drawings has."""


@attrs.frozen(kw_only=True)
class PageDrawing:
    """A drawing on the page.

    Parameters
    ----------
    title : str
        What it shows, in a line.
    alt : str
        The same as a text, for people who cannot see it.
    svg : str
        The drawing, an SVG document.
    width : int
        How many sixths of the page it is wide.
    is_beside : bool
        Whether it stands beside the figures, or below them.
    """

    title: str
    alt: str
    svg: str
    width: int = 2
    is_beside: bool = False


@attrs.frozen(kw_only=True)
class PageCell:
    """A value in a table.

    Parameters
    ----------
    text : str
        The value.
    """

    text: str


@attrs.frozen(kw_only=True)
class PageRow:
    """A row of a table.

    Parameters
    ----------
    what : str
        What its values are.
    cells : tuple of PageCell
        The values; one cell where all corners share it.
    """

    what: str
    cells: tuple[PageCell, ...]


@attrs.frozen(kw_only=True)
class PagePart:
    """A part of the vehicle.

    Parameters
    ----------
    text : str
        Its title, and what it replaces.
    is_changed : bool
        Whether it replaces another.
    """

    text: str
    is_changed: bool


@attrs.frozen(kw_only=True)
class PageStep:
    """A step with its box to tick.

    Parameters
    ----------
    number : int
        Its number.
    text : str
        What to do.
    branch : tuple of (str, str)
        A letter and an action for each part of the step, if there are several.
    is_conditional : bool
        Whether it may not be needed.
    is_refused : bool
        Whether it forbids something.
    """

    number: int
    text: str
    branch: tuple[tuple[str, str], ...]
    is_conditional: bool
    is_refused: bool


@attrs.frozen(kw_only=True)
class PageStage:
    """Steps that belong together.

    Parameters
    ----------
    title : str
        What they do.
    steps : tuple of PageStep
        In order.
    """

    title: str
    steps: tuple[PageStep, ...]


@attrs.frozen(kw_only=True)
class SheetPage:
    """What stands on the page of a bench sheet; no text has a line feed or steers anything.

    Parameters
    ----------
    title, vehicle : str
        What is done, and on what.
    headlines : tuple of str
        The answer.
    notes, cautions : tuple of str
        What must be known.
    fields : tuple of str
        What to write at the head of the page.
    whose : tuple of str
        Customer, plate, date and odometer in a line, as far as they are given.
    parts : tuple of PagePart
        What is to be on the vehicle.
    corners : tuple of str
        Headings of the tables' columns.
    figures : tuple of PageRow
        What is set, and what comes of it.
    beside : tuple of PageDrawing
        Drawings beside the figures.
    below : tuple of tuple of PageDrawing
        Drawings below the figures, row by row.
    stages : tuple of PageStage
        The steps, numbered through.
    measurements : tuple of PageRow
        What to measure, and what to expect.
    turns : PageTurns, optional
        What each turn of the adjuster gives; none where nothing can be turned.
    alternatives_heading : str
        What stands above what could be done instead.
    alternatives : tuple of str
        What could be done instead.
    sources : str
        Where the figures come from; empty where no source is named.
    thread : PageTurns, optional
        On a page that follows, what every turn of the adjuster gives; none where that is not
        asked for, or nothing can be turned.
    thread_curves : tuple of PageDrawing
        The same as curves.
    template : tuple of PageDrawing
        Whole pages that follow, to be printed at their own size.
    paper : {"a4", "letter"}
        Size of the pages.
    """

    title: str
    vehicle: str
    headlines: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    fields: tuple[str, ...]
    whose: tuple[str, ...]
    parts: tuple[PagePart, ...]
    corners: tuple[str, ...]
    figures: tuple[PageRow, ...]
    beside: tuple[PageDrawing, ...]
    below: tuple[tuple[PageDrawing, ...], ...]
    stages: tuple[PageStage, ...]
    measurements: tuple[PageRow, ...]
    turns: PageTurns | None
    alternatives_heading: str
    alternatives: tuple[str, ...]
    sources: str
    thread: PageTurns | None
    thread_curves: tuple[PageDrawing, ...]
    template: tuple[PageDrawing, ...]
    paper: Paper


def page_of(
    sheet: BenchSheet,
    drawings: Sequence[PageDrawing] = (),
    template: Sequence[PageDrawing] = (),
    thread_curves: Sequence[PageDrawing] = (),
    *,
    paper: Paper = "a4",
) -> SheetPage:
    """Lay out a bench sheet for a page.

    Parameters
    ----------
    sheet : BenchSheet
        The sheet.
    drawings : sequence of PageDrawing
        What is drawn on it.
    template : sequence of PageDrawing
        Whole pages that follow it.
    thread_curves : sequence of PageDrawing
        Curves over the thread, which follow it with the table of all its turns.
    paper : {"a4", "letter"}
        Size of its pages.

    Returns
    -------
    SheetPage
    """
    return SheetPage(
        title=line_of(sheet.title),
        vehicle=line_of(sheet.vehicle),
        headlines=lines_of(sheet.headlines),
        notes=lines_of((*sheet.order.noted, *sheet.notes)),
        cautions=lines_of(sheet.cautions),
        fields=tuple(filled_fields(sheet.order)),
        whose=lines_of(sheet.order.whose),
        parts=tuple(_parts(sheet)),
        corners=sheet.planned,
        figures=tuple(
            PageRow(what=line_of(row.what), cells=_cells(row.values)) for row in sheet.figures
        ),
        beside=tuple(drawing for drawing in drawings if drawing.is_beside),
        below=in_rows(drawing for drawing in drawings if not drawing.is_beside),
        stages=tuple(_stages(sheet.stages)),
        measurements=tuple(
            PageRow(what=line_of(f"{row.what}: {row.where}"), cells=_cells(row.expected))
            for row in sheet.measurements
        ),
        turns=page_turns(sheet),
        alternatives_heading=ALTERNATIVES,
        alternatives=lines_of(alternatives(sheet)),
        sources=line_of(", ".join((*sheet.sources, *(f"pack {pack}" for pack in sheet.packs)))),
        thread=page_turns(sheet, whole_thread=True) if thread_curves else None,
        thread_curves=tuple(thread_curves),
        template=tuple(template),
        paper=paper,
    )


def filled_fields(order: WorkOrder) -> Iterator[str]:
    """Fill in, as far as the job says it, what whoever does the work would write."""
    said = {"Date": order.date, "Vehicle, plate": order.registration, "Odometer": order.odometer}
    if order.customer:
        yield line_of(f"Customer: {order.customer}")
    for field in FIELDS:
        yield line_of(f"{field}: {said[field]}") if said.get(field) else field


def in_rows(drawings: Iterable[PageDrawing]) -> tuple[tuple[PageDrawing, ...], ...]:
    """Put each drawing into the first row that has room for it."""
    rows: list[list[PageDrawing]] = []
    for drawing in drawings:
        for row in rows:
            if sum(other.width for other in row) + drawing.width <= SIXTHS:
                row.append(drawing)
                break
        else:
            rows.append([drawing])
    return tuple(tuple(row) for row in rows)


def lines_of(texts: Iterable[str]) -> tuple[str, ...]:
    """Make a line of each text."""
    return tuple(line_of(text) for text in texts)


def line_of(text: str) -> str:
    """Make a line of a text, in which no number is parted from its unit or its tolerance."""
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", one_line(text))


_BEFORE_UNIT = re.compile(
    r"(?<=\d) (?=(?:mm|in|kg|lb|lbf|N|MPa|psi|Hz|J|turns?)\b|±)|(?<=±) (?=\d)"
)


def _parts(sheet: BenchSheet) -> Iterator[PagePart]:
    names = [corner.corner for corner in sheet.corners]
    changed = {p.kind for corner in sheet.corners for p in corner.parts if p.replaces}
    for row in sheet.parts:
        text = side_by_side(dict(zip(names, row.values, strict=True)))
        yield PagePart(text=line_of(text), is_changed=row.what in changed)


def _cells(values: Sequence[str]) -> tuple[PageCell, ...]:
    return tuple(PageCell(text=line_of(value)) for value in values)


def _stages(stages: Sequence[SheetStage]) -> Iterator[PageStage]:
    numbers = count(1)
    for stage in stages:
        steps = tuple(_step(next(numbers), step) for step in stage.steps)
        yield PageStage(title=line_of(stage.title), steps=steps)


def _step(number: int, step: SheetStep) -> PageStep:
    return PageStep(
        number=number,
        text=line_of(step.line),
        branch=tuple(zip(string.ascii_lowercase, lines_of(step.branch), strict=False)),
        is_conditional=step.text.startswith("Only if"),
        is_refused=step.refused,
    )
