"""What keeps a bar from fitting, and what has to be changed for it."""

from __future__ import annotations

import math
from collections.abc import Iterator

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
from barwright.mechanics.spline.seating import Seating, seat
from barwright.parts.anchor import Anchor, FixedSocket, KeyLever
from barwright.parts.bar import Side
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.spline import BarEnd, Socket
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, Quantity, quantity, si

__all__ = [
    "cap_offset",
    "changes_for",
    "largest_body",
    "lever_offset",
    "obstacles",
    "unmatched_teeth",
]


def obstacles(corner: Corner, where: Seating) -> tuple[Finding, ...]:
    """List why the bar cannot be in its position, or cannot get there.

    Parameters
    ----------
    corner : Corner
        The corner.
    where : Seating
        Where the bar comes to lie.

    Returns
    -------
    tuple of Finding
    """
    setup = corner.setup
    return (
        *_mating(setup),
        *_axial(setup, where),
        *_around(setup, where),
        *_blocked_passages(setup),
        *_linkage(corner),
    )


def _mating(setup: Setup) -> Iterator[Finding]:
    """Reasons that lie in the splines and in the side that a part is made for."""
    for name, end, socket in ends_and_sockets(setup):
        yield from unmatched_teeth(name, end, socket)
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


def unmatched_teeth(name: BarEndName, end: BarEnd, socket: Socket) -> Iterator[Finding]:
    """List why the teeth of a bar's end do not go into a socket.

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
    Finding
    """
    if end.teeth != socket.teeth:
        yield _reason(Topic.TOOTH_COUNT, "the tooth counts differ", end.teeth, socket.teeth, name)
    if metres(end.major_diameter) <= metres(socket.minor_diameter):
        text = "the bar's teeth do not reach the socket's teeth"
        yield _reason(Topic.TOOTH_DEPTH, text, end.major_diameter, socket.minor_diameter, name)
    if metres(socket.minor_diameter) < metres(end.root_diameter):
        text = "the socket's teeth touch the roots of the bar's teeth"
        yield _reason(Topic.TOOTH_DEPTH, text, socket.minor_diameter, end.root_diameter, name)
    if end.form != socket.form:
        yield _reason(Topic.TOOTH_FORM, "the tooth forms differ", end.form, socket.form, name)


def _axial(setup: Setup, where: Seating) -> Iterator[Finding]:
    """Reasons that lie in the length of the bar."""
    if not stops_leave_room(setup):
        text = "the bar is longer than the space between its stops"
        yield _reason(Topic.STOPS, text, _mm(overall_length(setup)), _mm(room_between_stops(setup)))
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


def _around(setup: Setup, where: Seating) -> Iterator[Finding]:
    """Reasons that lie in what is around the bar: the space behind, the bolt."""
    behind = metres(setup.axle.space_behind)
    if where.anchor_protrusion > behind + ROUNDING:
        text = "the bar sticks out further than the space behind the anchor allows"
        yield _reason(
            Topic.SPACE_BEHIND,
            text,
            _mm(where.anchor_protrusion),
            setup.axle.space_behind,
            BarEndName.ANCHOR,
        )
    lever = lever_offset(setup)
    if lever is not None and abs(lever) > metres(setup.axle.lever_allowance) + ROUNDING:
        whose = "tube's lever" if isinstance(setup.anchor, Tube) else _ANCHORS[type(setup.anchor)]
        text = f"the {whose} is too far from the adjuster's bolt"
        yield _reason(Topic.LEVER_OFF_BOLT, text, _mm(lever), setup.axle.lever_allowance)


def _blocked_passages(setup: Setup) -> Iterator[Finding]:
    """Reasons that lie in what the bar has to pass."""
    entry = setup.axle.entry
    by_name = {name: (end, socket) for name, end, socket in ends_and_sockets(setup)}
    leading = BarEndName.ARM if entry is BarEndName.ANCHOR else BarEndName.ANCHOR
    head, socket = by_name[leading][0], by_name[entry][1]
    major = metres(head.major_diameter)
    if not _passes(head, socket):
        text = f"the {leading.value} does not pass the socket at the {entry.value}"
        yield _reason(Topic.WAY_IN, text, head.major_diameter, socket.minor_diameter, leading)
    if isinstance(setup.anchor, Tube) and major >= metres(setup.anchor.bore):
        text = f"the {leading.value} does not pass the tube's bore"
        yield _reason(Topic.WAY_IN, text, head.major_diameter, setup.anchor.bore, leading)
    if metres(setup.bar.diameter) >= largest_body(setup):
        text = "the bar's body is too thick for the way in"
        yield _reason(Topic.WAY_IN, text, setup.bar.diameter, _mm(largest_body(setup)))


def _passes(head: BarEnd, socket: Socket) -> bool:
    """Whether an end goes through a socket: inside its teeth, or in mesh, a blank on its key."""
    diameters = {"major_diameter": head.major_diameter, "minor_diameter": socket.minor_diameter}
    if insertion.passes_freely(**{name: metres(value) for name, value in diameters.items()}):
        return True
    is_same = (head.teeth, head.form) == (socket.teeth, socket.form)
    meshed = insertion.passes_meshed(
        0.0, teeth=socket.teeth, blanks=head.blanks, keyed=socket.keyed
    )
    return is_same and bool(meshed)


def _linkage(corner: Corner) -> Iterator[Finding]:
    """Reasons that lie in the damper and in the lever."""
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
    bar = setup.bar
    if bar.made_for not in (None, setup.side) and not bar.preset:
        error = quantity(2.0 * _blank_angle(setup), ANGLE)
        text = "the bar's blanks are for the other side: on the keys, the free angle is wrong"
        yield _reason(Topic.WRONG_SIDE, text, error, None)


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
