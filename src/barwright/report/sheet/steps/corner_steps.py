"""The steps of one corner of a bench sheet, in the order in which a mechanic takes them.

What they ask for beside the bar's own figures is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.assembly.unloading import UnloadingMethod, choose_fitting
from barwright.analysis.finding import Topic
from barwright.analysis.reindex.plan.plan import EndAction, EndWork, ToothDatum
from barwright.analysis.reindex.reading_check import for_the_other_side, unexplained
from barwright.parts.anchor import KeyLever
from barwright.parts.arm import Arm
from barwright.parts.common.record import Part
from barwright.parts.suspension import SwingArmMounting
from barwright.report.drawing.bar_end_view import datum_of
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import (
    slackened,
    words_for,
)
from barwright.report.sheet.steps.arm_steps import (
    arm_freed,
    arm_joined,
    damper_off,
    damper_on,
    hose_back,
    hose_freed,
    lifted,
)
from barwright.report.sheet.steps.bar_end_steps import end_steps, on_key, painting
from barwright.report.sheet.steps.setting_steps import setting_steps
from barwright.report.sheet.steps.step import CornerStep, forbidden, only_if
from barwright.report.sheet.steps.step_words import (
    anchor_line,
    called,
    freed,
    lies,
    marked_with,
    painted_with,
    reaches,
    toward,
)
from barwright.report.sheet.steps.trial_steps import (
    beside_a_trial,
    trial_of_another_bar,
    trial_of_the_bar_in,
)
from barwright.report.sheet.steps.unloading_steps import unloading_steps
from barwright.units import shown

__all__ = ["CornerSteps"]


class CornerSteps:
    """The steps of one corner, stage by stage.

    Parameters
    ----------
    work : CornerWork
        The corner, and the plan to carry out.

    Attributes
    ----------
    trial, take_apart, bar, put_together : tuple of CornerStep
        Steps of each stage; a trial of a bar that must be fitted first is a part of its work.
    """

    def __init__(self, work: CornerWork, *, goes_on: bool = False) -> None:
        self._setup, self._plan = work.setup, work.plan
        self._start(work)
        # What is on the corner at the end of a stage is known only after it.
        self.trial = tuple(self._trial(goes_on=goes_on))
        self._start(work.after_trial or work)
        self.take_apart = tuple(self._take_apart())
        self.bar = tuple(self._bar())
        self.put_together = tuple(self._put_together())

    def _start(self, work: CornerWork) -> None:
        """Take the corner as it is before the work."""
        self._work, self._present, self._answer = work, work.present, work.answer
        self._damper_is_on = True
        self._hose_is_on = True

    def _trial(self, *, goes_on: bool) -> Iterator[CornerStep]:
        if self._work.trial and self._work.tries_the_bar_in:
            swap = tuple(self._other_damper()) if self._work.after_trial else ()
            yield from trial_of_the_bar_in(
                self._work.trial, self._setup, swap=swap, goes_on=goes_on
            )

    @property
    def beside_trial(self) -> tuple[CornerStep, ...]:
        """All of its work, while another corner is tried; none if its bar comes out."""
        if self._work.unloads:
            return ()
        swaps = "damper" in self._work.swapped
        return tuple(beside_a_trial(self.put_together, self._plan, swaps=swaps))

    def _take_apart(self) -> Iterator[CornerStep]:
        work = self._work
        yield self._bushings()
        if work.unloads:
            yield from self._unload()
        if work.draws_bar:
            yield from self._painted()
            yield from self._draw()
        yield from self._swap()
        if work.unloads and work.unloading.way is UnloadingMethod.JOINT_PARTED:
            yield self._join()

    def _bar(self) -> Iterator[CornerStep]:
        """Work on the bar that goes in."""
        if not self._work.draws_bar:
            return
        yield CornerStep("Clean the splines of the bar and of both sockets.")
        yield CornerStep(
            "Inspect it in good light: {bar}. A nick or pit is scrap.",
            bar=called(self._setup.bar),
        )
        if "bar" in self._work.swapped:
            yield _SIDE_MARK if self._setup.bar.made_for else _ANY_SIDE_MARK
        if self._work.trial and not self._work.tries_the_bar_in:
            yield from trial_of_another_bar(self._work.trial, self._setup)
        if self._plan.cuts and self._work.cutting_waits:
            yield forbidden("Remove no tooth: check the load first, and plan again.")
        else:
            if self._plan.cuts:
                yield from self._before_cutting()
            yield from self._teeth()
        yield from self._marked()
        coated = "Stone off all burrs. Coat bare steel again. " if self._plan.cuts else ""
        yield CornerStep(f"{coated}Grease the splines.")

    def _before_cutting(self) -> Iterator[CornerStep]:
        """Say what is to be known before a tooth goes."""
        if stands := unexplained(self._answer.findings):
            yield only_if("you know why {stands}", "go on here.", stands=stands)
        if for_the_other_side(self._answer.fit.changes):
            yield only_if("no bar for this side is to be had", "go on here.")

    def _teeth(self) -> Iterator[CornerStep]:
        """Say which teeth are marked or taken off."""
        if any(work.tooth for work in self._plan.ends):
            yield self._counted()
        for work in self._worked_on:
            yield from end_steps(work, anchor_line=anchor_line(self._setup))
        if self._plan.cuts:
            yield from _tooth_taken_off()

    @property
    def _worked_on(self) -> tuple[EndWork, ...]:
        """Ends that something is said of; beside one that is cut, none that goes back as it was."""
        ends = self._plan.ends
        if not self._plan.cuts:
            return ends
        return tuple(work for work in ends if work.action is not EndAction.STAYS)

    def _put_together(self) -> Iterator[CornerStep]:
        work = self._work
        if work.unloads:
            yield from self._ready_to_fit()
        if work.draws_bar:
            yield from self._put_in()
        # The nut turns lightly while the arm still hangs, so it comes before the damper.
        yield from setting_steps(self._work)
        if work.frees_arm:
            yield from self._lever_seated()
        yield from self._damper_on()

    def _lever_seated(self) -> Iterator[CornerStep]:
        """Look at a key lever, which may have left its bolt while the arm hung low."""
        if isinstance(self._setup.anchor, KeyLever):
            yield CornerStep("Check that the bolt's end sits square on the lever's face.")

    def _damper_on(self) -> Iterator[CornerStep]:
        """Fit the damper and what was freed from the arm."""
        if "damper" in self._work.swapped and self._damper_is_on:
            yield from self._take_damper_off()
        untied = "Untie the wheel carrier." if self._carrier_is_tied else ""
        if not self._damper_is_on:
            yield damper_on(self._setup, is_new="damper" in self._work.swapped, then=untied)
        elif untied:
            yield CornerStep(untied)
        if "arm" in self._work.swapped:
            yield from arm_joined(self._setup)
        elif not self._hose_is_on:
            yield hose_back(self._setup)

    @property
    def _carrier_is_tied(self) -> bool:
        """Whether the wheel carrier was tied up: without its strut, its joint or its arm."""
        work = self._work
        if isinstance(self._present.axle.suspension, SwingArmMounting):
            return False
        parted = work.unloads and work.unloading.way is UnloadingMethod.JOINT_PARTED
        return parted or "arm" in work.swapped or (work.has_strut and not self._hose_is_on)

    # -- Taking apart -----------------------------------------------------------------

    def _bushings(self) -> CornerStep:
        """Slacken the arm's bushings; a pack need not say that there are any."""
        if self._setup.axle.bushing:
            return CornerStep("Slacken the rubber bushings that turn with the arm.")
        return only_if("rubber bushings turn with the arm", "slacken them.")

    def _unload(self) -> Iterator[CornerStep]:
        work = self._work
        yield CornerStep(
            "Mark bar, arm{anchor} together, left and right: paint, no punch.",
            anchor=marked_with(self._present.anchor),
        )
        yield from unloading_steps(work)
        self._damper_is_on = work.unloading.way is UnloadingMethod.DAMPER_ON
        self._hose_is_on = self._damper_is_on

    def _join(self) -> CornerStep:
        """Put a parted ball joint together; the arm that it lifts must not wind a bar."""
        words = words_for(self._setup)
        return CornerStep(
            "{slack} the ball joint together again and tighten its nut.",
            slack=f"With the {words.what} at its slack end, put" if words else "Put",
        )

    def _swap(self) -> Iterator[CornerStep]:
        """Change what is not the bar or the damper: all old parts off, then the new ones on."""
        kinds = [kind for kind in ("adjuster", "anchor", "arm") if kind in self._work.swapped]
        # A damper without a strut has its foot on the arm.
        if "arm" in kinds and not self._work.has_strut and self._damper_is_on:
            yield from self._take_damper_off()
        for kind in reversed(kinds):
            if old := self._present.parts.get(kind):
                yield from self._off(old)
        if "anchor" in kinds:
            yield from self._new_holes()
        for kind in kinds:
            if new := self._setup.parts.get(kind):
                yield self._on(new)

    def _new_holes(self) -> Iterator[CornerStep]:
        offset = self._answer.fit.cap_offset
        for change in self._answer.fit.changes:
            if change.topic is Topic.NEW_CAP_HOLES and offset is not None:
                yield CornerStep(
                    "Drill new holes in the chassis for the tube's cap: {place} the anchor from "
                    "the old ones.",
                    place=toward(offset),
                )

    def _off(self, part: Part) -> Iterator[CornerStep]:
        if isinstance(part, Arm):
            yield from arm_freed(self._present)
        yield CornerStep("{freed} Take off: {part}.", freed=freed(part), part=part.title)

    def _on(self, part: Part) -> CornerStep:
        """Fit a part; a key lever waits for its bar."""
        if isinstance(part, KeyLever):
            return CornerStep("Lay ready: {part}. The bar alone will hold it.", part=part.title)
        return CornerStep("Fit: {part}.", part=part.title)

    # -- The bar ------------------------------------------------------------------

    def _draw(self) -> Iterator[CornerStep]:
        """Draw the bar; a key lever is held by it alone."""
        if isinstance(self._present.anchor, KeyLever):
            yield CornerStep("Support the key lever: it drops as the bar comes out.")
        yield only_if("fitted", "take end plug, circlip and clamp bolt off.")
        yield CornerStep("Pull the bar out at the {entry}.", entry=self._setup.axle.entry.value)
        yield only_if("a loose bar sticks", "oil it, pull evenly. No heat, no hammer.")

    def _painted(self) -> Iterator[CornerStep]:
        """Paint a tooth of each end that shows none to count from."""
        for work in self._plan.ends:
            if work.tooth_datum is ToothDatum.PRESENT:
                yield painting(
                    work,
                    anchor=painted_with(self._present.anchor),
                    anchor_line=anchor_line(self._present),
                )

    def _counted(self) -> CornerStep:
        """Say from where teeth are counted."""
        names = dict.fromkeys(datum_of(work) for work in self._plan.ends if work.tooth)
        return CornerStep(
            f"Count every tooth position, gaps too. Beside {' or '.join(names)} is tooth 1."
        )

    def _marked(self) -> Iterator[CornerStep]:
        """Mark a bar that goes in more than one way."""
        if any(work.blank_count != 1 for work in self._plan.ends):
            yield CornerStep(
                "On the end face, paint L or R and mark the tooth or blank for the key."
            )

    def _ready_to_fit(self) -> Iterator[CornerStep]:
        """Bring adjuster and damper to where the bar takes no torque at its new clocking."""
        way = choose_fitting(self._plan.fitting)
        if self._damper_is_on and ("damper" in self._work.swapped or not way.damper_fitted):
            yield from self._take_damper_off()
        # A bar that slides in with the damper on does so with it off too.
        way = self._plan.fitting[0 if self._damper_is_on else 1]
        words = words_for(self._setup)
        if words is None:
            yield lifted(way, self._work.loose, self._setup)
            return
        if "adjuster" in self._work.swapped:
            yield slackened(self._setup, words, self._work.loose)
        yield CornerStep(
            "{what} at its slack end{off}: let the arm hang as low as it goes.",
            what=words.what.capitalize(),
            off="" if way.damper_fitted else ", damper off",
        )
        if self._work.draws_bar and not isinstance(self._setup.anchor, KeyLever):
            yield CornerStep("Turn the lever by hand until the teeth line up.")
        if not way.is_sure:
            yield only_if(
                "the lever pulls on the {what} there",
                "the bar is twisted. Stop, leave the {what} slack and follow another plan.",
                what=words.what,
            )

    def _put_in(self) -> Iterator[CornerStep]:
        """Put the bar in."""
        entry = self._setup.axle.entry.value
        keys = "; ".join(f"{work.end.value}: {on_key(work)}" for work in self._plan.ends)
        if isinstance(self._setup.anchor, KeyLever):
            yield CornerStep(
                "Hold the key lever in place. Turn it by hand until the teeth line up."
            )
        # Both are words of this library: another end or blank is another step.
        yield CornerStep(f"Slide the bar in at the {entry}. {_sentence(keys)}.")
        if words_for(self._setup) is None:
            yield only_if("it sticks", "move the arm a little up or down. Never drive the bar in.")
        yield self._pushed()
        yield only_if("fitted", "refit end plug, circlip and clamp bolt.")

    def _pushed(self) -> CornerStep:
        fit = self._answer.fit
        arm, anchor = fit.ends
        return CornerStep(
            "Push it until its arm-end spline {edge} the arm's outer face (allowed: {first} to "
            "{last}). Engaged: arm {arm}, anchor {anchor}.",
            edge=reaches(fit.position),
            first=lies(fit.free_from),
            last=lies(fit.free_to),
            arm=shown(arm.engagement, 1),
            anchor=shown(anchor.engagement, 1),
        )

    # -- After --------------------------------------------------------------------

    # -- The damper ---------------------------------------------------------------

    def _other_damper(self) -> Iterator[CornerStep]:
        """Change the damper while the bar stays in, twisted or not."""
        yield from self._take_damper_off()
        untied = "Untie the wheel carrier." if self._work.has_strut else ""
        yield from self._lever_seated()
        yield damper_on(self._setup, is_new=True, then=untied)
        yield hose_back(self._setup)

    def _take_damper_off(self) -> Iterator[CornerStep]:
        self._damper_is_on = False
        self._hose_is_on = False
        yield from hose_freed(self._setup)
        yield from damper_off(self._setup)


_SIDE_MARK = CornerStep(
    "Read the side mark on its end: the left bar goes left, the right bar right."
)
_ANY_SIDE_MARK = only_if("its end has a side mark", "fit it on that side.")


def _tooth_taken_off() -> Iterator[CornerStep]:
    """Say how a tooth comes off without harm to what is left, or to whoever does it."""
    yield CornerStep("Remove each tooth marked X and no other: each one weakens the spline.")
    yield CornerStep("Shield bar and eyes. Keep the bar cool. Go no deeper than the roots.")


def _sentence(text: str) -> str:
    return text[0].upper() + text[1:]
