"""Figures of the kernels of the bar itself."""

from __future__ import annotations

import numpy as np

from barwright.mechanics.bar.fillets import fillet_length, fillet_stress_concentration
from barwright.mechanics.bar.presetting import (
    elastic_core_radius,
    elastic_plastic_torque,
    permanent_twist,
    residual_stress,
    yield_torque,
    yield_twist,
)
from barwright.mechanics.bar.torsion import polar_second_moment, shear_stress, torsional_rate
from barwright.mechanics.bar.transitions import equivalent_length, taper_equivalent_length
from kernel_drawings.sheet import LEFT, RIGHT, Figures, Plane, area, legend
from svg import Chart, Drawing, between


def torsion() -> Drawing:
    """Draw rate and stress of a solid bar over its diameter: the fourth and the third power."""
    out = Drawing(760, 300, "Rate and surface stress of a solid bar over its diameter")
    diameter = np.linspace(18.0, 32.0, 57)
    rate = torsional_rate(
        diameter=diameter / 1e3, active_length=1.0, shear_modulus=78.5e9
    ) * np.radians(1.0)
    stress = shear_stress(1000.0, diameter=diameter / 1e3) / 1e6
    for frame, ys, top, ticks, words in (
        (LEFT, rate, 150.0, (0, 50, 100, 150), "torsional rate of 1 m, N·m/deg"),
        (RIGHT, stress, 900.0, (0, 300, 600, 900), "surface stress at 1000 N·m, MPa"),
    ):
        chart = Chart(out, frame, across=(18.0, 32.0), up=(0.0, top))
        chart.ticks((18, 20, 22, 24, 26, 28, 30, 32), ticks)
        chart.names("diameter, mm", words)
        chart.curve(diameter, ys)
    return out


def transitions() -> Drawing:
    """Draw a bar's end above, and below it how much of a body's twist each place has."""
    out = Drawing(760, 430, "Body, cone and head of a bar, and the share of twist of each place")
    body, head = 0.020, 0.030
    cone, bare, engaged = (0.060, 0.090), (0.090, 0.112), (0.112, 0.150)
    at = Plane((70.0, 120.0), 4400.0).at
    upper = [(0.0, body), (cone[0], body), (cone[1], head), (engaged[1], head)]
    outline = [at(x, d / 2.0) for x, d in upper] + [at(x, -d / 2.0) for x, d in reversed(upper)]
    for way in (1.0, -1.0):
        near, far = at(engaged[0], way * head / 2.0), at(engaged[1], way * (head / 2.0 + 0.006))
        out.box(near[0], far[0], near[1], far[1], "part")
    out.path(outline, "bar", closed=True)
    for y in np.linspace(-0.0135, 0.0135, 10):
        out.line(at(engaged[0], y), at(engaged[1], y), "thin")
    out.line(at(-0.004, 0.0), at(0.154, 0.0), "dash")
    out.dimension(at(0.010, body / 2.0), at(0.010, -body / 2.0), "")
    out.text((at(0.010, 0.0)[0] + 8, at(0.0, 0.004)[1]), "d = 20 mm", "small", "start")
    out.dimension(at(0.101, head / 2.0), at(0.101, -head / 2.0), "")
    out.text((at(0.101, 0.0)[0] - 6, at(0.0, 0.004)[1]), "D = 30 mm", "small", "end")
    for (low, high), words in ((cone, "cone"), (bare, "bare head")):
        out.dimension(at(low, 0.0185), at(high, 0.0185), words)
    out.text(((at(engaged[0], 0)[0] + at(engaged[1], 0)[0]) / 2, 20), "in the socket", "small")

    chart = Chart(out, (70.0, 226.0, 730.0, 376.0), across=(0.0, 150.0), up=(0.0, 1.1))
    chart.ticks((0, 30, 60, 90, 120, 150), (0, 0.5, 1))
    chart.names("along the bar, mm", "share of the body's twist per length, (d/D)⁴")
    x = np.linspace(0.0, engaged[0], 113)
    local = body + (head - body) * np.clip((x - cone[0]) / (cone[1] - cone[0]), 0.0, 1.0)
    share = np.asarray(equivalent_length(1.0, diameter=body, head_diameter=local))
    foot = [chart.at(1e3 * engaged[0], 0.0), chart.at(0.0, 0.0)]
    area(out, [*(chart.at(1e3 * a, b) for a, b in zip(x, share, strict=True)), *foot])
    chart.curve([*(1e3 * x), 1e3 * engaged[0]], [*share, 0.0])
    coned = taper_equivalent_length(cone[1] - cone[0], diameter=body, head_diameter=head)
    bared = equivalent_length(bare[1] - bare[0], diameter=body, head_diameter=head)
    out.text(chart.at(30.0, 0.5), "60 mm of body", "small")
    out.text(chart.at(82.0, 0.78), f"the cone's 30 mm count {1e3 * coned:.1f} mm", "small", "start")
    out.text(chart.at(97.0, 0.36), f"the head's 22 mm count {1e3 * bared:.1f} mm", "small", "start")
    return out


def fillets() -> Drawing:
    """Draw two fillets with their letters, and the stress concentration over the radius."""
    out = Drawing(760, 350, "Fillets of a small and a large radius, and what they add to stress")
    body, head = 0.025, 0.034
    for top, radius, words in ((30.0, 0.0025, "r < t"), (194.0, 0.0080, "r > t")):
        _fillet(out, Plane((110.0, top + 210.0), 13_000.0), (body, head, radius), words)
    chart = Chart(out, (460.0, 34.0, 730.0, 294.0), across=(0.0, 0.5), up=(1.0, 2.2))
    chart.ticks((0, 0.1, 0.2, 0.3, 0.4, 0.5), (1, 1.2, 1.4, 1.6, 1.8, 2, 2.2))
    chart.names("radius over the body's diameter, r/d", "stress over that of the plain body")
    share = np.linspace(0.02, 0.5, 97)
    for ratio, style in ((1.1, "end"), (1.36, "new"), (2.0, "old")):
        stress = fillet_stress_concentration(diameter=1.0, head_diameter=ratio, fillet_radius=share)
        chart.curve(share, stress, style)
    legend(
        out,
        (600.0, 60.0),
        (("old", "D = 2 d"), ("new", "D = 1.36 d"), ("end", "D = 1.1 d")),
    )
    return out


def _fillet(out: Drawing, plane: Plane, sizes: tuple[float, float, float], words: str) -> None:
    """Draw the upper edge of a shoulder with its fillet."""
    body, head, radius = sizes
    length = float(fillet_length(diameter=body, head_diameter=head, fillet_radius=radius))
    turn = np.linspace(0.0, np.arcsin(min(1.0, length / radius)), 25)
    arc = [plane.at(radius * np.sin(a), body / 2.0 + radius * (1.0 - np.cos(a))) for a in turn]
    before, after, floor = -0.005, 0.0205, 0.0100
    edge = [plane.at(before, body / 2.0), *arc]
    edge += [plane.at(length, head / 2.0), plane.at(after, head / 2.0)]
    area(out, [*edge, plane.at(after, floor), plane.at(before, floor)], "bar pale")
    out.path(edge)
    centre = plane.at(0.0, body / 2.0 + radius)
    out.line(centre, arc[12], "thin")
    middle = between(centre, arc[12])
    out.text((middle[0] + 4.0, middle[1] - 6.0), "r", "bold", "start")
    low, high = plane.at(after - 0.002, body / 2.0), plane.at(after - 0.002, head / 2.0)
    out.line(plane.at(length, body / 2.0), (low[0] + 6.0, low[1]), "dash")
    out.dimension(low, high, "")
    out.text((low[0] + 8.0, (low[1] + high[1]) / 2.0 + 4.0), "t", "bold", "start")
    start, end = plane.at(0.0, 0.0113), plane.at(length, 0.0113)
    out.dimension(start, end, "ℓ", -14.0)
    out.text(
        (plane.at(before, 0.0)[0], plane.at(0.0, head / 2.0)[1] + 10.0), words, "small", "start"
    )


def presetting() -> Drawing:
    """Draw torque over twist on the way up and down, and the stress over the radius."""
    out = Drawing(760, 310, "Pre-setting: torque over twist, and stress over the radius")
    size = {"diameter": 0.025, "shear_yield": 800e6}
    bar = {**size, "active_length": 1.0, "shear_modulus": 80e9}
    held = 1.2
    twist = np.linspace(0.0, held, 121)
    torque = elastic_plastic_torque(elastic_core_radius(twist, **bar), **size)
    # Up to first yield the bar is elastic, and torque goes with twist.
    torque = torque * np.minimum(1.0, twist / yield_twist(**bar))
    kept = np.degrees(float(permanent_twist(held, **bar)))
    chart = Chart(out, LEFT, across=(0.0, 80.0), up=(0.0, 3500.0))
    chart.ticks((0, 20, 40, 60, 80), (0, 1000, 2000, 3000))
    chart.names("twist of 1 m, deg", "torque of a 25 mm bar, N·m")
    chart.curve(np.degrees(twist), torque, "old")
    chart.curve((np.degrees(held), kept), (np.asarray(torque)[-1], 0.0))
    first = (np.degrees(float(yield_twist(**bar))), float(yield_torque(**size)))
    chart.point(*first)
    chart.point(np.degrees(held), float(np.asarray(torque)[-1]))
    chart.point(kept, 0.0)
    x, y = chart.at(*first)
    out.text((x - 8, y - 6), "first yield", "small", "end")
    x, y = chart.at(kept, 0.0)
    out.text((x + 18, y - 6), f"kept: {kept:.1f}°", "small blue", "start")
    _residual(out, held)
    return out


def _residual(out: Drawing, held: float) -> None:
    """Draw the stress over the radius while a bar is pre-set, and after."""
    size = {"diameter": 0.025, "shear_yield": 800e6}
    core = elastic_core_radius(held, active_length=1.0, shear_modulus=80e9, **size)
    radius = np.linspace(0.0, 0.0125, 101)
    left = residual_stress(radius, core_radius=core, **size)
    torque = elastic_plastic_torque(core, **size)
    under = left + torque * radius / polar_second_moment(diameter=0.025)
    chart = Chart(out, RIGHT, across=(0.0, 12.5), up=(-400.0, 1000.0))
    chart.ticks((0, 2.5, 5, 7.5, 10, 12.5), (-400, 0, 400, 800))
    chart.names("radius, mm", "shear stress, MPa")
    chart.curve((0.0, 12.5), (0.0, 0.0), "line")
    chart.curve(1e3 * radius, under / 1e6, "old")
    chart.curve(1e3 * radius, left / 1e6)
    legend(out, (460.0, 60.0), (("old", "held at the twist"), ("new", "after it was let go")))


FIGURES: Figures = {
    "torsion": torsion,
    "transitions": transitions,
    "fillets": fillets,
    "presetting": presetting,
}
