"""Sentences on the arm: how it is held, lifted and let down, its damper and its ball joint.

What they ask for beside the bar itself is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from barwright.analysis.reindex.assembly import Assembly
from barwright.analysis.reindex.loose_bar import ArmHeld, LooseBar
from barwright.analysis.reindex.unloading import JointParting
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.suspension import (
    DoubleWishboneMounting,
    StrutMounting,
    SwingArmMounting,
)
from barwright.units import shown

__all__ = [
    "arm_freed",
    "arm_joined",
    "damper_off",
    "damper_on",
    "hose_back",
    "hose_freed",
    "lifted",
    "parting_texts",
]


def _has_strut(setup: Setup) -> bool:
    return isinstance(setup.axle.suspension, StrutMounting)


def _carries_wheel(setup: Setup) -> bool:
    return isinstance(setup.axle.suspension, SwingArmMounting)


def _jack(setup: Setup) -> str:
    return "under the ball joint" if _has_strut(setup) else "under the arm's outer end"


# -- The damper -------------------------------------------------------------------------


def hose_freed(setup: Setup) -> str:
    """Say what must be free before the arm goes lower than it does on the road."""
    return (
        "Free the brake hose and the leads, so that nothing pulls on them where the arm goes "
        f"lower than the damper lets it.{_shaft_supported(setup)}"
    )


def arm_freed(setup: Setup) -> str:
    """Say what is freed from an arm that comes off, and what is held meanwhile."""
    if _carries_wheel(setup):
        return f"Part {_brake_and_shaft(setup)} from the arm."
    return (
        f"Free the brake hose and the leads from the arm.{_shaft_supported(setup)} Tie up the "
        "carrier, so that it neither tips nor hangs on the brake hose."
    )


def hose_back(setup: Setup) -> str:
    """Say that what was freed from an arm goes back in its place."""
    shaft = _drive_shaft(setup)
    seated = f" Check that the joints of {shaft} are whole." if shaft else ""
    return f"Put the brake hose and the leads back in their place.{seated}"


def arm_joined(setup: Setup) -> str:
    """Say that what was freed from an arm that came off goes back."""
    if _carries_wheel(setup):
        return f"Join {_brake_and_shaft(setup)} to the arm again, and bleed the brake."
    return hose_back(setup)


def _shaft_supported(setup: Setup) -> str:
    shaft = _drive_shaft(setup)
    return f" Support {shaft}, so that no joint of it is pulled apart." if shaft else ""


def _brake_and_shaft(setup: Setup) -> str:
    shaft = _drive_shaft(setup)
    return f"the brake hose, the leads and {shaft}" if shaft else "the brake hose and the leads"


def _drive_shaft(setup: Setup) -> str:
    """Name the wheel's drive shaft; empty where it has none."""
    drive, place = setup.chassis.drive, setup.axle.place
    if drive in ("all", place.value):
        return "the drive shaft"
    return "" if drive in _NOT_DRIVEN[place] else "the drive shaft (if there is one)"


_NOT_DRIVEN = {AxlePlace.FRONT: ("none", "rear"), AxlePlace.REAR: ("none", "front")}
"""Drives of vehicles whose axle has no drive shaft; of any other word nothing is known."""


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


def lifted(way: Assembly, loose: LooseBar, setup: Setup) -> str:
    """Say to which place the arm is lifted, at which a bar in a fixed socket takes no torque.

    Parameters
    ----------
    way : Assembly
        With the damper on or off.
    loose : LooseBar
        Where the arm is held for that.
    setup : Setup
        The corner.
    """
    damper, at = ("on", loose.damper_on) if way.damper_fitted else ("off", loose.damper_off)
    held = cast("ArmHeld", at)  # known with a fixed socket
    # Without its strut a carrier may stand anyhow, and the hub with it.
    by_joint = _has_strut(setup) and not way.damper_fitted
    place = _joint_place(held) if by_joint else _hub_place(held, way)
    return f"With the damper {damper}, hold the arm with a jack {_jack(setup)} so that {place}"


def _hub_place(held: ArmHeld, way: Assembly) -> str:
    return (
        f"hub to arch measures {shown(held.height, 0)}, {shown(way.lift, 0)} less than where the "
        "arm hangs at its stop"
    )


def _joint_place(held: ArmHeld) -> str:
    return (
        f"the ball joint stands {shown(held.joint_rise, 0)} higher than where the arm hangs at "
        "its own stop"
    )


# -- The arm below its stop ---------------------------------------------------------------


def parting_texts(parting: JointParting, setup: Setup) -> Iterator[str]:
    """Say how the ball joint is parted, what that lets go, and how far the arm comes down."""
    yield (
        f"With the damper off the bar still holds {shown(parting.torque, 0)} "
        f"({shown(parting.energy, 0)}) and presses the arm's outer end down with "
        f"{shown(parting.downward_force, 0)}: keep hands and face out of the arm's swing."
    )
    if not _has_strut(setup):  # a strut's carrier was tied up as the strut came off
        yield "Tie up the carrier, so that it neither tips nor hangs on the brake hose."
    yield (
        "Set a jack under the arm's outer end and let it carry the arm. Strap the arm up to the "
        "chassis as well, so that the jack does not hold it alone."
    )
    yield (
        f"Slacken the nut of {_joint_parted(setup)} by a few turns, leave it on, and break the "
        "taper: it parts suddenly."
    )
    yield (
        "Take that nut off. Ease jack and strap together and let the arm down slowly: its outer "
        f"end drops by {shown(parting.drop, 0)}, measured straight down from where it hung, until "
        "the bar carries no torque."
    )
    yield (
        "Only if a stop of the chassis holds the arm before that: lift it again, put joint and "
        "damper back and stop. No further safe way is known."
    )


def _joint_parted(setup: Setup) -> str:
    if isinstance(setup.axle.suspension, DoubleWishboneMounting):
        return "the lower ball joint, at the outer end of the arm that holds the bar,"
    return "the ball joint at the arm's outer end"
