"""Uncertainty of the unloading reserve, from the tolerances of a corner's figures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.analysis.corner.corner import Corner, Span
from barwright.analysis.corner.once_a_corner import once_a_corner
from barwright.analysis.corner.rests_on import of_either_side
from barwright.analysis.corner.unloading_reserve import to_spare
from barwright.analysis.tolerance.plan_tolerance import uncertainty_at_ends
from barwright.analysis.tolerance.shifted_corners import tolerance_ends

__all__ = ["unloading_reserve_uncertainty"]

Array: TypeAlias = NDArray[np.float64]


def unloading_reserve_uncertainty(
    corner: Corner, *, clocked_angle: float, damper_on: bool
) -> float:
    """Return the ± of the unloading reserve that the slackest nut leaves.

    Parameters
    ----------
    corner : Corner
        The corner, whose bar lies in both sockets.
    clocked_angle : float
        Free angle beyond the lever's [rad].
    damper_on : bool
        Whether the damper holds the arm, or only the chassis' own stop.

    Returns
    -------
    float [rad]
        0 if no figure has a tolerance.

    Raises
    ------
    QuantityError
        Q303 for a tolerance so wide that at neither of its ends there is such a corner.

    Notes
    -----
    A bar that carries no torque asks for neither a rate nor a load.

    References
    ----------
    As for :class:`~barwright.analysis.tolerance.plan_tolerance.PlanUncertainty`.
    """
    slack = _slackest(corner)
    found = to_spare(
        slack.levers + (slack.keyed + (clocked_angle - corner.keyed_angle)),
        limits=slack.travel if damper_on else slack.stops,
        holds_both_ways=corner.anchorage.holds_both_ways,
    )
    return uncertainty_at_ends(tolerance_ends(corner), np.asarray(found))


@attrs.frozen(eq=False, kw_only=True)
class _Slackest:
    """Corners at the ends of the tolerances with their nuts at the slackest, as arrays [rad].

    Parameters
    ----------
    levers, keyed : array
        Angle of the lever, and free angle beyond it with the blanks on their keys.
    travel, stops : (array, array)
        Droop and bump with the damper on, and with it off.
    """

    levers: Array
    keyed: Array
    travel: tuple[Array, Array]
    stops: tuple[Array, Array]


@once_a_corner(of_either_side)
def _slackest(corner: Corner) -> _Slackest:
    there = tolerance_ends(corner).there
    return _Slackest(
        levers=np.array([end.lever_span[1] for end in there]),
        keyed=np.array([end.keyed_angle for end in there]),
        travel=_limits([end.travel for end in there]),
        stops=_limits([end.stops for end in there]),
    )


def _limits(spans: Sequence[Span]) -> tuple[Array, Array]:
    lower, upper = np.array(spans).T
    return lower, upper
