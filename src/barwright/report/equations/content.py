"""What stands on the page of a working, in whatever form that is printed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import attrs

from barwright.analysis.working.expression import Expression
from barwright.analysis.working.line import (
    GivenConstant,
    GivenFigure,
    Line,
    SolvedFigure,
    WorkingBalance,
    WorkingSection,
    WorkingStep,
)
from barwright.analysis.working.working import Working
from barwright.analysis.working.working_unit import (
    ANGLE_IN_DEGREES,
    WorkingUnit,
)
from barwright.report.equations.numbers import computed, rounded
from barwright.report.equations.writing import Figure, Names, PutIn, Writing, amount
from barwright.report.sheet.corner_names import names_of
from barwright.units import System, in_system, quantity, shown, unit_spelling
from barwright.units.kinds import UNITS

__all__ = [
    "GivenRow",
    "PageSection",
    "SetLine",
    "Side",
    "WorkingPage",
    "heading_of",
    "working_page",
    "working_pages",
]

CONVENTION = {
    "metric": "Lengths in mm, forces in N, torques in N·mm, stresses in N/mm² (MPa). "
    "Angles with ° are in degrees, those without in radians.",
    "inch": "Lengths in in, forces in lbf, torques in lbf·in, stresses in lbf/in² (psi), masses "
    "in slug. Angles with ° are in degrees, those without in radians.",
}
GUARD = (
    "Computed figures are printed with 7 digits, more than is known of them, so that each line "
    "can be computed again from what stands in it; ± says what is known (about 95 %)."
)


@attrs.frozen
class GivenRow:
    """A figure that is put in.

    Parameters
    ----------
    symbol, words, value, origin : str
        What it is called, what it is, its value with its ±, and where it comes from.
    """

    symbol: str
    words: str
    value: str
    origin: str


@attrs.frozen
class Side:
    """One side of an equation, in one writing."""

    tree: Expression
    writing: Writing
    in_degrees: bool


@attrs.frozen
class SetLine:
    """A step of the working.

    Parameters
    ----------
    symbol, words : str
        What it finds, and what that is.
    reference : int
        Number of the source of its equation, from 1; 0 without one.
    rows : tuple
        Equal to each other, below each other: sides of equations, and texts.
    """

    symbol: str
    words: str
    reference: int
    rows: tuple[tuple[str | Side, ...], ...]


def heading_of(step: SetLine) -> str:
    """Say what a step finds, and the number of its source."""
    number = f" [{step.reference}]" if step.reference else ""
    words = f"{step.words[0].upper()}{step.words[1:]}"
    return f"{words}{number}"


@attrs.frozen
class PageSection:
    """A section of the page: what is put in, and what follows."""

    title: str
    given: tuple[GivenRow, ...]
    lines: tuple[SetLine, ...]


@attrs.frozen(kw_only=True)
class WorkingPage:
    """The page of a working.

    Parameters
    ----------
    corners : tuple of str
        Corners that it is the same for.
    answer : Working
        The first of them.
    notes : tuple of str
        How it is to be read.
    sections : tuple of PageSection
        The working.
    sources : tuple of str
        Where its equations come from, in the order of their numbers.
    """

    corners: tuple[str, ...]
    answer: Working = attrs.field(eq=False)
    notes: tuple[str, ...]
    sections: tuple[PageSection, ...]
    sources: tuple[str, ...]

    @property
    def title(self) -> str:
        """What it is computed of."""
        where = names_of(self.corners)
        return f"{self.answer.vehicle}, {where[0].lower()}{where[1:]}"


def working_pages(answers: Iterable[Working]) -> tuple[WorkingPage, ...]:
    """Lay out the workings of several corners; corners with the same one share a page.

    Parameters
    ----------
    answers : iterable of Working
        The workings.

    Returns
    -------
    tuple of WorkingPage
    """
    pages: list[WorkingPage] = []
    for answer in answers:
        page = working_page(answer)
        for place, other in enumerate(pages):
            if attrs.evolve(page, corners=other.corners) == other:
                pages[place] = attrs.evolve(other, corners=(*other.corners, *page.corners))
                break
        else:
            pages.append(page)
    return tuple(pages)


def working_page(answer: Working) -> WorkingPage:
    """Lay out a working.

    Parameters
    ----------
    answer : Working
        The working.

    Returns
    -------
    WorkingPage
    """
    sources = tuple(dict.fromkeys(filter(None, map(_source, answer.lines))))
    numbers = {source: number for number, source in enumerate(sources, start=1)}
    writer = _Writer(_figures(answer.lines), numbers, answer.system)
    return WorkingPage(
        corners=(answer.corner,),
        answer=answer,
        notes=(CONVENTION[answer.system], GUARD),
        sections=tuple(map(writer.section, answer.sections)),
        sources=sources,
    )


def _source(line: Line) -> str:
    return line.source if isinstance(line, WorkingStep | WorkingBalance) else ""


def _figures(lines: Iterable[Line]) -> Mapping[str, Figure]:
    return {
        line.symbol: Figure(
            value=line.si_value,
            unit=line.unit,
            is_exact=isinstance(line, GivenFigure | GivenConstant),
        )
        for line in lines
        if not isinstance(line, WorkingBalance)
    }


@attrs.frozen
class _Writer:
    """Writes the lines of one working."""

    figures: Mapping[str, Figure]
    numbers: Mapping[str, int]
    system: System

    def section(self, section: WorkingSection) -> PageSection:
        """Write a section."""
        return PageSection(
            section.title,
            tuple(self._given(section.lines)),
            tuple(self._set(section.lines)),
        )

    def _given(self, lines: Iterable[Line]) -> Iterator[GivenRow]:
        for line in lines:
            if isinstance(line, GivenFigure):
                yield GivenRow(line.symbol, line.meaning, self._given_value(line), _origin(line))
            elif isinstance(line, GivenConstant):
                value = self._result(line.symbol, line.unit)
                yield GivenRow(line.symbol, line.meaning, value, line.source)

    def _given_value(self, line: GivenFigure) -> str:
        put_in = self._result(line.symbol, line.unit)
        if line.written is None:
            return put_in
        written = shown(line.written)
        tolerance = getattr(line.comes_from, "tolerance", None)
        spread = f" ± {shown(tolerance)}" if tolerance else ""
        same = written.replace(" ", "") == put_in.replace(" ", "")
        return f"{written}{spread}" + ("" if same else f" = {put_in}")

    def _set(self, lines: Iterable[Line]) -> Iterator[SetLine]:
        for line in lines:
            if isinstance(line, WorkingStep):
                yield self._step(line)
            elif isinstance(line, SolvedFigure):
                rows = ((self._result_of(line), line.how),)
                yield SetLine(line.symbol, line.meaning, 0, rows)
            elif isinstance(line, WorkingBalance):
                yield self._balance(line)

    def _step(self, line: WorkingStep) -> SetLine:
        names, numbers = self._sides(line.equation, line.unit)
        result = self._result_of(line)
        rows: tuple[tuple[str | Side, ...], ...] = ((names,), (numbers,), (result,))
        return SetLine(line.symbol, line.meaning, self.numbers.get(line.source, 0), rows)

    def _balance(self, line: WorkingBalance) -> SetLine:
        (left, put_left), (right, put_right) = (
            self._sides(side, line.unit) for side in (line.left_side, line.right_side)
        )
        results = (
            self._amount(Figure(value=side, unit=line.unit), line.unit) for side in line.sides
        )
        rows = tuple(
            (side, result) for side, result in zip((put_left, put_right), results, strict=True)
        )
        number = self.numbers.get(line.source, 0)
        return SetLine("", line.meaning, number, ((left, right), *rows))

    def _sides(self, tree: Expression, unit: WorkingUnit) -> tuple[Side, Side]:
        in_degrees = unit == ANGLE_IN_DEGREES
        return (
            Side(tree, Names(self.system), in_degrees),
            Side(tree, PutIn(self.figures, self.system), in_degrees),
        )

    def _result(self, symbol: str, unit: WorkingUnit) -> str:
        return self._amount(self.figures[symbol], unit)

    def _amount(self, figure: Figure, unit: WorkingUnit, half: float | None = None) -> str:
        """Write a figure with its ± and its unit."""
        name = unit.name(self.system)
        number = amount(figure, unit, self.system)
        return _with_unit(f"{number}{_spread(half, unit.size(self.system))}", name)

    def _result_of(self, line: WorkingStep | SolvedFigure) -> str:
        """Write a result, and the same in the unit of the answer."""
        first = self._amount(self.figures[line.symbol], line.unit, line.uncertainty)
        return f"{first}{self._elsewhere(line)}"

    def _elsewhere(self, line: WorkingStep | SolvedFigure) -> str:
        also = getattr(line, "second_unit", None)
        if also is not None:
            same = Figure(value=line.si_value, unit=also)
            return f" = {self._amount(same, also, line.uncertainty)}"
        if line.kind is None:
            return ""
        value = in_system(quantity(line.si_value, line.kind), self.system)
        name, size = unit_spelling(value).replace("*", "·"), UNITS[unit_spelling(value)].factor
        if name in ("deg", line.unit.name(self.system)):
            return ""
        number = computed(line.si_value / size)
        return f" = {_with_unit(f'{number}{_spread(line.uncertainty, size)}', name)}"


def _spread(half: float | None, size: float) -> str:
    """Write a ± for a unit of some size; nothing where none is known."""
    return f" ± {rounded(half / size)}" if half else ""


def _with_unit(number: str, name: str) -> str:
    return f"{number}°" if name == "°" else f"{number} {name}".rstrip()


def _origin(line: GivenFigure) -> str:
    """Say where a given figure comes from."""
    found = line.comes_from
    if found is None:
        return line.said_by
    place = f", {found.at}" if found.at else ""
    stands = f"; {found.file}: {found.key}" if found.file else ""
    like = f" ({found.taken_by} is like it)" if found.file and found.taken_by else ""
    why = f"; corrected: {found.why}" if found.why else ""
    return f"{found.source}{place}{stands}{like}{why}"
