"""A plan: one way to clock the bar, in a mechanic's words."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Iterator, Sequence
from typing import Protocol

import attrs

from barwright.analysis.answer import Verdict
from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.corner.anchorage import BoltDatum
from barwright.analysis.finding import Caution, Finding
from barwright.analysis.rates.corner_state import CornerState
from barwright.mechanics.spline.clocking import TurningSense
from barwright.parts.chassis import BarEndName
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.units import LENGTH, Quantity, shown, si
from barwright.units.nothing import is_nothing

__all__ = [
    "BlankTooth",
    "EndAction",
    "EndWork",
    "Plan",
    "PlanCost",
    "PlannedCorner",
    "ToothDatum",
    "TurningSense",
    "work_in_short",
]


class EndAction(enum.Enum):
    """Work of a plan at one end of the bar."""

    STAYS = "leave this end on the tooth it is on"
    BLANK_ON_KEY = "put an existing blank on the key"
    REMOVE_TOOTH = "remove a tooth of the bar"
    NO_KEY = "this socket has no key: any tooth goes where the key would be"


class BlankTooth(enum.Enum):
    """Blank of an end that goes on the key."""

    MAKERS = "the maker's blank"
    EARLIER = "the blank cut earlier"
    NEW = "the new blank"
    NONE = "none"


class ToothDatum(enum.Enum):
    """What the teeth of a bar's end are counted from."""

    PRESENT = "the tooth that is on the key now"
    BLANK = "the maker's blank"
    MARK = "the marked tooth"


@attrs.frozen(kw_only=True, repr=False)
class EndWork(Summarised):
    """Work of a plan at one end, in words that a mechanic can follow.

    Parameters
    ----------
    end : BarEndName
        Which end of the bar.
    action : EndAction
        What to do there.
    tooth : int
        Tooth that will lie on the key, counted from the datum, which is the maker's blank if
        the end has one; 0 is the datum itself.
    direction : TurningSense, optional
        In which it is counted; none for the datum itself.
    seen_from : BarEndName
        End from which the viewer looks along the bar toward the other end.
    on_key : BlankTooth
        Which blank goes on the key.
    key_may_be_cleared : bool
        Whether clearing the socket's key would do instead of removing the tooth.
    blank_count : int
        Blanks that this end of the bar then has.
    missing_tooth_factor : float, optional
        Load of the end's most loaded tooth over the even share, with the plan carried out:
        what its gaps cost, to compare the ends by.  None where the teeth that are left
        balance no torque.
    key_angle : Quantity
        From the centreline of the arm or of the lever to the key, or to where it
        would be; unknown where nobody knows it and a key shows the place.
    key_direction : TurningSense, optional
        In which that is turned, seen from the same end; none where the angle is unknown.
    tooth_datum : ToothDatum
        What the tooth is counted from. An end with neither blank nor mark is counted from
        the tooth that faces the key's place now, which is painted before the bar comes out.
    datum_angle : Quantity, optional
        From the centreline of the arm or lever that comes off to the tooth to paint; none
        where that part stays, so that any tooth will do, painted with the socket beside it.
    datum_direction : TurningSense, optional
        In which that is turned, seen from the same end.
    """

    end: BarEndName
    action: EndAction
    tooth: int
    direction: TurningSense | None
    seen_from: BarEndName
    on_key: BlankTooth
    key_may_be_cleared: bool
    blank_count: int
    missing_tooth_factor: float | None
    key_angle: Quantity
    key_direction: TurningSense | None
    tooth_datum: ToothDatum = ToothDatum.BLANK
    datum_angle: Quantity | None = None
    datum_direction: TurningSense | None = None


@attrs.frozen(kw_only=True, repr=False)
class PlannedCorner(Summarised):
    """The corner that a plan is for.

    Parameters
    ----------
    chassis_id : str
        Its vehicle.
    corner : str
        Axle and side, as in "front left".
    part_ids : tuple of str
        Arm, bar and anchor, and the adjuster where there is one.
    arm_teeth, anchor_teeth : int
        Tooth counts of the bar's ends.
    """

    chassis_id: str
    corner: str
    part_ids: tuple[str, ...]
    arm_teeth: int
    anchor_teeth: int

    @classmethod
    def of(cls, setup: Setup) -> PlannedCorner:
        """Name the corner of a setup."""
        return cls(
            chassis_id=setup.chassis.id,
            corner=setup.corner,
            part_ids=tuple(part.id for kind, part in setup.parts.items() if kind != "damper"),
            arm_teeth=setup.bar.arm_end.teeth,
            anchor_teeth=setup.bar.anchor_end.teeth,
        )

    def __str__(self) -> str:
        """Vehicle, corner, parts and tooth counts."""
        teeth = f"{self.arm_teeth} and {self.anchor_teeth} teeth"
        return f"{self.chassis_id} {self.corner}, {', '.join(self.part_ids)}, {teeth}"


@attrs.frozen(kw_only=True, repr=False)
class PlanCost(Summarised):
    """Cost of a plan against the first of its list.

    Parameters
    ----------
    teeth, ends : int
        Teeth to remove and ends disturbed, more than there; negative if fewer.
    thread_reserve : Quantity, optional
        Turns left on the shorter side of the thread, more than there; none with a fixed
        socket.
    """

    teeth: int
    ends: int
    thread_reserve: Quantity | None


@attrs.frozen(kw_only=True, repr=False)
class Plan(Summarised):
    """One way to clock the bar.

    Parameters
    ----------
    made_for : PlannedCorner
        The corner with the parts whose teeth and turns it counts.
    verdict : Verdict
        Can be reached; or why it must not be carried out: cannot be assembled, no safe
        way known, overstressed, not safe.
    ends : tuple of EndWork
        Work at the arm end and at the anchor end.
    cuts : int
        Teeth to remove.
    disturbed : tuple of BarEndName
        Ends that change their tooth.
    arm_tooth, anchor_tooth : int
        Teeth on the keys, in the bump sense from the maker's blank.
    nut_turns : Quantity, optional
        Of the nut from the middle of its thread, clockwise positive, to a flat; of a
        bolt that is itself turned, the same.  With a fixed socket, this and what
        follows from it is none.
    pin_distance : Quantity, optional
        The same, measured: from the bolt's pivot or head to the lever's pin, or from
        the cross-member to the bolt's end.
    nut_sense : TurningSense, optional
        Sense of that turn, seen from the bolt's free end, or from the head of a bolt
        that is itself turned; none for the middle.
    turns_left_clockwise, turns_left_counter_clockwise : Quantity, optional
        What the thread then leaves either way.
    thread_reserve : Quantity, optional
        The smaller of the two, in whole flats.
    raising_sense : TurningSense, optional
        Sense that raises the car, seen from the same end.
    height : Quantity
        Hub to arch that results.
    height_rounding : Quantity
        How far the height may lie from the wish since the nut is set to a flat; with a
        fixed socket, how far the clocking misses it.
    height_uncertainty : Quantity
        What stands behind its ±, to be made up with the nut where there is one: expanded
        uncertainty, about 95 %, by the tolerances of the parts' figures.
    height_per_turn : Quantity, optional
        Rise of the car for a turn in the raising sense.
    droop, bump : CornerState
        The corner at full droop and at full bump.
    droop_left, bump_left : Quantity
        Travel of the hub that is left from there down to full droop, and up to full bump.
    fitting : tuple of Assembly
        How the bar goes in, with the damper on and with it off.
    findings : tuple of Finding
        What must be known; why it must not be carried out.
    cautions : tuple of Caution
        For the work on the bench.
    cost : PlanCost, optional
        What it costs against the first plan; none for that one.
    bolt_datum : BoltDatum, optional
        What ``pin_distance`` is measured from.
    """

    made_for: PlannedCorner
    verdict: Verdict
    ends: tuple[EndWork, ...]
    cuts: int
    disturbed: tuple[BarEndName, ...]
    arm_tooth: int
    anchor_tooth: int
    nut_turns: Quantity | None
    pin_distance: Quantity | None
    nut_sense: TurningSense | None
    turns_left_clockwise: Quantity | None
    turns_left_counter_clockwise: Quantity | None
    thread_reserve: Quantity | None
    raising_sense: TurningSense | None
    height: Quantity
    height_rounding: Quantity
    height_uncertainty: Quantity
    height_per_turn: Quantity | None
    droop: CornerState
    bump: CornerState
    droop_left: Quantity
    bump_left: Quantity
    fitting: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    cautions: tuple[Caution, ...]
    cost: PlanCost | None = None
    bolt_datum: BoltDatum | None = None

    def _in_short(self) -> str:
        """Summarise the plan by its work and its result."""
        return self.summary

    @property
    def summary(self) -> str:
        """The work and its result, in two or three sentences."""
        work = f"{self.work[0].upper()}{self.work[1:]}."
        return " ".join([work, *_set(self), _stands(self)])

    @property
    def work(self) -> str:
        """Work on the bar, in a few words."""
        return work_in_short(self.ends, self.disturbed)

    @property
    def height_in_words(self) -> str:
        """The height that results, with its ± where one is known."""
        height, left_open = shown(self.height, 0), self.height_left_open
        if is_nothing(left_open, digits=0):
            return height
        return f"{height.split(' ')[0]} ± {shown(left_open, 0)}"

    @property
    def set_in_words(self) -> str:
        """Where the adjuster is set, in a sentence; empty where nothing is turned."""
        return " ".join(_set(self))

    @property
    def place_in_words(self) -> str:
        """The same without a verb."""
        return self.set_in_words.removeprefix("Set the ").removesuffix(".")

    @property
    def briefly(self) -> str:
        """The work and its result in short, to end a sentence on what is tried before."""
        place, _, _ = self.place_in_words.partition(" from ")
        work = ", set the ".join(filter(None, (self.work, place)))
        droop, bump = shown(self.droop_left, 0), shown(self.bump_left, 0)
        height = self.height_in_words
        return f"{work}. It then stands at {height}: {droop} droop, {bump} bump left."

    @property
    def height_left_open(self) -> Quantity:
        """Half width of the ± of its height: of the figures, or of the step of a flat if more."""
        return max(self.height_uncertainty, self.height_rounding, key=_metres)


class _Worked(Protocol):
    """One end of a bar, with what is done there."""

    @property
    def end(self) -> BarEndName: ...

    @property
    def action(self) -> EndAction: ...


def work_in_short(ends: Iterable[_Worked], disturbed: Sequence[BarEndName]) -> str:
    """Say what is done to a bar, in short.

    Parameters
    ----------
    ends : iterable of EndWork or EndClocking
        What is done at each end.
    disturbed : sequence of BarEndName
        Ends that change their tooth.

    Returns
    -------
    str
    """
    actions = {work.end: work.action for work in ends}
    removed = [end.value for end, action in actions.items() if action is EndAction.REMOVE_TOOTH]
    if len(removed) == 1:
        return f"remove 1 tooth at the {removed[0]}"
    if removed:
        return "remove 1 tooth at each end"
    if disturbed:
        names = " and the ".join(end.value for end in disturbed)
        teeth = "another tooth" if len(disturbed) == 1 else "other teeth"
        return f"remove no tooth; move the {names} to {teeth}"
    if EndAction.BLANK_ON_KEY in actions.values():
        return "remove no tooth; the bar's blanks go on the keys"
    return "remove no tooth; the bar stays on the same teeth"


# -- In a sentence ---------------------------------------------------------------------


def _set(plan: Plan) -> Iterator[str]:
    """Say where the nut is set; older answers do not say from what it is measured."""
    part, at = plan.fitting[0].turned, plan.pin_distance
    if part is not None and at is not None:
        place = f"at {shown(at, 1)}"
        if plan.bolt_datum is not None:
            place = f"{shown(at, 1)} from the {plan.bolt_datum.value}"
        yield f"Set the {part.value} {place}."


def _stands(plan: Plan) -> str:
    """Say at which height it stands, what is behind its ±, and the travel that is left."""
    left_open = shown(plan.height_left_open, 0)
    travel = (
        f"with {shown(plan.droop_left, 0)} of droop and {shown(plan.bump_left, 0)} of bump left."
    )
    if is_nothing(plan.height_left_open, digits=0):
        return (
            f"The corner then stands at {shown(plan.height, 0)} hub to arch, no ± known, {travel}"
        )
    by_tolerances = plan.height_left_open == plan.height_uncertainty
    source = "from tolerances" if by_tolerances else "from the step of a flat"
    if plan.pin_distance is None and not by_tolerances:
        source = "from the step of a tooth"
    return (
        f"The corner then stands at {shown(plan.height, 0)} hub to arch, "
        f"± {left_open} {source}, {travel}"
    )


def _metres(length: Quantity) -> float:
    return si(length, LENGTH)
