"""Rows of `threads`: printed tables, and a drawn profile that is cut."""

from __future__ import annotations

import math

import scipy.optimize
import shapely
from shapely import LineString

from barwright.mechanics.anchorage.threads import (
    PropertyClass,
    basic_minor_diameter,
    basic_pitch_diameter,
    external_stripping_area,
    internal_stripping_area,
    proof_load,
    required_engagement,
    stress_area,
    stripping_load,
    utilisation,
)
from validation import Kind, Row

TABLE = "ISO 898-1, coarse threads, in secondary tables"
PROFILE = "shapely, sharp profile of 60° cut by a cylinder"
ROUNDED = "area printed to 0.1 mm², load to 100 N"

# Nominal diameter and pitch [mm], stress area [mm²], proof loads [N] of 8.8 and 10.9.
PRINTED = [
    (8.0, 1.25, 36.6, 21_200.0, 30_400.0),
    (10.0, 1.5, 58.0, 33_700.0, 48_100.0),
    (12.0, 1.75, 84.3, 48_900.0, 70_000.0),
    (14.0, 2.0, 115.0, 66_700.0, 95_500.0),
    (16.0, 2.0, 157.0, 91_000.0, 130_000.0),
]
# The largest two areas are printed in whole mm², 0.38 % and 0.21 % off.
AREA_WITHIN = [1.4e-3, 9e-4, 6e-4, 4.4e-3, 3.2e-3]
LOAD_WITHIN = 4.2e-3


def width_on(cylinder: float, pitch: float, pitch_diameter: float) -> float:
    """Axial width [mm] of one thread of a bolt where a cylinder cuts its sharp profile."""
    height = pitch * math.cos(math.radians(30.0))
    radius = pitch_diameter / 2.0
    thread = LineString(
        [
            (-pitch / 2.0, radius - height / 2.0),
            (0.0, radius + height / 2.0),
            (pitch / 2.0, radius - height / 2.0),
        ]
    )
    cut = LineString([(-pitch, cylinder / 2.0), (pitch, cylinder / 2.0)]).intersection(thread)
    ends = shapely.get_coordinates(cut)
    return float(ends[1, 0] - ends[0, 0])


def bolt_area(engagement: float) -> float:
    """Area [mm²] on which an M12 bolt shears inside a nut of 10.3 mm, 10.8 mm pitch diameter."""
    turns = engagement / 1.75
    return math.pi * 10.3 * turns * abs(width_on(10.3, 1.75, 10.8))


def nut_area(engagement: float) -> float:
    """Area [mm²] on which its nut shears around a bolt of 11.8 mm, 11.0 mm pitch diameter."""
    turns = engagement / 1.75
    return math.pi * 11.8 * turns * (1.75 - abs(width_on(11.8, 1.75, 11.0)))


def engagement_for(load: float, shear_strength: float) -> float:
    """Engagement [mm] at which the bolt's threads shear at a load [N], by a root search."""
    return float(
        scipy.optimize.brentq(
            lambda length: bolt_area(length) * shear_strength - load, 0.0, 100.0, xtol=1e-12
        )
    )


def own_bolt_area(engagement: float) -> float:
    """What the kernel makes of the bolt's area [m²]."""
    return float(
        external_stripping_area(
            engagement=engagement,
            pitch=0.00175,
            internal_minor_diameter=0.0103,
            external_pitch_diameter=0.0108,
        )
    )


def own_proof_load(property_class: PropertyClass, diameter: float, pitch: float) -> float:
    """What the kernel makes of a proof load [N]."""
    return float(proof_load(property_class, diameter=diameter / 1e3, pitch=pitch / 1e3))


def row_of_area(size: tuple[float, ...], within: float) -> Row:
    """Stress area of one size."""
    diameter, pitch, area, *_ = size
    rounding = "printed in whole mm²" if area > 100.0 else "printed to 0.1 mm²"
    return Row(
        of="threads.stress_area",
        source=TABLE,
        kind=Kind.REPRODUCED,
        given=f"M{diameter:g}×{pitch:g}",
        unit="mm²",
        expected=area,
        got=lambda: float(stress_area(diameter=diameter / 1e3, pitch=pitch / 1e3)) * 1e6,
        within=within,
        why=rounding,
    )


def row_of_load(size: tuple[float, ...], property_class: PropertyClass) -> Row:
    """Proof load of one size and class."""
    diameter, pitch = size[:2]
    printed = size[3] if property_class is PropertyClass.CLASS_8_8 else size[4]
    return Row(
        of="threads.proof_load",
        source=TABLE,
        kind=Kind.REPRODUCED,
        given=f"M{diameter:g}×{pitch:g}, {property_class.value}",
        unit="N",
        expected=printed,
        got=lambda: own_proof_load(property_class, diameter, pitch),
        within=LOAD_WITHIN,
        why="printed loads use rounded areas",
    )


ROWS = [
    *(row_of_area(size, within) for size, within in zip(PRINTED, AREA_WITHIN, strict=True)),
    *(row_of_load(size, name) for name in PropertyClass for size in PRINTED),
    Row(
        of="threads.PropertyClass.proof_stress",
        source=f"{TABLE}: proof load over stress area of M12",
        kind=Kind.REPRODUCED,
        given="8.8",
        unit="MPa",
        expected=48_900.0 / 84.3,
        got=lambda: PropertyClass.CLASS_8_8.proof_stress / 1e6,
        within=1.7e-3,
        why=ROUNDED,
    ),
    Row(
        of="threads.PropertyClass.proof_stress",
        source=f"{TABLE}: proof load over stress area of M12",
        kind=Kind.REPRODUCED,
        given="10.9",
        unit="MPa",
        expected=70_000.0 / 84.3,
        got=lambda: PropertyClass.CLASS_10_9.proof_stress / 1e6,
        within=1.4e-3,
        why=ROUNDED,
    ),
    Row(
        of="threads.basic_pitch_diameter",
        source="ISO 724",
        given="M12×1.75",
        unit="mm",
        expected=10.863,
        got=lambda: float(basic_pitch_diameter(diameter=0.012, pitch=0.00175)) * 1e3,
        within=5e-5,
        why="printed to 0.001 mm",
        kind=Kind.RECALLED,
    ),
    Row(
        of="threads.basic_minor_diameter",
        source="ISO 724",
        given="M12×1.75",
        unit="mm",
        expected=10.106,
        got=lambda: float(basic_minor_diameter(diameter=0.012, pitch=0.00175)) * 1e3,
        within=5e-5,
        why="printed to 0.001 mm",
        kind=Kind.RECALLED,
    ),
    Row(
        of="threads.external_stripping_area",
        source=PROFILE,
        given="10 mm engaged, pitch 1.75 mm, nut 10.3 mm inside, bolt's pitch diameter 10.8 mm",
        unit="mm²",
        expected=lambda: bolt_area(10.0),
        got=lambda: own_bolt_area(0.010) * 1e6,
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="threads.internal_stripping_area",
        source=PROFILE,
        given="10 mm engaged, pitch 1.75 mm, bolt 11.8 mm outside, nut's pitch diameter 11 mm",
        unit="mm²",
        expected=lambda: nut_area(10.0),
        got=lambda: (
            float(
                internal_stripping_area(
                    engagement=0.010,
                    pitch=0.00175,
                    external_major_diameter=0.0118,
                    internal_pitch_diameter=0.0110,
                )
            )
            * 1e6
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="threads.stripping_load",
        source=f"{PROFILE}, each mm² bearing 400 N",
        given="M12 bolt as above, 10 mm engaged, 400 MPa in shear",
        unit="kN",
        expected=lambda: bolt_area(10.0) * 400.0 / 1e3,
        got=lambda: float(stripping_load(own_bolt_area(0.010), shear_strength=400e6)) / 1e3,
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="threads.required_engagement",
        source=f"{PROFILE}; engagement at which its area bears a load, by a root search",
        given="M12 bolt as above, 48.9 kN, 400 MPa in shear",
        unit="mm",
        expected=lambda: engagement_for(48_900.0, 400.0),
        got=lambda: (
            float(
                required_engagement(
                    48.9e3, area_per_length=own_bolt_area(1.0), shear_strength=400e6
                )
            )
            * 1e3
        ),
        within=1e-9,
        kind=Kind.FORMULATED,
    ),
    Row(
        of="threads.utilisation",
        source=f"{TABLE}: printed load of 8.8 over that of 10.9, M12",
        kind=Kind.REPRODUCED,
        given="48.9 kN pushing, proof load of 10.9 M12×1.75",
        unit="",
        expected=48_900.0 / 70_000.0,
        got=lambda: float(
            utilisation(-48_900.0, capacity=own_proof_load(PropertyClass.CLASS_10_9, 12.0, 1.75))
        ),
        within=LOAD_WITHIN,
        why="printed loads use rounded areas",
    ),
]
