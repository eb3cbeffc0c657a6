"""The steps that all corners of a bench sheet share, before and after their own.

What they ask for is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from barwright.report.sheet.adjustment import words_for
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.step import SheetStep
from barwright.report.sheet.step_words import corrected
from barwright.units import shown

__all__ = ["steps_after", "steps_before"]


def steps_before(works: Sequence[CornerWork]) -> tuple[SheetStep, ...]:
    """List the steps that come before those of the corners; none where there is no work.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Returns
    -------
    tuple of SheetStep
    """
    return tuple(SheetStep(text=text) for text in _before(works)) if works else ()


def steps_after(works: Sequence[CornerWork]) -> tuple[SheetStep, ...]:
    """List the steps that come after those of all corners; none where there is no work.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Returns
    -------
    tuple of SheetStep
    """
    return tuple(SheetStep(text=text) for text in _after(works)) if works else ()


def _before(works: Sequence[CornerWork]) -> Iterator[str]:
    """Measure what the stands would change, and set the vehicle up."""
    is_towed = works[0].is_towed
    if is_towed:
        yield _coupled("Couple the trailer to a towing vehicle")
    yield (
        "Roll the vehicle back and forth and let it settle. With the wheels on the ground, weigh "
        "the load of each corner if scales are to hand."
    )
    yield _measured(works)
    if len({work.setup.axle.place for work in works}) > 1:
        yield (
            "Lift one axle at a time: finish both of its corners and set it down before the other "
            "axle is lifted."
        )
    tipping = ", its drawbar held so that it cannot tip" if is_towed else ""
    yield (
        f"Chock the wheels that stay down. Set the body on stands{tipping}, let both wheels of the "
        "axle hang, take them off."
    )
    if any(work.frees_arm for work in works):
        yield "Part the anti-roll bar's links, if there are any: they hold the arms."


def _coupled(verb: str) -> str:
    return f"{verb}, or hold its drawbar level at the height of its coupling."


def _measured(works: Sequence[CornerWork]) -> str:
    words = [words_for(work.present) for work in works]
    turned = dict.fromkeys(word.what for word in words if word is not None)
    places = "".join(f" and the {what}'s place" for what in turned)
    return f"Measure hub to arch{places} on both sides of the axle, and note all below."


def _after(works: Sequence[CornerWork]) -> Iterator[str]:
    """Set the vehicle down with the work on all corners done, measure once, correct, check."""
    is_towed = works[0].is_towed
    if any(work.frees_arm for work in works):
        yield (
            "Hold both arms of the axle at one height, and join the anti-roll bar's links again if "
            "they were parted."
        )
    yield "With the work on every corner done: wheels on, the vehicle on its wheels."
    if is_towed:
        yield _coupled("Couple the trailer again as it was measured before")
    yield "Roll the vehicle back and forth and let it settle."
    expected = ", ".join(f"{work.setup.corner} {shown(work.plan.height, 0)}" for work in works)
    yield f"Measure hub to arch on both sides of the axle. Expected: {expected}."
    yield from _corrections(works)
    yield _tightened(works)
    # What a change of height upsets is common practice, no source.
    yield (
        "Check that the trailer stands level, its brakes and its lamps; try it on the road; "
        "measure again."
        if is_towed
        else "Check headlamp aim, brake-load valve and alignment; test drive; measure again."
    )


def _corrections(works: Sequence[CornerWork]) -> Iterator[str]:
    """Say how heights are corrected: once where that is the same for all corners."""
    said: dict[str, list[str]] = {}
    for work in works:
        said.setdefault(corrected(work.plan), []).append(work.setup.corner)
    for text, corners in said.items():
        yield text if len(said) == 1 else f"{', '.join(corners).capitalize()}: {text}"
    if any(work.setup.adjuster for work in works):
        yield (
            "Correct both sides of the axle alternately, since each changes the other's load. "
            "Roll, settle and measure both sides after each correction."
        )


def _tightened(works: Sequence[CornerWork]) -> str:
    """Say that the arms' bushings are tightened; a pack need not say that there are any."""
    if all(work.setup.axle.bushing for work in works):
        return (
            "Tighten the rubber bushings that turn with the arms now, at ride height, not before."
        )
    return "If rubber bushings turn with the arms, tighten them now, at ride height, not before."
