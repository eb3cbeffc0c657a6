"""Turns of the nuts that come nearest to heights and a cross weight."""

from __future__ import annotations

import itertools
import math

import attrs
import numpy as np

from barwright.analysis.balancing.balance_answer import BalanceAim
from barwright.analysis.balancing.standing import Resting, StandingVehicle
from barwright.analysis.reindex.plan.uncut_trial import CLOSE_ENOUGH
from barwright.analysis.reindex.preference import FLATS
from barwright.mechanics.corner.statics import STANDARD_GRAVITY
from barwright.mechanics.vehicle.balance import (
    cross_weight,
    cross_weight_change,
    nearest_settings,
    self_stress,
)
from barwright.mechanics.vehicle.static_equilibrium import influence
from barwright.mechanics.vehicle.vehicle import Array

__all__ = ["NOT_WORTH_CHASING", "Wish", "is_met", "turns_for", "warp_of"]

NOT_WORTH_CHASING = 5.0
"""Mass at a wheel [kg] that no nut is turned for.  Common practice, no source."""


@attrs.frozen(kw_only=True, eq=False)
class Wish:
    """Wanted heights and a wanted cross weight, and what the nuts are set for.

    Parameters
    ----------
    aim : BalanceAim
        What counts.
    heights : array (4,) [m]
        Wanted at each corner; NaN where none is wanted.
    cross : float
        Wanted share of the front right and rear left wheels.
    """

    aim: BalanceAim
    heights: Array
    cross: float


# How much each wish counts by its aim: heights, cross weight.  What does not count only
# decides among settings that are as good.
_WEIGHTS = {
    BalanceAim.HEIGHTS: (1.0, 1e-3),
    BalanceAim.CROSS_WEIGHT: (1e-3, 1.0),
    BalanceAim.BOTH: (1.0, 1.0),
}


def is_met(wish: Wish, resting: Resting, *, total: float) -> bool:
    """Whether a vehicle stands near enough to a wish that no nut is turned for it.

    Parameters
    ----------
    wish : Wish
        Heights and cross weight.
    resting : Resting
        How it stands.
    total : float
        Mass on all scales [kg].

    Returns
    -------
    bool
    """
    stance = resting.stance
    off = _posed(wish, resting) @ np.nan_to_num(wish.heights - stance.heights)
    close = float(np.max(np.abs(off))) <= CLOSE_ENOUGH + _ROUNDING
    level = wish.aim is BalanceAim.CROSS_WEIGHT or close
    chased = abs(float(cross_weight(stance.loads)) - wish.cross) * total * _most(resting)
    even = wish.aim is BalanceAim.HEIGHTS or chased <= NOT_WORTH_CHASING
    return bool(level and even)


def warp_of(wish: Wish, resting: Resting) -> float:
    """Return how far four heights [m] lie off wanted ones in a way that no nut can mend.

    Parameters
    ----------
    wish : Wish
        Heights and cross weight.
    resting : Resting
        How it stands.

    Returns
    -------
    float
        The most at a corner; 0 where not all four heights are wanted.
    """
    off = np.nan_to_num(wish.heights - resting.stance.heights)
    return float(np.max(np.abs(off - _posed(wish, resting) @ off)))


def _posed(wish: Wish, resting: Resting) -> Array:
    """Return what leaves of height misses the part that heave, roll and pitch can mend.

    A rigid body has three heights to give.  Where all four are wanted, a warp among them is
    owed to arches or tyres that differ; to chase it would throw the cross weight far off.
    """
    stress = self_stress(resting.vehicle)
    if np.any(np.isnan(wish.heights)):
        return np.eye(len(stress))
    return np.asarray(np.eye(len(stress)) - np.outer(stress, stress) / (stress @ stress))


def turns_for(standing: StandingVehicle, wish: Wish) -> Array:
    """Find where the nuts have to be, to whole flats from where they are.

    Parameters
    ----------
    standing : StandingVehicle
        The vehicle.
    wish : Wish
        Heights and cross weight.

    Returns
    -------
    array
        Turns from mid-thread of the nuts that can be turned.

    References
    ----------
    Gauss and Newton's method, within the ends of the threads.
    """
    now, turns = standing.turns, standing.turns
    ends = np.array([standing.laws[corner].corner.turns_span for corner in standing.movable])
    total = float(np.sum(standing.loads))
    for _ in range(_ITERATIONS):
        matrix, missed = _equations(standing, wish, turns, total)
        step = nearest_settings(matrix, missed, low=ends[:, 0] - turns, high=ends[:, 1] - turns)
        turns = turns + step
    return now + _whole_flats(standing, wish, turns, ends) / FLATS


def _whole_flats(standing: StandingVehicle, wish: Wish, turns: Array, ends: Array) -> Array:
    """Choose whole flats on either side of the best turns: those that together miss least."""
    exact = (turns - standing.turns) * FLATS
    least, most = ((ends - standing.turns[:, None]) * FLATS).T
    matrix, missed = _equations(standing, wish, turns, float(np.sum(standing.loads)))
    pairs = [
        sorted({max(math.floor(one), math.ceil(low)), min(math.ceil(one), math.floor(high))})
        for one, low, high in zip(
            np.round(exact, _DIGITS), np.round(least, _DIGITS), np.round(most, _DIGITS), strict=True
        )
    ]
    choices = np.array(list(itertools.product(*pairs)), dtype=np.float64)
    off = (choices - exact) / FLATS @ matrix.T - missed
    return np.asarray(choices[int(np.argmin(np.sum(off**2, axis=-1)))])


def _equations(
    standing: StandingVehicle, wish: Wish, turns: Array, total: float
) -> tuple[Array, Array]:
    """How wishes follow the turns, and what they still miss, each over what may be missed."""
    resting, movable = standing.rest(turns), standing.movable
    heights = resting.stance.heights
    per_turn = np.array(
        [
            standing.laws[corner].free_height_per_turn(float(heights[corner]), turns=float(place))
            for corner, place in zip(movable, turns, strict=True)
        ]
    )
    of_heights, of_cross = _WEIGHTS[wish.aim]
    by_height = of_heights / CLOSE_ENOUGH
    by_cross = of_cross * total / STANDARD_GRAVITY * _most(resting) / NOT_WORTH_CHASING
    posed = _posed(wish, resting) * ~np.isnan(wish.heights)
    follows = posed @ influence(resting.vehicle).heights[:, movable] * per_turn
    crosses = cross_weight_change(resting.vehicle)[movable] * per_turn
    off = posed @ np.nan_to_num(wish.heights - heights)
    missed = wish.cross - float(cross_weight(resting.stance.loads))
    return (
        np.vstack([follows * by_height, crosses[None, :] * by_cross]),
        np.append(off * by_height, missed * by_cross),
    )


def _most(resting: Resting) -> float:
    """Return the share that one wheel at most has of what goes from diagonal to diagonal."""
    return float(np.max(np.abs(self_stress(resting.vehicle))))


# After so many, turns no longer change by a hundredth of a flat.
_ITERATIONS = 5
_ROUNDING = 1e-6
# Digits of a flat.
_DIGITS = 6
