"""How the torque leaves a bar that is to be drawn, in steps."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.answer import Verdict
from barwright.analysis.reindex.assembly import Assembly
from barwright.analysis.reindex.reindex import Reindex
from barwright.analysis.reindex.unloading import UnloadingMethod
from barwright.parts.setup import Setup
from barwright.report.sheet.adjustment import slackened, words_for
from barwright.report.sheet.arm_words import damper_off, hose_freed, lifted, parting_texts
from barwright.report.sheet.corner_work import CornerWork
from barwright.report.sheet.step import NO_WAY, SheetStep
from barwright.units import Quantity, shown

__all__ = ["refusal", "unloading_steps"]


def unloading_steps(work: CornerWork) -> tuple[SheetStep, ...]:
    """List the steps that take the torque out of a bar, and prove it.

    Parameters
    ----------
    work : CornerWork
        The work on its corner.

    Returns
    -------
    tuple of SheetStep
    """
    return tuple(SheetStep(text=text) for text in _Unloading(work).texts())


def refusal(present: Setup, answer: Reindex) -> tuple[SheetStep, ...]:
    """Say what would be left in the bar where no safe way is known to unload it.

    Parameters
    ----------
    present : Setup
        The corner as it is now.
    answer : Reindex
        The answer to its wish.

    Returns
    -------
    tuple of SheetStep
        None where nothing, or something else, stands against the work.
    """
    found = answer.unloading
    if found is None or answer.verdict is not Verdict.NO_SAFE_WAY:
        return ()
    words, off = words_for(present), found.damper_off
    slack = f"the {words.what} right back and " if words else ""
    held = _held(off.residual_torque, off.residual_energy)
    left = SheetStep(
        text=f"Do not touch the bar: with {slack}the damper off it still holds {held}.",
        refused=True,
    )
    return left, NO_WAY


class _Unloading:
    """Says how the bar of one corner is unloaded."""

    def __init__(self, work: CornerWork) -> None:
        self._present = work.present
        self._found = work.unloading
        self._loose_bar = work.loose_now
        self._words = words_for(work.present)

    @property
    def _slack(self) -> str:
        return f"with the {self._words.what} right back" if self._words else "with it on"

    def texts(self) -> Iterator[str]:
        found = self._found
        if found.way is UnloadingMethod.DAMPER_ON:
            yield from self._slackened()
            yield self._loose(found.damper_on)
        else:
            yield self._why_the_damper()
            yield from self._slackened()
            yield hose_freed(self._present)
            yield damper_off(self._present)
            if found.parting:
                yield from parting_texts(found.parting, self._present)
            else:
                yield self._loose(found.damper_off)
        lever = "turn the lever and " if self._words else ""
        yield f"Prove it: {lever}slide the bar a little, by hand."
        yield f"Only if it binds: do not force it. {self._if_it_binds()}"

    def _why_the_damper(self) -> str:
        on = self._found.damper_on
        if on.slides:
            spare, left_open = on.unloading_reserve, on.unloading_reserve_uncertainty
            return (
                f"The damper comes off first: {self._slack} only {shown(spare, 1)} of the "
                f"arm's turn is to spare, and the figures leave {shown(left_open, 1)} open."
            )
        held = _held(on.residual_torque, on.residual_energy)
        return f"The damper comes off first: {self._slack} the bar still holds {held}."

    def _slackened(self) -> Iterator[str]:
        if self._words:
            yield slackened(self._words, self._loose_bar)

    def _loose(self, way: Assembly) -> str:
        """Say where the bar carries no torque."""
        if self._words is None:
            at = lifted(way, self._loose_bar, self._present)
            return f"{at}. The bar carries no torque only there."
        damper = "on" if way.damper_fitted else "off"
        return (
            f"With the damper {damper} and the arm hanging at its stop, the bar now carries no "
            "torque."
        )

    def _if_it_binds(self) -> str:
        """Say what is left to do."""
        if self._words is None:
            return "Move the arm up or down until the bar slides."
        if self._found.way is UnloadingMethod.JOINT_PARTED:
            return "Let the arm down a little more."
        if self._found.way is UnloadingMethod.DAMPER_ON and self._found.damper_helps:
            return (
                f"{hose_freed(self._present)} {damper_off(self._present)} Prove it again. Refit "
                "the damper before the wheel."
            )
        return "Leave the bar in and stop: no further safe way is known."


def _held(torque: Quantity, energy: Quantity) -> str:
    return f"{shown(torque, 0)} ({shown(energy, 0)})"
