"""Findings and cautions: what an answer says besides its figures."""

from __future__ import annotations

import enum
from typing import TypeAlias

import attrs

from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity, shown

__all__ = ["Caution", "Finding", "Limit", "Topic"]

Limit: TypeAlias = Quantity | int | str | None
"""A figure or a limit: with its unit, a count, or a word."""


class Topic(enum.Enum):
    """What a finding is about."""

    SWAPPED_ARM = "swapped arm"
    SWAPPED_ANCHOR = "swapped anchor"
    NEW_CAP_HOLES = "new cap holes"
    WRONG_SIDE = "made for the other side"
    ENGAGEMENT = "engagement"
    NO_OVERLAP = "no overlap"
    STOPS = "space between the stops"
    SPACE_BEHIND = "space behind the anchor"
    LEVER_OFF_BOLT = "lever off its bolt"
    TOOTH_COUNT = "tooth count"
    TOOTH_FORM = "tooth form"
    TOOTH_DEPTH = "depth of the teeth"
    WAY_IN = "the way in"
    NO_BLANK = "no blank for the key"
    SLACK = "slack at full droop"
    TRAVEL = "travel of the suspension"
    THREAD = "thread of the adjuster"
    CLOCKING = "clocking of a fixed socket"
    NUT_MARGIN = "turns left on the adjuster"
    LOAD = "load"
    BUSHING = "rubber of the arm"
    STRESS = "stress"
    ASSEMBLY = "assembly"
    PRESENT = "what is on the car now"
    MEASURED = "measured height"
    READINGS = "several readings of a corner"
    NOTHING_LEFT = "nothing left to choose"
    ODD_FIGURE = "a figure that disagrees"
    CUTS = "teeth to remove"
    BOTH_SIDES = "both sides of the axle"
    BALANCE = "balance of the vehicle"
    NEEDED = "figures that are needed"
    ASSUMED = "figures that are assumed"
    UNCERTAINTY = "figures that are not known well enough"


_SWAPS = frozenset({Topic.SWAPPED_ARM, Topic.SWAPPED_ANCHOR})


@attrs.frozen(kw_only=True, repr=False)
class Finding(Summarised):
    """One thing that a reader must know, with its figure and its limit.

    Parameters
    ----------
    topic : Topic
        What it is about.
    text : str
        The same in a sentence.
    figure, limit : Quantity, int, str or None
        What was found, and its limit.
    upper : Quantity, int, str or None
        Upper end, where the limit is a range.
    end : BarEndName, optional
        The end of the bar that it concerns.
    """

    topic: Topic
    text: str
    figure: Limit = None
    limit: Limit = None
    upper: Limit = None
    end: BarEndName | None = None

    def _in_short(self) -> str:
        """Summarise the finding by its line."""
        return self.line

    @property
    def line(self) -> str:
        """The finding with its end, its figure and its limit, for a reader."""
        if self.topic in _SWAPS:
            return f"{self.what} ({self.found})"
        if self.limit is None:
            return f"{self.what}: {self.found}" if self.found else self.what
        found = "" if self.figure is None else "found "
        return f"{self.what}; {found}{self.found}"

    @property
    def what(self) -> str:
        """The finding with its end."""
        return f"{self.text} ({self.end.value})" if self.end else self.text

    @property
    def found(self) -> str:
        """Its figure and its limit; empty where it has neither."""
        if self.topic in _SWAPS:
            return f"{self.figure} for {self.limit}"
        figure = "" if self.figure is None else _shown(self.figure)
        upper = "" if self.upper is None else f" to {_shown(self.upper)}"
        limit = "" if self.limit is None else f"limit {_shown(self.limit)}{upper}"
        return ", ".join(filter(None, (figure, limit)))


def _shown(value: Quantity | int | str) -> str:
    return str(value) if isinstance(value, int | str) else shown(value, 1)


class Caution(enum.Enum):
    """Cautions for work on springs under load, by name; :attr:`text` says them.

    Common practice of the trade, no source.
    """

    STORED_ENERGY = "stored energy"
    STANDS = "stands"
    PROVE_LOOSE = "prove loose"
    LIFT_UNTIL_LOOSE = "lift until loose"
    SLACK_AT_DROOP = "slack at droop"
    BRAKE_HOSE = "brake hose"
    MARK_BOTH_SIDES = "mark both sides"
    MARK_KEY_LEVER = "mark key lever"
    MARK_SOCKET = "mark socket"
    SCRAP_ON_NICKS = "scrap on nicks"
    FEWER_TEETH = "fewer teeth"
    GUIDE_MOUNT = "guide mount"
    FULL_NUT = "full nut"
    SPACER = "spacer"
    FULL_BOLT = "full bolt"
    CLEARANCE = "clearance"
    AFTER_HEIGHT_CHANGE = "after height change"
    ON_ITS_COUPLING = "on its coupling"
    ONE_SIDE = "one side"
    BOTH_SIDES_BY_TURNS = "both sides by turns"
    LAW_AND_JUDGEMENT = "law and judgement"

    @property
    def text(self) -> str:
        """The caution in words."""
        return _CAUTIONS[self]


_CAUTIONS = {
    Caution.STORED_ENERGY: ("A twisted bar can maim. Keep hands and face clear of arm and lever."),
    Caution.STANDS: ("Chock the wheels, set the body on stands. Never work under a jack alone."),
    Caution.PROVE_LOOSE: (
        "Slacken the adjuster first. Check by hand that the bar is loose before you pull it out."
    ),
    Caution.LIFT_UNTIL_LOOSE: (
        "In a fixed socket the bar is loose at one height of the arm only. Move the arm until the "
        "bar slides freely by hand. Pull nothing out before that."
    ),
    Caution.SLACK_AT_DROOP: (
        "If a bar goes slack before full droop, its lever may leave its seat. "
        "Each time the wheel has hung, check that seat before the wheel carries load."
    ),
    Caution.BRAKE_HOSE: "Let nothing hang from or pull on a brake hose or an electric cable.",
    Caution.MARK_BOTH_SIDES: (
        "Mark bar, arm and tube on both sides, and note the nut, before you dismantle."
    ),
    Caution.MARK_KEY_LEVER: (
        "Mark bar, arm and key lever on both sides, and note the bolt, before you dismantle."
    ),
    Caution.MARK_SOCKET: "Mark bar, arm and anchor socket on both sides before you dismantle.",
    Caution.SCRAP_ON_NICKS: "A bar with a nick, rust pit or stray grinding mark is scrap.",
    Caution.FEWER_TEETH: (
        "Each tooth removed weakens the spline. Remove only the tooth that is named."
    ),
    Caution.GUIDE_MOUNT: (
        "This strut's top mount only guides it and is not a spring seat. Fit no coil to it."
    ),
    Caution.FULL_NUT: "Keep the whole nut on the thread.",
    Caution.SPACER: "Never leave out the spacer to gain travel.",
    Caution.FULL_BOLT: (
        "The bolt's thread must reach all the way through the cross-member. Turn the bolt no "
        "further either way than this sheet allows."
    ),
    Caution.CLEARANCE: (
        "The vehicle stands lower than standard: check the clearance of tyre, arch, brake hose "
        "and any drive shaft."
    ),
    Caution.AFTER_HEIGHT_CHANGE: (
        "After a change of height, check headlamp aim, brake-load valve and wheel alignment."
    ),
    Caution.ON_ITS_COUPLING: (
        "After a change of height, check the trailer's level on its coupling, its brakes and its "
        "lamps."
    ),
    Caution.ONE_SIDE: (
        "This job works on one side, but the bars of an axle belong together. Is the other side "
        "right? Check that it has the same parts and clocking, and compare both sides' height "
        "and corner load afterwards."
    ),
    Caution.BOTH_SIDES_BY_TURNS: (
        "Correct both sides of the axle in turn: each changes the load of the other, also through "
        "an anti-roll bar. Measure both sides after each correction."
    ),
    Caution.LAW_AND_JUDGEMENT: (
        "Local law and the judgement of a licensed workshop come before this sheet."
    ),
}
