"""Outlines of splines as polygons, cut with a rack that rolls on the pitch circle.

A space of the spline is what one tooth of the rack sweeps over while the spline's
pitch circle rolls on the rack's pitch line; nothing is known here of involutes.  The
rack moves in small steps, so that flanks and roots are polygons around their curves.
All lengths of a rack are in modules.
"""

from __future__ import annotations

import functools
import math

import attrs
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon, affinity

__all__ = ["Rack", "arc_inside", "cut_spline", "disc", "greatest_radius", "least_radius", "turned"]

Array = NDArray[np.float64]

_STEPS = 1500
_FINE = 512  # segments of a quarter of a circle


@attrs.frozen(kw_only=True)
class Rack:
    """A rack with straight flanks, its teeth as wide as its spaces.

    Parameters
    ----------
    pressure_angle : float
        Lean of the flanks [deg].
    reach : float
        From the pitch line to the tips of the rack, which cut the roots.
    addendum : float
        From the pitch line to the tips of the spline.
    shift : float
        How far the rack's own pitch line is moved away from the axis.
    """

    pressure_angle: float
    reach: float
    addendum: float
    shift: float = 0.0

    def tooth(self) -> Array:
        """Corners of one tooth, pointing down, around the point on the pitch circle."""
        lean = math.tan(math.radians(self.pressure_angle))
        heights = np.array([-self.reach, self.addendum + 0.2])
        half = math.pi / 4.0 + heights * lean
        low, high = heights + self.shift
        return np.array(
            [(-half[0], low), (half[0], low), (half[1], high), (-half[1], high)], dtype=float
        )


def disc(diameter: float) -> Polygon:
    """Fill a circle around the axis."""
    return shapely.Point(0.0, 0.0).buffer(diameter / 2.0, quad_segs=_FINE)


def turned(outline: Polygon, angle: float) -> Polygon:
    """Turn an outline about the axis by an angle [rad]."""
    return affinity.rotate(outline, angle, origin=(0.0, 0.0), use_radians=True)


@functools.cache
def _space(teeth: int, module: float, rack: Rack) -> Polygon:
    """What one tooth of the rack takes out of a blank, above the axis."""
    pitch = teeth / 2.0
    tip = pitch + rack.addendum + rack.shift
    root = pitch - rack.reach + rack.shift
    rolls = math.sqrt(tip**2 - root**2) / pitch + 2.0 / pitch
    positions = []
    for angle in np.linspace(-rolls, rolls, _STEPS):
        corners = rack.tooth() + np.array([pitch * angle, pitch])
        cosine, sine = math.cos(angle), math.sin(angle)
        positions.append(corners @ np.array([[cosine, sine], [-sine, cosine]]))
    swept = shapely.union_all([Polygon(module * corners) for corners in positions])
    assert isinstance(swept, Polygon)
    return swept


@functools.cache
def cut_spline(
    teeth: int, module: float, rack: Rack, blanks: tuple[int, ...] = (), smooth: float = 0.0
) -> Polygon:
    """Cut an external spline; its tooth 0 stands above the axis, the others follow right-handed.

    A tooth that is missing is turned down to the roots.  ``smooth`` is how far, in
    modules, the outline may leave the cut one to have fewer corners.
    """
    pitch = math.tau / teeth
    space = shapely.simplify(_space(teeth, module, rack), smooth * module)
    blank = disc(module * (teeth + 2.0 * (rack.addendum + rack.shift)))
    spaces = [turned(space, (number + 0.5) * pitch) for number in range(teeth)]
    root = disc(module * (teeth - 2.0 * (rack.reach - rack.shift)))
    gone = [turned(_wedge(blank, pitch), number * pitch).difference(root) for number in blanks]
    cut = blank.difference(shapely.union_all([*spaces, *gone]))
    outline = shapely.simplify(cut, smooth * module)
    assert isinstance(outline, Polygon)
    return outline


def _wedge(blank: Polygon, angle: float) -> Polygon:
    """Sector above the axis that is wider than the blank."""
    far = 2.0 * blank.bounds[3]
    side = far * math.tan(angle / 2.0)
    return Polygon([(0.0, 0.0), (side, far), (-side, far)])


def radii(outline: Polygon) -> Array:
    """Distance of every corner from the axis."""
    corners = shapely.get_coordinates(outline)
    return np.asarray(np.hypot(corners[:, 0], corners[:, 1]))


def greatest_radius(outline: Polygon) -> float:
    """Radius over the teeth."""
    return float(np.max(radii(outline)))


def least_radius(outline: Polygon) -> float:
    """Radius at the roots: the outline's nearest point to the axis."""
    return float(outline.exterior.distance(shapely.Point(0.0, 0.0)))


def arc_inside(outline: Polygon, diameter: float) -> float:
    """Length of a circle around the axis that lies inside an outline."""
    angles = np.linspace(0.0, math.tau, 200_001)
    circle = shapely.LineString(diameter / 2.0 * np.column_stack([np.cos(angles), np.sin(angles)]))
    return float(shapely.intersection(circle, outline).length)
