"""Which cautions concern the work of a plan."""

from __future__ import annotations

from collections.abc import Sequence

from barwright.analysis.corner.anchorage import TurnedPart, turned
from barwright.analysis.finding import Caution
from barwright.analysis.rates.ride_height import CornerState
from barwright.analysis.reindex.slack_at_droop import goes_slack
from barwright.parts.bar import Side
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.suspension import StrutMounting

__all__ = ["cautions_for", "job_cautions"]

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
_OF_ANY_ANCHOR = set[Caution]().union(*_OF_ANCHOR.values())


def cautions_for(setup: Setup, *, cuts: int) -> tuple[Caution, ...]:
    """List the cautions that concern the work on a corner, and no others.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    cuts : int
        Teeth to remove.

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
    if not isinstance(setup.axle.suspension, StrutMounting):
        left_out.add(Caution.GUIDE_MOUNT)
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
        Caution.SLACK_AT_DROOP: any(goes_slack(setup, droop=droop) for setup, droop in corners),
    }
    return tuple(caution for caution, concerns in found.items() if concerns)
