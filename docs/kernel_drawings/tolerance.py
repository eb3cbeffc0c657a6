"""Figures of the kernels of tolerance: what is known of a result, and how well."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.bar.torsion import torsional_rate
from barwright.mechanics.common.types import Real
from barwright.mechanics.uncertainty.coverage import coverage_factor, symmetric_interval
from barwright.mechanics.uncertainty.hypotheses import posterior, reading_density
from barwright.mechanics.uncertainty.propagation import (
    combined_uncertainty,
    rectangular_uncertainty,
    variance_shares,
)
from barwright.mechanics.uncertainty.sampling import draw_inputs
from kernel_drawings.sheet import LEFT, RIGHT, WIDE, Figures, curve_up_to, legend
from svg import Chart, Drawing

VALUES = (0.0252, 77.2e9, 0.820)
HALF_WIDTHS = (0.10e-3, 2.0e9, 3.0e-3)
NAMES = ("diameter", "shear modulus", "active length")


def rate(inputs: NDArray[np.float64]) -> Real:
    """Rate of a bar [N·m/deg] from diameter, shear modulus and active length."""
    diameter, modulus, length = inputs
    per_radian = torsional_rate(diameter=diameter, shear_modulus=modulus, active_length=length)
    return per_radian * math.radians(1.0)


def _spreads() -> list[float]:
    return [float(rectangular_uncertainty(half)) for half in HALF_WIDTHS]


def _contributions() -> NDArray[np.float64]:
    """Return what each input alone adds, by the change of the rate over two uncertainties."""
    steps = np.diag(_spreads())
    values = np.array(VALUES)
    ends = [(rate(values + step), rate(values - step)) for step in steps]
    return np.array([(float(high) - float(low)) / 2.0 for high, low in ends])


def propagation() -> Drawing:
    """Draw what each input's tolerance adds to the uncertainty of a bar's rate."""
    out = Drawing(760, 260, "What each input adds to the uncertainty of a bar's rate")
    found = _contributions()
    chart = Chart(out, (250.0, 54.0, 730.0, 204.0), across=(0.0, 1.0), up=(0.0, 3.0))
    chart.ticks((0, 0.2, 0.4, 0.6, 0.8, 1), ())
    chart.names("share of the variance", "")
    words = ("25.2 mm ± 0.1 mm", "77.2 GPa ± 2 GPa", "820 mm ± 3 mm")
    for row, (name, figure, share) in enumerate(
        zip(NAMES, words, variance_shares(found).tolist(), strict=True)
    ):
        y = 2.5 - row
        near, far = chart.at(0.0, y + 0.3), chart.at(share, y - 0.3)
        out.box(near[0], far[0], near[1], far[1], "part")
        out.text((240, chart.at(0.0, y)[1] - 3), name, "bold", "end")
        out.text((240, chart.at(0.0, y)[1] + 13), figure, "small", "end")
        out.text((far[0] + 6, chart.at(0.0, y)[1] + 4), f"{share:.0%}", "small", "start")
    value, spread = float(rate(np.array(VALUES))), float(combined_uncertainty(found))
    out.text(
        (490, 34), f"rate {value:.1f} N·m/deg, standard uncertainty {spread:.1f} N·m/deg", "bold"
    )
    return out


def _histogram(
    out: Drawing, chart: Chart, draws: NDArray[np.float64], bins: NDArray[np.float64]
) -> None:
    """Draw how often draws fall between values, as a density."""
    heights, edges = np.histogram(draws, bins=bins, density=True)
    for height, low, high in zip(
        heights.tolist(), edges[:-1].tolist(), edges[1:].tolist(), strict=True
    ):
        corners = [
            chart.at(low, 0.0),
            chart.at(low, height),
            chart.at(high, height),
            chart.at(high, 0.0),
        ]
        out.path(corners, "tube", closed=True)


def sampling() -> Drawing:
    """Draw rates of a bar for 20 000 drawn inputs, and the normal curve of first order."""
    out = Drawing(760, 330, "Rates for drawn inputs, and what first order says of them")
    drawn = np.asarray(
        rate(draw_inputs(values=VALUES, uncertainties=_spreads(), draws=20_000, seed=7))
    )
    chart = Chart(out, WIDE, across=(61.0, 69.0), up=(0.0, 0.5))
    chart.ticks(range(61, 70), (0, 0.1, 0.2, 0.3, 0.4, 0.5))
    chart.names("rate, N·m/deg", "density, 1/(N·m/deg)")
    _histogram(out, chart, drawn, np.linspace(61.0, 69.0, 41))
    x = np.linspace(61.0, 69.0, 161)
    value, spread = float(rate(np.array(VALUES))), float(combined_uncertainty(_contributions()))
    bell = np.exp(-0.5 * ((x - value) / spread) ** 2) / (spread * np.sqrt(2.0 * np.pi))
    chart.curve(x, bell, "old")
    words = f"normal curve of first order: {value:.2f}, u = {spread:.2f}"
    legend(out, (86.0, 54.0), (("old", words),))
    out.box(86.0, 110.0, 66.0, 78.0, "tube")
    drawn_words = f"20 000 draws: {np.mean(drawn):.2f}, u = {np.std(drawn):.2f}"
    out.text((116, 76), drawn_words, "small", "start")
    return out


def coverage() -> Drawing:
    """Draw coverage factors over the degrees of freedom, and an interval of lopsided draws."""
    out = Drawing(760, 330, "Coverage factors, and the interval that holds 90 % of draws")
    chart = Chart(out, LEFT, across=(2.0, 20.0), up=(1.0, 6.0))
    chart.ticks((2, 5, 10, 15, 20), (1, 2, 3, 4, 5, 6))
    chart.names("effective degrees of freedom", "coverage factor")
    freedom = np.arange(2.0, 21.0)
    for share, style in ((0.99, "old"), (0.95, "new")):
        factor = coverage_factor(share, degrees_of_freedom=freedom)
        curve_up_to(chart, 6.0, freedom, factor, style)
        endless = float(coverage_factor(share))
        chart.curve((2.0, 20.0), (endless, endless), "dash")
    entries = (("old", "99 %"), ("new", "95 %"), ("dash", "as many as you like"))
    legend(out, (200.0, 54.0), entries)
    # What goes with a high power of what is drawn evenly is lopsided.
    drawn = draw_inputs(values=[1.0], uncertainties=[0.2], draws=20_000, seed=3)[0] ** 4
    chart = Chart(out, RIGHT, across=(0.0, 4.0), up=(0.0, 1.4))
    chart.ticks((0, 1, 2, 3, 4), (0, 0.4, 0.8, 1.2))
    chart.names("value", "density of draws")
    _histogram(out, chart, drawn, np.linspace(0.0, 4.0, 41))
    low, high = (float(end) for end in symmetric_interval(drawn, coverage=0.9))
    chart.curve((low, high), (1.22, 1.22), "old")
    for end in (low, high):
        chart.curve((end, end), (0.0, 1.22), "old")
    legend(out, (504.0, 100.0), (("old", "as many draws beyond either end"),))
    return out


def hypotheses() -> Drawing:
    """Draw densities of a reading under three bars, and how likely each then is."""
    out = Drawing(760, 330, "A reading of the diameter, and which of three bars it tells")
    listed, readings = np.array([[23.1], [23.7], [25.0]]), np.linspace(22.5, 25.5, 301)
    densities = np.asarray(
        reading_density(readings, expected=listed, uncertainty=0.12, blunder_share=0.02, span=30.0)
    )
    likely = posterior(np.log(densities.T), prior=np.full(3, 1.0 / 3.0)).T
    styles = ("old", "new", "dash")
    words = ("23.1 mm", "23.7 mm", "25.0 mm")
    for box, rows, top, name in (
        (LEFT, densities, 4.0, "density, 1/mm"),
        (RIGHT, likely, 1.0, "probability"),
    ):
        chart = Chart(out, box, across=(22.5, 25.5), up=(0.0, top))
        chart.ticks((22.5, 23, 23.5, 24, 24.5, 25, 25.5), (0, top / 2, top))
        chart.names("reading, mm", name)
        for row, style in zip(rows, styles, strict=True):
            chart.curve(readings, row, style)
    legend(out, (210.0, 54.0), tuple(zip(styles, words, strict=True)))
    return out


FIGURES: Figures = {
    "propagation": propagation,
    "sampling": sampling,
    "coverage": coverage,
    "hypotheses": hypotheses,
}
