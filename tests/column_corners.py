"""Corners of every linkage and anchorage whose figures columns take the place of."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from anchored_corners import on_fixed, on_key_lever
from barwright.parts.common.source import Figure
from sample_packs import discovered_once
from sample_records import (
    double_wishbone_mounting,
    fixed_line,
    make_bar,
    make_end,
    make_setup,
    strut_mounting,
    swing_arm_mounting,
)

__all__ = [
    "ALL",
    "CORNERS",
    "LARGE_END",
    "everything",
    "known_to",
    "on_each_anchorage",
    "with_tolerances",
]

CORNERS = [
    discovered_once().setup(vehicle, corner=corner)
    for vehicle, corner in (
        ("fells:chassis/short", "front left"),
        ("fells:chassis/long", "front right"),
        ("hodmule:chassis/long", "front right"),
        ("trundlet:chassis/open", "rear left"),
    )
]


def everything() -> bw.Setup:
    """A corner with all that a record may leave out."""
    end = make_end(39, nose="10 mm", nose_diameter="20 mm")
    other = make_end(42, taper="0 mm", fillet_radius="20 mm")
    rubber = bw.parts.BumpRubber(
        curve=tuple(
            bw.parts.BumpRubberForce(compression=f"{10 * n} mm", force=f"{n * n} kN")
            for n in (1, 2)
        ),
        contact_length="460 mm",
    )
    setup = make_setup(
        bar=make_bar(bore="8 mm", arm_end=end, anchor_end=other), axle={"bump_rubber": rubber}
    )
    weighed = setup.with_load(kind=bw.parts.LoadKind.SCALE_READING, mass="326 kg")
    gas = bw.parts.GasCharge(force="200 N", at_length="500 mm", slope="-0.5 N/mm")
    damper = attrs.evolve(weighed.damper, gas=gas, damping_rate=None)
    middle = "170 mm"
    return attrs.evolve(weighed, damper=damper, pin_distance=middle)


CORNERS.append(everything())


def preset() -> bw.Setup:
    """A corner whose bar was pre-set to a known twist, and is judged by its steel."""
    setup = make_setup(
        bar=make_bar(preset=True, preset_twist="95 deg", made_for=bw.parts.Side.LEFT)
    )
    steel = attrs.evolve(
        setup.bar.material,
        proof_strength="1350 MPa",
        tensile_strength="1550 MPa",
        preset_permissible_shear="1000 MPa",
    )
    return setup.with_parts(bar=attrs.evolve(setup.bar, material=steel))


CORNERS += [preset(), on_key_lever(), on_fixed()]


def known_to(record: Any, **tolerances: str) -> Any:
    """A record whose figures have tolerances."""
    return record.described(
        {
            name: Figure(value=getattr(record, name), tolerance=bw.Quantity(tolerance))
            for name, tolerance in tolerances.items()
        }
    )


def with_tolerances(setup: bw.Setup) -> bw.Setup:
    """A corner with tolerances of what holds its bar, turns it and carries it."""
    bar = known_to(setup.bar, blank_angle="0.5 deg", diameter="0.1 mm", length="1 mm")
    load = known_to(setup.load, mass="4 kg")
    parts: dict[str, Any] = {"bar": bar}
    if setup.adjuster is not None:
        parts["adjuster"] = known_to(setup.adjuster, thread_end="0.5 mm", thread_pitch="0.01 mm")
    axle = known_to(setup.axle, droop_stop="0.5 deg", hub_outboard="1 mm")
    return attrs.evolve(setup, load=load, axle=axle, **parts)


LARGE_END = make_end(39, blanks=(0, 3, -5))

MORE = [
    make_setup(axle={"suspension": double_wishbone_mounting()}),
    make_setup(axle={"suspension": swing_arm_mounting(), "load_at": bw.parts.LoadPoint.HUB}),
    make_setup(adjuster={"mounting": fixed_line()}),
    make_setup(bar=make_bar(arm_end=LARGE_END), arm_tooth=3, anchor_tooth=-2),
    make_setup(nut_turns="3 turn", damper={"open_length": "640 mm", "closed_length": "480 mm"}),
    on_key_lever(lever={"held_by": "a clip"}),
    on_key_lever(bar=make_bar(arm_end=LARGE_END)),
    on_fixed(bar=make_bar(arm_end=LARGE_END)),
]

ALL = [*CORNERS, *MORE, *map(with_tolerances, MORE)]
"""Each with something that few have."""


def on_each_anchorage() -> list[bw.Setup]:
    """Each linkage with each way to hold and turn the bar."""
    loaded_at_hub = {"load_at": bw.parts.LoadPoint.HUB}
    axles: list[dict[str, Any]] = [
        {"suspension": strut_mounting()},
        {"suspension": double_wishbone_mounting()},
        {"suspension": swing_arm_mounting()} | loaded_at_hub,
    ]
    return [
        corner
        for axle in axles
        for corner in (
            make_setup(axle=axle),
            make_setup(axle=axle, adjuster={"mounting": fixed_line()}),
            on_key_lever(axle=axle),
            on_fixed(axle=axle),
        )
    ]
