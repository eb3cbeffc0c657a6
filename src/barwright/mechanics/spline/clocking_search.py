"""Clockings nearest to a wanted one, for each set of cuts and disturbed ends.

A clocking costs teeth to cut and ends to disturb.  The *ready* teeth of an end are those that
are missing, and the one that lies on the key now.  At each end, either one of them lies on the
key or any tooth.  For each such way the rotations make an arithmetic progression, of which
only the neighbours of the wanted one can be best; so no pairs of teeth are tried in turn.

Assumed: a tooth can be taken off wherever it stands, and a cut never closes again; an
end that stays in its socket costs nothing; all that a rotation misses is made up by the
adjuster, between two limits.  Whether so many missing teeth still carry the torque, and
whether the bar can be fitted on that tooth, is asked elsewhere.  What comes back is a
list whose length depends on the counts, so one bar is asked for at a time.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import attrs

from barwright.mechanics.spline.clocking import centred, tooth_pairs

__all__ = ["Choice", "ClockedEnd", "Counts", "choices"]


@attrs.frozen
class ClockedEnd:
    """One end of a bar at present, and the cost of each tooth on its key.

    Parameters
    ----------
    teeth : int
        Tooth count.
    current : int
        Tooth that now lies on the key, in the bump sense from the maker's blank,
        in (-N/2, N/2] as :func:`~barwright.mechanics.spline.clocking.centred` gives it.
    blanks : frozenset of int
        Teeth that are missing, counted likewise; the maker's blank is 0.
    keyed : bool
        Whether the socket still has its key.
    in_place : bool
        Whether the end is in that socket now, on its current tooth; else it has
        to pass the key like any other.
    """

    teeth: int
    current: int = 0
    blanks: frozenset[int] = frozenset({0})
    keyed: bool = True
    in_place: bool = True

    def cuts(self, tooth: int) -> int:
        """Teeth to remove (0 or 1) so that ``tooth`` can lie on the key."""
        return int(self.keyed and tooth not in self.blanks)

    def ways(self) -> list[int | None]:
        """Ready teeth, each a way of its own, and ``None`` for any tooth.

        Any tooth costs a cut, except in a socket without a key.
        """
        if not self.keyed:
            return [self.current, None]
        return [*sorted(self.blanks | {self.current}), None]


class Choice(NamedTuple):
    """A clocking: the teeth on the keys, and the work it needs.

    Parameters
    ----------
    clocking_steps : int
        Rotation in steps; congruent to the pair's, not reduced.
    arm_tooth, anchor_tooth : int
        Teeth on the keys, in the bump sense from the maker's blank.
    cuts : int
        Teeth to remove at both ends together.
    disturbed : frozenset of str
        Ends that change their tooth: none, "arm", "anchor" or both.
    """

    clocking_steps: int
    arm_tooth: int
    anchor_tooth: int
    cuts: int
    disturbed: frozenset[str]


def choices(
    arm: ClockedEnd,
    anchor: ClockedEnd,
    *,
    wanted_steps: float,
    low: float,
    high: float,
    room: float = 0.0,
) -> list[Choice]:
    """Clockings nearest to a wanted rotation, for each set of cuts and disturbed ends.

    For each end, either one of its ready teeth stays fixed or any tooth is
    free to choose; what is left free makes an arithmetic progression of
    rotations, of which only the neighbours of ``wanted_steps`` can be best.

    Parameters
    ----------
    arm, anchor : ClockedEnd
        The bar's two ends.
    wanted_steps : float
        Wanted rotation in steps, not rounded.
    low, high : float
        Least and greatest rotation that the adjuster can make up for, in steps.
    room : float
        Rotations that lie further from ``wanted_steps`` than the nearest by no more than
        this, in steps, are listed too.

    Returns
    -------
    list of Choice
        Of each way between ``low`` and ``high``: the nearest rotation on either side of
        ``wanted_steps``, with all pairs of teeth that give it.  Few cuts come first.  A choice
        costs what its own teeth cost: where any tooth may lie on the key and the nearest is
        a ready one, it is listed without the cut.  One that costs more than another and comes
        no nearer may be listed too.

    References
    ----------
    Checked against an independent enumeration of all pairs.

    Examples
    --------
    >>> best = choices(ClockedEnd(36), ClockedEnd(40), wanted_steps=9.2, low=0.0, high=12.0)
    >>> [(c.clocking_steps, c.arm_tooth, c.anchor_tooth, c.cuts) for c in best if c.cuts == 1]
    [(9, 0, -1, 1), (10, 1, 0, 1)]
    """
    counts = Counts.of(arm_teeth=arm.teeth, anchor_teeth=anchor.teeth)
    found: dict[tuple[int, int, int], None] = {}
    for arm_tooth in arm.ways():
        for anchor_tooth in anchor.ways():
            first, spacing = counts.progression(arm_tooth, anchor_tooth)
            for clocking_steps in _neighbours(
                first, spacing, wanted_steps=wanted_steps, low=low, high=high, room=room
            ):
                for pair in counts.pairs(clocking_steps, arm_tooth, anchor_tooth):
                    found[clocking_steps, *pair] = None
    return sorted((_choice(arm, anchor, *one) for one in found), key=_order)


class Counts(NamedTuple):
    """Tooth counts of both ends, and what one tooth at either is in steps."""

    arm_teeth: int
    anchor_teeth: int
    arm_unit: int
    anchor_unit: int

    @classmethod
    def of(cls, *, arm_teeth: int, anchor_teeth: int) -> Counts:
        """Return those of two counts."""
        common = math.gcd(arm_teeth, anchor_teeth)
        return cls(arm_teeth, anchor_teeth, anchor_teeth // common, arm_teeth // common)

    def progression(self, arm_tooth: int | None, anchor_tooth: int | None) -> tuple[int, int]:
        """First rotation and spacing, in steps, of what two ends can still choose."""
        spacing = self.arm_teeth * self.arm_unit
        first = (arm_tooth or 0) * self.arm_unit - (anchor_tooth or 0) * self.anchor_unit
        first %= spacing
        if arm_tooth is None:
            # Of units without a common divisor, both together give every rotation.
            return first, self.arm_unit if anchor_tooth is not None else 1
        return first, self.anchor_unit if anchor_tooth is None else spacing

    def pairs(
        self, clocking_steps: int, arm_tooth: int | None, anchor_tooth: int | None
    ) -> list[tuple[int, int]]:
        """Pairs that give a rotation, of which one or both teeth may be fixed."""
        # A fixed tooth leaves one choice for the other, and the progression has
        # seen to it that the division comes out.
        if arm_tooth is None:
            if anchor_tooth is None:
                return tooth_pairs(
                    clocking_steps, arm_teeth=self.arm_teeth, anchor_teeth=self.anchor_teeth
                )
            arm_tooth = (anchor_tooth * self.anchor_unit + clocking_steps) // self.arm_unit
        elif anchor_tooth is None:
            anchor_tooth = (arm_tooth * self.arm_unit - clocking_steps) // self.anchor_unit
        pair = (
            centred(arm_tooth, teeth=self.arm_teeth),
            centred(anchor_tooth, teeth=self.anchor_teeth),
        )
        return [pair]


def _neighbours(
    first: int, spacing: int, *, wanted_steps: float, low: float, high: float, room: float
) -> Iterator[int]:
    """Members of a progression about a wanted value, within limits."""
    below = first + spacing * math.floor((min(wanted_steps, high) - first) / spacing)
    above = first + spacing * math.ceil((max(wanted_steps, low) - first) / spacing)
    further = spacing * math.floor(room / spacing)
    for member in range(below - further, below + 1, spacing):
        if member >= low:
            yield member
    for member in range(above, above + further + 1, spacing):
        if member <= high and member != below:
            yield member


def _choice(
    arm: ClockedEnd, anchor: ClockedEnd, clocking_steps: int, arm_tooth: int, anchor_tooth: int
) -> Choice:
    """Describe what a pair of teeth needs."""
    arm_moves, anchor_moves = arm_tooth != arm.current, anchor_tooth != anchor.current
    cuts = 0
    # An end that stays in its socket is not cut, whatever its blanks say.
    if arm_moves or not arm.in_place:
        cuts += arm.cuts(arm_tooth)
    if anchor_moves or not anchor.in_place:
        cuts += anchor.cuts(anchor_tooth)
    disturbed = _DISTURBED[arm_moves, anchor_moves]
    return Choice(clocking_steps, arm_tooth, anchor_tooth, cuts, disturbed)


_DISTURBED = {
    (False, False): frozenset[str](),
    (False, True): frozenset({"anchor"}),
    (True, True): frozenset({"arm", "anchor"}),
    (True, False): frozenset({"arm"}),
}

# Few ends first, then by their names.
_RANKS = {
    disturbed: rank
    for rank, disturbed in enumerate(
        sorted(_DISTURBED.values(), key=lambda ends: (len(ends), sorted(ends)))
    )
}


def _order(choice: Choice) -> tuple[int, int, int, int]:
    """Rank a choice: few cuts first, then few ends, then by rotation and tooth."""
    return choice.cuts, _RANKS[choice.disturbed], choice.clocking_steps, choice.arm_tooth
