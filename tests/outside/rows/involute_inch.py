"""Rows of `barwright.mechanics.involute_inch`: splines cut with the basic racks of the standard.

The reproduction of ANSI B92.1 that was read prints formulas and no sizes.  Their
coefficients are twice the depths of a rack; what such a rack cuts is measured.
"""

from __future__ import annotations

import functools

import shapely
from shapely import Polygon

from barwright.mechanics.involute_inch import (
    external_major_diameter,
    external_minor_diameter,
    internal_major_diameter,
    internal_minor_diameter,
)
from spline_outlines import Rack, cut_spline, disc, greatest_radius, least_radius
from validation import Flag, Row

# Tips and roots lie that far from the pitch line, over the diametral pitch.
COARSE = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)
FINE = Rack(pressure_angle=30.0, reach=1.0, addendum=0.5)
DEEP = Rack(pressure_angle=30.0, reach=0.5, addendum=0.9)
CUT = "shapely, cut with a rolling rack of 30°"


@functools.cache
def hole() -> Polygon:
    """Outline [in] of a socket's hole, 30 teeth, pitch 12/24."""
    teeth = cut_spline(30, 1.0 / 12.0, DEEP)
    return shapely.union_all([teeth, disc((30.0 - 2.0 * COARSE.addendum) / 12.0)])


def pitch(teeth_per_inch: float) -> dict[str, float]:
    """Spline of 30 teeth."""
    return {"teeth": 30.0, "diametral_pitch": teeth_per_inch / 0.0254}


ROWS = [
    Row(
        of="involute_inch.external_major_diameter",
        source=f"{CUT}, 0.5/P to the tips: over the bar",
        given="30 teeth, 12/24",
        unit="in",
        expected=lambda: 2.0 * greatest_radius(cut_spline(30, 1.0 / 12.0, COARSE)),
        got=lambda: float(external_major_diameter(**pitch(12.0))) / 0.0254,
        within=1e-6,
        flag=Flag.ENGINE,
    ),
    Row(
        of="involute_inch.external_minor_diameter",
        source=f"{CUT}, 0.9/P to the roots: at the bar's roots",
        given="30 teeth, 12/24",
        unit="in",
        expected=lambda: 2.0 * least_radius(cut_spline(30, 1.0 / 12.0, COARSE)),
        got=lambda: float(external_minor_diameter(**pitch(12.0))) / 0.0254,
        within=1e-6,
        flag=Flag.ENGINE,
    ),
    Row(
        of="involute_inch.external_minor_diameter",
        source=f"{CUT}, 1/P to the roots: at the bar's roots",
        given="30 teeth, 16/32",
        unit="in",
        expected=lambda: 2.0 * least_radius(cut_spline(30, 1.0 / 16.0, FINE)),
        got=lambda: float(external_minor_diameter(**pitch(16.0))) / 0.0254,
        within=1e-6,
        flag=Flag.ENGINE,
    ),
    Row(
        of="involute_inch.internal_major_diameter",
        source=f"{CUT}, 0.9/P to the socket's roots: greatest width of the hole",
        given="30 teeth, 12/24",
        unit="in",
        expected=lambda: 2.0 * greatest_radius(hole()),
        got=lambda: float(internal_major_diameter(**pitch(12.0))) / 0.0254,
        within=1e-6,
        flag=Flag.ENGINE,
    ),
    Row(
        of="involute_inch.internal_minor_diameter",
        source=f"{CUT}, 0.5/P to the socket's tips: least width of the hole",
        given="30 teeth, 12/24",
        unit="in",
        expected=lambda: 2.0 * least_radius(hole()),
        got=lambda: float(internal_minor_diameter(**pitch(12.0))) / 0.0254,
        within=2e-6,
        why="circle of 2048 sides",
        flag=Flag.ENGINE,
    ),
]
