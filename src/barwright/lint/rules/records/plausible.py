"""A figure lies where such figures usually lie."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.parts.damper import Damper, GasCharge
from barwright.parts.material import Material
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.suspension import DoubleWishboneMounting, HelperCoil
from barwright.parts.tube import Tube
from barwright.units import Kind, shown, si, to_kind

__all__ = ["RANGES", "RULE"]

_Limit: TypeAlias = str | int
_Value: TypeAlias = tuple[PackPlace, type[Record], str, Any]

RANGES: Mapping[type[Record], Mapping[str, tuple[_Limit, _Limit]]] = {
    Material: {
        "shear_modulus": ("65 GPa", "85 GPa"),
        "youngs_modulus": ("180 GPa", "220 GPa"),
        "density": ("7650 kg/m**3", "8050 kg/m**3"),
        "tensile_strength": ("300 MPa", "2500 MPa"),
        "proof_strength": ("200 MPa", "2200 MPa"),
        "permissible_shear": ("100 MPa", "1500 MPa"),
        "preset_permissible_shear": ("100 MPa", "1500 MPa"),
    },
    Bar: {
        "diameter": ("8 mm", "80 mm"),
        "length": ("200 mm", "2500 mm"),
        "preset_twist": ("10 deg", "400 deg"),
        "measured_rate": ("1 N*m/deg", "2000 N*m/deg"),
    },
    BarEnd: {
        "teeth": (6, 80),
        "length": ("8 mm", "150 mm"),
        "major_diameter": ("10 mm", "120 mm"),
        "root_diameter": ("8 mm", "115 mm"),
        "taper": ("0 mm", "150 mm"),
        "fillet_radius": ("0.3 mm", "100 mm"),
        "nose": ("0 mm", "100 mm"),
        "nose_diameter": ("4 mm", "115 mm"),
    },
    Socket: {
        "teeth": (6, 80),
        "length": ("8 mm", "150 mm"),
        "minor_diameter": ("8 mm", "115 mm"),
        "required_engagement": ("5 mm", "120 mm"),
    },
    Arm: {"radius": ("80 mm", "800 mm")},
    Tube: {
        "outside_diameter": ("15 mm", "150 mm"),
        "bore": ("8 mm", "140 mm"),
        "lever_radius": ("30 mm", "400 mm"),
        "socket_position": ("20 mm", "2500 mm"),
    },
    KeyLever: {"face_end": ("30 mm", "400 mm")},
    Adjuster: {
        "thread_diameter": ("6 mm", "36 mm"),
        "thread_pitch": ("0.75 mm", "4 mm"),
        "nut_height": ("4 mm", "60 mm"),
    },
    Damper: {
        "open_length": ("100 mm", "1200 mm"),
        "closed_length": ("80 mm", "900 mm"),
        "damping_rate": ("0.3 N*s/mm", "15 N*s/mm"),
    },
    DoubleWishboneMounting: {
        "upper_radius": ("80 mm", "800 mm"),
        "upright": ("80 mm", "700 mm"),
    },
    HelperCoil: {"rate": ("0.5 N/mm", "300 N/mm"), "free_length": ("50 mm", "900 mm")},
    GasCharge: {"force": ("50 N", "1500 N")},
    Chassis: {"wheelbase": ("1000 mm", "7000 mm")},
    Axle: {
        "tyre_radius": ("120 mm", "700 mm"),
        "tyre_rate": ("40 N/mm", "1500 N/mm"),
        "unsprung_mass": ("3 kg", "300 kg"),
        "standard_mass": ("20 kg", "3000 kg"),
        "standard_height": ("80 mm", "1500 mm"),
        "measured_height": ("80 mm", "1500 mm"),
        "droop_stop": ("-60 deg", "20 deg"),
        "bump_stop": ("-20 deg", "60 deg"),
        "lever_allowance": ("0 mm", "20 mm"),
        "cap_allowance": ("0 mm", "20 mm"),
        "space_behind": ("0 mm", "500 mm"),
    },
}
"""Where figures of road vehicles usually lie: common practice, no source."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    return said_where_known(_values(subject), _reported)


def _reported(looked_at: _Value) -> Iterator[Remark]:
    place, cls, name, value = looked_at
    limits = RANGES.get(cls, {}).get(name)
    if value is not None and limits and not _lies_within(value, limits, cls, name):
        found = str(value) if isinstance(value, int) else shown(value)
        message = f"{found} is unusual; such figures lie from {limits[0]} to {limits[1]}"
        yield Remark(place, message)


def _values(subject: Subject) -> Iterator[_Value]:
    """Every count and quantity that might be unusual, with the class and field that hold it."""
    for place, piece in subject.pieces:
        for name in RANGES.get(type(piece), {}):
            yield place.within(name), type(piece), name, getattr(piece, name)
    for stated in subject.corrections:
        yield stated.place, type(stated.record), stated.name, stated.about.value


def _lies_within(value: Any, limits: tuple[_Limit, _Limit], cls: type, name: str) -> bool:  # noqa: ANN401 - a count or a quantity
    low, high = limits
    if isinstance(low, int) and isinstance(high, int):
        return low <= int(value) <= high
    kind, _ = figure_fields(cls)[name]
    return _si(low, kind) <= si(value, kind) <= _si(high, kind)


@functools.cache
def _si(limit: _Limit, kind: Kind) -> float:
    """Read a limit of the list above."""
    return si(to_kind(limit, kind, key=""), kind)


RULE = Rule(
    name="plausible",
    code="R103",
    severity=Severity.WARNING,
    wants="a figure lies in the usual range of such figures of road vehicles",
    tip="look for a wrong unit or digit; if it is right, waive the finding and give the reason",
    remarks=_remarks,
)
