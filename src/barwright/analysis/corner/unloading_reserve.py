"""By how much the slackest nut can unload a bar beyond what is needed."""

from __future__ import annotations

from barwright.analysis.corner.corner import Corner
from barwright.mechanics.common.one_or_many import lowest, plain
from barwright.mechanics.common.types import Real

__all__ = ["to_spare", "unloading_reserve"]


def unloading_reserve(corner: Corner, *, clocked_angle: float, damper_on: bool) -> float:
    """Arm angle [rad] that a bar has to spare beyond what unloads it, with the arm hanging.

    Parameters
    ----------
    corner : Corner
        The corner.
    clocked_angle : float
        Free angle beyond the lever's [rad].
    damper_on : bool
        Whether the damper holds the arm, or only the chassis' own stop.

    Returns
    -------
    float
        Negative where the bar keeps a torque.  With a fixed socket, how far the free angle
        lies within the travel.
    """
    limits = corner.travel if damper_on else corner.stops
    free = corner.lever_span[1] + clocked_angle
    return plain(to_spare(free, limits=limits, holds_both_ways=corner.anchorage.holds_both_ways))


def to_spare(free_angle: Real, *, limits: tuple[Real, Real], holds_both_ways: bool) -> Real:
    """Return the same for the free angle [rad] that the slackest nut gives.

    Parameters
    ----------
    free_angle : float or array
        The free angle [rad], or that of each of many corners.
    limits : (float or array, float or array)
        Of the travel: droop and bump [rad].
    holds_both_ways : bool
        Whether the anchors do.

    Returns
    -------
    float or array [rad]
    """
    hang, highest = limits
    spare = free_angle - hang
    return lowest(spare, highest - free_angle) if holds_both_ways else spare
