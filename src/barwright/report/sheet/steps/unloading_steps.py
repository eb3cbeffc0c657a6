"""How the torque leaves a bar that is to be drawn, in steps."""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.unloading import UnloadingMethod
from barwright.analysis.reindex.reindex import Reindex
from barwright.parts.setup import Setup
from barwright.parts.suspension import StrutMounting
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.steps.adjustment import AdjusterWords, slackened, words_for
from barwright.report.sheet.steps.arm_steps import damper_off, hose_freed, joint_parted, lifted
from barwright.report.sheet.steps.step import CornerStep, forbidden, only_if
from barwright.units import Quantity, shown

__all__ = ["refusal", "unloading_steps"]


def unloading_steps(work: CornerWork) -> tuple[CornerStep, ...]:
    """List the steps that take the torque out of a bar, and prove it.

    Parameters
    ----------
    work : CornerWork
        The work on its corner.

    Returns
    -------
    tuple of CornerStep
    """
    return tuple(_Unloading(work).steps())


def refusal(present: Setup, answer: Reindex) -> tuple[CornerStep, ...]:
    """Say what would be left in the bar where no safe way is known to unload it.

    Parameters
    ----------
    present : Setup
        The corner as it is now.
    answer : Reindex
        The answer to its wish.

    Returns
    -------
    tuple of CornerStep
        None where nothing, or something else, stands against the work.
    """
    found = answer.unloading
    if found is None or answer.verdict is not Verdict.NO_SAFE_WAY:
        return ()
    words, off = words_for(present), found.damper_off
    left = forbidden(
        "Do not touch the bar: with {slack}the damper off it still carries {held}.",
        slack=f"the {words.what} fully slackened and " if words else "",
        held=_held(off.residual_torque, off.residual_energy),
    )
    no_way = forbidden(
        "This sheet knows no safe way to take that torque out. Take nothing apart. Have the bar "
        "removed by a workshop that has the equipment for it.",
    )
    return left, no_way


class _Unloading:
    """Says how the bar of one corner is unloaded."""

    def __init__(self, work: CornerWork) -> None:
        self._present = work.present
        self._found = work.unloading
        self._loose_bar = work.loose_now
        self._words = words_for(work.present)
        self._has_strut = isinstance(work.present.axle.suspension, StrutMounting)

    def steps(self) -> Iterator[CornerStep]:
        found = self._found
        if found.way is UnloadingMethod.DAMPER_ON:
            yield from self._slackened()
            yield from self._loose(found.damper_on)
        else:
            yield self._why_the_damper()
            yield from self._slackened()
            yield from hose_freed(self._present)
            yield from damper_off(self._present, parts_joint=found.parting is not None)
            if found.parting:
                yield from joint_parted(found.parting, self._present)
            else:
                yield from self._loose(found.damper_off)
        yield self._proof()
        yield from self._if_it_binds()

    def _proof(self) -> CornerStep:
        if self._words:
            return CornerStep("Check that the bar is loose: waggle the lever both ways by hand.")
        return CornerStep("Check that the bar is loose: slide it a little by hand.")

    def _why_the_damper(self) -> CornerStep:
        """Say what the bar still has with the damper on: nothing else may be tried then."""
        on = self._found.damper_on
        if on.slides:
            return CornerStep(
                "With the damper on{slack}, the margin is only {spare} of arm angle, and the "
                "figures are uncertain by {open}: the damper comes off.",
                slack=f" and the {self._words.what} fully slackened" if self._words else "",
                spare=shown(on.unloading_reserve, 1),
                open=shown(on.unloading_reserve_uncertainty, 1),
            )
        torque = shown(on.residual_torque, 0)
        if self._words:
            return CornerStep(
                "Do not take the {what} off: at its slack end the bar still carries {torque}.",
                what=self._words.what,
                torque=torque,
            )
        return CornerStep(
            "With the damper on, the bar still carries {torque}: the damper comes off.",
            torque=torque,
        )

    def _slackened(self) -> Iterator[CornerStep]:
        if self._words:
            yield slackened(self._present, self._words, self._loose_bar)

    def _loose(self, way: Assembly) -> Iterator[CornerStep]:
        """Say where the bar carries no torque."""
        if self._words is None:
            yield lifted(way, self._loose_bar, self._present)
        elif way.damper_fitted:
            yield CornerStep("Let the arm hang as low as it goes.")

    def _if_it_binds(self) -> Iterator[CornerStep]:
        """Say what is left to do where the bar is still wound."""
        if self._words is None:
            yield only_if("it binds", "do not force it. Move the arm until the bar slides.")
        elif self._found.way is UnloadingMethod.JOINT_PARTED:
            yield only_if(_WOUND, "let the arm down a little more.")
        elif self._found.way is UnloadingMethod.DAMPER_ON and self._found.damper_helps:
            yield self._without_the_damper()
        else:
            what = self._words.what
            yield only_if(_WOUND, "refit all, set the {what} as noted, and stop.", what=what)

    def _without_the_damper(self) -> CornerStep:
        """Take the damper off where the bar is wound with it on."""
        further = (*hose_freed(self._present), *damper_off(self._present))
        return only_if(
            _WOUND,
            *(action for step in further for action in step.actions),
            "Check again. If it is still stiff, refit all, set the {what} as noted, and stop.",
            "Leave damper, hose and cables off until the bar is in. Refit them then{untied}.",
            what=cast("AdjusterWords", self._words).what,
            untied=", and untie the wheel carrier" if self._has_strut else "",
            **{name: said for step in further for name, said in step.figures.items()},
        )


_WOUND = "the lever is stiff"


def _held(torque: Quantity, energy: Quantity) -> str:
    return f"{shown(torque, 0)} ({shown(energy, 0)})"
