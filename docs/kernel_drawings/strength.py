"""Figures of the kernels of strength and life."""

from __future__ import annotations

import numpy as np

from barwright.mechanics.strength.estimated_lives import (
    LOW_CYCLE_SHARES,
    TORSION_FACTOR,
    ULTIMATE_SHEAR_RATIO,
    SurfaceFinish,
    life_exponent,
    size_factor,
    specimen_endurance,
    surface_factor,
)
from barwright.mechanics.strength.fatigue import (
    elliptic_factor,
    gerber_factor,
    goodman_amplitude,
    goodman_factor,
    haigh_line,
    soderberg_factor,
)
from barwright.mechanics.strength.histories import basquin_life, count_cycles, reversed_amplitude
from barwright.mechanics.strength.shear_limits import corrected_endurance
from barwright.mechanics.strength.spectra import straight_line_spectrum
from kernel_drawings.sheet import LEFT, RIGHT, Figures, decades, legend
from svg import Chart, Drawing

ENDURANCE, ULTIMATE, YIELD = 400e6, 1000e6, 750e6
MEAN, AMPLITUDE = 420e6, 130e6


def limits() -> Drawing:
    """Draw an endurance limit from the polished specimen down to a bar, factor by factor."""
    out = Drawing(760, 330, "From the endurance limit of a specimen to that of a bar")
    chart = Chart(out, (250.0, 34.0, 730.0, 274.0), across=(0.0, 500.0), up=(0.0, 7.0))
    chart.ticks((0, 100, 200, 300, 400, 500), ())
    chart.names("endurance limit in shear, MPa", "")
    factors = {
        "surface_factor": 0.85,
        "size_factor": 0.90,
        "loading_factor": 1.0,
        "temperature_factor": 1.0,
        "reliability_factor": 0.87,
        "notch_factor": 0.80,
    }
    names = ("surface", "size", "loading", "temperature", "reliability", "notch")
    applied = dict.fromkeys(factors, 1.0)
    rows = [("polished specimen", float(corrected_endurance(450e6, **applied)))]
    for words, (name, factor) in zip(names, factors.items(), strict=True):
        applied[name] = factor
        left = float(corrected_endurance(450e6, **applied))
        rows.append((f"{words}, × {factor:g}", left))
    for row, (words, stress) in enumerate(rows):
        y = 6.5 - row
        near, far = chart.at(0.0, y + 0.32), chart.at(stress / 1e6, y - 0.32)
        out.box(near[0], far[0], near[1], far[1], "bar" if row == len(rows) - 1 else "part")
        out.text((240, chart.at(0.0, y)[1] + 4), words, "small", "end")
        out.text((far[0] + 6, chart.at(0.0, y)[1] + 4), f"{stress / 1e6:.0f}", "small", "start")
    return out


def fatigue() -> Drawing:
    """Draw Haigh's diagram in shear: lines and curves of failure, and a load before them."""
    out = Drawing(760, 370, "Mean and amplitude in shear against four lines of failure and yield")
    chart = Chart(out, (70.0, 34.0, 730.0, 314.0), across=(0.0, 1100.0), up=(0.0, 500.0))
    chart.ticks((0, 200, 400, 600, 800, 1000), (0, 100, 200, 300, 400, 500))
    chart.names("mean, MPa", "amplitude, MPa")
    slope = np.linspace(0.0, np.pi / 2.0, 181)[1:-1]
    mean, amplitude = 1e6 * np.cos(slope), 1e6 * np.sin(slope)
    curves = (
        (
            gerber_factor(amplitude=amplitude, mean=mean, endurance=ENDURANCE, ultimate=ULTIMATE),
            "new",
            "Gerber",
        ),
        (
            elliptic_factor(amplitude=amplitude, mean=mean, endurance=ENDURANCE, shear_yield=YIELD),
            "end",
            "ellipse",
        ),
        (
            soderberg_factor(
                amplitude=amplitude, mean=mean, endurance=ENDURANCE, shear_yield=YIELD
            ),
            "dash",
            "Soderberg",
        ),
    )
    for factor, style, _ in curves:
        # A load of unit size along each direction meets the line at its own factor.
        chart.curve(np.asarray(factor) * mean / 1e6, np.asarray(factor) * amplitude / 1e6, style)
    means = np.linspace(0.0, ULTIMATE, 3)
    chart.curve(
        means / 1e6, goodman_amplitude(means, endurance=ENDURANCE, ultimate=ULTIMATE) / 1e6, "old"
    )
    corners, heights = haigh_line(endurance=ENDURANCE, ultimate=ULTIMATE, shear_yield=YIELD)
    chart.curve(np.asarray(corners)[-2:] / 1e6, np.asarray(heights)[-2:] / 1e6, "line")
    safety = float(
        goodman_factor(amplitude=AMPLITUDE, mean=MEAN, endurance=ENDURANCE, ultimate=ULTIMATE)
    )
    chart.curve((0.0, safety * MEAN / 1e6), (0.0, safety * AMPLITUDE / 1e6), "line")
    chart.point(MEAN / 1e6, AMPLITUDE / 1e6)
    chart.point(safety * MEAN / 1e6, safety * AMPLITUDE / 1e6)
    x, y = chart.at(340.0, 52.0)
    out.text((x, y), f"a load, factor {safety:.2f} by Goodman", "small", "start")
    entries = [
        ("old", "Goodman"),
        *((style, words) for _, style, words in curves),
        ("line", "yield"),
    ]
    legend(out, (600.0, 60.0), entries)
    return out


def histories() -> Drawing:
    """Draw a history of stress, and its cycles against the line of lives."""
    out = Drawing(760, 310, "A history of shear stress, and its cycles on the line of lives")
    history = np.array(
        [420.0, 560.0, 380.0, 720.0, 300.0, 520.0, 400.0, 640.0, 250.0, 560.0, 420.0]
    )
    chart = Chart(out, LEFT, across=(0.0, 10.0), up=(0.0, 800.0))
    chart.ticks((0, 2, 4, 6, 8, 10), (0, 200, 400, 600, 800))
    chart.names("turning point", "shear stress, MPa")
    chart.curve(np.arange(11.0), history)
    for index, stress in enumerate(history.tolist()):
        chart.point(float(index), stress)
    cycles = count_cycles(1e6 * history)
    line = {"at_stress": 300e6, "at_life": 1e6, "exponent": 5.0}
    chart = Chart(out, RIGHT, across=(4.0, 9.0), up=(1.9, 2.9))
    chart.ticks((), ())
    decades(out, chart, RIGHT, range(4, 10))
    for stress in (100, 200, 400, 600):
        left, y = chart.at(4.0, float(np.log10(stress)))
        out.line((left, y), chart.at(9.0, float(np.log10(stress))), "grid")
        out.text((left - 6, y + 4), str(stress), "small", "end")
    chart.names("cycles to failure", "fully reversed amplitude, MPa")
    amplitude = 1e6 * np.linspace(90.0, 700.0, 100)
    life = np.log10(basquin_life(amplitude, **line))
    chart.curve(life, np.log10(amplitude / 1e6), "old")
    alone = reversed_amplitude(amplitude=cycles.amplitudes, mean=cycles.means, ultimate=ULTIMATE)
    lives = np.log10(basquin_life(alone, **line))
    heights = np.log10(np.asarray(alone) / 1e6)
    for place, height in zip(lives.tolist(), heights.tolist(), strict=True):
        chart.point(place, height)
    out.text((720, 60), "points: the cycles counted", "small", "end")
    return out


def estimated() -> Drawing:
    """Draw the estimated lines of lives of one bar with four surfaces."""
    out = Drawing(440, 310, "Estimated lives of a 25 mm bar of 1500 MPa with four surfaces")
    chart = Chart(out, LEFT, across=(3.0, 6.0), up=(0.0, 1000.0))
    chart.ticks((), (0, 200, 400, 600, 800, 1000))
    decades(out, chart, LEFT, range(3, 7))
    chart.names("cycles to failure", "fully reversed amplitude, MPa")
    tensile, cycles = 1500e6, np.linspace(3.0, 6.0, 60)
    low = LOW_CYCLE_SHARES[1] * ULTIMATE_SHEAR_RATIO * tensile
    styles = dict(zip(SurfaceFinish, ("line", "new", "old", "end"), strict=True))
    for finish, style in styles.items():
        specimen = specimen_endurance(tensile) * TORSION_FACTOR * size_factor(0.025)
        high = specimen * surface_factor(tensile, finish=finish)
        exponent = life_exponent(low_cycle_stress=low, high_cycle_stress=high)
        stress = high * 10.0 ** ((6.0 - cycles) / exponent)
        chart.curve(cycles, stress / 1e6, style)
    legend(out, (230.0, 56.0), [(style, finish.value) for finish, style in styles.items()])
    return out


def spectrum() -> Drawing:
    """Draw a straight line of strokes, and the classes that count them."""
    out = Drawing(440, 310, "Strokes that reach a share of the greatest, and ten classes of them")
    chart = Chart(out, LEFT, across=(0.0, 1.0), up=(0.0, 5.0))
    chart.ticks((0, 0.2, 0.4, 0.6, 0.8, 1), ())
    for decade in range(6):
        left, y = chart.at(0.0, float(decade))
        out.text((left - 6, y + 4), f"{10**decade}", "small", "end")
    chart.names("share of the greatest stroke", "strokes that reach it")
    chart.curve((0.0, 1.0), (5.0, 0.0), "old")
    shares, numbers = straight_line_spectrum(strokes=1e5, classes=10)
    reached = np.log10(np.cumsum(numbers[::-1])[::-1])
    chart.curve(np.repeat([0.0, *shares], 2)[1:-1], np.repeat(reached, 2), "new")
    legend(out, (210.0, 56.0), (("old", "straight line"), ("new", "ten classes")))
    return out


FIGURES: Figures = {
    "estimated_lives": estimated,
    "spectra": spectrum,
    "shear_limits": limits,
    "fatigue": fatigue,
    "histories": histories,
}
