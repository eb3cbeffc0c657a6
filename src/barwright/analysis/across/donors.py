"""Which other arm and anchor make the bar fit."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import TypeVar, cast

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.answer import Answer, Verdict
from barwright.analysis.corner.bar.seating import ROUNDING, layout_of, stops_leave_room
from barwright.analysis.corner.bar.torsional_rates import TorsionalRates
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.missing import MissingFigures, unknown_paths
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.length_fit import LengthFit, fit_of
from barwright.errors import NeedsError
from barwright.mechanics.spline.seating import seat
from barwright.parts.anchor import Anchor
from barwright.parts.arm import Arm
from barwright.parts.common.arguments import checks_arguments
from barwright.parts.common.identity import PartNumber
from barwright.parts.common.in_short import Summarised
from barwright.parts.common.record import Part
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.units import ANGLE, LENGTH, TORSIONAL_RATE, Quantity, is_unknown, quantity, si

__all__ = ["Donor", "Donors", "combined", "donors", "mating"]

P = TypeVar("P", bound=Part)


@attrs.frozen(kw_only=True, repr=False)
class Donor(Summarised):
    """An arm and an anchor with which the bar fits, and their other effects.

    Parameters
    ----------
    arm_id, anchor_id : str
        Their ids.
    arm_title, anchor_title : str
        Their titles.
    arm_numbers, anchor_numbers : tuple of PartNumber
        Numbers that they are ordered by.
    swapped : tuple of str
        Which of the two is not on the corner now: "arm", "anchor" or both.
    fit : LengthFit
        How the bar lies in them; its changes name offsets and new holes.
    system_rate : Quantity
        Torsional rate of bar and tube.
    tube_rate : Quantity, optional
        Torsional rate of the tube alone; none of a key lever or a fixed socket.
    free_angle_change : Quantity, optional
        Change of the free angle that the donors' own keys and lever cause, with the bar on its
        keys and the nut where it is; positive in the bump sense, which lowers the vehicle. None
        if the corner's own lever does not reach its bolt.
    """

    arm_id: str
    anchor_id: str
    arm_title: str
    anchor_title: str
    arm_numbers: tuple[PartNumber, ...] = ()
    anchor_numbers: tuple[PartNumber, ...] = ()
    swapped: tuple[str, ...]
    fit: LengthFit
    system_rate: Quantity
    tube_rate: Quantity | None
    free_angle_change: Quantity | None


@attrs.frozen(kw_only=True, repr=False)
class Donors(Answer):
    """Answer to :func:`donors`.

    Parameters
    ----------
    verdict : Verdict
        Verdict of the fit as it is, without other parts.
    findings : tuple of Finding
        Those of the fit.
    cautions : tuple of Caution
        None, because the search leads to no work.
    fit : LengthFit
        How the bar fits as it is.
    combinations : tuple of Donor
        Combinations with which the bar fits: fewest swaps first, then fewest changes, then the
        cap nearest to its holes, then the smallest change of the free angle.
    """

    fit: LengthFit
    combinations: tuple[Donor, ...]

    @property
    def headline(self) -> str:
        """Whether the bar fits, and with which parts."""
        if not self.combinations:
            tried = self.fit.verdict.is_refusal
            none = " No arm and anchor of the installed packs makes it fit." if tried else ""
            return f"{self.fit.headline}{none}"
        best = self.combinations[0]
        titles = {"arm": best.arm_title, "anchor": best.anchor_title}
        other = " and ".join(titles[kind] for kind in best.swapped)
        return f"Does not fit as it is; fits with {other}."


@checks_arguments
def donors(setup: Setup, *, parts: Iterable[Part]) -> Donors:
    """Answer which arms and anchors would make a bar fit that does not.

    Parameters
    ----------
    setup : Setup
        The corner, with the bar that is to go on.
    parts : iterable of Part
        Parts to search, such as ``registry.parts()``; only arms, and anchors of the corner's
        own kind, are tried.

    Returns
    -------
    Donors
        Without combinations if the bar fits as it is, or if none helps.

    References
    ----------
    Exhaustive over the arms and anchors that mate with the bar's splines; checked
    against an enumeration of all of them.

    Examples
    --------
    >>> from barwright.registry.registry import Registry
    >>> registry = Registry.discover()
    >>> van = registry.setup("fells:chassis/long", corner="front left")
    >>> answer = donors(
    ...     van.with_parts(bar=registry.part("fells:bar/short-standard")), parts=registry.parts()
    ... )
    >>> answer.combinations[0].anchor_id
    'fells:tube/short'
    """
    own = Corner(setup)
    fit = fit_of(own)
    if fit.verdict is not Verdict.DOES_NOT_FIT:
        return Donors(verdict=fit.verdict, findings=fit.findings, fit=fit, combinations=())
    found: list[Donor] = []
    unjudged: dict[str, None] = {}
    for other in map(own.beside, combined(setup, list(parts))):
        if not _swapped(own, other):
            continue
        missing = MissingFigures(other.setup)
        found += missing.tried(partial(_fitting, own, other)) or ()
        if missing.paths or not fit_of(other).is_answered:
            unjudged |= dict.fromkeys(_half_known(own, other))
    return Donors(
        verdict=fit.verdict,
        findings=(*fit.findings, *_left_out(list(unjudged))),
        fit=fit,
        combinations=tuple(sorted(found, key=_order)),
    )


def _left_out(ids: Sequence[str]) -> Iterator[Finding]:
    """Name the parts that could not be judged."""
    if ids:
        text = f"left out, since figures are missing: {', '.join(ids)}"
        yield Finding(topic=Topic.NEEDED, text=text)


def _half_known(own: Corner, other: Corner) -> Iterator[str]:
    """Parts of another corner with unknown figures."""
    unknown = {path.partition(".")[0] for path in unknown_paths(other.setup)}
    return (part.id for kind, part in _swapped(own, other).items() if kind in unknown)


def _swapped(own: Corner, other: Corner) -> dict[str, Part]:
    """Parts of another corner that are not on the own one."""
    parts, now = other.setup.parts, own.setup.parts
    return {kind: parts[kind] for kind in ("arm", "anchor") if parts[kind].id != now[kind].id}


def mating(setup: Setup, parts: Sequence[Part]) -> tuple[list[Arm], list[Anchor]]:
    """List the arms and the anchors that take the ends of a corner's bar.

    Parameters
    ----------
    setup : Setup
        The corner.
    parts : sequence of Part
        Parts to look among.

    Returns
    -------
    (list of Arm, list of Anchor)
        The corner's own ones first; anchors of their kind only, which the adjuster works with.
    """
    bar, anchor_kind = setup.bar, type(setup.anchor)
    arms = [arm for arm in _with_own(setup.arm, parts, Arm) if _takes(arm.socket, bar.arm_end)]
    anchors = [
        anchor
        for anchor in _with_own(setup.anchor, parts, anchor_kind)
        if _takes(anchor.socket, bar.anchor_end)
    ]
    return arms, anchors


def _takes(socket: Socket, end: BarEnd) -> bool:
    return (socket.teeth, socket.form) == (end.teeth, end.form)


def combined(setup: Setup, parts: Sequence[Part]) -> Iterator[Setup]:
    """Try every arm and anchor that take the bar's ends, as far as lengths do not exclude them.

    Parameters
    ----------
    setup : Setup
        The corner.
    parts : sequence of Part
        Parts to look among.

    Yields
    ------
    Setup
        With the corner's own parts first, if they are among them.
    """
    arms, anchors = mating(setup, parts)
    for row, column in np.argwhere(_holding(setup, arms, anchors)):
        yield setup.with_parts(arm=arms[row], anchor=anchors[column])


def _holding(setup: Setup, arms: Sequence[Arm], anchors: Sequence[Anchor]) -> NDArray[np.bool_]:
    """Which arms (rows) may hold the bar with which anchors (columns), as far as lengths tell."""
    try:
        lies_well = _engaging(setup, arms, anchors)
    except NeedsError:  # of the bar or the chassis: the fit of each pair says what is needed
        lies_well = np.array(True)
    return np.broadcast_to(lies_well, (len(arms), len(anchors)))


def _engaging(setup: Setup, arms: Sequence[Arm], anchors: Sequence[Anchor]) -> NDArray[np.bool_]:
    """Seat the bar in all pairs at once: not too little in either, and not out behind."""
    bar_alone = layout_of(setup, with_stops=stops_leave_room(setup))
    begins = metres(setup.axle.tube_position)
    pairs = attrs.evolve(
        bar_alone,
        arm_socket=_down(arm.socket.length for arm in arms),
        arm_required=_down(arm.socket.required_engagement for arm in arms),
        anchor_socket=_across(anchor.socket.length for anchor in anchors),
        anchor_position=begins + _across(anchor.socket_position for anchor in anchors),
        anchor_required=_across(anchor.socket.required_engagement for anchor in anchors),
    )
    where = seat(pairs)
    arm_end = where.arm_engagement < pairs.arm_required - ROUNDING
    anchor_end = where.anchor_engagement < pairs.anchor_required - ROUNDING
    behind = where.anchor_protrusion > metres(setup.axle.space_behind) + ROUNDING
    # What is not a number, since a length is unknown, is not too little either.
    return np.logical_not(arm_end | anchor_end | behind)


def _across(lengths: Iterable[Quantity]) -> NDArray[np.float64]:
    """Lengths as a row [m], unknown ones not a number."""
    return np.array([math.nan if is_unknown(length) else metres(length) for length in lengths])


def _down(lengths: Iterable[Quantity]) -> NDArray[np.float64]:
    """Make a column of them."""
    return _across(lengths)[:, np.newaxis]


def _with_own(own: P, parts: Sequence[Part], cls: type[P]) -> list[P]:
    """Parts of a class, the corner's own one first and no other with its id."""
    others = (part for part in parts if isinstance(part, cls) and part.id != own.id)
    return [own, *sorted(others, key=lambda part: part.id)]


def _fitting(own: Corner, other: Corner) -> tuple[Donor, ...]:
    """Describe a combination if the bar fits it."""
    fit = fit_of(other)
    if not fit.outcome.is_good:
        return ()
    combined = other.setup
    spring = cast("TorsionalRates", other.torsional_rates)  # it fits, and so lies in both
    donor = Donor(
        arm_id=combined.arm.id,
        anchor_id=combined.anchor.id,
        arm_title=combined.arm.title,
        anchor_title=combined.anchor.title,
        arm_numbers=combined.arm.numbers,
        anchor_numbers=combined.anchor.numbers,
        swapped=tuple(_swapped(own, other)),
        fit=fit,
        system_rate=quantity(spring.system, TORSIONAL_RATE),
        tube_rate=None if spring.tube is None else quantity(spring.tube, TORSIONAL_RATE),
        free_angle_change=_moved(own, other),
    )
    return (donor,)


def _moved(own: Corner, other: Corner) -> Quantity | None:
    """How far the free angle moves from one corner to another, the short way round."""
    if not own.lever_closes:
        return None
    change = (other.nut_lever + other.keyed_angle) - (own.nut_lever + own.keyed_angle)
    return quantity(math.remainder(change, math.tau), ANGLE)


def _order(donor: Donor) -> tuple[int, int, float, float, str, str]:
    """Order donors by what is to be swapped and changed, least first; then by id."""
    return (
        len(donor.swapped),
        len(donor.fit.changes),
        0.0 if donor.fit.cap_offset is None else abs(si(donor.fit.cap_offset, LENGTH)),
        abs(si(donor.free_angle_change, ANGLE)) if donor.free_angle_change is not None else 0.0,
        donor.arm_id,
        donor.anchor_id,
    )
