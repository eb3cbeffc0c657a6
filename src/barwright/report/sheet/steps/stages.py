"""The stages of a job: what all corners share, and the work on each axle between."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import attrs

from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.common_steps import (
    steps_after,
    steps_before,
    steps_to_lift,
)
from barwright.report.sheet.steps.corner_steps import CornerSteps
from barwright.report.sheet.steps.step import (
    CornerStep,
    SheetStage,
    SheetStep,
    steps_together,
    together,
)

__all__ = ["stages"]


def stages(works: Sequence[CornerWork]) -> Iterator[SheetStage]:
    """List the stages of a job.

    Parameters
    ----------
    works : sequence of CornerWork
        Corners that are worked on.

    Yields
    ------
    SheetStage
        None where no corner is worked on.
    """
    if not works:
        return
    goes_on = any(work.unloads and not work.tries_the_bar_in for work in works)
    axles: dict[str, list[CornerWork]] = {}
    for work in works:
        axles.setdefault(work.setup.axle.place.value, []).append(work)
    corners = {
        f"{axle.capitalize()} axle: " if len(axles) > 1 else "": {
            work.setup.corner: CornerSteps(work, goes_on=goes_on) for work in its_works
        }
        for axle, its_works in axles.items()
    }
    lift = tuple(steps_to_lift(works))
    is_tried = any(steps.trial for axle in corners.values() for steps in axle.values())
    if is_tried:
        yield _common("Before you begin", steps_before(works))
        for where, axle in corners.items():
            trial = {name: steps.trial or steps.beside_trial for name, steps in axle.items()}
            if any(trial.values()):
                yield _stage(_titled(where, "Try it first"), steps_together(trial))
        if len(axles) > 1:
            # The work on either axle may be left out after its trial; to lift it may not.
            yield _common("Lift it again" if goes_on else "Only if a tooth must go: lift it", lift)
            lift = ()
    else:
        yield _common("Before you begin", (*steps_before(works), *lift))
        lift = ()
    for where, axle in corners.items():
        for title, steps in _axle(axle, is_tried=is_tried):
            if any(steps.values()):
                stage = _stage(_titled(where, title), steps_together(steps))
                yield _lifted(lift, stage, is_sure=goes_on)
                lift = ()
    yield _common("Back on its wheels", steps_after(works))


def _lifted(lift: Sequence[CornerStep], stage: SheetStage, *, is_sure: bool) -> SheetStage:
    """Lift the vehicle at the start of a stage, if it was set down after a trial."""
    if not lift:
        return stage
    first = _common("", lift).steps
    title = f"{stage.title[0].lower()}{stage.title[1:]}"
    title = stage.title if is_sure else f"Only if a tooth must go: {title}"
    return SheetStage(title=title, steps=(*first, *stage.steps))


def _axle(
    corners: Mapping[str, CornerSteps], *, is_tried: bool
) -> Iterator[tuple[str, dict[str, tuple[CornerStep, ...]]]]:
    """List the stages of one axle, each with the steps of its corners."""

    def left(name: str, steps: tuple[CornerStep, ...]) -> tuple[CornerStep, ...]:
        return () if is_tried and corners[name].beside_trial else steps

    yield "Take apart", {name: left(name, steps.take_apart) for name, steps in corners.items()}
    yield "The bar", {name: left(name, steps.bar) for name, steps in corners.items()}
    yield "Put together", {name: left(name, steps.put_together) for name, steps in corners.items()}


def _stage(title: str, steps: tuple[SheetStep, ...]) -> SheetStage:
    """Write a stage; what concerns one corner alone says so once."""
    (corners, *others) = {step.corners for step in steps}
    if others or not corners:
        return SheetStage(title=title, steps=steps)
    own = tuple(attrs.evolve(step, corners=()) for step in steps)
    return SheetStage(title=f"{title}, {' and '.join(corners)} only", steps=own)


def _titled(where: str, title: str) -> str:
    return f"{where}{title.lower()}" if where else title


def _common(title: str, steps: Iterable[CornerStep]) -> SheetStage:
    """Write a stage that all corners share."""
    return SheetStage(title=title, steps=tuple(together({"vehicle": step}) for step in steps))
