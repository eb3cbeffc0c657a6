"""The steps of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.assembly import Assembly
from barwright.analysis.finding import Topic
from barwright.analysis.plan import Blank, EndAction, EndWork, Plan
from barwright.analysis.reindex import Reindex
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import PLACES, Setup
from barwright.parts.source import Part
from barwright.parts.suspension import StrutMounting, SwingArmMounting
from barwright.parts.tube import Tube
from barwright.report.adjustment import adjusted, datum, place_text, words_for
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["NO_WAY", "Step", "steps", "viewer", "work_text"]


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
            yield Step(text=f"Draw the bar out at the {self._setup.axle.entry.value}.")
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
        yield Step(text="Set the body on stands, let the wheel hang, take the wheel off.")
        yield Step(text="Slacken the rubber bushings that turn with the arm.")
        if loosens:
            yield Step(
                text=f"Mark bar, arm{_MARKED[type(self._present.tube)]} against each other on "
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
                f"of its thread {_residue(on)} would be left in it.",
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
                    text=f"Do not touch the bar yet: {_residue(off)} would be left in it even with "
                    "the damper off.",
                    refused=True,
                )
                if self._swings:
                    yield NO_WAY
                    return
                yield _part_the_joint(off)
        yield Step(
            text="Prove it: turn the lever, and slide the bar a little, by hand. If it binds, stop "
            "and unload it."
        )

    def _lift(self) -> Iterator[Step]:
        """Take the torque out of a bar that a fixed socket holds: the arm alone can."""
        on, off = self._answer.removal
        if on.slides:
            yield Step(text=self._lifted(on))
        else:
            yield Step(
                text=f"Do not draw the bar with the damper on: {_residue(on)} would be left in it.",
                refused=True,
            )
            yield self._take_damper_off()
            if off.slides:
                yield Step(text=self._lifted(off))
            # Above the stop of bump no ball joint helps.
            elif self._swings or off.lift.magnitude > 0.0:
                yield NO_WAY
                return
            else:
                yield _part_the_joint(off)
        yield Step(
            text="Prove it: slide the bar a little by hand. If it binds, stop, and move the arm up "
            "or down until it does not."
        )

    def _lifted(self, way: Assembly) -> str:
        """Say to which place the arm is lifted, at which the bar takes no torque."""
        damper = "on" if way.damper_on else "off"
        return (
            f"With the damper {damper}, hold the arm with a jack {self._jack} so that the hub "
            f"stands {shown(way.lift, 0)} above its place at full droop: the bar is loose there "
            f"alone.{self._doubt(way)}"
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
            what = self._what(self._present)
            text = f"Slacken the {what}. {held}; it would be wherever the {what} stood."
        else:
            place = place_text(way, self._present)
            what = self._what(self._present)
            text = f"Slacken the {what} to {place}, if it is not slacker already. {held}."
        return Step(text=text + self._doubt(way))

    @staticmethod
    def _what(setup: Setup) -> str:
        words = words_for(setup)
        return words.what if words else ""

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
            text=f"Slacken the {self._what(self._setup)} to the end of its thread, then put the "
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
                yield Step(text=f"{_free(old)} Take off: {old.title}.")
        offset = self._answer.fit.cap_offset
        if "tube" in kinds:
            for change in self._answer.fit.changes:
                if change.topic is Topic.NEW_CAP_HOLES and offset is not None:
                    yield Step(
                        text="Make new holes in the chassis for the tube's cap: "
                        f"{_toward(offset)} the anchor from the old ones."
                    )
        for kind in kinds:
            if new := self._setup.parts.get(kind):
                yield Step(text=f"Fit: {new.title}.")

    # -- The bar ------------------------------------------------------------------

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
            yield Step(text=work_text(work, anchor_line=_line(self._setup)))
        two_ways = [work for work in self._plan.ends if work.blanks > 1]
        if two_ways:
            marks = "; ".join(f"{work.end.value}: {work.on_key.value}" for work in two_ways)
            yield Step(
                text="Mark on the bar's end face the blank that goes on the key, and the side of "
                f"the car, since it now goes in more ways than one ({marks})."
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
            yield Step(text=self._lifted(way))
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
        keys = "; ".join(f"{work.end.value}: {_on_key(work)}" for work in self._plan.ends)
        yield Step(
            text=f"Slide the bar in at the {self._setup.axle.entry.value}. On the keys: {keys}."
        )
        fit = self._answer.fit
        arm, anchor = fit.ends
        yield Step(
            text=f"Push it until its arm-end spline {_reaches(fit.position)} the arm socket's "
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
        yield Step(text="Wheel on, car on its wheels; roll it back and forth and let it settle.")
        yield Step(
            text=f"Measure hub to arch: {shown(plan.height, 0)} is expected. {_correct(plan)}"
        )
        yield Step(text="Tighten the arm's rubber bushings now, at ride height, not before.")
        yield Step(text="Check headlamp aim, brake-load valve and alignment; test drive; recheck.")

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

_FREE: dict[type[Part], str] = {
    Arm: "Free the arm from its joints.",
    Tube: "Take the cap off and the bolt out of the lever.",
    KeyLever: "Draw the key lever out of the cross-member.",
    FixedSocket: "Take the anchor socket off the chassis.",
    Adjuster: "Take the nut off the bolt and the lever out of it.",
}

_MARKED: dict[type[Part], str] = {
    Tube: ", tube and lever",
    KeyLever: " and key lever",
    FixedSocket: " and anchor socket",
}


def _free(part: Part) -> str:
    if isinstance(part, Adjuster) and part.is_screwed:
        return "Screw the bolt out of its cross-member."
    return _FREE[type(part)]


def _line(setup: Setup) -> str:
    """Line that the key angle of the anchor's socket is counted from."""
    if isinstance(setup.tube, FixedSocket):
        return f"the socket's line at {shown(setup.tube.anchor_angle, 1)} above the horizontal"
    return "the lever's centreline"


def _correct(plan: Plan) -> str:
    """Say how a height is corrected that is not as expected."""
    at = adjusted(plan)
    if at is None:
        return "Nothing can be adjusted: correct by teeth only, with the plan for another height."
    return (
        f"Correct with the {at.words.what}: one turn {at.raising_sense.value} raises the car by "
        f"{shown(at.height_per_turn, 1).removesuffix('/turn')}; roll and measure again."
    )


def _part_the_joint(way: Assembly) -> Step:
    return Step(
        text="Jack under the arm's outer end, part the ball joint, and let the arm "
        f"down slowly: it must come {_needed(way)} below that stop. If a stop of the "
        "chassis holds the arm before that, lift it again and stop here: this sheet "
        "then knows no safe way."
    )


def viewer(work: EndWork) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value}, looking toward the {other.value}"


def work_text(work: EndWork, *, anchor_line: str = "the lever's centreline") -> str:
    """Say in a sentence what to do at one end of the bar."""
    name = work.end.value.capitalize()
    sense = f" {work.direction.value}" if work.direction else ""
    tooth = f"tooth {work.tooth}{sense} from the maker's blank, {viewer(work)}"
    if work.action is EndAction.STAYS:
        return f"{name}: nothing to cut; it goes back as it was ({_on_key(work)})."
    if work.action is EndAction.REMOVE_TOOTH:
        clear = (
            " Or clear the key in the socket instead, put that tooth where the key was, and mark "
            "it: the bar then stays whole."
            if work.key_may_be_cleared
            else ""
        )
        return f"{name}: remove {tooth}. This new blank goes on the key.{clear}"
    if work.action is EndAction.NO_KEY:
        what = tooth if work.direction else "the maker's blank"
        line = "the arm's centreline" if work.end is BarEndName.ARM else anchor_line
        return (
            f"{name}: the socket has no key; put {what}, where the key would be: "
            f"{shown(work.key_angle, 1)} {work.key_direction.value} from {line}."
        )
    if work.on_key is Blank.MAKERS:
        return f"{name}: put the maker's blank on the key."
    return f"{name}: put the blank cut earlier on the key: {tooth}."


def _needed(way: Assembly) -> str:
    """Say how far the arm must come below its stop for the bar to be loose."""
    return shown(way.reserve, 1).removeprefix("-")


def _residue(way: Assembly) -> str:
    torque, energy = shown(way.residual_torque, 0), shown(way.residual_energy, 0)
    return f"a torque of {torque} and an energy of {energy}"


def _on_key(work: EndWork) -> str:
    if work.on_key is not Blank.NONE:
        return f"{work.on_key.value} on the key"
    if work.action is EndAction.STAYS:
        sense = f" {work.direction.value}" if work.direction else ""
        return f"no key: tooth {work.tooth}{sense} where it was" if work.tooth else "as it was"
    return "no key; as said above"


def _toward(offset: Quantity) -> str:
    away = "" if offset.magnitude > 0.0 else "away from"
    return f"{shown(offset, 1).removeprefix('-')} {away or 'toward'}"


def _reaches(position: Quantity) -> str:
    size = abs(si(position, LENGTH))
    if size < _FLUSH:
        return "is flush with"
    where = "inside" if position.magnitude > 0.0 else "outside"
    return f"stands {shown(position, 1).removeprefix('-')} {where}"


_FLUSH = 0.05e-3
"""Length [m] that is less than is shown."""
