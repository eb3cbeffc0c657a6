"""Which records of a setup each part of a corner is computed from.

Where these are the very same records, two corners have the same part, and one takes it over
from the other.  Equal records do not do: they may know other tolerances.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from typing import TypeAlias

from barwright.parts.anchor import Anchor
from barwright.parts.bar import Bar
from barwright.parts.setup import PLACES, Setup
from barwright.parts.tube import Tube
from barwright.units import is_unknown

__all__ = ["RESTING_ON", "RESTS_ON", "Records", "are_same", "fitting", "of_either_side", "whole"]

Records: TypeAlias = Callable[[Setup], tuple[object, ...]]
"""From a setup to the records and figures that a part of its corner rests on."""


def are_same(records: tuple[object, ...], others: tuple[object, ...]) -> bool:
    """Whether two lists hold the very same records."""
    return all(map(operator.is_, records, others))


def whole(setup: Setup) -> tuple[object, ...]:
    """List the setup itself: any other one differs."""
    return (setup,)


def fitting(setup: Setup) -> tuple[object, ...]:
    """List what decides how a bar fits: all but load, teeth and nut.

    Of the side counts which parts are its standard ones, and which are made for it.
    """
    axle, side = setup.axle, setup.side
    sided = (one.made_for in (None, side) for one in (setup.arm, setup.bar, setup.anchor))
    return axle, axle.standard(side), *sided, *setup.parts.values()


def of_either_side(setup: Setup) -> tuple[object, ...]:
    """List what decides the figures of a corner and their tolerances, teeth and nut aside.

    Angles count in the bump sense and a mirrored corner is inclined alike: both sides with the
    same parts have the same figures, unless the angle between the blanks tells them apart.
    """
    load = setup.load
    own = (figure for figure in setup.about.values() if figure.tolerance is not None)
    return (
        setup.chassis,
        setup.axle,
        setup.axle.standard(setup.side),
        *(getattr(setup, kind) for kind in PLACES),
        *(load.kind, load.mass, load.about.get("mass")),
        *(setup.reading, setup.further_readings),
        setup.side if _has_sides(setup.bar) else None,
        *own,
    )


def _seating(setup: Setup) -> tuple[object, ...]:
    """List what decides where a bar lies."""
    bar, axle = setup.bar, setup.axle
    sockets = setup.arm.socket, setup.anchor.socket
    return (
        bar.length,
        *(figure for end in (bar.arm_end, bar.anchor_end) for figure in (end.length, end.nose)),
        *(figure for one in sockets for figure in (one.length, one.required_engagement)),
        setup.anchor.socket_position,
        axle.tube_position,
        axle.arm_stop,
        axle.anchor_stop,
    )


def _twisting(setup: Setup) -> tuple[object, ...]:
    """List what decides how much of a bar twists."""
    bar = setup.bar
    return *_seating(setup), bar.diameter, bar.bore, bar.arm_end, bar.anchor_end


def _rating(setup: Setup) -> tuple[object, ...]:
    """List what decides the rates of bar and tube."""
    bar = setup.bar
    return *_twisting(setup), bar.material, bar.measured_rate, *_tube(setup.anchor)


def _tube(anchor: Anchor) -> tuple[object, ...]:
    """List what decides the rate of a tube; another anchor counts as rigid."""
    if not isinstance(anchor, Tube):
        return (anchor,)
    ends = anchor.lever_position, anchor.socket_position
    return anchor.material, anchor.outside_diameter, anchor.bore, *ends


def _inclined(setup: Setup) -> tuple[object, ...]:
    """List how bar and arm lie in the chassis, on whichever side."""
    axle = setup.axle
    return axle.bar_axis, axle.arm_direction, axle.arm_axis


def _lying(setup: Setup) -> tuple[object, ...]:
    """List how bar and arm lie in the chassis."""
    return *_inclined(setup), setup.side


def _stopping(setup: Setup) -> tuple[object, ...]:
    """List what ends the travel with the damper off."""
    return setup.axle.droop_stop, setup.axle.bump_stop


def _standard(setup: Setup) -> tuple[object, ...]:
    """List what guided the wheel as it left the works."""
    axle = setup.axle
    return (
        *_inclined(setup),
        axle.suspension,
        axle.hub_outboard,
        axle.hub_up,
        axle.reference_angle,
        axle.load_at,
        axle.tyre_radius,
        axle.standard(setup.side).arm.radius,
    )


def _guiding(setup: Setup) -> tuple[object, ...]:
    """List what guides the wheel with the arm that is on it."""
    return *_standard(setup), *_stopping(setup), setup.arm.radius


def _damped(setup: Setup) -> tuple[object, ...]:
    """List what guides the wheel and what holds its damper to its stroke."""
    return *_guiding(setup), setup.damper


def _arching(setup: Setup) -> tuple[object, ...]:
    """List what tells where the arch is."""
    axle = setup.axle
    return *_standard(setup), axle.measured_height, axle.measured_angle


def _tightening(setup: Setup) -> tuple[object, ...]:
    """List what tells at which angle the bushings were tightened."""
    axle = setup.axle
    return *_arching(setup), *_stopping(setup), axle.bushing, axle.standard_height


def _springing(setup: Setup) -> tuple[object, ...]:
    """List what acts on the corner beside its bar; rubber counts from the arch."""
    axle = setup.axle
    rubber = axle.bump_rubber, axle.bushing
    from_arch = () if rubber == (None, None) else _tightening(setup)
    return setup.damper.gas, axle.helper_coil, *rubber, *from_arch


def _carried(setup: Setup) -> tuple[object, ...]:
    """List what the corner carries."""
    return setup.load.kind, setup.load.mass, setup.axle.unsprung_mass


def _keys(setup: Setup) -> tuple[object, ...]:
    """List angles of keys and blanks, and what says in which sense they count."""
    sockets = setup.arm.socket, setup.anchor.socket
    keys = (socket.key_angle for socket in sockets)
    return *_lying(setup), *keys, setup.bar.blank_angle, setup.reading, setup.further_readings


def _has_sides(bar: Bar) -> bool:
    """Whether the angle between a bar's blanks tells one side from the other."""
    angle, known = bar.blank_angle, bar.about.get("blank_angle")
    is_exact = known is None or known.tolerance is None
    return is_unknown(angle) or bool(angle.magnitude) or not is_exact


def _holding(setup: Setup) -> tuple[object, ...]:
    """List what holds the anchor end; of a tube its lever's radius is enough."""
    anchor = setup.anchor
    return anchor.lever_radius if isinstance(anchor, Tube) else anchor, setup.adjuster


def _threaded(setup: Setup) -> tuple[object, ...]:
    """List what decides how far the lever can be set."""
    return (setup.adjuster,)


RESTS_ON: dict[str, Records] = {
    **dict.fromkeys(("plane", "sense"), _lying),
    "stops": _stopping,
    "standard_linkage": _standard,
    **dict.fromkeys(("linkage", "motions"), _guiding),
    "arch_height": _arching,
    "bushing_angle": _tightening,
    "springs": _springing,
    **dict.fromkeys(("damper_span", "damper_fits", "travel"), _damped),
    **dict.fromkeys(("sprung_mass", "load"), _carried),
    "seat": _seating,
    "seated_length": _twisting,
    "torsional_rates": _rating,
    "keyed_angle": _keys,
    **dict.fromkeys(("anchorage", "lever_closes", "lever_span", "lever_middle"), _holding),
    **dict.fromkeys(("setting_span", "setting_middle", "turns_span"), _threaded),
}
"""What each part of a corner that is worth taking over rests on."""

RESTING_ON: dict[Records, tuple[str, ...]] = {
    on: tuple(name for name, other in RESTS_ON.items() if other is on)
    for on in dict.fromkeys(RESTS_ON.values())
}
"""The same the other way round."""
