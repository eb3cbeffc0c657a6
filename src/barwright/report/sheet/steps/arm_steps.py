"""Steps on the arm: how it is held, lifted and let down, its damper and its ball joint.

What they ask for beside the bar itself is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import cast

from barwright.analysis.assembly.assembly import Assembly
from barwright.analysis.assembly.loose_bar import ArmHeld, LooseBar
from barwright.analysis.assembly.unloading import JointParting
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.suspension import (
    DoubleWishboneMounting,
    StrutMounting,
    SwingArmMounting,
)
from barwright.report.sheet.steps.step import CornerStep, only_if
from barwright.units import shown

__all__ = [
    "arm_freed",
    "arm_joined",
    "damper_off",
    "damper_on",
    "hose_back",
    "hose_freed",
    "joint_parted",
    "lifted",
]


def _has_strut(setup: Setup) -> bool:
    return isinstance(setup.axle.suspension, StrutMounting)


def _carries_wheel(setup: Setup) -> bool:
    return isinstance(setup.axle.suspension, SwingArmMounting)


def _jack(setup: Setup) -> str:
    return "under the ball joint" if _has_strut(setup) else "under its outer end"


# -- The damper -------------------------------------------------------------------------


def hose_freed(setup: Setup) -> Iterator[CornerStep]:
    """Say what must be free before the arm goes lower than it does on the road."""
    shaft = _drive_shaft(setup)
    yield CornerStep(
        "Free the brake hose and the cables{shaft}.", shaft=f"; support {shaft}" if shaft else ""
    )


def arm_freed(setup: Setup) -> Iterator[CornerStep]:
    """Say what is freed from an arm that comes off, and what is held meanwhile."""
    if _carries_wheel(setup):
        yield CornerStep("Part {what} from the arm.", what=_brake_and_shaft(setup))
        return
    yield CornerStep("Free the brake hose and the cables from the arm.")
    yield from _shaft_supported(setup)
    yield _carrier_tied()


def hose_back(setup: Setup) -> CornerStep:
    """Say that what was freed from an arm goes back in its place."""
    if shaft := _drive_shaft(setup):
        return CornerStep(
            "Refit hose and cables. Check that no joint of {shaft} came apart.", shaft=shaft
        )
    return CornerStep("Refit the brake hose and the cables.")


def arm_joined(setup: Setup) -> Iterator[CornerStep]:
    """Say that what was freed from an arm that came off goes back."""
    if not _carries_wheel(setup):
        yield hose_back(setup)
        return
    yield CornerStep("Join {what} to the arm again.", what=_brake_and_shaft(setup))
    yield CornerStep("Bleed the brake.")


def _carrier_tied() -> CornerStep:
    return CornerStep("Tie up the wheel carrier: it must not tip or hang on the brake hose.")


def _shaft_supported(setup: Setup) -> Iterator[CornerStep]:
    if shaft := _drive_shaft(setup):
        yield CornerStep("Support {shaft}, so that its joints stay together.", shaft=shaft)


def _brake_and_shaft(setup: Setup) -> str:
    shaft = _drive_shaft(setup)
    return f"the brake hose, the cables and {shaft}" if shaft else "the brake hose and the cables"


def _drive_shaft(setup: Setup) -> str:
    """Name the wheel's drive shaft; empty where it has none."""
    drive, place = setup.chassis.drive, setup.axle.place
    if drive in ("all", place.value):
        return "the drive shaft"
    return "" if drive in _NOT_DRIVEN[place] else "the drive shaft (if there is one)"


_NOT_DRIVEN = {AxlePlace.FRONT: ("none", "rear"), AxlePlace.REAR: ("none", "front")}
"""Drives of vehicles whose axle has no drive shaft; of any other word nothing is known."""


def damper_off(setup: Setup, *, parts_joint: bool = False) -> Iterator[CornerStep]:
    """Say how the damper comes off; a strut leaves its carrier without a hold.

    Parameters
    ----------
    setup : Setup
        The corner.
    parts_joint : bool
        Whether the arm's joint is parted then, from where the arm hangs lowest.
    """
    if _has_strut(setup):
        yield CornerStep("Tie the wheel carrier up loosely: it may go down, but must not tip.")
    yield CornerStep("Jack the arm up {place} and take the damper off.", place=_jack(setup))
    # A bar in a fixed socket is loose above the stop, and is wound the other way below; but what
    # is lifted by its ball joint is measured from there.
    if setup.adjuster is not None or parts_joint or _has_strut(setup):
        yield CornerStep("Let the arm down slowly until the chassis stops it.")


def damper_on(setup: Setup, *, is_new: bool, then: str = "") -> CornerStep:
    """Say how the damper goes on, which one if it is another, and what is done then."""
    after = f" {then}" if then else ""
    if not is_new:
        return CornerStep(f"Jack the arm up until the damper goes on.{after}")
    return CornerStep(
        f"Jack the arm up until the damper goes on: {{damper}}.{after}", damper=setup.damper.title
    )


# -- The arm above its stop ---------------------------------------------------------------


def lifted(way: Assembly, loose: LooseBar, setup: Setup) -> CornerStep:
    """Say to which place the arm is lifted, at which a bar in a fixed socket takes no torque.

    Parameters
    ----------
    way : Assembly
        With the damper on or off.
    loose : LooseBar
        Where the arm is held for that.
    setup : Setup
        The corner.

    Returns
    -------
    CornerStep
    """
    damper, at = ("on", loose.damper_on) if way.damper_fitted else ("off", loose.damper_off)
    held = cast("ArmHeld", at)  # known with a fixed socket
    jack, where = _jack(setup), f"damper {damper}"
    # Without its strut a carrier may stand anyhow, and the hub with it.
    if _has_strut(setup) and not way.damper_fitted:
        return CornerStep(
            "With the {where}, hold the arm with a jack {jack} so that the ball joint stands "
            "{rise} higher than where the arm hangs on the chassis. The bar is loose only there.",
            where=where,
            jack=jack,
            rise=shown(held.joint_rise, 0),
        )
    return CornerStep(
        "With the {where}, hold the arm with a jack {jack} so that hub to arch measures {height}, "
        "{lift} less than where the arm hangs lowest. The bar is loose only there.",
        where=where,
        jack=jack,
        height=shown(held.height, 0),
        lift=shown(way.lift, 0),
    )


# -- The arm below its stop ---------------------------------------------------------------


def joint_parted(parting: JointParting, setup: Setup) -> Iterator[CornerStep]:
    """Say how the ball joint is parted, what that lets go, and how far the arm comes down."""
    yield CornerStep(
        "With the damper off, the bar still carries {torque} ({energy}) and presses the arm's "
        "outer end down with {force}: keep hands and face out of the arm's swing.",
        torque=shown(parting.torque, 0),
        energy=shown(parting.energy, 0),
        force=shown(parting.downward_force, 0),
    )
    if not _has_strut(setup):  # a strut's carrier was tied up as the strut came off
        yield _carrier_tied()
    yield CornerStep("Set a jack under the arm's outer end and let it carry the arm.")
    yield CornerStep(
        "Strap the arm up to the chassis as well, so that the jack does not hold it alone."
    )
    yield CornerStep(
        "Slacken the nut of {joint} by a few turns and leave it on.", joint=_parted_joint(setup)
    )
    yield CornerStep("Break the taper: it parts suddenly.")
    yield CornerStep("Take that nut off.")
    yield CornerStep(
        "Ease the jack and the strap together and let the arm down slowly: its outer end drops "
        "by {drop}, measured straight down from where it hung, until the bar carries no torque.",
        drop=shown(parting.drop, 0),
    )
    yield only_if(
        "a chassis stop holds the arm before that",
        "lift it again, put joint and damper back and stop. No further safe way is known.",
    )


def _parted_joint(setup: Setup) -> str:
    if isinstance(setup.axle.suspension, DoubleWishboneMounting):
        return "the lower ball joint, at the outer end of the arm that holds the bar,"
    return "the ball joint at the arm's outer end"
