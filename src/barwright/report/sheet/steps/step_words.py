"""Pieces of the sentences that the steps of a bench sheet are made of."""

from __future__ import annotations

from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.common.record import Part
from barwright.parts.setup import Setup
from barwright.parts.tube import Tube
from barwright.units import LENGTH, Quantity, shown, si

__all__ = [
    "anchor_line",
    "called",
    "freed",
    "lies",
    "marked_with",
    "painted_with",
    "reaches",
    "toward",
]

_FREE: dict[type[Part], str] = {
    Arm: "Free the arm from its joints.",
    Tube: "Take the cap off and the bolt out of the lever.",
    KeyLever: "With the bar out, nothing holds the key lever.",
    FixedSocket: "Take the anchor socket off the chassis.",
    Adjuster: "Take the nut off the bolt and the lever out of it.",
}

_MARKED: dict[type[Part], str] = {
    Tube: ", tube and lever",
    KeyLever: " and key lever",
    FixedSocket: " and anchor socket",
}

_HOLDS: dict[type[Part], str] = {
    Tube: "tube",
    KeyLever: "key lever",
    FixedSocket: "anchor socket",
}


def marked_with(part: Part) -> str:
    """Name what is marked beside bar and arm."""
    return _MARKED[type(part)]


def painted_with(part: Part) -> str:
    """Name what the anchor end lies in, where a tooth and the socket beside it are painted."""
    return _HOLDS[type(part)]


def freed(part: Part) -> str:
    """Say how a part is freed."""
    if isinstance(part, Adjuster) and part.is_screwed:
        return "Screw the bolt out of its cross-member."
    return _FREE[type(part)]


def called(part: Part) -> str:
    """Say what a part is called, and what it is told by in a store."""
    return f"{part.title} ({part.ordered_by})" if part.ordered_by else part.title


def anchor_line(setup: Setup) -> str:
    """Line that the key angle of the anchor's socket is counted from."""
    if isinstance(setup.anchor, FixedSocket):
        return f"the socket's line at {shown(setup.anchor.anchor_angle, 1)} above the horizontal"
    return "the lever's centreline"


def toward(offset: Quantity) -> str:
    """Say how far something lies toward an end or away from it."""
    away = "" if offset.magnitude > 0.0 else "away from"
    return f"{shown(offset, 1).removeprefix('-')} {away or 'toward'}"


def reaches(position: Quantity) -> str:
    """Say how a spline's edge lies to a face."""
    if _is_flush(position):
        return "is flush with"
    where = "inside" if position.magnitude > 0.0 else "outside"
    return f"stands {shown(position, 1).removeprefix('-')} {where}"


def lies(position: Quantity) -> str:
    """Say the same in short, of a place among others."""
    if _is_flush(position):
        return "flush"
    where = "in" if position.magnitude > 0.0 else "out"
    return f"{shown(position, 1).removeprefix('-')} {where}"


def _is_flush(position: Quantity) -> bool:
    return abs(si(position, LENGTH)) < _FLUSH


_FLUSH = 0.05e-3
"""Length [m] that is less than is shown."""
