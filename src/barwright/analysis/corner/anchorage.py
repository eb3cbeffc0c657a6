"""Make the kernel of a corner's anchorage from the records of its anchor and adjuster."""

from __future__ import annotations

import enum
from collections.abc import Callable
from typing import Any, TypeAlias, cast

from barwright.analysis.corner.suspension import metres, radians
from barwright.mechanics.anchorage.bolts_with_pin import FixedLineBolt, SwivellingBolt
from barwright.mechanics.anchorage.interface import Anchorage
from barwright.mechanics.anchorage.levers_without_pin import FixedAnchor, KeyLeverBolt
from barwright.parts.adjuster import (
    Adjuster,
    ContactSide,
    FixedLineMounting,
    KeyBoltMounting,
    LeverSide,
    SwivellingMounting,
)
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever
from barwright.parts.common.record import Record
from barwright.parts.setup import Setup
from barwright.parts.tube import Tube

__all__ = [
    "BoltDatum",
    "Span",
    "TurnedPart",
    "anchor_in_words",
    "anchorage_of",
    "bolt_datum",
    "change_per_turn",
    "measured_to",
    "setting_span",
    "turned",
]

Span: TypeAlias = tuple[float, float]
"""Two limits, the lower one first."""


class TurnedPart(enum.Enum):
    """What a mechanic turns at an adjuster: a nut on its bolt, or the bolt itself."""

    NUT = "nut"
    BOLT = "bolt"

    @property
    def seen_from(self) -> str:
        """The end of the bolt from which the sense of a turn is seen."""
        return "the bolt's free end" if self is TurnedPart.NUT else "the bolt's head"


def turned(adjuster: Adjuster | None) -> TurnedPart | None:
    """Return what is turned at an adjuster; none without an adjuster.

    Parameters
    ----------
    adjuster : Adjuster, optional
        The adjuster.

    Returns
    -------
    TurnedPart, optional
    """
    if adjuster is None:
        return None
    return TurnedPart.BOLT if adjuster.is_screwed else TurnedPart.NUT


class BoltDatum(enum.Enum):
    """What distances along an adjuster's bolt are measured from."""

    PIVOT = "bolt's pivot"
    HEAD = "bolt's head"
    CROSS_MEMBER = "cross-member"


def bolt_datum(adjuster: Adjuster) -> BoltDatum:
    """Return what distances along an adjuster's bolt are measured from.

    Parameters
    ----------
    adjuster : Adjuster
        The adjuster.

    Returns
    -------
    BoltDatum
    """
    return _DATUM[type(adjuster.mounting)]


_DATUM: dict[type[Record], BoltDatum] = {
    SwivellingMounting: BoltDatum.PIVOT,
    FixedLineMounting: BoltDatum.HEAD,
    KeyBoltMounting: BoltDatum.CROSS_MEMBER,
}


def measured_to(part: TurnedPart) -> str:
    """Return what distances along an adjuster's bolt are measured to, in words.

    Parameters
    ----------
    part : TurnedPart
        What is turned.

    Returns
    -------
    str
    """
    return _MEASURED_TO[part]


_MEASURED_TO = {TurnedPart.NUT: "lever's pin", TurnedPart.BOLT: "bolt's end"}


def anchor_in_words(anchor: Anchor) -> str:
    """Return what kind of anchor holds the bar, in words.

    Parameters
    ----------
    anchor : Tube, KeyLever or FixedSocket
        The anchor.

    Returns
    -------
    str
    """
    return _ANCHORS[type(anchor)]


_ANCHORS: dict[type[Anchor], str] = {
    Tube: "tube",
    KeyLever: "key lever",
    FixedSocket: "fixed socket",
}


def anchorage_of(setup: Setup) -> Anchorage:
    """Return the kernel of a corner's anchorage.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    Anchorage
    """
    anchor = setup.anchor
    if isinstance(anchor, FixedSocket):
        return FixedAnchor(anchor_angle=radians(anchor.anchor_angle))
    # A setup has an adjuster beside any other anchor, and one that goes with it.
    adjuster = cast("Adjuster", setup.adjuster)
    side = _SIDE[adjuster.lever_lies]
    if isinstance(anchor, KeyLever):
        return _key_lever(anchor, cast("KeyBoltMounting", adjuster.mounting), side)
    return _PINNED[type(adjuster.mounting)](anchor, adjuster.mounting, side)


def setting_span(adjuster: Adjuster | None) -> Span:
    """Least and greatest setting that the thread holds: of a pin or of a bolt's end [m].

    In tension a nut lies beyond the pin, in compression short of it; its whole height
    must be on full thread either way.

    Parameters
    ----------
    adjuster : Adjuster, optional
        The adjuster; without one there is the setting 0 alone.

    Returns
    -------
    (float, float)
    """
    if adjuster is None:
        return 0.0, 0.0
    start, end = metres(adjuster.thread_start), metres(adjuster.thread_end)
    if adjuster.is_screwed:
        return start, end
    nut, spacer = metres(adjuster.nut_height), metres(adjuster.spacer)
    if adjuster.lever_lies is LeverSide.BUMPWARD:
        return start - spacer, end - nut - spacer
    return start + nut + spacer, end + spacer


def change_per_turn(adjuster: Adjuster | None) -> float:
    """Change of the setting with a clockwise turn [m].

    A nut, seen from the bolt's free end, draws its pin in; the end of a bolt that is
    itself turned, seen from its head, goes forward.

    Parameters
    ----------
    adjuster : Adjuster, optional
        The adjuster.

    Returns
    -------
    float
        0 without an adjuster.
    """
    if adjuster is None:
        return 0.0
    pitch = metres(adjuster.thread_pitch)
    return pitch if adjuster.is_screwed else -pitch


_SIDE = {LeverSide.BUMPWARD: 1, LeverSide.DROOPWARD: -1}
_STRETCH = {ContactSide.BUMPWARD: 1, ContactSide.DROOPWARD: -1}


def _key_lever(lever: KeyLever, mounting: KeyBoltMounting, side: int) -> KeyLeverBolt:
    return KeyLeverBolt(
        line_distance=metres(mounting.line_distance),
        foot_angle=radians(mounting.foot_angle),
        foot_position=metres(mounting.foot_position),
        end_radius=metres(mounting.end_radius),
        face_offset=metres(lever.face_offset),
        face_start=metres(lever.face_start),
        face_end=metres(lever.face_end),
        lever_side=side,
        stretch=_STRETCH[mounting.stretch],
    )


def _swivelling(tube: Tube, mounting: SwivellingMounting, side: int) -> SwivellingBolt:
    return SwivellingBolt(
        pivot_distance=metres(mounting.pivot_distance),
        pivot_angle=radians(mounting.pivot_angle),
        lever_radius=metres(tube.lever_radius),
        lever_side=side,
    )


def _fixed_line(tube: Tube, mounting: FixedLineMounting, side: int) -> FixedLineBolt:
    return FixedLineBolt(
        line_distance=metres(mounting.line_distance),
        foot_angle=radians(mounting.foot_angle),
        foot_position=metres(mounting.foot_position),
        lever_radius=metres(tube.lever_radius),
        lever_side=side,
    )


# Of the mountings that hold a lever's pin; there is one for each of them.
_PINNED: dict[type[Record], Callable[[Tube, Any, int], Anchorage]] = {
    SwivellingMounting: _swivelling,
    FixedLineMounting: _fixed_line,
}
