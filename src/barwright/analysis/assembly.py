"""Can the bar be drawn or put in by hand? (mechanics, section 6, *Assembly*)."""

from __future__ import annotations

import attrs

from barwright.analysis.model import CornerModel, Span
from barwright.analysis.ride import Springing
from barwright.mechanics import torsion
from barwright.units import ANGLE, ENERGY, LENGTH, TORQUE, TURNS, Quantity, quantity

__all__ = ["Assembly", "assembly", "both_ways", "lever_span_for_assembly"]


@attrs.frozen(kw_only=True)
class Assembly:
    """Where the bar slides in and out by hand, or what holds it.

    Parameters
    ----------
    damper_on : bool
        Whether the damper holds the arm, or only the chassis' own stop.
    slides : bool
        Whether there is a place where the bar carries no torque.
    nut_turns : Quantity
        Where to set the nut for it, from the middle, clockwise positive; where
        there is no such place, the end that comes nearest.
    pin_distance : Quantity
        The same, measured: from the bolt's pivot to the lever's pin.
    arm_angle : Quantity
        Angle of the arm in that place.
    lift : Quantity
        How far the hub is then lifted from full droop.
    residual_torque, residual_energy : Quantity
        What is left in the bar where it does not slide.
    """

    damper_on: bool
    slides: bool
    nut_turns: Quantity
    pin_distance: Quantity
    arm_angle: Quantity
    lift: Quantity
    residual_torque: Quantity
    residual_energy: Quantity


def assembly(
    model: CornerModel, spring: Springing, *, clocked_angle: float, damper_on: bool
) -> Assembly:
    """Answer how a bar comes out or goes in at one clocking.

    The arm can be lifted but not lowered past its stop, so the bar must be free
    of torque with the arm at its stop or above it.

    Parameters
    ----------
    model : CornerModel
        The corner.
    spring : Springing
        Its rates.
    clocked_angle : float
        Free angle beyond the lever's [rad].
    damper_on : bool
        Whether the damper is on.

    Returns
    -------
    Assembly

    References
    ----------
    The bar slides where the arm's angle is the free angle: derived in this
    project; common practice for the rest, no source.
    """
    hang, highest = model.travel if damper_on else model.stops
    low, high = model.lever_span
    lever = min(max(hang - clocked_angle, low), high)
    free = lever + clocked_angle
    # A lever that stops short leaves the bar wound up at the arm's stop; one
    # that goes too far asks for an arm above its bump stop.
    angle = min(max(free, hang), highest)
    twist = angle - free
    slides = abs(twist) <= _ROUNDING
    heights = model.height(hang), model.height(angle)
    return Assembly(
        damper_on=damper_on,
        slides=slides,
        nut_turns=quantity(float(model.turns_at_lever(lever)), TURNS),
        pin_distance=quantity(float(model.bolt.pin_distance(lever)), LENGTH),
        arm_angle=quantity(angle, ANGLE),
        lift=quantity(float(heights[0] - heights[1]), LENGTH),
        residual_torque=quantity(0.0 if slides else spring.system * abs(twist), TORQUE),
        residual_energy=quantity(
            0.0 if slides else float(torsion.strain_energy(rate=spring.system, twist=twist)),
            ENERGY,
        ),
    )


def both_ways(
    model: CornerModel, spring: Springing, *, clocked_angle: float
) -> tuple[Assembly, Assembly]:
    """Assembly with the damper on, and with it off."""
    on, off = (
        assembly(model, spring, clocked_angle=clocked_angle, damper_on=is_on)
        for is_on in (True, False)
    )
    return on, off


def lever_span_for_assembly(model: CornerModel, free_angle: float) -> Span:
    """Lever angles [rad] of plans that can be assembled with the damper off.

    A plan that sets a free angle at the lever angle ``α`` is clocked to
    ``free_angle - α``; with the nut elsewhere on its thread, some free angle
    between the arm's stops must be within its reach.

    Parameters
    ----------
    model : CornerModel
        The corner.
    free_angle : float
        Free angle that every plan sets [rad].

    Returns
    -------
    (float, float)
        Lower limit first; empty if it is above the upper one.
    """
    low, high = model.lever_span
    droop, bump = model.stops
    return max(low, low + free_angle - bump), min(high, high + free_angle - droop)


# Rounding of an angle that is made of several others [rad].
_ROUNDING = 1e-9
