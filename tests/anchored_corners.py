"""Corners without a torque tube: with a key lever and its bolt, or with a fixed socket."""

from __future__ import annotations

from typing import Any

import attrs

import barwright as bw
from sample_records import make_bar, make_setup, make_socket

__all__ = ["fixed_socket", "key_adjuster", "key_bolt", "key_lever", "on_fixed", "on_key_lever"]

# Where the lever of the usual corner stands in the middle of its thread, nearly.
USUAL_LEVER = "180 deg"


def key_bolt(**change: Any) -> bw.parts.KeyBoltMounting:
    """A bolt through the cross-member, its end on the lever's face."""
    usual: dict[str, Any] = {
        "line_distance": "50 mm",
        "foot_angle": USUAL_LEVER,
        "foot_position": "40 mm",
        "end_radius": "6 mm",
    }
    return bw.parts.KeyBoltMounting(**(usual | change))


def key_adjuster(**change: Any) -> bw.parts.Adjuster:
    """That bolt, with the lever square to it in the middle of its thread."""
    usual: dict[str, Any] = {
        "id": "t:adjuster/key",
        "title": "Bolt",
        "mounting": key_bolt(),
        "lever_lies": bw.parts.LeverSide.DROOPWARD,
        "thread_diameter": "14 mm",
        "thread_pitch": "1.5 mm",
        "thread_start": "20 mm",
        "thread_end": "44 mm",
    }
    return bw.parts.Adjuster(**(usual | change))


def key_lever(bar: bw.parts.Bar | None = None, **change: Any) -> bw.parts.KeyLever:
    """A key lever for a bar."""
    usual: dict[str, Any] = {
        "id": "t:key-lever/one",
        "title": "Key lever",
        "face_offset": "8 mm",
        "face_start": "30 mm",
        "face_end": "75 mm",
        "lever_position": "31 mm",
        "socket_position": "772 mm",
        "socket": make_socket((bar or make_bar()).anchor_end, key_angle="-181 deg"),
    }
    return bw.parts.KeyLever(**(usual | change))


def fixed_socket(bar: bw.parts.Bar | None = None, **change: Any) -> bw.parts.FixedSocket:
    """A fixed socket for a bar."""
    usual: dict[str, Any] = {
        "id": "t:fixed-socket/one",
        "title": "Fixed socket",
        "anchor_angle": USUAL_LEVER,
        "socket_position": "772 mm",
        "socket": make_socket((bar or make_bar()).anchor_end, key_angle="-181 deg"),
    }
    return bw.parts.FixedSocket(**(usual | change))


def on_key_lever(
    lever: dict[str, Any] | None = None, adjuster: dict[str, Any] | None = None, **change: Any
) -> bw.Setup:
    """The usual corner with a key lever; other changes go to :func:`make_setup`."""
    usual = make_setup(**change)
    return _built(usual, key_lever(usual.bar, **(lever or {})), key_adjuster(**(adjuster or {})))


def on_fixed(socket: dict[str, Any] | None = None, **change: Any) -> bw.Setup:
    """The usual corner with a fixed socket; other changes go to :func:`make_setup`."""
    usual = make_setup(**change)
    return _built(usual, fixed_socket(usual.bar, **(socket or {})), None)


def _built(
    usual: bw.Setup,
    anchor: bw.parts.KeyLever | bw.parts.FixedSocket,
    adjuster: bw.parts.Adjuster | None,
) -> bw.Setup:
    """A vehicle that left the works like that."""
    parts = attrs.evolve(usual.axle.left, anchor=anchor, adjuster=adjuster)
    gone = ["cap_holes_position", "cap_allowance"]
    if adjuster is None:
        gone += ["bolt_position", "lever_allowance"]
    missing: Any = dict.fromkeys(gone)
    axle = attrs.evolve(usual.axle, left=parts, **missing)
    chassis = attrs.evolve(usual.chassis, axles=(axle,))
    return attrs.evolve(usual, chassis=chassis, axle=axle, anchor=anchor, adjuster=adjuster)
