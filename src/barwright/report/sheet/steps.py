"""The steps of one corner of a bench sheet, in the order in which a mechanic takes them."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.finding import Topic
from barwright.analysis.reindex.unloading import UnloadingMethod, way_in
from barwright.parts.anchor import KeyLever
from barwright.parts.arm import Arm
from barwright.parts.record import Part
from barwright.report.sheet.adjustment import AdjusterWords, adjusted, datum, slackened, words_for
from barwright.report.sheet.arm_words import (
    arm_freed,
    arm_joined,
    damper_off,
    damper_on,
    hose_back,
    hose_freed,
    lifted,
)
from barwright.report.sheet.bar_ends import marked_out, on_key, work_text
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.step import SheetStep
from barwright.report.sheet.step_words import (
    anchor_line,
    freed,
    lies,
    marked_with,
    reaches,
    toward,
)
from barwright.report.sheet.unloading_steps import unloading_steps
from barwright.units import shown

__all__ = ["steps"]


def steps(work: CornerWork) -> tuple[SheetStep, ...]:
    """List the steps of one corner.

    Parameters
    ----------
    work : CornerWork
        The corner, and the plan to carry out.

    Returns
    -------
    tuple of SheetStep
    """
    return tuple(_Bench(work).steps())


class _Bench:
    """Writes the steps of one corner, keeping track of what is on it meanwhile."""

    def __init__(self, work: CornerWork) -> None:
        self._work = work
        self._setup, self._present = work.setup, work.present
        self._answer, self._plan = work.answer, work.plan
        self._damper_is_on = True
        self._hose_is_on = True

    def steps(self) -> Iterator[SheetStep]:
        """Write all steps, in order."""
        yield self._bushings()
        yield from self._take_apart()
        yield from self._put_together()

    def _take_apart(self) -> Iterator[SheetStep]:
        work = self._work
        if work.unloads:
            yield from self._unload()
        if work.draws_bar:
            yield from self._draw()
        yield from self._swap()
        if work.unloads and work.unloading.way is UnloadingMethod.JOINT_PARTED:
            yield self._join()

    def _put_together(self) -> Iterator[SheetStep]:
        work = self._work
        if work.draws_bar:
            yield from self._prepare_bar()
        if work.unloads:
            yield from self._ready_to_fit()
        if work.draws_bar:
            yield from self._put_in()
        # The nut turns lightly while the arm still hangs, so it comes before the damper.
        yield from self._set()
        yield from self._damper_on()

    def _damper_on(self) -> Iterator[SheetStep]:
        """Fit the damper and what was freed from the arm."""
        if "damper" in self._work.swapped and self._damper_is_on:
            yield from self._take_damper_off()
        if not self._damper_is_on:
            yield SheetStep(text=damper_on(self._setup))
        if "arm" in self._work.swapped:
            yield SheetStep(text=arm_joined(self._setup))
        elif not self._hose_is_on:
            yield SheetStep(text=hose_back(self._setup))

    # -- Taking apart -----------------------------------------------------------------

    def _bushings(self) -> SheetStep:
        """Slacken the arm's bushings; a pack need not say that there are any."""
        if self._setup.axle.bushing:
            return SheetStep(text="Slacken the rubber bushings that turn with the arm.")
        return SheetStep(text="If rubber bushings turn with the arm, slacken them.")

    def _unload(self) -> Iterator[SheetStep]:
        work = self._work
        yield SheetStep(
            text=f"Mark bar, arm{marked_with(self._present.anchor)} against each other on "
            "their end faces; mark left and right."
        )
        yield from unloading_steps(work)
        self._damper_is_on = work.unloading.way is UnloadingMethod.DAMPER_ON
        self._hose_is_on = self._damper_is_on

    def _join(self) -> SheetStep:
        """Put a parted ball joint together; the arm that it lifts must not wind a bar."""
        words = words_for(self._setup)
        slack = f"With the {words.what} right back, put" if words else "Put"
        return SheetStep(text=f"{slack} the ball joint together again and tighten its nut.")

    def _swap(self) -> Iterator[SheetStep]:
        """Change what is not the bar or the damper: all old parts off, then the new ones on."""
        kinds = [kind for kind in ("adjuster", "anchor", "arm") if kind in self._work.swapped]
        # A damper without a strut has its foot on the arm.
        if "arm" in kinds and not self._work.has_strut and self._damper_is_on:
            yield from self._take_damper_off()
        for kind in reversed(kinds):
            if old := self._present.parts.get(kind):
                yield self._off(old)
        offset = self._answer.fit.cap_offset
        if "anchor" in kinds:
            for change in self._answer.fit.changes:
                if change.topic is Topic.NEW_CAP_HOLES and offset is not None:
                    yield SheetStep(
                        text="Make new holes in the chassis for the tube's cap: "
                        f"{toward(offset)} the anchor from the old ones."
                    )
        for kind in kinds:
            if new := self._setup.parts.get(kind):
                yield self._on(new)

    def _off(self, part: Part) -> SheetStep:
        held = f"{arm_freed(self._present)} " if isinstance(part, Arm) else ""
        return SheetStep(text=f"{held}{freed(part)} Take off: {part.title}.")

    def _on(self, part: Part) -> SheetStep:
        """Fit a part; a key lever waits for its bar."""
        if isinstance(part, KeyLever):
            return SheetStep(text=f"Lay ready: {part.title}. The bar alone will hold it.")
        return SheetStep(text=f"Fit: {part.title}.")

    # -- The bar ------------------------------------------------------------------

    def _draw(self) -> Iterator[SheetStep]:
        """Draw the bar; a key lever is held by it alone."""
        if isinstance(self._present.anchor, KeyLever):
            yield SheetStep(text="Support the key lever: it drops as the bar comes out.")
        yield SheetStep(text=f"Draw the bar out at the {self._setup.axle.entry.value}.")

    def _prepare_bar(self) -> Iterator[SheetStep]:
        """Work on the bar that goes in."""
        yield SheetStep(
            text=f"Inspect the bar you are fitting in good light ({self._setup.bar.title}): a "
            "nick, a grinding mark or a rust pit scraps it."
        )
        if any(work.tooth for work in self._plan.ends):
            yield SheetStep(
                text="Count every tooth position, gaps included; the one next to the maker's "
                "blank is 1."
            )
        for work in self._plan.ends:
            yield SheetStep(text=work_text(work, anchor_line=anchor_line(self._setup)))
        two_ways = [work for work in self._plan.ends if work.blank_count > 1]
        if two_ways:
            marks = "; ".join(f"{work.end.value}: {marked_out(work)}" for work in two_ways)
            side = self._setup.side.value
            yield SheetStep(
                text=f"The bar can now be fitted in more ways than one. Mark on its end face "
                f"{side}, and what goes where the key is: {marks}."
            )

    def _ready_to_fit(self) -> Iterator[SheetStep]:
        """Bring adjuster and damper to where the bar takes no torque at its new clocking."""
        way = way_in(self._plan.fitting)
        if self._damper_is_on and ("damper" in self._work.swapped or not way.damper_fitted):
            yield from self._take_damper_off()
        # A bar that slides in with the damper on does so with it off too.
        way = self._plan.fitting[0 if self._damper_is_on else 1]
        words = words_for(self._setup)
        if words is None:
            at = lifted(way, self._work.loose, self._setup)
            yield SheetStep(text=f"{at}. The bar goes in only there.")
            return
        yield SheetStep(text=self._at_slack_end(words))
        damper = "on" if way.damper_fitted else "off"
        yield SheetStep(
            text=f"Let the arm hang at its stop with the damper {damper}.{self._turns()}"
        )
        if not way.is_sure:
            yield SheetStep(
                text=f"Only if the lever pulls on the {words.what} there: the bar is wound. Stop, "
                f"leave the {words.what} slack and follow another plan."
            )

    def _at_slack_end(self, words: AdjusterWords) -> str:
        """Have the adjuster slack; one that was on the corner before is so already."""
        if "adjuster" in self._work.swapped:
            return slackened(words, self._work.loose)
        return f"Leave the {words.what} at the slack end of its thread."

    def _turns(self) -> str:
        """Say that the lever turns; a key lever is not there yet, and a bar that stays has met."""
        if not self._work.draws_bar or isinstance(self._setup.anchor, KeyLever):
            return ""
        return " Turn the lever by hand until the teeth line up."

    def _put_in(self) -> Iterator[SheetStep]:
        """Put the bar in."""
        keys = "; ".join(f"{work.end.value}: {on_key(work)}" for work in self._plan.ends)
        entry = self._setup.axle.entry.value
        slid = (
            f"Hold the key lever in its place and slide the bar through it, in at the {entry}; "
            "turn the lever by hand until the teeth line up."
            if isinstance(self._setup.anchor, KeyLever)
            else f"Slide the bar in at the {entry}."
        )
        yield SheetStep(text=f"{slid} On the keys: {keys}.")
        if words_for(self._setup) is None:
            yield SheetStep(
                text="Only if it does not slide in: move the arm a little up or down. Never drive "
                "the bar in."
            )
        fit = self._answer.fit
        arm, anchor = fit.ends
        yield SheetStep(
            text=f"Push it until its arm-end spline {reaches(fit.position)} the arm socket's "
            f"outer face (it may stand {lies(fit.free_from)} to {lies(fit.free_to)}); engaged "
            f"are {shown(arm.engagement, 1)} at the arm end and {shown(anchor.engagement, 1)} at "
            "the anchor end."
        )

    # -- After --------------------------------------------------------------------

    def _set(self) -> Iterator[SheetStep]:
        at = adjusted(self._plan)
        if at is None:
            return
        words, place = at.words, "the middle of its thread"
        if at.sense is not None:
            place = f"{abs(float(at.turns.magnitude)):.2f} turns {at.sense.value} from {place}"
        beyond = f"{float(at.from_slack_end.magnitude):.2f} from its slack end"
        yield SheetStep(
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

    # -- The damper ---------------------------------------------------------------

    def _take_damper_off(self) -> Iterator[SheetStep]:
        self._damper_is_on = False
        self._hose_is_on = False
        yield SheetStep(text=hose_freed(self._setup))
        yield SheetStep(text=damper_off(self._setup))
