r"""Many corners at rest, all at once: the first place of each that :func:`statics.settle` finds.

Newton's method starts where the load curve's two ends, with their slopes, put the root, and goes
on with the corners that have not settled.  Where a second place of rest is not ruled out
(:mod:`barwright.mechanics.corner.single_root`), the travel is looked along as for one corner.
What is found of a corner depends on no other one.
"""

from __future__ import annotations

from typing import Any

import attrs
import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.interval import Bounded, Interval, parts
from barwright.mechanics.common.many import at_rows, bounds, bounds_inside
from barwright.mechanics.common.one_or_many import some
from barwright.mechanics.common.solve import first_root, rising_root
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.single_root import View, least_stiffness, rests_once
from barwright.mechanics.corner.springs import Bushing, GasForce, Spring
from barwright.mechanics.linkage.arm_and_strut import Linkage

__all__: list[str] = []

_Array = NDArray[np.float64]
_Flags = NDArray[np.bool_]

# Newton's steps before a corner is left to bisection.
_STEPS = 6

# A step that is shorter leads to the root: the next one would be about its square, or, where a
# spring may make contact on the way, a part of it [rad].
_SHORT, _SHORT_TO_CONTACT = 3e-8, 1e-12

# Two ways to the same root agree to this; where the load curve is nearly level, the search knows
# better [rad].
_SAME = 1e-12

# Parts of the travel that bounds are taken over: of all corners together, and of each.
_PARTS_OF_ALL = 8
_PARTS_OF_EACH = 4


@attrs.frozen(eq=False, kw_only=True)
class LoadedCorners:
    """Corners, each with its load on.

    Parameters
    ----------
    linkage : Linkage
        Their suspension, by directions.
    free_angle : float or array [rad]
        Arm angle at which the bar carries no torque.
    rate : float or array [N·m/rad]
        Torsional rate of bar and tube.
    load : float or array [N]
        Sprung load.
    droop, bump : float or array [rad]
        Limits of the arm's travel.
    springs : sequence of Spring
        Springs besides the bar.
    holds_both_ways : bool
        Whether the anchor holds torque in both senses.
    """

    linkage: Linkage
    free_angle: Real
    rate: Real
    load: Real
    droop: Real
    bump: Real
    springs: tuple[Spring, ...]
    holds_both_ways: bool = False

    @property
    def wound_from(self) -> Real:
        """Arm angle [rad] of the travel from which on the bar is wound."""
        if self.holds_both_ways:
            return self.droop
        if not some(np.greater(self.free_angle, self.droop)):
            return self.droop
        return np.clip(self.free_angle, self.droop, self.bump)

    @property
    def is_smooth(self) -> bool:
        """Whether no spring makes contact anywhere."""
        return all(isinstance(spring, GasForce | Bushing) for spring in self.springs)

    def unbalanced(self, angle: Real) -> tuple[Real, Real]:
        """Torque [N·m] at an arm angle that the load does not balance, and its change."""
        motion = self.linkage.motion(angle)
        twist, wound = angle - self.free_angle, self.rate
        if not self.holds_both_ways:
            is_wound = np.greater(twist, 0.0)
            twist, wound = twist * is_wound, wound * is_wound
        torque, stiffness = self.rate * twist, wound
        for spring in self.springs:
            of_spring = spring.hold(motion)
            torque, stiffness = torque + of_spring[0], stiffness + of_spring[1]
        return (
            torque - self.load * motion.load.slope,
            stiffness - self.load * motion.load.curvature,
        )


def settle_many(corners: LoadedCorners) -> _Array:
    """Find where many corners rest when their load is lowered on from full droop.

    Parameters
    ----------
    corners : LoadedCorners
        The corners.

    Returns
    -------
    array [rad]
        Arm angles, as of :func:`barwright.mechanics.corner.statics.settle`.

    Raises
    ------
    NotConvergedError
        N101 if a corner does not settle: a fault of the program.

    References
    ----------
    Newton's method; held against :func:`barwright.mechanics.corner.statics.settle` corner by
    corner.

    Examples
    --------
    >>> from barwright.mechanics.linkage.algebraic import algebraic
    >>> from barwright.mechanics.linkage.arm_and_strut import SwingArm
    >>> arm = SwingArm((0.4, 0.0), (0.4, 0.0), (0.3, 0.0), (0.3, 0.4))
    >>> loads = np.array([2500.0, 2600.0])
    >>> angles = settle_many(LoadedCorners(linkage=algebraic(arm), free_angle=-0.3125, rate=3200.0,
    ...                                    load=loads, droop=-0.4, bump=0.4, springs=()))
    >>> [f"{abs(angle):.4f}" for angle in angles]
    ['0.0000', '0.0125']
    """
    # Of bounds that are infinite nothing follows.
    with np.errstate(divide="ignore", over="ignore", invalid="ignore"):
        return _settled(corners)


def _settled(corners: LoadedCorners) -> _Array:
    start = corners.wound_from
    at_start, at_bump = (corners.unbalanced(x) for x in (start, corners.bump))
    angles = _balanced(corners, start, at_start, at_bump)
    doubtful = ~proven_to_rest_once(corners, at_slack=at_start[0])
    if doubtful.any():
        left, own = at_rows(corners, doubtful), angles[doubtful]
        first = first_root(left.unbalanced, low=left.droop, high=left.bump)
        angles[doubtful] = np.where(np.abs(own - first) <= _SAME, own, first)
    return angles


# -- Newton's method ------------------------------------------------------------------------


def _balanced(
    corners: LoadedCorners, low: Real, at_low: tuple[Real, Real], at_high: tuple[Real, Real]
) -> _Array:
    """Place of rest of each corner: of several some one, and an end of the travel without any."""
    starts_below = np.less(at_low[0], 0.0)
    is_between = starts_below & np.greater(at_high[0], 0.0)
    stays_below = starts_below & np.less_equal(at_high[0], 0.0)
    start = _start(corners, low, at_low, at_high)
    start = np.where(is_between, start, corners.bump)
    angles, has_settled = _newton(corners, start, low, ~is_between)
    others = ~((is_between & has_settled) | stays_below)
    if others.any():
        left = at_rows(corners, others)
        angles[others] = rising_root(left.unbalanced, low=left.droop, high=left.bump)
    return angles


def _start(
    corners: LoadedCorners, low: Real, at_low: tuple[Real, Real], at_high: tuple[Real, Real]
) -> _Array:
    """Where a cubic through the load curve's ends, with their slopes, puts the root."""
    rise, width = at_high[0] - at_low[0], corners.bump - low
    share = -at_low[0] / rise
    # The bar is wound from the low end on.
    wound = np.where(np.less_equal(low, corners.free_angle), corners.rate, 0.0)
    if corners.holds_both_ways:
        wound = np.asarray(0.0)
    of_low, of_high = rise / (at_low[1] + wound), rise / at_high[1]
    left = 1.0 - share
    bent = low + share * (
        left * (left * of_low - share * of_high) + share * (3.0 - 2.0 * share) * width
    )
    straight = low + share * width
    is_good = (bent > low) & (bent < corners.bump)
    found: _Array = np.where(is_good, bent, straight)
    return found


def _newton(
    corners: LoadedCorners, angles: _Array, low: Real, is_done: _Flags, *, steps: int = _STEPS
) -> tuple[_Array, _Flags]:
    """Place that Newton's method leads each to that is not done, and whether it has settled."""
    short = _SHORT if corners.is_smooth else _SHORT_TO_CONTACT
    for step in range(steps):
        if 2 * np.count_nonzero(is_done) > is_done.size:
            return _newton_of_others(corners, angles, low, is_done, steps=steps - step)
        value, slope = corners.unbalanced(angles)
        change = value / slope
        following = np.minimum(np.maximum(angles - change, low), corners.bump)
        angles = np.where(is_done, angles, following)
        is_done = is_done | (np.abs(change) <= short)
    return angles, is_done


def _newton_of_others(
    corners: LoadedCorners, angles: _Array, low: Real, is_done: _Flags, *, steps: int
) -> tuple[_Array, _Flags]:
    """Go on with those that are not done."""
    others = ~is_done
    if others.any():
        left, least = at_rows((corners, low), others)
        angles[others], is_done[others] = _newton(
            left, angles[others], least, is_done[others], steps=steps
        )
    return angles, is_done


# -- Whether there is another one -----------------------------------------------------------


def proven_to_rest_once(corners: LoadedCorners, *, at_slack: Real) -> _Flags:
    """Tell which corners are proven to have one place of rest at most.

    Parameters
    ----------
    corners : LoadedCorners
        The corners.
    at_slack : array [N·m]
        Torque that is not balanced where the bar begins to be wound.

    Returns
    -------
    array of bool

    References
    ----------
    Interval arithmetic, over the travel of all corners together, and of each that is left; held
    against a search in fine steps over a million random corners.
    """
    certain = np.array(np.broadcast_to(_proven(corners, at_slack, of_all=True), np.shape(at_slack)))
    others = ~certain
    if others.any():
        certain[others] = _proven(*at_rows((corners, at_slack), others), of_all=False)
    return certain


def _proven(corners: LoadedCorners, at_slack: Real, *, of_all: bool) -> _Flags:
    linkage = bounds_inside(corners.linkage) if of_all else corners.linkage
    view: View = bounds if of_all else _as_it_is
    over = linkage.motion(_parts(corners, of_all=of_all))
    least = np.min(least_stiffness(corners.springs, over=over, view=view), axis=0)
    curvature: Any = over.load.curvature
    bent = Interval(np.min(curvature.low, axis=0), np.max(curvature.high, axis=0))
    return rests_once(
        rate=corners.rate,
        least=least,
        softening=(bent * corners.load).high,
        slack=corners.wound_from - corners.droop,
        at_slack=at_slack,
        holds_both_ways=corners.holds_both_ways,
    )


def _parts(corners: LoadedCorners, *, of_all: bool) -> Any:  # noqa: ANN401 - an interval of angles
    """Parts of the travel along the leading axis, of all corners together or of each."""
    if of_all:
        low, high = np.min(corners.droop), np.max(corners.bump)
        return parts(low=low, high=high, number=_PARTS_OF_ALL)
    low, high = np.atleast_1d(corners.droop), np.atleast_1d(corners.bump)
    return parts(low=low, high=high, number=_PARTS_OF_EACH)


def _as_it_is(value: Real) -> Bounded:
    return value
