"""Which records of a setup each part of a corner is computed from.

Where these are the very same records, two corners have the same part, and one takes it over
from the other.  Equal records do not do: they may know other tolerances.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import TypeAlias

import attrs

from barwright.parts.chassis import Axle
from barwright.parts.setup import Setup

__all__ = ["RESTS_ON", "Records", "are_same", "fitting", "seating", "whole"]

Records: TypeAlias = Callable[[Setup], tuple[object, ...]]
"""From a setup to the records and figures that a part of its corner rests on."""


def are_same(records: Records, one: Setup, other: Setup) -> bool:
    """Whether two setups have the very same records."""
    return all(map(operator.is_, records(one), records(other)))


def whole(setup: Setup) -> tuple[object, ...]:
    """List the setup itself: any other one differs."""
    return (setup,)


def fitting(setup: Setup) -> tuple[object, ...]:
    """List what decides how a bar fits: all but load, teeth and nut."""
    return setup.axle, setup.side, *setup.parts.values()


def seating(setup: Setup) -> tuple[object, ...]:
    """List what decides where a bar lies, and the rates of bar and tube."""
    return *_own(setup.axle), setup.bar, setup.anchor, setup.arm.socket


def _lying(setup: Setup) -> tuple[object, ...]:
    """List how bar and arm lie in the chassis."""
    axle = setup.axle
    return axle.bar_axis, axle.arm_direction, axle.arm_axis, setup.side


def _standard(setup: Setup) -> tuple[object, ...]:
    """List what guided the wheel as it left the works: the axle's own figures, and its arm's."""
    return *_own(setup.axle), setup.side, setup.axle.standard(setup.side).arm.radius


def _guiding(setup: Setup) -> tuple[object, ...]:
    """List what guides the wheel with the arm that is on it."""
    return *_standard(setup), setup.arm.radius


def _damped(setup: Setup) -> tuple[object, ...]:
    """List what guides the wheel and what holds its damper to its stroke."""
    return *_guiding(setup), setup.damper


def _carried(setup: Setup) -> tuple[object, ...]:
    """List what the corner carries."""
    return setup.load, setup.axle.unsprung_mass


def _keys(setup: Setup) -> tuple[object, ...]:
    """List angles of keys and blanks, and what says in which sense they count."""
    sockets = setup.arm.socket, setup.anchor.socket
    keys = (socket.key_angle for socket in sockets)
    read = setup.reading, setup.further_readings
    return *_own(setup.axle), setup.side, *keys, setup.bar.blank_angle, *read


def _holding(setup: Setup) -> tuple[object, ...]:
    """List the parts that hold the anchor end."""
    return setup.anchor, setup.adjuster


def _own(axle: Axle) -> tuple[object, ...]:
    """Figures of an axle itself, without those of its standard parts."""
    return tuple(getattr(axle, name) for name in _AXLE_FIELDS)


_AXLE_FIELDS = [
    field.name for field in attrs.fields(Axle) if field.name not in ("about", "left", "right")
]

RESTS_ON: dict[str, Records] = {
    **dict.fromkeys(("plane", "sense"), _lying),
    **dict.fromkeys(("standard_linkage", "arch_height", "bushing_angle", "stops"), _standard),
    "linkage": _guiding,
    **dict.fromkeys(("springs", "damper_span", "damper_fits", "travel"), _damped),
    **dict.fromkeys(("sprung_mass", "load"), _carried),
    **dict.fromkeys(("seat", "seated_length", "torsional_rates"), seating),
    "keyed_angle": _keys,
    **dict.fromkeys(("anchorage", "lever_closes", "lever_span", "lever_middle"), _holding),
    **dict.fromkeys(("setting_span", "setting_middle", "turns_span"), _holding),
}
"""What each part of a corner that is worth taking over rests on."""
