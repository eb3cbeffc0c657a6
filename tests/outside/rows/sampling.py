"""Rows of `barwright.mechanics.uncertainty.sampling`.

The sum of four rectangles of GUM supplement 1, recalled and by scipy; moments of
distributions by scipy.
"""

from __future__ import annotations

import numpy as np
import scipy.stats

from barwright.mechanics.uncertainty.coverage import symmetric_interval
from barwright.mechanics.uncertainty.sampling import (
    Distribution,
    MonteCarlo,
    draw_inputs,
    monte_carlo,
)
from validation import Kind, Row

SUPPLEMENT = "JCGM 101:2008, 9.2.3"
FOUR = "sum of four inputs, each from a rectangle of standard deviation 1"
DRAWS = 1_000_000


def four_rectangles() -> MonteCarlo:
    """Sum of four inputs, each from a rectangle of standard deviation 1."""
    return monte_carlo(
        lambda x: x.sum(axis=0), values=[0.0] * 4, uncertainties=[1.0] * 4, draws=DRAWS, seed=101
    )


def end_by_scipy(share: float) -> float:
    """Upper end of the interval of that sum: Irwin and Hall's distribution."""
    return float((scipy.stats.irwinhall.ppf((1.0 + share) / 2.0, 4) - 2.0) * 2.0 * np.sqrt(3.0))


def half_width() -> float:
    """Of the same by the kernel."""
    low, high = symmetric_interval(four_rectangles().outputs, coverage=0.95)
    return float(high - low) / 2.0


def high_tenth(kind: Distribution) -> float:
    """What a tenth of the draws of an input 10 ± 1 exceeds."""
    drawn = draw_inputs(values=[10.0], uncertainties=[1.0], distributions=kind, draws=DRAWS, seed=7)
    return float(np.quantile(drawn, 0.9))


TENTHS = {
    Distribution.NORMAL: scipy.stats.norm(10.0, 1.0),
    Distribution.RECTANGULAR: scipy.stats.uniform(10.0 - np.sqrt(3.0), 2.0 * np.sqrt(3.0)),
    Distribution.TRIANGULAR: scipy.stats.triang(0.5, 10.0 - np.sqrt(6.0), 2.0 * np.sqrt(6.0)),
}

ROWS = [
    *(
        Row(
            of="sampling.draw_inputs",
            source=f"scipy, quantile of a {kind.value} distribution",
            given=f"10, standard uncertainty 1, {DRAWS} draws: value that a tenth of them exceed",
            unit="",
            expected=lambda held=held: float(held.ppf(0.9)),  # type: ignore[misc]
            got=lambda kind=kind: high_tenth(kind),  # type: ignore[misc]
            within=5e-4,
            why="scatter of the draws",
            kind=Kind.FORMULATED,
        )
        for kind, held in TENTHS.items()
    ),
    Row(
        of="sampling.monte_carlo",
        source=SUPPLEMENT,
        given=f"{FOUR}: ± at 95 %",
        unit="",
        expected=3.88,
        got=half_width,
        within=(0.005 + 0.012) / 3.88,
        why="printed to 0.01; scatter of the draws",
        kind=Kind.RECALLED,
    ),
    Row(
        of="sampling.monte_carlo",
        source="scipy, quantile of Irwin and Hall's distribution",
        given=f"{FOUR}: ± at 95 %",
        unit="",
        expected=lambda: end_by_scipy(0.95),
        got=half_width,
        within=4e-3,
        why="scatter of the draws",
        kind=Kind.FORMULATED,
    ),
    Row(
        of="sampling.monte_carlo",
        source="scipy, standard deviation of Irwin and Hall's distribution",
        given=f"{FOUR}: standard uncertainty",
        unit="",
        expected=lambda: float(scipy.stats.irwinhall.std(4) * 2.0 * np.sqrt(3.0)),
        got=lambda: float(four_rectangles().uncertainty),
        within=2e-3,
        why="scatter of the draws",
        kind=Kind.FORMULATED,
    ),
]
