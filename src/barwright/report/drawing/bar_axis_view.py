"""A bar in its sockets along its axis, what is to be drawn of it."""

from __future__ import annotations

from typing import TypeAlias

import attrs

from barwright.analysis.fit.length_fit import EndFit, LengthFit
from barwright.parts.anchor import FixedSocket
from barwright.parts.common.in_short import Summarised
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd
from barwright.parts.tube import Tube
from barwright.units import LENGTH, Quantity, is_unknown, quantity

__all__ = ["AxialHead", "BarAxisView", "bar_axis_view"]


@attrs.frozen(kw_only=True, repr=False)
class AxialHead(Summarised):
    """A splined end of a bar and its socket, along the bar axis.

    Positions are counted from the arm socket's outer face toward the anchor.

    Parameters
    ----------
    fit : EndFit
        How it lies in its socket.
    spline_from, spline_to : Quantity
        Where its spline begins and ends.
    socket_from, socket_to : Quantity
        Where the socket begins and ends.
    nose, taper : Quantity
        Lengths beyond the spline, and of the cone to the body.
    major_diameter : Quantity
        Over the teeth.
    """

    fit: EndFit
    spline_from: Quantity
    spline_to: Quantity
    socket_from: Quantity
    socket_to: Quantity
    nose: Quantity
    taper: Quantity
    major_diameter: Quantity


@attrs.frozen(kw_only=True, repr=False)
class BarAxisView(Summarised):
    """A bar in its sockets, as it is to be drawn along its axis.

    Parameters
    ----------
    corner : str
        Axle and side.
    axial_heads : tuple of AxialHead
        Arm end and anchor end.
    length : Quantity
        Of the bar over both splines.
    diameter : Quantity
        Of its body.
    lever_place, lever_offset : Quantity, optional
        Where the lever lies, and how far that is from its bolt; none with a fixed socket.
    tube_from, tube_diameter : Quantity, optional
        Where the tube begins, and its outside diameter; none with another anchor.
    cap_place, cap_offset : Quantity, optional
        Where the tube's cap lies, and how far that is from its holes; likewise.
    """

    corner: str
    axial_heads: tuple[AxialHead, ...]
    length: Quantity
    diameter: Quantity
    lever_place: Quantity | None
    lever_offset: Quantity | None
    tube_from: Quantity | None
    tube_diameter: Quantity | None
    cap_place: Quantity | None
    cap_offset: Quantity | None


def bar_axis_view(setup: Setup, fit: LengthFit) -> BarAxisView:
    """Describe the bar of a corner in its sockets.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be.
    fit : LengthFit
        How its bar lies.

    Returns
    -------
    BarAxisView
    """
    anchor, start = setup.anchor, setup.axle.tube_position
    tube = anchor if isinstance(anchor, Tube) else None
    lever = None if isinstance(anchor, FixedSocket) else _place(start, anchor.lever_position)
    return BarAxisView(
        corner=setup.corner,
        axial_heads=_heads(setup, fit),
        length=setup.bar.length,
        diameter=setup.bar.diameter,
        lever_place=lever,
        lever_offset=fit.lever_offset,
        tube_from=start if tube else None,
        tube_diameter=tube.outside_diameter if tube else None,
        cap_place=_place(start, tube.cap_position) if tube else None,
        cap_offset=fit.cap_offset,
    )


def _place(start: Quantity, position: Quantity) -> Quantity | None:
    """Place of what lies at a position from the start of the anchor; none if it is not known."""
    return None if is_unknown(position) else start + position


def _heads(setup: Setup, fit: LengthFit) -> tuple[AxialHead, ...]:
    bar, arm, anchor = setup.bar, setup.arm.socket, setup.anchor.socket
    arm_fit, anchor_fit = fit.ends
    end = fit.position + bar.length
    face = setup.axle.tube_position + setup.anchor.socket_position
    zero = quantity(0.0, LENGTH)
    inner = (fit.position + bar.arm_end.length, end - bar.anchor_end.length)
    return (
        _head(bar.arm_end, arm_fit, spline=(fit.position, inner[0]), socket=(zero, arm.length)),
        _head(
            bar.anchor_end, anchor_fit, spline=(inner[1], end), socket=(face, face + anchor.length)
        ),
    )


_Span: TypeAlias = tuple[Quantity, Quantity]


def _head(end: BarEnd, fit: EndFit, *, spline: _Span, socket: _Span) -> AxialHead:
    return AxialHead(
        fit=fit,
        spline_from=spline[0],
        spline_to=spline[1],
        socket_from=socket[0],
        socket_to=socket[1],
        nose=end.nose,
        taper=end.taper,
        major_diameter=end.major_diameter,
    )
