"""What a corner takes over of another one: whatever rests on the very same records there."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from collections.abc import Set as AbstractSet
from typing import Any, NamedTuple, Self

import attrs

from barwright.analysis.corner.rests_on import RESTING_ON, Records, are_same
from barwright.parts.setup import Setup

__all__ = ["ComputedParts", "TakesOver"]


class ComputedParts(NamedTuple):
    """Parts of a corner by name, and the identities of the records that all of them rest on."""

    rests_on: frozenset[int]
    values: dict[str, Any]


@attrs.frozen(eq=False, slots=False)
class TakesOver:
    """Base of a corner, whose parts are computed on first use and kept.

    Parameters
    ----------
    setup : Setup
        The corner's records.
    """

    setup: Setup
    further: dict[Callable[..., Any], tuple[Records, dict[Any, Any]]] = attrs.field(
        factory=dict, init=False, repr=False
    )
    """What higher rooms have computed of it by what they were given, and what that rests on."""

    _records: dict[Records, tuple[object, ...]] = attrs.field(factory=dict, init=False, repr=False)

    def beside(self, setup: Setup) -> Self:
        """Return the corner of another setup, which takes over all that is the same there.

        Parameters
        ----------
        setup : Setup
            Records that are mostly the very same as here.

        Returns
        -------
        Corner
            With whatever has been computed here so far and rests on the same records there.
        """
        beside = type(self)(setup)
        beside.take_over(self)
        return beside

    def take_over(self, other: TakesOver) -> None:
        """Take over what has been computed of another corner and is the same here.

        Parameters
        ----------
        other : Corner
            The other one.
        """
        known, taken = vars(other), vars(self)
        for on, names in RESTING_ON.items():
            if self._has_the_same(on, other):
                taken.update((name, known[name]) for name in names if name in known)
        for compute, kept in list(other.further.items()):  # another thread may add to it
            if self._has_the_same(kept[0], other):
                self.further[compute] = kept

    def computed(self) -> list[ComputedParts]:
        """List what has been computed so far, by the records that it rests on.

        Returns
        -------
        list of ComputedParts
            Without what higher rooms have computed.
        """
        known = vars(self)
        return [
            ComputedParts(
                frozenset(map(id, self._listed(on))),
                {name: known[name] for name in names if name in known},
            )
            for on, names in RESTING_ON.items()
        ]

    @classmethod
    def shifted(
        cls, setup: Setup, *, replaced: AbstractSet[int], parts: Iterable[ComputedParts]
    ) -> Self:
        """Return the corner of a setup with some figures shifted.

        Parameters
        ----------
        setup : Setup
            The setup.
        replaced : set of int
            Identities of the figures as they were, and of all records that held them.
        parts : iterable of ComputedParts
            What was computed before they were shifted.

        Returns
        -------
        Corner
            With the parts that rest on none of them.
        """
        corner = cls(setup)
        taken = vars(corner)
        for part in parts:
            if replaced.isdisjoint(part.rests_on):
                taken.update(part.values)
        return corner

    def _has_the_same(self, on: Records, other: TakesOver) -> bool:
        return are_same(other._listed(on), self._listed(on))

    def _listed(self, on: Records) -> tuple[object, ...]:
        """List the records of its setup that a part rests on."""
        if on not in self._records:
            self._records[on] = on(self.setup)
        return self._records[on]
