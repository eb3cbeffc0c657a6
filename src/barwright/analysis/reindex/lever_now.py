"""Where the free angle is to go, counted from where the lever and the teeth are now.

Keys, blanks and the angle of the bolt about the bar drop out of the difference, and at the same
height under the same load the spring, the suspension and the load do too.
"""

from __future__ import annotations

from typing import Self, TypeAlias

import attrs

from barwright.analysis.corner.corner import Corner, radians
from barwright.analysis.rates.ride_height import free_angle_for, wanted_angle
from barwright.parts.adjuster import FixedLineMounting, KeyBoltMounting, SwivellingMounting
from barwright.parts.setup import Setup
from barwright.parts.wanted import Wanted

Mounting: TypeAlias = SwivellingMounting | FixedLineMounting | KeyBoltMounting

__all__ = ["LeverNow", "can_be_counted", "from_its_bolt", "start_of", "with_nut_of"]


def from_its_bolt(setup: Setup) -> Setup:
    """Let the lever's angles count from the direction of its bolt's pivot or foot.

    The same bolt is where it is, whatever its angle about the bar.

    Parameters
    ----------
    setup : Setup
        A corner with an adjuster.

    Returns
    -------
    Setup
        The same where it was measured with another adjuster.
    """
    adjuster, readings = setup.adjuster, setup.readings
    if adjuster is None or any(reading.setup.adjuster != adjuster for reading in readings):
        return setup
    level = attrs.evolve(adjuster, mounting=_level(adjuster.mounting))
    levelled = [
        attrs.evolve(reading, setup=attrs.evolve(reading.setup, adjuster=level))
        for reading in readings
    ]
    return attrs.evolve(setup, adjuster=level).with_readings(levelled)


def _level(mounting: Mounting) -> Mounting:
    if isinstance(mounting, SwivellingMounting):
        return attrs.evolve(mounting, pivot_angle="0 deg")
    return attrs.evolve(mounting, foot_angle="0 deg")


@attrs.frozen(eq=False, kw_only=True)
class LeverNow:
    """A corner, and the clocking that it is to have, counted from the present one.

    Parameters
    ----------
    corner : Corner
        As it is to be.
    there : Corner
        As it is now, or as it was when it was measured.
    offset : float
        Wanted free angle [rad], from where it is with both blanks on their keys and the
        lever at angle 0.
    rotation : float
        What the present clocking adds to that [rad].
    """

    corner: Corner
    there: Corner
    offset: float
    rotation: float

    @classmethod
    def of(cls, setup: Setup, *, start: Setup, wanted: Wanted) -> Self | None:
        """Find it without any figure that drops out.

        Parameters
        ----------
        setup : Setup
            The corner as it is to be, with an adjuster.
        start : Setup
            The corner that angles count from, of :func:`start_of`.
        wanted : Wanted
            Where it is to stand.

        Returns
        -------
        LeverNow, optional
            None where a height must be measured, or is out of travel, and where the lever
            does not reach its bolt.
        """
        corner = Corner(setup)
        there = corner.beside(start)
        if not (corner.lever_closes and there.lever_closes):
            return None
        change = _free_angle_change(corner, there, wanted)
        if change is None:
            return None
        rotation = there.clocking_steps * there.step
        offset = there.nut_lever + rotation + _keys_moved(corner, there) + change
        return cls(corner=corner, there=there, offset=offset, rotation=rotation)


def start_of(setup: Setup, *, present: Setup) -> Setup:
    """Return the corner that angles count from: as it was measured, else as it is now.

    Parameters
    ----------
    setup : Setup
        The corner as it is to be, the nut where it is now.
    present : Setup
        The corner as it is now; where nothing was measured, with the same parts and load.

    Returns
    -------
    Setup
    """
    if setup.reading is not None:
        return setup.reading.corner
    return attrs.evolve(setup, arm_tooth=present.arm_tooth, anchor_tooth=present.anchor_tooth)


def with_nut_of(setup: Setup, present: Setup) -> Setup:
    """Return a corner with the nut where it is now: its ± then moves it wherever it counts.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.

    Returns
    -------
    Setup
    """
    place = {name: getattr(present, name) for name in ("nut_turns", "pin_distance", "about")}
    return attrs.evolve(setup, **place)


def can_be_counted(setup: Setup, *, present: Setup) -> bool:
    """Whether angles can be counted from the present ones.

    Parameters
    ----------
    setup, present : Setup
        The corner as it is to be, and as it is now.

    Returns
    -------
    bool
        False where nothing was measured and other parts hold the bar, or another load or gas
        force twists it.
    """
    if setup.reading is not None:
        return True
    return setup.adjuster == present.adjuster and _carrying(setup) == _carrying(present)


def _keys_moved(corner: Corner, there: Corner) -> float:
    """How much nearer keys and blanks bring the free angle now than with the other parts [rad]."""
    new, old = corner.setup, there.setup
    moved = 0.0
    if new.arm != old.arm:
        moved += radians(new.arm.socket.key_angle) - radians(old.arm.socket.key_angle)
    if new.anchor != old.anchor:
        moved -= radians(new.anchor.socket.key_angle) - radians(old.anchor.socket.key_angle)
    if new.bar != old.bar:
        turned = radians(new.bar.blank_angle) - radians(old.bar.blank_angle)
        moved -= corner.sense * turned
    return moved


def _free_angle_change(corner: Corner, there: Corner, wanted: Wanted) -> float | None:
    """How far the free angle must move [rad]; none where a height is needed to tell."""
    heights = [reading.height for reading in corner.setup.readings]
    is_read = wanted.height is not None and heights == [wanted.height]
    stays = is_read or (wanted.same_height and len(heights) < 2)  # noqa: PLR2004 - the only one
    if stays and _carrying(corner.setup) == _carrying(there.setup):
        return 0.0
    rates, angle = corner.torsional_rates, None
    if heights and rates is not None:
        angle = wanted_angle(corner, wanted)
    if rates is None or angle is None:
        return None
    return free_angle_for(corner, rates, angle) - there.nut_lever - corner.read_angle


def _carrying(setup: Setup) -> tuple[object, ...]:
    """List what decides how far a corner's arm turns its bar at one height."""
    return setup.axle, setup.arm, setup.bar, setup.anchor, setup.damper.gas, setup.load
