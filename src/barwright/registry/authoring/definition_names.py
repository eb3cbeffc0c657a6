"""Names of the definitions in the JSON Schemas: others may refer to them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from barwright.parts.adjuster import FixedLineMounting, KeyBoltMounting, SwivellingMounting
from barwright.parts.chassis import Axle, StandardParts
from barwright.parts.common.source import Source
from barwright.parts.damper import GasCharge
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.suspension import (
    ArmBushing,
    BumpRubber,
    BumpRubberForce,
    DoubleWishboneMounting,
    HelperCoil,
    StrutMounting,
    SwingArmMounting,
)
from barwright.registry.overlays.correction import Correction
from barwright.registry.packs.checks import Check, Waiver
from barwright.registry.packs.claims import Fits
from barwright.registry.packs.format.pack import KINDS

__all__ = ["DEFINITION_NAMES"]

DEFINITION_NAMES: Mapping[type[Any], str] = {
    **{cls: word for word, cls in KINDS.items()},
    ArmBushing: "arm-bushing",
    Axle: "axle",
    BarEnd: "bar-end",
    BumpRubber: "bump-rubber",
    BumpRubberForce: "bump-rubber-force",
    Check: "check",
    Correction: "correction",
    DoubleWishboneMounting: "double-wishbone-mounting",
    Fits: "fits",
    FixedLineMounting: "fixed-line-mounting",
    GasCharge: "gas-charge",
    HelperCoil: "helper-coil",
    KeyBoltMounting: "key-bolt-mounting",
    Socket: "socket",
    Source: "source",
    StandardParts: "standard-parts",
    StrutMounting: "strut-mounting",
    SwingArmMounting: "swing-arm-mounting",
    SwivellingMounting: "swivelling-mounting",
    Waiver: "waiver",
}
"""By class of the table that a definition describes."""
