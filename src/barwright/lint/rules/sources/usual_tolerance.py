"""A tolerance is as wide as such figures usually have."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from typing import TypeAlias

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.stated import StatedFigure
from barwright.lint.subject.subject import Subject
from barwright.parts.adjuster import (
    Adjuster,
    FixedLineMounting,
    KeyBoltMounting,
    SwivellingMounting,
)
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar
from barwright.parts.chassis import Axle, Chassis
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.parts.common.source import SourceKind
from barwright.parts.damper import Damper, GasCharge
from barwright.parts.material import Material
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, Kind, is_unknown, shown, si, to_kind

__all__ = ["RULE"]

_Widest: TypeAlias = str | float
"""A figure, or a share of the toleranced one."""

_WIDEST: Mapping[type[Record], Mapping[str, _Widest]] = {
    Material: {"shear_modulus": 0.08, "youngs_modulus": 0.08, "density": 0.03},
    Bar: {
        "diameter": 0.01,
        "bore": 0.03,
        "length": "3 mm",
        "blank_angle": "1 deg",
        "measured_rate": 0.1,
    },
    BarEnd: {
        "length": "2 mm",
        "major_diameter": 0.015,
        "root_diameter": 0.015,
        "taper": "5 mm",
        "nose": "3 mm",
    },
    Socket: {
        "length": "2 mm",
        "minor_diameter": 0.015,
        "required_engagement": "6 mm",
        "key_angle": "1.5 deg",
    },
    Arm: {"radius": "4 mm"},
    Tube: {
        "outside_diameter": 0.015,
        "bore": 0.02,
        "lever_radius": "2 mm",
        "lever_position": "4 mm",
        "cap_position": "4 mm",
        "socket_position": "4 mm",
    },
    KeyLever: {"face_offset": "2 mm", "lever_position": "4 mm", "socket_position": "4 mm"},
    FixedSocket: {"anchor_angle": "2 deg", "socket_position": "4 mm"},
    SwivellingMounting: {"pivot_distance": "2 mm", "pivot_angle": "2 deg"},
    FixedLineMounting: {"line_distance": "2 mm", "foot_angle": "2 deg", "foot_position": "3 mm"},
    KeyBoltMounting: {"line_distance": "2 mm", "foot_angle": "2 deg", "foot_position": "3 mm"},
    Adjuster: {
        "thread_diameter": 0.03,
        "thread_pitch": 0.03,
        "thread_start": "3 mm",
        "thread_end": "3 mm",
        "nut_height": "1 mm",
    },
    Damper: {"open_length": "15 mm", "closed_length": "15 mm"},
    GasCharge: {"force": 0.5, "at_length": "15 mm"},
    Chassis: {"wheelbase": 0.02},
    Axle: {
        "hub_outboard": "15 mm",
        "hub_up": "15 mm",
        "reference_angle": "2 deg",
        "tyre_radius": 0.05,
        "tyre_rate": 0.5,
        "unsprung_mass": 0.5,
        "standard_mass": 0.15,
        "standard_height": "15 mm",
        "measured_height": "15 mm",
        "measured_angle": "1.5 deg",
        "droop_stop": "4 deg",
        "bump_stop": "4 deg",
        "tube_position": "5 mm",
        "bolt_position": "5 mm",
        "cap_holes_position": "5 mm",
    },
}
"""The widest tolerances that a garage's tools and a maker's sheet leave: common practice, no
source."""

_FINEST: Mapping[Kind, str] = {LENGTH: "0.001 mm", ANGLE: "0.005 deg"}
"""Finer than any tool in a garage reads."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    sources = {source.id: source.kind for _, source in subject.sources}
    for stated in subject.figures:
        # The tolerance of an estimate is the range that it is known in.
        if sources.get(stated.source) is not SourceKind.ESTIMATED:
            yield from _odd(stated)


def _odd(stated: StatedFigure) -> Iterator[Remark]:
    tolerance, value = stated.about.tolerance, stated.about.value
    if tolerance is None or is_unknown(value):
        return
    kind, _ = figure_fields(type(stated.record))[stated.name]
    width = si(tolerance, kind)
    widest = _WIDEST.get(type(stated.record), {}).get(stated.name)
    if widest is not None:
        is_share = isinstance(widest, float)
        most = widest * abs(si(value, kind)) if isinstance(widest, float) else _si(widest, kind)
        if width > most:
            usual = f"{widest:.1%}" if is_share else widest
            found = f"{stated.name} {shown(value)} has a tolerance of ± {shown(tolerance)}"
            yield Remark(stated.place, f"{found}; such figures usually have ± {usual} at most")
    if kind in _FINEST and 0.0 < width < _si(_FINEST[kind], kind):
        message = f"{stated.name} has a tolerance of ± {shown(tolerance)}, finer than tools read"
        yield Remark(stated.place, message)


@functools.cache
def _si(limit: str, kind: Kind) -> float:
    return si(to_kind(limit, kind, key=""), kind)


RULE = Rule(
    name="usual-tolerance",
    code="R105",
    severity=Severity.WARNING,
    wants="a tolerance is as wide as tools and makers' sheets leave such a figure",
    tip="look for a wrong unit or decimal point after the ±; if it is right, waive the finding",
    remarks=_remarks,
)
