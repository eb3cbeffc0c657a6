"""The figures that a bench sheet sets, and what it has measured."""

from __future__ import annotations

import attrs

from barwright.analysis.plan import Plan
from barwright.analysis.reindex import Reindex
from barwright.parts.adjuster import SwivellingMounting
from barwright.parts.setup import Setup
from barwright.units import Quantity, shown

__all__ = ["Measurement", "Setting", "datum", "left_open", "measurements", "settings"]


@attrs.frozen(kw_only=True)
class Setting:
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
class Measurement:
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


def settings(setup: Setup, plan: Plan) -> tuple[Setting, ...]:
    """List the figures that a plan sets.

    Parameters
    ----------
    setup : Setup
        The corner.
    plan : Plan
        The plan.

    Returns
    -------
    tuple of Setting
    """
    return (
        Setting(what="nut from the middle of its thread, clockwise positive", value=plan.nut_turns),
        Setting(what=f"{datum(setup)} to lever's pin", value=plan.pin_distance),
        Setting(what="turns left clockwise", value=plan.turns_left_clockwise),
        Setting(what="turns left counter-clockwise", value=plan.turns_left_counter_clockwise),
        Setting(what=f"rise for one turn {plan.raising_sense.value}", value=plan.height_per_turn),
        Setting(what="hub to arch", value=plan.height, note=left_open(plan)),
        Setting(what="torque left at full droop", value=plan.droop.torque),
    )


def left_open(plan: Plan) -> str:
    """Say what is left open of the height."""
    flat = f"± {shown(plan.height_tolerance, 1)} to a flat of the nut"
    if plan.height_uncertainty.magnitude == 0.0:
        return flat
    return f"{flat}; the parts' tolerances leave ± {shown(plan.height_uncertainty, 0)}"


def measurements(
    setup: Setup, present: Setup, answer: Reindex, plan: Plan
) -> tuple[Measurement, ...]:
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
    tuple of Measurement
    """
    height = ("hub centre to the arch's edge above it", "tape")
    pin = (f"{datum(setup)} to the centre of the lever's pin", "calliper")
    # The middle of the thread may just be what a job leaves out.
    now = answer.pin_now if present.nut_turns.magnitude else None
    return (
        Measurement(what="height before", where=height[0], tool=height[1]),
        Measurement(what="nut before", where=pin[0], tool=pin[1], expected=now),
        Measurement(what="nut after", where=pin[0], tool=pin[1], expected=plan.pin_distance),
        Measurement(
            what="height after, settled and rolled",
            where=height[0],
            tool=height[1],
            expected=plan.height,
        ),
        Measurement(
            what="corner load, if scales are to hand", where="under the tyre", tool="wheel scale"
        ),
    )


def datum(setup: Setup) -> str:
    """Say where distances along the bolt are counted from."""
    swivels = isinstance(setup.adjuster.mounting, SwivellingMounting)
    return "bolt's pivot" if swivels else "bolt's head"
