"""Work of a plan at each end of the bar: which tooth, which blank, what to cut."""

from __future__ import annotations

import math

from barwright.analysis.corner.corner import Corner, radians
from barwright.analysis.reindex.plan.plan import BlankTooth, EndAction, EndWork, ToothDatum
from barwright.mechanics.spline import clocking
from barwright.mechanics.spline.clocking import TurningSense
from barwright.mechanics.spline.clocking_search import Choice, ClockedEnd
from barwright.mechanics.spline.factors import missing_tooth_factor
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import Socket
from barwright.units import ANGLE, Quantity, is_unknown, quantity, unknown

__all__ = [
    "clocked_ends",
    "disturbed_ends",
    "end_action",
    "end_work",
    "from_present",
    "seen",
    "tooth_datum",
]


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

    Raises
    ------
    NeedsError
        N301 for the angle between two teeth that somebody must mark first, on a bar that is
        not in and does not show what its teeth are counted from.
    """
    setup, sense = corner.setup, corner.sense
    stays = setup.bar == present.bar
    if not stays and not all(
        end.shows_its_count for end in (setup.bar.arm_end, setup.bar.anchor_end)
    ):
        _ = radians(setup.bar.blank_angle)  # that there is nothing to count from is told
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
    corner: Corner, ends: tuple[ClockedEnd, ClockedEnd], choice: Choice, *, present: Setup
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
    present : Setup
        The corner as it is now; of an end with neither blank nor mark, with the same bar.

    Returns
    -------
    tuple of EndWork
        Arm end, anchor end.
    """
    teeth = (choice.arm_tooth, choice.anchor_tooth)
    return tuple(
        _work(corner, end, clocked, tooth, present)
        for end, clocked, tooth in zip(BarEndName, ends, teeth, strict=True)
    )


def _work(
    corner: Corner, end: BarEndName, bar_end: ClockedEnd, tooth: int, present: Setup
) -> EndWork:
    action = end_action(bar_end, tooth)
    socket, datum = _socket(corner.setup, end), tooth_datum(corner.setup, end)
    is_painted = datum is ToothDatum.PRESENT
    counted = from_present(present, end, tooth) if is_painted else tooth
    # Only where no key and no paint on the socket shows the place does its angle count.
    is_shown = action is not EndAction.NO_KEY or (is_painted and bar_end.in_place)
    key, key_direction = _turn(
        corner, end, None if is_shown and is_unknown(socket.key_angle) else socket.key_angle
    )
    is_moved = is_painted and not bar_end.in_place
    start, start_direction = _turn(
        corner, end, _socket(present, end).key_angle if is_moved else None
    )
    return EndWork(
        end=end,
        action=action,
        tooth=abs(counted),
        direction=seen(corner, counted, end) if counted else None,
        seen_from=end,
        on_key=_blank(action, bar_end, tooth),
        key_may_be_cleared=action is EndAction.REMOVE_TOOTH and socket.keyed,
        blank_count=len(bar_end.blanks) + (action is EndAction.REMOVE_TOOTH),
        missing_tooth_factor=_factor(bar_end, tooth),
        key_angle=unknown() if key is None else key,
        key_direction=key_direction,
        tooth_datum=datum,
        datum_angle=start,
        datum_direction=start_direction,
    )


def _socket(setup: Setup, end: BarEndName) -> Socket:
    return setup.arm.socket if end is BarEndName.ARM else setup.anchor.socket


def _turn(
    corner: Corner, end: BarEndName, angle: Quantity | None
) -> tuple[Quantity | None, TurningSense | None]:
    """Return an angle the short way round, and in which sense it is seen from an end."""
    if angle is None:
        return None, None
    turned = math.remainder(radians(angle), math.tau)
    return quantity(abs(turned), ANGLE), seen(corner, turned, end)


def tooth_datum(setup: Setup, end: BarEndName) -> ToothDatum:
    """Say what the teeth of an end of a corner's bar are counted from.

    Parameters
    ----------
    setup : Setup
        The corner.
    end : BarEndName
        Which end of its bar.

    Returns
    -------
    ToothDatum
    """
    bar_end = setup.bar.arm_end if end is BarEndName.ARM else setup.bar.anchor_end
    if bar_end.has_makers_blank:
        return ToothDatum.BLANK
    return ToothDatum.PRESENT if bar_end.mark is None else ToothDatum.MARK


def from_present(present: Setup, end: BarEndName, tooth: int) -> int:
    """Count a tooth from the one that faces the key's place now.

    Parameters
    ----------
    present : Setup
        The corner as it is now, with the same bar.
    end : BarEndName
        Which end of its bar.
    tooth : int
        In the bump sense.

    Returns
    -------
    int
        In the bump sense, the short way round.
    """
    is_arm = end is BarEndName.ARM
    now = present.arm_tooth if is_arm else present.anchor_tooth
    teeth = present.bar.arm_end.teeth if is_arm else present.bar.anchor_end.teeth
    return clocking.centred(tooth - now, teeth=teeth)


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
