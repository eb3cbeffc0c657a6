"""Figures of the kernels of the anchorage: bolts, levers and threads."""

from __future__ import annotations

import math

import numpy as np

from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.levers_without_pin import KeyLeverBolt
from barwright.mechanics.anchorage.threads import (
    COARSE_PITCH,
    PropertyClass,
    external_stripping_area,
    internal_stripping_area,
    proof_load,
    stripping_load,
)
from kernel_drawings.sheet import Figures, area, legend, ring
from svg import XY, Chart, Drawing, between, polar

SWIVELLING = SwivellingBolt(
    pivot_distance=0.110, pivot_angle=math.radians(20.0), lever_radius=0.090, lever_side=1
)
FIXED_LINE = FixedLineBolt(
    line_distance=0.075,
    foot_angle=math.radians(90.0),
    foot_position=0.070,
    lever_radius=0.110,
    lever_side=1,
)
KEY_LEVER = KeyLeverBolt(
    line_distance=0.090,
    foot_angle=0.0,
    foot_position=0.045,
    end_radius=0.010,
    face_offset=0.016,
    face_start=0.050,
    face_end=0.130,
    lever_side=-1,
)
_PALE = " pale"


def bolts_with_pin() -> Drawing:
    """Draw both bolts with their letters, and the force that holds one torque over the angle."""
    out = Drawing(760, 330, "Bolts of the anchor's lever, and the force in them")
    _swivelling(out, (70.0, 250.0), 1500.0)
    _on_fixed_line(out, (352.0, 250.0), 1500.0)
    chart = Chart(out, (545.0, 34.0, 730.0, 254.0), across=(60.0, 120.0), up=(0.0, 20.0))
    chart.ticks((60, 80, 100, 120), (0, 5, 10, 15, 20))
    chart.names("lever angle, deg", "force for 1000 N·m, kN")
    angle = np.linspace(60.0, 120.0, 61)
    for bolt, style in ((SWIVELLING, "new"), (FIXED_LINE, "old")):
        force = bolt.effort(1000.0, lever_angle=np.radians(angle))
        chart.curve(angle, np.asarray(force) / 1e3, style)
    legend(out, (560.0, 212.0), (("new", "swivels"), ("old", "on a fixed line")))
    return out


def _swivelling(out: Drawing, centre: XY, scale: float) -> None:
    bolt, lever = SWIVELLING, 88.0
    pivot = polar(centre, scale * bolt.pivot_distance, 20.0)
    pin = polar(centre, scale * bolt.lever_radius, lever)
    out.line(centre, (centre[0] + 190.0, centre[1]), "dash")
    out.line(centre, pivot, "dash")
    out.line(centre, pin, "lever")
    out.line(pivot, between(pivot, pin, 1.25), "bolt")
    out.circle(centre, 11.0, "bar")
    for point in (pivot, pin):
        out.circle(point, 5.0, "void")
    for start, end, name, aside in (
        (centre, pivot, "a", (4.0, 18.0)),
        (centre, pin, "r", (-16.0, 0.0)),
        (pivot, pin, "ℓ", (8.0, -8.0)),
    ):
        x, y = between(start, end, 0.6)
        out.text((x + aside[0], y + aside[1]), name, "bold")
    out.arc(centre, 44.0, (0.0, lever))
    out.text(polar(centre, 58.0, 58.0), "α", "bold")
    out.arc(centre, 112.0, (0.0, 20.0))
    x, y = polar(centre, 124.0, 9.0)
    out.text((x, y + 4), "α_b_", "bold", "start")
    out.text((150, 312), "a bolt that swivels", "bold")


def _on_fixed_line(out: Drawing, centre: XY, scale: float) -> None:
    bolt, lever = FIXED_LINE, 64.0
    distance = scale * bolt.line_distance
    foot = (centre[0], centre[1] - distance)
    beyond = distance * math.tan(math.radians(90.0 - lever))
    pin = (foot[0] + beyond, foot[1])
    out.line(centre, (centre[0] + 130.0, centre[1]), "dash")
    out.line(centre, foot, "dash")
    out.line(centre, between(centre, pin, 1.15), "lever")
    out.line((foot[0] - 40.0, foot[1]), (foot[0] + 130.0, foot[1]), "bolt")
    out.circle(centre, 11.0, "bar")
    out.circle(pin, 5.0, "void")
    out.text((foot[0] - 8.0, between(centre, foot)[1] + 4.0), "e", "bold", "end")
    out.dimension((foot[0], foot[1] - 16.0), (pin[0], pin[1] - 16.0), "")
    x, y = between(foot, pin)
    out.text((x, y - 22.0), "h", "bold")
    out.arc(centre, 44.0, (0.0, lever))
    out.text(polar(centre, 60.0, 34.0), "α", "bold")
    out.text((410, 312), "a bolt on a fixed line", "bold")


def _face(centre: XY, sizes: XY, degrees: float) -> list[XY]:
    """Corners of a lever with flat faces, by their offset and its length."""
    offset, long = sizes
    corners = ((0.0, -offset), (long, -offset), (long, offset), (0.0, offset))
    return [polar(polar(centre, x, degrees), y, degrees + 90.0) for x, y in corners]


def levers_without_pin() -> Drawing:
    """Draw a key lever on its bolt, with its letters, and its angle over the bolt's place."""
    out = Drawing(760, 370, "A key lever whose face rests on a bolt's rounded end")
    centre, scale, bolt = (80.0, 130.0), 1500.0, KEY_LEVER
    place = 0.062
    angle = float(bolt.lever_angle(place))
    # The bolt comes down from the cross-member, and the lever lies droopward of its end.
    line = centre[0] + scale * bolt.line_distance
    beam = centre[1] - scale * bolt.foot_position
    end = (line, beam + scale * (place - bolt.end_radius))
    out.line(centre, (centre[0] + 250.0, centre[1]), "dash")
    degrees = math.degrees(angle)
    area(out, _face(centre, (scale * bolt.face_offset, 215.0), degrees), "key")
    out.line(centre, polar(centre, 240.0, degrees), "dash")
    wide = scale * bolt.end_radius
    out.path(
        [(line - wide, beam - 30.0), *ring(end, wide, (180.0, 360.0)), (line + wide, beam - 30.0)],
        "tube",
    )
    out.box(line - 70.0, line + 70.0, beam - 26.0, beam, "part")
    out.text((line + 62.0, beam - 9.0), "cross-member", "small", "end")
    out.circle(end, 2.5, "solid")
    out.circle(centre, 16.0, "bar")
    along = scale * float(bolt.contact_distance(angle))
    touch = polar(polar(centre, along, degrees), scale * bolt.face_offset, degrees + 90.0)
    out.arrow(polar(touch, 70.0, degrees - 90.0), touch, "old", "red")
    x, y = polar(touch, 74.0, degrees - 90.0)
    out.text((x - 4, y + 10), "N", "bold red", "end")
    out.dimension((centre[0], 300.0), (line, 300.0), "")
    out.text(((centre[0] + line) / 2.0, 316.0), "e", "bold")
    out.line((centre[0], centre[1] + 18.0), (centre[0], 304.0), "dash")
    out.line(end, (line, 304.0), "dash")
    out.text((line + wide + 6.0, end[1] + 8.0), "ϱ", "bold", "start")
    base = polar(centre, 196.0, degrees)
    out.dimension(base, polar(base, scale * bolt.face_offset, degrees + 90.0), "")
    out.text((base[0] - 8.0, base[1] - 6.0), "f", "bold", "end")
    out.arc(centre, 232.0, (0.0, degrees))
    x, y = polar(centre, 242.0, degrees / 2.0)
    out.text((x + 2, y + 5), "α", "bold", "start")
    out.dimension((line + 44.0, beam), (line + 44.0, end[1] + wide), "")
    out.text((line + 50.0, (beam + end[1] + wide) / 2.0), "ℓ", "bold", "start")
    chart = Chart(out, (480.0, 34.0, 730.0, 294.0), across=(40.0, 80.0), up=(-40.0, 0.0))
    chart.ticks((40, 50, 60, 70, 80), (-40, -30, -20, -10, 0))
    chart.names("bolt's end from the cross-member, mm", "lever angle, bump positive, deg")
    low, high = bolt.reach
    places = np.linspace(max(low, 0.040), min(high, 0.080), 81)
    chart.curve(1e3 * places, np.degrees(bolt.lever_angle(places)))
    chart.point(1e3 * place, math.degrees(angle))
    return out


def threads() -> Drawing:
    """Draw what bolt and nut bear over the engaged length, beside the bolt's proof load."""
    out = Drawing(760, 320, "Forces at which threads strip over engagement, and a proof load")
    chart = Chart(out, (70.0, 34.0, 470.0, 264.0), across=(0.0, 16.0), up=(0.0, 160.0))
    chart.ticks((0, 4, 8, 12, 16), (0, 40, 80, 120, 160))
    chart.names("engaged length of full thread, mm", "force, kN")
    pitch = COARSE_PITCH[0.012]
    length = np.linspace(0.0, 0.016, 81)
    bolt = external_stripping_area(
        engagement=length,
        pitch=pitch,
        internal_minor_diameter=0.01044,
        external_pitch_diameter=0.01068,
    )
    nut = internal_stripping_area(
        engagement=length,
        pitch=pitch,
        external_major_diameter=0.01170,
        internal_pitch_diameter=0.01106,
    )
    for strips, strength, style in ((bolt, 500e6, "new"), (nut, 300e6, "old")):
        chart.curve(
            1e3 * length, np.asarray(stripping_load(strips, shear_strength=strength)) / 1e3, style
        )
    proof = float(proof_load(PropertyClass.CLASS_8_8, diameter=0.012, pitch=pitch)) / 1e3
    chart.curve((0.0, 16.0), (proof, proof), "end")
    entries = (
        ("new", "bolt's thread strips"),
        ("old", "nut's thread strips"),
        ("end", f"proof load, {proof:.0f} kN"),
    )
    legend(out, (88.0, 54.0), entries)
    _profile(out, pitch)
    return out


def _profile(out: Drawing, pitch: float) -> None:
    """Draw the thread of a bolt in that of its nut, in section."""
    scale, left, flank = 26_000.0, 580.0, math.sqrt(3.0) / 2.0
    height = scale * pitch * flank
    points: list[XY] = []
    for turn in range(5):
        top = 46.0 + turn * scale * pitch
        for along, across in (
            (0.0625, 0.875),
            (0.625 - 0.25 - 0.0625 + 0.125, 0.25),
            (0.6875, 0.25),
            (1.0625, 0.875),
        ):
            points.append((left + height * across, top + along * scale * pitch))
    first, last = points[0][1], points[-1][1]
    area(out, [(left - 44.0, first), *points, (left - 44.0, last)], "tube")
    area(out, [(left + 118.0, first), *points, (left + 118.0, last)], "part")
    out.text((left - 14, (first + last) / 2), "bolt", "small")
    out.text((left + 84, (first + last) / 2), "nut", "small")
    out.dimension((left + 130.0, points[3][1]), (left + 130.0, points[7][1]), "")
    out.text((left + 138.0, (points[3][1] + points[7][1]) / 2 + 4), "P", "bold", "start")


FIGURES: Figures = {
    "bolts_with_pin": bolts_with_pin,
    "levers_without_pin": levers_without_pin,
    "threads": threads,
}
