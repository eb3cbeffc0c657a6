"""Which cautions concern the work of a plan."""

from __future__ import annotations

from barwright.analysis.anchorage import Turned, turned
from barwright.analysis.finding import Caution
from barwright.parts.setup import Setup
from barwright.parts.suspension import StrutMounting

__all__ = ["cautions_for"]

# Of the cautions that depend on what holds the anchor end, those that concern it.
_OF_ANCHOR: dict[Turned | None, set[Caution]] = {
    Turned.NUT: {
        *(Caution.PROVE_LOOSE, Caution.MARK_BOTH_SIDES),
        *(Caution.FULL_NUT, Caution.SPACER),
    },
    Turned.BOLT: {Caution.PROVE_LOOSE, Caution.MARK_KEY_LEVER, Caution.FULL_BOLT},
    None: {Caution.LIFT_UNTIL_LOOSE, Caution.MARK_SOCKET},
}
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
    left_out = _OF_ANY_ANCHOR - _OF_ANCHOR[turned(setup.adjuster)]
    left_out.add(Caution.AFTER_HEIGHT_CHANGE if is_towed else Caution.ON_ITS_COUPLING)
    if not cuts:
        left_out.add(Caution.FEWER_TEETH)
    if not isinstance(setup.axle.suspension, StrutMounting):
        left_out.add(Caution.GUIDE_MOUNT)
    if setup.adjuster is None or not setup.adjuster.spacer.magnitude:
        left_out.add(Caution.SPACER)
    return tuple(caution for caution in Caution if caution not in left_out)
