"""How the torque leaves a bar that is to be drawn: the way is chosen before anything is touched."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.assembly import Assembly
from barwright.analysis.unloading import Unloading, WayOut
from barwright.parts.setup import Setup
from barwright.report.adjustment import Words, place_text, words_for
from barwright.report.arm_words import damper_off, hose_freed, lifted, parted
from barwright.report.step import NO_WAY, Step
from barwright.report.step_words import doubt, residue
from barwright.units import Quantity, System

__all__ = ["UnloadingSteps"]


class UnloadingSteps:
    """Steps that unload the bar of one corner.

    Parameters
    ----------
    present : Setup
        The corner that the bar is drawn from.
    found : Unloading
        How it comes to carry no torque.
    tolerance : Quantity, optional
        What the tolerances of the parts' figures leave open of its free angle.
    system : {"metric", "inch"}
        Units of the lengths.
    """

    def __init__(
        self, present: Setup, found: Unloading, *, tolerance: Quantity | None, system: System
    ) -> None:
        self._present = present
        self._found = found
        self._on, self._off = found.damper_on, found.damper_off
        self._tolerance = tolerance
        self._system = system
        self._words = words_for(present)

    def refusal(self) -> Iterator[Step]:
        """Say what would be left in the bar, and that there is no safe way."""
        slack = f"the {self._words.what} at the slack end of its thread and " if self._words else ""
        yield Step(
            text=f"Do not touch the bar: with {slack}the damper off {residue(self._off)} would "
            "still be left in it.",
            refused=True,
        )
        yield NO_WAY

    def steps(self) -> Iterator[Step]:
        """Take the torque out of the bar, and prove it."""
        if self._found.way is WayOut.DAMPER_ON:
            yield Step(text=self._loose(self._on))
        else:
            yield from self._damper_off()
            parting = self._found.parting
            yield Step(text=parted(parting, self._present) if parting else self._loose(self._off))
        yield Step(text=self._proof())

    def _damper_off(self) -> Iterator[Step]:
        slack = (
            f"with the {self._words.what} at the slack end of its thread " if self._words else ""
        )
        yield Step(
            text=f"Do not draw the bar with the damper on: {slack}{residue(self._on)} would be "
            "left in it.",
            refused=True,
        )
        if self._words:
            yield Step(
                text=f"Turn the {self._words.what} to the slack end of its thread: "
                f"{place_text(self._on, self._present)}."
            )
        yield Step(text=hose_freed(self._present))
        yield Step(text=damper_off(self._present))

    def _loose(self, way: Assembly) -> str:
        """Say where the bar is loose."""
        if self._words is None:
            at = lifted(way, self._present, self._system)
            text = f"{at}: the bar is loose there alone."
        else:
            text = self._loose_by_turning(way, self._words)
        return text + doubt(way, self._tolerance)

    def _loose_by_turning(self, way: Assembly, words: Words) -> str:
        damper = "on" if way.damper_on else "off"
        held = f"With the damper {damper} and the arm hanging at its stop, the bar is now loose"
        if not way.damper_on:  # the nut is at its slack end already
            return f"{held}."
        if way.anywhere:
            return f"Slacken the {words.what}. {held}; it would be wherever the {words.what} stood."
        place = place_text(way, self._present)
        return f"Slacken the {words.what} to {place}, if it is not slacker already. {held}."

    def _proof(self) -> str:
        """Say how the bar is proved loose, and what is left to do if it binds."""
        if self._words is None:
            return (
                "Prove it: slide the bar a little by hand. If it binds, stop, and move the arm up "
                "or down until it does not."
            )
        return (
            "Prove it: turn the lever, and slide the bar a little, by hand. If it binds, do not "
            f"force it{self._if_it_binds(self._words)}"
        )

    def _if_it_binds(self, words: Words) -> str:
        if self._found.way is WayOut.DAMPER_ON:
            return (
                f": turn the {words.what} back to the slack end of its thread. If it binds there "
                "too, the damper comes off, and goes on again before the wheel. "
                f"{hose_freed(self._present)} {damper_off(self._present)}"
            )
        if self._found.way is WayOut.JOINT_PARTED:
            return ": let the arm down a little more."
        return (
            f", and stop: the {words.what} is slack and the damper off, and this sheet knows no "
            "further way."
        )
