"""What differs from how the vehicle left the works, and what has to be made for it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from barwright.analysis.corner.bar.seating import ROUNDING, ends_and_sockets
from barwright.analysis.corner.corner import metres
from barwright.analysis.finding import Finding, Topic
from barwright.analysis.fit.obstacle import Obstacle
from barwright.parts.chassis import BarEndName
from barwright.parts.setup import Setup
from barwright.parts.tube import Tube
from barwright.units import ANGLE, LENGTH, quantity, si

__all__ = ["cap_offset", "changes_for", "without_blank"]


def changes_for(setup: Setup) -> Iterator[Obstacle]:
    """List what must be changed so that the bar fits.

    Parameters
    ----------
    setup : Setup
        The corner.

    Yields
    ------
    Obstacle
    """
    standard = setup.axle.standard(setup.side)
    swaps = ((Topic.SWAPPED_ARM, "arm"), (Topic.SWAPPED_ANCHOR, "anchor"))
    for topic, kind in swaps:
        part, usual = getattr(setup, kind), getattr(standard, kind)
        text = f"fit {part.title} instead of {usual.title}"
        told = partial(Finding, topic=topic, text=text, figure=part.id, limit=usual.id)
        yield Obstacle(part.id != usual.id, told)
    cap = cap_offset(setup)
    if cap is not None:
        is_off = abs(cap) > metres(setup.axle.cap_allowance) + ROUNDING
        yield Obstacle(is_off, partial(_new_cap_holes, setup, cap))
    for name in without_blank(setup):
        yield Obstacle(is_there=True, told=partial(_no_blank, name))
    is_other = setup.bar.made_for not in (None, setup.side) and not setup.bar.preset
    yield Obstacle(is_other, partial(_other_blanks, setup))


def _new_cap_holes(setup: Setup, cap: float) -> Finding:
    toward = "arm" if cap < 0.0 else "anchor"
    text = f"the tube's cap sits too far toward the {toward}: drill new holes in the chassis"
    return Finding(
        topic=Topic.NEW_CAP_HOLES,
        text=text,
        figure=quantity(cap, LENGTH),
        limit=setup.axle.cap_allowance,
    )


def _no_blank(name: BarEndName) -> Finding:
    text = "no blank for the socket's key: cut the tooth that the plan names, or clear the key"
    return Finding(topic=Topic.NO_BLANK, text=text, end=name)


def _other_blanks(setup: Setup) -> Finding:
    error = quantity(2.0 * abs(si(setup.bar.blank_angle, ANGLE)), ANGLE)
    text = (
        "the bar's blanks are for the other side: exchange left and right; on these keys, the "
        "free angle is wrong"
    )
    return Finding(topic=Topic.WRONG_SIDE, text=text, figure=error, limit=None)


def without_blank(setup: Setup) -> Iterator[BarEndName]:
    """Name the ends of a bar that have no blank for the key of their socket.

    Parameters
    ----------
    setup : Setup
        The corner.

    Yields
    ------
    BarEndName
    """
    for name, end, socket in ends_and_sockets(setup):
        if socket.keyed and not end.blanks:
            yield name


def cap_offset(setup: Setup) -> float | None:
    """Distance of the tube's cap from its holes [m].

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    float, optional
        None without a tube.
    """
    if not isinstance(setup.anchor, Tube):
        return None
    start = metres(setup.axle.tube_position)
    return start + metres(setup.anchor.cap_position) - metres(setup.axle.cap_holes_position)
