"""Rows of `serrations`: straight lines through the pitch circle, met and cut.

Two angles of DIN 5481 are from memory.  All else is drawn: the two flanks of a tooth are
lines through the ends of its arc on the pitch circle, as wide as a space, leaning by
half of the tooth's angle; the next tooth is the same, turned.
"""

from __future__ import annotations

import math

from shapely import LineString, Point, Polygon, affinity

from barwright.mechanics.spline.serrations import Serration
from spline_outlines import arc_inside
from validation import Kind, Row

TEETH = 36
PITCH = 30.0  # [mm]
TOOTH_ANGLE = math.radians(50.0)
SHAFT = Serration(teeth=TEETH, pitch_diameter=PITCH)
GIVEN = "36 teeth, pitch circle 30 mm, spaces of 60°"
LINES = "shapely, flanks drawn as lines through the pitch circle"


def flank(side: float, *, tooth: int = 0) -> LineString:
    """Flank of a tooth, drawn out; tooth 0 stands above the axis, -1 is its left flank."""
    quarter = math.tau / TEETH / 4.0
    foot = PITCH / 2.0 * math.sin(side * quarter), PITCH / 2.0 * math.cos(quarter)
    lean = -side * math.sin(TOOTH_ANGLE / 2.0), math.cos(TOOTH_ANGLE / 2.0)
    ends = [(foot[0] + far * lean[0], foot[1] + far * lean[1]) for far in (-10.0, 10.0)]
    angle = -math.tau / TEETH * tooth
    return affinity.rotate(LineString(ends), angle, origin=(0.0, 0.0), use_radians=True)


def meeting(one: LineString, other: LineString) -> float:
    """Distance from the axis [mm] at which two flanks meet."""
    return float(one.intersection(other).distance(Point(0.0, 0.0)))


def sharp_tip() -> float:
    """Where the two flanks of a tooth meet."""
    return meeting(flank(-1.0), flank(1.0))


def sharp_root() -> float:
    """Where the right flank of a tooth meets the left one of the next."""
    return meeting(flank(1.0), flank(-1.0, tooth=1))


def sharp_tooth() -> Polygon:
    """Wedge of one tooth, from its edge down."""
    left, right = flank(-1.0).coords[0], flank(1.0).coords[0]
    return Polygon([(0.0, sharp_tip()), left, right])


ROWS = [
    Row(
        of="serrations.Serration.tooth_angle",
        source="DIN 5481, angle of the teeth of 30 teeth",
        given="30 teeth, spaces of 60°",
        unit="°",
        expected=48.0,
        got=lambda: math.degrees(Serration(teeth=30, pitch_diameter=0.011).tooth_angle),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="serrations.Serration.tooth_angle",
        source="DIN 5481, angle of the teeth of 40 teeth",
        given="40 teeth, spaces of 60°",
        unit="°",
        expected=51.0,
        got=lambda: math.degrees(Serration(teeth=40, pitch_diameter=0.052).tooth_angle),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="serrations.Serration.pitch_tooth_thickness",
        source=f"{LINES}: arc inside a tooth",
        given=GIVEN,
        unit="mm",
        expected=lambda: arc_inside(sharp_tooth(), PITCH),
        got=lambda: float(SHAFT.pitch_tooth_thickness),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="serrations.Serration.sharp_major_diameter",
        source=f"{LINES}: where those of a tooth meet",
        given=GIVEN,
        unit="mm",
        expected=lambda: 2.0 * sharp_tip(),
        got=lambda: float(SHAFT.sharp_major_diameter),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="serrations.Serration.sharp_minor_diameter",
        source=f"{LINES}: where those of a space meet",
        given=GIVEN,
        unit="mm",
        expected=lambda: 2.0 * sharp_root(),
        got=lambda: float(SHAFT.sharp_minor_diameter),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="serrations.Serration.major_diameter",
        source=f"{LINES}: below their meeting by the truncation",
        given=f"{GIVEN}, 0.4 mm cut off the edges",
        unit="mm",
        expected=lambda: 2.0 * (sharp_tip() - 0.4),
        got=lambda: float(SHAFT.major_diameter(0.4)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="serrations.Serration.minor_diameter",
        source=f"{LINES}: above their meeting by the truncation",
        given=f"{GIVEN}, 0.3 mm of the spaces filled",
        unit="mm",
        expected=lambda: 2.0 * (sharp_root() + 0.3),
        got=lambda: float(SHAFT.minor_diameter(0.3)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="serrations.Serration.tooth_thickness",
        source=f"{LINES}: arc inside a tooth",
        given=f"{GIVEN}, at 30.8 mm",
        unit="mm",
        expected=lambda: arc_inside(sharp_tooth(), 30.8),
        got=lambda: float(SHAFT.tooth_thickness(30.8)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
]
