"""Bars that go slack at full droop: a caution, or a refusal of the plan."""

from __future__ import annotations

import math

from barwright.analysis.corner.corner import Corner
from barwright.analysis.finding import Finding, Topic
from barwright.mechanics.common.one_or_many import plain
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.setup import Setup
from barwright.units import LENGTH, quantity

__all__ = ["goes_slack", "only_bar_holds_lever", "unheld_lever"]


def goes_slack(setup: Setup, *, droop_twist: float) -> bool:
    """Answer whether the bar goes slack before full droop.

    Parameters
    ----------
    setup : Setup
        The corner.
    droop_twist : float
        Of its bar at full droop [rad].

    Returns
    -------
    bool
        Never with a fixed socket, which holds the bar both ways.
    """
    return not isinstance(setup.anchor, FixedSocket) and droop_twist <= 0.0


def only_bar_holds_lever(setup: Setup) -> bool:
    """Answer whether nothing but the bar holds a corner's lever on its bolt.

    Parameters
    ----------
    setup : Setup
        The corner.

    Returns
    -------
    bool
    """
    return isinstance(setup.anchor, KeyLever) and not setup.anchor.held_by


def unheld_lever(corner: Corner, *, droop_twist: float) -> tuple[Finding, ...]:
    """Report a plan whose key lever hangs loose at full droop, and which damper would end that.

    A key lever sits on its bar and leans on its bolt.  A slack bar lets it drop off the
    bolt, unless the pack names what else holds it.

    Parameters
    ----------
    corner : Corner
        The corner.
    droop_twist : float
        Of its bar at full droop, with the plan carried out [rad].

    Returns
    -------
    tuple of Finding
        Empty where the bar stays wound, or something else holds the lever.
    """
    setup = corner.setup
    if not only_bar_holds_lever(setup) or not goes_slack(setup, droop_twist=droop_twist):
        return ()
    return (
        Finding(
            topic=Topic.SLACK,
            text="only the bar holds the key lever on its bolt, and it goes slack before full "
            "droop: the lever may drop off. A damper with less open length keeps it on",
            figure=setup.damper.open_length,
            limit=quantity(_longest_open_length(corner, droop_twist), LENGTH),
        ),
    )


def _longest_open_length(corner: Corner, droop_twist: float) -> float:
    """Open length [m] of a damper that stops the arm while the bar is still wound.

    Rounded down by 0.1 mm to 1.1 mm, so that a figure that is read off, in inches too, is safe.
    """
    low, high = corner.travel
    # Nothing lies between the arm and a key lever but the bar: it is slack where its twist ends.
    slack_from = min(low - droop_twist, high)
    length = plain(corner.linkage.motion(slack_from).damper_length)
    return math.floor(1e3 * length - 0.1) / 1e3
