"""The figures that a bench sheet sets, and what it has measured."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.reindex.plan import Plan
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.tolerance.shifted_answers import COVERAGE_TEXT
from barwright.parts.setup import Setup
from barwright.report.sheet.adjustment import adjusted, datum, words_for
from barwright.units import Quantity, System, in_system, shown

__all__ = ["SheetMeasurement", "SheetSetting", "left_open", "measurements", "settings"]


@attrs.frozen(kw_only=True)
class SheetSetting:
    """A figure to set.

    Parameters
    ----------
    what : str
        What is set.
    value : Quantity
        To how much.
    note : str
        What is to be known of it.
    """

    what: str
    value: Quantity
    note: str = ""


@attrs.frozen(kw_only=True)
class SheetMeasurement:
    """Something to measure, with room for the figure.

    Parameters
    ----------
    what, where, tool : str
        What is measured, between which points, with what.
    expected : Quantity, optional
        What it should be.
    """

    what: str
    where: str
    tool: str
    expected: Quantity | None = None


def settings(setup: Setup, plan: Plan, *, system: System = "metric") -> tuple[SheetSetting, ...]:
    """List the figures that a plan sets.

    Parameters
    ----------
    setup : Setup
        The corner.
    plan : Plan
        The plan.
    system : {"metric", "inch"}
        Units of the notes.

    Returns
    -------
    tuple of SheetSetting
    """
    return (
        *_turned(setup, plan, system),
        SheetSetting(what="hub to arch", value=plan.height, note=left_open(plan)),
        SheetSetting(what="torque left at full droop", value=plan.droop.torque),
    )


def _turned(setup: Setup, plan: Plan, system: System) -> Iterator[SheetSetting]:
    """List what is set by turning; nothing with a fixed socket."""
    at = adjusted(plan)
    if at is None or setup.adjuster is None:
        return
    words, raising = at.words, at.raising_sense.value
    yield SheetSetting(
        what=f"{words.what} from the middle of its thread, clockwise positive", value=at.turns
    )
    thread = float(at.from_slack_end.magnitude) * setup.adjuster.thread_pitch
    yield SheetSetting(
        what=f"{words.what} from the slack end of its thread",
        value=at.from_slack_end,
        note=f"{shown(in_system(thread, system), 1)} of thread; turning "
        f"{at.raising_sense.reversed.value} leads to that end",
    )
    yield SheetSetting(what=f"{datum(setup)} to {words.point}", value=at.distance)
    yield SheetSetting(what="turns left clockwise", value=at.left_clockwise)
    yield SheetSetting(what="turns left counter-clockwise", value=at.left_counter_clockwise)
    yield SheetSetting(what=f"rise for one turn {raising}", value=at.height_per_turn)


def left_open(plan: Plan) -> str:
    """Say what is left open of the height."""
    at, tolerance = adjusted(plan), shown(plan.height_rounding, 1)
    flat = f"± {tolerance} to a flat of {at.words.flat}" if at else f"{tolerance} off the wanted"
    if plan.height_uncertainty.magnitude == 0.0:
        return flat
    open_by = shown(plan.height_uncertainty, 0)
    return f"{flat}; the parts' tolerances leave ± {open_by} ({COVERAGE_TEXT})"


def measurements(
    setup: Setup, present: Setup, answer: Reindex, plan: Plan
) -> tuple[SheetMeasurement, ...]:
    """List what to measure before and after.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    answer : Reindex
        The answer that the plan belongs to.
    plan : Plan
        The plan.

    Returns
    -------
    tuple of SheetMeasurement
    """
    height = ("hub centre to the arch's edge above it", "tape")
    # The middle of the thread may just be what a job leaves out.
    now = answer.pin_now if present.nut_turns.magnitude else None
    return (
        SheetMeasurement(
            what="corner load", where="under the tyre, before the stands", tool="wheel scale"
        ),
        SheetMeasurement(what="height before", where=height[0], tool=height[1]),
        *_place(present, "before", now),
        *_place(setup, "after", plan.pin_distance),
        SheetMeasurement(
            what="height after, settled and rolled",
            where=height[0],
            tool=height[1],
            expected=plan.height,
        ),
    )


def _place(setup: Setup, when: str, expected: Quantity | None) -> Iterator[SheetMeasurement]:
    """Where what is turned stands; nothing with a fixed socket."""
    words = words_for(setup)
    if words is not None:
        to = "centre of the lever's pin" if words.what == "nut" else words.point
        where = f"{datum(setup)} to the {to}"
        yield SheetMeasurement(
            what=f"{words.what} {when}", where=where, tool="calliper", expected=expected
        )
