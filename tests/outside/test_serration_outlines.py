"""Serrations and the way in against outlines: drawn as polygons, laid over each other.

The standard's angles are from memory; here only the geometry is held, by drawing it.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from barwright.mechanics.spline.insertion import passes_freely, passes_meshed
from barwright.mechanics.spline.serrations import Serration
from draws import draws
from spline_outlines import Rack, arc_inside, cut_spline, disc, turned

# -- Serrations --------------------------------------------------------------------------


def _corner(radius: float, angle: float) -> tuple[float, float]:
    """Point at an angle from above the axis, clockwise."""
    return radius * math.sin(angle), radius * math.cos(angle)


def _sharp_shaft(shaft: Serration, teeth: int) -> Polygon:
    """Star of sharp teeth: edges and roots in turn."""
    pitch = math.tau / teeth
    top, bottom = float(shaft.sharp_major_diameter) / 2.0, float(shaft.sharp_minor_diameter) / 2.0
    corners = [
        corner
        for n in range(teeth)
        for corner in (_corner(top, n * pitch), _corner(bottom, (n + 0.5) * pitch))
    ]
    return Polygon(corners)


def _angle_between(one: LineString, other: LineString) -> float:
    """Angle [deg] between two lines that start at one corner."""
    a, b = (np.diff(shapely.get_coordinates(line), axis=0)[0] for line in (one, other))
    return math.degrees(math.acos(float(a @ b) / float(np.hypot(*a) * np.hypot(*b))))


@settings(max_examples=draws(30))
@given(teeth=st.integers(20, 70), space=st.floats(50.0, 100.0))
def test_star_of_sharp_teeth_has_the_angles_and_even_teeth_on_the_pitch_circle(
    teeth: int, space: float
) -> None:
    shaft = Serration(teeth=teeth, pitch_diameter=30.0, space_angle=math.radians(space))
    outline = _sharp_shaft(shaft, teeth)
    left, root, tip, right = (outline.exterior.coords[i] for i in (0, 1, 2, 3))

    at_root = _angle_between(LineString([root, left]), LineString([root, tip]))
    at_tip = _angle_between(LineString([tip, root]), LineString([tip, right]))
    assert at_root == pytest.approx(space, rel=1e-9)
    assert at_tip == pytest.approx(math.degrees(float(shaft.tooth_angle)), rel=1e-8)
    even = arc_inside(outline, 30.0) / teeth
    assert shaft.pitch_tooth_thickness == pytest.approx(even, rel=1e-6)


@settings(max_examples=draws(20))
@given(teeth=st.integers(20, 70), share=st.floats(0.1, 0.9))
def test_tooth_is_as_thick_as_the_star_on_any_circle(teeth: int, share: float) -> None:
    shaft = Serration(teeth=teeth, pitch_diameter=30.0)
    low, high = float(shaft.sharp_minor_diameter), float(shaft.sharp_major_diameter)
    circle = low + share * (high - low)

    expected = arc_inside(_sharp_shaft(shaft, teeth), circle) / teeth
    assert shaft.tooth_thickness(circle) == pytest.approx(expected, rel=2e-5)


# -- The way in --------------------------------------------------------------------------

BAR = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)
SPACES = Rack(pressure_angle=30.0, reach=0.5, addendum=0.9)


def _bar(teeth: int, blanks: tuple[int, ...]) -> Polygon:
    return cut_spline(teeth, 1.0, BAR, blanks=blanks, smooth=1e-3)


def _socket(teeth: int, *, keyed: bool) -> Any:
    spaces = cut_spline(teeth, 1.0, SPACES, blanks=(0,) if keyed else (), smooth=1e-3)
    return disc(3.0 * teeth).difference(shapely.union_all([spaces, disc(teeth - 1.0)]))


def _overlap(bar: Polygon, socket: Any) -> float:
    return float(shapely.intersection(bar, socket).area)


@pytest.mark.rare
@settings(max_examples=draws(60))
@given(
    teeth=st.sampled_from([16, 24]),
    blanks=st.sampled_from([(0,), (0, 3), (0, -4, 7)]),
    halves=st.integers(-40, 40),
    keyed=st.booleans(),
)
def test_end_passes_the_key_where_the_outlines_do_not_overlap(
    teeth: int, blanks: tuple[int, ...], halves: int, *, keyed: bool
) -> None:
    angle = halves * math.pi / teeth
    socket = _socket(teeth, keyed=keyed)
    overlap = _overlap(turned(_bar(teeth, blanks), angle), socket)

    # A tooth on the key or against a tooth is 0.7 mm² at least; smoothing leaves 0.1 mm².
    assert overlap < 0.1 or overlap > 0.5
    passes = bool(passes_meshed(angle, teeth=teeth, blanks=blanks, keyed=keyed))
    assert passes == (overlap < 0.1)


@given(diameter=st.floats(20.0, 26.0).filter(lambda d: abs(d - 23.0) > 0.01))
def test_round_end_passes_where_it_does_not_reach_the_sockets_teeth(diameter: float) -> None:
    reaches = _overlap(
        Point(0.0, 0.0).buffer(diameter / 2.0, quad_segs=64), _socket(24, keyed=True)
    )

    assert bool(passes_freely(major_diameter=diameter, minor_diameter=23.0)) == (reaches < 1e-9)
