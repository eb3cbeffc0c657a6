"""The keys of a job file and of its tables."""

from __future__ import annotations

from typing import Any, ClassVar

import attrs

from barwright.parts.common.fields import (
    angle_or_none,
    length_or_none,
    mass_or_none,
    most_cuts,
    named,
    size_or_none,
    turns,
    turns_left_or_none,
    turns_or_none,
)
from barwright.parts.common.record import Record
from barwright.registry.usual.fill import Assumption
from barwright.units import Quantity

__all__ = ["NUT", "JobKeys", "LoadKeys", "MeasuredKeys", "PartNames", "PresentKeys", "WantedKeys"]


NUT = {"nut_turns", "pin_distance"}
"""What may say where the nut is."""


@attrs.frozen(kw_only=True)
class PartNames(Record):
    """Ids of the parts that differ from standard."""

    # What a job says is known.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    arm: str | None = None
    bar: str | None = None
    anchor: str | None = None
    adjuster: str | None = None
    damper: str | None = None


@attrs.frozen(kw_only=True, field_transformer=named)
class PresentKeys(PartNames):
    """Parts now on the vehicle that differ from standard."""

    # Where the nut is may be unknown.
    MAY_HAVE_GAPS: ClassVar[bool] = True

    arm_tooth: int = 0
    anchor_tooth: int = 0
    nut_turns: Quantity = attrs.field(default="0 turn", converter=turns)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class LoadKeys(Record):
    """What a corner carries: one of two figures."""

    # What a job says is known.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    scale_reading: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    sprung_mass: Quantity | None = attrs.field(default=None, converter=mass_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class MeasuredKeys(LoadKeys):
    """How a corner was measured to stand, its load and its nut if not those of the job."""

    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    nut_turns: Quantity | None = attrs.field(default=None, converter=turns_or_none)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class WantedKeys:
    """The wanted height of a corner, one of six ways, and limits on the work."""

    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    keep_standard: bool = False
    same_height: bool = False
    lower_by: Quantity | None = attrs.field(default=None, converter=size_or_none)
    raise_by: Quantity | None = attrs.field(default=None, converter=size_or_none)
    cuts: int | None = attrs.field(default=None, converter=attrs.converters.optional(most_cuts))
    reserve: Quantity | None = attrs.field(default=None, converter=turns_left_or_none)


@attrs.frozen(kw_only=True)
class JobKeys:
    """The keys of a job file; its tables are read again for each side."""

    vehicle: str | None = None
    corners: tuple[str, ...]
    wanted: dict[str, Any]
    title: str = "Job"
    assume: Assumption | None = None
    parts: dict[str, Any] = attrs.field(factory=dict)
    present: dict[str, Any] = attrs.field(factory=dict)
    load: dict[str, Any] = attrs.field(factory=dict)
    measured: dict[str, Any] = attrs.field(factory=dict)
    arm: dict[str, Any] = attrs.field(factory=dict)
    bar: dict[str, Any] = attrs.field(factory=dict)
    anchor: dict[str, Any] = attrs.field(factory=dict)
    adjuster: dict[str, Any] = attrs.field(factory=dict)
    damper: dict[str, Any] = attrs.field(factory=dict)
    axle: dict[str, Any] = attrs.field(factory=dict)
    balance: dict[str, Any] = attrs.field(factory=dict)
    order: dict[str, Any] = attrs.field(factory=dict)
