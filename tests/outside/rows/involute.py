"""Rows of `involute`: a rolling rack, an unwound string, a printed table."""

from __future__ import annotations

import functools
import math

import numpy as np
import scipy.optimize
import shapely
from shapely import Polygon

import involute_string
from barwright.mechanics.spline.involute import (
    angular_pitch,
    base_diameter,
    circular_tooth_thickness,
    contact_depth,
    involute_function,
    module_of,
    pitch_diameter,
    pressure_angle_at,
    radial_clearance,
    tooth_thickness_at,
)
from spline_outlines import Rack, arc_inside, cut_spline, disc
from validation import Kind, Row

ANGLE = math.radians(30.0)
RACK = Rack(pressure_angle=30.0, reach=0.9, addendum=0.5)
DEEP = Rack(pressure_angle=30.0, reach=0.6, addendum=0.9)
CUT = "shapely, spline cut with a rolling rack"
STRING = "scipy, string unwound from the base circle"
STEPS = "steps of the rolling rack"


@functools.cache
def bar() -> Polygon:
    """Outline of 40 teeth of module 0.75 mm [mm], as thick as their spaces."""
    return cut_spline(40, 0.75, RACK)


@functools.cache
def hole() -> Polygon:
    """Outline [mm] of the hole of its socket, with roots 0.9 and tips 0.5 modules away."""
    deep = cut_spline(40, 0.75, DEEP)
    return shapely.union_all([deep, disc(0.75 * 39.0)])


@functools.cache
def even_circle() -> float:
    """Diameter [mm] on which teeth and spaces of the cut spline are equally wide."""

    def uneven(diameter: float) -> float:
        return arc_inside(bar(), diameter) - math.pi * diameter / 2.0

    return float(scipy.optimize.brentq(uneven, 29.0, 30.6, xtol=1e-9))


def string_base(radius: float, angle: float) -> float:
    """Radius of the circle whose string crosses another circle at an angle to the radius."""

    def missing(base: float) -> float:
        return involute_string.lean(radius / base) - angle

    return float(scipy.optimize.brentq(missing, 0.5 * radius, 0.999 * radius, xtol=1e-15))


def string_thickness(diameter: float) -> float:
    """Thickness [mm] along a circle of a tooth of 40, module 0.75 mm, 30°, between strings."""
    base = string_base(15.0, ANGLE)
    turned = involute_string.polar_angle(diameter / 2.0 / base)
    at_pitch = involute_string.polar_angle(15.0 / base)
    return diameter * (1.2 / 30.0 - (turned - at_pitch))


def _least_angle_of_roots(count: int) -> float:
    """Least angle [deg] between the roots of unity of an order."""
    roots = np.roots([1.0, *[0.0] * (count - 1), -1.0])
    return float(np.degrees(np.min(np.diff(np.sort(np.angle(roots))))))


def along_a_ray(outline: Polygon) -> float:
    """Length of a ray, from the axis over the middle of a tooth of the bar, inside an outline."""
    ray = shapely.LineString([(0.0, 0.0), (0.0, 20.0)])
    return float(ray.intersection(outline).length)


def own_thickness(diameter: float, tooth_thickness: float) -> float:
    """What the kernel makes of a tooth of 40, module 0.75 mm, 30° [mm]."""
    spline = {"teeth": 40, "module": 0.75, "pressure_angle": ANGLE}
    return float(tooth_thickness_at(diameter, tooth_thickness=tooth_thickness, **spline))


ROWS = [
    Row(
        of="involute.module_of",
        source="Tables of pitches: module 1.0583 mm for a diametral pitch of 24",
        given="24 teeth per inch of pitch diameter",
        unit="mm",
        expected=1.0583,
        got=lambda: float(module_of(24.0 / 0.0254)) * 1e3,
        within=5e-5,
        why="printed to 0.0001 mm",
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute.pitch_diameter",
        source=f"{CUT}: circle on which teeth and spaces are equally wide",
        given="40 teeth, module 0.75 mm",
        unit="mm",
        expected=even_circle,
        got=lambda: float(pitch_diameter(teeth=40, module=0.75)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.base_diameter",
        source="scipy, circle whose unwound string crosses the pitch circle at 30°, by a root "
        "search",
        given="40 teeth, module 0.75 mm, 30°",
        unit="mm",
        expected=lambda: 2.0 * string_base(15.0, ANGLE),
        got=lambda: float(base_diameter(teeth=40, module=0.75, pressure_angle=ANGLE)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.angular_pitch",
        source="numpy: angle between neighbouring roots of z³⁹ = 1",
        given="39 teeth",
        unit="°",
        expected=functools.partial(_least_angle_of_roots, 39),
        got=lambda: math.degrees(angular_pitch(39)),
        within=1e-12,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.circular_tooth_thickness",
        source=f"{CUT}: arc of a tooth at 30 mm",
        given="40 teeth, module 0.75 mm",
        unit="mm",
        expected=lambda: arc_inside(bar(), 30.0) / 40.0,
        got=lambda: float(circular_tooth_thickness(0.75)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.involute_function",
        source="Tables of the involute function: inv 20° = 0.014904",
        given="20°",
        unit="",
        expected=0.014904,
        got=lambda: float(involute_function(math.radians(20.0))),
        within=4e-5,
        why="printed to 0.000 001",
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute.involute_function",
        source=f"{STRING}: polar angle of its end at a pressure angle of 30°",
        given="30°",
        unit="",
        expected=lambda: involute_string.polar_angle(1.0 / string_base(1.0, ANGLE)),
        got=lambda: float(involute_function(ANGLE)),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.pressure_angle_at",
        source=f"{STRING}: pressure angle at a circle",
        given="circle 30 mm, base circle 26 mm",
        unit="°",
        expected=lambda: math.degrees(involute_string.lean(30.0 / 26.0)),
        got=lambda: math.degrees(pressure_angle_at(30.0, base_diameter=26.0)),
        within=1e-10,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.tooth_thickness_at",
        source=f"{STRING}, for both flanks",
        given="at 30.6 mm; 40 teeth, module 0.75 mm, 30°, 1.2 mm thick at the pitch circle",
        unit="mm",
        expected=lambda: string_thickness(30.6),
        got=lambda: own_thickness(30.6, 1.2),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.tooth_thickness_at",
        source=f"{CUT}: arc of a tooth at 29.2 mm",
        given="40 teeth, module 0.75 mm, 30°, as thick as the spaces at the pitch circle",
        unit="mm",
        expected=lambda: arc_inside(bar(), 29.2) / 40.0,
        got=lambda: own_thickness(29.2, math.pi * 0.75 / 2.0),
        within=3e-6,
        why=STEPS,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.radial_clearance",
        source=f"{CUT}: tips of a bar and roots of its socket, along a ray",
        given="bar 30.75 mm, socket 31.35 mm",
        unit="mm",
        expected=lambda: along_a_ray(hole()) - along_a_ray(bar()),
        got=lambda: float(radial_clearance(inner_diameter=30.75, outer_diameter=31.35)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="involute.contact_depth",
        source=f"{CUT}: circle inside the socket's teeth and the bar's tips, along a ray",
        given="bar 30.75 mm, socket 29.25 mm",
        unit="mm",
        expected=lambda: along_a_ray(bar()) - along_a_ray(disc(29.25)),
        got=lambda: float(contact_depth(major_diameter=30.75, minor_diameter=29.25)),
        within=1e-6,
        kind=Kind.FORMULATED,
    ),
]
