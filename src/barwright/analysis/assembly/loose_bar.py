"""Position of the adjuster or the arm at which the bar carries no torque."""

from __future__ import annotations

import math

import attrs

from barwright.analysis.corner.corner import Corner, metres
from barwright.analysis.corner.raising import slack_end
from barwright.units import LENGTH, TURNS, Quantity, quantity

__all__ = ["ArmHeld", "LooseBar", "loose_bar"]


@attrs.frozen(kw_only=True)
class ArmHeld:
    """Position of the arm at which a bar in a fixed socket carries no torque.

    Parameters
    ----------
    height : Quantity
        Hub to arch.
    joint_rise : Quantity
        Of the arm's outer end, straight up from where the arm hangs at its own stop.
    """

    height: Quantity
    joint_rise: Quantity


@attrs.frozen(kw_only=True)
class LooseBar:
    """Positions that unload the bar of a corner at its clocking.

    Parameters
    ----------
    slack_end : Quantity, optional
        Turns from the middle of the adjuster's thread to its slack end, clockwise positive;
        none with a fixed socket.
    slack_distance : Quantity, optional
        The same, measured along the bolt.
    damper_on, damper_off : ArmHeld, optional
        Where the arm is held with the damper on, and with it off; none with an adjuster.
    """

    slack_end: Quantity | None
    slack_distance: Quantity | None
    damper_on: ArmHeld | None
    damper_off: ArmHeld | None


def loose_bar(corner: Corner) -> LooseBar:
    """Answer which positions unload the bar of a corner at its clocking.

    Parameters
    ----------
    corner : Corner
        The corner.

    Returns
    -------
    LooseBar
    """
    if corner.setup.adjuster is None:
        held = [_arm_held(corner, *ends) for ends in (corner.travel, corner.stops)]
        return LooseBar(slack_end=None, slack_distance=None, damper_on=held[0], damper_off=held[1])
    turns = slack_end(corner)
    return LooseBar(
        slack_end=quantity(turns, TURNS),
        slack_distance=quantity(float(corner.setting_at_turns(turns)), LENGTH),
        damper_on=None,
        damper_off=None,
    )


def _arm_held(corner: Corner, lowest: float, highest: float) -> ArmHeld:
    """Hold an arm between two angles [rad], as near as can be to where its bar is loose."""
    share, radius = float(corner.plane.vertical_share), metres(corner.setup.arm.radius)
    free = corner.free_angle
    rise = share * radius * (math.sin(free) - math.sin(lowest))
    angle = min(max(free, lowest), highest)
    return ArmHeld(
        height=quantity(float(corner.height(angle)), LENGTH), joint_rise=quantity(rise, LENGTH)
    )
