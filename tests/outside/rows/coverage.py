"""Rows of `barwright.mechanics.uncertainty.coverage`.

The end gauge and the table of Student's factors of the GUM, recalled; distributions and
their quantiles by scipy, degrees of freedom by GTC.
"""

from __future__ import annotations

import math
from typing import Any, TypeAlias

import GTC
import numpy as np
import scipy.optimize
import scipy.stats
from numpy.typing import NDArray

from barwright.mechanics.uncertainty.coverage import (
    coverage_factor,
    expanded_uncertainty,
    symmetric_interval,
)
from validation import Kind, Row

from .propagation import GUM, gauge_by_gtc

Array: TypeAlias = NDArray[np.float64]

TABLE = "JCGM 100:2008, table G.2"
SKEW = scipy.stats.gamma(2.0)
MANY = 200_001


def even(distribution: Any) -> Array:
    """Draws that lie as evenly as a distribution has them, out of order."""
    ranks = (np.arange(MANY) + 0.5) / MANY
    return np.asarray(np.random.default_rng(1).permutation(distribution.ppf(ranks)))


def student(share: float, freedom: float) -> float:
    """Factor of Student's distribution by scipy."""
    return float(scipy.stats.t.ppf((1.0 + share) / 2.0, freedom))


def expanded_by_gtc() -> float:
    """Expanded uncertainty of the end gauge at 99 %, by GTC [nm]."""
    length, _ = gauge_by_gtc()
    return float(GTC.rp.k_factor(math.floor(GTC.dof(length)), 99) * GTC.uncertainty(length))


def expanded_gauge() -> float:
    """The same by the kernels, from the standard uncertainty [nm]."""
    length, _ = gauge_by_gtc()
    factor = coverage_factor(0.99, degrees_of_freedom=GTC.dof(length))
    return float(expanded_uncertainty(GTC.uncertainty(length), coverage_factor=factor))


ROWS = [
    Row(
        of="coverage.expanded_uncertainty",
        source="GTC, k-factor of the end gauge's degrees of freedom, rounded down to a whole "
        "number",
        given="JCGM 100:2008, H.1, end gauge: at 99 %",
        unit="nm",
        expected=expanded_by_gtc,
        got=expanded_gauge,
        within=1e-6,
        kind=Kind.ENGINE,
    ),
    Row(
        of="coverage.expanded_uncertainty",
        source=GUM,
        given="32 nm with factor 2.92",
        unit="nm",
        expected=93.0,
        got=lambda: float(expanded_uncertainty(32.0, coverage_factor=2.92)),
        within=0.5 / 93.0,
        why="printed to 1 nm",
        kind=Kind.RECALLED,
    ),
    Row(
        of="coverage.coverage_factor",
        source=GUM,
        given="coverage 99 %, 16 degrees of freedom",
        unit="",
        expected=2.92,
        got=lambda: float(coverage_factor(0.99, degrees_of_freedom=16.0)),
        within=0.005 / 2.92,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="coverage.coverage_factor",
        source=TABLE,
        given="coverage 95 %, 10 degrees of freedom",
        unit="",
        expected=2.23,
        got=lambda: float(coverage_factor(0.95, degrees_of_freedom=10.0)),
        within=0.005 / 2.23,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="coverage.coverage_factor",
        source="scipy, quantile of Student's distribution",
        given="coverage 95 %, 3 degrees of freedom",
        unit="",
        expected=lambda: student(0.95, 3.0),
        got=lambda: float(coverage_factor(0.95, degrees_of_freedom=3.0)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="coverage.coverage_factor",
        source="scipy, quantile of the normal distribution",
        given="coverage 95.45 %",
        unit="",
        expected=lambda: float(scipy.stats.norm.ppf(0.97725)),
        got=lambda: float(coverage_factor(0.9545)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="coverage.symmetric_interval",
        source="scipy, quantile of a gamma distribution of shape 2",
        given=f"{MANY} draws, coverage 95 %: lower end",
        unit="",
        expected=lambda: float(SKEW.ppf(0.025)),
        got=lambda: float(symmetric_interval(even(SKEW), coverage=0.95)[0]),
        within=2e-4,
        why="step between two draws",
        kind=Kind.FORMULATED,
    ),
]
