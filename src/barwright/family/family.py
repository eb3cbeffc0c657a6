"""The bars and vehicles of a matrix, and what is asked of each pair."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

import attrs

from barwright.family.pruning import BarTable
from barwright.family.vehicle import FamilyQuestion, VehicleRows, rows_of_vehicles
from barwright.parts.bar import Bar
from barwright.registry.registry import Registry

__all__ = ["Family"]

# Vehicles that are answered together: fewer are hardly faster than one by one; with more, a run
# that is killed has lost more.
_LEAST, _MOST = 64, 256

# If there are many vehicles, so many stretches of them, for several processes.
_STRETCHES = 16


@attrs.frozen(eq=False)
class Family:
    """Bars and vehicles of a registry, and what is asked of each pair.

    Parameters
    ----------
    registry : Registry
        Where they come from.
    question : FamilyQuestion
        What is asked.
    bars : tuple of Bar
        The bars, by id.
    vehicle_ids : tuple of str
        The vehicles, by id.
    table : BarTable
        What decides where the bars can go in.
    """

    registry: Registry
    question: FamilyQuestion
    bars: tuple[Bar, ...]
    vehicle_ids: tuple[str, ...]
    table: BarTable

    @classmethod
    def of(cls, registry: Registry, question: FamilyQuestion, *, bars: str, vehicles: str) -> Self:
        """Choose bars and vehicles by words.

        Parameters
        ----------
        registry : Registry
            Where they come from.
        question : FamilyQuestion
            What is asked.
        bars, vehicles : str
            Words that describe them, as :meth:`Registry.parts` and :meth:`Registry.vehicles`
            take them; all if empty.

        Returns
        -------
        Family
        """
        named = registry.parts(bars) if bars else map(registry.bar, registry.ids("bar"))
        chosen = tuple(part for part in named if isinstance(part, Bar))
        # A registry may have more vehicles than the memory.
        ids = (
            [one.id for one in registry.vehicles(vehicles)] if vehicles else registry.ids("chassis")
        )
        return cls(registry, question, chosen, tuple(ids), BarTable.of(chosen))

    def stretches(self, *, at_a_time: int | None = None) -> list[tuple[str, ...]]:
        """Part the vehicles into those that are answered together.

        Parameters
        ----------
        at_a_time : int, optional
            How many vehicles; as many as is fast if left out.

        Returns
        -------
        list of tuple of str
        """
        ids = self.vehicle_ids
        size = at_a_time or min(_MOST, max(_LEAST, -(-len(ids) // _STRETCHES)))
        return [ids[first : first + size] for first in range(0, len(ids), size)]

    def rows_of(self, vehicle_ids: Sequence[str]) -> VehicleRows:
        """Put every bar on each corner of some vehicles.

        Parameters
        ----------
        vehicle_ids : sequence of str
            Their ids.

        Returns
        -------
        VehicleRows
        """
        vehicles = map(self.registry.chassis, vehicle_ids)
        return rows_of_vehicles(vehicles, self.bars, self.table, self.question)

    def with_standard_bars(self) -> Family:
        """Add the bars that the vehicles leave the works with.

        Returns
        -------
        Family
        """
        standard = (
            parts.bar
            for chassis in map(self.registry.chassis, self.vehicle_ids)
            for axle in chassis.axles
            for parts in (axle.left, axle.right)
            if parts is not None
        )
        chosen = tuple({bar.id: bar for bar in (*self.bars, *standard)}.values())
        return attrs.evolve(self, bars=chosen, table=BarTable.of(chosen))
