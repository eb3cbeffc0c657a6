"""The steps that all corners of a bench sheet share, before and after their own.

What they ask for is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.analysis.finding import Caution
from barwright.analysis.reindex.plan.uncut_trial import CLOSE_ENOUGH
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import adjusted, words_for
from barwright.report.sheet.steps.step import CornerStep, only_if, side_by_side
from barwright.units import LENGTH, quantity, shown

__all__ = ["steps_after", "steps_before", "steps_to_lift"]


def steps_before(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """List the steps that come before those of the corners.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Yields
    ------
    CornerStep
        What the stands would change.
    """
    yield CornerStep("Get the maker's tightening torques, new locking fasteners and split pins.")
    is_towed = works[0].is_towed
    if is_towed:
        yield CornerStep("Couple the trailer, or hold its drawbar level at the coupling's height.")
    yield only_if("you have scales", "weigh each corner on its wheels.")
    yield CornerStep("Roll the vehicle back and forth on level ground and let it settle.")
    yield CornerStep(
        "Chock the towing vehicle, or hold the drawbar, so that the trailer cannot tip."
        if is_towed
        else "Chock the wheels that stay down."
    )
    yield _measured(works)


def steps_to_lift(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """List the steps that set the vehicle up for the work.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Yields
    ------
    CornerStep
    """
    if len({work.setup.axle.place for work in works}) > 1:
        yield CornerStep(
            "Lift one axle at a time: finish both of its corners and set it down before you lift "
            "the other axle."
        )
    off = " Take the wheels off." if _wheels_come_off(works) else ""
    yield CornerStep(f"Set the body on stands so that both wheels hang.{off}")
    if _wheels_come_off(works):
        yield only_if("there is an anti-roll bar", "undo its links; they hold the arms up.")


def _wheels_come_off(works: Sequence[CornerWork]) -> bool:
    """Tell work on the bar or the damper from a turn of the adjuster."""
    return any(work.frees_arm for work in works)


def _measured(works: Sequence[CornerWork]) -> CornerStep:
    words = [words_for(work.present) for work in works]
    turned = dict.fromkeys(word.what for word in words if word is not None)
    return CornerStep(
        "Measure hub to arch{places}, both sides. Note them below.",
        places="".join(f" and the {what}'s position" for what in turned),
    )


def steps_after(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """List the steps that come after those of all corners.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Yields
    ------
    CornerStep
        The vehicle is set down, measured once, corrected and checked.
    """
    is_towed = works[0].is_towed
    if _wheels_come_off(works):
        yield only_if("you undid an anti-roll bar", "fit its links, both arms at one height.")
        yield CornerStep("Tighten all fasteners to the maker's torques, except at rubber bushings.")
        yield CornerStep("With every corner done, fit the wheels and set the vehicle down.")
        yield CornerStep("Tighten the wheel bolts to the maker's torque before you roll it.")
    else:
        yield CornerStep("Tighten all fasteners to the maker's torques, except at rubber bushings.")
        yield CornerStep("With every corner done, set the vehicle down.")
    if is_towed:
        yield CornerStep("Couple the trailer again, or hold its drawbar level, as you did before.")
    chocks = "any chocks" if is_towed else "the chocks"
    yield CornerStep(f"Take {chocks} away. Roll it back and forth and let it settle.")
    yield CornerStep(
        "Measure hub to arch on both sides. Expected: {heights}.",
        heights=side_by_side({work.setup.corner: shown(work.plan.height, 0) for work in works}),
    )
    yield from _corrections(works)
    yield from _locked(works)
    yield _tightened(works)
    yield from _checks(works)


_OFF = "a height is more than {most} from the expected one"


def _corrections(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """Say how heights are corrected, both sides together."""
    at = {work.setup.corner: adjusted(work.plan) for work in works}
    most = shown(quantity(CLOSE_ENOUGH, LENGTH).to(works[0].plan.height.units), 0)
    turned = {corner: found for corner, found in at.items() if found is not None}
    if not turned:
        yield only_if(
            _OFF,
            "nothing adjusts it. Write the measured height into the job, and plan again.",
            most=most,
        )
        return
    limit = _least_safe(works)
    yield only_if(
        _OFF,
        "Chock it, lift the body until both wheels hang, and set it on stands.",
        "Turn the {what} {sense} to raise that side: {rise} for one turn.{limit}",
        "Work on both sides in turn. Set it down, roll it, and measure both again.",
        most=most,
        limit=limit,
        what=side_by_side({corner: found.words.what for corner, found in turned.items()}),
        sense=side_by_side({corner: found.raising_sense.value for corner, found in turned.items()}),
        rise=side_by_side(
            {
                corner: shown(found.height_per_turn, 1).removesuffix("/turn")
                for corner, found in turned.items()
            }
        ),
    )


def _locked(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """Say that what was set is locked, now that its height is right: common practice, no source.

    No pack says whether there is a locknut.
    """
    words = {work.setup.corner: words_for(work.setup) for work in works}
    turned = {corner: found.what for corner, found in words.items() if found is not None}
    if turned:
        yield only_if(
            "the {what} has a locknut",
            "hold the {what} and tighten its locknut.",
            what=side_by_side(turned),
        )


def _least_safe(works: Sequence[CornerWork]) -> str:
    """Say how far the adjuster may lower a corner, where less than its thread is safe."""
    tables = (work.nut_table for work in works)
    found = [table.most_lowering for table in tables if table is not None]
    limits = [turns for turns in found if turns is not None]
    if not limits:
        return ""
    return f" Never lower it by more than {min(limits)} turn{'' if min(limits) == 1 else 's'}."


def _tightened(works: Sequence[CornerWork]) -> CornerStep:
    """Say that the arms' bushings are tightened; a pack need not say that there are any."""
    if all(work.setup.axle.bushing for work in works):
        return CornerStep(
            "Tighten the rubber bushings that turn with the arms now, at this height."
        )
    return only_if("rubber bushings turn with the arms", "tighten them now.")


def _checks(works: Sequence[CornerWork]) -> Iterator[CornerStep]:
    """Say what a change of height upsets, and what is looked at again."""
    if any(Caution.CLEARANCE in work.plan.cautions for work in works):
        yield CornerStep(
            "Check clearance at full lock and full bump: tyre, arch, hose, drive shaft."
        )
    if works[0].is_towed:
        yield CornerStep("Check that the trailer stands level. Check its brakes and its lamps.")
    else:
        yield CornerStep("Check headlamp aim, brake-load valve and wheel alignment.")
    rechecked = ", and recheck the wheel bolts" if _wheels_come_off(works) else ""
    yield CornerStep(f"Try it on the road. Measure again{rechecked}.")
