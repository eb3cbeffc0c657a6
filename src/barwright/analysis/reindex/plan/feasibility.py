"""Can a plan be carried out safely? Decided here once, for every command and sheet."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.slack_at_droop import unheld_lever
from barwright.analysis.assembly.unloading import (
    Unloading,
    UnloadingMethod,
    bar_is_drawn,
    can_be_put_in,
    must_be_unloaded,
)
from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.rates.bolt_load import BoltLoad, overloaded_bolt
from barwright.analysis.strength.overstress import Overstress
from barwright.parts.chassis import BarEndName
from barwright.units import TORQUE, quantity

__all__ = ["Work", "wound_up"]


@attrs.frozen(eq=False)
class Work:
    """The work on one corner, whichever plan is chosen.

    Parameters
    ----------
    corner : Corner
        The corner as it is to be.
    swapped : tuple of str
        Parts that are not those that are on the corner now.
    unloading : Unloading
        How the bar that is in comes out.
    """

    corner: Corner
    swapped: tuple[str, ...]
    unloading: Unloading

    def unloads(self, disturbed: Collection[BarEndName]) -> bool:
        """Whether the work needs a bar that carries no torque.

        Parameters
        ----------
        disturbed : collection of BarEndName
            Ends that change their tooth.

        Returns
        -------
        bool
        """
        return must_be_unloaded(self.swapped, disturbed=disturbed)

    def draws_bar(self, disturbed: Collection[BarEndName]) -> bool:
        """Whether the work draws the bar.

        Parameters
        ----------
        disturbed : collection of BarEndName
            Ends that change their tooth.

        Returns
        -------
        bool
        """
        return bar_is_drawn(self.swapped, disturbed=disturbed)

    @property
    def can_be_unloaded(self) -> bool:
        """Whether the bar that is in can be unloaded safely."""
        return self.unloading.way is not UnloadingMethod.NONE

    def judged(
        self,
        *,
        disturbed: Collection[BarEndName],
        fitting: Sequence[Assembly],
        droop_twist: float,
        strength: Overstress,
        bolt: BoltLoad | None,
    ) -> tuple[Verdict, tuple[Finding, ...]]:
        """Say whether a plan can be carried out within known limits, and why not.

        Parameters
        ----------
        disturbed : collection of BarEndName
            Ends that change their tooth.
        fitting : sequence of Assembly
            How the bar goes in, with the damper on and with it off.
        droop_twist : float
            Of the bar at full droop, with the plan carried out [rad].
        strength : Overstress
            Whether the bar is then overstressed.
        bolt : BoltLoad, optional
            What its adjuster's bolt then carries.

        Returns
        -------
        (Verdict, tuple of Finding)
            The first thing that forbids it, and all reasons; *can be reached* and none
            where nothing does.
        """
        reasons = [
            *(self._against_assembly(fitting) if self.unloads(disturbed) else ()),
            *beyond_limits(self.corner, droop_twist=droop_twist, strength=strength, bolt=bolt),
        ]
        verdict = reasons[0][0] if reasons else Verdict.REACHED
        return verdict, tuple(finding for _, finding in reasons)

    def _against_assembly(self, fitting: Sequence[Assembly]) -> Iterator[tuple[Verdict, Finding]]:
        if not can_be_put_in(fitting):
            yield Verdict.CANNOT_BE_ASSEMBLED, wound_up(fitting)
        for finding in self.unloading.findings:
            yield Verdict.NO_SAFE_WAY, finding


def beyond_limits(
    corner: Corner, *, droop_twist: float, strength: Overstress, bolt: BoltLoad | None
) -> Iterator[tuple[Verdict, Finding]]:
    """List why a corner must not be left in a state: its lever, its bar or its bolt.

    Parameters
    ----------
    corner : Corner
        The corner.
    droop_twist : float
        Of the bar at full droop [rad].
    strength : Overstress
        Whether the bar is overstressed.
    bolt : BoltLoad, optional
        What its adjuster's bolt then carries.

    Yields
    ------
    (Verdict, Finding)
    """
    for finding in unheld_lever(corner, droop_twist=droop_twist):
        yield Verdict.NOT_SAFE, finding
    for finding in strength.exceeded:
        yield Verdict.OVERSTRESSED, finding
    for finding in overloaded_bolt(corner, bolt):
        yield Verdict.NOT_SAFE, finding


def wound_up(fitting: Sequence[Assembly]) -> Finding:
    """Report that a bar does not go in by hand.

    Parameters
    ----------
    fitting : sequence of Assembly
        How it goes in, with the damper on and with it off.

    Returns
    -------
    Finding
    """
    least = min(fitting, key=lambda way: float(way.residual_energy.magnitude))
    what = least.turned
    where = f"wherever the {what.value} stands, the bar is" if what else "the bar is"
    return Finding(
        topic=Topic.ASSEMBLY,
        text=f"{where} still twisted with the arm at its stop and the damper off",
        figure=least.residual_torque,
        limit=quantity(0.0, TORQUE),
    )
