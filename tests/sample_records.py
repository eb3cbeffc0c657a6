"""Records for tests: a plausible corner, of which a test changes what it is about."""

from __future__ import annotations

from typing import Any, TypeAlias, TypeVar

import barwright as bw

__all__ = [
    "adjuster_of",
    "double_wishbone_mounting",
    "fixed_line",
    "known",
    "make_bar",
    "make_end",
    "make_parts",
    "make_setup",
    "make_socket",
    "strut_mounting",
    "swing_arm_mounting",
    "swivelling",
    "tube_of",
]

T = TypeVar("T")

Change: TypeAlias = dict[str, Any] | None
"""Fields of a record that a test sets otherwise."""

_STEEL = bw.parts.Material(id="t:material/steel", title="Steel", shear_modulus="77 GPa")


def make_end(size: int, **change: Any) -> bw.parts.BarEnd:
    """An end of module 0.75 whose head, and tooth count, suit a size in teeth."""
    usual: dict[str, Any] = {
        "teeth": size,
        "form": "involute",
        "length": "37 mm",
        "major_diameter": f"{0.75 * (size + 1)} mm",
        "root_diameter": f"{0.75 * (size - 1.5)} mm",
        "taper": "20 mm",
    }
    return bw.parts.BarEnd(**(usual | change))


def make_bar(arm_teeth: int = 39, anchor_teeth: int = 42, **change: Any) -> bw.parts.Bar:
    """A bar that lies in the sockets of :func:`make_setup`."""
    usual: dict[str, Any] = {
        "id": "t:bar/one",
        "title": "Bar",
        "material": _STEEL,
        "diameter": "23.3 mm",
        "length": "904 mm",
        "arm_end": make_end(arm_teeth),
        "anchor_end": make_end(anchor_teeth),
    }
    return bw.parts.Bar(**(usual | change))


def make_socket(end: bw.parts.BarEnd, **change: Any) -> bw.parts.Socket:
    """A socket that takes an end."""
    usual: dict[str, Any] = {
        "teeth": end.teeth,
        "form": end.form,
        "length": "38 mm",
        "minor_diameter": end.root_diameter + bw.Quantity(0.45, "mm"),
        "required_engagement": "24 mm",
        "key_angle": "0 deg",
    }
    return bw.parts.Socket(**(usual | change))


def strut_mounting(**change: Any) -> bw.parts.StrutMounting:
    """A strut over the arm's end."""
    usual = {"top_outboard": "268 mm", "top_up": "611 mm", "length_below": "-46 mm"}
    return bw.parts.StrutMounting(**(usual | change))


def swing_arm_mounting(**change: Any) -> bw.parts.SwingArmMounting:
    """A damper over the outer half of the arm."""
    usual = {"mount_outboard": "268 mm", "mount_up": "600 mm", "foot_along": "290 mm"}
    return bw.parts.SwingArmMounting(**(usual | change))


def double_wishbone_mounting(**change: Any) -> bw.parts.DoubleWishboneMounting:
    """A shorter arm over the one on the bar, and a damper through between them."""
    usual = {
        "upper_outboard": "85 mm",
        "upper_up": "215 mm",
        "upper_radius": "225 mm",
        "upright": "250 mm",
        "mount_outboard": "215 mm",
        "mount_up": "420 mm",
        "foot_along": "265 mm",
        "foot_above": "12 mm",
    }
    return bw.parts.DoubleWishboneMounting(**(usual | change))


def swivelling(**change: Any) -> bw.parts.SwivellingMounting:
    """A bolt that swivels, as the usual one does."""
    return bw.parts.SwivellingMounting(
        **({"pivot_distance": "142 mm", "pivot_angle": "97 deg"} | change)
    )


def fixed_line(**change: Any) -> bw.parts.FixedLineMounting:
    """A bolt on a fixed line, with the lever where the usual one has it."""
    usual = {"line_distance": "103 mm", "foot_angle": "172 deg", "foot_position": "159.5 mm"}
    return bw.parts.FixedLineMounting(**(usual | change))


_AXLE: dict[str, Any] = {
    "place": bw.parts.AxlePlace.FRONT,
    "bar_axis": (1.0, 0.0, 0.0),
    "arm_direction": (0.0, 1.0, 0.0),
    "entry": bw.parts.BarEndName.ANCHOR,
    "hub_outboard": "92 mm",
    "hub_up": "48 mm",
    "reference_angle": "-5 deg",
    "load_at": bw.parts.LoadPoint.CONTACT,
    "tyre_radius": "283 mm",
    "tyre_rate": "185 N/mm",
    "unsprung_mass": "34.5 kg",
    "standard_mass": "291 kg",
    "standard_height": "404 mm",
    "measured_height": "404 mm",
    "measured_angle": "-5 deg",
    "droop_stop": "-24 deg",
    "bump_stop": "17 deg",
    "tube_position": "96 mm",
    "bolt_position": "127 mm",
    "cap_holes_position": "885 mm",
    "lever_allowance": "6 mm",
    "cap_allowance": "4 mm",
    "space_behind": "44 mm",
}

_TUBE: dict[str, Any] = {
    "id": "t:tube/one",
    "title": "Tube",
    "material": _STEEL,
    "outside_diameter": "90 mm",
    "bore": "80 mm",
    "lever_position": "31 mm",
    "lever_radius": "118 mm",
    "cap_position": "789 mm",
    "socket_position": "772 mm",
}

_ADJUSTER: dict[str, Any] = {
    "id": "t:adjuster/one",
    "title": "Adjuster",
    "mounting": swivelling(),
    "lever_lies": bw.parts.LeverSide.BUMPWARD,
    "thread_diameter": "12 mm",
    "thread_pitch": "1.75 mm",
    "thread_start": "150 mm",
    "thread_end": "191.5 mm",
    "nut_height": "10.5 mm",
    "spacer": "6 mm",
}

_DAMPER: dict[str, Any] = {
    "id": "t:damper/one",
    "title": "Damper",
    "open_length": "674 mm",
    "closed_length": "486 mm",
}


def make_parts(
    bar: bw.parts.Bar,
    *,
    arm_key: str = "17.5 deg",
    anchor_key: str = "-181 deg",
    arm_keyed: bool = True,
    anchor_keyed: bool = True,
    arm: Change = None,
    anchor: Change = None,
    adjuster: Change = None,
    damper: Change = None,
) -> bw.parts.StandardParts:
    """Parts around a bar; every argument changes one thing of them."""
    arm_socket = make_socket(bar.arm_end, key_angle=arm_key, keyed=arm_keyed)
    usual_arm: dict[str, Any] = {"id": "t:arm/one", "title": "Arm", "radius": "338 mm"}
    tube_socket = make_socket(bar.anchor_end, key_angle=anchor_key, keyed=anchor_keyed)
    return bw.parts.StandardParts(
        arm=bw.parts.Arm(**(usual_arm | {"socket": arm_socket} | (arm or {}))),
        bar=bar,
        anchor=bw.parts.Tube(**(_TUBE | {"socket": tube_socket} | (anchor or {}))),
        adjuster=bw.parts.Adjuster(**(_ADJUSTER | (adjuster or {}))),
        damper=bw.parts.Damper(**(_DAMPER | (damper or {}))),
    )


def make_setup(
    *,
    side: bw.parts.Side = bw.parts.Side.LEFT,
    bar: bw.parts.Bar | None = None,
    mass: str = "291 kg",
    axle: Change = None,
    arm_tooth: int = 0,
    anchor_tooth: int = 0,
    nut_turns: str = "0 turn",
    **parts: Any,
) -> bw.Setup:
    """A corner that works; ``parts`` goes to :func:`make_parts`."""
    standard = make_parts(bar or make_bar(), **parts)
    usual = _AXLE | {"suspension": strut_mounting(), "left": standard}
    place = bw.parts.Axle(**(usual | (axle or {})))
    return bw.Setup(
        chassis=bw.parts.Chassis(
            id="t:chassis/one", title="Chassis", wheelbase="2400 mm", axles=(place,)
        ),
        axle=place,
        side=side,
        arm=standard.arm,
        bar=standard.bar,
        anchor=standard.anchor,
        adjuster=standard.adjuster,
        damper=standard.damper,
        load=bw.parts.Load(kind=bw.parts.LoadKind.SPRUNG, mass=mass),
        arm_tooth=arm_tooth,
        anchor_tooth=anchor_tooth,
        nut_turns=nut_turns,
    )


def known(value: T | None) -> T:
    """What an answer has where there is a nut."""
    assert value is not None
    return value


def tube_of(setup: bw.Setup) -> bw.parts.Tube:
    """The tube of a corner that has one."""
    assert isinstance(setup.anchor, bw.parts.Tube)
    return setup.anchor


def adjuster_of(setup: bw.Setup) -> bw.parts.Adjuster:
    """The adjuster of a corner that has one."""
    return known(setup.adjuster)
