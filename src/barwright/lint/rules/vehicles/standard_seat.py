"""A standard bar lies with both splines wholly in their sockets."""

from __future__ import annotations

from collections.abc import Iterator

from barwright.analysis.corner.corner import metres
from barwright.analysis.finding import Topic
from barwright.lint.corners.compared import compared
from barwright.lint.corners.corners import Said, StandardCorner, reported_where_it_fits
from barwright.lint.finding import Severity
from barwright.lint.rule import Remark, Rule
from barwright.lint.subject.subject import Subject
from barwright.parts.setup import Setup
from barwright.units import LENGTH, quantity, shown, si

__all__ = ["RULE"]

# What makers' drawings leave open beside the tolerances that a pack gives [m]: common practice,
# no source.
_LEFT_OPEN = 2.0e-3


def _remarks(subject: Subject) -> Iterator[Remark]:
    return reported_where_it_fits(subject, _reported)


def _reported(corner: StandardCorner) -> Iterator[Said]:
    setup = corner.setup
    missing = _missing(setup)
    allowed = _LEFT_OPEN + sum(_tolerance(setup))
    if abs(missing) > allowed:
        word = "short" if missing > 0.0 else "long"
        message = (
            f"{setup.bar.title} is {shown(quantity(abs(missing), LENGTH), 1)} too {word} to lie "
            f"with both splines wholly in their sockets; tolerances explain "
            f"{shown(quantity(allowed, LENGTH), 1)}"
        )
        yield Said(message, compared(setup, Topic.ENGAGEMENT))


def _missing(setup: Setup) -> float:
    """Length [m] that a bar lacks to lie wholly in both sockets; negative where it is too long."""
    length = metres(setup.bar.length)
    arm, anchor = setup.bar.arm_end, setup.bar.anchor_end
    begin = metres(setup.axle.tube_position) + metres(setup.anchor.socket_position)
    # Places of the arm end's outer edge: as the arm socket allows, and as the anchor's does.
    rooms = (
        metres(setup.arm.socket.length) - metres(arm.length),
        (metres(setup.anchor.socket.length) - metres(anchor.length)),
    )
    offset = begin + metres(anchor.length) - length
    low, high = min(0.0, rooms[0]), max(0.0, rooms[0])
    from_low, from_high = offset + min(0.0, rooms[1]), offset + max(0.0, rooms[1])
    if from_low > high:
        return from_low - high
    return min(from_high - low, 0.0)


def _tolerance(setup: Setup) -> Iterator[float]:
    """Half widths of the tolerances [m] of the lengths that decide it."""
    for record, names in (
        (setup.bar, ("length",)),
        (setup.anchor, ("socket_position",)),
        (setup.axle, ("tube_position",)),
    ):
        for name in names:
            about = record.about.get(name)
            if about is not None and about.tolerance is not None:
                yield si(about.tolerance, LENGTH)


RULE = Rule(
    name="standard-seat",
    code="R306",
    severity=Severity.WARNING,
    wants="a standard bar lies with both splines wholly in their sockets",
    tip="compare bar length and socket positions; a bar is measured over both splines, noses extra",
    remarks=_remarks,
)
