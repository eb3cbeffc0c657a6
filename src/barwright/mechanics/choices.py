"""Which clockings come nearest to a wanted one, for every way of getting there.

A clocking costs teeth to cut and ends to disturb.  Nothing is searched: for each
way the rotations make an arithmetic progression, of which only the neighbours
of the wanted one can be best.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import attrs

from barwright.mechanics.clocking import rotation_steps, tooth_pairs

__all__ = ["Choice", "Spline", "choices"]


@attrs.frozen
class Spline:
    """One end of a bar as it now is: what it costs to put a tooth on its key.

    Parameters
    ----------
    teeth : int
        Tooth count.
    current : int
        Tooth that now lies on the key, in the bump sense from the maker's blank,
        in (-N/2, N/2] as :func:`~barwright.mechanics.clocking.centred` gives it.
    blanks : frozenset of int
        Teeth that are missing, counted likewise; the maker's blank is 0.
    keyed : bool
        Whether the socket still has its key.
    """

    teeth: int
    current: int = 0
    blanks: frozenset[int] = frozenset({0})
    keyed: bool = True

    def cuts(self, tooth: int) -> int:
        """Teeth to remove (0 or 1) so that ``tooth`` can lie on the key."""
        return int(self.keyed and tooth not in self.blanks)

    def reachable(self) -> list[int | None]:
        """Teeth worth a look of their own, and ``None`` for any tooth at a cut."""
        ready = sorted(self.blanks | {self.current}) if self.keyed else [self.current]
        return [*ready, None]


@attrs.frozen
class Choice:
    """A clocking: the teeth on the keys, and what it takes to get there.

    Parameters
    ----------
    steps : int
        Rotation in steps; congruent to the pair's, not reduced.
    arm_tooth, anchor_tooth : int
        Teeth on the keys, in the bump sense from the maker's blank.
    cuts : int
        Teeth to remove at both ends together.
    ends : frozenset of str
        Ends that change their tooth: none, "arm", "anchor" or both.
    """

    steps: int
    arm_tooth: int
    anchor_tooth: int
    cuts: int
    ends: frozenset[str]


def choices(arm: Spline, anchor: Spline, *, wanted: float, low: float, high: float) -> list[Choice]:
    """Clockings nearest to a wanted rotation, for every way of getting there.

    For each end, either one of its ready teeth stays fixed or any tooth is
    free to choose; what is left free makes an arithmetic progression of
    rotations, of which only the neighbours of ``wanted`` can be best.

    Parameters
    ----------
    arm, anchor : Spline
        The bar's two ends.
    wanted : float
        Wanted rotation in steps, not rounded.
    low, high : float
        Least and greatest rotation that the adjuster can make up for, in steps.

    Returns
    -------
    list of Choice
        For every combination of cuts and disturbed ends that is possible
        between ``low`` and ``high`` and that no cheaper one equals: the nearest
        rotation on either side of ``wanted``, with all its ties.

    References
    ----------
    Checked against an independent enumeration of all pairs.

    Examples
    --------
    >>> best = choices(Spline(36), Spline(40), wanted=9.2, low=0.0, high=12.0)
    >>> [(c.steps, c.arm_tooth, c.anchor_tooth, c.cuts) for c in best if c.cuts == 1]
    [(9, 0, -1, 1), (10, 1, 0, 1)]
    """
    found: dict[Choice, None] = {}
    for arm_tooth in arm.reachable():
        for anchor_tooth in anchor.reachable():
            for steps in _neighbours(
                *_progression(arm, anchor, arm_tooth, anchor_tooth),
                wanted=wanted,
                low=low,
                high=high,
            ):
                found |= dict.fromkeys(
                    choice
                    for choice in _ties(arm, anchor, steps)
                    if arm_tooth in (None, choice.arm_tooth)
                    and anchor_tooth in (None, choice.anchor_tooth)
                )
    return sorted(found, key=lambda c: (c.cuts, sorted(c.ends), c.steps, c.arm_tooth))


def _progression(
    arm: Spline, anchor: Spline, arm_tooth: int | None, anchor_tooth: int | None
) -> tuple[int, int]:
    """First rotation and spacing, in steps, of what two ends can still choose."""
    common = math.gcd(arm.teeth, anchor.teeth)
    spacing = math.lcm(arm.teeth, anchor.teeth)
    if arm_tooth is None:
        spacing = math.gcd(spacing, anchor.teeth // common)
    if anchor_tooth is None:
        spacing = math.gcd(spacing, arm.teeth // common)
    first = rotation_steps(
        arm_tooth=arm_tooth or 0,
        anchor_tooth=anchor_tooth or 0,
        arm_teeth=arm.teeth,
        anchor_teeth=anchor.teeth,
    )
    return first, spacing


def _neighbours(
    first: int, spacing: int, *, wanted: float, low: float, high: float
) -> Iterator[int]:
    """Members of a progression next below and next above a wanted value, within limits."""
    below = first + spacing * math.floor((min(wanted, high) - first) / spacing)
    above = first + spacing * math.ceil((max(wanted, low) - first) / spacing)
    if below >= low:
        yield below
    if above <= high and above != below:
        yield above


def _ties(arm: Spline, anchor: Spline, steps: int) -> Iterator[Choice]:
    """Every clocking that gives one rotation."""
    for a, c in tooth_pairs(steps, arm_teeth=arm.teeth, anchor_teeth=anchor.teeth):
        moved = {"arm": a != arm.current, "anchor": c != anchor.current}
        ends = frozenset(end for end, is_moved in moved.items() if is_moved)
        # An end that stays in its socket is not cut, whatever its blanks say.
        cuts = sum(
            end.cuts(tooth)
            for end, tooth, is_moved in zip((arm, anchor), (a, c), moved.values(), strict=True)
            if is_moved
        )
        yield Choice(steps, a, c, cuts, ends)
