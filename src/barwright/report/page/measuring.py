"""What stands on a measuring sheet: drawings with letters, and a line to write on for each."""

from __future__ import annotations

import string
from collections.abc import Iterable, Iterator, Mapping, Sequence

import attrs

from barwright.analysis.across.needs import FigureState, Needs, NeedsRow
from barwright.report.drawing.measuring.marks import Scheme, scheme_svg
from barwright.report.drawing.measuring.schemes import schemes_of
from barwright.report.drawing.svg import title_and_description
from barwright.report.page.content import FIELDS, PageDrawing, in_rows, line_of, lines_of
from barwright.report.page.paper import Paper
from barwright.report.sheet.corner_names import names_of
from barwright.report.unit_system import in_units
from barwright.units import Quantity, System, quantity_of_unit, shown, unit_spelling
from barwright.units.kinds import SYSTEMS

__all__ = [
    "MeasuringAxle",
    "MeasuringPage",
    "MeasuringRow",
    "MeasuringTable",
    "measuring_page",
]


@attrs.frozen(kw_only=True)
class MeasuringRow:
    """A figure to measure, with a line to write on for each corner.

    Parameters
    ----------
    letter : str
        Its letter on a drawing.
    figure, where, tool : str
        What is measured, where and with what; with the usual error of such a tool.
    written_in : str
        Unit to write it in; empty for a count.
    known : tuple of str
        What is known so far, for each corner; empty where nothing is.
    key : str
        How it is typed into a pack or a job.
    """

    letter: str
    figure: str
    where: str
    tool: str
    written_in: str
    known: tuple[str, ...]
    key: str


@attrs.frozen(kw_only=True)
class MeasuringTable:
    """Figures of a part.

    Parameters
    ----------
    title : str
        The part, and on which drawings its letters are.
    rows : tuple of MeasuringRow
        In the order of their letters.
    """

    title: str
    rows: tuple[MeasuringRow, ...]


@attrs.frozen(kw_only=True)
class MeasuringAxle:
    """What is measured of an axle.

    Parameters
    ----------
    corners : tuple of str
        Headings of the columns to write in.
    drawings : tuple of tuple of PageDrawing
        Row by row.
    tables : tuple of MeasuringTable
        One for each part.
    """

    corners: tuple[str, ...]
    drawings: tuple[tuple[PageDrawing, ...], ...]
    tables: tuple[MeasuringTable, ...]


@attrs.frozen(kw_only=True)
class MeasuringPage:
    """What stands on a measuring sheet; no text has a line feed or steers anything.

    Parameters
    ----------
    title, vehicle : str
        What it is, and of which vehicle.
    headlines : tuple of str
        What to measure first.
    fields : tuple of str
        What to write at the head of the page.
    advice : tuple of str
        How to measure.
    axles : tuple of MeasuringAxle
        What is measured.
    typing : str
        How the sheet is typed in.
    paper : {"a4", "letter"}
        Size of the pages.
    """

    title: str
    vehicle: str
    headlines: tuple[str, ...]
    fields: tuple[str, ...]
    advice: tuple[str, ...]
    axles: tuple[MeasuringAxle, ...]
    typing: str
    paper: Paper


_ADVICE = (
    "Stand the vehicle level on its wheels. Roll it and let it settle before you read a height.",
    "Measure both sides. Hold the tape straight, without tension. Read every figure twice.",
    "Never lie under a vehicle on a jack alone: use stands. Leave a loaded part as it is.",
)

_TYPING = (
    "To type the sheet in, write each figure under its table: [bar.arm_end] and below it "
    'length = "48.0 mm ± 0.1 mm". A count has no quotes. Where left and right differ, name the '
    "side behind the first word of the table: [measured.left]. A job fills what a pack lacks; "
    "an overlay corrects what the pack knows."
)


def measuring_page(
    answers: Sequence[Needs], *, every: bool = False, paper: Paper = "a4", system: System = "metric"
) -> MeasuringPage:
    """Lay out a measuring sheet for corners of one vehicle.

    Parameters
    ----------
    answers : sequence of Needs
        What is known of each corner.
    every : bool
        Whether figures that are known well are on it too.
    paper : {"a4", "letter"}
        Size of its pages.
    system : {"metric", "inch"}
        Units that are written in.

    Returns
    -------
    MeasuringPage
    """
    axles: dict[str, list[Needs]] = {}
    for answer in answers:
        axles.setdefault(answer.corner.split()[0], []).append(in_units(answer, system))
    vehicles = dict.fromkeys(answer.vehicle for answer in answers)
    return MeasuringPage(
        title="Measuring sheet",
        vehicle=line_of(", ".join(vehicles)),
        headlines=lines_of(_headlines(answers)),
        fields=FIELDS,
        advice=_ADVICE,
        axles=tuple(_axle(corners, every=every, system=system) for corners in axles.values()),
        typing=_TYPING,
        paper=paper,
    )


def _headlines(answers: Iterable[Needs]) -> Iterator[str]:
    """Say once what is the same of several corners."""
    alike: dict[str, list[str]] = {}
    for answer in answers:
        alike.setdefault(answer.headline, []).append(answer.corner)
    for headline, corners in alike.items():
        yield f"{names_of(corners)}: {headline[0].lower()}{headline[1:]}"


# -- An axle -----------------------------------------------------------------------------

_PARTS = {
    "readings": "The vehicle as it stands",
    "bar": "Bar",
    "arm": "Arm",
    "anchor": "What holds the anchor end",
    "adjuster": "Adjuster",
    "damper": "Damper",
    "axle": "Axle and suspension",
}

_READINGS = {
    "reading.height": "height, hub to arch",
    "pin_distance": "place of the nut or bolt",
    "load.mass": "load on the scales",
}


def _axle(answers: Sequence[Needs], *, every: bool, system: System) -> MeasuringAxle:
    figures = dict.fromkeys(row.figure for one in answers for row in (*one.as_it_stands, *one.rows))
    schemes = schemes_of(figures)
    asked = {part: list(_asked(answers, part, schemes, every=every)) for part in _PARTS}
    letters = dict(zip((f for found in asked.values() for f in found), _letters(), strict=False))
    drawn = [scheme for scheme in schemes if letters.keys() & scheme.marks.keys()]
    return MeasuringAxle(
        corners=tuple(one.corner for one in answers),
        drawings=in_rows(_drawing(one, letters, number=n) for n, one in enumerate(drawn, 1)),
        tables=tuple(
            MeasuringTable(
                title=_title(part, found, drawn),
                rows=tuple(_row(answers, figure, letters[figure], system) for figure in found),
            )
            for part, found in asked.items()
            if found
        ),
    )


def _asked(
    answers: Sequence[Needs], part: str, schemes: Sequence[Scheme], *, every: bool
) -> Iterable[str]:
    """List the figures of a part that are asked for, those of one drawing together."""
    if part == "readings":
        return dict.fromkeys(row.figure for one in answers for row in one.as_it_stands)
    found = dict.fromkeys(
        row.figure
        for one in answers
        for row in one.rows
        if row.figure.startswith(f"{part}.") and (every or row.state is not FigureState.KNOWN)
    )
    return [figure for one in schemes for figure in one.marks if figure in found]


def _letters() -> Iterator[str]:
    """Name figures by letters that nobody takes for a number."""
    single = [letter for letter in string.ascii_uppercase if letter not in "IO"]
    yield from single
    yield from (first + second for first in single for second in single)


def _title(part: str, figures: Iterable[str], drawn: Sequence[Scheme]) -> str:
    numbers = [str(n) for n, one in enumerate(drawn, 1) if one.marks.keys() & set(figures)]
    where = f"drawing {numbers[0]}"
    if numbers[1:]:
        where = f"drawings {', '.join(numbers[:-1])} and {numbers[-1]}"
    return f"{_PARTS[part]} ({where})"


def _drawing(scheme: Scheme, letters: Mapping[str, str], *, number: int) -> PageDrawing:
    svg = scheme_svg(scheme, letters, number=number)
    title, description = title_and_description(svg)
    return PageDrawing(title=title, alt=description, svg=svg, width=scheme.sixths)


# -- A figure ----------------------------------------------------------------------------


def _row(answers: Sequence[Needs], figure: str, letter: str, system: System) -> MeasuringRow:
    rows = [_row_of(answer, figure) for answer in answers]
    row = next(row for row in rows if row)
    return MeasuringRow(
        letter=letter,
        figure=line_of(_READINGS.get(figure, row.named)),
        where=line_of(row.where),
        tool=line_of(_tool(row)),
        written_in=SYSTEMS[system].get(row.written_in, row.written_in),
        # What is read of the vehicle as it stands is read anew.
        known=tuple("" if figure in _READINGS else line_of(_known(row)) for row in rows),
        key=row.key,
    )


def _row_of(answer: Needs, figure: str) -> NeedsRow | None:
    rows = (*answer.as_it_stands, *answer.rows)
    return next((row for row in rows if row.figure == figure), None)


def _tool(row: NeedsRow) -> str:
    if row.usual_error is None:
        return row.tool
    # No tool's error is known to more than two digits.
    error, unit = float(f"{row.usual_error.magnitude:.2g}"), unit_spelling(row.usual_error)
    return f"{row.tool} ± {shown(quantity_of_unit(error, unit))}"


def _known(row: NeedsRow | None) -> str:
    if row is None or row.value is None:
        return ""
    return f"so far {_with_half_width(row.value, row.half_width)}"


def _with_half_width(value: Quantity, half_width: Quantity | None) -> str:
    return shown(value) if half_width is None else f"{shown(value)} ± {shown(half_width)}"
