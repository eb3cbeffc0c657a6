"""Rows of `barwright.mechanics.strength.fatigue`.

Printed examples, two of them recalled; and the lines and curves of Haigh's diagram
as they are drawn, met with the line of a growing load by shapely or scipy.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pandas as pd
import pylife.stress.collective  # noqa: F401 - registers the accessor
import scipy.constants
import scipy.optimize
from shapely import LineString, Point, Polygon

from barwright.mechanics.bar.torsion import shear_stress
from barwright.mechanics.strength.fatigue import (
    elliptic_factor,
    gerber_factor,
    goodman_amplitude,
    goodman_factor,
    haigh_line,
    mean_and_amplitude,
    soderberg_factor,
    static_factor,
    yield_factor,
)
from outside.sections import ring
from validation import Kind, Row

KPSI = 1e3 * scipy.constants.psi
FAR = 1e3

AMPLITUDE, MEAN, ENDURANCE, ULTIMATE, YIELD = 150.0, 450.0, 400.0, 1000.0, 800.0
GIVEN = "amplitude 150, mean 450, endurance 400 MPa"
BROWN = "Brown, *Marks' Calculations for Machine Design* (2005), ch. 7, example 3"
SHIGLEY = "Shigley, *Mechanical Engineering Design*, 8th ed., example 6-10"


def brown(endurance: float) -> float:
    """Factor of Brown's example with one of its endurance limits [kpsi]."""
    return float(
        goodman_factor(
            amplitude=3.6 * KPSI,
            mean=36.2 * KPSI,
            endurance=endurance * KPSI,
            ultimate=60.3 * KPSI,
        )
    )


def met_by_shapely(
    *, amplitude: float, mean: float, on_amplitudes: float, on_means: float
) -> float:
    """Growth of a load until it meets a straight line between two axes, by geometry."""
    line = LineString([(0.0, on_amplitudes), (on_means, 0.0)])
    load = LineString([(0.0, 0.0), (FAR * mean, FAR * amplitude)])
    origin = Point(0.0, 0.0)
    grown = origin.distance(line.intersection(load))
    return float(grown / origin.distance(Point(mean, amplitude)))


def met_by_scipy(curve: Callable[[float], float], *, amplitude: float, mean: float) -> float:
    """Growth of a load until it meets a curve, given as amplitudes over means."""
    return float(
        scipy.optimize.brentq(
            lambda n: n * amplitude - curve(n * mean), 0.0, FAR, xtol=1e-14, rtol=1e-14
        )
    )


def parabola(mean: float) -> float:
    """Gerber's parabola: vertex on the axis of amplitudes, root at the ultimate stress."""
    through = np.polynomial.Polynomial.fromroots([-ULTIMATE, ULTIMATE])
    return float(ENDURANCE * through(mean) / through(0.0))


def ellipse(mean: float) -> float:
    """Quarter of an ellipse about the origin, by its angle; nothing beyond its axis."""
    return float(ENDURANCE * np.sin(np.arccos(np.clip(mean / YIELD, -1.0, 1.0))))


def pylife_swing() -> pd.Series:
    """A swing between 350 and 750 MPa as pylife sees it."""
    return pd.DataFrame({"from": [350.0], "to": [750.0]}).load_collective


def peak_reaches(limit: float) -> float:
    """Growth of a swinging stress until the highest of its values over time is a limit."""
    over_time = MEAN + AMPLITUDE * np.sin(np.linspace(0.0, 2.0 * np.pi, 9))
    return float(
        scipy.optimize.brentq(lambda n: np.max(n * over_time) - limit, 0.0, FAR, xtol=1e-14)
    )


def grown_to_limit() -> float:
    """Growth of 900 N·m until the greatest stress of a ring is 700 MPa."""
    stress = ring(diameter=0.030, bore=0.012).stress
    return float(scipy.optimize.brentq(lambda n: n * 900.0 * stress - 700e6, 0.0, FAR, xtol=1e-14))


def clipped_corner() -> tuple[float, float]:
    """Corner, away from both axes, of the area under Goodman's line and that of yield."""
    under_goodman = Polygon([(0.0, 0.0), (ULTIMATE, 0.0), (0.0, ENDURANCE)])
    under_yield = Polygon([(0.0, 0.0), (YIELD, 0.0), (0.0, YIELD)])
    corners = under_goodman.intersection(under_yield).exterior.coords
    (corner,) = {(mean, amplitude) for mean, amplitude in corners if mean > 1.0 and amplitude > 1.0}
    return corner


def on_goodmans_line(mean: float) -> float:
    """Amplitude at a mean, where a vertical meets the drawn line."""
    line = LineString([(0.0, ENDURANCE), (ULTIMATE, 0.0)])
    return float(line.intersection(LineString([(mean, -FAR), (mean, FAR)])).y)


def middle_corner(which: int) -> float:
    """Mean (0) or amplitude (1) of the middle corner."""
    line = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE, shear_yield=YIELD)
    return float(np.asarray(line[which])[1])


ROWS = [
    Row(
        of="fatigue.mean_and_amplitude",
        source="pylife, mean of a load collective",
        given="350 and 750 MPa",
        unit="MPa",
        expected=lambda: pylife_swing().meanstress.iloc[0],
        got=lambda: float(mean_and_amplitude(one=350.0, other=750.0)[0]),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="fatigue.mean_and_amplitude",
        source="pylife, amplitude of a load collective",
        given="350 and 750 MPa",
        unit="MPa",
        expected=lambda: pylife_swing().amplitude.iloc[0],
        got=lambda: float(mean_and_amplitude(one=350.0, other=750.0)[1]),
        within=1e-12,
        kind=Kind.ENGINE,
    ),
    Row(
        of="fatigue.static_factor",
        source="scikit-fem, stress function of a ring; scipy, factor on its torque at the limit",
        given="900 N·m on 30 mm with a bore of 12 mm; limit 700 MPa",
        unit="",
        expected=grown_to_limit,
        got=lambda: float(
            static_factor(shear_stress(900.0, diameter=0.030, bore=0.012), limit=700e6)
        ),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.yield_factor",
        source=SHIGLEY,
        given="amplitude and mean 8.38 kpsi, yield 84 kpsi",
        unit="",
        expected=5.01,
        got=lambda: float(
            yield_factor(amplitude=8.38 * KPSI, mean=8.38 * KPSI, shear_yield=84.0 * KPSI)
        ),
        within=0.005 / 5.01,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="fatigue.yield_factor",
        source="scipy, factor on a sine whose peak then reaches yield, by a root search",
        given="amplitude 150, mean 450, yield 800 MPa",
        unit="",
        expected=lambda: peak_reaches(YIELD),
        got=lambda: float(yield_factor(amplitude=AMPLITUDE, mean=MEAN, shear_yield=YIELD)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.goodman_factor",
        source=BROWN,
        kind=Kind.READ,
        given="amplitude 3.6, mean 36.2, endurance 6.2, ultimate 60.3 kpsi",
        unit="",
        expected=0.847,
        got=lambda: brown(6.2),
        within=0.0005 / 0.847,
        why="printed to 0.001",
    ),
    Row(
        of="fatigue.goodman_factor",
        source=BROWN,
        kind=Kind.READ,
        given="amplitude 3.6, mean 36.2, endurance 12.4, ultimate 60.3 kpsi",
        unit="",
        expected=1.12,
        got=lambda: brown(12.4),
        within=0.005 / 1.12,
        why="printed to 0.01",
    ),
    Row(
        of="fatigue.goodman_factor",
        source="shapely, where the load line meets the drawn line",
        given=f"{GIVEN}, ultimate 1000 MPa",
        unit="",
        expected=lambda: met_by_shapely(
            amplitude=AMPLITUDE, mean=MEAN, on_amplitudes=ENDURANCE, on_means=ULTIMATE
        ),
        got=lambda: float(
            goodman_factor(amplitude=AMPLITUDE, mean=MEAN, endurance=ENDURANCE, ultimate=ULTIMATE)
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.soderberg_factor",
        source="shapely, where the load line meets the drawn line",
        given=f"{GIVEN}, yield 800 MPa",
        unit="",
        expected=lambda: met_by_shapely(
            amplitude=AMPLITUDE, mean=MEAN, on_amplitudes=ENDURANCE, on_means=YIELD
        ),
        got=lambda: float(
            soderberg_factor(amplitude=AMPLITUDE, mean=MEAN, endurance=ENDURANCE, shear_yield=YIELD)
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.gerber_factor",
        source=SHIGLEY,
        given="amplitude and mean 8.38, endurance 33.9, ultimate 100 kpsi",
        unit="",
        expected=3.66,
        got=lambda: float(
            gerber_factor(
                amplitude=8.38 * KPSI,
                mean=8.38 * KPSI,
                endurance=33.9 * KPSI,
                ultimate=100.0 * KPSI,
            )
        ),
        within=0.005 / 3.66,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="fatigue.gerber_factor",
        source="scipy, where the load line meets the parabola, by a root search",
        given=f"{GIVEN}, ultimate 1000 MPa",
        unit="",
        expected=lambda: met_by_scipy(parabola, amplitude=AMPLITUDE, mean=MEAN),
        got=lambda: float(
            gerber_factor(amplitude=AMPLITUDE, mean=MEAN, endurance=ENDURANCE, ultimate=ULTIMATE)
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.elliptic_factor",
        source=SHIGLEY,
        given="amplitude and mean 8.38, endurance 33.9, yield 84 kpsi",
        unit="",
        expected=3.75,
        got=lambda: float(
            elliptic_factor(
                amplitude=8.38 * KPSI,
                mean=8.38 * KPSI,
                endurance=33.9 * KPSI,
                shear_yield=84.0 * KPSI,
            )
        ),
        within=0.005 / 3.75,
        why="printed to 0.01",
        kind=Kind.RECALLED,
    ),
    Row(
        of="fatigue.elliptic_factor",
        source="scipy, where the load line meets the ellipse, by a root search",
        given=f"{GIVEN}, yield 800 MPa",
        unit="",
        expected=lambda: met_by_scipy(ellipse, amplitude=AMPLITUDE, mean=MEAN),
        got=lambda: float(
            elliptic_factor(amplitude=AMPLITUDE, mean=MEAN, endurance=ENDURANCE, shear_yield=YIELD)
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.goodman_amplitude",
        source="shapely, where a vertical meets the drawn line",
        given="mean 325, endurance 400, ultimate 1000 MPa",
        unit="MPa",
        expected=lambda: on_goodmans_line(325.0),
        got=lambda: float(goodman_amplitude(325.0, endurance=ENDURANCE, ultimate=ULTIMATE)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.haigh_line",
        source="shapely, area under Goodman's line clipped with that under yield: corner's mean",
        given="endurance 400, ultimate 1000, yield 800 MPa",
        unit="MPa",
        expected=lambda: clipped_corner()[0],
        got=lambda: middle_corner(0),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="fatigue.haigh_line",
        source="shapely, the same: corner's amplitude",
        given="endurance 400, ultimate 1000, yield 800 MPa",
        unit="MPa",
        expected=lambda: clipped_corner()[1],
        got=lambda: middle_corner(1),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
]
