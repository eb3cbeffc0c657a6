"""In which sense an adjuster is turned to raise the vehicle, and where its thread is slack."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.mechanics.spline.clocking import TurningSense

__all__ = ["raising_sense", "slack_end"]


def raising_sense(corner: Corner) -> TurningSense:
    """Return the sense that raises the vehicle: the one that turns the lever droopward.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster.

    Returns
    -------
    TurningSense
        Seen from the bolt's free end, or from the head of a bolt that is itself turned.
    """
    slope = float(corner.anchorage.slope(corner.lever_middle))
    clockwise_is_droopward = corner.setting_per_turn / slope < 0.0
    sense = TurningSense.CLOCKWISE
    return sense if clockwise_is_droopward else sense.reversed


def slack_end(corner: Corner) -> float:
    """Return the turns from the middle of the thread to its slack end, clockwise positive.

    Parameters
    ----------
    corner : Corner
        A corner with an adjuster.

    Returns
    -------
    float
    """
    low, high = corner.turns_span
    return low if raising_sense(corner) is TurningSense.CLOCKWISE else high
