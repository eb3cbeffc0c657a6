"""What is known of a corner, what is missing, and what to measure next."""

from __future__ import annotations

import enum
from collections.abc import Iterator, Mapping, Sequence

import attrs

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.missing import figure_in_words, usual_ranges
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.rates import rates
from barwright.analysis.rates.ride import ride
from barwright.analysis.tolerance.figures import HeldFigure, figure_places
from barwright.analysis.tolerance.tolerance import tolerance
from barwright.errors import BarwrightError
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.source import SourceKind
from barwright.parts.setup import Reading, Setup
from barwright.registry.measuring.catalogue import (
    AskedFor,
    MeasuredFigure,
    figure_at,
    figures_of,
    needed_paths,
    readings_of,
    typed_key,
)
from barwright.registry.usual.catalogue import usual_errors
from barwright.units import Kind, Quantity, is_unknown

__all__ = ["FigureState", "Needs", "NeedsRow", "needs"]


class FigureState(enum.Enum):
    """What is known of a figure."""

    MISSING = "missing"
    ASSUMED = "assumed"
    UNSURE = "unsure"
    KNOWN = "known"


@attrs.frozen(kw_only=True, repr=False)
class NeedsRow(Summarised):
    """A figure of a corner: what is known of it, and how it is measured.

    Parameters
    ----------
    figure : str
        Fields of the setup that lead to it.
    key : str
        How it is typed into a pack or a job, like ``[bar.arm_end] length``.
    named : str
        The same in words.
    state : FigureState
        Missing, assumed, unsure or known.
    value : Quantity, optional
        What is known of it; none where it is missing, or a count.
    half_width : Quantity, optional
        Its ±.
    written_in : str
        Unit to write it in; empty for a count.
    tool, where : str
        What it is measured with, and where.
    usual_error : Quantity, optional
        How far such a tool is usually off, either way; none where no usual error is listed.
    waiting : tuple of AskedFor
        Questions that cannot be answered without it, where it is missing.
    percent : float
        Largest share that it has in the ± of the wheel rate or of the height at rest [%].
    """

    figure: str
    key: str
    named: str
    state: FigureState
    value: Quantity | None
    half_width: Quantity | None
    written_in: str
    tool: str
    where: str
    usual_error: Quantity | None
    waiting: tuple[AskedFor, ...]
    percent: float

    def _in_short(self) -> str:
        """Tell it by its name and what is known of it."""
        return f"{self.named}, {self.state.value}"


@attrs.frozen(kw_only=True, repr=False)
class Needs(Answer):
    """Answer to :func:`needs`.

    Parameters
    ----------
    verdict : Verdict
        Listed, or needs more figures.
    findings : tuple of Finding
        Which questions wait, and for what.
    cautions : tuple of Caution
        None: to measure on a vehicle that stands is no work on its spring.
    vehicle, corner : str
        What it was asked of.
    rows : tuple of NeedsRow
        All figures of the corner: those that are missing first, most questions waiting first;
        then those that an answer is unsure by, the largest share first; then the others.
    as_it_stands : tuple of NeedsRow
        What is read of the corner as it stands, known or not: height, place of the nut, load.
    """

    vehicle: str
    corner: str
    rows: tuple[NeedsRow, ...]
    as_it_stands: tuple[NeedsRow, ...]

    @property
    def missing(self) -> tuple[NeedsRow, ...]:
        """Figures that nobody knows and a question waits for."""
        return tuple(row for row in self.rows if row.waiting)

    @property
    def unsure(self) -> tuple[NeedsRow, ...]:
        """Figures whose ± counts, the largest share first."""
        return tuple(row for row in self.rows if row.percent >= _COUNTS)

    @property
    def headline(self) -> str:
        """What to measure first, and what that brings."""
        if self.missing:
            first, count = self.missing[0], len(self.missing)
            figures = "1 missing figure" if count == 1 else f"{count} missing figures"
            waiting = _listed([_WAITING[one] for one in first.waiting])
            verb = "Look up" if first.tool == _LOOKED_UP else "Measure"
            return f"{figures}. {verb} {first.named} first: {waiting} need it."
        if self.unsure:
            first = self.unsure[0]
            return (
                f"No figure is missing. To narrow the ±, begin with {first.named}: "
                f"it causes up to {first.percent:.0f} % of the ±."
            )
        return "No figure is missing."


# Tool of what nobody measures.
_LOOKED_UP = "data sheet"

# A smaller share of a ± is not worth a measurement [%].
_COUNTS = 1.0

_WAITING = {
    AskedFor.FIT: "the fit",
    AskedFor.RATES: "the rates",
    AskedFor.HEIGHT: "the height",
    AskedFor.STRENGTH: "the strength",
    AskedFor.PLAN: "a plan",
    AskedFor.NUT: "the table of the nut",
    AskedFor.CLOCKING: "the clocking at the same height",
}


@checks_arguments
def needs(setup: Setup) -> Needs:
    """List what is known of a corner, what is missing, and what is worth measuring next.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    Needs

    References
    ----------
    Shares of a ±: see :func:`barwright.tolerance`. Tools and places: common practice, no source.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> setup = Registry.discover().setup("fells:chassis/short", corner="front left")
    >>> answer = needs(setup)
    >>> len(answer.missing), answer.unsure[0].named
    (0, 'bar material shear modulus')
    """
    known = {place.path: place for place in figure_places(setup)}
    percents = _percents(setup)
    waiting = _waiting(setup)

    def row(figure: MeasuredFigure) -> NeedsRow:
        path = figure.path
        return _row(setup, figure, known.get(path), waiting.get(path, ()), percents)

    rows = [row(figure) for figure in figures_of(setup)]
    return Needs(
        verdict=Verdict.NEEDS_FIGURES if any(row.waiting for row in rows) else Verdict.LISTED,
        findings=tuple(_open(setup, waiting)),
        vehicle=setup.chassis.title,
        corner=setup.corner,
        rows=tuple(sorted(rows, key=_rank)),
        as_it_stands=tuple(map(row, readings_of(setup))),
    )


def _rank(row: NeedsRow) -> tuple[float, ...]:
    """Order of rows: what most wait for, then what makes most of a ±; else as one measures.

    Missing figures that no workshop can measure come after those that it can.
    """
    is_known = row.state is not FigureState.MISSING
    share = row.percent if row.percent >= _COUNTS else 0.0
    return is_known, not is_known and row.tool == _LOOKED_UP, -len(row.waiting), -share


def _waiting(setup: Setup) -> dict[str, tuple[AskedFor, ...]]:
    """List the questions that wait for each missing figure."""
    found: dict[str, tuple[AskedFor, ...]] = {}
    for question in AskedFor:
        for path in needed_paths(setup, question):
            if is_unknown(figure_at(setup, path)):
                found[path] = (*found.get(path, ()), question)
    return found


def _open(setup: Setup, waiting: Mapping[str, tuple[AskedFor, ...]]) -> Iterator[Finding]:
    """Say of the questions that wait what they wait for, the least first.

    A question that waits for all that an earlier one waits for refers to it.
    """
    alike: dict[tuple[str, ...], list[str]] = {}
    for question, words in _WAITING.items():
        names = tuple(figure_in_words(setup, p) for p, held in waiting.items() if question in held)
        if names:
            alike.setdefault(names, []).append(words)
    told: list[tuple[tuple[str, ...], str]] = []
    for names, asked in sorted(alike.items(), key=lambda group: len(group[0])):
        figures = _told_once(names, told)
        told.append((names, _listed(asked)))
        verb = "waits" if len(asked) == 1 and not asked[0].endswith("rates") else "wait"
        yield Finding(topic=Topic.NEEDED, text=f"{_listed(asked)} {verb} for {figures}")
    if usual := usual_ranges(setup, tuple(waiting)):
        yield Finding(topic=Topic.NEEDED, text=usual)


def _told_once(names: Sequence[str], told: Sequence[tuple[Sequence[str], str]]) -> str:
    """List figures; those that an earlier question waits for too, by that question."""
    for known, asked in reversed(told):
        if set(known) <= set(names):
            further = ", ".join(name for name in names if name not in known)
            return f"the same as {asked}, and for {further}"
    return ", ".join(names)


def _percents(setup: Setup) -> dict[str, float]:
    """Largest share of each figure in the ± of the wheel rate and of the height at rest [%]."""
    found: dict[str, float] = {}
    for question, figure in ((rates, "ride.wheel_rate"), (ride, "state.height")):
        try:
            rows = tolerance(question, setup).rows
        except BarwrightError:  # the question itself says what is wrong
            continue
        for share in (s for row in rows if row.figure.endswith(figure) for s in row.shares):
            found[share.figure] = max(found.get(share.figure, 0.0), share.percent)
    return found


def _row(
    setup: Setup,
    figure: MeasuredFigure,
    held: HeldFigure | None,
    waiting: tuple[AskedFor, ...],
    percents: Mapping[str, float],
) -> NeedsRow:
    percent, kind = percents.get(figure.path, 0.0), _kind(setup, figure.path)
    return NeedsRow(
        figure=figure.path,
        key=typed_key(figure.path),
        named=figure_in_words(setup, figure.path),
        state=_state(setup, figure, held, percent),
        value=held.value if held else None,
        half_width=held.tolerance if held else None,
        written_in=kind.units[0] if kind else "",
        tool=figure.tool,
        where=figure.where,
        usual_error=_usual_error(figure, kind),
        waiting=waiting,
        percent=percent,
    )


def _state(
    setup: Setup, figure: MeasuredFigure, held: HeldFigure | None, percent: float
) -> FigureState:
    found = figure_at(setup, figure.path)
    if found is None or is_unknown(found):
        return FigureState.MISSING
    if held and held.known and held.known.source_kind is SourceKind.ESTIMATED:
        return FigureState.ASSUMED
    return FigureState.UNSURE if percent >= _COUNTS else FigureState.KNOWN


def _kind(setup: Setup, path: str) -> Kind | None:
    """Return the kind of a figure; none of a count."""
    outer, _, field = path.rpartition(".")
    # A height may be asked for that nobody has read yet.
    holder = Reading if outer == "reading" else type(figure_at(setup, outer) if outer else setup)
    found = figure_fields(holder).get(field)
    return found[0] if found else None


def _usual_error(figure: MeasuredFigure, kind: Kind | None) -> Quantity | None:
    """Return how far a tool is usually off, where it measures a figure of that kind."""
    tool = _HARDER.get(figure.path.rpartition(".")[2], figure.tool)
    own = (e for e in usual_errors() if e.source.id.endswith(f"/{tool}") and e.kind == kind)
    return next((error.within for error in own), None)


# A key or a blank is harder to aim at than a straight edge, and a bolt under the vehicle
# harder to reach than a clean part.
_HARDER = {
    "key_angle": "key-angle",
    "blank_angle": "key-angle",
    "pin_distance": "adjuster-calliper",
}


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
