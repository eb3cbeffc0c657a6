"""Rows of `barwright.mechanics.uncertainty.sampling`.

The sum of four rectangles of GUM supplement 1, recalled and by scipy; moments of
distributions by scipy.
"""

from __future__ import annotations

import numpy as np
import scipy.stats

from barwright.mechanics.uncertainty.sampling import (
    Distribution,
    draw_inputs,
)
from validation import Kind, Row

DRAWS = 1_000_000


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
]
