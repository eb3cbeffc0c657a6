"""The steps of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from barwright.analysis.answer import Verdict
from barwright.analysis.finding import Topic
from barwright.analysis.plan import Plan, fitted
from barwright.analysis.reindex import Reindex
from barwright.analysis.unloading import (
    Unloading,
    WayOut,
    bar_is_drawn,
    must_be_unloaded,
    swapped,
)
from barwright.parts.anchor import KeyLever
from barwright.parts.arm import Arm
from barwright.parts.setup import Setup
from barwright.parts.source import Part
from barwright.parts.suspension import StrutMounting
from barwright.report.adjustment import adjusted, datum, place_text, words_for
from barwright.report.arm_words import damper_off, damper_on, hose_freed, lifted, tied_up
from barwright.report.bar_ends import marked_out, on_key, work_text
from barwright.report.step import Step
from barwright.report.step_words import (
    anchor_line,
    corrected,
    doubt,
    freed,
    lies,
    marked_with,
    reaches,
    toward,
    turned_at,
)
from barwright.report.unloading import UnloadingSteps
from barwright.units import System, shown

__all__ = ["refusal", "steps"]


def steps(
    setup: Setup, present: Setup, answer: Reindex, plan: Plan, *, system: System = "metric"
) -> tuple[Step, ...]:
    """List the steps of one corner; a refusal alone where the sheet knows no safe way.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.
    answer : Reindex
        The answer that the plan belongs to.
    plan : Plan
        The plan to carry out.
    system : {"metric", "inch"}
        Units of the lengths that the answer does not hold.

    Returns
    -------
    tuple of Step
    """
    return tuple(_Bench(setup, present, answer, plan, system).steps())


def refusal(present: Setup, answer: Reindex, *, system: System = "metric") -> tuple[Step, ...]:
    """Say what would be left in the bar where no safe way is known to unload it.

    Parameters
    ----------
    present : Setup
        The corner as it is now.
    answer : Reindex
        The answer without a plan.
    system : {"metric", "inch"}
        Units of the lengths that the answer does not hold.

    Returns
    -------
    tuple of Step
        None where it is something else that stands against the work.
    """
    found = answer.unloading
    if found is None or found.way is not WayOut.NONE or answer.verdict is not Verdict.NO_SAFE_WAY:
        return ()
    tolerance = answer.free_angle_tolerance
    bar = UnloadingSteps(present, found, tolerance=tolerance, system=system)
    return tuple(bar.refusal())


class _Bench:
    """Writes the steps of one corner, keeping track of what is on it meanwhile."""

    def __init__(
        self, setup: Setup, present: Setup, answer: Reindex, plan: Plan, system: System
    ) -> None:
        self._setup = setup
        self._present = present
        self._answer = answer
        self._plan = plan
        self._system = system
        # An answer with a plan knows how the bar comes out.
        unloading = cast("Unloading", answer.unloading)
        self._way = unloading.way
        self._unloading = UnloadingSteps(
            present,
            unloading,
            tolerance=answer.free_angle_tolerance,
            system=system,
        )
        self._has_strut = isinstance(setup.axle.suspension, StrutMounting)
        self._is_towed = setup.chassis.drive == "none"
        self._swapped = swapped(setup, present=present)
        self._moves = bar_is_drawn(setup, present=present, disturbed=plan.disturbed)
        self._loosens = must_be_unloaded(setup, present=present, disturbed=plan.disturbed)
        self._hangs_free = self._loosens or "damper" in self._swapped
        self._damper_is_on = True

    def steps(self) -> Iterator[Step]:
        """Write all steps, in order."""
        yield from self._prepare()
        if self._loosens:
            yield from self._unload()
        if self._moves:
            yield self._draw()
        yield from self._swap()
        if self._loosens and self._way is WayOut.JOINT_PARTED:
            yield self._join()
        if self._moves:
            yield from self._prepare_bar()
        if self._loosens:
            yield from self._nut_for_fitting()
        if self._moves:
            yield from self._put_in()
        # The nut turns lightly while the arm still hangs, so it comes before the damper.
        yield from self._set()
        if "damper" in self._swapped and self._damper_is_on:
            yield from self._take_damper_off()
        if not self._damper_is_on:
            yield Step(text=damper_on(self._setup))
        yield from self._finish()

    # -- Before -----------------------------------------------------------------

    def _prepare(self) -> Iterator[Step]:
        """Measure, set the vehicle up and mark; common practice, no source."""
        yield self._measure()
        tipping = ", its drawbar held so that it cannot tip" if self._is_towed else ""
        yield Step(
            text="Chock the wheels that stay down. Set the body on stands"
            f"{tipping}, let the wheel hang, take the wheel off."
        )
        yield self._bushings("slacken")
        if self._hangs_free:
            yield Step(text="Part the anti-roll bar's link, if there is one: it holds the arm.")
        if self._loosens:
            yield Step(
                text=f"Mark bar, arm{marked_with(self._present.tube)} against each other on "
                "their end faces; mark left and right."
            )

    def _measure(self) -> Step:
        """Measure what the stands would change."""
        words = words_for(self._present)
        weighed = "With the wheels on the ground, weigh the corner load if scales are to hand."
        return Step(
            text=f"{weighed} Measure hub to arch and the {words.what}'s place on both sides, and "
            "note all below."
            if words
            else f"{weighed} Measure hub to arch on both sides, and note both below."
        )

    def _unload(self) -> Iterator[Step]:
        yield from self._unloading.steps()
        self._damper_is_on = self._way is WayOut.DAMPER_ON

    def _join(self) -> Step:
        """Put a parted ball joint together; the arm that it lifts must not wind a bar."""
        if self._moves:
            return Step(text="Put the ball joint together again.")
        return Step(
            text=f"Slacken the {turned_at(self._setup)} to the slack end of its thread, then put "
            "the ball joint together again."
        )

    def _swap(self) -> Iterator[Step]:
        """Change what is not the bar or the damper: all old parts off, then the new ones on."""
        kinds = [kind for kind in ("adjuster", "tube", "arm") if kind in self._swapped]
        # A damper without a strut has its foot on the arm.
        if "arm" in kinds and not self._has_strut and self._damper_is_on:
            yield from self._take_damper_off()
        for kind in reversed(kinds):
            if old := self._present.parts.get(kind):
                yield self._off(old)
        offset = self._answer.fit.cap_offset
        if "tube" in kinds:
            for change in self._answer.fit.changes:
                if change.topic is Topic.NEW_CAP_HOLES and offset is not None:
                    yield Step(
                        text="Make new holes in the chassis for the tube's cap: "
                        f"{toward(offset)} the anchor from the old ones."
                    )
        for kind in kinds:
            if new := self._setup.parts.get(kind):
                yield self._on(new)

    def _off(self, part: Part) -> Step:
        tied = f"{tied_up(self._setup)} " if isinstance(part, Arm) else ""
        return Step(text=f"{tied}{freed(part)} Take off: {part.title}.".lstrip())

    def _on(self, part: Part) -> Step:
        """Fit a part; a key lever waits for its bar."""
        if isinstance(part, KeyLever):
            return Step(text=f"Lay ready: {part.title}. The bar alone will hold it.")
        return Step(text=f"Fit: {part.title}.")

    # -- The bar ------------------------------------------------------------------

    def _draw(self) -> Step:
        """Draw the bar; a key lever is held by it alone."""
        held = isinstance(self._present.tube, KeyLever)
        lever = ", and hold the key lever: nothing else does" if held else ""
        return Step(text=f"Draw the bar out at the {self._setup.axle.entry.value}{lever}.")

    def _prepare_bar(self) -> Iterator[Step]:
        """Work on the bar that goes in."""
        yield Step(
            text=f"Look the bar that goes in over in good light ({self._setup.bar.title}): a "
            "nick, a grinding mark or a rust pit scraps it."
        )
        if any(work.tooth for work in self._plan.ends):
            yield Step(
                text="Where teeth are counted, count every place, gaps too: the neighbour of the "
                "maker's blank is 1."
            )
        for work in self._plan.ends:
            yield Step(text=work_text(work, anchor_line=anchor_line(self._setup)))
        two_ways = [work for work in self._plan.ends if work.blanks > 1]
        if two_ways:
            marks = "; ".join(f"{work.end.value}: {marked_out(work)}" for work in two_ways)
            yield Step(
                text="Mark on the bar's end face what goes where the key is, and the side of the "
                f"vehicle, since it now goes in more ways than one; {marks}."
            )

    def _nut_for_fitting(self) -> Iterator[Step]:
        """Bring nut and damper to where the bar takes no torque at its new clocking."""
        on, off = self._plan.fitting
        if self._damper_is_on and ("damper" in self._swapped or not on.slides):
            yield from self._take_damper_off()
        # A bar that slides in with the damper on does so with it off too.
        way = on if self._damper_is_on else off
        doubted = doubt(way, self._answer.free_angle_tolerance)
        what = turned_at(self._setup)
        if not what:
            at = lifted(way, fitted(self._setup, self._plan), self._system)
            yield Step(text=f"{at}: the bar goes in there alone.{doubted}")
            return
        place = (
            f"Leave the {what} slack"
            if way.anywhere
            else f"Have the {what} at {place_text(way, self._setup)}, or slacker"
        )
        damper = "on" if way.damper_on else "off"
        yield Step(
            text=f"{place}, the damper {damper} and the arm hanging at its stop{self._turns()}."
            f"{doubted}"
        )

    def _turns(self) -> str:
        """Say that the lever turns; a key lever is not there yet, and a bar that stays has met."""
        if not self._moves or isinstance(self._setup.tube, KeyLever):
            return ""
        what = turned_at(self._setup)
        return f"; the lever, off its {what}, then turns by hand to where the bar's teeth meet"

    def _put_in(self) -> Iterator[Step]:
        """Put the bar in."""
        keys = "; ".join(f"{work.end.value}: {on_key(work)}" for work in self._plan.ends)
        entry = self._setup.axle.entry.value
        slid = (
            f"Hold the key lever in its place and slide the bar through it, in at the {entry}; the "
            "lever turns by hand to where the bar's teeth meet."
            if isinstance(self._setup.tube, KeyLever)
            else f"Slide the bar in at the {entry}."
        )
        yield Step(text=f"{slid} On the keys: {keys}.")
        fit = self._answer.fit
        arm, anchor = fit.ends
        yield Step(
            text=f"Push it until its arm-end spline {reaches(fit.position)} the arm socket's "
            f"outer face (it may stand {lies(fit.free_from)} to {lies(fit.free_to)}); engaged "
            f"are {shown(arm.engagement, 1)} at the arm end and {shown(anchor.engagement, 1)} at "
            "the anchor end."
        )

    # -- After --------------------------------------------------------------------

    def _set(self) -> Iterator[Step]:
        at = adjusted(self._plan)
        if at is None:
            return
        words, place = at.words, "the middle of its thread"
        if at.sense is not None:
            place = f"{abs(float(at.turns.magnitude)):.2f} turns {at.sense.value} from {place}"
        beyond = f"{float(at.from_slack_end.magnitude):.2f} from its slack end"
        yield Step(
            text=f"{'Set the nut' if words.what == 'nut' else 'Screw the bolt'} to {place}, "
            f"{beyond}, seen from {words.seen_from}: {shown(at.distance, 1)} from the "
            f"{datum(self._setup)} to the {words.point}.{self._on_thread()}"
        )

    def _on_thread(self) -> str:
        """Say that a nut must be engaged, and that a spacer stays."""
        adjuster = self._setup.adjuster
        if adjuster is None or adjuster.is_screwed:
            return ""
        spacer = ", the spacer in its place" if adjuster.spacer.magnitude else ""
        return f" The whole nut must be on full thread{spacer}."

    def _finish(self) -> Iterator[Step]:
        plan = self._plan
        if self._hangs_free:
            yield Step(
                text="Join the anti-roll bar's link again if it was parted, and put hose and leads "
                "back in their place."
            )
        yield Step(
            text="Wheel on, the vehicle on its wheels; roll it back and forth and let it settle."
        )
        yield Step(
            text=f"Measure hub to arch: {shown(plan.height, 0)} is expected. {corrected(plan)}"
        )
        yield self._bushings("tighten", " now, at ride height, not before")
        # What a change of height upsets is common practice, no source.
        yield Step(
            text="Couple it up: check that it stands level, its brakes and its lamps; try it on "
            "the road; recheck."
            if self._is_towed
            else "Check headlamp aim, brake-load valve and alignment; test drive; recheck."
        )

    def _bushings(self, verb: str, when: str = "") -> Step:
        """Slacken or tighten the arm's bushings; a pack need not say that there are any."""
        if self._setup.axle.bushing:
            return Step(
                text=f"{verb.capitalize()} the rubber bushings that turn with the arm{when}."
            )
        return Step(text=f"If rubber bushings turn with the arm, {verb} them{when}.")

    # -- The damper ---------------------------------------------------------------

    def _take_damper_off(self) -> Iterator[Step]:
        self._damper_is_on = False
        yield Step(text=hose_freed(self._setup))
        yield Step(text=damper_off(self._setup))
