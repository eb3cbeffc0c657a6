"""Which lines of a family chart are asked for, and how they are sorted and grouped."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Any, Literal, TypeAlias

import attrs

from barwright.errors import SchemaError
from barwright.family.chart_line import (
    ChartGroup,
    ChartLine,
    ChartWheelbase,
    by_wheelbase,
    change_of,
)
from barwright.units import Quantity

__all__ = ["ChartGrouping", "ChartOrder", "ChartWish"]

ChartOrder: TypeAlias = Literal["rate", "change", "frequency", "stress", "bar"]
"""What the lines of a chart are sorted by."""

ChartGrouping: TypeAlias = Literal["wheelbase", "bar", "none"]
"""What the lines of a chart are grouped by."""

# Limits that every change lies between, and one that is not known too.
_ANY_CHANGE = (-math.inf, math.inf)


@attrs.frozen(kw_only=True)
class ChartWish:
    """Which lines are asked for, and how they are sorted and grouped.

    Parameters
    ----------
    unchanged : bool
        Whether only lines without changes are.
    least_change, most_change : float, optional
        Limits of the change of the rate at the wheel, in per cent.
    sort : {"rate", "change", "frequency", "stress", "bar"}
        What they are sorted by.
    descending : bool
        Whether the greatest comes first.
    group : {"wheelbase", "bar", "none"}
        What they are grouped by.
    """

    unchanged: bool
    least_change: float | None
    most_change: float | None
    sort: ChartOrder
    descending: bool
    group: ChartGrouping

    def takes(self, line: ChartLine) -> bool:
        """Whether a line is asked for; that of the standard bar always is."""
        if line.pair.is_standard:
            return True
        return self._takes_change(change_of(line)) and (
            line.is_without_changes or not self.unchanged
        )

    def _takes_change(self, change: float | None) -> bool:
        low, high = self._limits
        if (low, high) == _ANY_CHANGE:
            return True
        return change is not None and low <= change <= high

    @property
    def _limits(self) -> tuple[float, float]:
        low, high = _ANY_CHANGE
        return (
            low if self.least_change is None else self.least_change,
            high if self.most_change is None else self.most_change,
        )

    def __attrs_post_init__(self) -> None:
        """Refuse limits that no change lies between."""
        low, high = self._limits
        if not low <= high:
            raise SchemaError(
                "S207",
                value=f"{low:+g} % to {high:+g} %",
                expected="a least change that is not above the greatest",
                remedy="leave one of them out",
                key="least_change",
            )

    def sorted(self, lines: Iterable[ChartLine]) -> list[ChartLine]:
        """Sort lines; what has no such figure comes last."""
        key = _ORDERS[self.sort]
        known = [line for line in lines if key(line) is not None]
        unknown = [line for line in lines if key(line) is None]
        return sorted(known, key=key, reverse=self.descending) + unknown

    def grouped(
        self, lines: Sequence[ChartLine], wheelbases: Sequence[ChartWheelbase]
    ) -> Iterator[ChartGroup]:
        """Group lines that are sorted."""
        if self.group == "wheelbase":
            on = by_wheelbase(lines)
            for wheelbase in wheelbases:
                on_it = tuple(on.get(wheelbase.key, ()))
                title = f"{wheelbase.vehicle_title}, {wheelbase.place.value}"
                yield ChartGroup(title=title, lines=on_it)
        elif self.group == "bar":
            bars: dict[tuple[str, str], list[ChartLine]] = {}
            for line in lines:
                bars.setdefault((line.pair.bar_id, line.pair.bar_title), []).append(line)
            for (_, title), of_it in bars.items():
                yield ChartGroup(title=title, lines=tuple(of_it))
        else:
            yield ChartGroup(title="", lines=tuple(lines))


def _number(value: Quantity | None) -> float | None:
    return None if value is None else float(value.magnitude)


_ORDERS: dict[ChartOrder, Callable[[ChartLine], Any]] = {
    "rate": lambda line: _number(line.pair.wheel_rate),
    "change": change_of,
    "frequency": lambda line: _number(line.pair.ride_frequency),
    "stress": lambda line: _number(line.pair.bump_stress),
    "bar": lambda line: line.pair.bar_title,
}
