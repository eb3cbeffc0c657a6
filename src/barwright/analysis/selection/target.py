"""What a goal comes to on a corner: a rate, a frequency, or the most of something."""

from __future__ import annotations

import attrs

from barwright.analysis.corner.corner import Corner
from barwright.analysis.rates.rates import Rates, rates_of
from barwright.errors import JobError
from barwright.parts.chassis import AxlePlace
from barwright.parts.setup import Setup
from barwright.parts.wanted import Goal, Wanted
from barwright.units import FREQUENCY, WHEEL_RATE, Quantity, quantity, si

__all__ = ["Target", "target_of"]


@attrs.frozen
class Target:
    """A figure to reach.

    Parameters
    ----------
    figure : Quantity
        A rate at the wheel, or a ride frequency.
    """

    figure: Quantity
    is_frequency: bool

    def reached(self, answer: Rates) -> float:
        """Return what a corner reaches over the target.

        Raises
        ------
        NoFigureError
            N201 if it has no such figure.
        """
        if self.is_frequency:
            return si(answer.ride_frequency, FREQUENCY) / si(self.figure, FREQUENCY)
        return si(answer.wheel_rate, WHEEL_RATE) / si(self.figure, WHEEL_RATE)


def target_of(goal: Goal, present: Setup, now: Rates) -> Target | None:
    """Return the figure that a goal comes to.

    Parameters
    ----------
    goal : Goal
        The goal.
    present : Setup
        The corner now.
    now : Rates
        Its rates at the wanted height.

    Returns
    -------
    Target or None
        None of an extreme.

    Raises
    ------
    JobError
        S207 for a ratio of the axles where the vehicle has one axle with torsion bars.
    """
    if goal.wheel_rate is not None:
        return Target(goal.wheel_rate, is_frequency=False)
    if goal.rate_change is not None:
        rate = si(now.wheel_rate, WHEEL_RATE) * (1.0 + goal.rate_change / 100.0)
        return Target(quantity(rate, WHEEL_RATE), is_frequency=False)
    if goal.ride_frequency is not None:
        return Target(goal.ride_frequency, is_frequency=True)
    if goal.front_to_rear is not None:
        return Target(_beside_the_other_axle(goal.front_to_rear, present), is_frequency=True)
    return None


def _beside_the_other_axle(front_to_rear: float, present: Setup) -> Quantity:
    """Frequency that makes a ratio with that of the other axle."""
    others = [axle for axle in present.chassis.axles if axle.place is not present.axle.place]
    if not others:
        raise JobError(
            "S207",
            value="front_to_rear",
            expected="a vehicle with torsion bars at both axles",
            remedy="give the ride frequency itself",
            key="goal.front_to_rear",
        )
    other = Setup.standard(present.chassis, axle=others[0], side=present.side)
    beside = si(rates_of(Corner(other), Wanted()).ride_frequency, FREQUENCY)
    is_front = present.axle.place is AxlePlace.FRONT
    return quantity(beside * front_to_rear if is_front else beside / front_to_rear, FREQUENCY)
