"""Pieces of the sentences that the steps of a bench sheet are made of."""

from __future__ import annotations

from barwright.analysis.assembly import Assembly
from barwright.analysis.plan import Plan
from barwright.parts.adjuster import Adjuster
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.arm import Arm
from barwright.parts.setup import Setup
from barwright.parts.source import Part
from barwright.parts.tube import Tube
from barwright.report.adjustment import adjusted, words_for
from barwright.units import LENGTH, Quantity, shown, si

__all__ = [
    "anchor_line",
    "corrected",
    "freed",
    "marked_with",
    "parted",
    "reaches",
    "residue",
    "toward",
    "turned_at",
]

_FREE: dict[type[Part], str] = {
    Arm: "Free the arm from its joints.",
    Tube: "Take the cap off and the bolt out of the lever.",
    KeyLever: "Draw the key lever out of the cross-member.",
    FixedSocket: "Take the anchor socket off the chassis.",
    Adjuster: "Take the nut off the bolt and the lever out of it.",
}

_MARKED: dict[type[Part], str] = {
    Tube: ", tube and lever",
    KeyLever: " and key lever",
    FixedSocket: " and anchor socket",
}


def marked_with(part: Part) -> str:
    """Name what is marked beside bar and arm."""
    return _MARKED[type(part)]


def freed(part: Part) -> str:
    """Say how a part is freed."""
    if isinstance(part, Adjuster) and part.is_screwed:
        return "Screw the bolt out of its cross-member."
    return _FREE[type(part)]


def anchor_line(setup: Setup) -> str:
    """Line that the key angle of the anchor's socket is counted from."""
    if isinstance(setup.tube, FixedSocket):
        return f"the socket's line at {shown(setup.tube.anchor_angle, 1)} above the horizontal"
    return "the lever's centreline"


def corrected(plan: Plan) -> str:
    """Say how a height is corrected that is not as expected."""
    at = adjusted(plan)
    if at is None:
        return "Nothing can be adjusted: correct by teeth only, with the plan for another height."
    return (
        f"Correct with the {at.words.what}: one turn {at.raising_sense.value} raises the vehicle "
        f"by {shown(at.height_per_turn, 1).removesuffix('/turn')}; roll and measure again."
    )


def parted(way: Assembly) -> str:
    """Say how the ball joint is parted, and how far the arm must come for the bar to be loose."""
    needed = shown(way.reserve, 1).removeprefix("-")
    return (
        "Jack under the arm's outer end, part the ball joint, and let the arm "
        f"down slowly: it must come {needed} below that stop. If a stop of the "
        "chassis holds the arm before that, lift it again and stop here: this sheet "
        "then knows no safe way."
    )


def turned_at(setup: Setup) -> str:
    """Name what is turned at the adjuster; empty where there is nothing to turn."""
    words = words_for(setup)
    return words.what if words else ""


def residue(way: Assembly) -> str:
    """Say what would be left in the bar."""
    torque, energy = shown(way.residual_torque, 0), shown(way.residual_energy, 0)
    return f"a torque of {torque} and an energy of {energy}"


def toward(offset: Quantity) -> str:
    """Say how far something lies toward an end or away from it."""
    away = "" if offset.magnitude > 0.0 else "away from"
    return f"{shown(offset, 1).removeprefix('-')} {away or 'toward'}"


def reaches(position: Quantity) -> str:
    """Say how a spline's edge lies to a face."""
    size = abs(si(position, LENGTH))
    if size < _FLUSH:
        return "is flush with"
    where = "inside" if position.magnitude > 0.0 else "outside"
    return f"stands {shown(position, 1).removeprefix('-')} {where}"


_FLUSH = 0.05e-3
"""Length [m] that is less than is shown."""
