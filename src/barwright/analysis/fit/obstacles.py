"""What prevents a bar from fitting, and what to change."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from typing import TypeAlias

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.seating import (
    ROUNDING,
    ends_and_sockets,
    layout_of,
    overall_length,
    overlaps,
    room_between_stops,
    stops_leave_room,
)
from barwright.analysis.finding import Finding, Limit, Topic
from barwright.mechanics.common.types import Real
from barwright.mechanics.spline import insertion
from barwright.mechanics.spline.seating import seat
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever
from barwright.parts.bar import Side
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, Quantity, quantity, si

__all__ = [
    "Check",
    "cap_offset",
    "changes_for",
    "checks_beside",
    "checks_of",
    "largest_body",
    "lever_offset",
    "unmatched_teeth",
    "without_blank",
]


Check: TypeAlias = Callable[[], Iterable[Finding]]
"""Finds why a bar cannot be in its position, or cannot get there."""


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


def _count(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Finding]:
    teeth, mating = int(end.teeth), int(socket.teeth)
    if teeth != mating:
        yield _reason(Topic.TOOTH_COUNT, "the tooth counts differ", teeth, mating, name)


def _depth(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Finding]:
    if metres(end.major_diameter) <= metres(socket.minor_diameter):
        text = "the bar's teeth do not reach the socket's teeth"
        yield _reason(Topic.TOOTH_DEPTH, text, end.major_diameter, socket.minor_diameter, name)
    if metres(socket.minor_diameter) < metres(end.root_diameter):
        text = "the socket's teeth touch the roots of the bar's teeth"
        yield _reason(Topic.TOOTH_DEPTH, text, socket.minor_diameter, end.root_diameter, name)


def _form(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Finding]:
    if end.form != socket.form:
        yield _reason(Topic.TOOTH_FORM, "the tooth forms differ", end.form, socket.form, name)


def _made_for(setup: Setup) -> Iterator[Finding]:
    """Say that a part is made for the other side."""
    sided: list[tuple[str, Side | None]] = [
        ("arm", setup.arm.made_for),
        (_ANCHORS[type(setup.anchor)], setup.anchor.made_for),
    ]
    if setup.bar.preset:
        sided.append(("pre-setting of the bar", setup.bar.made_for))
    for what, made_for in sided:
        if made_for not in (None, setup.side):
            text = f"the {what} is made for the other side"
            yield _reason(Topic.WRONG_SIDE, text, made_for.value, setup.side.value)


def _between_stops(setup: Setup) -> Iterator[Finding]:
    if not stops_leave_room(setup):
        text = "the bar is longer than the space between its stops"
        yield _reason(Topic.STOPS, text, _mm(overall_length(setup)), _mm(room_between_stops(setup)))


def _engaged(corner: Corner) -> Iterator[Finding]:
    """Say that the bar does not lie in both sockets, or not far enough."""
    setup, where = corner.setup, corner.seat
    if not overlaps(where):
        yield _no_overlap(setup)
        return
    engagements = (where.arm_engagement, where.anchor_engagement)
    for (name, _, socket), engagement in zip(ends_and_sockets(setup), engagements, strict=True):
        required = metres(socket.required_engagement)
        if engagement < required - ROUNDING:
            text = f"too little of the {name.value} is engaged in its socket"
            yield _reason(Topic.ENGAGEMENT, text, _mm(engagement), socket.required_engagement, name)


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


def _behind(corner: Corner) -> Iterator[Finding]:
    allowed, sticks_out = corner.setup.axle.space_behind, corner.seat.anchor_protrusion
    if sticks_out > metres(allowed) + ROUNDING:
        text = "the bar sticks out further than the space behind the anchor allows"
        yield _reason(Topic.SPACE_BEHIND, text, _mm(sticks_out), allowed, BarEndName.ANCHOR)


def _lever_at_bolt(setup: Setup) -> Iterator[Finding]:
    lever = lever_offset(setup)
    if lever is not None and abs(lever) > metres(setup.axle.lever_allowance) + ROUNDING:
        whose = "tube's lever" if isinstance(setup.anchor, Tube) else _ANCHORS[type(setup.anchor)]
        text = f"the {whose} is too far from the adjuster's bolt"
        yield _reason(Topic.LEVER_OFF_BOLT, text, _mm(lever), setup.axle.lever_allowance)


def _way_in(setup: Setup) -> Iterator[Finding]:
    """Say that the end that goes first does not pass the socket at which the bar goes in."""
    entry, leading = setup.axle.entry, _leading(setup)
    by_name = {name: (end, socket) for name, end, socket in ends_and_sockets(setup)}
    (head, own), socket = by_name[leading], by_name[entry][1]
    # An end without a blank gets one where its own socket has a key.
    blanks = head.blanks or ((0,) if own.keyed else ())
    if _passes(head, socket, blanks=blanks):
        return
    text = f"the {leading.value} does not pass the socket at the {entry.value}"
    if _passes(head, socket, blanks=(0,)):
        text += ": it has no blank for the key; remove that key or cut a tooth"
    yield _reason(Topic.WAY_IN, text, head.major_diameter, socket.minor_diameter, leading)


def _tube_bore(setup: Setup) -> Iterator[Finding]:
    if not isinstance(setup.anchor, Tube):
        return
    leading = _leading(setup)
    head = setup.bar.arm_end if leading is BarEndName.ARM else setup.bar.anchor_end
    if metres(head.major_diameter) >= metres(setup.anchor.bore):
        text = f"the {leading.value} does not pass the tube's bore"
        yield _reason(Topic.WAY_IN, text, head.major_diameter, setup.anchor.bore, leading)


def _body(setup: Setup) -> Iterator[Finding]:
    if metres(setup.bar.diameter) >= largest_body(setup):
        text = "the bar's body is too thick for the way in"
        yield _reason(Topic.WAY_IN, text, setup.bar.diameter, _mm(largest_body(setup)))


def _leading(setup: Setup) -> BarEndName:
    """End of the bar that goes in first."""
    return BarEndName.ARM if setup.axle.entry is BarEndName.ANCHOR else BarEndName.ANCHOR


def _passes(head: BarEnd, socket: Socket, *, blanks: tuple[int, ...]) -> bool:
    """Whether an end goes through a socket: inside its teeth, or in mesh, a blank on its key."""
    diameters = {"major_diameter": head.major_diameter, "minor_diameter": socket.minor_diameter}
    if insertion.passes_freely(**{name: metres(value) for name, value in diameters.items()}):
        return True
    # A count that is not known equals none: whatever it is compared with, it is needed.
    is_same = (int(head.teeth), head.form) == (int(socket.teeth), socket.form)
    meshed = insertion.passes_meshed(0.0, teeth=socket.teeth, blanks=blanks, keyed=socket.keyed)
    return is_same and bool(meshed)


def _damper(corner: Corner) -> Iterator[Finding]:
    if not corner.damper_fits:
        shortest, longest = map(_mm, corner.damper_span)
        text = "the damper's length does not match the arm's stops (open length)"
        yield Finding(
            topic=Topic.TRAVEL,
            text=text,
            figure=corner.setup.damper.open_length,
            limit=shortest,
            upper=longest,
        )


def _lever_on_thread(corner: Corner) -> Iterator[Finding]:
    if not corner.lever_closes:
        low, high = map(_mm, corner.anchorage.reach)
        text = "the lever cannot follow the whole thread (pin's least distance)"
        if isinstance(corner.setup.anchor, KeyLever):
            text = (
                "the bolt's end leaves the key lever's face before its thread ends (least distance)"
            )
        yield Finding(
            topic=Topic.THREAD, text=text, figure=_mm(corner.setting_span[0]), limit=low, upper=high
        )


def largest_body(setup: Setup) -> float:
    """Diameter that the entry's socket and the tube let pass [m]."""
    is_arm = setup.axle.entry is BarEndName.ARM
    socket = setup.arm.socket if is_arm else setup.anchor.socket
    bore = metres(setup.anchor.bore) if isinstance(setup.anchor, Tube) else math.inf
    return min(metres(socket.minor_diameter), bore)


def changes_for(setup: Setup) -> Iterator[Finding]:
    """List what differs from how the vehicle left the works, and what has to be made for it."""
    standard = setup.axle.standard(setup.side)
    swaps = ((Topic.SWAPPED_ARM, "arm"), (Topic.SWAPPED_ANCHOR, "anchor"))
    for topic, kind in swaps:
        part, usual = getattr(setup, kind), getattr(standard, kind)
        if part.id != usual.id:
            yield _reason(topic, f"fit {part.title} instead of {usual.title}", part.id, usual.id)
    cap = cap_offset(setup)
    if cap is not None and abs(cap) > metres(setup.axle.cap_allowance) + ROUNDING:
        toward = "arm" if cap < 0.0 else "anchor"
        text = f"the tube's cap sits too far toward the {toward}: drill new holes in the chassis"
        yield _reason(Topic.NEW_CAP_HOLES, text, _mm(cap), setup.axle.cap_allowance)
    for name in without_blank(setup):
        text = "no blank for the socket's key: cut the tooth that the plan names, or clear the key"
        yield Finding(topic=Topic.NO_BLANK, text=text, end=name)
    bar = setup.bar
    if bar.made_for not in (None, setup.side) and not bar.preset:
        error = quantity(2.0 * _blank_angle(setup), ANGLE)
        text = "the bar's blanks are for the other side: on the keys, the free angle is wrong"
        yield _reason(Topic.WRONG_SIDE, text, error, None)


def without_blank(setup: Setup) -> Iterator[BarEndName]:
    """Name the ends of a bar that have no blank for the key of their socket."""
    for name, end, socket in ends_and_sockets(setup):
        if socket.keyed and not end.blanks:
            yield name


def _blank_angle(setup: Setup) -> float:
    return abs(si(setup.bar.blank_angle, ANGLE))


def lever_offset(setup: Setup) -> float | None:
    """Distance of the lever from its bolt [m]."""
    if isinstance(setup.anchor, FixedSocket):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.lever_position) - metres(setup.axle.bolt_position)


def cap_offset(setup: Setup) -> float | None:
    """Distance of the tube's cap from its holes [m]."""
    if not isinstance(setup.anchor, Tube):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.cap_position) - metres(setup.axle.cap_holes_position)


_ANCHORS: dict[type[Anchor], str] = {
    Tube: "tube",
    KeyLever: "key lever",
    FixedSocket: "fixed socket",
}


def _reason(
    topic: Topic, text: str, figure: Limit, limit: Limit, end: BarEndName | None = None
) -> Finding:
    return Finding(topic=topic, text=text, figure=figure, limit=limit, end=end)


def _mm(length: Real) -> Quantity:
    return quantity(float(length), LENGTH)
