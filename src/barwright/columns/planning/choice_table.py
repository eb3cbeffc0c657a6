"""Clockings nearest to many wanted ones, as the search of clockings finds them for one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.types import Real
from barwright.mechanics.spline.clocking import centred
from barwright.mechanics.spline.clocking_search import ClockedEnd, Counts

__all__ = ["ChoiceTable", "choice_table"]

_Whole: TypeAlias = NDArray[np.int64]
_Flags: TypeAlias = NDArray[np.bool_]
_Real: TypeAlias = NDArray[np.float64]


@attrs.frozen(eq=False)
class ChoiceTable:
    """Clockings for many wanted rotations of one bar: a column for each of these.

    Parameters
    ----------
    is_there : array of bool, shape (choices, rotations)
        Which of the others are meant; a rotation with fewer choices than another leaves some out.
    clocking_steps, arm_tooth, anchor_tooth : array of int
        As of a :class:`~barwright.mechanics.spline.clocking_search.Choice`.
    arm_moves, anchor_moves : array of bool
        Whether an end changes its tooth.
    arm_is_cut, anchor_is_cut : array of bool
        Whether a tooth of an end is removed.
    """

    is_there: _Flags
    clocking_steps: _Whole
    arm_tooth: _Whole
    anchor_tooth: _Whole
    arm_moves: _Flags
    anchor_moves: _Flags
    arm_is_cut: _Flags
    anchor_is_cut: _Flags

    @property
    def cuts(self) -> _Whole:
        """Teeth to remove at both ends together."""
        return self.arm_is_cut.astype(np.int64) + self.anchor_is_cut


def choice_table(
    arm: ClockedEnd,
    anchor: ClockedEnd,
    *,
    wanted_steps: Real,
    low: Real,
    high: Real,
    room: Real = 0.0,
) -> ChoiceTable:
    """Find the clockings nearest to many wanted rotations at once.

    Parameters
    ----------
    arm, anchor : ClockedEnd
        The bar's two ends.
    wanted_steps, low, high, room : array of float, shape (rotations,)
        As of :func:`~barwright.mechanics.spline.clocking_search.choices`.

    Returns
    -------
    ChoiceTable
        The same choices for each rotation, some of them more than once.

    References
    ----------
    Checked against :func:`~barwright.mechanics.spline.clocking_search.choices`.

    Examples
    --------
    >>> import numpy as np
    >>> from barwright.mechanics.spline.clocking_search import ClockedEnd
    >>> found = choice_table(ClockedEnd(36), ClockedEnd(40), wanted_steps=np.array([9.2, 0.0]),
    ...                      low=np.array([0.0, -1.0]), high=np.array([12.0, 1.0]))
    >>> bool((found.is_there & (found.cuts == 0)).any())
    True
    """
    counts = Counts.of(arm_teeth=arm.teeth, anchor_teeth=anchor.teeth)
    limits = np.broadcast_arrays(*map(np.atleast_1d, (wanted_steps, low, high, room)))
    parts = [
        _table((arm, anchor), members, is_there, pair)
        for arm_tooth in arm.ways()
        for anchor_tooth in anchor.ways()
        for members, is_there in [_members(counts.progression(arm_tooth, anchor_tooth), *limits)]
        for pair in _pairs(counts, arm_tooth, anchor_tooth, members)
    ]
    names = [field.name for field in attrs.fields(ChoiceTable)]
    return ChoiceTable(
        **{name: np.concatenate([getattr(part, name) for part in parts]) for name in names}
    )


def _members(
    progression: tuple[int, int], wanted: _Real, low: _Real, high: _Real, room: _Real
) -> tuple[_Whole, _Flags]:
    """Members of a progression about wanted values."""
    first, spacing = progression
    below = _whole(first + spacing * np.floor((np.minimum(wanted, high) - first) / spacing))
    above = _whole(first + spacing * np.ceil((np.maximum(wanted, low) - first) / spacing))
    further = _whole(np.floor(room / spacing))
    away = np.arange(int(further.max(initial=0)) + 1)[:, np.newaxis]
    down, up = below - away * spacing, above + away * spacing
    is_down = (away <= further) & (down >= low)
    is_up = (away <= further) & (up <= high) & (up != below)
    is_there = np.concatenate([is_down, is_up])
    used = np.flatnonzero(is_there.any(axis=1))
    rows = used if used.size else slice(1)
    return np.concatenate([down, up])[rows], is_there[rows]


def _whole(numbers: _Real) -> _Whole:
    return numbers.astype(np.int64)


def _pairs(
    counts: Counts, arm_tooth: int | None, anchor_tooth: int | None, clocking_steps: _Whole
) -> Iterator[tuple[_Whole, _Whole]]:
    """Pairs that give rotations, of which one or both teeth may be fixed."""
    arm_teeth, anchor_teeth, arm_unit, anchor_unit = counts
    if arm_tooth is not None:
        arms = [np.full_like(clocking_steps, arm_tooth)]
    elif anchor_tooth is not None:
        arms = [(anchor_tooth * anchor_unit + clocking_steps) // arm_unit]
    else:
        first = clocking_steps * pow(arm_unit, -1, anchor_unit) % anchor_unit
        arms = [first + start for start in range(0, arm_teeth, anchor_unit)]
    for arm in arms:
        anchor = (arm * arm_unit - clocking_steps) // anchor_unit
        if anchor_tooth is not None:
            anchor = np.full_like(anchor, anchor_tooth)
        yield _centred(arm, arm_teeth), _centred(anchor, anchor_teeth)


def _centred(tooth: _Whole, teeth: int) -> _Whole:
    found: _Whole = np.asarray(centred(tooth, teeth=teeth))
    return found


def _table(
    ends: tuple[ClockedEnd, ClockedEnd],
    clocking_steps: _Whole,
    is_there: _Flags,
    pair: tuple[_Whole, _Whole],
) -> ChoiceTable:
    """Describe what pairs of teeth need."""
    (arm, anchor), (arm_tooth, anchor_tooth) = ends, pair
    arm_moves, anchor_moves = arm_tooth != arm.current, anchor_tooth != anchor.current
    return ChoiceTable(
        is_there=is_there,
        clocking_steps=clocking_steps,
        arm_tooth=arm_tooth,
        anchor_tooth=anchor_tooth,
        arm_moves=arm_moves,
        anchor_moves=anchor_moves,
        arm_is_cut=_is_cut(arm, arm_tooth) & (arm_moves | (not arm.in_place)),
        anchor_is_cut=_is_cut(anchor, anchor_tooth) & (anchor_moves | (not anchor.in_place)),
    )


def _is_cut(end: ClockedEnd, tooth: _Whole) -> _Flags:
    """Whether teeth are removed so that they can lie on the key."""
    return np.isin(tooth, sorted(end.blanks), invert=True) & end.keyed
