"""Loose bars, drawn and measured by chance: how often the bar that is named is the right one.

    cd tests && python loose_bars.py 10000

prints, for bars with few and with many readings, how often the likeliest bar is the right one, and
how often bars are right that were given some probability.
"""

from __future__ import annotations

import itertools
import sys
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import attrs
import numpy as np

import barwright as bw
from barwright.analysis.identification.candidates import (
    Candidates,
    Column,
    columns_of,
    standard_error,
)
from barwright.analysis.identification.evidence import UNLISTED, readings_of, weighed
from barwright.analysis.identification.identify import groups_of
from barwright.analysis.identification.traits import BLUNDERS
from barwright.parts.measurements.measured_bar import MeasuredBar, MeasuredEnd
from barwright.units import ANGLE, LENGTH, quantity
from sample_packs import discovered_once

__all__ = ["Trial", "calibration", "trials"]

MAY_BE_MISSING = {"bore", "taper", "nose"}


@attrs.frozen
class Trial:
    """A bar that was drawn and measured, and what was made of it.

    Parameters
    ----------
    certainty : float
        Probability that the likeliest bar was given.
    is_right : bool
        Whether it is the one that was drawn, or one that no figure tells from it.
    readings : int
        How much was measured.
    """

    certainty: float
    is_right: bool
    readings: int


def trials(count: int, *, seed: int, least: int = 1, most: int = 8) -> Iterator[Trial]:
    """Draw bars of the demo packs, a tenth of them none of these, and identify each."""
    chance = np.random.default_rng(seed)
    bars = [part for part in discovered_once().parts() if isinstance(part, bw.parts.Bar)]
    candidates = Candidates.of(bars)
    groups = groups_of(candidates)
    columns = list(columns_of(2))
    for _ in range(count):
        listed = chance.random() >= UNLISTED
        way = int(chance.integers(2 * len(bars))) if listed else None
        asked = chance.permutation(len(columns))[: int(chance.integers(least, most + 1))]
        chosen = [columns[one] for one in asked]
        read = {c: _reading(candidates, c, way, chance) for c in chosen}
        measured = _measured({c: one for c, one in read.items() if one is not None})
        found = weighed(candidates, readings_of(measured), measured)
        probabilities = np.append(np.bincount(groups, weights=found.bars), found.unlisted)
        best = int(np.argmax(probabilities))
        true = len(probabilities) - 1 if way is None else int(groups[way % len(bars)])
        yield Trial(float(probabilities[best]), best == true, len(chosen))


def _reading(
    candidates: Candidates, column: Column, way: int | None, chance: np.random.Generator
) -> float | None:
    """Read a figure of a bar, rarely altogether wrongly; none if the pack does not know it."""
    listed = candidates.expectation(column)
    if way is None:
        is_missing = column.trait.field in MAY_BE_MISSING and chance.random() < 0.5
        return 0.0 if is_missing else _anything(column, listed.span, chance)
    value, error = float(listed.values[way]), float(listed.errors[way])
    if not np.isfinite(value):
        return None
    if chance.random() < BLUNDERS:
        return _blunder(column, value, listed.span, chance)
    if column.trait.kind is None or (column.trait.field in MAY_BE_MISSING and value == 0.0):
        return value
    half = np.sqrt(3.0) * np.array([error, standard_error(column.trait, None)])
    return value + float(np.sum(chance.uniform(-half, half)))


def _anything(column: Column, span: float, chance: np.random.Generator) -> float:
    value = float(chance.uniform(0.0, span))
    return float(int(value) + 1) if column.trait.kind is None else value


def _blunder(column: Column, value: float, span: float, chance: np.random.Generator) -> float:
    if column.trait.kind is None and chance.random() < 0.5:
        return value + float(chance.choice([-1.0, 1.0]))
    if value > 0.0 and column.trait.field in MAY_BE_MISSING and chance.random() < 0.5:
        return 0.0
    return _anything(column, span, chance)


def _measured(read: Mapping[Column, float]) -> MeasuredBar:
    """Write down what was read, as somebody would."""

    def of(end: int | None) -> dict[str, Any]:
        return {c.trait.field: _written(c, value) for c, value in read.items() if c.end == end}

    return MeasuredBar(ends=[MeasuredEnd(**of(0)), MeasuredEnd(**of(1))], **of(None))


def _written(column: Column, value: float) -> int | bw.Quantity:
    if column.trait.kind is None:
        return int(value)
    if column.trait.kind is ANGLE:
        return quantity(value, ANGLE)
    # No size is read as less than nothing.
    return quantity(max(value, 0.0 if column.trait.field in MAY_BE_MISSING else 1e-6), LENGTH)


def calibration(done: Sequence[Trial], *, bins: int = 5) -> list[tuple[float, float, int]]:
    """Mean stated probability, share that is right and count, by stated probability."""
    edges = np.linspace(0.0, 1.0, bins + 1)
    found = []
    for low, high in itertools.pairwise(edges.tolist()):
        own = [one for one in done if low < one.certainty <= high]
        if own:
            stated = float(np.mean([one.certainty for one in own]))
            found.append((stated, float(np.mean([one.is_right for one in own])), len(own)))
    return found


def main() -> None:
    """Print how well stated probabilities hold."""
    count = int(sys.argv[1])
    for least, most in ((1, 4), (5, 8), (16, 16)):
        done = list(trials(count, seed=1, least=least, most=most))
        right = np.mean([one.is_right for one in done])
        print(f"{least} to {most} readings: the likeliest is right in {right:.1%}")  # noqa: T201 - a program for the terminal
        for stated, share, number in calibration(done):
            print(f"  stated {stated:.1%}, right {share:.1%} of {number}")  # noqa: T201


if __name__ == "__main__":
    main()
