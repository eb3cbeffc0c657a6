"""Order of preference of clockings: lost teeth count before the place of the nut.

A tooth that was taken off does not grow again, and a bar that stays in cannot be put in
wrongly.  So an uncut bar comes first while enough thread is left to correct the height; only
then does the nut's distance from the middle of its thread count.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import TypeAlias

import attrs

from barwright.mechanics.spline.clocking_search import Choice
from barwright.units import TURNS, Quantity, quantity

__all__ = [
    "FLATS",
    "LARGEST_SHARE",
    "LEAST_SHARE",
    "Candidate",
    "Rank",
    "SufficientThread",
    "ThreadLeft",
    "least_flats_left",
    "rank",
    "sufficient_thread",
    "unbeaten",
]

FLATS = 6
"""A nut has six flats, and a mechanic sets it to one of them."""

Rank: TypeAlias = tuple[bool, int, bool, int, bool, int, int, int, int]
"""Order of preference: the smallest comes first."""

# Of the thread, what is always kept to correct the height, and the most that is asked for.
# Common practice, no source.
LEAST_SHARE, LARGEST_SHARE = 1.0 / 8.0, 1.0 / 4.0

# Rounding of turns that are made of several lengths.
_ROUNDING = 1e-9


@attrs.frozen(eq=False)
class Candidate:
    """A choice of teeth with the lever angle that it needs, and how far off that is.

    Parameters
    ----------
    choice : Choice
        The teeth.
    lever : float
        Angle of the lever [rad].
    distance : int
        Whole flats from the middle of the thread; with a fixed socket, whole
        millimetres of height from what is wanted.
    flats_left : int
        Whole flats of thread left on the shorter side; 0 with a fixed socket.
    """

    choice: Choice
    lever: float
    distance: int
    flats_left: int

    @property
    def order(self) -> tuple[int, int, int, int]:
        """Order among candidates with the same cuts and ends; ties go to the smaller counts."""
        arm, anchor = self.choice.arm_tooth, self.choice.anchor_tooth
        return self.distance, abs(arm) + abs(anchor), arm, anchor

    def beats(self, other: Candidate, *, enough: int) -> bool:
        """Whether this one is no worse in any respect and better in one."""
        mine, its = self.choice, other.choice
        own, others = min(self.flats_left, enough), min(other.flats_left, enough)
        no_worse = (
            mine.cuts <= its.cuts
            and mine.disturbed <= its.disturbed
            and own >= others
            and self.distance <= other.distance
        )
        better = (
            mine.cuts < its.cuts
            or mine.disturbed < its.disturbed
            or own > others
            or self.distance < other.distance
        )
        return no_worse and better


@attrs.frozen(kw_only=True)
class SufficientThread:
    """Thread that must be left so that the height can be corrected, in whole flats.

    Parameters
    ----------
    flats : int
        What counts as enough.
    asked : float
        What the figures' tolerances ask for [turn].
    most : float
        The most that is ever asked for [turn].
    """

    flats: int
    asked: float
    most: float

    @property
    def turns(self) -> Quantity | None:
        """What counts as enough, in turns; none where there is no thread."""
        return quantity(self.flats / FLATS, TURNS) if self.most else None

    @property
    def is_cut_short(self) -> bool:
        """Whether the tolerances ask for more than the thread can keep in reserve."""
        return self.asked > self.most + _ROUNDING


def sufficient_thread(*, tolerance: float, thread: float, wanted: float | None) -> SufficientThread:
    """Find how much thread is enough.

    Parameters
    ----------
    tolerance : float
        What the figures' tolerances leave open of the height [turn].
    thread : float
        Usable thread [turn].
    wanted : float, optional
        What the caller wants left on either side [turn].

    Returns
    -------
    SufficientThread
        The larger of the tolerance plus one turn and an eighth of the thread, but never
        more than a quarter of it; or what is wanted.

    References
    ----------
    Common practice, no source.

    Examples
    --------
    >>> sufficient_thread(tolerance=0.5, thread=24.0, wanted=None).flats
    18
    >>> sufficient_thread(tolerance=9.0, thread=24.0, wanted=None).is_cut_short
    True
    """
    asked, most = tolerance + 1.0, thread * LARGEST_SHARE
    turns = min(max(asked, thread * LEAST_SHARE), most) if wanted is None else wanted
    return SufficientThread(flats=math.ceil(turns * FLATS - _ROUNDING), asked=asked, most=most)


def unbeaten(candidates: Iterable[Candidate], *, enough: int) -> list[Candidate]:
    """Keep the candidates that no other one beats, one for each cuts and ends."""
    by_class: dict[tuple[int, frozenset[str]], Candidate] = {}
    for candidate in sorted(candidates, key=lambda c: c.order):
        by_class.setdefault((candidate.choice.cuts, candidate.choice.disturbed), candidate)
    best = list(by_class.values())
    return [c for c in best if not any(o.beats(c, enough=enough) for o in best)]


def least_flats_left(flats: Sequence[int], *, enough: int) -> int:
    """Flats of thread that the preferred ones leave at least: enough, or a turn off the best."""
    best = max(flats, default=0)
    return enough if best >= enough else best - FLATS


@attrs.frozen
class ThreadLeft:
    """Thread that the plans of a corner leave to correct the height, in whole flats.

    Parameters
    ----------
    flats : tuple of int
        What each plan leaves on the shorter side, in the order of the plans; 0 where
        nothing is turned.
    enough : int
        What counts as enough.
    """

    flats: tuple[int, ...] = ()
    enough: int = 0

    @property
    def preferred(self) -> list[int]:
        """Places of the plans that leave enough; of those that come near the best, if none."""
        least = least_flats_left(self.flats, enough=self.enough)
        return [place for place, left in enumerate(self.flats) if left >= least]


def rank(candidate: Candidate, *, least: int, has_findings: bool) -> Rank:
    """Return the place of a candidate in the order of preference.

    Parameters
    ----------
    candidate : Candidate
        The candidate.
    least : int
        Flats of thread that a preferred one leaves, as :func:`least_flats_left` says.
    has_findings : bool
        Whether something must be known of its plan.

    Returns
    -------
    tuple
        The smallest is preferred.
    """
    choice = candidate.choice
    distance, size, arm, anchor = candidate.order
    return (
        candidate.flats_left < least,
        choice.cuts,
        bool(choice.disturbed),
        len(choice.disturbed),
        has_findings,
        *(distance, size, arm, anchor),
    )
