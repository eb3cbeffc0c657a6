"""By how much the slackest nut can unload a bar beyond what is needed."""

from __future__ import annotations

import numpy as np

from barwright.analysis.corner.corner import Corner
from barwright.mechanics.common.one_or_many import plain

__all__ = ["unloading_reserve"]


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
    hang, highest = corner.travel if damper_on else corner.stops
    free = corner.lever_span[1] + clocked_angle
    spare = free - hang
    if not corner.anchorage.holds_both_ways:
        return spare
    return plain(np.minimum(spare, highest - free))
