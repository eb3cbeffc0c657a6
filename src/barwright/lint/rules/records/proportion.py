"""Figures of one part are in proportion to one another."""

from __future__ import annotations

from collections.abc import Iterator

import attrs

from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule, said_where_known
from barwright.lint.subject.place import PackPlace
from barwright.lint.subject.subject import Subject
from barwright.parts.adjuster import Adjuster
from barwright.parts.bar import Bar
from barwright.parts.common.fields import figure_fields
from barwright.parts.common.record import Record
from barwright.parts.damper import Damper
from barwright.parts.material import Material
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import Quantity, shown, si

__all__ = ["RULE"]


@attrs.frozen
class _Share:
    """A figure of a record as a share of another, by the fields that lead to each."""

    cls: type[Record]
    figure: str
    of: str
    least: float
    most: float


_SHARES = (
    _Share(Material, "youngs_modulus", "shear_modulus", 2.4, 2.8),
    _Share(Material, "proof_strength", "tensile_strength", 0.45, 1.0),
    _Share(Material, "permissible_shear", "tensile_strength", 0.15, 0.85),
    _Share(Bar, "length", "diameter", 12.0, 90.0),
    # Thicker is told by the rule on weak heads.
    _Share(Bar, "diameter", "arm_end.root_diameter", 0.55, 2.0),
    _Share(Bar, "diameter", "anchor_end.root_diameter", 0.55, 2.0),
    _Share(Bar, "arm_end.taper", "diameter", 0.0, 3.0),
    _Share(Bar, "anchor_end.taper", "diameter", 0.0, 3.0),
    _Share(BarEnd, "length", "major_diameter", 0.5, 2.5),
    _Share(BarEnd, "nose", "length", 0.0, 1.5),
    _Share(BarEnd, "root_diameter", "major_diameter", 0.8, 1.0),
    _Share(Socket, "length", "minor_diameter", 0.5, 3.0),
    _Share(Socket, "required_engagement", "length", 0.25, 0.99),
    _Share(Tube, "bore", "outside_diameter", 0.6, 0.95),
    _Share(Tube, "lever_radius", "outside_diameter", 1.0, 6.0),
    _Share(Adjuster, "nut_height", "thread_diameter", 0.49, 1.6),
    _Share(Damper, "closed_length", "open_length", 0.53, 0.82),
    _Share(Damper, "gas.at_length", "open_length", 0.55, 1.0),
)
"""Common practice, no source; of the moduli, Poisson's ratio of steel; of tensile and proof
strength, their meaning."""

_STEEPEST_GAS = 1.5
"""Share of a gas force by which it rises over the whole stroke: common practice, no source."""

_THREAD_LEAST, _THREAD_MOST = 1.5, 9.0
"""Length of the full thread in diameters of the bolt: common practice, no source."""


def _remarks(subject: Subject) -> Iterator[Remark]:
    for share in _SHARES:
        found = (
            (place, piece, share) for place, piece in subject.pieces if type(piece) is share.cls
        )
        yield from said_where_known(found, _reported)
    yield from said_where_known(subject.records_of(Damper), _gas)
    yield from said_where_known(subject.records_of(Adjuster), _thread)


def _reported(looked_at: tuple[PackPlace, Record, _Share]) -> Iterator[Remark]:
    place, record, share = looked_at
    figure, of = _at(record, share.figure), _at(record, share.of)
    if figure is None or of is None:
        return
    (value, number), (other, whole) = figure, of
    if whole and not share.least <= number / whole <= share.most:
        message = (
            f"{share.figure} of {shown(value)} is {number / whole:.2f} times {share.of} of "
            f"{shown(other)}; usual is {share.least:g} to {share.most:g} times"
        )
        yield Remark(place.within(share.figure), message)


def _at(record: Record, path: str) -> tuple[Quantity, float] | None:
    *steps, name = path.split(".")
    holder = record
    for step in steps:
        holder = getattr(holder, step)
        if holder is None:
            return None
    value: Quantity | None = getattr(holder, name)
    return None if value is None else (value, si(value, figure_fields(type(holder))[name][0]))


def _gas(placed: tuple[PackPlace, Damper]) -> Iterator[Remark]:
    place, damper = placed
    gas = damper.gas
    if gas is None:
        return
    at, low, high = (
        float(length.m_as("mm"))
        for length in (gas.at_length, damper.closed_length, damper.open_length)
    )
    if not low <= at <= high:
        message = (
            f"gas.at_length of {shown(gas.at_length)} lies beyond the damper's own lengths, "
            f"{shown(damper.closed_length)} to {shown(damper.open_length)}"
        )
        yield Remark(place.within("gas.at_length"), message)
    force, slope = float(gas.force.m_as("N")), float(gas.slope.m_as("N/mm"))
    if force > 0.0 and abs(slope) * (high - low) > _STEEPEST_GAS * force:
        rise = abs(slope) * (high - low)
        message = (
            f"with gas.slope of {shown(gas.slope)} the gas force rises by {rise:.0f} N over the "
            f"stroke, more than usual beside gas.force of {shown(gas.force)}"
        )
        yield Remark(place.within("gas.slope"), message)


def _thread(placed: tuple[PackPlace, Adjuster]) -> Iterator[Remark]:
    place, bolt = placed
    start, end, thick = (
        float(length.m_as("mm"))
        for length in (bolt.thread_start, bolt.thread_end, bolt.thread_diameter)
    )
    if not _THREAD_LEAST <= (end - start) / thick <= _THREAD_MOST:
        message = (
            f"thread_start {shown(bolt.thread_start)} and thread_end {shown(bolt.thread_end)} "
            f"leave {end - start:g} mm of thread on a bolt of {shown(bolt.thread_diameter)}; "
            f"usual is {_THREAD_LEAST:g} to {_THREAD_MOST:g} diameters"
        )
        yield Remark(place.within("thread_end"), message)


RULE = Rule(
    name="proportion",
    code="R106",
    severity=Severity.WARNING,
    wants="figures of one part are in proportion to one another",
    tip="measure both again: one may have a wrong unit or digit, or be that of something else",
    remarks=_remarks,
)
