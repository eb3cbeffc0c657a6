"""The keys of a job file and of its tables.

What they mean stands here once: the JSON Schema of jobs and the page of their keys say it again.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, ClassVar

import attrs

from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.bar import Bar, Side
from barwright.parts.chassis import Axle, AxlePlace
from barwright.parts.common.fields import (
    MOST_CUTS,
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
from barwright.parts.damper import Damper
from barwright.parts.measurements.whole_vehicle import WholeVehicle
from barwright.parts.tube import Tube
from barwright.registry.jobs.job import WorkOrder
from barwright.registry.usual.fill import Assumption
from barwright.units import Quantity

__all__ = [
    "CORNERS",
    "NUT",
    "OF_THE_WHOLE_VEHICLE",
    "READ_INTO",
    "JobKeys",
    "LoadKeys",
    "MeasuredKeys",
    "PartNames",
    "PresentKeys",
    "WantedKeys",
]

CORNERS = {f"{place.value} {side.value}": (place, side) for place in AxlePlace for side in Side}
"""Corners of a vehicle, as a job file names them."""

NUT = {"nut_turns", "pin_distance"}
"""What may say where the nut is."""


@attrs.frozen(kw_only=True)
class PartNames(Record):
    """Parts to be fitted: only those that differ from standard.

    Parameters
    ----------
    arm : str, optional
        Id of an arm.
    bar : str, optional
        Id of a bar.
    anchor : str, optional
        Id of what holds the bar's anchor end: a torque tube, a key lever or a fixed socket.
    adjuster : str, optional
        Id of an adjuster; if the anchor is a fixed socket, the standard one is left off.
    damper : str, optional
        Id of a damper.
    """

    # What a job says is known.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    arm: str | None = None
    bar: str | None = None
    anchor: str | None = None
    adjuster: str | None = None
    damper: str | None = None


@attrs.frozen(kw_only=True, field_transformer=named)
class PresentKeys(PartNames):
    """What is on the vehicle now: only what differs from standard.

    Parameters
    ----------
    arm_tooth, anchor_tooth : int
        Tooth of the bar that lies on the key of this end now, counted from the maker's blank in
        the bump sense.
    nut_turns : Quantity
        Where the nut is, in turns from mid-thread, clockwise positive as seen from the bolt's
        free end; of a bolt that is itself turned, from its head.
    pin_distance : Quantity, optional
        The same, measured: from the bolt's pivot or head to the middle of the lever's pin; of a
        bolt that pushes, from the cross-member to the bolt's end.
    """

    # Where the nut is may be unknown.
    MAY_HAVE_GAPS: ClassVar[bool] = True

    arm_tooth: int = 0
    anchor_tooth: int = 0
    nut_turns: Quantity = attrs.field(default="0 turn", converter=turns)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class LoadKeys(Record):
    """What a corner carries: one of the two figures.

    Parameters
    ----------
    scale_reading : Quantity, optional
        Mass shown by a scale under the tyre, the unsprung mass included.
    sprung_mass : Quantity, optional
        Mass carried by the spring.
    """

    # What a job says is known.
    MAY_HAVE_GAPS: ClassVar[bool] = False

    scale_reading: Quantity | None = attrs.field(default=None, converter=mass_or_none)
    sprung_mass: Quantity | None = attrs.field(default=None, converter=mass_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class MeasuredKeys(LoadKeys):
    """How a corner was measured to stand: its height or its arm angle.

    Parameters
    ----------
    scale_reading, sprung_mass : Quantity, optional
        Load at that time, if not that of the job: one of the two.
    height : Quantity, optional
        Hub to arch, on its wheels, rolled and settled.
    arm_angle : Quantity, optional
        Angle of the arm above the horizontal, measured in the place of the height.
    nut_turns, pin_distance : Quantity, optional
        Where the nut was at that time, if not where it is now: one of the two.
    """

    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    nut_turns: Quantity | None = attrs.field(default=None, converter=turns_or_none)
    pin_distance: Quantity | None = attrs.field(default=None, converter=length_or_none)


@attrs.frozen(kw_only=True, field_transformer=named)
class WantedKeys:
    """The wanted height, one of six ways, and limits on the work.

    Parameters
    ----------
    height : Quantity, optional
        Hub to arch.
    arm_angle : Quantity, optional
        Angle of the arm above the horizontal.
    keep_standard : bool
        Whether the standard height of the chassis is wanted.
    same_height : bool
        Whether it is to stand as it stands now.
    lower_by, raise_by : Quantity, optional
        How much lower or higher than the measured height.
    cuts : int, optional
        The most teeth to remove, keys removed from sockets counted too; 0 for none.
    reserve : Quantity, optional
        Turns of thread to keep on each side of the nut; at most half of the thread.
    """

    height: Quantity | None = attrs.field(default=None, converter=size_or_none)
    arm_angle: Quantity | None = attrs.field(default=None, converter=angle_or_none)
    keep_standard: bool = False
    same_height: bool = False
    lower_by: Quantity | None = attrs.field(default=None, converter=size_or_none)
    raise_by: Quantity | None = attrs.field(default=None, converter=size_or_none)
    cuts: int | None = attrs.field(
        default=None,
        converter=attrs.converters.optional(most_cuts),
        metadata={"counts": (0, MOST_CUTS)},
    )
    reserve: Quantity | None = attrs.field(default=None, converter=turns_left_or_none)


@attrs.frozen(kw_only=True)
class JobKeys:
    """A job: what is on a vehicle, what is to be on it, and at what height it is to stand.

    Its tables are read again for each side.

    Parameters
    ----------
    vehicle : str, optional
        Id of a chassis, or words that name one, or a list of these; left out if the job describes
        the vehicle.
    corners : tuple of str
        Corners to work on.
    wanted : table
        The height that it is to have.
    title : str
        The shop's name for the job, the heading of its sheet.
    assume : Assumption, optional
        'usual' lets usual figures take the place of unknown ones.
    parts : table
        The parts to be fitted.
    present : table
        What is on the vehicle now.
    load : table
        What the corner carries; the standard sprung mass, if left out.
    measured : table
        How the corner was measured to stand.
    arm, bar, anchor, adjuster, damper, axle : table
        Figures measured on this vehicle: they fill the gaps of its pack, or describe a vehicle
        that no pack knows.
    balance : table
        The whole vehicle on four scales.
    order : table
        Whose vehicle it is.
    """

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


READ_INTO: Mapping[str, tuple[type[Any], ...]] = {
    "wanted": (WantedKeys,),
    "parts": (PartNames,),
    "present": (PresentKeys,),
    "load": (LoadKeys,),
    "measured": (MeasuredKeys,),
    "arm": (Arm,),
    "bar": (Bar,),
    "anchor": (Tube, KeyLever, FixedSocket),
    "adjuster": (Adjuster,),
    "damper": (Damper,),
    "axle": (Axle,),
    "balance": (WholeVehicle,),
    "order": (WorkOrder,),
}
"""Classes that the tables of a job are read into: one of several, where there are more."""

OF_THE_WHOLE_VEHICLE = {"balance", "order"}
"""Tables of a job that hold none for a side."""
