"""Position of the bar in its sockets."""

from __future__ import annotations

import math

import numpy as np

from barwright.analysis.corner.bar.active_length import active_length
from barwright.analysis.corner.suspension import metres
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.spline.seating import AxialLayout, Seating, seat
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket

__all__ = [
    "ROUNDING",
    "ends_and_sockets",
    "layout_of",
    "overall_length",
    "overlaps",
    "room_between_stops",
    "seated_length",
    "seating_of",
    "stops_leave_room",
]


def seating_of(setup: Setup) -> Seating:
    """Position of the bar.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    Seating
    """
    return seat(layout_of(setup, with_stops=stops_leave_room(setup)))


def seated_length(setup: Setup, where: Seating) -> float | None:
    """Active length [m] of the bar in its position; none unless it lies in both sockets.

    Parameters
    ----------
    setup : Setup
        The corner.
    where : Seating
        Where its bar lies.

    Returns
    -------
    float, optional
    """
    if not overlaps(where):
        return None
    bare = {"bare_arm_head": where.bare_arm_head, "bare_anchor_head": where.bare_anchor_head}
    return active_length(setup.bar, **bare)


def overlaps(where: Seating) -> bool:
    """Whether both ends lie in their sockets by more than rounding."""
    return plain(np.minimum(where.arm_engagement, where.anchor_engagement)) > ROUNDING


def layout_of(setup: Setup, *, with_stops: bool) -> AxialLayout:
    """List lengths and places along the bar axis [m], with the stops or as if there were none."""
    bar, arm, tube, axle = setup.bar, setup.arm.socket, setup.anchor.socket, setup.axle
    return AxialLayout(
        bar_length=metres(bar.length),
        arm_spline=metres(bar.arm_end.length),
        anchor_spline=metres(bar.anchor_end.length),
        arm_nose=metres(bar.arm_end.nose),
        anchor_nose=metres(bar.anchor_end.nose),
        arm_socket=metres(arm.length),
        anchor_socket=metres(tube.length),
        anchor_position=metres(axle.tube_position) + metres(setup.anchor.socket_position),
        arm_required=metres(arm.required_engagement),
        anchor_required=metres(tube.required_engagement),
        arm_stop=metres(axle.arm_stop) if with_stops and axle.arm_stop is not None else -math.inf,
        anchor_stop=(
            metres(axle.anchor_stop) if with_stops and axle.anchor_stop is not None else math.inf
        ),
    )


def overall_length(setup: Setup) -> float:
    """Length of the bar over its noses [m]."""
    bar = setup.bar
    return metres(bar.length) + metres(bar.arm_end.nose) + metres(bar.anchor_end.nose)


def room_between_stops(setup: Setup) -> float:
    """Distance between the stops [m], infinite unless there are two."""
    axle = setup.axle
    if axle.arm_stop is None or axle.anchor_stop is None:
        return math.inf
    return metres(axle.anchor_stop) - metres(axle.arm_stop)


def stops_leave_room(setup: Setup) -> bool:
    """Whether the bar is short enough for the space between its stops."""
    return overall_length(setup) <= room_between_stops(setup)


def ends_and_sockets(setup: Setup) -> tuple[tuple[BarEndName, BarEnd, Socket], ...]:
    """Pair each end of the bar with the socket that takes it."""
    return (
        (BarEndName.ARM, setup.bar.arm_end, setup.arm.socket),
        (BarEndName.ANCHOR, setup.bar.anchor_end, setup.anchor.socket),
    )


# Rounding of a length that is made of several others [m].
ROUNDING = 1e-9
