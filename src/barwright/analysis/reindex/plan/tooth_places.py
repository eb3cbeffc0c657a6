"""Where the teeth of a bar's end stand, as the viewer of its end work counts them."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.suspension import bump_sense_of
from barwright.analysis.reindex.plan.plan import EndWork, ToothDatum, TurningSense
from barwright.mechanics.spline import clocking
from barwright.parts.chassis import BarEndName
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.setup import Setup

__all__ = ["ToothPlaces", "place_on_key", "tooth_places"]


@attrs.frozen(kw_only=True)
class ToothPlaces:
    """Places round one end of a bar, clockwise as it is seen from what its work counts from.

    Parameters
    ----------
    missing_teeth : tuple of int
        Places that have no tooth before the work; 0 is the datum of the count.
    key_before : int, optional
        Tooth position that faces the key now; none if another bar, arm or anchor is fitted.
    """

    missing_teeth: tuple[int, ...]
    key_before: int | None


@checks_arguments
def tooth_places(setup: Setup, work: EndWork, *, present: Setup) -> ToothPlaces:
    """Find where the teeth of an end stand before the work on it.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    work : EndWork
        What a plan asks for at one end; it names the viewer.
    present : Setup
        The corner as it is now.

    Returns
    -------
    ToothPlaces
    """
    is_arm = work.end is BarEndName.ARM
    end = setup.bar.arm_end if is_arm else setup.bar.anchor_end
    right_handed = clockwise(1, seen_from=work.seen_from)
    start = _present_place(present, work) if work.tooth_datum is ToothDatum.PRESENT else 0
    missing = (right_handed * blank - start for blank in end.blanks)
    now, then = (s.arm if is_arm else s.anchor for s in (present, setup))
    key_before = None
    if setup.bar == present.bar and now == then:
        key_before = clocking.centred(_present_place(present, work) - start, teeth=end.teeth)
    return ToothPlaces(
        missing_teeth=tuple(sorted(clocking.centred(place, teeth=end.teeth) for place in missing)),
        key_before=key_before,
    )


def _present_place(present: Setup, work: EndWork) -> int:
    """Place that faces the key now, clockwise from tooth 0."""
    bumpward = present.arm_tooth if work.end is BarEndName.ARM else present.anchor_tooth
    sense = bump_sense_of(present.axle, present.side)
    return bumpward * clockwise(sense, seen_from=work.seen_from)


def clockwise(sense: int, *, seen_from: BarEndName) -> int:
    """Sign with which a turn about the bar axis is clockwise to a viewer."""
    seen = clocking.turning_sense(sense, from_arm_end=seen_from is BarEndName.ARM)
    return 1 if seen is TurningSense.CLOCKWISE else -1


def place_on_key(work: EndWork) -> int:
    """Return the place that comes to lie on the key, clockwise from what its work counts from.

    Parameters
    ----------
    work : EndWork
        What a plan asks for at one end.

    Returns
    -------
    int
    """
    return -work.tooth if work.direction is TurningSense.COUNTER_CLOCKWISE else work.tooth
