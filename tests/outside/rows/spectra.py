"""Rows of `barwright.mechanics.strength.spectra`: decades, and the integral of a straight line."""

from __future__ import annotations

import math

import numpy as np
import scipy.integrate

from barwright.mechanics.strength.spectra import straight_line_spectrum
from validation import Kind, Row


def damage_of_the_line(strokes: float, exponent: float) -> float:
    """Sum of sizes to a power over a straight line in logarithms, one greatest stroke included."""

    def each(size: float) -> float:
        return float(size**exponent * math.log(strokes) * strokes ** (1.0 - size))

    below, _ = scipy.integrate.quad(each, 0.0, 1.0, epsabs=0.0, epsrel=1e-12)
    return float(below) + 1.0


def damage_of_classes(strokes: float, exponent: float, classes: int) -> float:
    """The same of the kernel's classes."""
    shares, numbers = straight_line_spectrum(strokes=strokes, classes=classes)
    return float(np.sum(numbers * shares**exponent))


ROWS = [
    Row(
        of="spectra.straight_line_spectrum",
        source="numpy, decades: strokes that reach a share of the greatest",
        given="100 000 strokes, those of more than 3/5",
        unit="strokes",
        expected=lambda: float(np.geomspace(1e5, 1.0, 6)[3]),
        got=lambda: float(straight_line_spectrum(strokes=1e5, classes=5)[1][3:].sum()),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="spectra.straight_line_spectrum",
        source="scipy, quadrature of the straight line",
        given="100 000 strokes in 20 000 classes, sizes to the sixth power",
        unit="",
        expected=lambda: damage_of_the_line(1e5, 6.0),
        got=lambda: damage_of_classes(1e5, 6.0, 20_000),
        within=1e-3,
        why="classes count a stroke as large as they allow",
        kind=Kind.FORMULATED,
    ),
]
