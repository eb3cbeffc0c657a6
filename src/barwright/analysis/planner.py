"""Choosing and describing the plans of a corner (mechanics, section 3, *Plans*)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import attrs

from barwright.analysis.assembly import Assembly, both_ways, lever_span_for_assembly
from barwright.analysis.finding import Caution, Finding, Outcome, Topic
from barwright.analysis.fit import LengthFit
from barwright.analysis.model import CornerModel, Span, radians
from barwright.analysis.plan import Blank, EndAction, EndWork, Plan
from barwright.analysis.ride import Springing, free_angle_for, rest_angle, slackness, state
from barwright.analysis.uncertainty import free_angle_tolerance
from barwright.mechanics import clocking, corner
from barwright.mechanics.choices import Choice, Spline, choices
from barwright.mechanics.clocking import TurningSense
from barwright.parts.chassis import BarEndName, StrutMounting
from barwright.parts.setup import Setup
from barwright.parts.spline import Socket
from barwright.units import ANGLE, HEIGHT_PER_TURN, LENGTH, TORQUE, TURNS, Quantity, quantity, si

__all__ = ["Planned", "Planner"]

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
class _Candidate:
    """A choice of teeth with the lever angle that it needs."""

    choice: Choice
    lever: float
    distance: float

    @property
    def rank(self) -> tuple[float, int, int, int]:
        """Order among candidates with the same cuts and ends; exact ties take small counts."""
        arm, anchor = self.choice.arm_tooth, self.choice.anchor_tooth
        return self.distance, abs(arm) + abs(anchor), arm, anchor

    def beats(self, other: _Candidate, *, equal_within: float) -> bool:
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
        turn = abs(float(model.bolt.slope(model.lever_middle))) / model.pitch
        self._equal_within = max(1.0, self._tolerance * turn)

    def planned(self) -> Planned:
        """Make all plans, those that no other beats, the one to prefer first."""
        on_thread = self._best(self._model.lever_span)
        ready = self._best(lever_span_for_assembly(self._model, self._free))
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
            equal_within=quantity(self._equal_within, TURNS),
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
        text = "no tooth of either end brings the wanted height within the adjuster's thread"
        step = quantity(self._model.step, ANGLE)
        low, high = self._model.lever_span
        finding = Finding(
            topic=Topic.THREAD, text=text, figure=step, limit=quantity(high - low, ANGLE)
        )
        return Outcome.OUT_OF_REACH, (finding,)

    # -- Choosing ---------------------------------------------------------------

    def _best(self, levers: Span) -> list[_Candidate]:
        """Candidates within a span of lever angles that no other one beats."""
        model = self._model
        at_middle = (self._free - model.keyed_angle - model.lever_middle) / model.step
        spread = [(lever - model.lever_middle) / model.step for lever in levers]
        found = choices(
            *self._ends(),
            wanted=at_middle,
            low=at_middle - spread[1],
            high=at_middle - spread[0],
        )
        by_class: dict[tuple[int, frozenset[str]], _Candidate] = {}
        for candidate in sorted(map(self._candidate, found), key=lambda c: c.rank):
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

    def _candidate(self, choice: Choice) -> _Candidate:
        model = self._model
        lever = self._free - model.keyed_angle - choice.steps * model.step
        return _Candidate(choice, lever, abs(float(model.turns_at_lever(lever))))

    def _preferred(self, candidates: Sequence[_Candidate]) -> list[_Candidate]:
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

    def _plan(self, candidate: _Candidate) -> Plan:
        model, choice = self._model, candidate.choice
        clocked = self._free - candidate.lever
        exact = float(model.turns_at_lever(candidate.lever))
        turns = self._on_a_flat(exact)
        free = float(model.lever_at_turns(turns)) + clocked
        droop = state(model, self._spring, angle=model.travel[0], free_angle=free)
        fitting = both_ways(model, self._spring, clocked_angle=clocked)
        assembles = any(way.slides for way in fitting)
        left = [abs(float(end) - turns) for end in model.turns_span]
        findings = (
            *slackness(droop),
            *self._margin(min(left)),
            *self._little_reserve(fitting),
            *_unassembled(fitting),
        )
        return Plan(
            outcome=Outcome.REACHED if assembles else Outcome.CANNOT_BE_ASSEMBLED,
            ends=self._work(choice),
            cuts=choice.cuts,
            disturbed=tuple(end for end in BarEndName if _short(end) in choice.ends),
            arm_tooth=choice.arm_tooth,
            anchor_tooth=choice.anchor_tooth,
            nut_turns=quantity(turns, TURNS),
            pin_distance=quantity(model.pin_middle - turns * model.pitch, LENGTH),
            nut_sense=_nut_sense(turns),
            turns_left_clockwise=quantity(left[1], TURNS),
            turns_left_counter_clockwise=quantity(left[0], TURNS),
            raising_sense=self._raising_sense(),
            height=quantity(self._height(turns, clocked), LENGTH),
            height_tolerance=quantity(self._height_tolerance(turns, exact, clocked), LENGTH),
            height_uncertainty=quantity(self._tolerance * self._height_per_angle(), LENGTH),
            height_per_turn=quantity(self._height_per_turn(candidate.lever), HEIGHT_PER_TURN),
            droop=droop,
            fitting=fitting,
            findings=findings,
            cautions=_cautions(self._setup, choice.cuts),
        )

    def _on_a_flat(self, turns: float) -> float:
        """Nearest flat of the nut that the thread still holds."""
        low, high = self._model.turns_span
        flat = round(turns * _FLATS)
        return min(max(flat, math.ceil(low * _FLATS)), math.floor(high * _FLATS)) / _FLATS

    def _height(self, turns: float, clocked: float) -> float:
        """Solve forward: height [m] at rest with the nut turned from the middle."""
        free = float(self._model.lever_at_turns(turns)) + clocked
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
        return abs(self._height_per_angle() * model.pitch / float(model.bolt.slope(lever)))

    def _raising_sense(self) -> TurningSense:
        """Clockwise draws the pin toward the pivot; droopward raises the car."""
        clockwise_is_droopward = self._model.bolt.side > 0
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
                text="the nut may not unload the bar quite when it goes in: little reserve",
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
    yield Finding(
        topic=Topic.ASSEMBLY,
        text="wherever the nut stands, the bar is wound up with the arm at its stop, damper off",
        figure=least.residual_torque,
        limit=quantity(0.0, TORQUE),
    )


def _cautions(setup: Setup, cuts: int) -> tuple[Caution, ...]:
    """Cautions for a plan: all that concern its work."""
    left_out = set()
    if not cuts:
        left_out.add(Caution.FEWER_TEETH)
    if not isinstance(setup.axle.suspension, StrutMounting):
        left_out.add(Caution.GUIDE_MOUNT)
    return tuple(caution for caution in Caution if caution not in left_out)
