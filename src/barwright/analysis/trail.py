"""Origin of an answer's figures: source, place, file and key of each, and its effect."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.rates.rates import rates
from barwright.analysis.tolerance.figures import HeldFigure, TolerancedFigure, held_figures
from barwright.analysis.tolerance.shifted_answers import AskedQuestion, Question
from barwright.analysis.tolerance.unmeasured import (
    UnmeasuredSource,
    unmeasured_among,
)
from barwright.analysis.trail_facts import TrailFact, trail_facts
from barwright.analysis.trail_lines import TrailLine, trail_lines
from barwright.errors import SchemaError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.identity import PartNumber
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import Part
from barwright.parts.common.source import Source
from barwright.parts.setup import Setup
from barwright.registry.nearest_name import nearest
from barwright.registry.overlays.preference import Preference
from barwright.units import ANGLE, Quantity, quantity_of_unit, shown, unit_spelling

__all__ = ["Trail", "TrailPart", "trail"]

# A figure is moved by so much of the step that its effect is told for: little enough for
# its slope, and far above what the answers are rounded to.
_SHARE = 1e-3
_STEP = 0.01
_STEP_FROM_ZERO = 0.1

# An effect that is smaller is none: as a share of the answer's figure, and in its unit, where
# a figure that is itself next to nothing leaves but rounding.
_LEAST = 1e-6
_ROUNDING = 1e-8


@attrs.frozen(kw_only=True, repr=False)
class TrailPart(Summarised):
    """A part of a setup, or its vehicle, and what names it.

    Parameters
    ----------
    place : str
        Chassis, arm, bar, anchor, adjuster or damper.
    id, title : str
        The record.
    pack_version : str
        Version of its pack; empty if that has none.
    numbers : tuple of PartNumber
        Numbers that it is ordered or filed by.
    paint : str
        Paint mark that it is told by.
    remarks : tuple of str
        What else its pack says of it.
    replaces, replaced_by : tuple of str
        Ids of the parts that it supersedes, and of those that supersede it.
    """

    place: str
    id: str
    title: str
    pack_version: str = ""
    numbers: tuple[PartNumber, ...] = ()
    paint: str = ""
    remarks: tuple[str, ...] = ()
    replaces: tuple[str, ...] = ()
    replaced_by: tuple[str, ...] = ()


@attrs.frozen(kw_only=True, repr=False)
class Trail(Answer):
    """Answer to :func:`trail`.

    Parameters
    ----------
    verdict : Verdict
        Listed; of the question, if a figure of it was asked for.
    findings : tuple of Finding
        Why the answer does not have the figure.
    cautions : tuple of Caution
        None: to trace is no work.
    vehicle, corner : str
        What it was asked of.
    figure : str
        Figure of the answer; empty if none was asked for.
    value : Quantity, optional
        Value of that figure; none if the answer does not have it.
    lines : tuple of TrailLine
        All figures of the setup; or those that move the one asked for, the largest
        effect first.
    facts : tuple of TrailFact
        Counts, words, lists and directions that have a source, and figures that theirs does
        not give; where a figure was asked for, only those that an overlay has corrected.
    preferences : tuple of Preference
        Preferences that chose between packs with one id, and who stated each.
    rests_on : tuple of UnmeasuredSource
        Sources of the lines that nobody has measured or published.
    parts : tuple of TrailPart
        The vehicle and its parts at that corner.
    """

    vehicle: str
    corner: str
    figure: str
    value: Quantity | None
    lines: tuple[TrailLine, ...]
    facts: tuple[TrailFact, ...] = ()
    preferences: tuple[Preference, ...] = ()
    rests_on: tuple[UnmeasuredSource, ...] = ()
    parts: tuple[TrailPart, ...] = ()

    @property
    def headline(self) -> str:
        """How many figures there are, or which one affects the requested figure most."""
        if self.verdict.is_refusal and self.value is None:
            return self.refused()
        if not self.figure or self.value is None or not self.lines:
            return self._counted()
        name = self.figure.replace("_", " ").replace(".", " ")
        moves = self.lines[0].figure.replace("_", " ").replace(".", " ")
        return f"{name.capitalize()} is {shown(self.value, 1)}; {moves} affects it most."

    def _counted(self) -> str:
        """Say how many figures and facts there are, and of how many sources."""
        sources = {line.source for line in self.lines} | {fact.source for fact in self.facts}
        facts = f" and {_many(len(self.facts), 'fact')}" if self.facts else ""
        figures, found = _many(len(self.lines), "figure"), _many(len(sources), "source")
        return f"{figures}{facts} from {found}."


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


@checks_arguments
def trail(
    setup: Setup,
    *,
    figure: str = "",
    question: Question = rates,
    source: Callable[[str], Source | None] | None = None,
    preferences: Iterable[Preference] = (),
) -> Trail:
    """List the sources of a setup's figures and facts, or the figures that affect an answer.

    Parameters
    ----------
    setup : Setup
        The corner.
    figure : str
        Figure of the answer, by the fields that lead to it, like ``ride.wheel_rate``;
        left out, all figures of the setup are listed.
    question : callable
        From a setup to the answer.
    source : callable
        Returns a source by its name, like :meth:`Registry.source`, for its note.
    preferences : iterable of Preference
        Like :attr:`Registry.preferences`; those of the packs of the figures are told.

    Returns
    -------
    Trail
        Without a line where the answer is no and therefore lacks the figure.

    Raises
    ------
    SchemaError
        S201 for a figure that such an answer never has.
    BarwrightError
        Whatever the question raises for the setup as it is.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> setup = registry.setup("fells:chassis/short", corner="front left")
    >>> first = trail(setup, figure="bar_rate", source=registry.source).lines[0]
    >>> first.figure, first.source, first.key
    ('bar.diameter', 'fells:drawing-board', 'bar/short-standard: diameter')
    >>> print(f"{first.effect:.2f} for {first.step:.3f}")
    1.89 meter * newton / degree for 0.231 millimeter
    """
    held = held_figures(setup)
    lines = trail_lines(held, source)
    facts = trail_facts(setup, source)
    found = Trail(
        verdict=Verdict.LISTED,
        findings=(),
        vehicle=setup.chassis.id,
        corner=setup.corner,
        figure=figure,
        value=None,
        lines=lines,
        facts=tuple(fact for fact in facts if fact.why) if figure else facts,
        parts=tuple(_part(*one) for one in {"chassis": setup.chassis, **setup.parts}.items()),
    )
    if figure:
        found = _traced(found, AskedQuestion.of(question, setup), held)
    named = {line.figure for line in found.lines}
    return attrs.evolve(
        found,
        preferences=_reported(preferences, found),
        rests_on=unmeasured_among(one for one in held if one.path in named),
    )


def _part(place: str, part: Part) -> TrailPart:
    return TrailPart(
        place=place,
        id=part.id,
        title=part.title,
        pack_version=part.pack_version,
        numbers=part.numbers,
        paint=part.paint,
        remarks=part.remarks,
        replaces=part.replaces,
        replaced_by=part.replaced_by,
    )


def _reported(preferences: Iterable[Preference], found: Trail) -> tuple[Preference, ...]:
    """Keep the preferences that say which pack a figure or a fact is from."""
    sources = [*(line.source for line in found.lines), *(fact.source for fact in found.facts)]
    packs = {source.partition(":")[0] for source in sources}
    return tuple(one for one in preferences if one.id in packs)


# -- The effect of each ------------------------------------------------------------


def _traced(found: Trail, asked: AskedQuestion[Setup], held: Sequence[HeldFigure]) -> Trail:
    """Keep the figures that affect the given one; if the answer is no, give the reason."""
    value = asked.nominal.get(found.figure)
    if value is None and not (asked.verdict and asked.verdict.is_refusal):
        raise _unknown(found.figure, asked)
    lines = () if value is None else _by_effect(asked, found.figure, held, found.lines)
    findings = asked.findings if value is None else ()
    verdict = asked.verdict or Verdict.LISTED
    return attrs.evolve(found, value=value, lines=lines, verdict=verdict, findings=findings)


def _unknown(figure: str, asked: AskedQuestion[Setup]) -> SchemaError:
    return SchemaError(
        "S201",
        value=figure,
        expected="a figure of the answer",
        remedy=nearest(figure, list(asked.nominal)),
        key="figure",
    )


def _by_effect(
    asked: AskedQuestion[Setup], figure: str, held: Sequence[HeldFigure], lines: Sequence[TrailLine]
) -> tuple[TrailLine, ...]:
    """Lines of the figures that move one of the answer's, the largest effect first."""
    moving = list(_effects(asked, figure, held, lines))
    return tuple(sorted(moving, key=lambda line: -_size(line.effect)))


def _effects(
    asked: AskedQuestion[Setup], figure: str, held: Sequence[HeldFigure], lines: Sequence[TrailLine]
) -> Iterator[TrailLine]:
    nominal = asked.nominal[figure]
    least = max(_LEAST * abs(float(nominal.magnitude)), _ROUNDING)
    for one, line in zip(held, lines, strict=True):
        step = _step(one)
        change = _change(asked, figure, one, step)
        if not abs(change) <= least:
            effect = None if math.isnan(change) else _like(nominal, change)
            yield attrs.evolve(line, step=_like(one.value, step), effect=effect)


def _change(asked: AskedQuestion[Setup], figure: str, held: HeldFigure, step: float) -> float:
    """Change of the answer's figure for a step of a figure, by its slope; NaN if it has none."""
    way = TolerancedFigure(
        figure=held.path,
        value=held.value,
        half_width=_like(held.value, step * _SHARE),
        key=held.key,
    )
    column = list(asked.nominal).index(figure)
    for side in (1.0, -1.0):
        numbers, _ = asked.at({way: side})
        change = float(numbers[column] - asked.numbers[column])
        if not math.isnan(change):
            return side * change / _SHARE
    return math.nan


def _step(held: HeldFigure) -> float:
    """Step of a figure for an effect: one degree, or 1 %."""
    kind, _ = figure_fields(type(held.holder))[held.field]
    if kind is ANGLE:
        return float(quantity_of_unit(1.0, "deg").m_as(held.value.units))
    return abs(float(held.value.magnitude)) * _STEP or _STEP_FROM_ZERO


def _size(effect: Quantity | None) -> float:
    return math.inf if effect is None else abs(float(effect.magnitude))


def _like(value: Quantity, number: float) -> Quantity:
    return quantity_of_unit(number, unit_spelling(value))
