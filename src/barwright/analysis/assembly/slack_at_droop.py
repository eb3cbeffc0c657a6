"""Bars that go slack at full droop: a caution, or a refusal of the plan."""

from __future__ import annotations

from barwright.analysis.finding import Finding, Topic
from barwright.parts.anchor import FixedSocket, KeyLever
from barwright.parts.setup import Setup
from barwright.units import ANGLE, quantity

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


def unheld_lever(setup: Setup, *, droop_twist: float) -> tuple[Finding, ...]:
    """Report a plan whose key lever hangs loose at full droop.

    A key lever sits on its bar and leans on its bolt.  A slack bar lets it drop off the
    bolt, unless the pack names what else holds it.

    Parameters
    ----------
    setup : Setup
        The corner.
    droop_twist : float
        Of its bar at full droop, with the plan carried out [rad].

    Returns
    -------
    tuple of Finding
        Empty where the bar stays wound, or something else holds the lever.
    """
    if not only_bar_holds_lever(setup) or not goes_slack(setup, droop_twist=droop_twist):
        return ()
    return (
        Finding(
            topic=Topic.SLACK,
            text="only the bar holds the key lever on its bolt, and it goes slack before full "
            "droop: the lever may drop off. A damper that opens less would keep it on",
            figure=quantity(droop_twist, ANGLE),
            limit=quantity(0.0, ANGLE),
        ),
    )
