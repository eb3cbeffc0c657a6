"""Bars and tubes as engines see them: chains of shafts, frames, meshed sections, solids.

Each takes lengths and diameters in metres and knows nothing of our formulas.  What an
engine meets from one side only, with an error that falls with the square of a size, is
taken at two sizes and carried on to none (Richardson).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import attrs
import mujoco
import numpy as np
from Pynite import FEModel3D
from shapely import Point, Polygon, box

MILLI = 1e-3


@attrs.frozen
class Piece:
    """A cylinder or a cone of a chain, with a bore [m]."""

    length: float
    start: float
    end: float
    bore: float = 0.0


def chain_rate(pieces: Sequence[Piece], *, shear_modulus: float, slices: int = 60) -> float:
    """Rate of pieces end to end, by opentorsion [N·m/rad]."""
    coarse, fine = (
        _flexibility(pieces, shear_modulus=shear_modulus, slices=count)
        for count in (slices, 2 * slices)
    )
    return 3.0 / (4.0 * fine - coarse)


def _flexibility(pieces: Sequence[Piece], *, shear_modulus: float, slices: int) -> float:
    """Twist of the far end for a unit torque, the near one held [rad/(N·m)]."""
    # It loads a library that draws, and takes long over it.
    from opentorsion.assembly import Assembly  # noqa: PLC0415
    from opentorsion.elements.shaft_element import Shaft  # noqa: PLC0415

    sections = [section for piece in pieces for section in _slices(piece, slices)]
    shafts = [
        Shaft(node, node + 1, L=length / MILLI, odl=out / MILLI, idl=bore / MILLI, G=shear_modulus)
        for node, (length, out, bore) in enumerate(sections)
    ]
    stiffness = Assembly(shafts).assemble_K()[1:, 1:]
    torque = np.zeros(len(shafts))
    torque[-1] = 1.0
    return float(np.linalg.solve(stiffness, torque)[-1])


def _slices(piece: Piece, count: int) -> list[tuple[float, float, float]]:
    """Length, diameter and bore of the cylinders that a piece is cut into."""
    if piece.start == piece.end:
        return [(piece.length, piece.start, piece.bore)]
    middle = (np.arange(count) + 0.5) / count
    return [
        (piece.length / count, float(out), piece.bore)
        for out in piece.start + (piece.end - piece.start) * middle
    ]


@attrs.frozen
class Round:
    """A plain bar or tube of a frame: length [m] and polar second moment of area [m⁴]."""

    length: float
    polar: float


def folded_twist(bar: Round, tube: Round, *, torque: float, shear_modulus: float) -> float:
    """Twist of a bar's arm end, its other end held by a tube around it that runs back [rad].

    A frame by PyNiteFEA.  The tube stands aside, since a node that lies
    on another member would split it; a couple does not mind.  The link between the two
    is a million times as stout as the bar.
    """
    frame = FEModel3D()
    modulus = 2.6 * shear_modulus
    frame.add_material("steel", modulus, shear_modulus, 0.3, 7850.0)
    stout = 1e6 * bar.polar
    for name, polar in (("bar", bar.polar), ("tube", tube.polar), ("link", stout)):
        frame.add_section(name, 1e-3, max(polar, 1e-8), max(polar, 1e-8), polar)
    aside = 0.5
    frame.add_node("arm", 0.0, 0.0, 0.0)
    frame.add_node("anchor", bar.length, 0.0, 0.0)
    frame.add_node("socket", bar.length, aside, 0.0)
    frame.add_node("lever", bar.length - tube.length, aside, 0.0)
    frame.add_member("bar", "arm", "anchor", "steel", "bar")
    frame.add_member("link", "anchor", "socket", "steel", "link")
    frame.add_member("tube", "socket", "lever", "steel", "tube")
    frame.def_support("lever", *([True] * 6))
    frame.add_node_load("arm", "MX", torque)
    frame.analyze_linear()
    return float(frame.nodes["arm"].RX["Combo 1"])


def cylinder_mass(*, length: float, diameter: float, density: float) -> float:
    """Mass of a body that is one cylinder, by MuJoCo [kg]."""
    model = mujoco.MjModel.from_xml_string(f"""
    <mujoco><worldbody><body><geom type="cylinder" density="{density!r}"
      size="{diameter / 2.0!r} {length / 2.0!r}"/></body></worldbody></mujoco>
    """)
    return float(model.body_mass[1])


def revolved(outline: Sequence[tuple[float, float]], *, bore: float = 0.0) -> float:
    """Volume of a solid of revolution, by Pappus, from shapely's area and centroid [m³].

    Parameters
    ----------
    outline : sequence of (float, float)
        Points of the surface: along the axis, out from it.
    bore : float
        Diameter of a hole on the axis.
    """
    first, last = outline[0][0], outline[-1][0]
    half = Polygon([(first, bore / 2.0), *outline, (last, bore / 2.0)])
    return 2.0 * math.pi * float(half.centroid.y) * float(half.area)


def fillet_outline(
    *, diameter: float, head_diameter: float, radius: float
) -> list[tuple[float, float]]:
    """Surface of a fillet: the circle that touches the body, as far as face or head."""
    circle = Point(0.0, diameter / 2.0 + radius).buffer(radius, quad_segs=8000).exterior
    top = min(head_diameter / 2.0, diameter / 2.0 + radius)
    arc = circle.intersection(box(0.0, 0.0, 2.0 * radius, top))
    points = np.concatenate([line.coords for line in getattr(arc, "geoms", [arc])])
    return [(float(along), float(out)) for along, out in sorted(map(tuple, points))]
