"""Rows of `involute_reference`: one recalled designation, and a moved rack.

The sizes of W 30×1.25×22 are from memory, and so is how far the rack reaches: 0.55 modules below
its pitch line.  It is moved out until the roots have their size, and what it cuts is measured.
"""

from __future__ import annotations

import functools

import scipy.optimize

from barwright.mechanics.spline.involute_reference import (
    addendum_modification,
    external_major_diameter,
    external_minor_diameter,
    internal_minor_diameter,
    pitch_tooth_thickness,
)
from spline_outlines import Rack, arc_inside, cut_spline, least_radius
from validation import Kind, Row

DESIGNATION = "DIN 5480, W 30×1.25×22"
SIZE = {"reference_diameter": 30.0, "module": 1.25}
CUT = "recalled: roots of 27.25 mm and a 30° rack, 0.55 modules deep"


def rack(shift: float) -> Rack:
    """Rack that cuts the shaft's roots as a broach does."""
    return Rack(pressure_angle=30.0, reach=0.55, addendum=0.45, shift=shift)


@functools.cache
def shift() -> float:
    """How far the rack is moved out, in modules, so that its roots have 27.25 mm."""

    def missing(moved: float) -> float:
        return 2.0 * least_radius(cut_spline(22, 1.25, rack(moved))) - 27.25

    return float(scipy.optimize.brentq(missing, 0.2, 0.6, xtol=1e-9))


ROWS = [
    Row(
        of="involute_reference.external_major_diameter",
        source=f"{DESIGNATION}, d_a1",
        given="reference diameter 30 mm, module 1.25 mm",
        unit="mm",
        expected=29.75,
        got=lambda: float(external_major_diameter(**SIZE)),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute_reference.internal_minor_diameter",
        source=f"{DESIGNATION}, d_a2",
        given="reference diameter 30 mm, module 1.25 mm",
        unit="mm",
        expected=27.5,
        got=lambda: float(internal_minor_diameter(**SIZE)),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute_reference.external_minor_diameter",
        source=f"{DESIGNATION}, d_f1",
        given="reference diameter 30 mm, module 1.25 mm",
        unit="mm",
        expected=27.25,
        got=lambda: float(external_minor_diameter(**SIZE)),
        within=1e-12,
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute_reference.addendum_modification",
        source=f"{DESIGNATION}, {CUT}; shift at which it cuts these roots",
        given="reference diameter 30 mm, 22 teeth, module 1.25 mm",
        unit="",
        expected=shift,
        got=lambda: float(addendum_modification(teeth=22, **SIZE)),
        within=1e-6,
        kind=Kind.RECALLED,
    ),
    Row(
        of="involute_reference.pitch_tooth_thickness",
        source=f"{DESIGNATION}, {CUT}, shifted until it cuts these roots: "
        "arc of a tooth at 27.5 mm",
        given="reference diameter 30 mm, 22 teeth, module 1.25 mm",
        unit="mm",
        expected=lambda: arc_inside(cut_spline(22, 1.25, rack(shift())), 27.5) / 22.0,
        got=lambda: float(pitch_tooth_thickness(teeth=22, **SIZE)),
        within=2e-6,
        why="steps of the rolling rack",
        kind=Kind.RECALLED,
    ),
]
