"""Measures how the time of every regular expression grows with hostile text.

    cd tests && python -m benchmarks.patterns [--size 4096]

Each pattern is put to the shapes of `hostile.patterns`, at one length and at four times that.
Time that grows with the length makes the ratio 4, with its square 16; the exit code is 1 if
any is above 9, time and again.
"""

from __future__ import annotations

import argparse
import heapq
import time
from collections.abc import Callable

from hostile.patterns import SHAPES, Use, uses

__all__ = ["MOST", "growth", "main"]

MOST = 9.0
"""Ratio that is taken for the square of the length."""

_TIMES = 4
_SIZE = 4096
_REPEATS = 5

# Of each pattern, so many of the slowest shapes are looked at twice: a square is among them.
_SLOWEST = 5


def growth(cost: Callable[[int], float], size: int = _SIZE) -> float:
    """Return by how much a cost grows where the length grows fourfold."""
    return cost(size * _TIMES) / cost(size)


def main() -> int:
    """Measure every pattern, and print the worst shape of each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--size", type=int, default=_SIZE)
    size: int = parser.parse_args().size
    worst = 0.0
    for use in uses():
        ratio, slowest, shape = _worst(use, size)
        worst = max(worst, ratio)
        reported = f"{use.place} {use.method}"
        print(f"{reported:<84} ratio {ratio:>5.1f}  {slowest * 1e3:>7.2f} ms  {shape}")  # noqa: T201
    return int(worst > MOST)


def _worst(use: Use, size: int) -> tuple[float, float, tuple[str, str, str]]:
    """Greatest ratio of a pattern, the longest time, and the shape that has it."""
    times = {shape: _seconds(use, shape, size * _TIMES) for shape in SHAPES}
    slowest = heapq.nlargest(_SLOWEST, SHAPES, key=times.__getitem__)
    worst = max(_ratio(use, shape, size) for shape in slowest)
    return worst, times[slowest[0]], slowest[0]


def _ratio(use: Use, shape: tuple[str, str, str], size: int) -> float:
    """Least ratio of some: a disturbance makes one greater, and a square all of them."""
    return min(growth(lambda length: _seconds(use, shape, length), size) for _ in range(_REPEATS))


def _seconds(use: Use, shape: tuple[str, str, str], length: int) -> float:
    before, piece, after = shape
    text = before + piece * (length // len(piece)) + after
    start = time.process_time()
    use.apply(text)
    return max(time.process_time() - start, 1e-6)


if __name__ == "__main__":
    raise SystemExit(main())
