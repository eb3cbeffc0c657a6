"""Work of a plan at each end of the bar: which tooth, which blank, what to cut."""

from __future__ import annotations

import math

from barwright.analysis.corner.corner import Corner, radians
from barwright.analysis.reindex.plan import BlankTooth, EndAction, EndWork
from barwright.mechanics.spline import clocking
from barwright.mechanics.spline.clocking import TurningSense
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd
from barwright.mechanics.spline.factors import missing_tooth_factor
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import Socket
from barwright.units import ANGLE, is_unknown, quantity, unknown

__all__ = ["clocked_ends", "disturbed_ends", "end_action", "end_work", "seen"]


def clocked_ends(corner: Corner, *, present: Setup) -> tuple[ClockedEnd, ClockedEnd]:
    """Describe the bar's two ends as they are now.

    Parameters
    ----------
    corner : Corner
        The corner as it is to be.
    present : Setup
        The corner as it is now; an end whose socket or bar changes is not in place,
        whatever tooth it is on.

    Returns
    -------
    (ClockedEnd, ClockedEnd)
        Arm end, anchor end.
    """
    setup, sense = corner.setup, corner.sense
    stays = setup.bar == present.bar
    arm, anchor = (
        ClockedEnd(
            teeth=end.teeth,
            current=clocking.centred(current, teeth=end.teeth),
            blanks=frozenset(clocking.centred(sense * b, teeth=end.teeth) for b in end.blanks),
            keyed=socket.keyed,
            in_place=stays and in_place,
        )
        for end, socket, current, in_place in (
            (setup.bar.arm_end, setup.arm.socket, setup.arm_tooth, setup.arm == present.arm),
            (
                *(setup.bar.anchor_end, setup.anchor.socket),
                *(setup.anchor_tooth, setup.anchor == present.anchor),
            ),
        )
    )
    return arm, anchor


def disturbed_ends(choice: Choice) -> tuple[BarEndName, ...]:
    """Name the ends that change their tooth.

    Parameters
    ----------
    choice : Choice
        The teeth.

    Returns
    -------
    tuple of BarEndName
    """
    return tuple(end for end in BarEndName if _SHORT[end] in choice.disturbed)


_SHORT = {BarEndName.ARM: "arm", BarEndName.ANCHOR: "anchor"}


def end_work(
    corner: Corner, ends: tuple[ClockedEnd, ClockedEnd], choice: Choice
) -> tuple[EndWork, ...]:
    """Describe the work that a choice of teeth needs at both ends.

    Parameters
    ----------
    corner : Corner
        The corner.
    ends : (ClockedEnd, ClockedEnd)
        Its bar's ends as they are now.
    choice : Choice
        The teeth.

    Returns
    -------
    tuple of EndWork
        Arm end, anchor end.
    """
    setup = corner.setup
    return (
        _work(corner, BarEndName.ARM, ends[0], choice.arm_tooth, setup.arm.socket),
        _work(corner, BarEndName.ANCHOR, ends[1], choice.anchor_tooth, setup.anchor.socket),
    )


def _work(
    corner: Corner, end: BarEndName, bar_end: ClockedEnd, tooth: int, socket: Socket
) -> EndWork:
    action = end_action(bar_end, tooth)
    # Only where no key shows the place does its angle count.
    is_spared = is_unknown(socket.key_angle) and action is not EndAction.NO_KEY
    key = None if is_spared else math.remainder(radians(socket.key_angle), math.tau)
    return EndWork(
        end=end,
        action=action,
        tooth=abs(tooth),
        direction=seen(corner, tooth, end) if tooth else None,
        seen_from=end,
        on_key=_blank(action, bar_end, tooth),
        key_may_be_cleared=action is EndAction.REMOVE_TOOTH and socket.keyed,
        blank_count=len(bar_end.blanks) + (action is EndAction.REMOVE_TOOTH),
        missing_tooth_factor=_factor(bar_end, tooth),
        key_angle=unknown() if key is None else quantity(abs(key), ANGLE),
        key_direction=None if key is None else seen(corner, key, end),
    )


def _factor(bar_end: ClockedEnd, tooth: int) -> float | None:
    """Load of the most loaded tooth with the blanks and the tooth on the key missing."""
    missing = bar_end.blanks | ({tooth} if bar_end.keyed else set())
    factor = missing_tooth_factor(teeth=bar_end.teeth, missing=missing)
    return factor if math.isfinite(factor) else None


def seen(corner: Corner, bumpward: float, end: BarEndName) -> TurningSense:
    """Sense of a turn, positive in the bump sense, as seen from one end.

    Parameters
    ----------
    corner : Corner
        The corner.
    bumpward : float
        The turn; its sign alone counts.
    end : BarEndName
        Where the viewer stands.

    Returns
    -------
    TurningSense
    """
    sense = corner.sense if bumpward > 0 else -corner.sense
    return clocking.turning_sense(sense, from_arm_end=end is BarEndName.ARM)


def end_action(bar_end: ClockedEnd, tooth: int) -> EndAction:
    """Say what is done at an end.

    Parameters
    ----------
    bar_end : ClockedEnd
        The end as it is now.
    tooth : int
        Tooth that comes to lie on the key.

    Returns
    -------
    EndAction
    """
    if tooth == bar_end.current and bar_end.in_place:
        return EndAction.STAYS
    if not bar_end.keyed:
        return EndAction.NO_KEY
    return EndAction.BLANK_ON_KEY if tooth in bar_end.blanks else EndAction.REMOVE_TOOTH


def _blank(action: EndAction, bar_end: ClockedEnd, tooth: int) -> BlankTooth:
    if not bar_end.keyed:
        return BlankTooth.NONE
    if action is EndAction.REMOVE_TOOTH:
        return BlankTooth.NEW
    if tooth == 0:
        return BlankTooth.MAKERS
    return BlankTooth.EARLIER if tooth in bar_end.blanks else BlankTooth.NONE
