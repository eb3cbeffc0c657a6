"""Rows of `barwright.mechanics.uncertainty.propagation`.

The end gauge of the GUM, recalled; what GTC makes of it, of correlated inputs and of a rectangle.
"""

from __future__ import annotations

import functools
import math
from typing import Any, TypeAlias

import attrs
import GTC
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    rectangular_uncertainty,
    variance_shares,
)
from validation import Kind, Row

Array: TypeAlias = NDArray[np.float64]

GUM = "JCGM 100:2008, H.1, end gauge"


@attrs.frozen
class EndGauge:
    """The end gauge of H.1: names, estimates, standard uncertainties, degrees of freedom.

    Its length is that of a standard, and the difference that a comparator shows, corrected
    for what the two expand by [nm, K, 1/K].
    """

    values = (50_000_623.0, 215.0, 0.0, 0.0, 11.5e-6, -0.1, 0.0, 0.0, 0.0)
    uncertainties = (
        *(25.0, 5.8, 3.9, 6.7, 1.2e-6, 0.2, 0.35),
        *(1e-6 / math.sqrt(3.0), 0.05 / math.sqrt(3.0)),
    )
    freedom = (18.0, 24.0, 5.0, 8.0, np.inf, np.inf, np.inf, 50.0, 2.0)

    @staticmethod
    def length(x: Any) -> Any:
        """Of the gauge, from numbers, arrays or uncertain numbers."""
        standard, mean, random, systematic, expansion, bath, cycle, *differences = x
        between, warmer = differences
        shown = mean + random + systematic
        return standard + shown - standard * (between * (bath + cycle) + expansion * warmer)


GAUGE = EndGauge()


@functools.cache
def gauge_by_gtc() -> Any:
    """Length of the end gauge as an uncertain number, and its inputs."""
    each = zip(GAUGE.values, GAUGE.uncertainties, GAUGE.freedom, strict=True)
    inputs = [GTC.ureal(value, u, df) for value, u, df in each]
    return GAUGE.length(inputs), inputs


def gauge_contributions() -> Array:
    """What each input of the end gauge contributes, by GTC."""
    found, inputs = gauge_by_gtc()
    return np.array([GTC.component(found, x) for x in inputs])


# Three inputs of which two vary together, in a product over a difference.
CORRELATION = ((1.0, 0.6, 0.0), (0.6, 1.0, 0.0), (0.0, 0.0, 1.0))
TOGETHER: dict[str, Any] = {"values": (3.0, 2.0, 7.0), "uncertainties": (0.1, 0.2, 0.3)}


def quotient(x: Any) -> Any:
    """A product over a difference, of numbers, arrays or uncertain numbers."""
    return x[0] * x[1] / (x[2] - x[1])


@functools.cache
def quotient_by_gtc() -> Any:
    """The same as an uncertain number with correlated inputs, and its inputs."""
    pairs = zip(TOGETHER["values"], TOGETHER["uncertainties"], strict=True)
    inputs = [GTC.ureal(value, u, independent=False) for value, u in pairs]
    GTC.set_correlation(CORRELATION[0][1], inputs[0], inputs[1])
    return quotient(inputs), inputs


def quotient_contributions() -> Array:
    """What each input of the quotient contributes, with its sign, by GTC."""
    found, inputs = quotient_by_gtc()
    return np.array([GTC.rp.sensitivity(found, x) * GTC.uncertainty(x) for x in inputs])


def share_by_gtc(index: int) -> float:
    """Of an input of the end gauge in its variance."""
    found, inputs = gauge_by_gtc()
    return float(GTC.component(found, inputs[index]) ** 2 / GTC.variance(found))


ROWS = [
    Row(
        of="propagation.rectangular_uncertainty",
        source="GTC, type B uncertainty of a uniform distribution",
        given="half width 0.05 mm",
        unit="mm",
        expected=lambda: GTC.tb.uniform(0.05),
        got=lambda: float(rectangular_uncertainty(0.05)),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="propagation.rectangular_uncertainty",
        source=GUM,
        given="difference of expansion, half width 1e-6 1/K",
        unit="1e-6/K",
        expected=0.58,
        got=lambda: float(rectangular_uncertainty(1.0)),
        within=0.005 / 0.58,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="propagation.combined_uncertainty",
        source=GUM,
        given="contributions of all nine inputs",
        unit="nm",
        expected=32.0,
        got=lambda: float(combined_uncertainty(gauge_contributions())),
        within=0.5 / 32.0,
        why="printed to 1 nm",
        kind=Kind.RECALLED,
    ),
    Row(
        of="propagation.combined_uncertainty",
        source="GTC, uncertain numbers with a correlation of 0.6",
        given="x y / (z − y) at 3 ± 0.1, 2 ± 0.2, 7 ± 0.3",
        unit="",
        expected=lambda: GTC.uncertainty(quotient_by_gtc()[0]),
        got=lambda: float(combined_uncertainty(quotient_contributions(), correlation=CORRELATION)),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="propagation.variance_shares",
        source="GTC, component of the uncertainty, squared, over the variance",
        given=f"{GUM}: the standard's share",
        unit="",
        expected=lambda: share_by_gtc(0),
        got=lambda: float(variance_shares(gauge_contributions())[0]),
        within=1e-6,
        kind=Kind.ENGINE,
    ),
]
