"""Vehicles and their parts: frozen records of quantities.

Records hold and type-check; they do not load, compute or judge.

>>> from barwright import parts
>>> parts.Load(kind=parts.LoadKind.SPRUNG, mass="291 kg").mass.m_as("kg")
291.0

Names are loaded on first use.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from barwright.first_use import name_loader

if TYPE_CHECKING:
    from barwright.parts.adjuster import Adjuster as Adjuster
    from barwright.parts.adjuster import ContactSide as ContactSide
    from barwright.parts.adjuster import FixedLineMounting as FixedLineMounting
    from barwright.parts.adjuster import KeyBoltMounting as KeyBoltMounting
    from barwright.parts.adjuster import LeverSide as LeverSide
    from barwright.parts.adjuster import PropertyClass as PropertyClass
    from barwright.parts.adjuster import SwivellingMounting as SwivellingMounting
    from barwright.parts.anchor import Anchor as Anchor
    from barwright.parts.anchor import FixedSocket as FixedSocket
    from barwright.parts.anchor import KeyLever as KeyLever
    from barwright.parts.arm import Arm as Arm
    from barwright.parts.bar import Bar as Bar
    from barwright.parts.bar import Side as Side
    from barwright.parts.chassis import Axle as Axle
    from barwright.parts.chassis import AxlePlace as AxlePlace
    from barwright.parts.chassis import BarEndName as BarEndName
    from barwright.parts.chassis import Chassis as Chassis
    from barwright.parts.chassis import LoadPoint as LoadPoint
    from barwright.parts.chassis import StandardParts as StandardParts
    from barwright.parts.claim import Claim as Claim
    from barwright.parts.claim import Claimed as Claimed
    from barwright.parts.common.identity import Month as Month
    from barwright.parts.common.identity import PartNumber as PartNumber
    from barwright.parts.common.record import Part as Part
    from barwright.parts.common.source import About as About
    from barwright.parts.common.source import Fact as Fact
    from barwright.parts.common.source import Figure as Figure
    from barwright.parts.common.source import Source as Source
    from barwright.parts.common.source import SourceKind as SourceKind
    from barwright.parts.damper import Damper as Damper
    from barwright.parts.damper import GasCharge as GasCharge
    from barwright.parts.load import Load as Load
    from barwright.parts.load import LoadKind as LoadKind
    from barwright.parts.material import Material as Material
    from barwright.parts.measurements.measured_bar import MeasuredBar as MeasuredBar
    from barwright.parts.measurements.measured_bar import MeasuredEnd as MeasuredEnd
    from barwright.parts.measurements.measured_spline import MeasuredSpline as MeasuredSpline
    from barwright.parts.measurements.reading_of_texts import measured as measured
    from barwright.parts.measurements.whole_vehicle import AxleAntiRollBar as AxleAntiRollBar
    from barwright.parts.measurements.whole_vehicle import WeighedAxle as WeighedAxle
    from barwright.parts.measurements.whole_vehicle import WeighedWheel as WeighedWheel
    from barwright.parts.measurements.whole_vehicle import WholeVehicle as WholeVehicle
    from barwright.parts.setup import Reading as Reading
    from barwright.parts.spline import BarEnd as BarEnd
    from barwright.parts.spline import Socket as Socket
    from barwright.parts.suspension import ArmBushing as ArmBushing
    from barwright.parts.suspension import BumpRubber as BumpRubber
    from barwright.parts.suspension import BumpRubberForce as BumpRubberForce
    from barwright.parts.suspension import DoubleWishboneMounting as DoubleWishboneMounting
    from barwright.parts.suspension import HelperCoil as HelperCoil
    from barwright.parts.suspension import JointSide as JointSide
    from barwright.parts.suspension import StrutMounting as StrutMounting
    from barwright.parts.suspension import SwingArmMounting as SwingArmMounting
    from barwright.parts.tube import Tube as Tube
    from barwright.parts.wanted import Extreme as Extreme
    from barwright.units.unknown import is_unknown as is_unknown

# Where each name lives; a test holds this against the imports above.
_HOMES = {
    "parts.adjuster": (
        "Adjuster",
        "ContactSide",
        "FixedLineMounting",
        "KeyBoltMounting",
        "LeverSide",
        "PropertyClass",
        "SwivellingMounting",
    ),
    "parts.anchor": ("Anchor", "FixedSocket", "KeyLever"),
    "parts.arm": ("Arm",),
    "parts.bar": ("Bar", "Side"),
    "parts.chassis": ("Axle", "AxlePlace", "BarEndName", "Chassis", "LoadPoint", "StandardParts"),
    "parts.claim": ("Claim", "Claimed"),
    "parts.common.identity": ("Month", "PartNumber"),
    "parts.common.record": ("Part",),
    "parts.common.source": ("About", "Fact", "Figure", "Source", "SourceKind"),
    "parts.damper": ("Damper", "GasCharge"),
    "parts.load": ("Load", "LoadKind"),
    "parts.material": ("Material",),
    "parts.measurements.measured_bar": ("MeasuredBar", "MeasuredEnd"),
    "parts.measurements.measured_spline": ("MeasuredSpline",),
    "parts.measurements.reading_of_texts": ("measured",),
    "parts.measurements.whole_vehicle": (
        "AxleAntiRollBar",
        "WeighedAxle",
        "WeighedWheel",
        "WholeVehicle",
    ),
    "parts.setup": ("Reading",),
    "parts.spline": ("BarEnd", "Socket"),
    "parts.suspension": (
        "ArmBushing",
        "BumpRubber",
        "BumpRubberForce",
        "DoubleWishboneMounting",
        "HelperCoil",
        "JointSide",
        "StrutMounting",
        "SwingArmMounting",
    ),
    "parts.tube": ("Tube",),
    "parts.wanted": ("Extreme",),
    "units.unknown": ("is_unknown",),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME_OF)  # noqa: PLE0605 - ruff wants a literal; the homes are the one list

if not TYPE_CHECKING:  # or a type checker would take any name for one of these
    __getattr__ = name_loader(__name__, _HOME_OF)


def __dir__() -> list[str]:
    """List the public names, loaded or not."""
    return __all__
