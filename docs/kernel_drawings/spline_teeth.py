"""Figures of the kernels of splines: their teeth, and what those carry."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

import attrs
import numpy as np

from barwright.mechanics.spline import involute_inch, involute_metric, involute_reference
from barwright.mechanics.spline.capacity import (
    head_shear_stress,
    tooth_bearing_stress,
    tooth_shear_stress,
)
from barwright.mechanics.spline.factors import missing_tooth_factor
from barwright.mechanics.spline.involute import (
    base_diameter,
    circular_tooth_thickness,
    pitch_diameter,
    tooth_thickness_at,
)
from barwright.mechanics.spline.involute_metric import RootForm
from barwright.mechanics.spline.over_pins import size_over_pins
from barwright.mechanics.spline.serrations import Serration
from kernel_drawings.sheet import LEFT, Figures, area, legend, ring
from svg import XY, Chart, Drawing, polar


@attrs.frozen
class Teeth:
    """Involute teeth between two circles, seen large; also the spaces of a socket.

    Parameters
    ----------
    teeth : int
        Of the whole circle.
    module, pressure_angle, thickness : float
        As of the kernels [m], [rad], [m].
    root, tip : float
        Diameters of the two circles [m].
    centre : (float, float)
        Where their axis is drawn.
    scale : float
        Pixels for a metre.
    """

    teeth: int
    module: float
    pressure_angle: float
    thickness: float
    root: float
    tip: float
    centre: XY
    scale: float

    def place(self, diameter: float, degrees: float) -> XY:
        """Place at an angle from the middle of the tooth on top."""
        return polar(self.centre, self.scale * diameter / 2.0, 90.0 + degrees)

    def half_angle(self, diameter: float) -> float:
        """Half of what a tooth takes of a circle [deg]; radial below the base circle."""
        base = base_diameter(
            teeth=self.teeth, module=self.module, pressure_angle=self.pressure_angle
        )
        there = max(diameter, float(base))
        thickness = tooth_thickness_at(
            there,
            teeth=self.teeth,
            module=self.module,
            pressure_angle=self.pressure_angle,
            tooth_thickness=self.thickness,
        )
        return math.degrees(float(thickness) / there)

    def outline(self, numbers: Iterable[int]) -> list[XY]:
        """Points along some teeth, from right to left."""
        circles = [float(x) for x in np.linspace(self.root, self.tip, 16)]
        half = self.half_angle(self.tip)
        flank = [(d, -self.half_angle(d)) for d in circles]
        top = [(self.tip, float(a)) for a in np.linspace(-half, half, 7)[1:-1]]
        tooth = [*flank, *top, *((d, -a) for d, a in reversed(flank))]
        pitch = 360.0 / self.teeth
        return [self.place(d, n * pitch + a) for n in numbers for d, a in tooth]

    def circle(self, diameter: float, span: float) -> list[XY]:
        """Points of a circle about the axis, so far to both sides of the top."""
        return ring(self.centre, self.scale * diameter / 2.0, (90.0 - span, 90.0 + span))


def involute() -> Drawing:
    """Draw one tooth between pitch and base circle, with thickness and pressure angle."""
    out = Drawing(760, 370, "An involute tooth: pitch circle, base circle, pressure angle")
    size = {"teeth": 24, "module": 0.001}
    angle = math.radians(30.0)
    pitch, base = pitch_diameter(**size), base_diameter(**size, pressure_angle=angle)
    teeth = Teeth(
        24,
        0.001,
        angle,
        float(circular_tooth_thickness(0.001)),
        root=float(base),
        tip=0.025,
        centre=(290.0, 832.0),
        scale=57_000.0,
    )
    span = 23.5
    edge = teeth.outline((-1, 0, 1))
    area(out, [*edge, teeth.place(0.0184, 22.5), teeth.place(0.0184, -22.5)], "bar pale")
    out.path(edge)
    for diameter, words in (
        (float(pitch), "pitch circle, D = m Z"),
        (float(base), "base circle, D_b_ = D cos α"),
    ):
        out.path(teeth.circle(diameter, span), "dash")
        x, y = teeth.place(diameter, -span)
        out.text((x + 5, y + 4), words, "small", "start")
    left, right = (teeth.half_angle(float(pitch)) * way for way in (1.0, -1.0))
    out.path([teeth.place(float(pitch), left + (right - left) * i / 12) for i in range(13)], "new")
    x, y = teeth.place(float(pitch), 0.0)
    out.text((x, y + 20), "t", "bold blue")
    _pressure_angle(out, teeth, float(pitch), left)
    return out


def over_pins() -> Drawing:
    """Draw two pins in opposite spaces, and the size over both."""
    out = Drawing(760, 300, "Size over two pins in opposite spaces")
    size = {"teeth": 18, "module": 0.001, "pressure_angle": math.radians(30.0)}
    thickness, pin = float(circular_tooth_thickness(0.001)), 0.0019
    over = float(size_over_pins(**size, tooth_thickness=thickness, pin_diameter=pin))
    centre, scale = (380.0, 150.0), 11_500.0
    teeth = Teeth(18, 0.001, size["pressure_angle"], thickness, 0.0163, 0.019, centre, scale)
    area(out, teeth.outline(range(18)), "bar pale")
    out.path(teeth.outline(range(18)), closed=True)
    spaces = 90.0 + 180.0 / 18.0
    middles = [polar(centre, scale * (over - pin) / 2.0, spaces + turn) for turn in (0.0, 180.0)]
    for middle in middles:
        out.circle(middle, scale * pin / 2.0, "new")
    across = polar((0.0, 0.0), 150.0, spaces - 90.0)
    ends = [polar(centre, scale * over / 2.0, spaces + turn) for turn in (0.0, 180.0)]
    beside = [(x + across[0], y + across[1]) for x, y in ends]
    for end, far in zip(ends, beside, strict=True):
        out.line(end, far, "thin")
    out.arrow(beside[0], beside[1])
    out.arrow(beside[1], beside[0])
    out.text((beside[0][0] + 60.0, 150.0), "M", "bold blue")
    out.label("pin, d", (middles[0][0] - 120.0, 20.0), middles[0], "end")
    return out


def _pressure_angle(out: Drawing, teeth: Teeth, pitch: float, at: float) -> None:
    """Draw radius and flank through a point of the pitch circle."""
    point = teeth.place(pitch, at)
    near = [teeth.place(d, teeth.half_angle(d)) for d in (pitch - 2e-5, pitch + 2e-5)]
    flank = math.degrees(math.atan2(near[0][1] - near[1][1], near[1][0] - near[0][0]))
    radius = 90.0 + at
    for direction, style in ((radius, "dash"), (flank, "new")):
        out.line(polar(point, 40.0, direction + 180.0), polar(point, 130.0, direction), style)
    out.arc(point, 104.0, (radius, flank))
    middle = polar(point, 84.0, (radius + flank) / 2.0)
    out.text((middle[0], middle[1] + 5.0), "α", "bold")
    out.circle(point, 3.5, "solid")


def _joint(out: Drawing, bar: Teeth, socket: Teeth) -> float:
    """Draw three teeth of a bar in those of a socket; answer how far they reach [deg]."""
    span = 1.5 * 360.0 / bar.teeth
    inner, outer = bar.outline((-1, 0, 1)), socket.outline((-1, 0, 1))
    above = list(reversed(socket.circle(socket.tip + 3.0 * (socket.tip - socket.root) / 4.0, span)))
    below = bar.circle(bar.root - 3.0 * (bar.tip - bar.root) / 4.0, span)
    right, left = (socket.place(socket.root, way * span) for way in (-1.0, 1.0))
    area(out, [right, *outer, left, *above], "part")
    right, left = (bar.place(bar.root, way * span) for way in (-1.0, 1.0))
    area(out, [right, *inner, left, *reversed(below)], "bar")
    return span


def _circles(
    out: Drawing, teeth: Teeth, span: float, names: Iterable[tuple[float, str, str]]
) -> None:
    """Draw circles across a joint, with what they are at the left and their size at the right."""
    lowest = -math.inf
    for diameter, words, size in sorted(names, reverse=True):
        out.path(teeth.circle(diameter, span * 1.04), "dash")
        ends = [teeth.place(diameter, way * span * 1.04) for way in (1.0, -1.0)]
        # Circles that lie close to each other have their names further apart.
        lowest = max(ends[0][1], lowest + 15.0)
        for (x, y), text, way, anchor in zip(
            ends, (words, size), (-1.0, 1.0), ("end", "start"), strict=True
        ):
            out.line((x, y), (x + way * 14.0, lowest), "thin")
            out.text((x + way * 18.0, lowest + 4.0), text, "small", anchor)


def inch() -> Drawing:
    """Draw bar and socket to the inch standard, with the circles of tips and roots."""
    out = Drawing(760, 270, "Inch spline: tips and roots of bar and socket")
    per_inch, count = 12.0, 30
    size = {"teeth": count, "diametral_pitch": per_inch / 0.0254}
    module = 0.0254 / per_inch
    known = {"bar's tips, (N + 1) / P": involute_inch.external_major_diameter(**size)}
    known["bar's roots, (N − 1.8) / P"] = involute_inch.external_minor_diameter(**size)
    known["socket's tips, (N − 1) / P"] = involute_inch.internal_minor_diameter(**size)
    known["socket's roots, (N + 1.8) / P"] = involute_inch.internal_major_diameter(**size)
    tip, root, socket_tip, socket_root = (float(one) for one in known.values())
    common = (count, module, math.radians(30.0), float(circular_tooth_thickness(module)))
    place = ((440.0, 720.0), 19_000.0)
    bar = Teeth(*common, root, tip, *place)
    span = _joint(out, bar, Teeth(*common, socket_tip, socket_root, *place))
    sizes = {words: f"{float(one) / 0.0254:.4f} in" for words, one in known.items()}
    _circles(out, bar, span, [(float(known[words]), words, size) for words, size in sizes.items()])
    out.text((430, 20), f"{count} teeth of pitch 12/24, fillet root, 30°", "bold")
    return out


def metric() -> Drawing:
    """Draw one tooth of each of the four forms of the metric standard, in units of the module."""
    out = Drawing(760, 262, "Metric splines: teeth of the four forms, to one scale")
    count, module = 24, 0.001
    for index, form in enumerate(RootForm):
        tip, root, roots = (
            float(circle(teeth=count, module=module, root_form=form))
            for circle in (
                involute_metric.external_major_diameter,
                involute_metric.external_minor_diameter,
                involute_metric.internal_major_diameter,
            )
        )
        middle = 105.0 + 183.0 * index
        thickness = float(circular_tooth_thickness(module))
        teeth = Teeth(
            count, module, form.pressure_angle, thickness, root, tip, (middle, 728.0), 50_000.0
        )
        span = 180.0 / count
        edge = [teeth.place(root, -span), *teeth.outline((0,)), teeth.place(root, span)]
        area(out, [*edge, *reversed(teeth.circle(0.0206, span))], "bar pale")
        out.path(edge)
        for diameter, style in (
            (roots, "end"),
            (float(pitch_diameter(teeth=count, module=module)), "dash"),
        ):
            out.path(teeth.circle(diameter, span), style)
        out.text((middle, 22), form.value, "bold")
        beyond = {"root": 0.5 * (count - root / module), "tip": 0.5 * (tip / module - count)}
        x, y = teeth.place(tip, 0.0)
        out.text((x, y + 14), f"+{beyond['tip']:g} m", "small")
        x, y = teeth.place(root, 0.0)
        out.text((x, y - 6), f"−{beyond['root']:g} m", "small")
    legend(out, (120.0, 244.0), (("end", "least roots of the socket"),))
    legend(out, (330.0, 244.0), (("dash", "pitch circle, D = m Z, with Z = 24; m is the module"),))
    return out


def reference() -> Drawing:
    """Draw a joint by its reference diameter, whose teeth are moved outward."""
    out = Drawing(760, 250, "Spline on a reference diameter: the circles of shaft and hub")
    size = {"reference_diameter": 0.032, "module": 0.00125}
    count = 24
    moved = float(involute_reference.addendum_modification(teeth=count, **size))
    tip = float(involute_reference.external_major_diameter(**size))
    root = float(involute_reference.external_minor_diameter(**size))
    inside = float(involute_reference.internal_minor_diameter(**size))
    pitch = float(pitch_diameter(teeth=count, module=0.00125))
    thickness = float(involute_reference.pitch_tooth_thickness(teeth=count, **size))
    common = (count, 0.00125, involute_reference.PRESSURE_ANGLE, thickness)
    place = ((440.0, 680.0), 36_000.0)
    bar = Teeth(*common, root, tip, *place)
    span = _joint(out, bar, Teeth(*common, inside, 0.032, *place))
    names = [
        (0.032, "hub's roots, d_B_"),
        (tip, "shaft's tips, d_B_ − 0.2 m"),
        (pitch, "pitch circle, m z"),
        (inside, "hub's tips, d_B_ − 2 m"),
        (root, "shaft's roots, d_B_ − 2.2 m"),
    ]
    _circles(out, bar, span, [(d, words, f"{1e3 * d:.2f} mm") for d, words in names])
    words = "24 teeth, reference diameter d_B_ = 32 mm, m = 1.25 mm"
    out.text((400, 20), f"{words}: x = {moved:.2f}", "bold")
    return out


def serrations() -> Drawing:
    """Draw straight-sided teeth: sharp ones dashed, with the angles of tooth and space."""
    out = Drawing(760, 290, "Serrations: straight flanks, angles of tooth and space")
    shaft = Serration(teeth=36, pitch_diameter=0.030)
    centre, scale, pitch = (350.0, 1030.0), 58_000.0, 10.0
    sharp = (float(shaft.sharp_minor_diameter), float(shaft.sharp_major_diameter))
    cut = (float(shaft.minor_diameter(0.0003)), float(shaft.major_diameter(0.0004)))

    def place(diameter: float, degrees: float) -> XY:
        return polar(centre, scale * diameter / 2.0, 90.0 + degrees)

    edge: list[XY] = []
    for number in (-1, 0, 1):
        half = [math.degrees(float(shaft.tooth_thickness(d)) / d) for d in cut]
        middle = number * pitch
        edge += [place(cut[0], middle - half[0]), place(cut[1], middle - half[1])]
        edge += [place(cut[1], middle + half[1]), place(cut[0], middle + half[0])]
        dashed = [place(sharp[0], middle - pitch / 2), place(sharp[1], middle)]
        out.path([*dashed, place(sharp[0], middle + pitch / 2)], "dash")
    area(out, [*edge, place(0.0260, 15.0), place(0.0260, -15.0)], "bar pale")
    out.path(edge)
    for diameter, words in ((0.030, "pitch circle"), (cut[1], "tips"), (cut[0], "roots")):
        out.path(ring(centre, scale * diameter / 2.0, (74.5, 105.5)), "dash")
        x, y = place(diameter, -15.5)
        out.text((x + 6, y + 4), f"{words}, {1e3 * diameter:.2f} mm", "small", "start")
    _angle(out, place(sharp[1], 0.0), 270.0, float(np.degrees(shaft.tooth_angle)), "γ")
    _angle(
        out, place(sharp[0], pitch / 2), 90.0 + pitch / 2, float(np.degrees(shaft.space_angle)), "β"
    )
    out.text((150, 24), "36 teeth, pitch circle 30 mm:", "small")
    out.text((150, 42), "β = 60°, γ = β − 360°/36 = 50°", "small")
    return out


def _angle(out: Drawing, corner: XY, middle: float, size: float, name: str) -> None:
    """Draw the angle between two flanks at the corner where they would meet."""
    out.path(ring(corner, 52.0, (middle - size / 2.0, middle + size / 2.0)), "new")
    x, y = polar(corner, 66.0, middle)
    out.text((x, y + 5.0), name, "bold blue")


def splines() -> Drawing:
    """Draw stresses in a head over its engagement."""
    out = Drawing(440, 300, "Stresses of a splined head over its engagement")
    engagement = np.linspace(0.010, 0.050, 81)
    teeth: dict[str, Any] = {
        "pitch_diameter": 0.030,
        "teeth": 40,
        "engagement": engagement,
        "missing_tooth_factor": missing_tooth_factor(teeth=40, missing=[0]),
    }
    chart = Chart(out, LEFT, across=(10.0, 50.0), up=(0.0, 600.0))
    chart.ticks((10, 20, 30, 40, 50), (0, 200, 400, 600))
    chart.names("engaged length, mm", "stress at 1000 N·m, one tooth missing, MPa")
    entries = (
        (head_shear_stress(1000.0, root_diameter=0.0287), "line", "shear of the head"),
        (tooth_shear_stress(1000.0, tooth_thickness=0.00118, **teeth), "old", "shear of the teeth"),
        (
            tooth_bearing_stress(1000.0, tooth_depth=0.00075, **teeth),
            "new",
            "pressure on the flanks",
        ),
    )
    for stress, style, _ in entries:
        shown = np.broadcast_to(np.asarray(stress) / 1e6, engagement.shape)
        chart.curve(1e3 * engagement, shown, style)
    legend(out, (186.0, 56.0), [(style, words) for _, style, words in entries])
    return out


def factors() -> Drawing:
    """Draw the load of a tooth beside two gaps."""
    out = Drawing(440, 300, "Load of the most loaded tooth of a head with two gaps")
    chart = Chart(out, LEFT, across=(0.0, 20.0), up=(1.0, 1.4))
    chart.ticks((0, 5, 10, 15, 20), (1, 1.1, 1.2, 1.3, 1.4))
    chart.names("teeth from one gap to the other", "load of the most loaded tooth")
    for count, style in ((22, "old"), (40, "new")):
        apart = range(1, count // 2 + 1)
        rise = [missing_tooth_factor(teeth=count, missing=[0, other]) for other in apart]
        chart.curve(np.array(apart, dtype=float), np.array(rise), style)
        for other, factor in zip(apart, rise, strict=True):
            chart.point(float(other), factor)
    legend(out, (200.0, 56.0), (("old", "22 teeth"), ("new", "40 teeth")))
    return out


FIGURES: Figures = {
    "involute": involute,
    "involute_inch": inch,
    "involute_metric": metric,
    "involute_reference": reference,
    "over_pins": over_pins,
    "serrations": serrations,
    "capacity": splines,
    "factors": factors,
}
