"""Sentences on the arm: how it is held, lifted and let down, its damper and its ball joint.

What they ask for beside the bar itself is common practice, no source.
"""

from __future__ import annotations

import math

from barwright.analysis.assembly import Assembly
from barwright.analysis.model import CornerModel
from barwright.analysis.unloading import Parting
from barwright.parts.setup import Setup
from barwright.parts.suspension import (
    DoubleWishboneMounting,
    StrutMounting,
    SwingArmMounting,
)
from barwright.units import ANGLE, LENGTH, Quantity, System, in_system, quantity, shown, si

__all__ = [
    "damper_off",
    "damper_on",
    "hose_freed",
    "lifted",
    "parted",
    "tied_up",
]


def _has_strut(setup: Setup) -> bool:
    return isinstance(setup.axle.suspension, StrutMounting)


def _jack(setup: Setup) -> str:
    return "under the ball joint" if _has_strut(setup) else "under the arm's outer end"


# -- The damper -------------------------------------------------------------------------


def hose_freed(setup: Setup) -> str:
    """Say what must be free before the arm goes lower than it does on the road."""
    shaft = "" if setup.chassis.drive == "none" else ", and mind the drive shaft, if there is one"
    return (
        "Free the brake hose and the leads, so that nothing pulls on them where the arm goes "
        f"lower than the damper lets it{shaft}."
    )


def damper_off(setup: Setup) -> str:
    """Say how the damper comes off; a strut leaves its carrier without a hold."""
    steadied = (
        " while the carrier is steadied, and tie the carrier up so that it cannot tip"
        if _has_strut(setup)
        else ""
    )
    return (
        f"Hold the arm up with a jack {_jack(setup)}, take the damper off, and let the arm down "
        f"slowly to its own stop{steadied}."
    )


def damper_on(setup: Setup) -> str:
    """Say how the damper goes on."""
    return (
        f"Lift the arm with a jack {_jack(setup)} until the damper goes on, and fit it "
        f"({setup.damper.title})."
    )


# -- The arm above its stop ---------------------------------------------------------------


def lifted(way: Assembly, setup: Setup, system: System) -> str:
    """Say to which place the arm is lifted, at which a bar in a fixed socket takes no torque.

    Parameters
    ----------
    way : Assembly
        With the damper on or off.
    setup : Setup
        The corner with the clocking at which the bar is loose there.
    system : {"metric", "inch"}
        Units of the lengths.
    """
    damper = "on" if way.damper_on else "off"
    # Without its strut a carrier may stand anyhow, and the hub with it.
    by_joint = _has_strut(setup) and not way.damper_on
    held = _joint_place(way, setup, system) if by_joint else _hub_place(way, setup, system)
    return f"With the damper {damper}, hold the arm with a jack {_jack(setup)} so that {held}"


def _hub_place(way: Assembly, setup: Setup, system: System) -> str:
    hanging = float(CornerModel(setup).height(si(way.arm_angle, ANGLE)))
    height = _length(hanging - si(way.lift, LENGTH), system)
    return (
        f"hub to arch measures {shown(height, 0)}, {shown(way.lift, 0)} less than where the arm "
        "hangs at its stop"
    )


def _joint_place(way: Assembly, setup: Setup, system: System) -> str:
    rise = _rise(setup, si(way.arm_angle, ANGLE), CornerModel(setup).free_angle)
    return (
        f"the ball joint stands {shown(_length(rise, system), 0)} higher than where the arm hangs "
        "at its own stop"
    )


# -- The arm below its stop ---------------------------------------------------------------


def parted(parting: Parting, setup: Setup) -> str:
    """Say how the ball joint is parted, and how far its place must come down."""
    joint = (
        "the lower ball joint, at the outer end of the arm that holds the bar,"
        if isinstance(setup.axle.suspension, DoubleWishboneMounting)
        else "the ball joint at the arm's outer end"
    )
    return (
        f"{tied_up(setup)} Jack under the arm's outer end, part {joint} and let the arm down "
        f"slowly: the joint's place on the arm must come {shown(parting.drop, 0)} "
        "straight below where it hangs now, measured to the floor. If a stop of the chassis holds "
        "the arm before that, lift it again, put joint and damper back and stop here: this sheet "
        "then knows no safe way."
    )


def tied_up(setup: Setup) -> str:
    """Say that the carrier is tied up; an arm that carries its wheel has none."""
    if isinstance(setup.axle.suspension, SwingArmMounting):
        return ""
    return "Tie up the carrier, so that it neither tips nor hangs on the brake hose."


def _rise(setup: Setup, low: float, high: float) -> float:
    """Rise [m] of the arm's outer end between two arm angles [rad]."""
    return si(setup.arm.radius, LENGTH) * (math.sin(high) - math.sin(low))


def _length(metres: float, system: System) -> Quantity:
    return in_system(quantity(metres, LENGTH), system)
