r"""Position of a bar between its two sockets, and its engagement in each.

Axial coordinate ``s`` from the arm socket's face that looks away from the
anchor, toward the anchor.  Splines and sockets are intervals on it; the bar is
rigid, and slides between stops that touch the ends of its noses.  Of all
positions the one is sought that serves the worse of the two ends best, each by
its own requirement, and more than what is required counts for nothing.

Assumed: splines that mate, teeth of full depth over the whole length, faces
square to the axis.  Chamfers, run-outs and a groove for a retaining ring shorten
a real spline: give the length that is left.
"""

from __future__ import annotations

from typing import TypeAlias

import attrs
import numpy as np

from barwright.mechanics.common.one_or_many import chosen, highest, lowest
from barwright.mechanics.common.types import Real

__all__ = ["AxialLayout", "Seating", "seat"]


@attrs.frozen
class AxialLayout:
    """A bar's splines and their sockets, along the bar axis.

    Parameters
    ----------
    bar_length : float or array [m]
        Over both splines, from outer edge to outer edge.
    arm_spline, anchor_spline : float or array [m]
        Lengths of the bar's splines.
    arm_nose, anchor_nose : float or array [m]
        Plain noses beyond the splines.
    arm_socket, anchor_socket : float or array [m]
        Lengths of the sockets' splines.
    anchor_position : float or array [m]
        Where the anchor socket begins; the arm socket begins at 0.
    arm_required, anchor_required : float or array [m]
        Engagement that is asked for; above zero.
    arm_stop, anchor_stop : float or array [m]
        Least position of the arm-side end of the bar and greatest position of
        its anchor-side end, noses included; infinite where nothing stops it.
        The bar must have room between them.
    """

    bar_length: Real
    arm_spline: Real
    anchor_spline: Real
    arm_socket: Real
    anchor_socket: Real
    anchor_position: Real
    arm_required: Real
    anchor_required: Real
    arm_nose: Real = 0.0
    anchor_nose: Real = 0.0
    arm_stop: Real = -np.inf
    anchor_stop: Real = np.inf


@attrs.frozen
class Seating:
    """Position of a bar, and how well it engages.

    Parameters
    ----------
    position : float or array [m]
        Of the outer edge of the arm-end spline.
    low, high : float or array [m]
        Interval of positions that are as good.
    ratio : float or array
        Smaller of the two ratios of engagement to requirement, at most 1; zero
        or less, but for rounding, if an end has no overlap.
    arm_engagement, anchor_engagement : float or array [m]
        Overlap of spline and socket.
    arm_protrusion, anchor_protrusion : float or array [m]
        What sticks out beyond each socket's outer face, noses included.
    inner_edges : pair of float or array [m]
        The engaged edges between which the bar is free to twist.
    bare_arm_head, bare_anchor_head : float or array [m]
        Un-engaged lengths of head between them.
    """

    position: Real
    low: Real
    high: Real
    ratio: Real
    arm_engagement: Real
    anchor_engagement: Real
    arm_protrusion: Real
    anchor_protrusion: Real
    inner_edges: tuple[Real, Real]
    bare_arm_head: Real
    bare_anchor_head: Real


def seat(layout: AxialLayout) -> Seating:
    r"""Best axial position of a bar between its stops.

    The smaller of the two ratios of engagement to required engagement, each
    capped at 1, is maximised.  Each ratio rises from the position ``lo`` where
    its overlap begins, :math:`(p - lo_i)/r_i`, and falls to the one where it
    ends, :math:`(hi_j - p)/r_j`; a rising and a falling line meet at the height
    :math:`(hi_j - lo_i)/(r_i + r_j)`, and the lowest such height is the optimum.

    Among equal positions: at a stop if one is reached, else with least
    protrusion, else nearest to zero.

    Parameters
    ----------
    layout : AxialLayout
        Bar, sockets and stops.

    Returns
    -------
    Seating

    References
    ----------
    Piecewise-linear optimum in one variable; checked against a dense search.

    Examples
    --------
    >>> standard = AxialLayout(bar_length=0.80, arm_spline=0.04, anchor_spline=0.04,
    ...                        arm_socket=0.04, anchor_socket=0.04, anchor_position=0.76,
    ...                        arm_required=0.03, anchor_required=0.03)
    >>> where = seat(standard)
    >>> f"{where.arm_engagement * 1000:.1f} mm of both, ratio {where.ratio:.2f}"
    '40.0 mm of both, ratio 1.00'
    """
    rising, falling = _lines(layout)
    least, most = _room(layout)
    meetings = [(end - begin) / (r + q) for begin, r in rising for end, q in falling]
    at_most = [(most - begin) / r for begin, r in rising]
    at_least = [(end - least) / q for end, q in falling]
    ratio = lowest(1.0, *_full_ratios(layout), *meetings, *at_most, *at_least)

    low = -lowest(-least, *(-begin - ratio * r for begin, r in rising))
    high = lowest(most, *(end - ratio * q for end, q in falling))
    # Rounding may cross the two where only one position is best.
    low, high = lowest(low, high), highest(low, high)
    return _seated(layout, _preferred(layout, low, high), low, high, ratio)


# A line of an overlap: the position at which it is zero, and the requirement it is counted in.
_Line: TypeAlias = tuple[Real, Real]


def _lines(x: AxialLayout) -> tuple[list[_Line], list[_Line]]:
    """Lines on which the two ratios rise, and those on which they fall."""
    anchor_begins = x.anchor_position - x.bar_length
    anchor_ends = x.anchor_position + x.anchor_socket - x.bar_length + x.anchor_spline
    rising = [(-x.arm_spline, x.arm_required), (anchor_begins, x.anchor_required)]
    falling = [(x.arm_socket, x.arm_required), (anchor_ends, x.anchor_required)]
    return rising, falling


def _room(x: AxialLayout) -> tuple[Real, Real]:
    """Least and greatest position that the stops leave."""
    return x.arm_stop + x.arm_nose, x.anchor_stop - x.bar_length - x.anchor_nose


def _full_ratios(x: AxialLayout) -> tuple[Real, Real]:
    """Ratios where spline or socket lies in the other with its whole length."""
    arm = lowest(x.arm_spline, x.arm_socket) / x.arm_required
    anchor = lowest(x.anchor_spline, x.anchor_socket) / x.anchor_required
    return arm, anchor


# Rounding of a length that is made of several others [m].
_ROUNDING = 1e-12


def _preferred(x: AxialLayout, low: Real, high: Real) -> Real:
    """One of several equally good positions."""
    least, most = _room(x)
    flush_arm = x.arm_nose
    flush_anchor = x.anchor_position + x.anchor_socket - x.bar_length - x.anchor_nose
    tidy_from = _within(lowest(flush_arm, flush_anchor), low, high)
    tidy_to = _within(highest(flush_arm, flush_anchor), low, high)
    tidiest = _within(0.0, tidy_from, tidy_to)
    off_the_arm = chosen(most - high < _ROUNDING, high, tidiest)
    position: Real = chosen(low - least < _ROUNDING, low, off_the_arm)
    return position


def _within(value: Real, low: Real, high: Real) -> Real:
    """Nearest value between two limits."""
    return lowest(highest(value, low), high)


def _seated(x: AxialLayout, position: Real, low: Real, high: Real, ratio: Real) -> Seating:
    """Everything that follows from a position."""
    end = position + x.bar_length
    arm_head = position + x.arm_spline
    anchor_head = end - x.anchor_spline
    anchor_face = x.anchor_position + x.anchor_socket
    arm_edge = lowest(arm_head, x.arm_socket)
    anchor_edge = highest(anchor_head, x.anchor_position)
    return Seating(
        position=position,
        low=low,
        high=high,
        ratio=ratio,
        arm_engagement=highest(0.0, arm_edge - highest(position, 0.0)),
        anchor_engagement=highest(0.0, lowest(end, anchor_face) - anchor_edge),
        arm_protrusion=highest(0.0, x.arm_nose - position),
        anchor_protrusion=highest(0.0, end + x.anchor_nose - anchor_face),
        inner_edges=(arm_edge, anchor_edge),
        bare_arm_head=arm_head - arm_edge,
        bare_anchor_head=anchor_edge - anchor_head,
    )
