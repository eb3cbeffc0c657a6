"""The tables of a bench sheet: a row a figure, a column a corner."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

import attrs

from barwright.analysis.adjusting.nut_table import NutTable
from barwright.analysis.answer import Verdict
from barwright.analysis.rates.rates import Rates
from barwright.analysis.reindex.plan.plan import EndAction, EndWork, Plan
from barwright.analysis.strength.strength import Strength
from barwright.analysis.tolerance.shifted_answers import COVERAGE_TEXT
from barwright.parts.common.in_short import Summarised
from barwright.parts.load import LoadKind
from barwright.parts.setup import Setup
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import adjusted, datum, words_for
from barwright.units import Quantity, System, in_system, shown

__all__ = ["SheetMeasurement", "SheetRow", "figures", "left_open", "measurements", "rows_together"]


@attrs.frozen(kw_only=True, repr=False)
class SheetRow(Summarised):
    """A figure of each corner.

    Parameters
    ----------
    what : str
        What it is.
    values : tuple of str
        For each corner, in their order, with its unit; empty where a corner has none.
    """

    what: str
    values: tuple[str, ...]

    @property
    def value(self) -> str | None:
        """The value of all corners; none where they differ."""
        return self.values[0] if len(set(self.values)) == 1 else None


@attrs.frozen(kw_only=True, repr=False)
class SheetMeasurement(Summarised):
    """Something to measure at each corner, with room for the figure.

    Parameters
    ----------
    what, where, tool : str
        What is measured, between which points, with what.
    expected : tuple of str
        Expected figure of each corner, with its unit; empty if not known.
    """

    what: str
    where: str
    tool: str
    expected: tuple[str, ...]


Pairs: TypeAlias = Iterable[tuple[str, str]]


def rows_together(corners: Sequence[Pairs]) -> tuple[SheetRow, ...]:
    """Put the figures of several corners beside each other.

    Parameters
    ----------
    corners : sequence of iterables of (str, str)
        For each corner, what its figures are, and the figures.

    Returns
    -------
    tuple of SheetRow
        In the order of the corner that has most of them.
    """
    columns = [dict(pairs) for pairs in corners]
    names = dict.fromkeys(name for column in sorted(columns, key=len)[::-1] for name in column)
    return tuple(
        SheetRow(what=name, values=tuple(column.get(name, "") for column in columns))
        for name in names
    )


def figures(work: CornerWork, system: System) -> Pairs:
    """List what a plan sets and what comes of it.

    Parameters
    ----------
    work : CornerWork
        The corner, and the plan to carry out.
    system : {"metric", "inch"}
        Units of the load.

    Returns
    -------
    iterable of (str, str)
    """
    plan, load = work.plan, work.setup.load
    for end in plan.ends:
        yield from _tooth(end)
    yield from _turned(work.setup, plan)
    yield from _safe_turns(work.nut_table)
    yield "hub to arch", plan.height_in_words
    yield "droop, bump to spare", f"{shown(plan.droop_left, 0)}, {shown(plan.bump_left, 0)}"
    # A scale reading stands where it is to be measured.
    if load.kind is not LoadKind.SCALE_READING:
        yield load.kind.value, shown(in_system(load.mass, system), 1)
    yield from _sprung(work.rates)
    yield "bar at full bump", _stressed(work.rates, work.strength)


def _tooth(end: EndWork) -> Iterator[tuple[str, str]]:
    """Say which tooth is removed, or marked where there is no key; nothing where none is."""
    if end.direction is None:
        return
    done = {EndAction.REMOVE_TOOTH: "remove", EndAction.NO_KEY: "mark"}.get(end.action)
    if done:
        yield f"tooth to {done}, {end.end.value}", f"{end.tooth} {end.direction.value}"


def _turned(setup: Setup, plan: Plan) -> Iterator[tuple[str, str]]:
    """List what is set by turning; nothing with a fixed socket."""
    at = adjusted(plan)
    if at is None:
        return
    yield f"{datum(setup)} to {at.words.point}", shown(at.distance, 1)
    left = (at.left_clockwise, at.left_counter_clockwise)
    right_hand, left_hand = (f"{float(turns.magnitude):.1f}" for turns in left)
    yield "turns to spare clockwise, back", f"{right_hand}, {left_hand}"
    yield (
        f"one turn {at.raising_sense.value} raises",
        shown(at.height_per_turn, 1).removesuffix("/turn"),
    )


def _safe_turns(table: NutTable | None) -> Iterator[tuple[str, str]]:
    """Say how far the adjuster may be turned where less than the thread is safe."""
    limits = {} if table is None else {"lower": table.most_lowering, "raise": table.most_raising}
    for way, turns in limits.items():
        if turns is not None:
            yield f"safe to {way} by at most", f"{turns} turn{'' if turns == 1 else 's'}"


def _sprung(rates: Rates) -> Iterator[tuple[str, str]]:
    found = rates.figures
    if found is not None:
        frequency = "" if found.ride_frequency is None else f", {shown(found.ride_frequency, 2)}"
        yield "rate, frequency at the wheel", f"{shown(found.ride.wheel_rate, 1)}{frequency}"


def _stressed(rates: Rates, strength: Strength) -> str:
    found = rates.figures
    stress = f"{shown(found.bump.shear_stress, 0)}, " if found is not None else ""
    verdict = strength.verdict
    return f"{stress}{_STRENGTH.get(verdict, verdict.value)}"


# In a cell, a verdict has room for two words.
_STRENGTH = {Verdict.HOLDS: "holds", Verdict.BELOW_YIELD: "below yield"}


def left_open(plan: Plan) -> str:
    """Say what is left open of the height."""
    at, rounding = adjusted(plan), shown(plan.height_rounding, 1)
    flat = f"± {rounding} to a flat of {at.words.flat}" if at else f"{rounding} off the wanted"
    if plan.height_uncertainty.magnitude == 0.0:
        return flat
    open_by = shown(plan.height_uncertainty, 0)
    return f"{flat}; the parts' tolerances leave ± {open_by} ({COVERAGE_TEXT})"


def measurements(works: Sequence[CornerWork], system: System) -> tuple[SheetMeasurement, ...]:
    """List what to measure before and after.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.
    system : {"metric", "inch"}
        Units of what is expected.

    Returns
    -------
    tuple of SheetMeasurement
        None where no corner is.
    """
    if not works:
        return ()
    height = ("hub to arch", "tape")
    return (
        SheetMeasurement(
            what="scale reading",
            where="under the tyre",
            tool="wheel scale",
            expected=tuple(_scale_reading(work.setup, system) for work in works),
        ),
        SheetMeasurement(
            what="height before",
            where=height[0],
            tool=height[1],
            expected=tuple(_height_before(work.present, system) for work in works),
        ),
        *_places("before", [(work.present, _place_now(work)) for work in works]),
        *_uncut(works),
        *_places("after", [(work.setup, work.plan.pin_distance) for work in works]),
        SheetMeasurement(
            what="height after",
            where=height[0],
            tool=height[1],
            expected=tuple(shown(work.plan.height, 0) for work in works),
        ),
    )


def _uncut(works: Sequence[CornerWork]) -> Iterator[SheetMeasurement]:
    """List what is measured before a tooth is removed; nothing where none is tried."""
    trials = [work.trial for work in works]
    if any(trials):
        expected = ("" if trial is None else shown(trial.plan.height, 0) for trial in trials)
        yield SheetMeasurement(
            what="height uncut", where="hub to arch", tool="tape", expected=tuple(expected)
        )


def _place_now(work: CornerWork) -> Quantity | None:
    """Where what is turned stands now; the middle of the thread may just be left out of a job."""
    now = work.present
    return work.answer.pin_now if now.pin_distance or now.nut_turns.magnitude else None


def _scale_reading(setup: Setup, system: System) -> str:
    """Return the reading that the sheet rests on; empty where a sprung mass was given."""
    load = setup.load
    mass = shown(in_system(load.mass, system), 0)
    return mass if load.kind is LoadKind.SCALE_READING else ""


def _height_before(present: Setup, system: System) -> str:
    """Height that was measured; empty where none was."""
    height = None if present.reading is None else present.reading.height
    return "" if height is None else shown(in_system(height, system), 0)


def _places(
    when: str, corners: Sequence[tuple[Setup, Quantity | None]]
) -> Iterator[SheetMeasurement]:
    """Where what is turned stands, a row a kind of adjuster; nothing with a fixed socket."""
    kinds: dict[tuple[str, str], dict[int, str]] = {}
    for place, (setup, expected) in enumerate(corners):
        if (words := words_for(setup)) is not None:
            at = kinds.setdefault((f"{words.what} {when}", f"{datum(setup)} to {words.point}"), {})
            at[place] = "" if expected is None else shown(expected, 1)
    for (what, where), found in kinds.items():
        values = tuple(found.get(place, "") for place in range(len(corners)))
        yield SheetMeasurement(what=what, where=where, tool="calliper", expected=values)
