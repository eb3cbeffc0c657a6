"""Anchors without a torque tube: a key lever, or a fixed socket."""

from __future__ import annotations

from typing import TypeAlias

import attrs

from barwright.errors import GeometryError, SchemaError
from barwright.parts.adjuster import Adjuster, KeyBoltMounting
from barwright.parts.bar import Side
from barwright.parts.common.fields import angle, as_far_as_known, length, named, size, size_or_zero
from barwright.parts.common.record import Part
from barwright.parts.spline import Socket
from barwright.parts.tube import Tube
from barwright.units import LENGTH, Quantity, shown, si

__all__ = ["Anchor", "FixedSocket", "KeyLever", "refuse_unmatched"]


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class KeyLever(Part):
    """A short lever on the anchor end, whose flat face a bolt in the cross-member pushes.

    It is taken as rigid.  Positions along it are counted like those of a tube, from
    the place that the axle gives as the tube's.

    Parameters
    ----------
    lever_position : Quantity
        Position of the lever; 0 if it is at its socket.
    face_offset : Quantity
        Distance from the lever's centreline, which passes through the bar axis, to its face,
        positive toward the bolt.
    face_start : Quantity
        Start of the flat face, from the bar axis along the lever.
    face_end : Quantity
        End of the flat face, from the bar axis along the lever.
    socket_position : Quantity
        Position of the near face of the anchor socket.
    socket : Socket
        The anchor socket; its key angle is from the lever's centreline.
    held_by : str, optional
        What holds the lever while its bar is slack, for example a clip; left out if only the
        bar holds it.
    made_for : Side, optional
        The side that it fits; left out if the left and right parts mirror each other.
    """

    lever_position: Quantity = attrs.field(default="0 mm", converter=length)
    face_offset: Quantity = attrs.field(converter=length)
    face_start: Quantity = attrs.field(converter=size_or_zero)
    face_end: Quantity = attrs.field(converter=size)
    socket_position: Quantity = attrs.field(default="0 mm", converter=length)
    socket: Socket
    held_by: str | None = None
    made_for: Side | None = None

    def _check(self) -> None:
        """Refuse a face that ends where it begins."""
        super()._check()
        self._check_face()

    @as_far_as_known
    def _check_face(self) -> None:
        if si(self.face_end, LENGTH) <= si(self.face_start, LENGTH):
            raise GeometryError(
                "G102",
                value=f"a face from {shown(self.face_start)} to {shown(self.face_end)}",
                expected="an end beyond its start, both from the bar axis outward",
                remedy="check where the lever's face begins and ends",
                key="face_end",
            )


@attrs.frozen(kw_only=True, field_transformer=named, repr=False)
class FixedSocket(Part):
    """An anchor socket that the chassis holds at one angle, with nothing to adjust.

    Parameters
    ----------
    anchor_angle : Quantity
        Angle above the horizontal, in the bump sense, of the line in the socket from which its
        key angle is counted.
    socket_position : Quantity
        Position of the near face of the anchor socket, from the axle's ``tube_position``.
    socket : Socket
        The anchor socket; its key angle is from that line.
    made_for : Side, optional
        The side that it fits; left out if the left and right parts mirror each other.
    """

    anchor_angle: Quantity = attrs.field(converter=angle)
    socket_position: Quantity = attrs.field(default="0 mm", converter=length)
    socket: Socket
    made_for: Side | None = None


Anchor: TypeAlias = Tube | KeyLever | FixedSocket
"""What may hold a bar's anchor end."""


def refuse_unmatched(anchor: Anchor, adjuster: Adjuster | None) -> None:
    """Refuse an anchor and an adjuster that cannot work together.

    Parameters
    ----------
    anchor : Tube, KeyLever or FixedSocket
        What holds the anchor end.
    adjuster : Adjuster, optional
        What sets it; none with a fixed socket, and only with that.

    Raises
    ------
    SchemaError
        S207.
    """
    if isinstance(anchor, FixedSocket):
        if adjuster is not None:
            raise _unmatched(adjuster.id, "no adjuster beside a fixed socket")
        return
    if adjuster is None:
        raise _unmatched("no adjuster", "one, unless the anchor is a fixed socket")
    pushes = isinstance(adjuster.mounting, KeyBoltMounting)
    if isinstance(anchor, KeyLever) and not pushes:
        raise _unmatched(adjuster.id, "a mounting of kind 'key-bolt' for a key lever")
    if isinstance(anchor, Tube) and pushes:
        raise _unmatched(adjuster.id, "a mounting that holds the lever's pin, for a tube")


def _unmatched(value: str, expected: str) -> SchemaError:
    return SchemaError(
        "S207",
        value=value,
        expected=expected,
        remedy="a tube goes with a bolt and nut, a key lever with a bolt that pushes its face, "
        "a fixed socket with nothing",
        key="adjuster",
    )
