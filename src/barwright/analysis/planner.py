"""Choosing and describing the plans of a corner (mechanics, section 3, *Plans*)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

import attrs

from barwright.analysis.anchorage import Turned
from barwright.analysis.assembly import Assembly, both_ways, lever_span_for_assembly
from barwright.analysis.cautions import cautions_for
from barwright.analysis.finding import Finding, Outcome, Topic
from barwright.analysis.fit import LengthFit
from barwright.analysis.model import CornerModel, radians
from barwright.analysis.plan import Blank, EndAction, EndWork, Plan, PlannedCorner
from barwright.analysis.ride import (
    Springing,
    free_angle_for,
    rest_angle,
    slackness,
    state,
    wound_bushings,
)
from barwright.analysis.uncertainty import free_angle_tolerance
from barwright.mechanics import clocking, corner
from barwright.mechanics.choices import Choice, Spline, choices
from barwright.mechanics.clocking import TurningSense
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import Socket
from barwright.units import (
    ANGLE,
    HEIGHT_PER_TURN,
    LENGTH,
    TORQUE,
    TURNS,
    Kind,
    Quantity,
    quantity,
    si,
)

__all__ = ["Adjustment", "Candidate", "Planned", "Planner"]

# A nut has six flats, and a mechanic sets it to one of them.
_FLATS = 6


@attrs.frozen(kw_only=True)
class Planned:
    """What a planner has found; the fields are those of the answer."""

    outcome: Outcome
    free_angle: Quantity
    free_angle_tolerance: Quantity
    equal_within: Quantity
    plans: tuple[Plan, ...]
    rejected: tuple[Plan, ...]
    findings: tuple[Finding, ...]


@attrs.frozen(eq=False)
class Candidate:
    """A choice of teeth with the lever angle that it needs, and how far off that is.

    Parameters
    ----------
    choice : Choice
        The teeth.
    lever : float
        Angle of the lever [rad].
    clocked : float
        Free angle beyond the lever's [rad].
    distance : float
        From the middle of the thread, or from what is wanted.
    """

    choice: Choice
    lever: float
    clocked: float
    distance: float

    @property
    def rank(self) -> tuple[float, int, int, int]:
        """Order among candidates with the same cuts and ends; exact ties take small counts."""
        arm, anchor = self.choice.arm_tooth, self.choice.anchor_tooth
        return self.distance, abs(arm) + abs(anchor), arm, anchor

    def beats(self, other: Candidate, *, equal_within: float) -> bool:
        """Whether this one is no worse in any respect and better in one."""
        mine, its = self.choice, other.choice
        no_worse = (
            mine.cuts <= its.cuts
            and mine.ends <= its.ends
            and self.distance <= other.distance + equal_within
        )
        better = (
            mine.cuts < its.cuts
            or mine.ends < its.ends
            or self.distance < other.distance - equal_within
        )
        return no_worse and better


@attrs.frozen(eq=False)
class Adjustment:
    """What a plan comes to with what it sets.

    Parameters
    ----------
    free : float
        Free angle that results [rad].
    fields : dict
        Fields of the plan that say what is set, and what height it gives.
    findings : tuple of Finding
        What must be known of it.
    """

    free: float
    fields: dict[str, Any]
    findings: tuple[Finding, ...]


class Planner:
    """Makes the plans of one corner for one arm angle.

    Parameters
    ----------
    model : CornerModel
        The corner.
    spring : Springing
        Its rates.
    fit : LengthFit
        How its bar lies.
    angle : float
        Wanted arm angle [rad].
    present : Setup
        The corner as it is now; an end whose socket or bar changes is not in
        place, whatever tooth it is on.
    """

    def __init__(
        self,
        model: CornerModel,
        spring: Springing,
        fit: LengthFit,
        *,
        angle: float,
        present: Setup,
    ) -> None:
        self._present = present
        self._model = model
        self._spring = spring
        self._setup = model.setup
        self._motion = model.linkage.motion(angle)
        self._free = free_angle_for(model, spring, angle)
        self._tolerance = free_angle_tolerance(
            model, spring, angle=angle, free_angle=self._free, fit=fit
        )
        self._equal_within = self._equality()

    _distance_kind: ClassVar[Kind] = TURNS

    def _equality(self) -> float:
        """Distance within which two plans sit equally well."""
        model = self._model
        slope = abs(float(model.anchorage.slope(model.lever_middle)))
        return max(1.0, self._tolerance * (slope / abs(model.setting_per_turn)))

    def planned(self) -> Planned:
        """Make all plans, those that no other beats, the one to prefer first."""
        on_thread = self._best(self._found(assembled=False))
        ready = self._best(self._found(assembled=True))
        barred = [
            candidate
            for candidate in on_thread
            if candidate.choice not in [c.choice for c in ready]
            and not any(c.beats(candidate, equal_within=self._equal_within) for c in ready)
        ]
        made = [self._plan(c) for c in (*self._preferred(ready), *self._preferred(barred))]
        plans = tuple(plan for plan in made if plan.outcome is Outcome.REACHED)
        rejected = tuple(plan for plan in made if plan.outcome is not Outcome.REACHED)
        outcome, findings = self._outcome(plans, rejected)
        return Planned(
            outcome=outcome,
            free_angle=quantity(self._free, ANGLE),
            free_angle_tolerance=quantity(self._tolerance, ANGLE),
            equal_within=quantity(self._equal_within, self._distance_kind),
            plans=plans,
            rejected=rejected,
            findings=findings,
        )

    def _outcome(
        self, plans: Sequence[Plan], rejected: Sequence[Plan]
    ) -> tuple[Outcome, tuple[Finding, ...]]:
        if plans:
            return Outcome.REACHED, ()
        if rejected:
            return Outcome.CANNOT_BE_ASSEMBLED, rejected[0].findings
        return Outcome.OUT_OF_REACH, (self._out_of_reach(),)

    def _out_of_reach(self) -> Finding:
        text = "no tooth of either end brings the wanted height within the adjuster's thread"
        step = quantity(self._model.step, ANGLE)
        low, high = self._model.lever_span
        return Finding(
            topic=Topic.THREAD, text=text, figure=step, limit=quantity(high - low, ANGLE)
        )

    # -- Choosing ---------------------------------------------------------------

    def _found(self, *, assembled: bool) -> list[Candidate]:
        """Candidates on the thread, or those of them that can be assembled."""
        model = self._model
        levers = model.lever_span
        if assembled:
            levers = lever_span_for_assembly(model, self._free)
        at_middle = (self._free - model.keyed_angle - model.lever_middle) / model.step
        spread = [(lever - model.lever_middle) / model.step for lever in levers]
        found = choices(
            *self._ends(),
            wanted=at_middle,
            low=at_middle - spread[1],
            high=at_middle - spread[0],
        )
        return [self._candidate(choice) for choice in found]

    def _best(self, found: Iterable[Candidate]) -> list[Candidate]:
        """Those that no other one beats."""
        by_class: dict[tuple[int, frozenset[str]], Candidate] = {}
        for candidate in sorted(found, key=lambda c: c.rank):
            by_class.setdefault((candidate.choice.cuts, candidate.choice.ends), candidate)
        best = list(by_class.values())
        return [
            c for c in best if not any(o.beats(c, equal_within=self._equal_within) for o in best)
        ]

    def _ends(self) -> tuple[Spline, Spline]:
        setup, sense, now = self._setup, self._model.sense, self._present
        stays = setup.bar == now.bar
        arm, anchor = (
            Spline(
                teeth=end.teeth,
                current=clocking.centred(current, end.teeth),
                blanks=frozenset(clocking.centred(sense * b, end.teeth) for b in end.blanks),
                keyed=socket.keyed,
                in_place=stays and in_place,
            )
            for end, socket, current, in_place in (
                (setup.bar.arm_end, setup.arm.socket, setup.arm_tooth, setup.arm == now.arm),
                (
                    *(setup.bar.anchor_end, setup.tube.socket),
                    *(setup.anchor_tooth, setup.tube == now.tube),
                ),
            )
        )
        return arm, anchor

    def _candidate(self, choice: Choice) -> Candidate:
        model = self._model
        lever = self._free - model.keyed_angle - choice.steps * model.step
        return Candidate(choice, lever, self._free - lever, abs(model.turns_at_lever(lever)))

    def _preferred(self, candidates: Sequence[Candidate]) -> list[Candidate]:
        """Mid-thread as far as that can be told, then few cuts, then few ends."""
        if not candidates:
            return []
        least = min(c.distance for c in candidates)
        return sorted(
            candidates,
            key=lambda c: (
                c.distance > least + self._equal_within,
                c.choice.cuts,
                len(c.choice.ends),
                c.rank,
            ),
        )

    # -- Describing -------------------------------------------------------------

    def _plan(self, candidate: Candidate) -> Plan:
        model, choice = self._model, candidate.choice
        adjustment = self._adjustment(candidate)
        droop = state(model, self._spring, angle=model.travel[0], free_angle=adjustment.free)
        fitting = both_ways(model, self._spring, clocked_angle=candidate.clocked)
        assembles = any(way.slides for way in fitting)
        findings = (
            *slackness(model, droop),
            *adjustment.findings,
            *self._little_reserve(fitting),
            *_unassembled(fitting),
            *wound_bushings(model, float(self._motion.angle)),
        )
        return Plan(
            made_for=PlannedCorner.of(self._setup),
            outcome=Outcome.REACHED if assembles else Outcome.CANNOT_BE_ASSEMBLED,
            ends=self._work(choice),
            cuts=choice.cuts,
            disturbed=tuple(end for end in BarEndName if _short(end) in choice.ends),
            arm_tooth=choice.arm_tooth,
            anchor_tooth=choice.anchor_tooth,
            **adjustment.fields,
            height_uncertainty=quantity(self._tolerance * self._height_per_angle(), LENGTH),
            droop=droop,
            fitting=fitting,
            findings=findings,
            cautions=cautions_for(self._setup, cuts=choice.cuts),
        )

    def _adjustment(self, candidate: Candidate) -> Adjustment:
        """Set the nut, or the bolt that is itself turned, to a flat."""
        model, clocked = self._model, candidate.clocked
        exact = model.turns_at_lever(candidate.lever)
        turns = self._on_a_flat(exact)
        left = [abs(float(end) - turns) for end in model.turns_span]
        fields = {
            "nut_turns": quantity(turns, TURNS),
            "pin_distance": quantity(float(model.setting_at_turns(turns)), LENGTH),
            "nut_sense": _nut_sense(turns),
            "turns_left_clockwise": quantity(left[1], TURNS),
            "turns_left_counter_clockwise": quantity(left[0], TURNS),
            "raising_sense": self._raising_sense(),
            "height": quantity(self._height(turns, clocked), LENGTH),
            "height_tolerance": quantity(self._height_tolerance(turns, exact, clocked), LENGTH),
            "height_per_turn": quantity(self._height_per_turn(candidate.lever), HEIGHT_PER_TURN),
        }
        free = float(model.lever_at_turns(turns)) + clocked
        return Adjustment(free, fields, (*self._margin(min(left)),))

    def _on_a_flat(self, turns: float) -> float:
        """Nearest flat of the nut that the thread still holds."""
        low, high = self._model.turns_span
        flat = round(turns * _FLATS)
        return min(max(flat, math.ceil(low * _FLATS)), math.floor(high * _FLATS)) / _FLATS

    def _height(self, turns: float, clocked: float) -> float:
        """Solve forward: height [m] at rest with the nut turned from the middle."""
        return self._height_at(float(self._model.lever_at_turns(turns)) + clocked)

    def _height_at(self, free: float) -> float:
        """Height [m] at rest for a free angle [rad]."""
        return float(self._model.height(rest_angle(self._model, self._spring, free)))

    def _height_tolerance(self, turns: float, exact: float, clocked: float) -> float:
        """Find what half a flat, or the way to the exact place, changes of the height [m]."""
        spread = max(abs(exact - turns), 0.5 / _FLATS)
        here = self._height(turns, clocked)
        low, high = self._model.turns_span
        around = (max(turns - spread, low), min(turns + spread, high))
        return max(abs(self._height(other, clocked) - here) for other in around) + 1e-6

    def _height_per_angle(self) -> float:
        """Fall of the car with the free angle [m/rad]."""
        per_angle = corner.arm_per_free_angle(
            self._motion,
            rate=self._spring.system,
            load=self._model.load,
            springs=self._model.springs,
        )
        return float(self._motion.hub.slope) * float(per_angle)

    def _height_per_turn(self, lever: float) -> float:
        """Rise of the car [m] for one turn in the raising sense."""
        model = self._model
        slope = float(model.anchorage.slope(lever))
        return abs(self._height_per_angle() * model.setting_per_turn / slope)

    def _raising_sense(self) -> TurningSense:
        """Droopward raises the car."""
        model = self._model
        slope = float(model.anchorage.slope(model.lever_middle))
        clockwise_is_droopward = model.setting_per_turn / slope < 0.0
        sense = TurningSense.CLOCKWISE
        return sense if clockwise_is_droopward else sense.reversed

    def _margin(self, left: float) -> Iterable[Finding]:
        """Say that the thread may run out, if the tolerances exceed what is left."""
        if left < self._equal_within:
            yield Finding(
                topic=Topic.NUT_MARGIN,
                text="the thread may run out before the height is reached",
                figure=quantity(left, TURNS),
                limit=quantity(self._equal_within, TURNS),
            )

    def _little_reserve(self, fitting: Sequence[Assembly]) -> Iterable[Finding]:
        """Say that the bar may not come quite free, if the tolerances exceed the reserve."""
        best = max(si(way.reserve, ANGLE) for way in fitting)
        if 0.0 <= best < self._tolerance:
            yield Finding(
                topic=Topic.ASSEMBLY,
                text=f"{_LITTLE[fitting[0].turned]} when it goes in: little reserve",
                figure=quantity(best, ANGLE),
                limit=quantity(self._tolerance, ANGLE),
            )

    def _work(self, choice: Choice) -> tuple[EndWork, ...]:
        setup = self._setup
        splines = self._ends()
        return (
            self._end_work(BarEndName.ARM, splines[0], choice.arm_tooth, setup.arm.socket),
            self._end_work(BarEndName.ANCHOR, splines[1], choice.anchor_tooth, setup.tube.socket),
        )

    def _end_work(self, end: BarEndName, spline: Spline, tooth: int, socket: Socket) -> EndWork:
        action = _action(spline, tooth)
        key = math.remainder(radians(socket.key_angle), math.tau)
        return EndWork(
            end=end,
            action=action,
            tooth=abs(tooth),
            direction=self._seen(tooth, end) if tooth else None,
            seen_from=end,
            on_key=_blank(action, spline, tooth),
            key_may_be_cleared=action is EndAction.REMOVE_TOOTH and socket.keyed,
            blanks=len(spline.blanks) + (action is EndAction.REMOVE_TOOTH),
            key_angle=quantity(abs(key), ANGLE),
            key_direction=self._seen(key, end),
        )

    def _seen(self, bumpward: float, end: BarEndName) -> TurningSense:
        """Sense of a turn, positive in the bump sense, as seen from one end."""
        sense = self._model.sense if bumpward > 0 else -self._model.sense
        return clocking.turning_sense(sense, from_arm_end=end is BarEndName.ARM)


_LITTLE = {
    Turned.NUT: "the nut may not unload the bar quite",
    Turned.BOLT: "the bolt may not unload the bar quite",
    None: "the bar may not come quite free",
}


def _action(spline: Spline, tooth: int) -> EndAction:
    if tooth == spline.current and spline.in_place:
        return EndAction.STAYS
    if not spline.keyed:
        return EndAction.NO_KEY
    return EndAction.BLANK_ON_KEY if tooth in spline.blanks else EndAction.REMOVE_TOOTH


def _blank(action: EndAction, spline: Spline, tooth: int) -> Blank:
    if not spline.keyed:
        return Blank.NONE
    if action is EndAction.REMOVE_TOOTH:
        return Blank.NEW
    if tooth == 0:
        return Blank.MAKERS
    return Blank.EARLIER if tooth in spline.blanks else Blank.NONE


def _nut_sense(turns: float) -> TurningSense | None:
    if turns == 0.0:
        return None
    return TurningSense.CLOCKWISE if turns > 0.0 else TurningSense.COUNTER_CLOCKWISE


def _short(end: BarEndName) -> str:
    return "arm" if end is BarEndName.ARM else "anchor"


def _unassembled(fitting: Sequence[Assembly]) -> Iterable[Finding]:
    """Say why a plan cannot be assembled, if it cannot."""
    if any(way.slides for way in fitting):
        return
    least = min(fitting, key=lambda way: float(way.residual_energy.magnitude))
    what = least.turned
    where = f"wherever the {what.value} stands, the bar is" if what else "the bar is"
    yield Finding(
        topic=Topic.ASSEMBLY,
        text=f"{where} wound up with the arm at its stop, damper off",
        figure=least.residual_torque,
        limit=quantity(0.0, TORQUE),
    )
