"""The steps of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.analysis.assembly import Assembly
from barwright.analysis.finding import Topic
from barwright.analysis.plan import Blank, EndAction, EndWork, Plan
from barwright.analysis.reindex import Reindex
from barwright.parts.chassis import BarEndName, StrutMounting
from barwright.parts.setup import Setup
from barwright.report.settings import datum
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
        self._swapped = [kind for kind, part in setup.parts.items() if part != present.parts[kind]]
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
        yield self._set()
        if "damper" in self._swapped and self._damper_is_on:
            yield self._take_damper_off()
        if not self._damper_is_on:
            yield self._put_damper_on()
        yield from self._finish()

    # -- Before -----------------------------------------------------------------

    def _prepare(self, *, loosens: bool) -> Iterator[Step]:
        yield Step(
            text="Measure hub to arch and the nut's place on both sides, and note them below."
        )
        yield Step(text="Set the body on stands, let the wheel hang, take the wheel off.")
        yield Step(text="Slacken the rubber bushings that turn with the arm.")
        if loosens:
            yield Step(
                text="Mark bar, arm, tube and lever against each other on their end faces; mark "
                "left and right."
            )

    def _unload(self) -> Iterator[Step]:
        """Take the torque out of the bar, by the way that is safe."""
        on, off = self._answer.removal
        if on.slides:
            yield self._loose(on)
        else:
            yield Step(
                text="Do not draw the bar with the damper on: with the nut at the end of its "
                f"thread {_residue(on)} would be left in it.",
                refused=True,
            )
            yield Step(
                text=f"Turn the nut to the end of its thread: {self._place(on, self._present)}."
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
                if not self._has_strut:
                    yield NO_WAY
                    return
                yield Step(
                    text="Jack under the arm's outer end, part the ball joint, and let the arm "
                    f"down slowly: it must come {_needed(off)} below that stop. If a stop of the "
                    "chassis holds the arm before that, lift it again and stop here: this sheet "
                    "then knows no safe way."
                )
        yield Step(
            text="Prove it: turn the lever, and slide the bar a little, by hand. If it binds, stop "
            "and unload it."
        )

    def _loose(self, way: Assembly, *, nut_is_slack: bool = False) -> Step:
        """Say where the bar is loose with the arm hanging."""
        damper = "on" if way.damper_on else "off"
        held = f"With the damper {damper} and the arm hanging at its stop, the bar is now loose"
        if nut_is_slack:
            text = f"{held}."
        elif way.anywhere:
            text = f"Slacken the nut. {held}; it would be wherever the nut stood."
        else:
            place = self._place(way, self._present)
            text = f"Slacken the nut to {place}, if it is not slacker already. {held}."
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
            text="Slacken the nut to the end of its thread, then put the ball joint together again."
        )

    def _swap(self) -> Iterator[Step]:
        """Change what is not the bar or the damper: all old parts off, then the new ones on."""
        kinds = [kind for kind in ("adjuster", "tube", "arm") if kind in self._swapped]
        # A damper without a strut has its foot on the arm.
        if "arm" in kinds and not self._has_strut and self._damper_is_on:
            yield self._take_damper_off()
        for kind in reversed(kinds):
            yield Step(text=f"{_FREE[kind]} Take off: {self._present.parts[kind].title}.")
        if "tube" in kinds:
            for change in self._answer.fit.changes:
                if change.topic is Topic.NEW_CAP_HOLES:
                    yield Step(
                        text="Make new holes in the chassis for the tube's cap: "
                        f"{_toward(self._answer.fit.cap_offset)} the anchor from the old ones."
                    )
        for kind in kinds:
            yield Step(text=f"Fit: {self._setup.parts[kind].title}.")

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
            yield Step(text=work_text(work))
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
        place = (
            "Leave the nut slack"
            if way.anywhere
            else f"Have the nut at {self._place(way, self._setup)}, or slacker"
        )
        damper = "on" if way.damper_on else "off"
        yield Step(
            text=f"{place}, the damper {damper} and the arm hanging at its stop; the lever, off "
            f"its nut, then turns by hand to where the bar's teeth meet.{self._doubt(way)}"
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

    def _set(self) -> Step:
        place = "the middle of its thread"
        if self._plan.nut_sense is not None:
            turns = abs(float(self._plan.nut_turns.magnitude))
            place = (
                f"{turns:.2f} turns {self._plan.nut_sense.value} from the middle of its thread, "
                "seen from the bolt's free end"
            )
        pin = shown(self._plan.pin_distance, 1)
        return Step(
            text=f"Set the nut to {place}: {pin} from the {datum(self._setup)} to the lever's "
            "pin. The whole nut must be on full thread, the spacer in its place."
        )

    def _finish(self) -> Iterator[Step]:
        plan = self._plan
        yield Step(text="Wheel on, car on its wheels; roll it back and forth and let it settle.")
        yield Step(
            text=f"Measure hub to arch: {shown(plan.height, 0)} is expected. Correct with the nut: "
            f"one turn {plan.raising_sense.value} raises the car by "
            f"{shown(plan.height_per_turn, 1).removesuffix('/turn')}; roll and measure again."
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

    @staticmethod
    def _place(way: Assembly, setup: Setup) -> str:
        turns = float(way.nut_turns.magnitude)
        sense = "clockwise" if turns > 0.0 else "counter-clockwise"
        return (
            f"{abs(turns):.1f} turns {sense} from the middle, seen from the bolt's free end "
            f"({shown(way.pin_distance, 1)} from the {datum(setup)} to the lever's pin)"
        )


NO_WAY = Step(
    text="This sheet knows no safe way to take that torque out. Stop here, and have a workshop "
    "that has the means for it draw the bar.",
    refused=True,
)

_FREE = {
    "arm": "Free the arm from its joints.",
    "tube": "Take the cap off and the bolt out of the lever.",
    "adjuster": "Take the nut off the bolt and the lever out of it.",
}


def viewer(work: EndWork) -> str:
    """Say where to look from."""
    other = BarEndName.ANCHOR if work.seen_from is BarEndName.ARM else BarEndName.ARM
    return f"seen from the {work.seen_from.value}, looking toward the {other.value}"


def work_text(work: EndWork) -> str:
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
        centre = "arm" if work.end is BarEndName.ARM else "lever"
        return (
            f"{name}: the socket has no key; put {what}, where the key would be: "
            f"{shown(work.key_angle, 1)} {work.key_direction.value} from the {centre}'s centreline."
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
