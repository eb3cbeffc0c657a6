"""Which cautions concern the work of a plan."""

from __future__ import annotations

from collections.abc import Sequence

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.slack_at_droop import goes_slack
from barwright.analysis.corner.anchorage import TurnedPart, turned
from barwright.analysis.finding import Caution
from barwright.analysis.rates.corner_state import CornerState
from barwright.parts.bar import Side
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.suspension import StrutMounting
from barwright.units import ANGLE, LENGTH, Quantity, si

__all__ = ["cautions_for", "job_cautions"]

_LOWERED = 5e-3
"""Drop [m] below standard height from which clearances are looked at: common practice, no
source; a tape reads no finer."""

# Of the cautions that depend on what holds the anchor end, those that concern it.
_OF_ANCHOR: dict[TurnedPart | None, set[Caution]] = {
    TurnedPart.NUT: {
        *(Caution.PROVE_LOOSE, Caution.MARK_BOTH_SIDES),
        *(Caution.FULL_NUT, Caution.SPACER),
    },
    TurnedPart.BOLT: {Caution.PROVE_LOOSE, Caution.MARK_KEY_LEVER, Caution.FULL_BOLT},
    None: {Caution.LIFT_UNTIL_LOOSE, Caution.MARK_SOCKET},
}
# Of all corners of a job together, or of how one stands once its plan is carried out.
_OF_JOB = {Caution.ONE_SIDE, Caution.SLACK_AT_DROOP, Caution.BOTH_SIDES_BY_TURNS}
_OF_DRAWN_BAR = {
    *(Caution.PROVE_LOOSE, Caution.LIFT_UNTIL_LOOSE, Caution.SCRAP_ON_NICKS),
    *(Caution.MARK_BOTH_SIDES, Caution.MARK_KEY_LEVER, Caution.MARK_SOCKET),
}
_OF_ANY_ANCHOR = set[Caution]().union(*_OF_ANCHOR.values())


def cautions_for(
    setup: Setup, *, verdict: Verdict, cuts: int, height: Quantity, bar_comes_out: bool
) -> tuple[Caution, ...]:
    """List the cautions that concern the work on a corner, and no others.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    verdict : Verdict
        What the plan comes to: where the bar is too weak, a coil might be thought of.
    cuts : int
        Teeth to remove.
    height : Quantity
        Hub to arch that results.
    bar_comes_out : bool
        Whether the bar is drawn.

    Returns
    -------
    tuple of Caution
        In the order in which they are read.
    """
    is_towed = setup.chassis.drive == "none"
    left_out = _OF_JOB | (_OF_ANY_ANCHOR - _OF_ANCHOR[turned(setup.adjuster)])
    left_out.add(Caution.AFTER_HEIGHT_CHANGE if is_towed else Caution.ON_ITS_COUPLING)
    if not cuts:
        left_out.add(Caution.FEWER_TEETH)
    if not bar_comes_out:
        left_out |= _OF_DRAWN_BAR
    has_strut = isinstance(setup.axle.suspension, StrutMounting)
    if not has_strut or verdict is not Verdict.OVERSTRESSED:
        left_out.add(Caution.GUIDE_MOUNT)
    if si(height, LENGTH) > si(setup.axle.standard_height, LENGTH) - _LOWERED:
        left_out.add(Caution.CLEARANCE)
    if setup.adjuster is None or not setup.adjuster.spacer.magnitude:
        left_out.add(Caution.SPACER)
    return tuple(caution for caution in Caution if caution not in left_out)


def job_cautions(corners: Sequence[tuple[Setup, CornerState]]) -> tuple[Caution, ...]:
    """List the cautions that concern the corners of a job together.

    Parameters
    ----------
    corners : sequence of (Setup, CornerState)
        The corners that are worked on, each with its state at full droop when all is done.

    Returns
    -------
    tuple of Caution
        That one side of an axle is left as it is, and that a bar goes slack, if any is.
    """
    sides: dict[AxlePlace, set[Side]] = {}
    for setup, _ in corners:
        sides.setdefault(setup.axle.place, set()).add(setup.side)
    found = {
        Caution.ONE_SIDE: any(len(both) == 1 for both in sides.values()),
        Caution.SLACK_AT_DROOP: any(
            goes_slack(setup, droop_twist=si(droop.twist, ANGLE)) for setup, droop in corners
        ),
    }
    return tuple(caution for caution, concerns in found.items() if concerns)
