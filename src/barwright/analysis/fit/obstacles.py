"""What prevents a bar from fitting, and what to change."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import Any

import numpy as np

from barwright.analysis.corner.anchorage import anchor_in_words
from barwright.analysis.corner.bar.seating import (
    ROUNDING,
    ends_and_sockets,
    layout_of,
    overall_length,
    overlaps,
    room_between_stops,
    stops_leave_room,
)
from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.finding import Finding, Limit, Topic
from barwright.analysis.fit.obstacle import Check, Obstacle
from barwright.mechanics.common.one_or_many import plain
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import insertion
from barwright.mechanics.spline.seating import seat
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.bar import Side
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import LENGTH, Quantity, quantity

__all__ = [
    "checks_beside",
    "checks_of",
    "largest_body",
    "lever_offset",
    "unmatched_teeth",
]


def checks_of(corner: Corner) -> Iterator[Check]:
    """List what may keep the bar from its position, each to be looked at by itself.

    Parameters
    ----------
    corner : Corner
        The corner.

    Yields
    ------
    callable
    """
    setup = corner.setup
    for end in ends_and_sockets(setup):
        yield from unmatched_teeth(*end)
    yield partial(_made_for, setup)
    yield partial(_between_stops, setup)
    yield partial(_engaged, corner)
    yield partial(_behind, corner)
    yield partial(_lever_at_bolt, setup)
    yield partial(_way_in, setup)
    yield partial(_tube_bore, setup)
    yield partial(_body, setup)


def checks_beside(corner: Corner) -> tuple[Check, ...]:
    """List what may keep a corner from working with a bar that lies well in its sockets.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    tuple of callable
    """
    return partial(_damper, corner), partial(_lever_on_thread, corner)


def unmatched_teeth(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Check]:
    """List what may keep the teeth of a bar's end from a socket.

    Parameters
    ----------
    name : BarEndName
        Which end it is.
    end : BarEnd
        The end.
    socket : Socket
        The socket.

    Yields
    ------
    callable
    """
    yield from (partial(check, name, end, socket) for check in (_count, _depth, _form))


def _count(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Obstacle]:
    teeth, mating = int(end.teeth), int(socket.teeth)
    text = "the tooth counts differ"
    yield Obstacle(teeth != mating, lambda: _reason(Topic.TOOTH_COUNT, text, teeth, mating, name))


def _depth(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Obstacle]:
    tips, roots, inside = end.major_diameter, end.root_diameter, socket.minor_diameter
    apart = "the bar's teeth do not reach the socket's teeth"
    yield Obstacle(
        metres(tips) <= metres(inside),
        lambda: _reason(Topic.TOOTH_DEPTH, apart, tips, inside, name),
    )
    touching = "the socket's teeth touch the roots of the bar's teeth"
    yield Obstacle(
        metres(inside) < metres(roots),
        lambda: _reason(Topic.TOOTH_DEPTH, touching, inside, roots, name),
    )


def _form(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Obstacle]:
    text = "the tooth forms differ"
    yield Obstacle(
        end.form != socket.form,
        lambda: _reason(Topic.TOOTH_FORM, text, end.form, socket.form, name),
    )


def _made_for(setup: Setup) -> Iterator[Obstacle]:
    """Say that a part is made for the other side."""
    sided: list[tuple[str, Side | None]] = [
        ("arm", setup.arm.made_for),
        (anchor_in_words(setup.anchor), setup.anchor.made_for),
    ]
    if setup.bar.preset:
        sided.append(("pre-setting of the bar", setup.bar.made_for))
    for what, made_for in sided:
        yield Obstacle(made_for not in (None, setup.side), partial(_other_side, setup, what))


def _other_side(setup: Setup, what: str) -> Finding:
    other = next(side for side in Side if side is not setup.side)
    text = f"the {what} is made for the other side"
    return _reason(Topic.WRONG_SIDE, text, other.value, setup.side.value)


def _between_stops(setup: Setup) -> Iterator[Obstacle]:
    text = "the bar is longer than the space between its stops"
    yield Obstacle(
        np.logical_not(stops_leave_room(setup)),
        lambda: _reason(
            Topic.STOPS, text, _mm(overall_length(setup)), _mm(room_between_stops(setup))
        ),
    )


def _engaged(corner: Corner) -> Iterator[Obstacle]:
    """Look whether the bar lies in both sockets, and far enough."""
    setup, where = corner.setup, corner.seat
    lies_in_both = overlaps(where)
    yield Obstacle(np.logical_not(lies_in_both), partial(_no_overlap, setup))
    engagements = (where.arm_engagement, where.anchor_engagement)
    for (name, _, socket), engagement in zip(ends_and_sockets(setup), engagements, strict=True):
        required = metres(socket.required_engagement)
        yield Obstacle(
            np.logical_and(lies_in_both, engagement < required - ROUNDING),
            partial(_too_little, name, socket, engagement),
        )


def _too_little(name: BarEndName, socket: Socket, engagement: Real) -> Finding:
    text = f"too little of the {name.value} is engaged in its socket"
    return _reason(Topic.ENGAGEMENT, text, _mm(engagement), socket.required_engagement, name)


def _no_overlap(setup: Setup) -> Finding:
    """Explain that the bar cannot lie in both sockets at once."""
    x = layout_of(setup, with_stops=False)
    if overlaps(seat(x)):
        text = "the stops keep the bar out of its sockets"
        return _reason(Topic.NO_OVERLAP, text, setup.bar.length, None)
    word, limit = "short", x.anchor_position - x.arm_socket
    if x.bar_length > x.anchor_position:
        word, limit = "long", x.anchor_position + x.anchor_socket + x.anchor_spline + x.arm_spline
    text = f"the bar is too {word}: its splines cannot lie in both sockets at once"
    return _reason(Topic.NO_OVERLAP, text, setup.bar.length, _mm(limit))


def _behind(corner: Corner) -> Iterator[Obstacle]:
    allowed, sticks_out = corner.setup.axle.space_behind, corner.seat.anchor_protrusion
    text = "the bar sticks out further than the space behind the anchor allows"
    yield Obstacle(
        sticks_out > metres(allowed) + ROUNDING,
        lambda: _reason(Topic.SPACE_BEHIND, text, _mm(sticks_out), allowed, BarEndName.ANCHOR),
    )


def _lever_at_bolt(setup: Setup) -> Iterator[Obstacle]:
    lever = lever_offset(setup)
    if lever is None:
        return
    allowed = setup.axle.lever_allowance
    whose = "tube's lever" if isinstance(setup.anchor, Tube) else anchor_in_words(setup.anchor)
    text = f"the {whose} is too far from the adjuster's bolt"
    yield Obstacle(
        abs(lever) > metres(allowed) + ROUNDING,
        lambda: _reason(Topic.LEVER_OFF_BOLT, text, _mm(lever), allowed),
    )


def _way_in(setup: Setup) -> Iterator[Obstacle]:
    """Look whether the end that goes first passes the socket at which the bar goes in."""
    entry, leading = setup.axle.entry, _leading(setup)
    by_name = {name: (end, socket) for name, end, socket in ends_and_sockets(setup)}
    (head, own), socket = by_name[leading], by_name[entry][1]
    # An end without a blank gets one where its own socket has a key.
    blanks = head.blanks or ((0,) if own.keyed else ())
    is_stopped = np.logical_not(_passes(head, socket, blanks=blanks))
    text = f"the {leading.value} does not pass the socket at the {entry.value}"
    if np.any(is_stopped) and np.any(_passes(head, socket, blanks=(0,))):
        text += ": it has no blank for the key; remove that key or cut a tooth"
    yield Obstacle(
        is_stopped,
        lambda: _reason(Topic.WAY_IN, text, head.major_diameter, socket.minor_diameter, leading),
    )


def _tube_bore(setup: Setup) -> Iterator[Obstacle]:
    tube, leading = setup.anchor, _leading(setup)
    if not isinstance(tube, Tube):
        return
    head = setup.bar.arm_end if leading is BarEndName.ARM else setup.bar.anchor_end
    text = f"the {leading.value} does not pass the tube's bore"
    yield Obstacle(
        metres(head.major_diameter) >= metres(tube.bore),
        lambda: _reason(Topic.WAY_IN, text, head.major_diameter, tube.bore, leading),
    )


def _body(setup: Setup) -> Iterator[Obstacle]:
    largest = largest_body(setup)
    text = "the bar's body is too thick for the way in"
    yield Obstacle(
        metres(setup.bar.diameter) >= largest,
        lambda: _reason(Topic.WAY_IN, text, setup.bar.diameter, _mm(largest)),
    )


def _leading(setup: Setup) -> BarEndName:
    """End of the bar that goes in first."""
    return BarEndName.ARM if setup.axle.entry is BarEndName.ANCHOR else BarEndName.ANCHOR


def _passes(head: BarEnd, socket: Socket, *, blanks: tuple[int, ...]) -> Any:  # noqa: ANN401
    """Whether an end goes through a socket: inside its teeth, or in mesh, a blank on its key."""
    diameters = {"major_diameter": head.major_diameter, "minor_diameter": socket.minor_diameter}
    freely = insertion.passes_freely(**{name: metres(value) for name, value in diameters.items()})
    if np.all(freely):
        return freely
    # A count that is not known equals none: whatever it is compared with, it is needed.
    is_same = (int(head.teeth), head.form) == (int(socket.teeth), socket.form)
    meshed = insertion.passes_meshed(0.0, teeth=socket.teeth, blanks=blanks, keyed=socket.keyed)
    return np.logical_or(freely, is_same and bool(meshed))


def _damper(corner: Corner) -> Iterator[Obstacle]:
    yield Obstacle(np.logical_not(corner.damper_fits), partial(_beyond_damper, corner))


def _beyond_damper(corner: Corner) -> Finding:
    shortest, longest = map(_mm, corner.damper_span)
    return Finding(
        topic=Topic.TRAVEL,
        text="the damper's length does not match the arm's stops (open length)",
        figure=corner.setup.damper.open_length,
        limit=shortest,
        upper=longest,
    )


def _lever_on_thread(corner: Corner) -> Iterator[Obstacle]:
    yield Obstacle(np.logical_not(corner.lever_closes), partial(_beyond_thread, corner))


def _beyond_thread(corner: Corner) -> Finding:
    low, high = map(_mm, corner.anchorage.reach)
    text = "the lever cannot follow the whole thread (pin's least distance)"
    if isinstance(corner.setup.anchor, KeyLever):
        text = "the bolt's end leaves the key lever's face before its thread ends (least distance)"
    figure = _mm(corner.setting_span[0])
    return Finding(topic=Topic.THREAD, text=text, figure=figure, limit=low, upper=high)


def largest_body(setup: Setup) -> float:
    """Diameter that the entry's socket and the tube let pass [m]."""
    is_arm = setup.axle.entry is BarEndName.ARM
    socket = setup.arm.socket if is_arm else setup.anchor.socket
    bore = metres(setup.anchor.bore) if isinstance(setup.anchor, Tube) else math.inf
    return plain(np.minimum(metres(socket.minor_diameter), bore))


def lever_offset(setup: Setup) -> float | None:
    """Distance of the lever from its bolt [m]."""
    if isinstance(setup.anchor, FixedSocket):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.lever_position) - metres(setup.axle.bolt_position)


def _reason(
    topic: Topic, text: str, figure: Limit, limit: Limit, end: BarEndName | None = None
) -> Finding:
    return Finding(topic=topic, text=text, figure=figure, limit=limit, end=end)


def _mm(length: Real) -> Quantity:
    return quantity(float(length), LENGTH)
