"""The steps of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.assembly import Assembly
from barwright.analysis.fit import LengthFit
from barwright.analysis.model import CornerModel
from barwright.analysis.plan import Blank, EndAction, EndWork, Plan
from barwright.analysis.reindex import Reindex
from barwright.parts.adjuster import SwivellingMounting
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.units import LENGTH, Quantity, System, in_system, quantity, shown, si

__all__ = ["Measurement", "Setting", "Step", "left_open", "measurements", "settings", "steps"]


@attrs.frozen(kw_only=True)
class Step:
    """One step.

    Parameters
    ----------
    text : str
        What to do.
    refused : bool
        Whether it is a thing not to do before what it names is done.
    """

    text: str
    refused: bool = False


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


def steps(setup: Setup, present: Setup, answer: Reindex, plan: Plan) -> tuple[Step, ...]:
    """List the steps of one corner.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    answer : Reindex
        The answer that the plan belongs to.
    plan : Plan
        The plan to carry out.

    Returns
    -------
    tuple of Step
    """
    todo = list(_prepare())
    if _bar_moves(setup, present, plan):
        damper_stays_on = answer.removal[0].slides
        todo += _remove(setup, answer.removal)
        todo += _prepare_bar(setup, plan)
        todo += _put_in(setup, present, answer.fit, plan, damper_is_on=damper_stays_on)
    else:
        if setup.damper != present.damper:
            todo += [_DAMPER_OFF, _damper_on(setup)]
        todo += _set(setup, plan)
    todo += _finish(plan)
    return tuple(todo)


def _bar_moves(setup: Setup, present: Setup, plan: Plan) -> bool:
    """Whether the bar has to come out of a socket."""
    swapped = (setup.parts[kind] != present.parts[kind] for kind in ("arm", "bar", "tube"))
    return bool(plan.disturbed) or any(swapped)


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
        Setting(what=f"{_datum(setup)} to lever's pin", value=plan.pin_distance),
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
    setup: Setup, present: Setup, plan: Plan, system: System
) -> tuple[Measurement, ...]:
    """List what to measure before and after.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    plan : Plan
        The plan.
    system : {"metric", "inch"}
        Units to give the expected figures in.

    Returns
    -------
    tuple of Measurement
    """
    height = ("hub centre to the arch's edge above it", "tape")
    pin = (f"{_datum(setup)} to the centre of the lever's pin", "calliper")
    now = in_system(quantity(CornerModel(present).nut_pin, LENGTH), system)
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


def viewer(work: EndWork) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value}, looking toward the {other.value}"


def work_text(work: EndWork) -> str:
    """Say in a sentence what to do at one end of the bar."""
    name = work.end.value.capitalize()
    if work.action is EndAction.STAYS:
        return f"{name}: leave it on the tooth it is on ({work.on_key.value} on the key)."
    sense = f" {work.direction.value}" if work.direction else ""
    tooth = f"tooth {work.tooth}{sense} from the maker's blank, {viewer(work)}"
    if work.action is EndAction.REMOVE_TOOTH:
        clear = (
            "; or clear the key in the socket instead, and put that tooth where the key was"
            if work.key_may_be_cleared
            else ""
        )
        return f"{name}: remove {tooth}. This new blank goes on the key{clear}."
    if work.action is EndAction.NO_KEY:
        place = tooth if work.direction else "the maker's blank"
        return f"{name}: the socket has no key; put {place} where the key would be."
    if work.on_key is Blank.MAKERS:
        return f"{name}: put the maker's blank on the key."
    return f"{name}: put the blank cut earlier on the key: {tooth}."


def _prepare() -> Iterator[Step]:
    yield Step(text="Measure hub to arch and the nut's place on both sides, and note them below.")
    yield Step(text="Set the body on stands, let the wheel hang, take the wheel off.")
    yield Step(text="Mark bar, arm, tube and lever against each other; mark left and right.")


def _remove(setup: Setup, removal: tuple[Assembly, ...]) -> Iterator[Step]:
    """Get the old bar out, by the way that leaves no torque in it."""
    on, off = removal
    if on.slides:
        yield Step(text=f"{_nut(on)} With the damper on and the arm {_lifted(on)}, it is loose.")
    else:
        yield Step(
            text="Do not draw the bar with the damper on: with the nut at the end of its thread "
            f"{_residue(on)} would be left in it.",
            refused=True,
        )
        yield Step(text=f"Turn the nut to the end of its thread: {_place(on)}.")
        yield _DAMPER_OFF
        yield from _loose_without_damper(off)
    yield Step(text="Prove it: turn and slide the bar by hand. If it binds, stop and unload it.")
    yield Step(text=f"Draw the bar out at the {setup.axle.entry.value}.")


def _loose_without_damper(off: Assembly) -> Iterator[Step]:
    if off.slides:
        yield Step(text=f"{_nut(off)} With the damper off and the arm {_lifted(off)}, it is loose.")
        return
    yield Step(
        text=f"Do not draw the bar yet: {_residue(off)} would be left in it even with the damper "
        "off. Part the ball joint with the jack under the arm, and let the arm down slowly.",
        refused=True,
    )


def _prepare_bar(setup: Setup, plan: Plan) -> Iterator[Step]:
    """Work on the bar that goes in."""
    yield Step(
        text=f"Look the bar that goes in over in good light ({setup.bar.title}): a nick, a "
        "grinding mark or a rust pit scraps it."
    )
    for work in plan.ends:
        yield Step(text=work_text(work))
    if plan.cuts:
        yield Step(
            text="Mark on the bar's end face which blank goes on the key, and the side of the car: "
            "that end now goes in two ways."
        )


def _put_in(
    setup: Setup, present: Setup, fit: LengthFit, plan: Plan, *, damper_is_on: bool
) -> Iterator[Step]:
    """Put the bar in, where the arm can be brought to the bar."""
    on, off = plan.fitting
    for change in fit.changes:
        yield Step(text=f"Change: {change.text}.")
    if damper_is_on and (setup.damper != present.damper or not on.slides):
        yield _DAMPER_OFF
        damper_is_on = False
    # A bar that slides in with the damper on does so with it off too.
    way = on if damper_is_on else off
    yield Step(
        text=f"{_nut(way)} Have the damper {'on' if way.damper_on else 'off'} and the arm "
        f"{_lifted(way)}."
    )
    keys = "; ".join(f"{work.end.value}: {_on_key(work)}" for work in plan.ends)
    yield Step(text=f"Slide the bar in at the {setup.axle.entry.value}. On the keys: {keys}.")
    arm, anchor = fit.ends
    yield Step(
        text=f"Push it until its arm-end spline {_reaches(fit.position)} the arm socket's outer "
        f"face (free from {shown(fit.free_from, 1)} to {shown(fit.free_to, 1)}); engaged are "
        f"{shown(arm.engagement, 1)} at the arm end and {shown(anchor.engagement, 1)} at the "
        "anchor end."
    )
    # The nut turns lightly while the arm still hangs, so it comes before the damper.
    yield from _set(setup, plan)
    if not way.damper_on:
        yield _damper_on(setup)


def _set(setup: Setup, plan: Plan) -> Iterator[Step]:
    place = "the middle of its thread"
    if plan.nut_sense is not None:
        turns = abs(float(plan.nut_turns.magnitude))
        place = (
            f"{turns:.2f} turns {plan.nut_sense.value} from the middle of its thread, seen from "
            "the bolt's free end"
        )
    yield Step(
        text=f"Set the nut to {place}: {shown(plan.pin_distance, 1)} from the {_datum(setup)} to "
        "the lever's pin."
    )


def _finish(plan: Plan) -> Iterator[Step]:
    yield Step(text="Wheel on, car on its wheels; roll it back and forth and let it settle.")
    yield Step(
        text=f"Measure hub to arch: {shown(plan.height, 0)} is expected. Correct with the nut: "
        f"one turn {plan.raising_sense.value} raises the car by "
        f"{shown(plan.height_per_turn, 1).removesuffix('/turn')}; roll and measure again."
    )
    yield Step(text="Tighten the arm's rubber bushings now, at ride height, not before.")
    yield Step(text="Check headlamp aim, brake-load valve and alignment; test drive; recheck.")


_DAMPER_OFF = Step(
    text="Hold the arm up with a jack under the ball joint, take the damper off, and let the arm "
    "down slowly to its own stop."
)


def _damper_on(setup: Setup) -> Step:
    return Step(
        text="Lift the arm with a jack under the ball joint until the damper goes on, and fit it "
        f"({setup.damper.title})."
    )


def _datum(setup: Setup) -> str:
    """Where distances along the bolt are counted from."""
    swivels = isinstance(setup.adjuster.mounting, SwivellingMounting)
    return "bolt's pivot" if swivels else "bolt's head"


def _nut(way: Assembly) -> str:
    return f"Set the nut to {_place(way)}."


def _place(way: Assembly) -> str:
    turns = float(way.nut_turns.magnitude)
    sense = "clockwise" if turns > 0.0 else "counter-clockwise"
    return (
        f"{abs(turns):.1f} turns {sense} from the middle "
        f"({shown(way.pin_distance, 1)} to the lever's pin)"
    )


def _lifted(way: Assembly) -> str:
    if si(way.lift, LENGTH) < _HANGING:
        return "hanging at its stop"
    return f"lifted {shown(way.lift, 0)} at the hub"


_HANGING = 0.5e-3
"""Lift [m] that is as good as none."""


def _residue(way: Assembly) -> str:
    torque, energy = shown(way.residual_torque, 0), shown(way.residual_energy, 0)
    return f"a torque of {torque} and an energy of {energy}"


def _on_key(work: EndWork) -> str:
    if work.on_key is Blank.NONE:
        return "as marked, there is no key"
    return f"{work.on_key.value} on the key"


def _reaches(position: Quantity) -> str:
    size = abs(si(position, LENGTH))
    if size < _FLUSH:
        return "is flush with"
    where = "inside" if position.magnitude > 0.0 else "outside"
    return f"stands {shown(position, 1).removeprefix('-')} {where}"


_FLUSH = 0.05e-3
"""Length [m] that is less than is shown."""
