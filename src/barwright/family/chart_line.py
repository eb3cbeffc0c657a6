"""What stands on a family chart: wheelbases, the bars on them, and what is not offered."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import Any

import attrs

from barwright.analysis.finding import Topic
from barwright.family.row import FIGURES, FamilyRow
from barwright.parts.chassis import AxlePlace
from barwright.parts.common.in_short import Summarised
from barwright.units import Quantity

__all__ = [
    "ChartGroup",
    "ChartLine",
    "ChartWheelbase",
    "NotOffered",
    "by_wheelbase",
    "change_of",
    "lines_of",
]

_IN_SHORT = {
    Topic.NO_OVERLAP.value: "wrong length",
    Topic.ENGAGEMENT.value: "too little of the teeth engages",
    Topic.STOPS.value: "too long",
    Topic.SPACE_BEHIND.value: "no space behind the anchor",
}


@attrs.frozen(kw_only=True, repr=False)
class ChartWheelbase(Summarised):
    """An axle of a vehicle: a column of the chart.

    Parameters
    ----------
    vehicle_id, vehicle_title : str
        The vehicle.
    place : AxlePlace
        Front or rear.
    called : str
        What tells it from the others of the chart.
    height : Quantity, optional
        Hub to arch, at which its bars are rated; none where no bar is.
    standard_bars : tuple of str
        Titles of the bars that it leaves the works with; one, if both sides have the same.
    standard_rate : Quantity, optional
        Rate at the wheel with them.
    """

    vehicle_id: str
    vehicle_title: str
    place: AxlePlace
    called: str
    height: Quantity | None = None
    standard_bars: tuple[str, ...] = ()
    standard_rate: Quantity | None = None

    @property
    def key(self) -> tuple[str, str]:
        """What its lines are found by."""
        return self.vehicle_id, self.place.value


@attrs.frozen(kw_only=True, repr=False)
class ChartLine(Summarised):
    """A bar on an axle: on both of its corners, where these say the same.

    Parameters
    ----------
    corners : tuple of str
        The corners, as in "front left".
    pair : FamilyRow
        What becomes of the bar there, on the first of them.
    """

    corners: tuple[str, ...]
    pair: FamilyRow

    @property
    def is_without_changes(self) -> bool:
        """Whether the bar goes in with nothing changed."""
        return self.pair.fits and not self.pair.changes

    @property
    def key(self) -> tuple[str, str]:
        """The wheelbase that it belongs to."""
        return self.pair.vehicle_id, self.corners[0].split()[0]

    @property
    def side(self) -> str:
        """The side that it is of; empty for both."""
        return "" if self.corners[1:] else self.corners[0].split()[1]

    @property
    def why_not(self) -> str:
        """Why it is not offered, as shortly as it can be said; empty if it is."""
        pair = self.pair
        if pair.is_offered:
            return ""
        if pair.fit is None or pair.error_code:
            return pair.error_text
        if pair.fits and pair.strength is not None:
            return pair.strength.value
        return _IN_SHORT.get(pair.reason, pair.reason.partition("; ")[0]) or pair.fit.value

    def _in_short(self) -> str:
        """Tell what the pair tells."""
        return repr(self.pair).strip("<>")


@attrs.frozen(kw_only=True, repr=False)
class ChartGroup(Summarised):
    """Lines that belong together.

    Parameters
    ----------
    title : str
        What they have in common; empty where they are not grouped.
    lines : tuple of ChartLine
        The lines, in the order that was asked for.
    """

    title: str
    lines: tuple[ChartLine, ...]


@attrs.frozen(kw_only=True, repr=False)
class NotOffered(Summarised):
    """Bars that are not offered for the same reason on the same wheelbases.

    Parameters
    ----------
    reason : str
        Why not.
    places : tuple of str
        Where not.
    bars : tuple of str
        Titles of the bars.
    """

    reason: str
    places: tuple[str, ...]
    bars: tuple[str, ...]

    def _in_short(self) -> str:
        """Tell all of it in a line."""
        return f"{', '.join(self.bars)} on {', '.join(self.places)}: {self.reason}"


def lines_of(rows: Iterable[FamilyRow]) -> Iterator[ChartLine]:
    """Put the two corners of an axle together where they say the same of a bar.

    Parameters
    ----------
    rows : iterable of FamilyRow
        One a corner.

    Yields
    ------
    ChartLine
    """
    found: dict[tuple[str, ...], list[FamilyRow]] = {}
    for row in rows:
        found.setdefault((row.vehicle_id, row.corner.split()[0], row.bar_id), []).append(row)
    for corners in found.values():
        first, *others = corners
        if all(_are_alike(first, other) for other in others):
            yield ChartLine(corners=tuple(row.corner for row in corners), pair=corners[0])
        else:
            yield from (ChartLine(corners=(row.corner,), pair=row) for row in corners)


def by_wheelbase(lines: Iterable[ChartLine]) -> dict[tuple[str, str], list[ChartLine]]:
    """Put lines together by the wheelbase that they belong to."""
    found: dict[tuple[str, str], list[ChartLine]] = {}
    for line in lines:
        found.setdefault(line.key, []).append(line)
    return found


def change_of(line: ChartLine) -> float | None:
    """Return the change of the rate at the wheel, in per cent."""
    return line.pair.wheel_rate_change


def _are_alike(one: FamilyRow, other: FamilyRow) -> bool:
    """Whether two corners say the same, but for rounding: they are answered apart."""
    if _words(one) != _words(other):
        return False
    return all(_are_close(getattr(one, name), getattr(other, name)) for name in _FIGURES)


_FIGURES = (*FIGURES, "wheel_rate_change")


def _are_close(one: Quantity | float | None, other: Quantity | float | None) -> bool:
    if one is None or other is None:
        return one is other
    first, second = (getattr(figure, "magnitude", figure) for figure in (one, other))
    return math.isclose(first, second, rel_tol=1e-9, abs_tol=1e-9)


def _words(row: FamilyRow) -> FamilyRow:
    """Leave out of a row its corner and its figures."""
    blanks: dict[str, Any] = dict.fromkeys(_FIGURES)
    return attrs.evolve(row, corner="", **blanks)
