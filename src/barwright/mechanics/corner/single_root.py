r"""Proof that a corner has one place of rest at most, for many corners at once.

The torque that is not balanced, :math:`U = T + \sum_i T_i - F z'`, changes with the arm angle by

.. math:: U' = k + \sum_i \frac{\mathrm{d}T_i}{\mathrm{d}\varphi} - F z''

where the bar is wound, and by as much less :math:`k` where it is slack.  With the least that
:math:`U'` can be over the whole travel, by interval arithmetic, a second place of rest is ruled
out where :math:`U` rises wherever the bar is wound and, wherever it is slack, rises too or stays
below zero: from where the bar goes slack down to droop it rises by no more than :math:`-U'` allows.

Assumed as in :mod:`barwright.mechanics.corner.statics`.  What is not proven here may still be so.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Any, TypeAlias, cast

import numpy as np
from numpy.typing import NDArray

from barwright.mechanics.common.interval import Bounded, Interval, square
from barwright.mechanics.common.types import Real
from barwright.mechanics.corner.springs import BumpStop, Bushing, GasForce, HelperSpring, Spring
from barwright.mechanics.linkage.arm_and_strut import Motion

__all__: list[str] = []

View: TypeAlias = Callable[[Real], Bounded]
"""How a figure of many corners is looked at: as it is, or as the interval that holds them all."""

# Share of the bar's rate by which the torque must rise, so that rounding cannot decide.
_ROOM = 0.01


def least_stiffness(springs: Sequence[Spring], *, over: Motion, view: View) -> Real:
    """Least change of the torque of all springs beside the bar with the arm angle.

    Parameters
    ----------
    springs : sequence of Spring
        The springs.
    over : Motion
        Bounds of the linkage over a stretch of travel.
    view : callable
        How a figure of many corners is looked at.

    Returns
    -------
    float or array [N·m/rad]
        No spring changes by less anywhere in that stretch; infinite where nothing is known.
    """
    found: Real = sum((_LEAST[type(spring)](spring, over, view) for spring in springs), start=0.0)
    return found


def rests_once(
    *,
    rate: Real,
    least: Real,
    softening: Real,
    slack: Real,
    at_slack: Real,
    holds_both_ways: bool = False,
) -> NDArray[np.bool_]:
    """Tell which corners are proven to have one place of rest at most.

    Parameters
    ----------
    rate : float or array [N·m/rad]
        Torsional rate of bar and tube.
    least : float or array [N·m/rad]
        What :func:`least_stiffness` gives over the whole travel.
    softening : float or array [N·m/rad]
        The most that the load's lever takes from the stiffness there, :math:`F z''`.
    slack : float or array [rad]
        Stretch of the travel, from droop, in which the bar is slack; 0 or less if there is none.
    at_slack : float or array [N·m]
        Torque that is not balanced where it ends.
    holds_both_ways : bool
        Whether the bar is nowhere slack.

    Returns
    -------
    array of bool

    References
    ----------
    Derived in this project; held against a search in fine steps over random corners.

    Examples
    --------
    >>> bool(rests_once(rate=3200.0, least=-40.0, softening=500.0, slack=0.0, at_slack=0.0))
    True
    >>> bool(rests_once(rate=3200.0, least=-3000.0, softening=500.0, slack=0.0, at_slack=0.0))
    False
    """
    loose = least - softening
    rises = loose + rate > _ROOM * rate
    if holds_both_ways:
        return np.asarray(rises)
    there = np.greater(slack, 0.0)
    below = at_slack + np.maximum(-loose, 0.0) * np.maximum(slack, 0.0) < 0.0
    return np.asarray(rises & (~there | below | (loose > _ROOM * rate)))


def _of_gas(gas: GasForce, over: Motion, view: View) -> Real:
    slope = view(gas.slope)
    force = view(gas.force) + slope * (over.damper_length - view(gas.at_length))
    held = force * over.damper_curvature + slope * square(over.damper_slope)
    return -cast("Interval", held).high


def _of_bushing(bushing: Bushing, _: Motion, view: View) -> Real:
    least: Real = (view(bushing.rate) + Interval(0.0, 0.0)).low
    return least


def _of_stop(stop: BumpStop, over: Motion, view: View) -> Real:
    """Least of all parts of the table that are reached, and of a stop that is not met."""
    pressed, slope, curvature = _pressed(stop, over, view)
    least: Real = 0.0
    points = list(zip(stop.compressions, stop.forces, strict=True))
    ends = [*(force for _, force in points[1:-1]), np.inf]
    for ((start, force), (following, beyond)), most in zip(pairwise(points), ends, strict=True):
        rate = (beyond - force) / (following - start)
        reached = np.maximum(pressed.high - start, 0.0)
        held = Interval(force, np.minimum(force + rate * reached, most)) * curvature
        least = np.where(reached > 0.0, np.minimum(least, (held + square(slope) * rate).low), least)
    return least


def _pressed(stop: BumpStop, over: Motion, view: View) -> tuple[Interval, Any, Any]:
    """Bounds of a stop's compression, with its derivatives with the arm angle."""
    if stop.at_height is not None:
        hub = over.hub
        return cast("Any", hub.height) - view(stop.at_height), hub.slope, hub.curvature
    if stop.at_angle is not None:
        radius = view(cast("Real", stop.radius))
        nothing = Interval(0.0, 0.0)
        pressed = radius * (cast("Any", over.angle) - view(stop.at_angle))
        return pressed, radius + nothing, nothing
    pressed = -cast("Any", over.damper_length) + view(cast("Real", stop.at_length))
    return pressed, -cast("Any", over.damper_slope), -cast("Any", over.damper_curvature)


def _of_coil(coil: HelperSpring, over: Motion, view: View) -> Real:
    if coil.arm_point is not None:
        return -np.inf
    rate = view(coil.rate)
    room = view(coil.free_length) + view(coil.seat_offset)
    pressed = np.maximum((-cast("Any", over.damper_length) + room).high, 0.0)
    over_length = square(over.damper_slope) - Interval(0.0, pressed) * over.damper_curvature
    least: Real = np.minimum((over_length * rate).low, 0.0)
    return least


_LEAST: dict[type[Spring], Callable[[Any, Motion, View], Real]] = {
    GasForce: _of_gas,
    Bushing: _of_bushing,
    BumpStop: _of_stop,
    HelperSpring: _of_coil,
}
