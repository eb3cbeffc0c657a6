"""Vans on four scales: with bars at the front, and with bars at both ends."""

from __future__ import annotations

import functools
from typing import Any

import attrs

import barwright as bw
from anchored_corners import fixed_socket
from barwright.parts import AxlePlace, Figure, WeighedAxle, WeighedWheel, WholeVehicle
from exact_figures import exact
from sample_packs import discovered_once

VAN = "fells:chassis/short"
SIDES = ("left", "right")
REAR = {"wheel_rate": "24 N/mm", "tyre_rate": "190 N/mm", "unsprung_mass": "31 kg"}


def wheel(scale: str | None = None, height: str | None = None, **nut: Any) -> WeighedWheel:
    return WeighedWheel(scale_reading=scale, height=height, **nut)


def known(record: Any, **half_widths: str) -> Any:
    """The same with the ± of some figures."""
    about = {
        name: Figure(value=getattr(record, name), tolerance=bw.Quantity(half))
        for name, half in half_widths.items()
    }
    return record.described(about)


@functools.cache
def fronts() -> tuple[bw.Setup, ...]:
    """A van's front corners, their figures exact: only what is read has a ±."""
    made: dict[int, Any] = {}
    return tuple(exact(one, made) for one in toleranced_fronts())


@functools.cache
def toleranced_fronts() -> tuple[bw.Setup, ...]:
    """The same, their figures with the ± that the pack gives."""
    registry = discovered_once()
    return tuple(registry.setup(VAN, corner=f"front {side}") for side in SIDES)


@functools.cache
def fours() -> tuple[bw.Setup, ...]:
    """A van that has its front axle at the rear too."""
    (axle,) = fronts()[0].chassis.axles
    rear = attrs.evolve(axle, place=AxlePlace.REAR)
    chassis = attrs.evolve(fronts()[0].chassis, axles=(axle, rear))
    made = bw.Setup.standard
    return tuple(
        made(chassis, axle=one, side=side)
        for one in chassis.axles
        for side in (bw.parts.Side.LEFT, bw.parts.Side.RIGHT)
    )


@functools.cache
def fours_with_fixed_rear() -> tuple[bw.Setup, ...]:
    """The same, its rear bars held by fixed sockets."""
    front, rear = fours()[0].chassis.axles
    held = attrs.evolve(rear.left, anchor=fixed_socket(rear.left.bar), adjuster=None)
    gone: Any = dict.fromkeys(
        ("bolt_position", "lever_allowance", "cap_holes_position", "cap_allowance")
    )
    rear = attrs.evolve(rear, left=held, **gone)
    chassis = attrs.evolve(fours()[0].chassis, axles=(front, rear))
    made = bw.Setup.standard
    return tuple(
        made(chassis, axle=one, side=side)
        for one in chassis.axles
        for side in (bw.parts.Side.LEFT, bw.parts.Side.RIGHT)
    )


def van(
    scales: tuple[float, float, float, float] = (324.0, 322.0, 250.0, 248.0),
    heights: tuple[float, float] = (394.0, 396.0),
    *,
    front: Any = None,
    rear: Any = None,
    **whole: Any,
) -> WholeVehicle:
    """What was read of a van with bars at the front [kg, mm]."""
    fl, fr, rl, rr = (f"{scale} kg" for scale in scales)
    left, right = (f"{height} mm" for height in heights)
    ahead = {
        "track": "1390 mm",
        "left": wheel(fl, left, pin_distance="158 mm"),
        "right": wheel(fr, right, pin_distance="161 mm"),
    }
    behind = {"track": "1390 mm", "left": wheel(rl), "right": wheel(rr)} | REAR
    return WholeVehicle(
        front=WeighedAxle(**ahead | (front or {})),
        rear=WeighedAxle(**behind | (rear or {})),
        **whole,
    )


def van_on_four(
    scales: tuple[float, float, float, float] = (318.0, 302.0, 290.0, 306.0),
    heights: tuple[float, float, float, float] = (391.0, 399.0, 396.0, 404.0),
    **whole: Any,
) -> WholeVehicle:
    """What was read of a van with bars at both ends."""
    read = [
        wheel(f"{scale} kg", f"{height} mm", nut_turns="0.5 turn")
        for scale, height in zip(scales, heights, strict=True)
    ]
    return WholeVehicle(
        front=WeighedAxle(track="1390 mm", left=read[0], right=read[1]),
        rear=WeighedAxle(track="1390 mm", left=read[2], right=read[3]),
        **whole,
    )
