"""The steps of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.assembly import Assembly
from barwright.analysis.finding import Topic
from barwright.analysis.plan import Plan
from barwright.analysis.reindex import Reindex
from barwright.parts.anchor import KeyLever
from barwright.parts.setup import PLACES, Setup
from barwright.parts.suspension import StrutMounting, SwingArmMounting
from barwright.report.adjustment import adjusted, datum, place_text, words_for
from barwright.report.bar_ends import on_key, work_text
from barwright.report.step_words import (
    anchor_line,
    corrected,
    freed,
    marked_with,
    parted,
    reaches,
    residue,
    toward,
    turned_at,
)
from barwright.units import shown

__all__ = ["NO_WAY", "Step", "steps"]


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


def steps(setup: Setup, present: Setup, answer: Reindex, plan: Plan) -> tuple[Step, ...]:
    """List the steps of one corner; they end where the sheet refuses to go on.

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
    return tuple(_Bench(setup, present, answer, plan).steps())


class _Bench:
    """Writes the steps of one corner, keeping track of what is on it meanwhile."""

    def __init__(self, setup: Setup, present: Setup, answer: Reindex, plan: Plan) -> None:
        self._setup = setup
        self._present = present
        self._answer = answer
        self._plan = plan
        self._has_strut = isinstance(setup.axle.suspension, StrutMounting)
        self._is_towed = setup.chassis.drive == "none"
        self._swapped = [
            place for place in PLACES if getattr(setup, place) != getattr(present, place)
        ]
        self._damper_is_on = True

    def steps(self) -> Iterator[Step]:
        """Write all steps, in order."""
        moves = bool(self._plan.disturbed) or bool({"arm", "bar", "tube"} & {*self._swapped})
        loosens = moves or "adjuster" in self._swapped
        yield from self._prepare(loosens=loosens)
        if loosens:
            removal = list(self._unload())
            yield from removal
            if removal[-1] is NO_WAY:
                return
        if moves:
            yield self._draw()
        yield from self._swap()
        if loosens and self._was_parted():
            yield self._join(bar_is_out=moves)
        if moves:
            yield from self._prepare_bar()
        if loosens:
            yield from self._nut_for_fitting()
        if moves:
            yield from self._put_in()
        # The nut turns lightly while the arm still hangs, so it comes before the damper.
        yield from self._set()
        if "damper" in self._swapped and self._damper_is_on:
            yield self._take_damper_off()
        if not self._damper_is_on:
            yield self._put_damper_on()
        yield from self._finish()

    # -- Before -----------------------------------------------------------------

    def _prepare(self, *, loosens: bool) -> Iterator[Step]:
        words = words_for(self._present)
        yield Step(
            text=f"Measure hub to arch and the {words.what}'s place on both sides, and note them "
            "below."
            if words
            else "Measure hub to arch on both sides, and note it below."
        )
        tipping = ", its drawbar held so that it cannot tip" if self._is_towed else ""
        yield Step(text=f"Set the body on stands{tipping}, let the wheel hang, take the wheel off.")
        yield self._bushings("slacken")
        if loosens:
            yield Step(
                text=f"Mark bar, arm{marked_with(self._present.tube)} against each other on "
                "their end faces; mark left and right."
            )

    def _unload(self) -> Iterator[Step]:
        """Take the torque out of the bar, by the way that is safe."""
        words = words_for(self._present)
        if words is None:
            yield from self._lift()
            return
        on, off = self._answer.removal
        if on.slides:
            yield self._loose(on)
        else:
            yield Step(
                text=f"Do not draw the bar with the damper on: with the {words.what} at the end "
                f"of its thread {residue(on)} would be left in it.",
                refused=True,
            )
            yield Step(
                text=f"Turn the {words.what} to the end of its thread: "
                f"{place_text(on, self._present)}."
            )
            yield self._take_damper_off()
            if off.slides:
                yield self._loose(off, nut_is_slack=True)
            else:
                yield Step(
                    text=f"Do not touch the bar yet: {residue(off)} would be left in it even with "
                    "the damper off.",
                    refused=True,
                )
                if self._swings:
                    yield NO_WAY
                    return
                yield Step(text=parted(off))
        yield Step(
            text="Prove it: turn the lever, and slide the bar a little, by hand. If it binds, stop "
            "and unload it."
        )

    def _lift(self) -> Iterator[Step]:
        """Take the torque out of a bar that a fixed socket holds: the arm alone can."""
        on, off = self._answer.removal
        if on.slides:
            yield Step(text=self._lifted(on, "the bar is loose there alone"))
        else:
            yield Step(
                text=f"Do not draw the bar with the damper on: {residue(on)} would be left in it.",
                refused=True,
            )
            yield self._take_damper_off()
            if off.slides:
                yield Step(text=self._lifted(off, "the bar is loose there alone"))
            # Above the stop of bump no ball joint helps.
            elif self._swings or off.lift.magnitude > 0.0:
                yield NO_WAY
                return
            else:
                yield Step(text=parted(off))
        yield Step(
            text="Prove it: slide the bar a little by hand. If it binds, stop, and move the arm up "
            "or down until it does not."
        )

    def _lifted(self, way: Assembly, why: str) -> str:
        """Say to which place the arm is lifted, at which the bar takes no torque."""
        damper = "on" if way.damper_on else "off"
        return (
            f"With the damper {damper}, hold the arm with a jack {self._jack} so that the hub "
            f"stands {shown(way.lift, 0)} above its place at full droop: {why}.{self._doubt(way)}"
        )

    @property
    def _swings(self) -> bool:
        return isinstance(self._setup.axle.suspension, SwingArmMounting)

    def _loose(self, way: Assembly, *, nut_is_slack: bool = False) -> Step:
        """Say where the bar is loose with the arm hanging."""
        damper = "on" if way.damper_on else "off"
        held = f"With the damper {damper} and the arm hanging at its stop, the bar is now loose"
        if nut_is_slack:
            text = f"{held}."
        elif way.anywhere:
            what = turned_at(self._present)
            text = f"Slacken the {what}. {held}; it would be wherever the {what} stood."
        else:
            place = place_text(way, self._present)
            what = turned_at(self._present)
            text = f"Slacken the {what} to {place}, if it is not slacker already. {held}."
        return Step(text=text + self._doubt(way))

    def _doubt(self, way: Assembly) -> str:
        """Warn where the nut's reserve is less than what the figures leave open."""
        tolerance = self._answer.free_angle_tolerance
        if tolerance is None or way.reserve >= tolerance:
            return ""
        return " The reserve is less than the figures' tolerance: it may still hold a little."

    def _join(self, *, bar_is_out: bool) -> Step:
        """Put a parted ball joint together; the arm that it lifts must not wind a bar."""
        if bar_is_out:
            return Step(text="Put the ball joint together again.")
        return Step(
            text=f"Slacken the {turned_at(self._setup)} to the end of its thread, then put the "
            "ball joint together again."
        )

    def _swap(self) -> Iterator[Step]:
        """Change what is not the bar or the damper: all old parts off, then the new ones on."""
        kinds = [kind for kind in ("adjuster", "tube", "arm") if kind in self._swapped]
        # A damper without a strut has its foot on the arm.
        if "arm" in kinds and not self._has_strut and self._damper_is_on:
            yield self._take_damper_off()
        for kind in reversed(kinds):
            if old := self._present.parts.get(kind):
                yield Step(text=f"{freed(old)} Take off: {old.title}.")
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
                yield Step(text=f"Fit: {new.title}.")

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
            marks = "; ".join(f"{work.end.value}: {work.on_key.value}" for work in two_ways)
            yield Step(
                text="Mark on the bar's end face the blank that goes on the key, and the side of "
                f"the vehicle, since it now goes in more ways than one ({marks})."
            )

    def _nut_for_fitting(self) -> Iterator[Step]:
        """Bring nut and damper to where the bar takes no torque at its new clocking."""
        on, off = self._plan.fitting
        if self._damper_is_on and ("damper" in self._swapped or not on.slides):
            yield self._take_damper_off()
        # A bar that slides in with the damper on does so with it off too.
        way = on if self._damper_is_on else off
        words = words_for(self._setup)
        if words is None:
            yield Step(text=self._lifted(way, "the bar goes in there alone"))
            return
        what = words.what
        place = (
            f"Leave the {what} slack"
            if way.anywhere
            else f"Have the {what} at {place_text(way, self._setup)}, or slacker"
        )
        damper = "on" if way.damper_on else "off"
        yield Step(
            text=f"{place}, the damper {damper} and the arm hanging at its stop; the lever, off "
            f"its {what}, then turns by hand to where the bar's teeth meet.{self._doubt(way)}"
        )

    def _put_in(self) -> Iterator[Step]:
        """Put the bar in."""
        keys = "; ".join(f"{work.end.value}: {on_key(work)}" for work in self._plan.ends)
        yield Step(
            text=f"Slide the bar in at the {self._setup.axle.entry.value}. On the keys: {keys}."
        )
        fit = self._answer.fit
        arm, anchor = fit.ends
        yield Step(
            text=f"Push it until its arm-end spline {reaches(fit.position)} the arm socket's "
            f"outer face (free from {shown(fit.free_from, 1)} to {shown(fit.free_to, 1)}); engaged "
            f"are {shown(arm.engagement, 1)} at the arm end and {shown(anchor.engagement, 1)} at "
            "the anchor end."
        )

    def _was_parted(self) -> bool:
        """Whether the ball joint was parted to unload the bar."""
        return not any(way.slides for way in self._answer.removal)

    # -- After --------------------------------------------------------------------

    def _set(self) -> Iterator[Step]:
        at = adjusted(self._plan)
        if at is None:
            return
        words, place = at.words, "the middle of its thread"
        if at.sense is not None:
            turns = abs(float(at.turns.magnitude))
            place = (
                f"{turns:.2f} turns {at.sense.value} from the middle of its thread, "
                f"seen from {words.seen_from}"
            )
        nut = " The whole nut must be on full thread, the spacer in its place."
        yield Step(
            text=f"{'Set the nut' if words.what == 'nut' else 'Screw the bolt'} to {place}: "
            f"{shown(at.distance, 1)} from the {datum(self._setup)} to the {words.point}."
            f"{nut if words.what == 'nut' else ''}"
        )

    def _finish(self) -> Iterator[Step]:
        plan = self._plan
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

    @property
    def _jack(self) -> str:
        return "under the ball joint" if self._has_strut else "under the arm's outer end"

    def _take_damper_off(self) -> Step:
        self._damper_is_on = False
        return Step(
            text=f"Hold the arm up with a jack {self._jack}, take the damper off, and let the arm "
            "down slowly to its own stop."
        )

    def _put_damper_on(self) -> Step:
        self._damper_is_on = True
        return Step(
            text=f"Lift the arm with a jack {self._jack} until the damper goes on, and fit it "
            f"({self._setup.damper.title})."
        )


NO_WAY = Step(
    text="This sheet knows no safe way to take that torque out. Stop here, and have a workshop "
    "that has the means for it draw the bar.",
    refused=True,
)
