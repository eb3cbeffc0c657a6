"""Figures of the kernels of how a splined bar is turned, laid and brought into its sockets."""

from __future__ import annotations

import attrs
import numpy as np

from barwright.mechanics.spline.clocking import rotation_steps, smallest_step
from barwright.mechanics.spline.clocking_search import ClockedEnd, choices
from barwright.mechanics.spline.insertion import passes_freely, passes_meshed
from barwright.mechanics.spline.seating import AxialLayout, Seating, seat
from kernel_drawings.sheet import Figures, legend
from svg import XY, Chart, Drawing, polar


def clocking() -> Drawing:
    """Draw rotations within 20° that a bar of 39 and 42 teeth can be given, by the ends turned."""
    out = Drawing(760, 260, "Rotations that 39 and 42 teeth can give, by the ends that are turned")
    reach = 20.0
    counts = {"arm_teeth": 39, "anchor_teeth": 42}
    step = np.degrees(smallest_step(**counts))
    teeth = np.arange(-3, 4)
    pairs = np.meshgrid(np.arange(39), np.arange(42))
    rows = (
        (
            "arm end alone: 9.23° apart",
            "old",
            rotation_steps(arm_tooth=teeth, anchor_tooth=0 * teeth, **counts),
        ),
        (
            "anchor end alone: 8.57° apart",
            "old",
            rotation_steps(arm_tooth=0 * teeth, anchor_tooth=teeth, **counts),
        ),
        (
            "both ends: 0.66° apart",
            "new",
            rotation_steps(arm_tooth=pairs[0], anchor_tooth=pairs[1], **counts),
        ),
    )
    chart = Chart(out, (250.0, 34.0, 730.0, 204.0), across=(-reach, reach), up=(0.0, 4.0))
    chart.ticks((-20, -15, -10, -5, 0, 5, 10, 15, 20), ())
    chart.names("rotation of the free angle, deg", "")
    for row, (words, style, steps) in enumerate(rows):
        y = 3.0 - row
        out.line(chart.at(-reach, y), chart.at(reach, y), "thin")
        out.text((240, chart.at(0.0, y)[1] + 4), words, "small", "end")
        # A rotation is known but for whole turns: counted the short way round.
        turn = 360.0 / step
        short = np.unique((np.ravel(steps) + turn // 2) % turn - turn // 2) * step
        for angle in short[np.abs(short) <= reach].tolist():
            out.line(chart.at(angle, y - 0.24), chart.at(angle, y + 0.24), style)
    return out


def ways() -> Drawing:
    """Draw clockings on either side of a wanted one, by what they cost."""
    out = Drawing(760, 300, "Clockings nearest to a wanted one, by cuts and ends turned")
    wanted, low, high = 9.4, -4.0, 22.0
    found = choices(ClockedEnd(36), ClockedEnd(40), wanted_steps=wanted, low=low, high=high)
    chart = Chart(out, (250.0, 34.0, 730.0, 234.0), across=(-6.0, 24.0), up=(0.0, 5.0))
    chart.ticks(range(-4, 24, 4), ())
    chart.names("rotation, in steps of 360° / lcm(36, 40) = 1°", "")
    for limit in (low, high):
        out.line(chart.at(limit, 0.0), chart.at(limit, 5.0), "end")
    out.line(chart.at(wanted, 0.0), chart.at(wanted, 5.0), "new")
    out.text((chart.at(wanted, 5.0)[0], 26), "wanted", "small blue")
    out.text((chart.at(high, 5.0)[0], 26), "adjuster's limits", "small red")
    rows = {
        (0, ()): "nothing cut, nothing turned",
        (1, ("anchor",)): "one cut, anchor end turned",
        (1, ("arm",)): "one cut, arm end turned",
        (2, ("anchor", "arm")): "two cuts, both ends turned",
    }
    for row, (way, words) in enumerate(rows.items()):
        y = 4.0 - row
        out.line(chart.at(-6.0, y), chart.at(24.0, y), "thin")
        out.text((240, chart.at(0.0, y)[1] + 4), words, "small", "end")
        for one in found:
            if (one.cuts, tuple(sorted(one.disturbed))) == way:
                chart.point(float(one.clocking_steps), y)
    return out


_LAYOUT = AxialLayout(
    bar_length=0.250,
    arm_spline=0.040,
    anchor_spline=0.040,
    arm_socket=0.036,
    anchor_socket=0.036,
    anchor_position=0.204,
    arm_required=0.030,
    anchor_required=0.030,
    arm_nose=0.008,
    anchor_nose=0.008,
)


def seating() -> Drawing:
    """Draw a bar in its sockets where it lies best, and how well it would lie elsewhere."""
    out = Drawing(760, 470, "A bar between its sockets, and engagement over requirement")
    _in_its_sockets(out, seat(_LAYOUT))
    chart = Chart(out, (70.0, 256.0, 730.0, 416.0), across=(-20.0, 20.0), up=(0.0, 1.4))
    chart.ticks((-20, -15, -10, -5, 0, 5, 10, 15, 20), (0, 0.5, 1))
    chart.names("position p of the bar, mm", "engagement over what is required")
    places = np.linspace(-0.020, 0.020, 161)
    # Stops that leave the bar no room hold it at each place.
    ends = {
        "arm_stop": places - _LAYOUT.arm_nose,
        "anchor_stop": places + _LAYOUT.bar_length + _LAYOUT.anchor_nose,
    }
    there = seat(attrs.evolve(_LAYOUT, **ends))
    chart.curve(1e3 * places, np.asarray(there.arm_engagement) / 0.030, "end")
    chart.curve(1e3 * places, np.asarray(there.anchor_engagement) / 0.030, "old")
    chart.curve(1e3 * places, there.ratio, "new")
    best = seat(_LAYOUT)
    chart.point(1e3 * float(best.position), float(best.ratio))
    entries = (("end", "arm end"), ("old", "anchor end"), ("new", "the worse of both, at most 1"))
    legend(out, (310.0, 354.0), entries)
    return out


def _in_its_sockets(out: Drawing, best: Seating) -> None:
    """Draw sockets and bar along their axis, with the letters of their sizes."""

    def at(s: float, aside: float) -> XY:
        return 96.0 + 2_250.0 * s, 108.0 - aside

    size = _LAYOUT
    start = float(best.position)
    length, begins = float(size.bar_length), float(size.anchor_position)
    for low, long in ((0.0, float(size.arm_socket)), (begins, float(size.anchor_socket))):
        for way in (1.0, -1.0):
            out.box(
                at(low, 0)[0], at(low + long, 0)[0], at(0, 32 * way)[1], at(0, 58 * way)[1], "part"
            )
    spline, nose = float(size.arm_spline), float(size.arm_nose)
    out.box(at(start - nose, 0)[0], at(start + length + nose, 0)[0], 88.0, 128.0, "bar")
    for low in (start, start + length - spline):
        out.box(at(low, 0)[0], at(low + spline, 0)[0], 78.0, 138.0, "bar")
        for aside in (-18, -6, 6, 18):
            out.line(at(low, aside), at(low + spline, aside), "thin")
    out.dimension(at(0.0, 74), at(float(size.arm_socket), 74), "w_a_")
    out.dimension(at(begins, 74), at(begins + float(size.anchor_socket), 74), "w_c_")
    out.dimension(at(start, -74), at(start + spline, -74), "l_a_", -15.0)
    out.dimension(at(start + length - spline, -74), at(start + length, -74), "l_c_", -15.0)
    out.dimension(at(start, -104), at(start + length, -104), "L", -15.0)
    out.text(at(0.018, 44 - 4), "socket", "small")
    out.text(at(begins + 0.018, 44 - 4), "socket", "small")
    out.text(at(0.120, 6 - 10), "the bar, at the best position", "small")


def entry() -> Drawing:
    """Draw three ends before the socket that they are to pass, and whether they do."""
    out = Drawing(760, 300, "Ends of a bar in the socket that they are to pass")
    cases = (
        ((140.0, 140.0), 70.0, 0.0, "smaller spline"),
        ((380.0, 140.0), 98.0, 0.0, "same spline, blank on the key"),
        ((620.0, 140.0), 98.0, 15.0, "same spline, turned by a tooth"),
    )
    teeth = 24
    for centre, radius, turned, words in cases:
        freely = bool(passes_freely(major_diameter=radius, minor_diameter=84.0))
        meshed = bool(passes_meshed(np.radians(turned), teeth=teeth, blanks=(0,)))
        passes = freely or meshed
        out.circle(centre, 114.0, "part")
        out.path(_wheel(centre, (84.0, 100.0), teeth, filled=0), "void", closed=True)
        inner = radius - 16.0
        out.path(
            _wheel(centre, (inner, radius), teeth, filled=0, turned=turned), "bar", closed=True
        )
        out.text((centre[0], 282), words, "bold")
        verdict = "passes" if passes else "stands on the key"
        out.text((centre[0], centre[1] + 4), verdict, "bold")
        key = polar(centre, 92.0, 90.0)
        out.circle(key, 4.0, "key")
    return out


def _wheel(centre: XY, radii: XY, count: int, *, filled: int, turned: float = 0.0) -> list[XY]:
    """Outline of teeth all round of which one is missing, or of spaces of which one is filled."""
    pitch = 360.0 / count
    points: list[XY] = []
    for tooth in range(count):
        middle = 90.0 + turned + tooth * pitch
        low, high = radii
        top = low if tooth == filled else high
        points += [
            polar(centre, low, middle - 0.29 * pitch),
            polar(centre, top, middle - 0.17 * pitch),
        ]
        points += [
            polar(centre, top, middle + 0.17 * pitch),
            polar(centre, low, middle + 0.29 * pitch),
        ]
    return points


FIGURES: Figures = {
    "clocking": clocking,
    "clocking_search": ways,
    "seating": seating,
    "insertion": entry,
}
