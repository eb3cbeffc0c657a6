"""Pairs of bars and corners that differ in figures alone, answered together in columns."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from typing import TypeAlias

import attrs
import numpy as np

from barwright.analysis.answer import Verdict
from barwright.columns.batch import Batch, batch
from barwright.columns.given import WANTED_HEIGHT
from barwright.errors import BarwrightError
from barwright.family.corner import FamilyCorner
from barwright.family.row import PlainRow
from barwright.parts.bar import Bar
from barwright.tables.corners.alike import TakenApart, part_taken_apart, taken_apart
from barwright.units import LENGTH, QuantityArray, quantity_of_units, si

__all__ = ["FamilyPair", "answered_together"]

FamilyPair: TypeAlias = tuple[FamilyCorner, Bar]
"""A corner, and a bar to put on it."""

# Columns of so few rows are answered row by row.
_FEW = 2

_RATES = {
    "bar_rate": "bar_rate",
    "system_rate": "system_rate",
    "wheel_rate": "ride.wheel_rate",
    "ride_frequency": "ride_frequency",
}
"""Columns of the rates by those of the matrix."""


def answered_together(pairs: Sequence[FamilyPair]) -> list[PlainRow | None]:
    """Answer pairs in columns: whether the bar fits, its rates and its strength.

    Parameters
    ----------
    pairs : sequence of (FamilyCorner, Bar)
        The pairs.

    Returns
    -------
    list of dict, or None
        The answers of each; none of a pair that is to be asked about by itself: because figures
        are unknown, because it is alone in its kind, because it ends with an error, or because
        the answer is a no, whose reason a column does not tell.
    """
    found: list[PlainRow | None] = [None] * len(pairs)
    for group in _alike(pairs):
        if len(group) > _FEW:
            for one, answer in zip(group, _answers(group), strict=True):
                found[one.place] = answer
    return found


@attrs.frozen
class _Pair:
    """A pair with its figures apart from all else, and its place among the others."""

    place: int
    corner: FamilyCorner
    bar: Bar
    figures: Mapping[str, float]
    units: Mapping[str, str]


def _alike(pairs: Sequence[FamilyPair]) -> list[list[_Pair]]:
    """Put pairs together that differ in figures alone."""
    apart = _Apart()
    groups: dict[Hashable, list[_Pair]] = {}
    for place, (corner, bar) in enumerate(pairs):
        rest, of_bar = apart.corner(corner), apart.bar(bar)
        if rest is None or of_bar is None:
            continue
        # No two fillets are answered at once.
        own = id(bar) if _has_fillet(bar) else None
        kind = (apart.number(rest.frame), apart.number(of_bar.frame), own)
        one = _Pair(
            place=place,
            corner=corner,
            bar=bar,
            figures={**rest.figures, **of_bar.figures},
            units={**rest.units, **of_bar.units},
        )
        groups.setdefault(kind, []).append(one)
    return list(groups.values())


def _has_fillet(bar: Bar) -> bool:
    return any(end.fillet_radius is not None for end in (bar.arm_end, bar.anchor_end))


class _Apart:
    """Corners without their bars, and bars, each taken apart once."""

    def __init__(self) -> None:
        self._known: dict[int, TakenApart | None] = {}
        self._numbers: dict[Hashable, int] = {}

    def corner(self, corner: FamilyCorner) -> TakenApart | None:
        """Take a corner apart, and leave its bar out."""

        def without_bar() -> TakenApart | None:
            whole = taken_apart(corner.setup)
            return None if whole is None else whole.without("bar")

        return self._once(corner, without_bar)

    def bar(self, bar: Bar) -> TakenApart | None:
        """Take a bar apart."""
        return self._once(bar, lambda: part_taken_apart(bar, "bar"))

    def number(self, frame: Hashable) -> int:
        """Give a number to what corners or bars have in common, so that it is compared once."""
        return self._numbers.setdefault(frame, len(self._numbers))

    def _once(self, key: object, take: Callable[[], TakenApart | None]) -> TakenApart | None:
        if id(key) not in self._known:
            self._known[id(key)] = take()
        return self._known[id(key)]


def _answers(group: Sequence[_Pair]) -> Iterator[PlainRow | None]:
    """Answer pairs that differ in figures alone."""
    first = group[0]
    try:
        setup = first.corner.setup.with_parts(bar=first.bar)
        fits, rates, strengths = batch(setup, _table(group), asked=("fit", "rates", "strength"))
    except BarwrightError:
        yield from [None] * len(group)
        return
    for row, one in enumerate(group):
        yield _answer(one, row, fits, rates, strengths)


def _table(group: Sequence[_Pair]) -> dict[str, QuantityArray]:
    """Make a column of each figure that differs, and of the heights."""
    first = group[0]
    numbers = {path: np.array([one.figures[path] for one in group]) for path in first.figures}
    columns = {
        path: quantity_of_units(column, first.units[path])
        for path, column in numbers.items()
        if np.any(column != column[0])
    }
    heights = np.array([si(one.corner.height, LENGTH) for one in group])
    return columns | {WANTED_HEIGHT: quantity_of_units(heights, "m")}


def _answer(one: _Pair, row: int, fits: Batch, rates: Batch, strengths: Batch) -> PlainRow | None:
    """Return the answers of a row; none where one of them is to be asked for by itself."""
    fit, rated, strength = (_verdict(found, row) for found in (fits, rates, strengths))
    figures = {name: _number(rates, column, row) for name, column in _RATES.items()}
    if fit is None or strength is None or figures["wheel_rate"] is None:
        return None
    if fit is Verdict.FITS:
        found: PlainRow = {"fit": fit, "reason": "", "changes": ()}
    else:
        # A column tells neither what must be changed nor why it does not fit.
        found = one.corner.fit(one.bar)
    stress = _number(strengths, "bump.stress", row)
    rates_found = {"rates": rated, "height": one.corner.plain_height, **figures}
    return {**found, **rates_found, "strength": strength, "bump_stress": stress}


def _verdict(found: Batch, row: int) -> Verdict | None:
    word = str(found.verdicts[row])
    return Verdict(word) if word else None


def _number(found: Batch, column: str, row: int) -> float | None:
    number = float(found[column].magnitude[row])
    return None if np.isnan(number) else number
