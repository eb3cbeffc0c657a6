"""The working of an answer: each equation with its source, figures put in, result with its ±."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import cast

import attrs
import numpy as np

from barwright.analysis.answer import Answer
from barwright.analysis.corner.corner_of import corner_of
from barwright.analysis.tolerance.figure_shifter import FigureShifter
from barwright.analysis.tolerance.figures import (
    figure_places,
    held_figures,
    toleranced_figures,
)
from barwright.analysis.tolerance.shifted_answers import half_change, uncertainty
from barwright.analysis.tolerance.unmeasured import UnmeasuredSource, unmeasured_among
from barwright.analysis.trail_facts import TrailFact, trail_facts
from barwright.analysis.trail_lines import TrailLine, trail_lines
from barwright.analysis.working.line import (
    GivenFigure,
    Line,
    SolvedFigure,
    WorkingBalance,
    WorkingSection,
    WorkingStep,
)
from barwright.analysis.working.subjects import SUBJECTS, Asked, Subject, SubjectName
from barwright.analysis.working.worksheet import Worksheet
from barwright.errors import BarwrightError, SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.converted import converted
from barwright.parts.common.source import Source
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted
from barwright.registry.nearest_name import nearest
from barwright.units import System, in_system, quantity, shown

__all__ = ["Working", "working"]


@attrs.frozen(kw_only=True, repr=False)
class Working(Answer):
    """Answer to :func:`working`.

    Parameters
    ----------
    verdict : Verdict
        That of the question.
    findings : tuple of Finding
        Those of the question, and which figures are missing.
    cautions : tuple of Caution
        None: to compute is no work.
    vehicle, corner : str
        What it is computed of.
    asked : str
        The question.
    figure : str
        Figure of the answer that alone was asked for; empty for all.
    answered : str
        The question's own headline.
    system : {"metric", "inch"}
        Units that the working is written in.
    sections : tuple of WorkingSection
        Its lines in order.
    rests_on : tuple of UnmeasuredSource
        Sources of the given figures that nobody has measured or published.
    """

    vehicle: str
    corner: str
    asked: str
    figure: str
    answered: str
    system: System
    sections: tuple[WorkingSection, ...]
    rests_on: tuple[UnmeasuredSource, ...] = ()

    @property
    def lines(self) -> tuple[Line, ...]:
        """All lines in order."""
        return tuple(line for section in self.sections for line in section.lines)

    @property
    def headline(self) -> str:
        """The figure that was asked for with its ±, or what the question answers."""
        asked = (one for one in self.lines if self.figure and _figure_of(one) == self.figure)
        return next((_told(one, self.system) for one in asked), self.answered)


def _told(line: Line, system: System) -> str:
    """Tell a figure of an answer with its ±."""
    found = cast("WorkingStep | SolvedFigure", line)
    meaning = f"{found.meaning[0].upper()}{found.meaning[1:]}"
    half = found.uncertainty or 0.0
    if found.kind is None:
        spread = f" ± {half:.2f}" if half else ""
        return f"{meaning}: {found.si_value:.2f}{spread}."
    value, spread_of = (
        shown(in_system(quantity(number, found.kind), system), 2)
        for number in (found.si_value, half)
    )
    return f"{meaning}: {value}{f' ± {spread_of}' if half else ''}."


@checks_arguments
def working(
    setup: Setup,
    *,
    asked: SubjectName = "rates",
    figure: str = "",
    wanted: Wanted | None = None,
    present: Setup | None = None,
    system: System = "metric",
    source: Callable[[str], Source | None] | None = None,
) -> Working:
    """Show the calculation behind an answer, as an engineer writes it by hand.

    Parameters
    ----------
    setup : Setup
        The corner.
    asked : {"fit", "rates", "ride", "strength", "nut", "reindex"}
        Question that the calculation is of: ``length_fit``, ``rates``, ``ride``, ``strength`` by
        the limits of the steel, ``nut_table`` where the nut is set, or the first plan of
        ``reindex``.
    figure : str
        Figure of that answer, by the fields that lead to it, like ``ride.wheel_rate``; left
        out, all figures.
    wanted : Wanted, optional
        Height that the corner is to have, for ``rates``, ``strength`` and ``reindex``; if left
        out, the corner as it is clocked and set, or the standard height.
    present : Setup, optional
        The corner as it is now, for ``reindex``; ``setup`` if left out.
    system : {"metric", "inch"}
        Units to write it in.
    source : callable
        Returns a source by its name, like :meth:`Registry.source`, for its note.

    Returns
    -------
    Working
        As far as the known figures go; its findings name those that are missing.

    Raises
    ------
    SchemaError
        S201 for a figure that no step of this working is.
    BarwrightError
        Whatever the question raises.

    Notes
    -----
    What a step comes to is what the kernels of the answer find; the equations are their
    printed form, and tests hold every line to the answer.  What was solved for is shown by
    putting it into the equation that it solves.

    References
    ----------
    Each line names its own.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> setup = registry.setup("fells:chassis/short", corner="front left")
    >>> sheet = working(setup, figure="bar_rate", source=registry.source)
    >>> sheet.headline
    'Torsional rate of the bar: 48.02 N·m/deg ± 2.74 N·m/deg.'
    >>> [section.title for section in sheet.sections][-1]
    'Rate of the bar'
    """
    subject = SUBJECTS[asked]
    question = Asked(corner=corner_of(setup), wanted=wanted, present=present)
    answer = subject.answer(question)
    computed = subject.computed(question, answer)
    sheet = subject.sheet(computed)
    lines = _asked_for(sheet, figure, is_whole=answer.is_answered)
    spreads = _uncertainties(subject, sheet, computed.wanted)
    origins = _Origins.of(sheet, source)
    finished = {id(line): _finished(line, spreads, origins) for line in lines}
    given = {line.symbol for line in lines if isinstance(line, GivenFigure)}
    paths = {path for name, path in sheet.paths.items() if name in given}
    return Working(
        verdict=answer.verdict,
        findings=answer.findings,
        vehicle=setup.chassis.id,
        corner=setup.corner,
        asked=asked,
        figure=figure,
        answered=converted(answer, system).headline,
        system=system,
        sections=tuple(
            attrs.evolve(one, lines=tuple(finished[id(line)] for line in one.lines))
            for one in sheet.sections(lines)
        ),
        rests_on=unmeasured_among(one for one in held_figures(setup) if one.path in paths),
    )


# -- One figure alone ----------------------------------------------------------------


def _asked_for(sheet: Worksheet, figure: str, *, is_whole: bool) -> tuple[Line, ...]:
    """Keep the lines that a figure of the answer follows from; all, if none is asked for."""
    if not figure:
        return sheet.lines
    figures = {_figure_of(line): line for line in sheet.lines if _figure_of(line)}
    if figure not in figures:
        if not is_whole:
            return sheet.lines
        raise SchemaError(
            "S201",
            value=figure,
            expected="a figure of this working",
            remedy=nearest(figure, list(figures)),
            key="figure",
        )
    needed = _needed(sheet, figures[figure])
    return tuple(line for line in sheet.lines if id(line) in needed)


def _figure_of(line: Line) -> str:
    return line.figure if isinstance(line, WorkingStep | SolvedFigure) else ""


def _needed(sheet: Worksheet, last: Line) -> frozenset[int]:
    """Lines that a line follows from, itself among them."""
    by_symbol = {line.symbol: line for line in sheet.lines if not isinstance(line, WorkingBalance)}
    shown_by: dict[str, list[WorkingBalance]] = {}
    for line in sheet.lines:
        if isinstance(line, WorkingBalance):
            shown_by.setdefault(line.solved, []).append(line)
    found: set[int] = set()
    waiting: list[Line] = [last]
    while waiting:
        line = waiting.pop()
        if id(line) not in found:
            found.add(id(line))
            waiting += (by_symbol[name] for name in _symbols(line))
            waiting += shown_by.get(getattr(line, "symbol", ""), ())
    return frozenset(found)


def _symbols(line: Line) -> Iterator[str]:
    if isinstance(line, WorkingStep):
        yield from line.equation.symbols
    elif isinstance(line, SolvedFigure):
        yield from line.checked_by
    elif isinstance(line, WorkingBalance):
        yield from line.left_side.symbols
        yield from line.right_side.symbols


# -- The ± and the origin of each -----------------------------------------------------


def _uncertainties(subject: Subject, sheet: Worksheet, wanted: Wanted | None) -> dict[str, float]:
    """Uncertainty of every symbol, from the tolerances of the setup's figures."""
    setup = sheet.setup
    ways = toleranced_figures(setup, {})
    names, middle = list(sheet.values), np.array(list(sheet.values.values()))
    shifter = FigureShifter(setup, figure_places(setup))

    def at(index: int, *, share: float) -> np.ndarray:
        found = _values(subject, shifter.moved({ways[index]: share}), wanted)
        return np.array([found.get(name, math.nan) for name in names])

    changes = np.array(
        [
            half_change(at(index, share=-1.0), at(index, share=1.0), middle=middle)
            for index in range(len(ways))
        ]
    ).reshape(len(ways), len(names))
    return dict(zip(names, uncertainty(changes).tolist(), strict=True))


def _values(subject: Subject, setup: Setup, wanted: Wanted | None) -> dict[str, float]:
    """Values of all symbols for a shifted setup; none where it has no answer."""
    try:
        return subject.sheet(Asked(corner=corner_of(setup), wanted=wanted)).values
    except BarwrightError:
        return {}


@attrs.frozen
class _Origins:
    """Where the given figures come from, by their symbols."""

    by_symbol: dict[str, TrailLine | TrailFact]

    @classmethod
    def of(cls, sheet: Worksheet, source: Callable[[str], Source | None] | None) -> _Origins:
        """Find them."""
        setup = sheet.setup
        held = held_figures(setup)
        by_key = {one.key: line for one, line in zip(held, trail_lines(held, source), strict=True)}
        found: dict[str, TrailLine | TrailFact] = {
            place.path: by_key[place.key] for place in figure_places(setup)
        }
        found |= {fact.fact: fact for fact in trail_facts(setup, source)}
        return cls({n: found[path] for n, path in sheet.paths.items() if path in found})


def _finished(line: Line, spreads: dict[str, float], origins: _Origins) -> Line:
    """Add to a line what only the whole working knows."""
    if isinstance(line, GivenFigure):
        return attrs.evolve(line, comes_from=origins.by_symbol.get(line.symbol))
    if isinstance(line, WorkingStep | SolvedFigure):
        return attrs.evolve(line, uncertainty=spreads[line.symbol])
    return line
