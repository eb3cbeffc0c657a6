"""A clocking: which teeth go on the keys and where the nut goes, without what it takes to do it."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.anchorage import BoltDatum, TurnedPart
from barwright.analysis.reindex.plan.plan import EndAction, ToothDatum, TurningSense, work_in_short
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["Clocking", "EndClocking"]


@attrs.frozen(kw_only=True, repr=False)
class EndClocking(Summarised):
    """Which tooth of one end of the bar goes on the key.

    Parameters
    ----------
    end : BarEndName
        Which end of the bar.
    action : EndAction
        What to do there.
    tooth : int
        Tooth that comes to lie on the key, counted from the datum; 0 for the datum itself.
    direction : TurningSense, optional
        In which it is counted; none for the datum itself.
    seen_from : BarEndName
        End from which that is seen, looking along the bar toward the other end.
    tooth_datum : ToothDatum
        What it is counted from: the tooth on the key now; where the bar is not in this
        socket, the maker's blank or the tooth that the maker marked.
    cuts : int
        Teeth to remove at this end, a cleared key counted too.
    """

    end: BarEndName
    action: EndAction
    tooth: int
    direction: TurningSense | None
    seen_from: BarEndName
    tooth_datum: ToothDatum
    cuts: int


@attrs.frozen(kw_only=True, repr=False)
class Clocking(Summarised):
    """One way to clock the bar and to set the nut; how the bar comes out safely is not known.

    Parameters
    ----------
    turned_part : TurnedPart
        What is turned at the adjuster.
    bolt_datum : BoltDatum
        What distances along its bolt are measured from.
    ends : tuple of EndClocking
        The arm end and the anchor end.
    cuts : int
        Teeth to remove.
    disturbed : tuple of BarEndName
        Ends that change their tooth.
    arm_tooth, anchor_tooth : int
        Teeth on the keys, in the bump sense from the maker's blank.
    rotation : Quantity
        What the free angle turns by with the teeth alone, positive in the bump sense.
    nut_turns : Quantity
        Of the nut from the middle of its thread, clockwise positive, to a flat; of a bolt
        that is itself turned, the same.
    pin_distance : Quantity
        The same, measured: from the bolt's pivot or head to the lever's pin, or from the
        cross-member to the bolt's end.
    pin_uncertainty : Quantity
        What stands behind its ±: expanded uncertainty, about 95 %, by the tolerances of
        the readings and of the parts' figures.
    pin_rounding : Quantity
        How far it may lie from the exact place since the nut is set to a flat.
    nut_sense : TurningSense, optional
        Sense of the turns from the middle, seen from the bolt's free end, or from the head
        of a bolt that is itself turned; none for the middle.
    turns_left_clockwise, turns_left_counter_clockwise : Quantity
        What the thread then leaves either way.
    thread_reserve : Quantity
        The smaller of the two, in whole flats.
    raising_sense : TurningSense
        Sense that raises the car, seen from the same end.
    height_per_turn : Quantity, optional
        Rise of the car for a turn in the raising sense; none where that is not known.
    """

    turned_part: TurnedPart
    bolt_datum: BoltDatum
    ends: tuple[EndClocking, ...]
    cuts: int
    disturbed: tuple[BarEndName, ...]
    arm_tooth: int
    anchor_tooth: int
    rotation: Quantity
    nut_turns: Quantity
    pin_distance: Quantity
    pin_uncertainty: Quantity
    pin_rounding: Quantity
    nut_sense: TurningSense | None
    turns_left_clockwise: Quantity
    turns_left_counter_clockwise: Quantity
    thread_reserve: Quantity
    raising_sense: TurningSense
    height_per_turn: Quantity | None

    def _in_short(self) -> str:
        """Tell it by what to do."""
        return self.summary

    @property
    def summary(self) -> str:
        """The work and the place of the nut, in two sentences."""
        work = work_in_short(self.ends, self.disturbed)
        place, unit = shown(self.pin_distance, 1).split(" ")
        open_by = shown(self.pin_left_open, 1).removesuffix(f" {unit}")
        at = f"{place} ± {open_by} {unit} from the {self.bolt_datum.value}"
        return f"{work[0].upper()}{work[1:]}. Set the {self.turned_part.value} at {at}."

    @property
    def pin_left_open(self) -> Quantity:
        """What stands behind the ± of the pin's place: the figures, or the flat if more."""
        return max(self.pin_uncertainty, self.pin_rounding, key=_metres)


def _metres(length: Quantity) -> float:
    return si(length, LENGTH)
