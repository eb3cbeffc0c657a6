"""Candidates of plans for a column of corners: one in each class of cuts and disturbed ends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Self

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.columns.column_corner import Flags
from barwright.columns.planning.choice_table import ChoiceTable
from barwright.columns.possible import any_of
from barwright.computed_once import cached_property

__all__ = ["Candidates", "not_beaten_by", "unbeaten"]

Whole = NDArray[np.int64]


@attrs.frozen(kw_only=True, eq=False, slots=False)
class Candidates:
    """Candidates of the rows of a column: each a row of the table, a column for each corner.

    Parameters
    ----------
    is_there : array of bool
        Which of the others are meant.
    steps, arm_tooth, anchor_tooth : array of int
        The clocking, in steps, and the teeth on the keys.
    arm_is_cut, anchor_is_cut, arm_moves, anchor_moves : array of bool
        What is done at each end.
    lever : array of float
        Angle of the lever [rad].
    distance, flats_left : array of int
        Flats from the middle of the thread, or millimetres from the height; flats that are left.
    """

    is_there: Flags
    steps: Whole
    arm_tooth: Whole
    anchor_tooth: Whole
    arm_is_cut: Flags
    anchor_is_cut: Flags
    arm_moves: Flags
    anchor_moves: Flags
    lever: NDArray[np.float64]
    distance: Whole
    flats_left: Whole

    @classmethod
    def of(cls, table: ChoiceTable, *, lever: Any, distance: Any, flats_left: Any) -> Self:  # noqa: ANN401
        """Make candidates of choices with their levers [rad] and places on the thread."""
        names = ("is_there", "arm_tooth", "anchor_tooth", "arm_is_cut", "anchor_is_cut")
        fields: dict[str, Any] = {name: getattr(table, name) for name in names}
        return cls(
            **fields,
            steps=table.clocking_steps,
            arm_moves=table.arm_moves,
            anchor_moves=table.anchor_moves,
            lever=np.broadcast_to(lever, table.is_there.shape),
            distance=_whole(distance, table.is_there.shape),
            flats_left=_whole(flats_left, table.is_there.shape),
        )

    @classmethod
    def joined(cls, parts: Sequence[Self]) -> Self:
        """Put tables one after the other."""
        return cls(
            **{
                name: np.concatenate([getattr(part, name) for part in parts])
                for name in _names(cls)
            }
        )

    def only(self, flags: Any) -> Self:  # noqa: ANN401 - one flag or a table of them
        """Leave out those whose flag is not raised."""
        other = attrs.evolve(self, is_there=self.is_there & flags)
        vars(other).update({name: getattr(self, name) for name in ("cuts", "disturbed", "order")})
        return other

    def at(self, places: NDArray[np.intp]) -> Self:
        """Take one of each corner's: a table of one row."""
        index = places[np.newaxis]
        return type(self)(
            **{
                name: np.take_along_axis(getattr(self, name), index, axis=0)
                for name in _names(type(self))
            }
        )

    @property
    def used(self) -> Self:
        """The rows of the table of which some corner has a candidate; one at least."""
        used = np.flatnonzero(self.is_there.any(axis=1))
        rows = used if used.size else slice(1)
        return type(self)(**{name: getattr(self, name)[rows] for name in _names(type(self))})

    @cached_property
    def cuts(self) -> Whole:
        """Teeth to remove."""
        return self.arm_is_cut.astype(np.int64) + self.anchor_is_cut

    @cached_property
    def disturbed(self) -> Whole:
        """Ends that change their tooth: 1 for the arm end, 2 for the anchor end, 3 for both."""
        return self.arm_moves.astype(np.int64) + 2 * self.anchor_moves

    @cached_property
    def order(self) -> Whole:
        """One number that orders those of equal cuts and ends: the smallest comes first."""
        arm, anchor = self.arm_tooth, self.anchor_tooth
        size = np.abs(arm) + np.abs(anchor)
        most = int(size.max(initial=0)) + 1
        found: Whole = self.distance
        for number in (size, arm + most, anchor + most):
            found = found * (2 * most) + number
        return found

    def first(self, keys: Iterable[Any]) -> NDArray[np.intp]:
        """Place of each corner's first candidate by some numbers, then by its order."""
        found = self.is_there
        for key in (*keys, self.order):
            number = np.where(found, key, np.iinfo(np.int64).max)
            found = found & (number == number.min(axis=0, initial=np.iinfo(np.int64).max))
        return np.asarray(np.argmax(found, axis=0))


def unbeaten(found: Candidates, *, enough: Any) -> list[Candidates]:  # noqa: ANN401
    """Keep the candidates that no other one beats: one of each class of cuts and ends.

    Parameters
    ----------
    found : Candidates
        All.
    enough : int or array of int
        Flats of thread that count as enough.

    Returns
    -------
    list of Candidates
        A table of one row for each class.
    """
    best = [
        one.at(one.first(()))
        for cuts in range(3)
        for ends in range(4)
        if (one := found.only((found.cuts == cuts) & (found.disturbed == ends))).is_there.any()
    ]
    return [one.only(~_is_beaten(one, best, enough)) for one in best]


def not_beaten_by(
    found: Iterable[Candidates],
    others: Sequence[Candidates],
    *,
    enough: Any,  # noqa: ANN401
) -> list[Candidates]:
    """Keep those of some candidates that none of others beats."""
    return [one.only(~_is_beaten(one, others, enough)) for one in found]


def _is_beaten(one: Candidates, others: Iterable[Candidates], enough: Any) -> Flags:  # noqa: ANN401
    return any_of(_beats(other, one, enough) for other in others)


def _beats(one: Candidates, other: Candidates, enough: Any) -> Flags:  # noqa: ANN401
    """Whether one is there, no worse in any respect and better in one."""
    own, others = np.minimum(one.flats_left, enough), np.minimum(other.flats_left, enough)
    no_worse = (
        (one.cuts <= other.cuts)
        & ((one.disturbed & ~other.disturbed) == 0)
        & (own >= others)
        & (one.distance <= other.distance)
    )
    better = (
        (one.cuts < other.cuts)
        | (one.disturbed != other.disturbed)
        | (own > others)
        | (one.distance < other.distance)
    )
    return np.asarray(one.is_there & no_worse & better)


def _whole(numbers: Any, shape: tuple[int, ...]) -> Whole:  # noqa: ANN401
    return np.broadcast_to(numbers, shape).astype(np.int64)


def _names(cls: type[Candidates]) -> list[str]:
    return [field.name for field in attrs.fields(cls)]
